"""What surrounds a test and travels with its result: kit, medicines, preparation, kind of day.

Which medicines move the numbers: Raj 2022 (CMAJ 194:E378) for what raises the heart-rate rise
(found); the other classes from memory, not verified. Who should ask first: from memory, to be
signed off by the clinic. Preparation: common practice, no source; caffeine and nicotine for 3 h:
an autonomic laboratory's page.
"""

from dataclasses import dataclass
from enum import StrEnum


class Hazard(StrEnum):
    """A reason to ask the care team before doing the test."""

    FAINTED_STANDING = "fainted-standing"
    PREGNANT = "pregnant"
    HEART_ATTACK_OR_STROKE = "heart-attack-or-stroke"
    HEART_DISEASE = "heart-disease"
    CANNOT_STAND = "cannot-stand"
    ILL = "ill"
    UNDER_18_ALONE = "under-18-alone"
    PRESSURE = "pressure"  # resting systolic under 90, or from 180/120


class Medicine(StrEnum):
    """A class of medicines that moves heart rate or pressure."""

    BETA_BLOCKER = "beta-blocker"
    HEART_SLOWING = "heart-slowing"  # ivabradine, verapamil, diltiazem, clonidine, pyridostigmine
    STIMULANT = "stimulant"
    NORADRENALINE = "noradrenaline"  # SNRI, NRI, amitriptyline
    DIURETIC = "diuretic"
    PRESSURE_LOWERING = "pressure-lowering"  # antihypertensives, nitrates, alpha-blockers, levodopa
    PRESSURE_RAISING = "pressure-raising"  # midodrine, fludrocortisone, droxidopa


class LastDose(StrEnum):
    """When the last dose of such a medicine was taken."""

    WITHIN_4_HOURS = "within-4-hours"
    WITHIN_12_HOURS = "within-12-hours"
    WITHIN_24_HOURS = "within-24-hours"
    LONGER_AGO = "longer-ago"


class Cuff(StrEnum):
    """Where the blood pressure cuff sits."""

    UPPER_ARM = "upper-arm"
    WRIST = "wrist"


class RateSource(StrEnum):
    """What the heart rate is read from."""

    CUFF = "cuff"
    OXIMETER = "oximeter"
    WATCH = "watch"
    FINGERS = "fingers"


class Departure(StrEnum):
    """Something that the preparation asked to leave out, and that happened all the same."""

    EXTRA_FLUIDS = "extra-fluids"
    EXTRA_SALT = "extra-salt"
    CAFFEINE = "caffeine"  # within 3 h
    NICOTINE = "nicotine"  # within 3 h
    HEAVY_MEAL = "heavy-meal"
    GARMENTS = "garments"
    POOR_SLEEP = "poor-sleep"
    ILLNESS = "illness"


class DayKind(StrEnum):
    """What kind of day it was for the person."""

    GOOD = "good"
    SYMPTOMATIC = "symptomatic"
    UNSURE = "unsure"


@dataclass(frozen=True, slots=True, kw_only=True)
class Circumstances:
    """What surrounds one test.

    Attributes:
        zone: The person's time zone then, as an IANA name.
        cuff: The cuff in use.
        rate_source: What the heart rate was read from.
        medicines: Those that the person takes; `None` when they were not asked.
        last_dose: When one of them was last taken; `None` when they take none, or did not say.
        departures: What differed from the preparation.
        audited: Whether the preparation was asked about.
    """

    zone: str | None = None
    cuff: Cuff | None = None
    rate_source: RateSource | None = None
    medicines: tuple[Medicine, ...] | None = None
    last_dose: LastDose | None = None
    departures: tuple[Departure, ...] = ()
    audited: bool = False
