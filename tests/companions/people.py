"""Several people, each in their own chat, through the real conductor and the real store."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import count

from bot.engine.context import Context, Opening
from bot.engine.effects import Choice, Hand, OfferLink, Outgoing, Revise, Say
from bot.engine.events import (
    Blocked,
    ChoiceTapped,
    Event,
    Failure,
    Opened,
    Unblocked,
    WordsEdited,
    WordsGiven,
)
from bot.engine.profile import Profile
from bot.engine.state import Conversation
from bot.runtime.conductor import Conductor, Step
from bot.runtime.ports import Delivery, Inbound, Refused, Sent
from bot.store.sql import SqlStore
from bot.texts import language_for

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
_LEASE = timedelta(minutes=1)


class Person:
    """One person in one chat.

    Attributes:
        address: Where they are.
        blocked: Whether their chat takes no messages.
        got: What reached them, in order.
    """

    def __init__(self, town: "Town", name: str, language: str) -> None:
        self.address = f"test:{name}"
        self.blocked = False
        self.got: list[Outgoing] = []
        self._town = town
        self._language = language
        self._typed = 0
        self._read = 0

    def opens(self, code: str | None = None) -> "Person":
        """Open the chat, perhaps by a link."""
        return self._does(Opened(at=self._town.now, code=code))

    def types(self, *texts: str) -> "Person":
        """Type some messages."""
        for text in texts:
            self._typed += 1
            self._does(WordsGiven(at=self._town.now, text=text, source=str(self._typed)))
        return self

    def edits(self, text: str) -> "Person":
        """Change the newest message."""
        return self._does(WordsEdited(at=self._town.now, text=text, source=str(self._typed)))

    def taps(self, choice: str) -> "Person":
        """Tap the newest button whose token is, begins with or ends in some words."""
        return self._does(ChoiceTapped(at=self._town.now, token=self.token(choice)))

    def token(self, choice: str) -> str:
        """Return the token of the newest such button."""
        for effect in reversed(self.got):
            for button in buttons(effect):
                parts = button.token.split(":")
                if choice in (button.token, parts[0], parts[-1]):
                    return button.token
        raise AssertionError(f"no message had a button for {choice!r}: {self.read()[-6:]}")

    def read(self) -> list[str]:
        """Return the keys of all paragraphs that reached them, in order."""
        return [p.key for e in self.got if isinstance(e, Say | Revise) for p in e.parts]

    def new(self) -> list[str]:
        """Return the keys of what reached them since this was last asked."""
        keys = self.read()
        fresh, self._read = keys[self._read :], len(keys)
        return fresh

    def blocks(self) -> "Person":
        """Block the bot, which the channel tells at once."""
        self.blocked = True
        return self._does(Blocked(at=self._town.now))

    def unblocks(self) -> "Person":
        """Let the bot write again, without a word."""
        self.blocked = False
        return self._does(Unblocked(at=self._town.now))

    @property
    def link(self) -> str:
        """The newest link that they were given to pass on."""
        offers = [e.link for e in self.got if isinstance(e, OfferLink)]
        assert offers[-1] is not None
        return offers[-1]

    @property
    def conversation(self) -> Conversation:
        """Their conversation as the store holds it."""
        with self._town.store.unit() as unit:
            stored = unit.load(self.address)
        assert stored is not None
        return stored.conversation

    @property
    def profile(self) -> Profile:
        """What is known of them."""
        return self.conversation.profile

    @property
    def kept(self) -> bool:
        """Whether anything at all is kept of them."""
        with self._town.store.unit() as unit:
            return unit.load(self.address) is not None

    def store_readings(self) -> int:
        """Return how many readings are kept of their latest test that has ended."""
        return len(self._town.store.results(self.conversation.id)[-1].readings)

    def events(self) -> list[str]:
        """Return the kinds of events in their log."""
        history = self._town.store.history(self.conversation.id)
        return [type(event).__name__ for event in history.events]

    def _does(self, event: Event) -> "Person":
        self._town.arrives(self.address, event, self._language)
        return self


def buttons(effect: Outgoing) -> Iterator[Choice]:
    """Yield the buttons of a message."""
    if isinstance(effect, Say | Revise | Hand):
        for row in effect.choices:
            yield from row


class Town:
    """People, the conductor and a clock that stands until it is moved."""

    def __init__(self, store: SqlStore, opening: Opening = Opening.SHORT) -> None:
        self.store = store
        self.now = START
        self.people: dict[str, Person] = {}
        self._names, self._codes, self._keys = count(), count(), count()
        self.conductor = Conductor(
            store,
            Context(opening=opening),
            new_id=lambda: f"c{next(self._names)}x{len(self.people)}",
            language_for=language_for,
            new_code=lambda: f"{next(self._codes):024}",
        )
        self.last: Step | None = None

    def person(self, name: str, language: str = "en") -> Person:
        """Let somebody come to town."""
        person = Person(self, name, language)
        self.people[person.address] = person
        return person

    def arrives(self, address: str, event: Event, language: str) -> None:
        """Let something arrive, and deliver all that follows."""
        key = f"k{next(self._keys)}"
        self.last = self.conductor.handle(
            Inbound(key=key, address=address, event=event, language=language)
        )
        self.deliver()

    def deliver(self) -> None:
        """Deliver all that waits; what a blocked chat refuses is told to the conductor."""
        while (parcel := self.store.claim_parcel(self.now, _LEASE)) is not None:
            person = self.people[parcel.address]
            delivery: Delivery = Refused(blocked=True) if person.blocked else Sent(str(parcel.id))
            given_up = self.store.settle(parcel, delivery, self.now)
            if given_up:
                number = parcel.effect.number
                self.conductor.delivery_failed(
                    parcel.conversation_id, number, Failure.BLOCKED, self.now
                )
            else:
                person.got.append(parcel.effect)

    def waits(self, minutes: float) -> None:
        """Time passes; every alarm on the way rings."""
        until = self.now + timedelta(minutes=minutes)
        while due := self.store.sleepers(until):
            name, wake_at = due[0]
            self.now = max(wake_at, self.now)
            self.conductor.wake(name, self.now)
            self.deliver()
        self.now = until


def link(person: Person, companion: Person, share: str) -> None:
    """Link two people who have both been asked, and forget what was said so far."""
    person.types("companion").taps(share)
    companion.opens(person.link).taps("yes")
    person.new()
    companion.new()


def stands(town: Town, person: Person) -> None:
    """Take a person from the first hello to standing with the clock running."""
    lies(person)
    town.waits(5)
    person.types("120/76 70").taps("there")
    town.waits(5)
    person.types("118/76 74").taps("there")


def lies(person: Person) -> None:
    """Take a person from the first hello to lying with the clock running."""
    person.opens().types("43", "ready", "lying")
