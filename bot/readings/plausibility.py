"""Two rings around a reading: outside the one no number is kept, outside the other it is asked.

None of these is a clinical line. They only catch slips of typing, and are wide on purpose: a
reading that is dangerous but real must get through. All are a design choice of this project, from
common knowledge of what cuffs show; no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.outcome import Doubt


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """The numbers from `low` to `high`, both included.

    Attributes:
        low: The lowest.
        high: The highest.
        reason: Why there.
    """

    low: int
    high: int
    reason: str

    def __contains__(self, number: int) -> bool:
        return self.low <= number <= self.high


POSSIBLE: Final[Mapping[Measure, Bounds]] = MappingProxyType(
    {
        Measure.SYSTOLIC: Bounds(
            low=50,
            high=260,
            reason="design choice: under 50 nobody stands and types; home cuffs stop near 260",
        ),
        Measure.DIASTOLIC: Bounds(
            low=25,
            high=160,
            reason="design choice: outside it, far likelier a digit lost or doubled",
        ),
        Measure.HEART_RATE: Bounds(
            low=25,
            high=240,
            reason="design choice: slower or faster than anyone awake enough to type",
        ),
    }
)

PULSE_PRESSURE: Final = Bounds(
    low=15,
    high=100,
    reason="design choice: closer or further apart is seen, but a slip is likelier: ask",
)

ALONE: Final = Bounds(
    low=25,
    high=129,
    reason="design choice: a diastolic pressure from 130, with no systolic beside it to hold it "
    "against, is likelier a slip or the other number",
)

ORDINARY: Final[Mapping[Measure, Bounds]] = MappingProxyType(
    {
        Measure.SYSTOLIC: Bounds(
            low=80,
            high=260,
            reason="design choice: after an unknown word, lower may be a dose or a share (70/30)",
        ),
        Measure.DIASTOLIC: Bounds(
            low=40,
            high=160,
            reason="design choice: after an unknown word, lower may be a dose (100/25)",
        ),
        Measure.HEART_RATE: Bounds(
            low=40,
            high=240,
            reason="design choice: after an unknown word, lower may be a count of something",
        ),
    }
)

SATURATION: Final = Bounds(
    low=70,
    high=100,
    reason="100 % is all there is; below, a design choice: nobody that blue stands and types",
)

LIKE_SATURATION: Final = Bounds(
    low=90,
    high=100,
    reason="design choice: two bare numbers, the first of these, may be an oximeter's: ask",
)

RARE_SATURATION: Final = 85
"""Design choice: of two numbers beside its name, one below this is not the saturation if the other
is a likely one."""

WARMTH: Final = Bounds(
    low=33,
    high=43,
    reason="design choice: with a decimal after it, the temperature of a living person in Celsius",
)

AGES: Final = Bounds(
    low=13,
    high=110,
    reason="design choice: who types of an age of their own",
)

LIKELY_SHARE: Final = Bounds(
    low=RARE_SATURATION,
    high=SATURATION.high,
    reason="follows from RARE_SATURATION: a number beside its name is the saturation",
)

LIKE_SYSTOLIC: Final = Bounds(
    low=95,
    high=260,
    reason="design choice: three bare numbers, the middle one of these, may start with the pulse",
)

TENS: Final[Mapping[Measure, Bounds]] = MappingProxyType(
    {
        Measure.SYSTOLIC: Bounds(
            low=7,
            high=25,
            reason="design choice: where pressures are said in tens, 70 to 250 mmHg",
        ),
        Measure.DIASTOLIC: Bounds(
            low=4,
            high=15,
            reason="design choice: where pressures are said in tens, 40 to 150 mmHg",
        ),
    }
)

JUMP: Final[Mapping[Measure, Bounds]] = MappingProxyType(
    {
        Measure.SYSTOLIC: Bounds(
            low=-69,
            high=69,
            reason="design choice: a fall of 40 and a rise of 57 on standing are in published sets;"
            " a slip of the first digit is 100, one that turns 124 to 214 is 90",
        ),
        Measure.DIASTOLIC: Bounds(
            low=-49,
            high=49,
            reason="design choice: a change of 30 is real; 76 to 26 or to 126 is a slip by 50",
        ),
        Measure.HEART_RATE: Bounds(
            low=-69,
            high=74,
            reason="design choice: a rise of 60 on standing is real, and as much back on lying;"
            " 72 to 172 is a slip by 100",
        ),
    }
)
"""How far a number may lie from that of the last reading before it is asked about."""

NEVER_A_READING: Final = Bounds(
    low=0,
    high=24,
    reason="follows from POSSIBLE: no measure goes as low, so it is a strength or a count",
)


def possible(measure: Measure, number: int) -> bool:
    """Return whether a number can be kept as this measure at all."""
    return number in POSSIBLE[measure]


def possible_somewhere(number: int) -> bool:
    """Return whether a number can be any of the measures."""
    return any(number in bounds for bounds in POSSIBLE.values())


def ordinary(systolic: int, diastolic: int, heart_rate: int | None) -> bool:
    """Return whether numbers look so much like a reading that odd words before them don't count."""
    return (
        systolic in ORDINARY[Measure.SYSTOLIC]
        and diastolic in ORDINARY[Measure.DIASTOLIC]
        and systolic - diastolic in PULSE_PRESSURE
        and (heart_rate is None or heart_rate in ORDINARY[Measure.HEART_RATE])
    )


def heart_rate_may_lead(first: int, second: int, third: int) -> bool:
    """Return whether three bare numbers may be the heart rate and then the two pressures."""
    return (
        first in POSSIBLE[Measure.HEART_RATE]
        and second in LIKE_SYSTOLIC
        and third in POSSIBLE[Measure.DIASTOLIC]
        and second - third in PULSE_PRESSURE
    )


def in_tens(numbers: Mapping[Measure, int]) -> bool:
    """Return whether the pressures may have been said in tens, as in "12/7"."""
    systolic, diastolic = numbers.get(Measure.SYSTOLIC), numbers.get(Measure.DIASTOLIC)
    return (
        systolic is not None
        and diastolic is not None
        and systolic in TENS[Measure.SYSTOLIC]
        and diastolic in TENS[Measure.DIASTOLIC]
        and systolic > diastolic
    )


def doubt(
    new: Values, known: Values, before: Values | None = None
) -> tuple[Doubt, Values | None] | None:
    """Return what is odd about new numbers, and a better guess.

    Args:
        new: The numbers to weigh.
        known: Those of the same reading given before. A doubt among these alone is not raised.
        before: Those of the last reading, if there is one.

    Returns:
        The doubt, and a guess that holds both pressures, and the heart rate if it is new.
    """
    return _odd(new, known) or (_jump(new, before) if before is not None else None)


def _jump(new: Values, before: Values) -> tuple[Doubt, Values | None] | None:
    """Return whether a number lies so far from the last one that a digit may have slipped."""
    pairs = (
        (Measure.SYSTOLIC, new.systolic, before.systolic),
        (Measure.DIASTOLIC, new.diastolic, before.diastolic),
        (Measure.HEART_RATE, new.heart_rate, before.heart_rate),
    )
    for measure, now, then in pairs:
        if now is not None and then is not None and now - then not in JUMP[measure]:
            return Doubt.JUMP, None
    return None


def _odd(new: Values, known: Values) -> tuple[Doubt, Values | None] | None:
    whole = known.updated(new)
    systolic, diastolic, heart_rate = whole.systolic, whole.diastolic, whole.heart_rate
    new_pressure = new.systolic is not None or new.diastolic is not None
    if systolic is not None and diastolic is not None and new_pressure:
        if systolic <= diastolic:
            return Doubt.SWAPPED, _turned(systolic, diastolic, new.heart_rate)
        if systolic - diastolic not in PULSE_PRESSURE:
            return Doubt.PULSE_PRESSURE, None
    if systolic is None and new.diastolic is not None and new.diastolic not in ALONE:
        return Doubt.HIGH_DIASTOLIC, None
    if heart_rate is None:
        return None
    is_new = new.heart_rate is not None
    for pressure, fresh in ((systolic, new.systolic), (diastolic, new.diastolic)):
        if pressure == heart_rate and (is_new or fresh is not None):
            return Doubt.SAME_NUMBER, None
    return None


def _turned(systolic: int, diastolic: int, heart_rate: int | None) -> Values | None:
    """Return the two pressures the other way round, if that makes a plausible pair."""
    if (
        possible(Measure.SYSTOLIC, diastolic)
        and possible(Measure.DIASTOLIC, systolic)
        and diastolic - systolic in PULSE_PRESSURE
    ):
        return Values(systolic=diastolic, diastolic=systolic, heart_rate=heart_rate)
    return None
