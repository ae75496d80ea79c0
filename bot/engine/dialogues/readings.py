"""Readings as they are given: taken, doubted, echoed, corrected."""

from dataclasses import dataclass, replace

from bot.engine.dialogues.closing import end, finish
from bot.engine.dialogues.orientation import YES_OR_NO, orient
from bot.engine.dialogues.pacing import await_reading, go_on
from bot.engine.dialogues.stopping import crossed, end_for_reading
from bot.engine.dialogues.symptoms import note
from bot.engine.drafts import grown, reading_from
from bot.engine.effects import Param, Part
from bot.engine.hearing import symptoms
from bot.engine.state import (
    AwaitingReading,
    ConfirmingReading,
    Draft,
    Resting,
)
from bot.engine.turn import Always, Turn, part
from bot.protocol.record import Ending, Reading, Values
from bot.readings import echo, read
from bot.readings.outcome import Doubtful, Problem, Understood, Unreadable


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
            turn.put(None)
            accept(
                turn,
                grown(stage.draft, outcome.values, typed.text, typed.source, turn.at),
                rest=outcome.rest,
            )
        case Doubtful():
            doubt(turn, stage.draft, outcome, typed)
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Unreadable():
            turn.put(None)
            if not outcome.understood.empty:
                draft = grown(stage.draft, outcome.understood, typed.text, typed.source, turn.at)
                turn.stay(replace(_awaited(turn), draft=draft))
            orient(turn, problem(outcome))
    return True


def _take_between(turn: Turn, stage: Resting, typed: Typed) -> bool:
    outcome = read(typed.text)
    match outcome:
        case Understood() if outcome.values.complete:
            turn.put(None)
            accept(
                turn,
                grown(Draft(), outcome.values, typed.text, typed.source, turn.at),
                rest=outcome.rest,
            )
        case Understood() if stage.warned:
            await_reading(turn, stage)
            accept(
                turn,
                grown(Draft(), outcome.values, typed.text, typed.source, turn.at),
                rest=outcome.rest,
            )
        case Doubtful():
            doubt(turn, Draft(), outcome, typed)
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Understood() | Unreadable():
            left = stage.due_at - turn.at
            turn.say(part("reading.not-yet", left=left))
    return True


def keep_aside(turn: Turn, typed: Typed) -> None:
    """Put a whole, plain reading down without a word, when something else must be said first."""
    match turn.stage:
        case AwaitingReading() as stage:
            draft, planned = stage.draft, True
        case Resting() as stage:
            draft, planned = Draft(), stage.warned
        case _:
            return
    outcome = read(typed.text, draft.values)
    if not isinstance(outcome, Understood):
        return
    draft = grown(draft, outcome.values, typed.text, typed.source, turn.at)
    if not draft.values.complete:
        return
    record = stage.record.with_reading(
        reading_from(stage, draft, stage.slot.id if planned else None)
    )
    turn.stay(replace(stage, record=record))
    if isinstance(turn.stage, AwaitingReading):
        turn.stay(replace(turn.stage, draft=Draft()))


def doubt(turn: Turn, draft: Draft, outcome: Doubtful, typed: Typed) -> None:
    """Ask whether odd numbers are right before they are kept."""
    meant = outcome.suggested or outcome.values
    turn.put(
        ConfirmingReading(draft=grown(draft, meant, typed.text, typed.source, turn.at), target=None)
    )
    ask_doubt(turn, outcome, draft.values)


def ask_doubt(turn: Turn, outcome: Doubtful, known: Values) -> None:
    """Put the question that a doubt amounts to."""
    values: dict[str, Param] = {"numbers": echo(known.updated(outcome.values))}
    key = f"doubt.{outcome.doubt}"
    if outcome.suggested is not None:
        values["suggested"] = echo(known.updated(outcome.suggested))
    turn.say(Part(key, values), rows=YES_OR_NO)


def accept(turn: Turn, draft: Draft, rest: str = "") -> None:
    """Keep the numbers given so far; once complete they are a reading, else the rest is asked."""
    match turn.stage:
        case AwaitingReading() as stage if not draft.values.complete:
            turn.stay(replace(stage, draft=draft))
            heard = note(turn, symptoms(rest), rest) if symptoms(rest) else ()
            orient(turn, *heard)
        case AwaitingReading() as stage:
            _keep(turn, stage, draft, stage.slot.id, rest)
        case Resting() as stage if draft.values.complete:
            _keep(turn, stage, draft, stage.slot.id if stage.warned else None, rest)
        case Resting() as stage:
            turn.say(part("reading.not-yet", left=stage.due_at - turn.at))
        case _:
            orient(turn)


def _keep(
    turn: Turn, stage: Resting | AwaitingReading, draft: Draft, slot_id: str | None, rest: str
) -> None:
    reading = reading_from(stage, draft, slot_id)
    turn.update(stage.record.with_reading(reading))
    heard = note(turn, symptoms(rest), rest) if symptoms(rest) else ()
    if words := crossed(reading, turn.context.stop_lines):
        end_for_reading(turn, reading, words)
        return
    fix = ((Always("button.fix", f"fix:{reading.number}"),),)
    said = _kept(reading, heard)
    record = turn.held_record
    if slot_id is None:
        left = stage.due_at - turn.at
        turn.say(*said, part(f"next.{reading.position}", left=left), rows=fix)
    elif stage.slot_index + 1 < len(stage.phase.slots):
        due_at = stage.phase_started_at + stage.phase.slots[stage.slot_index + 1].due
        go_on(turn, stage, record)
        turn.say(*said, part(f"next.{reading.position}", left=due_at - turn.at), rows=fix)
    elif stage.phase_index + 1 < len(stage.protocol.phases):
        turn.say(*said, rows=fix)
        go_on(turn, stage, record)
    else:
        _complete(turn, said, fix)


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
    pressures = f"{values.systolic}/{values.diastolic}"
    assert values.heart_rate is not None
    return part(key, pressures=pressures, heart_rate=values.heart_rate), *heard


def _awaited(turn: Turn) -> AwaitingReading:
    assert isinstance(turn.stage, AwaitingReading)
    return turn.stage


def problem(outcome: Unreadable) -> Part:
    """Return the words that say why numbers were not kept."""
    values: dict[str, Param] = {} if outcome.number is None else {"number": outcome.number}
    if outcome.problem is Problem.IMPOSSIBLE and outcome.measure is not None:
        return Part(f"problem.impossible.{outcome.measure}", values)
    return Part(f"problem.{outcome.problem}", {})
