"""Where a conversation stands. Each stage holds just its own facts, so nonsense cannot be built.

A stage is what the person is doing; an aside is a short question put in between, which never
stops the clock. At most one question is open: the aside's if there is one, else the stage's.
"""

from dataclasses import dataclass, field
from datetime import datetime

from bot.protocol.definition import Phase, Protocol, ProtocolRef, ReadingSlot
from bot.protocol.record import AgeBand, TestRecord, Values
from bot.protocol.released import DEFAULT, released

# -- stages


@dataclass(frozen=True, slots=True, kw_only=True)
class Idle:
    """Nothing is under way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AwaitingAgeBand:
    """The age band was asked, since the heart-rate line depends on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AwaitingReady:
    """What is needed and the cautions were said; the person says when they are ready."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _InTest:
    record: TestRecord
    phase_index: int

    @property
    def protocol(self) -> Protocol:
        """The definition the test began with."""
        return released(self.record.protocol)

    @property
    def phase(self) -> Phase:
        """The phase that the test is at."""
        return self.protocol.phases[self.phase_index]


@dataclass(frozen=True, slots=True, kw_only=True)
class AwaitingPosition(_InTest):
    """The person was told to take a position; the clock starts when they say they have.

    Attributes:
        silent_since: The last prompt, or the last sign of life after it.
        rung: How many rungs of the silence ladder have passed.
    """

    silent_since: datetime
    rung: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class _OnTheClock(_InTest):
    phase_started_at: datetime
    slot_index: int

    @property
    def slot(self) -> ReadingSlot:
        """The planned reading that is waited for or asked for."""
        return self.phase.slots[self.slot_index]

    @property
    def due_at(self) -> datetime:
        """When that reading is due."""
        return self.phase_started_at + self.slot.due


@dataclass(frozen=True, slots=True, kw_only=True)
class Resting(_OnTheClock):
    """The clock runs; the next reading is not yet due.

    Attributes:
        progress_number: The message that progress is shown in.
        notes_shown: How many progress notes of the phase have passed.
        warned: Whether the heads-up for this reading was said.
    """

    progress_number: int
    notes_shown: int = 0
    warned: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """The parts of a reading given so far, with the words and messages they came in."""

    values: Values = field(default_factory=Values)
    words: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    begun_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AwaitingReading(_OnTheClock):
    """A reading was asked for.

    Attributes:
        progress_number: As in `Resting`.
        notes_shown: As in `Resting`.
        silent_since: The last prompt, or the last sign of life after it.
        rung: How many rungs of the silence ladder have passed.
        draft: The parts given so far.
    """

    progress_number: int
    notes_shown: int
    silent_since: datetime
    rung: int = 0
    draft: Draft = field(default_factory=Draft)


@dataclass(frozen=True, slots=True, kw_only=True)
class AwaitingStopReason:
    """The person stopped; the record has ended, and the reason was asked."""

    record: TestRecord
    asked_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Finished:
    """The test has ended; the record is the person's latest result."""

    record: TestRecord


Stage = (
    Idle
    | AwaitingAgeBand
    | AwaitingReady
    | AwaitingPosition
    | Resting
    | AwaitingReading
    | AwaitingStopReason
    | Finished
)
Running = AwaitingPosition | Resting | AwaitingReading

# -- asides


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoosingLanguage:
    """Which language?"""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamingSymptom:
    """Which symptom?"""


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
    """

    draft: Draft
    target: int | None
    extra: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ConfirmingStop:
    """Did you mean stop? No answer counts as yes."""

    asked_at: datetime


Aside = (
    ChoosingLanguage
    | NamingSymptom
    | RatingSymptom
    | FixingReading
    | ConfirmingReading
    | ConfirmingStop
)

# -- the whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Conversation:
    """All that the engine knows about one person's conversation.

    Attributes:
        id: Opaque.
        locale: The language in use.
        stage: What the person is doing.
        aside: A question put in between.
        age_band: Asked once.
        said: How many messages were numbered so far.
        answered: The last answer that was taken, so that a double tap is not told off.
        tests: How many tests were begun.
    """

    id: str
    locale: str
    stage: Stage = field(default_factory=Idle)
    aside: Aside | None = None
    age_band: AgeBand | None = None
    said: int = 0
    answered: str | None = None
    tests: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class StopLines:
    """Readings at which the test ends for safety. A design choice for each clinic to sign off.

    Attributes:
        standing_systolic_below: mmHg; European syncope guideline's standing systolic (Brignole
            2018, found second hand) used as a stop, which is this project's choice.
        systolic_from: mmHg; American Heart Association public page (found).
        diastolic_from: mmHg; the same.
    """

    standing_systolic_below: int = 90
    systolic_from: int = 180
    diastolic_from: int = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What the clinic has set.

    Attributes:
        protocol: The definition for new tests.
        languages: The languages on offer.
        stop_lines: When a reading ends the test.
    """

    protocol: ProtocolRef = DEFAULT
    languages: tuple[str, ...] = ("en", "es")
    stop_lines: StopLines = field(default_factory=StopLines)
