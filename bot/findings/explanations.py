"""What, besides how the body takes standing, could explain a finding: typed, with its source.

An explanation says "could", never "does", and takes nothing from the finding. That a medicine could
explain a number is for the care team to weigh: nobody stops one for a test.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Final, TypeAlias, assert_never

from bot.findings.lines import Known, Source
from bot.findings.result import Finding, Line, State
from bot.protocol.circumstances import Circumstances, Cuff, Departure, LastDose, Medicine

Cause: TypeAlias = Departure | Medicine | Cuff


class Effect(StrEnum):
    """What a cause can do to the numbers of a test."""

    RISE_LARGER = "rise-larger"  # of the heart rate, on standing
    RISE_SMALLER = "rise-smaller"
    FALL_DEEPER = "fall-deeper"  # of the pressure, on standing
    FALL_SMALLER = "fall-smaller"
    RATE_HIGHER = "rate-higher"  # already lying down
    RATE_LOWER = "rate-lower"
    PRESSURE_HIGHER = "pressure-higher"


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """One thing that could explain a finding.

    Attributes:
        cause: What it is.
        effect: What it can do to the numbers.
        source: How that is known.
        last_dose: For a medicine: when one of those taken was last taken, if told.
    """

    cause: Cause
    effect: Effect
    source: Source
    last_dose: LastDose | None = None


_RAJ: Final = Source(text="Raj 2022 (CMAJ 194:E378)", known=Known.FOUND)
_MEMORY: Final = Source(text="usual teaching", known=Known.MEMORY)
_PREPARATION: Final = Source(text="what people leave out before the test", known=Known.PRACTICE)
_WRIST: Final = Source(text="a cuff held lower than the heart reads higher", known=Known.PRACTICE)

EFFECTS: Final[Mapping[Cause, Mapping[Effect, Source]]] = MappingProxyType(
    {
        Departure.CAFFEINE: {
            Effect.RISE_LARGER: _MEMORY,
            Effect.RATE_HIGHER: _MEMORY,
            Effect.PRESSURE_HIGHER: _MEMORY,
        },
        Departure.NICOTINE: {
            Effect.RISE_LARGER: _MEMORY,
            Effect.RATE_HIGHER: _MEMORY,
            Effect.PRESSURE_HIGHER: _MEMORY,
        },
        # Fever, and too little drink.
        Departure.ILLNESS: {
            Effect.RISE_LARGER: _MEMORY,
            Effect.FALL_DEEPER: _MEMORY,
            Effect.RATE_HIGHER: _MEMORY,
        },
        Departure.HEAVY_MEAL: {Effect.RISE_LARGER: _MEMORY, Effect.FALL_DEEPER: _MEMORY},
        Departure.EXTRA_FLUIDS: {
            Effect.RISE_SMALLER: _PREPARATION,
            Effect.FALL_SMALLER: _PREPARATION,
        },
        Departure.EXTRA_SALT: {
            Effect.RISE_SMALLER: _PREPARATION,
            Effect.FALL_SMALLER: _PREPARATION,
        },
        Departure.GARMENTS: {
            Effect.RISE_SMALLER: _PREPARATION,
            Effect.FALL_SMALLER: _PREPARATION,
        },
        Medicine.BETA_BLOCKER: {Effect.RISE_SMALLER: _MEMORY, Effect.RATE_LOWER: _MEMORY},
        Medicine.HEART_SLOWING: {Effect.RISE_SMALLER: _MEMORY, Effect.RATE_LOWER: _MEMORY},
        Medicine.STIMULANT: {
            Effect.RISE_LARGER: _RAJ,
            Effect.RATE_HIGHER: _MEMORY,
            Effect.PRESSURE_HIGHER: _MEMORY,
        },
        Medicine.NORADRENALINE: {
            Effect.RISE_LARGER: _RAJ,
            Effect.RATE_HIGHER: _MEMORY,
            Effect.PRESSURE_HIGHER: _MEMORY,
        },
        Medicine.DIURETIC: {Effect.RISE_LARGER: _RAJ, Effect.FALL_DEEPER: _MEMORY},
        Medicine.PRESSURE_LOWERING: {
            Effect.RISE_LARGER: _MEMORY,
            Effect.FALL_DEEPER: _MEMORY,
        },
        Medicine.PRESSURE_RAISING: {
            Effect.RISE_SMALLER: _MEMORY,
            Effect.FALL_SMALLER: _MEMORY,
            Effect.PRESSURE_HIGHER: _MEMORY,
        },
        # How high it was held is not recorded. By the side while standing it hides a fall.
        Cuff.WRIST: {Effect.FALL_SMALLER: _WRIST, Effect.PRESSURE_HIGHER: _WRIST},
    }
)
"""What each cause can do. Poor sleep has no known effect here, an arm cuff none of its own."""


def explained_by(finding: Finding, circumstances: Circumstances | None) -> tuple[Explanation, ...]:
    """Return what could explain a finding that is met, or that one is not met.

    Args:
        finding: Any finding; one that is not judged is explained by nothing.
        circumstances: What surrounded the test, if it was asked about.

    Returns:
        Departures first, then medicines, then the cuff.
    """
    effect = _effect(finding)
    if effect is None or circumstances is None:
        return ()
    return tuple(
        Explanation(
            cause=cause,
            effect=effect,
            source=EFFECTS[cause][effect],
            last_dose=circumstances.last_dose if isinstance(cause, Medicine) else None,
        )
        for cause in _causes(circumstances)
        if effect in EFFECTS.get(cause, {})
    )


def _causes(circumstances: Circumstances) -> Iterator[Cause]:
    yield from circumstances.departures
    yield from circumstances.medicines or ()
    if circumstances.cuff is not None:
        yield circumstances.cuff


def _effect(finding: Finding) -> Effect | None:
    """Return what a cause would have to do to explain a finding; `None` when nothing would."""
    match finding.state:
        case State.MET | State.MET_ONCE:
            return _towards(finding.line)
        case State.NOT_MET:
            return _away(finding.line)
        case State.NOT_MEASURED | State.CANNOT_JUDGE:
            return None
        case _:
            assert_never(finding.state)


def _towards(line: Line) -> Effect | None:
    """Return what makes a line more easily met."""
    match line:
        case Line.HEART_RATE_RISE | Line.STANDING_RATE_120:
            return Effect.RISE_LARGER
        case Line.CLASSICAL_FALL | Line.LATER_FALL | Line.LARGE_FALL | Line.STANDING_SYSTOLIC_LOW:
            return Effect.FALL_DEEPER
        case (
            Line.PRESSURE_RISE
            | Line.PRESSOR_RESPONSE
            | Line.SUPINE_HYPERTENSION
            | Line.VERY_HIGH_PRESSURE
        ):
            return Effect.PRESSURE_HIGHER
        case Line.SUPINE_RATE_HIGH:
            return Effect.RATE_HIGHER
        case Line.SUPINE_RATE_BELOW_60 | Line.BRADYCARDIA:
            return Effect.RATE_LOWER
        case Line.NEUROGENIC_PATTERN:
            return Effect.RISE_SMALLER
        case Line.NARROW_PULSE_PRESSURE:
            return None
        case _:
            assert_never(line)


def _away(line: Line) -> Effect | None:
    """Return what hides that a line is met; for the rises and falls on standing alone."""
    match line:
        case Line.HEART_RATE_RISE | Line.STANDING_RATE_120:
            return Effect.RISE_SMALLER
        case Line.CLASSICAL_FALL | Line.LATER_FALL | Line.LARGE_FALL | Line.STANDING_SYSTOLIC_LOW:
            return Effect.FALL_SMALLER
        case (
            Line.PRESSURE_RISE
            | Line.PRESSOR_RESPONSE
            | Line.NEUROGENIC_PATTERN
            | Line.SUPINE_HYPERTENSION
            | Line.SUPINE_RATE_HIGH
            | Line.SUPINE_RATE_BELOW_60
            | Line.BRADYCARDIA
            | Line.NARROW_PULSE_PRESSURE
            | Line.VERY_HIGH_PRESSURE
        ):
            return None
        case _:
            assert_never(line)
