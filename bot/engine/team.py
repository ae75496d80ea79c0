"""What happens between a person and their care team, as events of the person's conversation.

Effects that go to the team are those of `TeamEffect`; who of the team is told what is decided in
`bot.care`, not here.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Final

from bot.protocol.definition import ProtocolRef

CODE: Final = "team-"
"""How the code begins by which somebody joins the team; no other code begins so."""


class Outlook(StrEnum):
    """What comes next, as the care team chose it."""

    CALL = "call"
    REPEAT = "repeat"
    FORMAL = "formal"
    NOTHING = "nothing"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class ResultSeen:
    """The care team has looked at a test and decided what comes next.

    Attributes:
        at: When.
        test: The number of the test.
        outlook: What comes next.
        words: That in the team's own words, if the clinic lets them be sent.
    """

    at: datetime
    test: int
    outlook: Outlook
    words: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamWrote:
    """The care team sends a message: one of the clinic's own, or its words if it allows them."""

    at: datetime
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RepeatAsked:
    """The care team asks for another test."""

    at: datetime


class Nudge(StrEnum):
    """What a person is reminded of by the care team: the next thing that is missing."""

    BOOK = "book"
    SECOND = "second"
    SEND = "send"


class Topic(StrEnum):
    """What the care team says a word about that is about no single test."""

    PROTOCOL = "protocol"
    PLAN = "plan"
    DONE = "done"


@dataclass(frozen=True, slots=True, kw_only=True)
class Nudged:
    """The care team reminds the person of what is missing, in the clinic's words."""

    at: datetime
    nudge: Nudge


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtocolSet:
    """The care team has chosen the protocol; it holds from the next test on."""

    at: datetime
    protocol: ProtocolRef


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanSet:
    """The care team has chosen which of the clinic's medicine plans is the person's."""

    at: datetime
    plan: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonClosed:
    """The care team is done with the person: no watch, no reminders; results stay."""

    at: datetime


TeamEvent = ResultSeen | TeamWrote | RepeatAsked | Nudged | ProtocolSet | PlanSet | PersonClosed


@dataclass(frozen=True, slots=True, kw_only=True)
class Submit:
    """Send the result of a test to the care team; the store knows its facts."""

    test: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeBack:
    """The care team may no longer open what the person has sent."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unheard:
    """The person, who has blocked the bot, does not hear what the care team had to say.

    Attributes:
        said_at: When the team said it.
    """

    said_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class LoseTouch:
    """The person has blocked the bot: whether the care team is told depends on where they stand.

    Attributes:
        told: Whether somebody of it is told already, since their words were lost by it.
    """

    told: bool


TeamEffect = Submit | TakeBack | Unheard | LoseTouch
