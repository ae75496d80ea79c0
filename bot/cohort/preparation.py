"""What a day's preparation, medicines and the arm do to the numbers.

Which way each goes: as `bot.findings.explanations` has it. How far: design choice, since no text
here gives a size; but for the hanging arm (Liu 2024).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from random import Random
from types import MappingProxyType
from typing import Final

from bot.cohort.courses import NOTHING, Body
from bot.protocol.circumstances import Departure, LastDose, Medicine


@dataclass(frozen=True, slots=True, kw_only=True)
class Alteration:
    """What one thing does.

    Attributes:
        lying: Added at rest.
        change: Added to what standing does.
        rise: What the heart rate's change is multiplied by.
    """

    lying: Body = NOTHING
    change: Body = NOTHING
    rise: float = 1.0


HANGING_ARM: Final = Body(0.0, 6.5, 4.4)
"""How much higher an arm that hangs by the side reads: Liu 2024 (JAMA Intern Med): found. Taken for
standing readings alone: lying, the arm is level with the heart whatever one does."""

HANGING: Final = 0.08
"""Share of people whose arm hangs while they stand. Design choice; it is not recorded."""

AUDITED: Final = 0.95
"""Share of tests in which the preparation was asked about. Design choice."""

DEPARTURES: Final[Mapping[Departure, tuple[float, Alteration]]] = MappingProxyType(
    {
        Departure.EXTRA_FLUIDS: (0.03, Alteration(change=Body(-4.0, 3.0, 1.0))),
        Departure.EXTRA_SALT: (0.02, Alteration(change=Body(-3.0, 2.0, 1.0))),
        Departure.CAFFEINE: (
            0.06,
            Alteration(lying=Body(3.0, 4.0, 2.0), change=Body(4.0, 0.0, 0.0)),
        ),
        Departure.NICOTINE: (
            0.03,
            Alteration(lying=Body(6.0, 4.0, 3.0), change=Body(4.0, 0.0, 0.0)),
        ),
        Departure.HEAVY_MEAL: (0.04, Alteration(change=Body(4.0, -6.0, -3.0))),
        Departure.GARMENTS: (0.02, Alteration(change=Body(-6.0, 5.0, 2.0))),
        Departure.POOR_SLEEP: (0.1, Alteration()),
        Departure.ILLNESS: (
            0.02,
            Alteration(lying=Body(8.0, 0.0, 0.0), change=Body(8.0, -5.0, -2.0)),
        ),
    }
)
"""For each departure the share of tests that have it, and what it does."""

MEDICINES: Final[Mapping[Medicine, tuple[float, Alteration]]] = MappingProxyType(
    {
        Medicine.BETA_BLOCKER: (0.06, Alteration(lying=Body(-9.0, -4.0, -3.0), rise=0.6)),
        Medicine.HEART_SLOWING: (0.02, Alteration(lying=Body(-8.0, 0.0, 0.0), rise=0.7)),
        Medicine.STIMULANT: (
            0.03,
            Alteration(lying=Body(5.0, 3.0, 2.0), change=Body(5.0, 0.0, 0.0)),
        ),
        Medicine.NORADRENALINE: (
            0.05,
            Alteration(lying=Body(4.0, 2.0, 2.0), change=Body(5.0, 0.0, 0.0)),
        ),
        Medicine.DIURETIC: (0.03, Alteration(change=Body(4.0, -4.0, -2.0))),
        Medicine.PRESSURE_LOWERING: (
            0.05,
            Alteration(lying=Body(0.0, -6.0, -4.0), change=Body(3.0, -5.0, -2.0)),
        ),
        Medicine.PRESSURE_RAISING: (
            0.02,
            Alteration(lying=Body(0.0, 6.0, 4.0), change=Body(-3.0, 6.0, 3.0)),
        ),
    }
)
"""For each class of medicines the share of people who take it, and what it does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Preparation:
    """What surrounds a test besides the devices.

    Attributes:
        departures: What differed, told or not.
        audited: Whether it was asked about.
        medicines: Those taken.
        last_dose: When, if told.
        hanging_arm: Whether the cuff's arm hangs while standing.
    """

    departures: tuple[Departure, ...]
    audited: bool
    medicines: tuple[Medicine, ...]
    last_dose: LastDose | None
    hanging_arm: bool

    @property
    def alterations(self) -> tuple[Alteration, ...]:
        """What it does to the body; the arm does nothing to it."""
        return (
            *(DEPARTURES[departure][1] for departure in self.departures),
            *(MEDICINES[medicine][1] for medicine in self.medicines),
        )


def prepare(chance: Random) -> Preparation:
    """Draw how somebody prepared."""
    medicines = tuple(one for one, (share, _) in MEDICINES.items() if chance.random() < share)
    told = chance.random() < 0.9
    dose = chance.choice(list(LastDose))
    return Preparation(
        departures=tuple(one for one, (share, _) in DEPARTURES.items() if chance.random() < share),
        audited=chance.random() < AUDITED,
        medicines=medicines,
        last_dose=dose if medicines and told else None,
        hanging_arm=chance.random() < HANGING,
    )
