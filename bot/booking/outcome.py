"""What reading a day and a time can come to."""

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum


class Part(StrEnum):
    """A part of the day that was said without an hour."""

    MORNING = "morning"
    AFTERNOON = "afternoon"
    EVENING = "evening"
    NIGHT = "night"


class Reason(StrEnum):
    """Why a phrase is asked about; when several hold, the one further down is given."""

    NOTHING = "nothing"  # no day and no time in it
    UNKNOWN_WORD = "unknown-word"  # `word` could change the meaning, or stands where it cannot
    TOO_MANY = "too-many"  # two days, two times, a stretch from one to another, or a long text
    WHICH_DAY = "which-day"  # more than one day is usual; `options` where they can be named
    WHICH_HALF = "which-half"  # morning or evening: `options` are twelve hours apart
    WHICH_MEANING = "which-meaning"  # `options` differ in what the words stand for
    MISMATCH = "mismatch"  # its parts contradict each other, as in "Saturday 8 March"
    IMPOSSIBLE = "impossible"  # no such day or time: 30 February, 25:00

    @property
    def weight(self) -> int:
        """Where it stands in that order."""
        return list(Reason).index(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class When:
    """A day, a time, or both, as they are on the person's calendar and clock.

    Attributes:
        day: The day, if one was said.
        time: The time to the minute, if one was said.
        part: The part of the day, if one was said and no time; it may stand alone.
    """

    day: dt.date | None = None
    time: dt.time | None = None
    part: Part | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Unclear:
    """Nothing is taken; the person is asked.

    Attributes:
        reason: What to ask about.
        options: What it may have meant, earliest first; empty when that cannot be listed.
        word: The word at fault, as it was typed.
    """

    reason: Reason
    options: tuple[When, ...] = ()
    word: str | None = None

    @property
    def times(self) -> tuple[dt.time, ...]:
        """The clock times among the options, each once."""
        said = (option.time for option in self.options)
        return tuple(dict.fromkeys(moment for moment in said if moment is not None))


Outcome = When | Unclear
