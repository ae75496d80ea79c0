"""What can be heard in a message that cannot wait."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Final


class Grade(StrEnum):
    """How bad it is."""

    EMERGENCY = "emergency"
    NEAR_FAINT = "near-faint"


class Kind(StrEnum):
    """What is told of."""

    FAINTED = "fainted"
    FALLEN = "fallen"
    CHEST_PAIN = "chest-pain"
    BREATH = "breath"
    STROKE = "stroke"
    SEIZURE = "seizure"
    HEART_ATTACK = "heart-attack"
    BLEEDING = "bleeding"
    SELF_HARM = "self-harm"
    PLEA = "plea"
    FAINTING = "fainting"
    VISION = "vision"
    COLD_SWEAT = "cold-sweat"
    CANNOT_STAND = "cannot-stand"
    FALLING = "falling"
    VERY_DIZZY = "very-dizzy"


class Doubt(StrEnum):
    """Why it may not be meant of this person now."""

    DENIED = "denied"
    PAST = "past"
    HABIT = "habit"
    ABOUT_OTHER = "about-other"
    SUPPOSED = "supposed"
    QUESTION = "question"
    UNCLEAR = "unclear"  # the words may mean something harmless as well
    NUMBER = "number"  # may be part of a reading


_NEAR_FAINT: Final = frozenset({
    Kind.FAINTING, Kind.VISION, Kind.COLD_SWEAT, Kind.CANNOT_STAND, Kind.FALLING, Kind.VERY_DIZZY,
})  # fmt: skip
GRADES: Final[Mapping[Kind, Grade]] = MappingProxyType({
    kind: Grade.NEAR_FAINT if kind in _NEAR_FAINT else Grade.EMERGENCY for kind in Kind
})  # fmt: skip
"""The grade of each kind. Emergencies as on public first-aid pages (common practice, no single
source); signs of a faint that is near as in Rowe 2017, Front Pediatr 5:121."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """What was heard, and the words that said so as they were typed."""

    grade: Grade
    kind: Kind
    doubt: Doubt | None
    words: str

    @property
    def certain(self) -> bool:
        """Whether it is to be acted on at once, without asking."""
        return self.doubt is None
