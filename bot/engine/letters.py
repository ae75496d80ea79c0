"""What one person's conversation has to say to another's, between people who are linked.

A letter is an effect. It is handed over within the same unit of work, as an event of the
conversation it is for; see `post`. No letter carries the numbers of a reading to somebody who was
not to see them.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from bot.engine.profile import Share


class AlarmAnswer(StrEnum):
    """What a companion answers to an alarm."""

    WITH_THEM = "with-them"
    NOT_REACHED = "not-reached"


class Outcome(StrEnum):
    """What became of a companion's words about somebody's test."""

    KEPT = "kept"  # a reading
    PART = "part"  # part of one; the rest is waited for
    DOUBTED = "doubted"  # numbers that are asked about
    NOTED = "noted"  # something else that counts
    ASKED = "asked"  # whether stop, or help, was meant
    ENDED = "ended"  # the test is over
    UNCLEAR = "unclear"


@dataclass(frozen=True, slots=True, kw_only=True)
class Agree:
    """Somebody agrees to be a companion, by the link that was made at `offered_at`."""

    to: str
    share: Share
    offered_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Decline:
    """Somebody who was asked to be a companion does not want to; who it is is not told."""

    to: str
    offered_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Welcome:
    """A companion is linked now."""

    to: str
    share: Share


@dataclass(frozen=True, slots=True, kw_only=True)
class Unlink:
    """The person takes a companion's link back."""

    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Leave:
    """A companion goes."""

    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Relay:
    """A companion's words about the test of the person they stand by for.

    Attributes:
        to: Whose test.
        text: As it was typed.
        source: The channel's name of the message.
        edited: Whether it is a message as it was changed.
    """

    to: str
    text: str
    source: str
    edited: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What became of a companion's words.

    Attributes:
        to: The companion.
        outcome: What became of them.
        numbers: Those that were taken, for a companion who may type readings.
    """

    to: str
    outcome: Outcome
    numbers: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerAlarm:
    """A companion answers an alarm."""

    to: str
    answer: AlarmAnswer


@dataclass(frozen=True, slots=True, kw_only=True)
class Unreached:
    """A message did not reach the companion, whose chat takes none; perhaps it was an alarm."""

    to: str
    alarm: bool = True


Letter = Agree | Decline | Welcome | Unlink | Leave | Relay | Report | AnswerAlarm | Unreached
