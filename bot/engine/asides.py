"""Questions put in between. They never stop the clock, and at most one is open."""

from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

from bot.distress import Grade
from bot.protocol.record import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """The parts of a reading given so far, with the words and messages they came in."""

    values: Values = field(default_factory=Values)
    words: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    begun_at: datetime | None = None


class Question(StrEnum):
    """A question that is answered by picking, ticking or typing, and then is done with."""

    # before the first booking
    CONSENT = "consent"
    AGE = "age"
    LOCAL_TIME = "local-time"
    HAZARDS = "hazards"
    MEDICINES = "medicines"
    CUFF = "cuff"
    RATE_SOURCE = "rate-source"
    TRIAL = "trial"
    # on the day
    SAME_KIT = "same-kit"
    LAST_DOSE = "last-dose"
    DEPARTURES = "departures"
    ILL_TODAY = "ill-today"
    # between the tests
    DAY_KIND = "day-kind"
    WATCH = "watch"
    WATCH_HOUR = "watch-hour"
    WATCH_LINE = "watch-line"
    DAY_SCORE = "day-score"
    REPEAT = "repeat"
    DELETE = "delete"
    # about being linked
    SHARE = "share"
    ACCOMPANY = "accompany"
    # about the care team
    SEND = "send"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoosingLanguage:
    """Which language?"""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamingSymptom:
    """Which symptom? `doubted` are numbers that were let go of: with it they may cross a line."""

    doubted: Draft | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingSymptom:
    """How strong, 0 to 10? `index` is the symptom's place in the record."""

    index: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingReading:
    """What are the right numbers of the reading with that number?"""

    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ConfirmingReading:
    """Are these numbers right?

    Attributes:
        draft: The reading as it would be kept after a yes.
        target: The number of the reading to correct; `None` for a new one.
        extra: Whether it is a new one given in between.
        others: Readings given in the same message before it, which are kept beside it.
    """

    draft: Draft
    target: int | None
    extra: bool = False
    others: tuple[Values, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacingReading:
    """Are these numbers the reading asked for, or the correction that the prompt interrupted?

    Attributes:
        draft: The numbers.
        number: The reading that was being corrected.
    """

    draft: Draft
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ConfirmingStop:
    """Did you mean stop? No answer counts as yes."""

    asked_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """A question between two tests, or about what is kept.

    Attributes:
        question: Which.
        test: The number of the test it is about, if it is about one.
    """

    question: Question
    test: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ConfirmingDistress:
    """Is help needed now? It was denied, or long ago, or of somebody else. No answer means yes."""

    asked_at: datetime
    grade: Grade


Aside = (
    ChoosingLanguage
    | Asking
    | NamingSymptom
    | RatingSymptom
    | FixingReading
    | ConfirmingReading
    | PlacingReading
    | ConfirmingStop
    | ConfirmingDistress
)
