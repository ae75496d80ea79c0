"""Readings as they are given: taken, doubted, asked about."""

from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

from bot.engine.asides import (
    Aside,
    ConfirmingDistress,
    ConfirmingReading,
    ConfirmingStop,
    Draft,
    PlacingReading,
)
from bot.engine.buttons import part
from bot.engine.candidates import candidates
from bot.engine.dialogues.keeping import (
    accept,
    heard_in,
    mind,
    planned_now,
    surely_unsafe,
    unsafe,
)
from bot.engine.dialogues.orientation import YES_OR_NO, orient
from bot.engine.dialogues.pacing import await_reading, latest_due
from bot.engine.dialogues.stopping import (
    fix_button,
)
from bot.engine.drafts import grown, reading_from
from bot.engine.effects import Param, Part
from bot.engine.state import AwaitingReading, Resting
from bot.engine.turn import Turn
from bot.protocol.record import Values
from bot.readings import echo, read
from bot.readings.outcome import Doubt, Doubtful, Problem, Several, Understood, Unreadable

CORRECTS_FOR: Final = timedelta(minutes=3)
"""How long after a reading "no, 128" may put it right (design choice)."""


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
    outcome = read(typed.text, stage.draft.values, _last_values(stage))
    if not isinstance(outcome, Unreadable) and stage.draft.values.empty:
        stage = _caught_up(turn, stage)
    match outcome:
        case Understood(correction=True) if stage.draft.values.empty and _corrected(turn):
            turn.drop()
            draft = _with(Draft(), outcome.values, typed, turn)
            turn.put(PlacingReading(draft=draft, number=len(stage.record.readings)))
            orient(turn, *heard_in(turn, outcome.rest))
        case Understood():
            turn.drop()
            accept(turn, _with(stage.draft, outcome.values, typed, turn), rest=outcome.rest)
        case Doubtful():
            doubt(turn, stage.draft, outcome, typed)
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Several():
            _ask_which(turn, outcome, typed)
        case Unreadable():
            turn.drop()
            understood = outcome.understood
            found = candidates(typed.text, outcome, stage.draft.values)
            if surely_unsafe(turn, _with(stage.draft, Values(), typed, turn), found):
                return True
            if outcome.problem is not Problem.TOO_MANY and not understood.empty:
                draft = _with(stage.draft, understood, typed, turn)
                turn.stay(replace(_awaited(turn), draft=draft))
                if unsafe(turn, draft):
                    return True
            warning = mind(turn, found, stage.phase.position)
            orient(turn, *heard_in(turn, typed.text), problem(outcome), *warning)
    return True


def _caught_up(turn: Turn, stage: AwaitingReading) -> AwaitingReading:
    """Go on to the planned reading that is nearest: from its heads-up on numbers are for that."""
    due = latest_due(stage, turn.at, ahead=stage.protocol.heads_up)
    turn.stay(replace(stage, slot_index=due))
    return _awaited(turn)


def _take_between(turn: Turn, stage: Resting, typed: Typed) -> bool:
    outcome = read(typed.text, before=_last_values(stage))
    planned = planned_now(turn, stage)
    match outcome:
        case Understood() if planned or outcome.values.complete:
            turn.drop()
            if planned:
                await_reading(turn, stage)
                _caught_up(turn, _awaited(turn))
            accept(turn, _with(Draft(), outcome.values, typed, turn), rest=outcome.rest)
        case Several():
            _ask_which(turn, outcome, typed)
        case Doubtful():
            doubt(turn, Draft(), outcome, typed)
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Understood() if unsafe(turn, _with(Draft(), outcome.values, typed, turn)):
            pass  # a part that crosses a stop line does not wait for the rest
        case Unreadable() if unsafe(turn, _with(Draft(), outcome.understood, typed, turn)):
            pass
        case Understood() | Unreadable():
            _take_no_reading(turn, stage, outcome, typed)
    return True


def _take_no_reading(
    turn: Turn, stage: Resting, outcome: Understood | Unreadable, typed: Typed
) -> None:
    """Say that no reading was kept, since none is due; the stop lines hold all the same."""
    found = candidates(typed.text, outcome, Values())
    if surely_unsafe(turn, _with(Draft(), Values(), typed, turn), found):
        return
    left = max(stage.due_at - turn.at, timedelta(0))
    last = stage.record.readings[-1:] if _corrected(turn) else ()
    rows = tuple((fix_button(turn, reading.number),) for reading in last)
    said = (*heard_in(turn, typed.text), part("reading.not-yet", left=left))
    turn.say(*said, *mind(turn, found, stage.phase.position), rows=rows)


def _last_values(stage: Resting | AwaitingReading) -> Values | None:
    """Return the numbers of the last reading: what is far from them may be a slip."""
    return stage.record.readings[-1].values if stage.record.readings else None


def _corrected(turn: Turn) -> bool:
    """Whether the last reading is so fresh that a correction may be meant for it."""
    given = [reading.given_at for reading in turn.held_record.readings]
    return bool(given) and turn.at - given[-1] <= CORRECTS_FOR


def corrects(turn: Turn, typed: Typed) -> int | None:
    """Return the number of the reading that the words put right ("no, 128"), if they do.

    Before the next reading is due nothing else can be meant; once it is asked for, that is asked.
    """
    match turn.stage:
        case Resting() as stage if _corrected(turn) and not planned_now(turn, stage):
            outcome = read(typed.text, before=_last_values(stage))
            if isinstance(outcome, Understood | Doubtful) and outcome.correction:
                return len(stage.record.readings)
        case _:
            pass
    return None


def _ask_which(turn: Turn, outcome: Several, typed: Typed) -> None:
    """Ask whether the last of several readings is the one that counts; all are kept then."""
    draft = _with(Draft(), outcome.counts, typed, turn)
    turn.drop()
    if any(unsafe(turn, replace(draft, values=values)) for values in outcome.readings):
        return
    if isinstance(turn.aside, ConfirmingStop | ConfirmingDistress):
        orient(turn, part("doubt.not-kept"))
        return
    heard = heard_in(turn, outcome.rest)
    turn.put(ConfirmingReading(draft=draft, target=None, others=outcome.readings[:-1]))
    numbers = ", ".join(echo(values) for values in outcome.readings)
    last: dict[str, Param] = {"numbers": numbers, "suggested": echo(outcome.counts)}
    turn.say(*heard, Part("doubt.several", last), rows=YES_OR_NO)


def _with(draft: Draft, values: Values, typed: Typed, turn: Turn) -> Draft:
    return grown(draft, values, typed.text, typed.source, turn.at)


def keep_aside(turn: Turn, typed: Typed) -> None:
    """Put a whole, plain reading down without a word, when something else must be said first."""
    match turn.stage:
        case AwaitingReading() as stage:
            draft, planned = stage.draft, True
        case Resting() as stage:
            draft, planned = Draft(), planned_now(turn, stage)
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
    if unsafe(turn, meant):
        return
    if isinstance(turn.aside, ConfirmingStop | ConfirmingDistress):
        orient(turn, part("doubt.not-kept"))
        return
    heard = heard_in(turn, outcome.rest)
    turn.put(ConfirmingReading(draft=meant, target=None))
    ask_doubt(turn, outcome, draft.values, heard)


def let_go(turn: Turn, doubted: Aside | None) -> None:
    """Let go of numbers in doubt, since a symptom was told instead of a yes or a no.

    With the symptom they may cross a line: that ends the test. It is said that they are not kept.
    """
    if not isinstance(doubted, ConfirmingReading) or doubted.target is not None:
        return
    if turn.running is not None and turn.aside != doubted and not unsafe(turn, doubted.draft):
        turn.say(part("doubt.dropped", numbers=echo(doubted.draft.values)))


def weigh(turn: Turn, doubted: Draft | None) -> None:
    """Hold numbers that were let go of against the lines, now that a symptom goes with them."""
    if doubted is not None and turn.running is not None:
        unsafe(turn, doubted)


def ask_doubt(
    turn: Turn,
    outcome: Doubtful,
    known: Values,
    first: tuple[Part, ...] = (),
    more: tuple[Part, ...] = (),
) -> None:
    """Put the question that a doubt amounts to, after any `first` words and before any `more`."""
    values: dict[str, Param] = {"numbers": echo(known.updated(outcome.values))}
    key = f"doubt.{outcome.doubt}"
    if outcome.suggested is not None:
        values["suggested"] = echo(known.updated(outcome.suggested))
    elif outcome.doubt is Doubt.SWAPPED:
        key = "doubt.not-bigger"  # the other way round they would be as odd
    turn.say(*first, Part(key, values), *more, rows=YES_OR_NO)


def _awaited(turn: Turn) -> AwaitingReading:
    assert isinstance(turn.stage, AwaitingReading)
    return turn.stage


def problem(outcome: Unreadable) -> Part:
    """Return the words that say why numbers were not kept."""
    values: dict[str, Param] = {} if outcome.number is None else {"number": outcome.number}
    if outcome.problem is Problem.IMPOSSIBLE and outcome.measure is not None:
        return Part(f"problem.impossible.{outcome.measure}", values)
    return Part(f"problem.{outcome.problem}", {})
