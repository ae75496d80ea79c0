"""The shape of a protocol: phases of one position each, with readings at set times."""

from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum


class Position(StrEnum):
    """The body position that a phase is measured in."""

    SUPINE = "supine"
    SEATED = "seated"
    STANDING = "standing"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingSlot:
    """One planned reading.

    Attributes:
        id: Unique in the protocol, e.g. `standing-5`.
        due: Time from the start of the phase at which the reading is asked for.
        window: How long after `due` a reading still counts as on time.
    """

    id: str
    due: timedelta
    window: timedelta


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """How long silence may last, counted from the last unanswered prompt.

    Attributes:
        nudge_after: When to ask once more.
        check_after: When to ask "are you all right?".
        close_after: When to close the test as incomplete, with safety words.
    """

    nudge_after: timedelta
    check_after: timedelta
    close_after: timedelta


@dataclass(frozen=True, slots=True, kw_only=True)
class Phase:
    """A stretch of the test in one position.

    Its clock starts when the person says they are in position.

    Attributes:
        position: The body position.
        slots: The planned readings, in order of time.
        progress: Times from the start at which the progress message is edited.
        getting_there: The silence ladder while the person takes the position.
        reading: The silence ladder while a reading is awaited.
        checks: Times from the start at which the person is asked whether all is well.
        checking: The silence ladder of those questions; needed where there are any.
    """

    position: Position
    slots: tuple[ReadingSlot, ...]
    progress: tuple[timedelta, ...]
    getting_there: Ladder
    reading: Ladder
    checks: tuple[timedelta, ...] = ()
    checking: Ladder | None = None

    @property
    def length(self) -> timedelta:
        """The time from the start of the phase to its last planned reading."""
        return self.slots[-1].due


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class ProtocolRef:
    """Names one released definition; a test keeps the one it began with."""

    id: str
    version: int

    def __str__(self) -> str:
        return f"{self.id}/{self.version}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Protocol:
    """A whole test as data.

    Attributes:
        ref: Its name and version.
        phases: The phases, in order.
        heads_up: How long before each reading the person is told to get ready.
    """

    ref: ProtocolRef
    phases: tuple[Phase, ...]
    heads_up: timedelta

    @property
    def slots(self) -> tuple[ReadingSlot, ...]:
        """All planned readings, in order."""
        return tuple(slot for phase in self.phases for slot in phase.slots)

    def phase_of(self, slot_id: str) -> Phase:
        """Return the phase that holds the slot.

        Raises:
            KeyError: There is no such slot.
        """
        for phase in self.phases:
            if any(slot.id == slot_id for slot in phase.slots):
                return phase
        raise KeyError(slot_id)

    def slot(self, slot_id: str) -> ReadingSlot:
        """Return the slot by its id.

        Raises:
            KeyError: There is no such slot.
        """
        for slot in self.slots:
            if slot.id == slot_id:
                return slot
        raise KeyError(slot_id)
