"""Readings as they are given: taken, doubted, echoed, corrected."""

from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

from bot.engine.dialogues.closing import end, finish
from bot.engine.dialogues.orientation import YES_OR_NO, orient
from bot.engine.dialogues.pacing import await_reading, go_on
from bot.engine.dialogues.stopping import (
    crossed,
    end_for_reading,
    fix_button,
    on_the_clock,
    pressures,
)
from bot.engine.dialogues.symptoms import note
from bot.engine.drafts import grown, reading_from
from bot.engine.effects import Param, Part
from bot.engine.hearing import symptoms
from bot.engine.state import (
    AwaitingReading,
    ConfirmingReading,
    ConfirmingStop,
    Draft,
    PlacingReading,
    Resting,
)
from bot.engine.turn import Always, Turn, part
from bot.protocol.record import Ending, Reading, Values
from bot.readings import echo, read
from bot.readings.outcome import Doubtful, Problem, Understood, Unreadable

_CROSSING: Final = timedelta(seconds=90)
"""How long after a prompt numbers may still be meant for what came before it (design choice)."""


@dataclass(frozen=True, slots=True)
class Typed:
    """A message as it was typed, and the channel's name of it."""

    text: str
    source: str


def take(turn: Turn, typed: Typed) -> bool:
    """Take a message as a reading, or a part of one. Returns False when it holds no numbers."""
    match turn.stage:
        case AwaitingReading() as stage:
            return _take_awaited(turn, stage, typed)
        case Resting() as stage:
            return _take_between(turn, stage, typed)
        case _:
            return False


def _take_awaited(turn: Turn, stage: AwaitingReading, typed: Typed) -> bool:
    outcome = read(typed.text, stage.draft.values)
    match outcome:
        case Understood():
            turn.drop()
            accept(turn, _with(stage.draft, outcome.values, typed, turn), rest=outcome.rest)
        case Doubtful():
            doubt(turn, stage.draft, outcome, typed)
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Unreadable():
            turn.drop()
            understood = outcome.understood
            if outcome.problem is not Problem.TOO_MANY and not understood.empty:
                draft = _with(stage.draft, understood, typed, turn)
                turn.stay(replace(_awaited(turn), draft=draft))
                if _unsafe(turn, draft):
                    return True
            orient(turn, *_heard(turn, typed.text), problem(outcome))
    return True


def _take_between(turn: Turn, stage: Resting, typed: Typed) -> bool:
    outcome = read(typed.text)
    planned = _planned(turn, stage)
    match outcome:
        case Understood() if planned or outcome.values.complete:
            turn.drop()
            if planned:
                await_reading(turn, stage)
            accept(turn, _with(Draft(), outcome.values, typed, turn), rest=outcome.rest)
        case Doubtful():
            doubt(turn, Draft(), outcome, typed)
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Understood() | Unreadable():
            left = max(stage.due_at - turn.at, timedelta(0))
            turn.say(*_heard(turn, typed.text), part("reading.not-yet", left=left))
    return True


def _planned(turn: Turn, stage: Resting) -> bool:
    """Whether numbers given now answer the planned reading: from its heads-up on."""
    return turn.at >= stage.due_at - stage.protocol.heads_up


def _heard(turn: Turn, text: str) -> tuple[Part, ...]:
    """Note the symptoms in a message that gave no reading, and say so."""
    told = symptoms(text)
    return note(turn, told, text) if told else ()


def _with(draft: Draft, values: Values, typed: Typed, turn: Turn) -> Draft:
    return grown(draft, values, typed.text, typed.source, turn.at)


def keep_aside(turn: Turn, typed: Typed) -> None:
    """Put a whole, plain reading down without a word, when something else must be said first."""
    match turn.stage:
        case AwaitingReading() as stage:
            draft, planned = stage.draft, True
        case Resting() as stage:
            draft, planned = Draft(), _planned(turn, stage)
        case _:
            return
    outcome = read(typed.text, draft.values)
    if not isinstance(outcome, Understood):
        return
    draft = _with(draft, outcome.values, typed, turn)
    if not draft.values.complete:
        return
    slot_id = stage.slot.id if planned else None
    turn.update(stage.record.with_reading(reading_from(stage, draft, slot_id)))
    if isinstance(turn.stage, AwaitingReading):
        turn.stay(replace(turn.stage, draft=Draft()))


def doubt(turn: Turn, draft: Draft, outcome: Doubtful, typed: Typed) -> None:
    """Ask whether odd numbers are right before they are kept.

    Numbers past a stop line are not asked about first: lying down comes before being exact.
    """
    meant = _with(draft, outcome.suggested or outcome.values, typed, turn)
    if isinstance(turn.aside, ConfirmingStop):
        orient(turn, part("doubt.denied"))
        return
    if _unsafe(turn, meant):
        return
    heard = _heard(turn, outcome.rest)
    turn.put(ConfirmingReading(draft=meant, target=None))
    ask_doubt(turn, outcome, draft.values, heard)


def _unsafe(turn: Turn, draft: Draft) -> bool:
    """End the test if the numbers so far cross a stop line, whole or not; they are kept."""
    stage = on_the_clock(turn)
    if stage is None:
        return False
    words = crossed(stage.phase.position, draft.values, turn.context.stop_lines)
    if words is None:
        return False
    planned = isinstance(stage, AwaitingReading) or _planned(turn, stage)
    reading = reading_from(stage, draft, stage.slot.id if planned else None)
    if isinstance(stage, AwaitingReading):
        turn.stay(replace(stage, draft=Draft()))
    turn.update(stage.record.with_reading(reading))
    end_for_reading(turn, reading, words)
    return True


def ask_doubt(turn: Turn, outcome: Doubtful, known: Values, first: tuple[Part, ...] = ()) -> None:
    """Put the question that a doubt amounts to, after any `first` words."""
    values: dict[str, Param] = {"numbers": echo(known.updated(outcome.values))}
    key = f"doubt.{outcome.doubt}"
    if outcome.suggested is not None:
        values["suggested"] = echo(known.updated(outcome.suggested))
    turn.say(*first, Part(key, values), rows=YES_OR_NO)


def accept(turn: Turn, draft: Draft, rest: str = "") -> None:
    """Keep the numbers given so far; once complete they are a reading, else the rest is asked."""
    if _unsafe(turn, draft):
        return
    match turn.stage:
        case AwaitingReading() as stage if not draft.values.complete:
            turn.stay(replace(stage, draft=draft))
            orient(turn, *_heard(turn, rest))
        case AwaitingReading(interrupted_fix=int(number)) as stage if _just_asked(turn, stage):
            turn.stay(replace(stage, interrupted_fix=None))
            turn.put(PlacingReading(draft=draft, number=number))
            orient(turn)
        case AwaitingReading() as stage:
            _keep(turn, stage, draft, stage.slot.id, rest)
        case Resting() as stage if draft.values.complete:
            _keep(turn, stage, draft, stage.slot.id if _planned(turn, stage) else None, rest)
        case Resting() as stage:
            turn.say(part("reading.not-yet", left=stage.due_at - turn.at))
        case _:
            orient(turn)


def _just_asked(turn: Turn, stage: AwaitingReading) -> bool:
    """Whether numbers may still be meant for the correction that the prompt interrupted."""
    return turn.at - stage.due_at <= _CROSSING


def _keep(
    turn: Turn, stage: Resting | AwaitingReading, draft: Draft, slot_id: str | None, rest: str
) -> None:
    reading = reading_from(stage, draft, slot_id)
    if slot_id is None and _repeats(stage, reading):
        left = stage.due_at - turn.at
        turn.say(part("reading.same"), part(f"next.{reading.position}", left=left))
        return
    turn.update(stage.record.with_reading(reading))
    said = _kept(reading, _heard(turn, rest))
    fix = ((fix_button(turn, reading.number),),)
    record = turn.held_record
    if slot_id is None:
        left = stage.due_at - turn.at
        turn.say(*said, part(f"next.{reading.position}", left=left), rows=fix)
    elif stage.slot_index + 1 < len(stage.phase.slots):
        due_at = stage.phase_started_at + stage.phase.slots[stage.slot_index + 1].due
        go_on(turn, stage, record)
        left = max(due_at - turn.at, timedelta(0))
        turn.say(*said, part(f"next.{reading.position}", left=left), rows=fix)
    elif stage.phase_index + 1 < len(stage.protocol.phases):
        turn.say(*said, rows=fix)
        go_on(turn, stage, record)
    else:
        _complete(turn, said, fix)


def _repeats(stage: Resting | AwaitingReading, reading: Reading) -> bool:
    """Whether an unasked reading only says the last one again: it would count as two."""
    same_phase = [r for r in stage.record.readings if r.position is reading.position]
    return bool(same_phase) and same_phase[-1].values == reading.values


def _complete(turn: Turn, said: tuple[Part, ...], fix: tuple[tuple[Always, ...], ...]) -> None:
    record = end(turn, Ending.COMPLETED)
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


def _awaited(turn: Turn) -> AwaitingReading:
    assert isinstance(turn.stage, AwaitingReading)
    return turn.stage


def problem(outcome: Unreadable) -> Part:
    """Return the words that say why numbers were not kept."""
    values: dict[str, Param] = {} if outcome.number is None else {"number": outcome.number}
    if outcome.problem is Problem.IMPOSSIBLE and outcome.measure is not None:
        return Part(f"problem.impossible.{outcome.measure}", values)
    return Part(f"problem.{outcome.problem}", {})
