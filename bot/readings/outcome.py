"""What reading a message can come to."""

from dataclasses import dataclass, field
from enum import StrEnum

from bot.protocol.record import Measure, Values


class Doubt(StrEnum):
    """Why numbers that could be read are kept only after a yes."""

    SWAPPED = "swapped"  # the smaller pressure came first; `suggested` holds them the right way
    PULSE_PRESSURE = "pulse-pressure"  # the two pressures are very close or very far apart
    HIGH_DIASTOLIC = "high-diastolic"  # by itself, so high that it may be another number
    SAME_NUMBER = "same-number"  # the heart rate equals one of the pressures
    TENS = "tens"  # pressures said in tens, as "12/7" is in some countries; `suggested` has them
    JUMP = "jump"  # so far from the last reading that a digit may have slipped
    SAME_AS_BEFORE = "same-as-before"  # words alone: `values` are those of the last reading
    CORRECTION = "correction"  # a bare number that puts right one given before, or is a new one


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
        correction: Whether words before the numbers say that earlier ones were wrong ("no, 128").
            They are also said for politeness ("sorry, 124/76 72"): where a reading is awaited,
            ask which it is.
        again: Whether words before the numbers say that it was measured anew.
    """

    values: Values
    rest: str = ""
    correction: bool = False
    again: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubtful:
    """Numbers that are kept only after a yes.

    Attributes:
        values: The numbers as typed.
        doubt: What is odd about them.
        suggested: What they may have been meant as; `None` when there is no better guess.
        rest: The words that were not used.
        correction: As in `Understood`.
        again: As in `Understood`.
    """

    values: Values
    doubt: Doubt
    suggested: Values | None = None
    rest: str = ""
    correction: bool = False
    again: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Several:
    """More readings than one in one message, each read without doubt; none is kept unasked.

    Attributes:
        readings: The numbers of each, in the order they were given; both pressures at least.
        rest: The words that were not used.
    """

    readings: tuple[Values, ...]
    rest: str = ""

    @property
    def counts(self) -> Values:
        """The one to offer: the last."""
        return self.readings[-1]


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


Outcome = Understood | Doubtful | Several | Unreadable
