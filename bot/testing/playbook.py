"""A playbook: one conversation driven step by step, with a clock of its own.

    book = Playbook()
    book.opens().taps("20-and-over").taps("go")
    assert book.said == ("go.supine",)

Taps name the choice (`there`, `yes`, `stop`), not the whole token.
"""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from typing import Final

from bot.engine.context import Context
from bot.engine.deadlines import next_deadline
from bot.engine.effects import (
    Choice,
    Compare,
    Effect,
    Form,
    Hand,
    HandCalendar,
    HandCopy,
    HandSeries,
    OfferLink,
    Outgoing,
    Recall,
    Revise,
    Say,
    Trace,
)
from bot.engine.events import (
    ChoiceTapped,
    DeadlineReached,
    Event,
    Opened,
    WordsEdited,
    WordsGiven,
)
from bot.engine.machine import advance
from bot.engine.notices import Tell
from bot.engine.state import Conversation

START: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


class Playbook:
    """Drives one conversation through the engine.

    Attributes:
        conversation: As it stands.
        effects: What the last step caused.
        heard: Everything that was sent, in order.
        events: Everything that happened, in order.
        now: Its clock.
        attentive: Whether the person answers at once when asked if all is well.
    """

    def __init__(
        self,
        context: Context | None = None,
        *,
        locale: str = "en",
        start: datetime = START,
        attentive: bool = True,
    ) -> None:
        self.context = context or Context()
        self.beginning = Conversation(id="c", locale=locale)
        self.conversation = self.beginning
        self.effects: tuple[Effect, ...] = ()
        self.heard: list[Outgoing] = []
        self.events: list[Event] = []
        self.now = start
        self.attentive = attentive
        self._typed = 0

    # -- what the person does

    def opens(self) -> "Playbook":
        """The person opens the chat."""
        return self.happens(Opened(at=self.now))

    def types(self, text: str) -> "Playbook":
        """The person types."""
        self._typed += 1
        return self.happens(WordsGiven(at=self.now, text=text, source=str(self._typed)))

    def edits(self, source: int, text: str) -> "Playbook":
        """The person changes the message they typed as the `source`-th, counting from 1."""
        return self.happens(WordsEdited(at=self.now, text=text, source=str(source)))

    def taps(self, choice: str) -> "Playbook":
        """The person taps the newest button of that choice."""
        return self.happens(ChoiceTapped(at=self.now, token=self.token(choice)))

    def taps_day(self, ahead: int) -> "Playbook":
        """The person taps the day that is so many days from today (on a clock near UTC)."""
        return self.taps((self.now + timedelta(days=ahead)).date().isoformat())

    def taps_first(self) -> "Playbook":
        """The person taps the first button of the newest message that has any."""
        token = next(b.token for effect in reversed(self.heard) for b in _buttons(effect))
        return self.happens(ChoiceTapped(at=self.now, token=token))

    # -- what time does

    def waits(self, *, minutes: float = 0, seconds: float = 0) -> "Playbook":
        """Time passes; every deadline on the way is met at its instant.

        Somebody attentive answers at once when asked whether all is well, and that is not shown.
        """
        until = self.now + timedelta(minutes=minutes, seconds=seconds)
        caused: tuple[Effect, ...] = ()
        while (due := next_deadline(self.context, self.conversation)) is not None and due <= until:
            self.now = max(due, self.now)
            self.happens(DeadlineReached(at=self.now))
            if self.attentive and self.said == ("check.standing",):
                self.taps("fine")
            else:
                caused += self.effects
        self.now = until
        self.effects = caused
        return self

    def happens(self, event: Event) -> "Playbook":
        """One event happens."""
        transition = advance(self.context, self.conversation, event)
        self.conversation = transition.conversation
        self.effects = transition.effects
        self.events.append(event)
        self.heard += [e for e in transition.effects if isinstance(e, Outgoing)]
        return self

    # -- what to look at

    @property
    def said(self) -> tuple[str, ...]:
        """The keys of all paragraphs that the last step sent; forms stand as `hand.<form>`."""
        return tuple(_keys(self.effects))

    def token(self, choice: str) -> str:
        """Return the token of the newest button of that choice.

        Raises:
            AssertionError: No message had one.
        """
        for effect in reversed(self.heard):
            for button in _buttons(effect):
                if button.token == choice or button.token.endswith(f":{choice}"):
                    return button.token
        raise AssertionError(f"no message had a button for {choice!r}")

    # -- the usual way through

    def lies_down(self) -> "Playbook":
        """From the first hello to lying with the clock running (an adult)."""
        return self.opens().taps("20-and-over").taps("go").taps("there")

    def enrols(self) -> "Playbook":
        """From the first hello to choosing a day, in the full opening (an adult in Madrid)."""
        self.opens().taps("yes").taps("20-and-over").types("Madrid").taps("done").taps("done")
        return self.taps("upper-arm").taps("cuff").types("124/76 72")

    def books(self) -> "Playbook":
        """From the first hello to a test booked for the second day offered, at 9:00."""
        return self.enrols().taps_day(1).types("9:00").taps("yes")

    def copies(self) -> "Playbook":
        """From wherever no test runs to the last reading of a test on paper, of yesterday 9:00."""
        self.types("paper").types("yesterday 9:00").types("yes").taps("good")
        return self.types("120/76 70").types("118/76 74").types("116/78 98")

    def stands(self, supine: str = "120/76 70", seated: str = "118/76 74") -> "Playbook":
        """From the first hello to standing with the clock running."""
        self.lies_down().waits(minutes=5).types(supine).taps("there")
        return self.waits(minutes=5).types(seated).taps("there")


def _keys(effects: Iterable[Effect]) -> Iterable[str]:
    for effect in effects:
        match effect:
            case Say() | Revise():
                yield from (part.key for part in effect.parts)
            case Hand():
                yield f"hand.{effect.form}"
            case Recall():
                yield f"recall.{effect.form}"
            case Compare(form=form):
                yield "compare" if form is Form.SUMMARY else f"compare.{form}"
            case Trace(form=form) | HandSeries(form=form):
                yield f"trace.{form}"
            case HandCalendar():
                yield "calendar.off" if effect.cancelled else "calendar"
            case HandCopy():
                yield "copy"
            case OfferLink():
                yield "link"
            case Tell(notice=notice):
                yield f"tell.{notice}"
            case _:
                pass


def _buttons(effect: Outgoing) -> Iterable[Choice]:
    if not isinstance(effect, Say | Revise | Hand | Recall):
        return ()
    return (button for row in effect.choices for button in row)
