"""Published figures that help to weigh a result, as data: for the files that clinicians get.

They speak of groups of people in published work, not of the person who took the test.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from bot.findings.lines import Known, Source


class Fact(StrEnum):
    """What a figure is of."""

    RISE_LINE_SENSITIVITY = "rise-line-sensitivity"  # of the 30 line at a 10-min stand
    RISE_LINE_SPECIFICITY = "rise-line-specificity"
    HEALTHY_RISE_MEAN = "healthy-rise-mean"  # heart-rate rise of healthy people, 10-min lean test
    HEALTHY_RISE_SD = "healthy-rise-sd"
    HEALTHY_RISE_95TH_CENTILE = "healthy-rise-95th-centile"
    MISSED_AT_5_MINUTES = "missed-at-5-minutes"  # share that a stand of 5 min misses
    MISSED_AT_2_MINUTES = "missed-at-2-minutes"
    MET_IN_THE_MORNING = "met-in-the-morning"  # share of people with the syndrome
    MET_IN_THE_AFTERNOON = "met-in-the-afternoon"
    HANGING_ARM_SYSTOLIC = "hanging-arm-systolic"  # how much higher an arm by the side reads
    HANGING_ARM_DIASTOLIC = "hanging-arm-diastolic"


class Unit(StrEnum):
    """What a figure is counted in; UCUM codes."""

    PERCENT = "%"
    BEATS = "/min"
    PRESSURE = "mm[Hg]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One published figure.

    Attributes:
        value: The number, in its unit.
        unit: The unit.
        source: Where it was read.
        people: How many it rests on; `None` where that is not known here.
    """

    value: float
    unit: Unit
    source: Source
    people: int | None = None


_PLASH: Final = Source(text="Plash 2013 (Clin Sci 124:109)", known=Known.FOUND)
_IFTEKHAR: Final = Source(text="Iftekhar 2025 (Front Neurol 16:1625216)", known=Known.FOUND)
_ROMA: Final = Source(text="Roma 2018 (Fatigue 6:179)", known=Known.FOUND)
_MOON: Final = Source(text="Moon 2016 (J Am Soc Hypertens 10:263)", known=Known.FOUND)
_LIU: Final = Source(text="Liu 2024 (JAMA Intern Med)", known=Known.FOUND)

PUBLISHED: Final[Mapping[Fact, Figure]] = MappingProxyType(
    {
        # 15 people with the syndrome and 15 without.
        Fact.RISE_LINE_SENSITIVITY: Figure(value=87, unit=Unit.PERCENT, source=_PLASH, people=15),
        Fact.RISE_LINE_SPECIFICITY: Figure(value=67, unit=Unit.PERCENT, source=_PLASH, people=15),
        Fact.HEALTHY_RISE_MEAN: Figure(value=9.9, unit=Unit.BEATS, source=_IFTEKHAR, people=112),
        Fact.HEALTHY_RISE_SD: Figure(value=8.2, unit=Unit.BEATS, source=_IFTEKHAR, people=112),
        # About: 9.9 and 1.645 times 8.2.
        Fact.HEALTHY_RISE_95TH_CENTILE: Figure(
            value=23, unit=Unit.BEATS, source=_IFTEKHAR, people=112
        ),
        Fact.MISSED_AT_5_MINUTES: Figure(value=27, unit=Unit.PERCENT, source=_ROMA),
        Fact.MISSED_AT_2_MINUTES: Figure(value=53, unit=Unit.PERCENT, source=_ROMA),
        Fact.MET_IN_THE_MORNING: Figure(value=82.6, unit=Unit.PERCENT, source=_MOON),
        Fact.MET_IN_THE_AFTERNOON: Figure(value=52.2, unit=Unit.PERCENT, source=_MOON),
        Fact.HANGING_ARM_SYSTOLIC: Figure(value=6.5, unit=Unit.PRESSURE, source=_LIU),
        Fact.HANGING_ARM_DIASTOLIC: Figure(value=4.4, unit=Unit.PRESSURE, source=_LIU),
    }
)
