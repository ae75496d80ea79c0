"""The shape of a vocabulary. What a language says is in the module of that language."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum, auto


class Stretch(StrEnum):
    """A stretch of the day that words name, or a half of it."""

    SMALL_HOURS = auto()
    MORNING = auto()
    MIDDAY = auto()
    AFTERNOON = auto()
    EVENING = auto()
    NIGHT = auto()
    MIDNIGHT = auto()
    AM = auto()
    PM = auto()


class Role(StrEnum):
    """What a word can be in a phrase."""

    NUMBER = auto()
    ORDINAL = auto()
    WEEKDAY = auto()  # 0 is Monday
    MONTH = auto()
    AHEAD = auto()  # so many days after today
    STRETCH = auto()
    TODAYS = auto()  # a stretch of today
    WEEK = auto()  # 0 is this week
    UNIT = auto()  # in minutes
    LENGTH = auto()  # a whole length of time, in minutes
    COUNTED_DAYS = auto()  # days, where eight can be a week and fifteen two
    NEXT = auto()
    THIS = auto()
    AT = auto()
    ON = auto()
    THE = auto()
    EL = auto()  # goes with a day's number as well: el nueve
    OF = auto()
    A = auto()
    AND = auto()
    OR = auto()
    DAY_WORD = auto()  # "día 7"
    IN = auto()
    FROM_NOW = auto()
    PAST = auto()
    TO = auto()  # ten to nine
    TOWARDS = auto()  # move it to Friday
    TO_THE = auto()  # diez para las nueve
    PLUS = auto()  # nueve y diez
    MINUS = auto()  # nueve menos diez
    HALF = auto()  # half past
    THIRTY = auto()  # y media
    QUARTER = auto()
    OH = auto()  # nine oh five
    HOUR_MARK = auto()
    OF_HOURS = auto()  # makes an hour of the number before it: am, de la mañana
    NOON = auto()
    MIDNIGHT = auto()
    SOFT = auto()  # says nothing about when
    OTHER = auto()  # known to mean something else: never a misspelling of ours


def listed(words: str) -> tuple[str, ...]:
    """Return the words of a list with spaces between them."""
    return tuple(words.split())


@dataclass(frozen=True, slots=True, kw_only=True)
class Sense:
    """One meaning of a word.

    Attributes:
        role: What it is.
        value: Its number, as the role defines it.
        stretch: The stretch of the day, for roles that name one.
    """

    role: Role
    value: int = 0
    stretch: Stretch | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Language:
    """The words of one language: small letters without accents, phrases with single spaces.

    Attributes:
        numbers: For `Role.NUMBER`; so for the others, by their names.
        plain: Words whose role needs no value.
        soft: Words that say nothing about when.
        others: Words that look like ours but are not.
    """

    numbers: Mapping[str, int]
    ordinals: Mapping[str, int]
    weekdays: Mapping[str, int]
    months: Mapping[str, int]
    ahead: Mapping[str, int]
    stretches: Mapping[str, Stretch]
    todays: Mapping[str, Stretch]
    weeks: Mapping[str, int]
    units: Mapping[str, int]
    lengths: Mapping[str, int]
    plain: Mapping[Role, frozenset[str]]
    soft: frozenset[str]
    others: frozenset[str]
