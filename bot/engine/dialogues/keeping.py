"""Readings as they are kept: held against the stop lines, put into the record, said back."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bot.engine.asides import (
    ConfirmingDistress,
    ConfirmingReading,
    ConfirmingStop,
    Draft,
    PlacingReading,
)
from bot.engine.buttons import Always, Rows, part
from bot.engine.candidates import Candidates
from bot.engine.dialogues.closing import end, finish
from bot.engine.dialogues.crossing import crossed, falls_far, races
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.pacing import go_on
from bot.engine.dialogues.stopping import (
    end_for_reading,
    fix_button,
    on_the_clock,
    pressures,
)
from bot.engine.dialogues.symptoms import note
from bot.engine.drafts import reading_from
from bot.engine.effects import Part
from bot.engine.hearing import symptoms
from bot.engine.notices import Notice
from bot.engine.state import AwaitingReading, Resting
from bot.engine.turn import Turn
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Reading, Values

_CROSSING: Final = timedelta(seconds=90)
"""How long after a prompt numbers may still be meant for what came before it (design choice)."""


def keep_others(turn: Turn, aside: ConfirmingReading) -> None:
    """Keep the readings that came in the same message before the one that counts."""
    stage = on_the_clock(turn)
    if stage is None:
        return
    for values in aside.others:
        reading = reading_from(stage, replace(aside.draft, values=values), None)
        turn.update(turn.held_record.with_reading(reading))
        stage = on_the_clock(turn) or stage


def planned_now(turn: Turn, stage: Resting) -> bool:
    """Whether numbers given now answer the planned reading: from its heads-up on."""
    return turn.at >= stage.due_at - stage.protocol.heads_up


def heard_in(turn: Turn, text: str) -> tuple[Part, ...]:
    """Note the symptoms in a message that gave no reading, and say so."""
    told = symptoms(text)
    return note(turn, told, text) if told else ()


def unsafe(turn: Turn, draft: Draft) -> bool:
    """End the test if the numbers so far cross a stop line, whole or not; they are kept."""
    stage = on_the_clock(turn)
    if stage is None:
        return False
    lines = turn.context.stop_lines
    crossing = crossed(stage.record, stage.phase.position, draft.values, lines)
    if crossing is None:
        return False
    planned = isinstance(stage, AwaitingReading) or planned_now(turn, stage)
    reading = reading_from(stage, draft, stage.slot.id if planned else None)
    if isinstance(stage, AwaitingReading):
        turn.stay(replace(stage, draft=Draft()))
    turn.update(stage.record.with_reading(reading))
    end_for_reading(turn, reading, crossing)
    return True


def surely_unsafe(turn: Turn, draft: Draft, found: Candidates) -> bool:
    """End the test if a message crosses a stop line however it is read; its last numbers are kept.

    Args:
        turn: The step.
        draft: The words and messages of the numbers.
        found: What these may be.
    """
    clock = on_the_clock(turn)
    if clock is None or not past_lines(turn, found.likely, clock.phase.position):
        return False
    return unsafe(turn, replace(draft, values=found.likely[-1]))


def past_lines(turn: Turn, readings: tuple[Values, ...], position: Position) -> bool:
    """Whether there are readings, and each of them crosses a stop line."""
    return bool(readings) and all(_crosses(turn, values, position) for values in readings)


def mind(turn: Turn, found: Candidates, position: Position) -> tuple[Part, ...]:
    """Return a word of safety if a message crosses a stop line in one way of reading it."""
    ways = (*found.likely, *found.others)
    return (part("doubt.unwell"),) if any(_crosses(turn, way, position) for way in ways) else ()


def _crosses(turn: Turn, values: Values, position: Position) -> bool:
    return crossed(turn.held_record, position, values, turn.context.stop_lines) is not None


def accept(turn: Turn, draft: Draft, rest: str = "") -> None:
    """Keep the numbers given so far; once complete they are a reading, else the rest is asked."""
    heard = heard_in(turn, rest)
    if unsafe(turn, draft):
        return
    match turn.stage:
        case AwaitingReading() as stage if not draft.values.complete:
            turn.stay(replace(stage, draft=draft))
            orient(turn, *heard)
        case AwaitingReading(interrupted_fix=int(number)) as stage if _just_asked(turn, stage):
            turn.stay(replace(stage, interrupted_fix=None))
            turn.put(PlacingReading(draft=draft, number=number))
            orient(turn)
        case AwaitingReading() as stage:
            _keep(turn, stage, draft, stage.slot.id, heard)
        case Resting() as stage if draft.values.complete:
            _keep(turn, stage, draft, stage.slot.id if planned_now(turn, stage) else None, heard)
        case Resting() as stage:
            turn.say(part("reading.not-yet", left=stage.due_at - turn.at))
        case _:
            orient(turn)


def _just_asked(turn: Turn, stage: AwaitingReading) -> bool:
    """Whether numbers may still be meant for the correction that the prompt interrupted."""
    return turn.at - stage.due_at <= _CROSSING


def _keep(
    turn: Turn,
    stage: Resting | AwaitingReading,
    draft: Draft,
    slot_id: str | None,
    heard: tuple[Part, ...],
) -> None:
    reading = reading_from(stage, draft, slot_id)
    if slot_id is None and _repeats(stage, reading):
        left = stage.due_at - turn.at
        turn.say(part("reading.same"), part(f"next.{reading.position}", left=left))
        return
    turn.update(stage.record.with_reading(reading))
    said = (*_kept(reading, heard), *_mind_how_you_feel(turn, reading))
    fix = ((fix_button(turn, reading.number),),)
    record = turn.held_record
    if slot_id is None:
        _say_next(turn, reading, stage.due_at, said, _use_or_fix(turn, reading))
    elif stage.slot_index + 1 < len(stage.phase.slots):
        due_at = stage.phase_started_at + stage.phase.slots[stage.slot_index + 1].due
        go_on(turn, stage, record)
        _say_next(turn, reading, due_at, said, fix)
    elif stage.phase_index + 1 < len(stage.protocol.phases):
        go_on(turn, stage, record, *said, more=fix)
    else:
        _complete(turn, said, fix)


def _say_next(
    turn: Turn, reading: Reading, due_at: datetime, said: tuple[Part, ...], rows: Rows
) -> None:
    """Say when the next reading is due; a question about stopping or help is put again instead."""
    if isinstance(turn.aside, ConfirmingStop | ConfirmingDistress):
        orient(turn, *said, more=rows)
        return
    left = max(due_at - turn.at, timedelta(0))
    turn.say(*said, part(f"next.{reading.position}", left=left), rows=rows)


def _use_or_fix(turn: Turn, reading: Reading) -> Rows:
    """Return the buttons under an extra reading: it can be made the one that counts."""
    test = turn.held_record.number
    planned = any(r.slot and r.position is reading.position for r in turn.held_record.readings)
    use = Always("button.use", f"use:{test}.{reading.number}")
    return (*(((use,),) if planned else ()), (fix_button(turn, reading.number),))


def _mind_how_you_feel(turn: Turn, reading: Reading) -> tuple[Part, ...]:
    """Return words for whoever stands with numbers that stop once there is a symptom."""
    lines = turn.context.stop_lines
    if reading.position is not Position.STANDING or turn.running is None:
        return ()
    if falls_far(turn.held_record, reading.values, lines):
        return (part("reading.large-fall"),)
    return (part("reading.fast"),) if races(reading.values, lines) else ()


def _repeats(stage: Resting | AwaitingReading, reading: Reading) -> bool:
    """Whether an unasked reading only says the last one again: it would count as two."""
    same_phase = [r for r in stage.record.readings if r.position is reading.position]
    return bool(same_phase) and same_phase[-1].values == reading.values


def _complete(turn: Turn, said: tuple[Part, ...], fix: tuple[tuple[Always, ...], ...]) -> None:
    record = end(turn, Ending.COMPLETED)
    turn.tell(Notice.COMPLETED)
    turn.say(*said, part("finished.rest"), rows=fix)
    finish(turn, record)


def _kept(reading: Reading, heard: tuple[Part, ...]) -> tuple[Part, ...]:
    values = reading.values
    key = "reading.kept"
    if reading.slot is None:
        key = "reading.kept-extra"
    elif reading.late:
        key = "reading.kept-late"
    assert values.heart_rate is not None
    return part(key, pressures=pressures(values), heart_rate=values.heart_rate), *heard
