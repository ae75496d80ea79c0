"""Where a conversation stands. Each stage holds just its own facts, so nonsense cannot be built.

A stage is what the person is doing; an aside is a short question put in between, which never
stops the clock. At most one question is open: the aside's if there is one, else the stage's.
"""

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta

from bot.booking.plan import Booking, ReminderKind
from bot.engine.asides import Aside, Draft, Question
from bot.engine.context import Pinned
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.profile import Profile
from bot.engine.recovery import Recovery
from bot.protocol.circumstances import Circumstances
from bot.protocol.definition import Phase, Protocol, ReadingSlot
from bot.protocol.record import AgeBand, TestRecord
from bot.protocol.released import released


@dataclass(frozen=True, slots=True, kw_only=True)
class Idle:
    """Nothing is under way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AwaitingAgeBand:
    """The age band was asked, since the heart-rate line depends on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Enrolling:
    """The questions before the first booking, one after the other.

    Attributes:
        question: The one that is open.
        ticked: What has been ticked so far, where several can be.
        number: The message that holds the question, where ticks are shown.
        draft: The parts of the trial reading given so far.
        doubted: Whether that reading looks odd and waits for a yes.
    """

    question: Question
    ticked: tuple[str, ...] = ()
    number: int = 0
    draft: Draft = field(default_factory=Draft)
    doubted: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoosingPlace:
    """The person's clock fits several places; which is theirs?

    Attributes:
        offsets: The offsets from UTC that fit.
        page: How many pages of places were passed over.
    """

    offsets: tuple[timedelta, ...]
    page: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Something speaks against doing the test alone; the care team has to clear it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planning:
    """Choosing day and time of a test.

    Attributes:
        day: The day chosen so far.
        clock: The time said before its day.
        at: The instant to be confirmed.
        moving: The booking that is being moved; it holds until the new one is confirmed.
        sent: The reminders of that booking that went out.
        looked_at: When they were last looked at; `None` before the first time.
    """

    day: date | None = None
    clock: time | None = None
    at: datetime | None = None
    moving: Booking | None = None
    sent: frozenset[ReminderKind] = frozenset()
    looked_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Booked:
    """A test is booked.

    Attributes:
        booking: When.
        sent: The reminders that went out, or are of no use any more.
        looked_at: When they were last looked at; `None` before the first time.
    """

    booking: Booking
    sent: frozenset[ReminderKind] = frozenset()
    looked_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Auditing:
    """How the preparation went, asked right before the test.

    Attributes:
        question: The one that is open.
        circumstances: What was answered so far.
        ticked: What has been ticked so far.
        number: The message that holds the question, where ticks are shown.
        since: When the questions began.
    """

    question: Question
    circumstances: Circumstances
    since: datetime
    ticked: tuple[str, ...] = ()
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class AwaitingReady:
    """What is needed and the cautions were said; the person says when they are ready.

    Attributes:
        circumstances: What surrounds the test, if it was asked about.
        since: When it was asked about.
    """

    circumstances: Circumstances | None = None
    since: datetime | None = None


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
        checks_put: How many times in the phase it was asked whether all is well.
        check_number: The message of the last such question.
        silent_since: Since when that question has had no answer; `None` once there was one.
        rung: How many rungs of the silence ladder have passed.
    """

    progress_number: int
    notes_shown: int = 0
    warned: bool = False
    checks_put: int = 0
    check_number: int = 0
    silent_since: datetime | None = None
    rung: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class AwaitingReading(_OnTheClock):
    """A reading was asked for.

    Attributes:
        progress_number: As in `Resting`.
        notes_shown: As in `Resting`.
        silent_since: The last prompt, or the last sign of life after it.
        rung: How many rungs of the silence ladder have passed.
        draft: The parts given so far.
        unread: The messages since the prompt that gave no number; an edit may still make them do.
        interrupted_fix: The number of a reading that was being corrected when the prompt came.
        checks_put: As in `Resting`.
    """

    progress_number: int
    notes_shown: int
    checks_put: int = 0
    silent_since: datetime
    rung: int = 0
    draft: Draft = field(default_factory=Draft)
    unread: tuple[str, ...] = ()
    interrupted_fix: int | None = None


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
    | Enrolling
    | ChoosingPlace
    | Held
    | Planning
    | Booked
    | Auditing
    | AwaitingReady
    | AwaitingPosition
    | Resting
    | AwaitingReading
    | AwaitingStopReason
    | Finished
    | DatingPaper
    | CopyingPaper
)
Running = AwaitingPosition | Resting | AwaitingReading


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
        answered_at: When.
        asides: How many questions were put in between; it names each of them.
        tests: How many tests were begun.
        profile: What is known of the person between tests.
        resumes: The stage to come back to after a question about the person.
        last: The latest test that has ended, once its stage is left: it can still be corrected.
        recovery: What is looked after when a test was stopped for safety.
        active_at: When the person last did something, since they agreed that it is kept.
        pinned: What the clinic had set when the test under way began; `None` when there is none.
        blocked_at: Since when their chat is out of reach, as far as we know; `None` while it is
            not.
    """

    id: str
    locale: str
    stage: Stage = field(default_factory=Idle)
    aside: Aside | None = None
    age_band: AgeBand | None = None
    said: int = 0
    answered: str | None = None
    answered_at: datetime | None = None
    asides: int = 0
    tests: int = 0
    profile: Profile = field(default_factory=Profile)
    resumes: Stage | None = None
    last: TestRecord | None = None
    recovery: Recovery | None = None
    active_at: datetime | None = None
    pinned: Pinned | None = None
    blocked_at: datetime | None = None
