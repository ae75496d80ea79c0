"""The lines: every constant with its rule, its source and how it is known.

A change is always standing minus supine, so a fall is negative and the heart rate goes *up* on
standing. Pressures are in mmHg, heart rates in beats a minute.

How a constant is known:
    found: read in a published text.
    second hand: read in a text that tells of another.
    data: computed from an open data set.
    memory: from memory, not verified.
    practice: common practice, no source.
    design choice: of this project, for each clinic to sign off.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum
from types import MappingProxyType
from typing import Final, Literal, assert_never

from bot.findings.result import Line, Reason
from bot.protocol.record import AgeBand


class Side(StrEnum):
    """On which side of its value a limit is reached."""

    AT_LEAST = "at-least"
    ABOVE = "above"
    AT_MOST = "at-most"
    BELOW = "below"


@dataclass(frozen=True, slots=True)
class Limit:
    """A number to hold readings against."""

    side: Side
    value: float

    def reached(self, size: float) -> bool:
        """Return whether a number reaches the limit."""
        match self.side:
            case Side.AT_LEAST:
                return size >= self.value
            case Side.ABOVE:
                return size > self.value
            case Side.AT_MOST:
                return size <= self.value
            case Side.BELOW:
                return size < self.value
            case _:
                assert_never(self.side)

    def past(self, size: float) -> float:
        """Return how far a number lies past the limit; negative when it falls short."""
        match self.side:
            case Side.AT_LEAST | Side.ABOVE:
                return size - self.value
            case Side.AT_MOST | Side.BELOW:
                return self.value - size
            case _:
                assert_never(self.side)


class Known(StrEnum):
    """How a line, a figure or an effect is known."""

    FOUND = "found"
    SECOND_HAND = "found, second hand"
    MEMORY = "from memory, not verified"
    DATA = "computed from an open data set"
    PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where a line, a figure or an effect comes from.

    Attributes:
        text: A short citation; for common practice, what is meant by it.
        known: How it is known.
    """

    text: str
    known: Known


@dataclass(frozen=True, slots=True, kw_only=True)
class LineSource(Source):
    """Where a line comes from: a text, read or remembered."""

    known: Literal[Known.FOUND, Known.SECOND_HAND, Known.MEMORY]


# Heart-rate rise within 10 min of standing, sustained, without orthostatic hypotension.
# Freeman 2011 (Clin Auton Res 21:69); Sheldon 2015 (Heart Rhythm 12:e41);
# Vernino 2021 (Auton Neurosci 235:102828); Raj 2022 (CMAJ 194:E378): found.
RISE_FROM_20: Final = Limit(Side.AT_LEAST, 30)
RISE_FROM_12_TO_19: Final = Limit(Side.AT_LEAST, 40)
RISE_WITHIN: Final = timedelta(minutes=10)

# Sustained: two standing readings at least this far apart, both at or over the line.
# Raj 2022: found.
SUSTAINED_OVER: Final = timedelta(minutes=1)

# Classical fall: either of the two within 3 min of standing. Freeman 2011: found.
# The same size first seen later: Gibbons & Freeman 2006 (Neurology 67:28): found.
SYSTOLIC_FALL: Final = Limit(Side.AT_MOST, -20)
DIASTOLIC_FALL: Final = Limit(Side.AT_MOST, -10)
CLASSICAL_WITHIN: Final = timedelta(minutes=3)

# The apter systolic line when the supine pressure is high. Freeman 2011: found.
LARGE_SYSTOLIC_FALL: Final = Limit(Side.AT_MOST, -30)

# Also counts as orthostatic hypotension in the European syncope guideline.
# Brignole 2018: second hand.
STANDING_SYSTOLIC_LOW: Final = Limit(Side.BELOW, 90)

# A rise of 20 is an exaggerated pressor response; with a standing systolic of 140 at that reading
# it is orthostatic hypertension. Jordan 2022 (Clin Auton Res 33:69): found.
SYSTOLIC_RISE: Final = Limit(Side.AT_LEAST, 20)
STANDING_SYSTOLIC_HIGH: Final = Limit(Side.AT_LEAST, 140)

# Heart-rate rise over systolic fall, only with a systolic fall of 20, not when the heart rate fell,
# not on a beta-blocker or a pacemaker. Norcliffe-Kaufmann 2018 (Ann Neurol 83:522): found.
NEUROGENIC_RATIO: Final = Limit(Side.BELOW, 0.5)

# Supine hypertension: either of the two, after at least 5 min lying.
# Fanciulli 2018 (Clin Auton Res 28:355): found.
SUPINE_SYSTOLIC_HIGH: Final = Limit(Side.AT_LEAST, 140)
SUPINE_DIASTOLIC_HIGH: Final = Limit(Side.AT_LEAST, 90)
SUPINE_REST: Final = timedelta(minutes=5)

# Resting tachycardia, another pattern than a postural one.
# Sheldon 2015; Novak 2016 (Neurosci J 6127340): found.
SUPINE_RATE_HIGH: Final = Limit(Side.ABOVE, 100)

# The Canadian statement counts a rise from a supine rate of 60 up. Raj 2020, told in Raj 2022:
# second hand; so below 60 is a note, and takes nothing away from a rise that is met.
SUPINE_RATE_BELOW_60: Final = Limit(Side.BELOW, 60)

# Resting bradycardia. ACC/AHA/HRS 2018: from memory, not verified.
BRADYCARDIA: Final = Limit(Side.BELOW, 50)

# An older alternative arm of the rise: an observation, never the rule.
# Miwa 2023 (Circ Rep 5:55): found.
STANDING_RATE_120: Final = Limit(Side.AT_LEAST, 120)

# Pulse pressure under this share of the systolic pressure. Lean-test usage; the number from memory,
# not verified. Held against standing readings: a design choice.
NARROW_SHARE: Final = 0.25

# Either of the two, in any position. American Heart Association, public page: found.
SYSTOLIC_VERY_HIGH: Final = Limit(Side.AT_LEAST, 180)
DIASTOLIC_VERY_HIGH: Final = Limit(Side.AT_LEAST, 120)

# How much before its planned time a reading still stands for that time: one cuff measurement, which
# people begin at the heads-up. Serves for 5 min lying and for 10 min standing. Design choice.
EARLY_BY: Final = timedelta(seconds=30)


def rise_limit(age_band: AgeBand | None) -> Limit | Reason:
    """Return the heart-rate line for an age band, or why there is none.

    Under 12 there is no agreed line (Vernino 2021, by a secondary text: found).
    """
    match age_band:
        case AgeBand.FROM_20:
            return RISE_FROM_20
        case AgeBand.FROM_12_TO_19:
            return RISE_FROM_12_TO_19
        case AgeBand.UNDER_12:
            return Reason.UNDER_12
        case None:
            return Reason.AGE_NOT_TOLD
        case _:
            assert_never(age_band)


SOURCES: Final[Mapping[Line, LineSource]] = MappingProxyType(
    {
        Line.HEART_RATE_RISE: LineSource(
            text="Freeman 2011; Sheldon 2015; Vernino 2021; Raj 2022", known=Known.FOUND
        ),
        Line.CLASSICAL_FALL: LineSource(text="Freeman 2011", known=Known.FOUND),
        Line.LATER_FALL: LineSource(text="Gibbons & Freeman 2006", known=Known.FOUND),
        Line.LARGE_FALL: LineSource(text="Freeman 2011", known=Known.FOUND),
        Line.STANDING_SYSTOLIC_LOW: LineSource(text="Brignole 2018", known=Known.SECOND_HAND),
        Line.PRESSURE_RISE: LineSource(text="Jordan 2022", known=Known.FOUND),
        Line.PRESSOR_RESPONSE: LineSource(text="Jordan 2022", known=Known.FOUND),
        Line.NEUROGENIC_PATTERN: LineSource(text="Norcliffe-Kaufmann 2018", known=Known.FOUND),
        Line.SUPINE_HYPERTENSION: LineSource(text="Fanciulli 2018", known=Known.FOUND),
        Line.SUPINE_RATE_HIGH: LineSource(text="Sheldon 2015; Novak 2016", known=Known.FOUND),
        Line.SUPINE_RATE_BELOW_60: LineSource(
            text="Raj 2020, told in Raj 2022", known=Known.SECOND_HAND
        ),
        Line.BRADYCARDIA: LineSource(text="ACC/AHA/HRS 2018", known=Known.MEMORY),
        Line.STANDING_RATE_120: LineSource(text="Miwa 2023", known=Known.FOUND),
        Line.NARROW_PULSE_PRESSURE: LineSource(text="lean-test usage", known=Known.MEMORY),
        Line.VERY_HIGH_PRESSURE: LineSource(
            text="American Heart Association, public page", known=Known.FOUND
        ),
    }
)
