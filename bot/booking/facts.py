"""What the parts of a phrase say, before they are put together."""

from dataclasses import dataclass
from enum import StrEnum, auto

from bot.booking.outcome import Reason
from bot.booking.words import Stretch


class Pick(StrEnum):
    """Which of the days with a name."""

    PLAIN = auto()
    THIS = auto()
    NEXT = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A day of the week, 0 is Monday."""

    weekday: int
    pick: Pick


@dataclass(frozen=True, slots=True, kw_only=True)
class InWeek:
    """A week, 0 is this one."""

    week: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """A day so many days after today."""

    days: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Later:
    """An instant so many minutes from now."""

    minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Dated:
    """A day of a month.

    Attributes:
        day: As it was written; there may be no such day.
        month: As it was written; there may be no such month.
        year: The year, if it was said.
        short: Whether the year was written with two digits.
    """

    day: int
    month: int
    year: int | None = None
    short: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbered:
    """A day by its number alone.

    Attributes:
        day: 1 to 31.
        loose: Whether it is a bare number, and a day only beside the name of one.
    """

    day: int
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """A time on a clock of twelve or twenty-four hours.

    Attributes:
        hour: 0 to 23.
        minute: 0 to 59.
        exact: Whether a word named it, so that it is neither morning nor evening.
        run: Its digits if they were written without a mark: 0830 (or is it a year?).
    """

    hour: int
    minute: int = 0
    exact: bool = False
    run: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Within:
    """A stretch of the day."""

    stretch: Stretch


@dataclass(frozen=True, slots=True, kw_only=True)
class Flaw:
    """Words that were understood and come to nothing.

    Attributes:
        reason: Why.
        usual: Whether they are usually meant so, and other ways to take them do not count.
    """

    reason: Reason
    usual: bool = False


Fact = Named | InWeek | Ahead | Later | Dated | Numbered | Clock | Within | Flaw
Step = tuple[tuple[Fact, ...], int]
"""Facts, and the place of the first unit after the words that said them."""
