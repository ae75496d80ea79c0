"""A test that was done on paper, while it is typed in. All in it is past: nothing is timed.

Only day and hour of its beginning are told; every other instant is that of the plan.
"""

from dataclasses import dataclass, field
from datetime import date, datetime, time
from enum import StrEnum

from bot.engine.asides import Draft
from bot.protocol.definition import Phase, Position, Protocol, ReadingSlot
from bot.protocol.record import PhaseStart, Reading, TestRecord
from bot.protocol.released import released


class PaperQuestion(StrEnum):
    """What is asked of a test on paper, in this order."""

    DAY_KIND = "day-kind"
    READING = "reading"
    SYMPTOMS = "symptoms"
    ENDED = "ended"  # only where the last reading was not taken


@dataclass(frozen=True, slots=True, kw_only=True)
class DatingPaper:
    """When did the test on paper begin?

    Attributes:
        day: The day told so far.
        clock: The time told before its day.
        at: The instant to be confirmed.
    """

    day: date | None = None
    clock: time | None = None
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CopyingPaper:
    """What is on the paper, one question after the other.

    Attributes:
        record: The test as far as it was typed in; it has not ended.
        question: The one that is open.
        slot_index: Which planned reading is asked for.
        draft: The parts of it given so far.
        doubted: Whether they look odd and wait for a yes.
    """

    record: TestRecord
    question: PaperQuestion = PaperQuestion.DAY_KIND
    slot_index: int = 0
    draft: Draft = field(default_factory=Draft)
    doubted: bool = False

    @property
    def protocol(self) -> Protocol:
        """The definition that the test followed."""
        return released(self.record.protocol)

    @property
    def slot(self) -> ReadingSlot:
        """The planned reading that is asked for."""
        return self.protocol.slots[self.slot_index]

    @property
    def phase(self) -> Phase:
        """The phase of that reading."""
        return self.protocol.phase_of(self.slot.id)


def planned_phases(record: TestRecord) -> tuple[PhaseStart, ...]:
    """Return when each phase begins by the plan, counted from the beginning that was told."""
    starts, at = [], record.began_at
    for phase in released(record.protocol).phases:
        starts.append(PhaseStart(position=phase.position, started_at=at))
        at += phase.length
    return tuple(starts)


def planned_end(record: TestRecord, position: Position | None) -> datetime:
    """Return when the test ended by the plan.

    Args:
        record: The test with its readings and symptoms.
        position: Where it was stopped: with the last of them in that position, or at its start if
            there was none; `None` for the end of the plan.
    """
    starts = {start.position: start.started_at for start in planned_phases(record)}
    if position is None:
        last = released(record.protocol).phases[-1]
        return starts[last.position] + last.length
    given = [r.given_at for r in record.readings if r.position is position]
    told = [s.told_at for s in record.symptoms if s.position is position]
    return max((*given, *told), default=starts[position])


def reading_on_paper(stage: CopyingPaper) -> Reading:
    """Return the reading that the draft amounts to, at its planned time."""
    start = next(s for s in planned_phases(stage.record) if s.position is stage.phase.position)
    return Reading(
        number=stage.record.next_number,
        position=stage.phase.position,
        slot=stage.slot.id,
        values=stage.draft.values,
        offset=stage.slot.due,
        given_at=start.started_at + stage.slot.due,
        words=stage.draft.words,
        sources=stage.draft.sources,
    )
