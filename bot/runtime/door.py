"""How much one chat may send. Pure: the time is handed in, and the memory has a bound.

Who types at a normal pace never meets it. Calls for help and stop pass whatever came before.
"""

from collections import OrderedDict
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final

from bot.distress import hear
from bot.engine.buttons import STOP
from bot.engine.events import ChoiceTapped, Event, WordsEdited, WordsGiven
from bot.engine.hearing import perhaps_stop, stop
from bot.runtime.pace import Allowance, Bucket

ARRIVALS: Final = Allowance(burst=30, rate=0.5)
"""Of one chat: thirty at once, and thirty a minute from then on (design choice: a reading typed in
three messages, corrected and remarked upon is six in a minute)."""

CHATS: Final = 10_000
"""How many chats are remembered at most; the one unheard of for longest is forgotten first."""

LISTENED_TO: Final = 300
"""Characters of one message too many in which help is listened for (design choice: who calls for
help after thirty messages does not write long, and four thousand characters take a hundred times
as long to hear as forty)."""


class Answer(StrEnum):
    """What becomes of an arrival."""

    TAKEN = "taken"
    SAID_ONCE = "said-once"  # not taken, and they are told
    LEFT = "left"  # not taken; they were told before


@dataclass(slots=True)
class _Visitor:
    bucket: Bucket
    told: bool = False


@dataclass(slots=True)
class Door:
    """Knows how much of late came from whom."""

    _visitors: OrderedDict[str, _Visitor] = field(default_factory=OrderedDict)

    def knock(self, address: str, event: Event) -> Answer:
        """Decide whether an arrival is taken.

        Args:
            address: Where it comes from.
            event: What it is; its own time counts, so that what had to wait is no flood.
        """
        now = event.at.timestamp()
        visitor = self._visitors.get(address)
        if visitor is None:
            visitor = self._visitors[address] = _Visitor(Bucket(ARRIVALS, ARRIVALS.burst, now))
            if len(self._visitors) > CHATS:
                self._visitors.popitem(last=False)
        self._visitors.move_to_end(address)
        if visitor.bucket.look(now) >= 1:
            visitor.told = visitor.told and visitor.bucket.left < ARRIVALS.burst / 2
            visitor.bucket.left -= 1
            return Answer.TAKEN
        if cannot_wait(event):
            return Answer.TAKEN
        told, visitor.told = visitor.told, True
        return Answer.LEFT if told else Answer.SAID_ONCE

    def remembered(self) -> int:
        """Return how many chats are remembered."""
        return len(self._visitors)


def cannot_wait(event: Event) -> bool:
    """Whether an arrival may be a call for help, or a stop."""
    match event:
        case ChoiceTapped(token=token):
            return token == STOP.token
        case WordsGiven(text=text) | WordsEdited(text=text):
            part = text[:LISTENED_TO]
            return hear(part) is not None or stop(part) or perhaps_stop(part)
        case _:
            return False
