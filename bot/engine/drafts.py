"""From the parts of a reading, as they come in, to the reading that is recorded."""

from datetime import datetime, timedelta

from bot.engine.asides import Draft
from bot.engine.state import AwaitingReading, Resting
from bot.protocol.record import Reading, TestRecord, Values


def grown(draft: Draft, values: Values, text: str, source: str, at: datetime) -> Draft:
    """Return the draft with the numbers of one more message."""
    return Draft(
        values=draft.values.updated(values),
        words=(*draft.words, text),
        sources=(*draft.sources, source),
        begun_at=draft.begun_at or at,
    )


def draft_of(reading: Reading) -> Draft:
    """Return a recorded reading as a draft, to be corrected."""
    return Draft(
        values=reading.values,
        words=reading.words,
        sources=reading.sources,
        begun_at=reading.given_at,
    )


def reading_from(stage: Resting | AwaitingReading, draft: Draft, slot_id: str | None) -> Reading:
    """Return the reading that a draft amounts to. Its time is that of its first part.

    Args:
        stage: The stage whose clock gives the offset.
        draft: The parts; at least one.
        slot_id: The planned reading it answers; `None` for one given in between.
    """
    assert draft.begun_at is not None
    # Never before the phase: the messenger's clock and ours may differ.
    offset = max(draft.begun_at - stage.phase_started_at, timedelta(0))
    return Reading(
        number=stage.record.next_number,
        position=stage.phase.position,
        slot=slot_id,
        values=draft.values,
        offset=offset,
        given_at=draft.begun_at,
        late=slot_id is not None and offset > stage.slot.due + stage.slot.window,
        words=draft.words,
        sources=draft.sources,
    )


def with_draft(stage: AwaitingReading) -> TestRecord:
    """Return the record with what was given of the awaited reading, if anything was."""
    if stage.draft.values.empty:
        return stage.record
    return stage.record.with_reading(reading_from(stage, stage.draft, stage.slot.id))
