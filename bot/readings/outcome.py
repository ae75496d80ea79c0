"""What reading a message can come to."""

from dataclasses import dataclass, field
from enum import StrEnum

from bot.protocol.record import Measure, Values


class Doubt(StrEnum):
    """Why numbers that could be read are kept only after a yes."""

    SWAPPED = "swapped"  # the smaller pressure came first; `suggested` holds them the right way
    PULSE_PRESSURE = "pulse-pressure"  # the two pressures are very close or very far apart
    SAME_NUMBER = "same-number"  # the heart rate equals one of the pressures


class Problem(StrEnum):
    """Why a message could not be read as numbers."""

    NO_NUMBERS = "no-numbers"  # nothing in it looks like a reading
    WHICH_NUMBER = "which-number"  # a bare number that could be more than one thing
    TOO_MANY = "too-many"  # more numbers than one reading has
    IMPOSSIBLE = "impossible"  # a number no cuff shows for a living person; see `measure`


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """Numbers read without doubt.

    Attributes:
        values: Just the numbers this message gave (not those known before).
        rest: The words that were not used, for others to read; may be empty.
    """

    values: Values
    rest: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubtful:
    """Numbers that are kept only after a yes.

    Attributes:
        values: The numbers as typed.
        doubt: What is odd about them.
        suggested: What they may have been meant as; `None` when there is no better guess.
        rest: The words that were not used.
    """

    values: Values
    doubt: Doubt
    suggested: Values | None = None
    rest: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unreadable:
    """Nothing is kept; the person is asked again.

    Attributes:
        problem: Why.
        number: The number at fault, if one is.
        measure: What that number was given as, if known.
        understood: Numbers that were read all the same, to be said back.
    """

    problem: Problem
    number: int | None = None
    measure: Measure | None = None
    understood: Values = field(default_factory=Values)


Outcome = Understood | Doubtful | Unreadable
