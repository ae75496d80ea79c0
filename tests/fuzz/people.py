"""Somebody at the door who does anything at all: types, taps, edits, opens links, waits."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Final

from bot.engine.context import Context, Opening
from bot.engine.effects import Outgoing
from bot.engine.events import (
    ChoiceTapped,
    Event,
    Failure,
    Opened,
    Thing,
    ThingSent,
    WordsEdited,
    WordsGiven,
)
from bot.reports.presenting import present
from bot.runtime.conductor import Conductor
from bot.runtime.ports import Bubble, Delivery, Inbound, Refused, Sent, Unknown
from bot.store.codec import encode_conversation
from bot.testing.memory import MemoryStore
from bot.texts import language_for
from tests.fuzz.draw import Draw
from tests.fuzz.laws import hold_bubble
from tests.fuzz.texts import any_text

NOW: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
_LEASE: Final = timedelta(minutes=2)

_MOST_SAID: Final = 40
"""Messages that one event may lead to."""

_LARGEST: Final = 400_000
"""Characters of a conversation as it is stored, after some dozens of messages of 4096."""

_ROADS: Final[tuple[tuple[str, ...], ...]] = (
    (),
    ("34", "ready", "lying"),
    ("34", "ready", "lying", "+300", "120/76 70", "sitting", "+300", "118/76 74", "standing"),
    ("yes", "34", "Madrid", "none", "none", "wrist", "watch", "124/76 72"),
    ("yes", "34", "Madrid", "none", "none", "wrist", "watch", "124/76 72", "tomorrow 9", "yes"),
    (
        "34", "ready", "lying", "+300", "120/76 70", "sitting", "+300", "118/76 74", "standing",
        "+300", "116/78 98", "+300", "112/78 104",
    ),
)  # fmt: skip
"""Ways into the middle of things, before anything odd happens."""


@dataclass(slots=True)
class Somebody:
    """A person with a conductor, a store in memory and a chat with its own buttons.

    Attributes:
        now: What time it is.
        tokens: Every button that was ever shown.
        bubbles: Every message as they saw it.
    """

    opening: Opening = Opening.FULL
    now: datetime = NOW
    tokens: list[str] = field(default_factory=list)
    bubbles: list[Bubble] = field(default_factory=list)
    store: MemoryStore = field(default_factory=MemoryStore)
    _count: int = 0

    def conductor(self) -> Conductor:
        """Return the conductor."""
        context = Context(opening=self.opening, team=True)
        return Conductor(
            self.store, context, new_id=lambda: f"c{self._count:031}", language_for=language_for
        )

    def does(
        self,
        event: Event,
        address: str = "telegram:1",
        *,
        files: bool = False,
        draw: Draw | None = None,
    ) -> None:
        """Let something happen, and see what comes of it; with chance, some messages fail.

        Raises:
            AssertionError: What comes of it breaks a law.
        """
        self._count += 1
        self.conductor().handle(Inbound(key=str(self._count), address=address, event=event))
        self.gets(files=files, draw=draw)

    def gets(self, *, files: bool, draw: Draw | None = None) -> None:
        """See all that was sent; files are made only when asked for, as they take long."""
        said = 0
        while (parcel := self.store.claim_parcel(self.now, _LEASE)) is not None:
            said += 1
            assert said <= _MOST_SAID, "one event leads to a flood"
            if files or not _is_file(parcel.effect):
                bubble = present(parcel.effect, parcel.locale, parcel.kept)
                hold_bubble(bubble)
                self.bubbles.append(bubble)
                self.tokens += [token for row in bubble.rows for _, token in row]
            fate: Delivery = Sent(f"m{parcel.effect.number}")
            if draw is not None and draw.often(5):
                fate = Refused(blocked=draw.often(50)) if draw.often(50) else Unknown()
            if self.store.settle(parcel, fate, self.now):
                failure = Failure.UNKNOWN
                if isinstance(fate, Refused):
                    failure = Failure.BLOCKED if fate.blocked else Failure.REFUSED
                number = parcel.effect.number
                self.conductor().delivery_failed(parcel.conversation_id, number, failure, self.now)

    def waits(self, seconds: int) -> None:
        """Let time pass; what is due is done."""
        until = self.now + timedelta(seconds=seconds)
        for _ in range(200):
            due = self.store.sleepers(until)
            if not due:
                break
            name, at = due[0]
            self.now = max(self.now, at)
            self.conductor().wake(name, self.now)
            self.gets(files=False)
        self.now = until

    def comes(self, road: tuple[str, ...]) -> None:
        """Come some way as people do."""
        self.does(Opened(at=self.now))
        for step in road:
            if step.startswith("+"):
                self.waits(int(step))
            else:
                self.does(WordsGiven(at=self.now, text=step, source=str(self._count)))

    def hold(self) -> None:
        """Hold what is stored to what it may come to.

        Raises:
            AssertionError: It grew too large.
        """
        for conversation in self.store.conversations():
            assert len(encode_conversation(conversation)) < _LARGEST, "what is stored grows"


def _is_file(effect: Outgoing) -> bool:
    return type(effect).__name__ not in {"Say", "Revise", "OfferLink"}


def arrives(draw: Draw) -> Somebody:
    """Return somebody who has come some way."""
    road = draw.pick(_ROADS)
    opening = Opening.SHORT if road[:1] == ("34",) else Opening.FULL
    somebody = Somebody(opening=opening)
    somebody.comes(road)
    return somebody


def any_event(draw: Draw, somebody: Somebody, longest: int = 4096) -> Event:
    """Return anything at all that a chat can bring."""
    at = somebody.now
    match draw.below(8):
        case 0 | 1 | 2 | 3:
            source = str(draw.below(40))
            return WordsGiven(at=at, text=any_text(draw, longest), source=source)
        case 4:
            return WordsEdited(at=at, text=any_text(draw, longest), source=str(draw.below(40)))
        case 5:
            return ChoiceTapped(at=at, token=any_token(draw, somebody.tokens))
        case 6:
            code = any_text(draw, 64) if draw.often(80) else None
            return Opened(at=at, code=code)
        case _:
            return ThingSent(at=at, thing=draw.pick(tuple(Thing)))


def any_token(draw: Draw, shown: list[str]) -> str:
    """Return a button's token: one that was shown, now or long ago, one put together, or forged."""
    kind = draw.below(4)
    if kind == 0 or not shown:
        return any_text(draw, 64)
    token = draw.pick(shown[-200:])
    if kind == 1:
        return token
    if kind == 2:
        other = draw.pick(shown[-200:])
        return token[: draw.below(len(token) + 1)] + other[draw.below(len(other) + 1) :]
    place = draw.below(len(token) + 1)
    return (
        token[:place]
        + draw.pick(("0", "9", "-1", ":", ".", "é", "\ud800", ""))
        + token[place + 1 :]
    )
