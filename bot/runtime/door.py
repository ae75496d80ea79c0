"""How much one chat may send, and all strangers together. Pure: the memory has a bound.

Who types at a normal pace never meets it. Calls for help and stop pass whatever came before. A
stranger is a chat of which nothing may be kept yet: nobody has agreed to anything there. However
many of them come, they crowd out nobody at their test. Who is known is asked of the store, once a
chat, and only when the strangers' allowance is used up.
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

STRANGERS: Final = Allowance(burst=200, rate=10)
"""Of all strangers together (design choice): a hundred people can agree to the consent at the same
time, and a flood takes some hundredths of what one process can take in."""

REGRETS: Final = Allowance(burst=5, rate=5 / 60)
"""Answers to those of whom it is not known whether they are strangers, that they were not heard
(design choice): messages are what the messenger gives one bot least of."""

CHATS: Final = 10_000
"""How many chats are remembered at most; the one unheard of for longest is forgotten first."""

LISTENED_TO: Final = 300
"""Characters of one message too many in which help is listened for (design choice: who calls for
help after thirty messages does not write long, and four thousand characters take a hundred times
as long to hear as forty)."""


class Answer(StrEnum):
    """What becomes of an arrival."""

    TAKEN = "taken"
    DEPENDS = "depends"  # on whether they are known: see `learn`, and knock again
    SAID_ONCE = "said-once"  # not taken, and they are told
    BUSY = "busy"  # not taken, since too many strangers come, and they are told
    LEFT = "left"  # not taken; they were told before


@dataclass(slots=True)
class _Visitor:
    bucket: Bucket
    told: bool = False
    known: bool | None = None  # `None` while nobody has looked since they were last let in


@dataclass(slots=True)
class Door:
    """Knows how much of late came from whom."""

    _visitors: OrderedDict[str, _Visitor] = field(default_factory=OrderedDict)
    _strangers: Bucket = field(default_factory=lambda: Bucket(STRANGERS, STRANGERS.burst, 0.0))
    _regrets: Bucket = field(default_factory=lambda: Bucket(REGRETS, REGRETS.burst, 0.0))

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
        of_theirs = visitor.bucket.look(now) >= 1
        if of_theirs and self._has_room_for(visitor, now):
            visitor.told = visitor.told and visitor.bucket.left < ARRIVALS.burst / 2
            visitor.bucket.left -= 1
            return Answer.TAKEN
        if cannot_wait(event):
            visitor.known = visitor.known or None
            return Answer.TAKEN
        if of_theirs and visitor.known is None:
            return Answer.DEPENDS
        if visitor.told or not self._may_regret(visitor, now):
            return Answer.LEFT
        visitor.told = True
        return Answer.BUSY if of_theirs else Answer.SAID_ONCE

    def learn(self, address: str, *, known: bool) -> None:
        """Take in whether a chat is known, as the store says.

        Args:
            address: The chat.
            known: Whether something may be kept of it.
        """
        if address in self._visitors:
            self._visitors[address].known = known

    def _has_room_for(self, visitor: _Visitor, now: float) -> bool:
        """Whether somebody is known, or the strangers may have one more; which is then used."""
        if visitor.known:
            return True
        if self._strangers.look(now) < 1:
            return False
        self._strangers.left -= 1
        visitor.known = None  # by what they say now they may become known
        return True

    def _may_regret(self, visitor: _Visitor, now: float) -> bool:
        """Whether somebody may be told; who is known always may."""
        if visitor.known:
            return True
        if self._regrets.look(now) < 1:
            return False
        self._regrets.left -= 1
        return True

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
