"""Corrections: a reading put right by a button, a word, or an edited message."""

from dataclasses import replace

from bot.engine.asides import ConfirmingReading, Draft, FixingReading, PlacingReading
from bot.engine.buttons import part
from bot.engine.candidates import Candidates, candidates
from bot.engine.dialogues import remeasuring
from bot.engine.dialogues.closing import hand_over, put_down
from bot.engine.dialogues.crossing import Crossing, crossed
from bot.engine.dialogues.keeping import accept, keep_others, mind, past_lines, surely_unsafe
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.paper_questions import care
from bot.engine.dialogues.readings import Typed, ask_doubt, problem, take
from bot.engine.dialogues.stopping import after_correction, end_for_reading
from bot.engine.dialogues.symptoms import note
from bot.engine.drafts import draft_of, grown
from bot.engine.effects import Part, Urgency
from bot.engine.hearing import symptoms
from bot.engine.state import AwaitingReading, Booked, Finished, Idle, Resting
from bot.engine.turn import Turn
from bot.protocol.definition import Position
from bot.protocol.record import Origin, Reading, Values
from bot.readings import echo, read
from bot.readings.outcome import Doubtful, Problem, Several, Understood, Unreadable


def confirm(turn: Turn, aside: ConfirmingReading) -> None:
    """The odd numbers are right: keep them."""
    turn.drop()
    if aside.target is None:
        keep_others(turn, aside)
        accept(turn, aside.draft)
    else:
        apply_fix(turn, aside.target, aside.draft)


def deny(turn: Turn, aside: ConfirmingReading) -> None:
    """The odd numbers are wrong: ask for them again."""
    turn.drop()
    if aside.target is not None:
        turn.put(FixingReading(number=aside.target))
    orient(turn, part("doubt.denied"))


def place(turn: Turn, aside: PlacingReading, *, earlier: bool) -> None:
    """The numbers are the correction that was interrupted, or the reading that was asked for."""
    turn.drop()
    if earlier:
        before = draft_of(turn.held_record.readings[aside.number - 1])
        values = before.values.updated(aside.draft.values)
        words = (*before.words, *aside.draft.words)
        sources = (*before.sources, *aside.draft.sources)
        draft = replace(before, values=values, words=words, sources=sources)
        apply_fix(turn, aside.number, draft)
    else:
        accept(turn, aside.draft)


def ask_fix(turn: Turn, number: int | None = None) -> None:
    """Ask for the right numbers of a reading: the one named, or the last one.

    The word alone means the latest test only where nothing else could be meant to be wrong.
    """
    stage = turn.stage
    named = number is not None or isinstance(stage, Idle | Booked)
    record = turn.latest if named else turn.record
    if number is None and isinstance(turn.aside, ConfirmingReading):
        deny(turn, turn.aside)
        return
    if number is None and isinstance(stage, AwaitingReading) and not stage.draft.values.empty:
        turn.drop()
        turn.stay(replace(stage, draft=Draft()))
        orient(turn, part("fix.cleared"))
        return
    count = len(record.readings) if record else 0
    wanted = count if number is None else number
    if not 1 <= wanted <= count:
        orient(turn, part("fix.nothing"))
        return
    turn.put(FixingReading(number=wanted))
    orient(turn)


def take_fix(turn: Turn, aside: FixingReading, typed: Typed) -> bool:
    """Take a message as the right numbers. Returns False when it holds no numbers."""
    outcome = read(typed.text)
    match outcome:
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Several() | Unreadable():
            found = candidates(typed.text, outcome, Values())
            if not _unsafe_fix(turn, aside.number, typed, found):
                position = turn.held_record.readings[aside.number - 1].position
                why = problem(_too_many(outcome))
                orient(turn, why, *mind(turn, found, position))
        case Understood() | Doubtful():
            record = turn.held_record
            before = record.readings[aside.number - 1]
            meant = outcome.values
            if isinstance(outcome, Doubtful) and outcome.suggested is not None:
                meant = outcome.suggested
            draft = grown(draft_of(before), meant, typed.text, typed.source, turn.at)
            if told := symptoms(outcome.rest):
                note(turn, told, typed.text)
            _check_fix(turn, aside.number, draft, outcome)
    return True


def _too_many(outcome: Several | Unreadable) -> Unreadable:
    match outcome:
        case Several():
            return Unreadable(problem=Problem.TOO_MANY)
        case Unreadable():
            return outcome


def _unsafe_fix(turn: Turn, number: int, typed: Typed, found: Candidates) -> bool:
    """Take numbers as the right ones, unclear as they are, if the test must end by them."""
    before = turn.held_record.readings[number - 1]
    if turn.running is None or not past_lines(turn, found.likely, before.position):
        return False
    draft = grown(draft_of(before), found.likely[-1], typed.text, typed.source, turn.at)
    turn.drop()
    apply_fix(turn, number, draft)
    return True


def _check_fix(turn: Turn, number: int, draft: Draft, outcome: Understood | Doubtful) -> None:
    together = read(echo(draft.values)) if isinstance(outcome, Understood) else outcome
    match together:
        case Doubtful():
            position = turn.held_record.readings[number - 1].position
            found = Candidates((draft.values,))
            if turn.running is not None and past_lines(turn, found.likely, position):
                turn.drop()
                apply_fix(turn, number, draft)
                return
            turn.put(ConfirmingReading(draft=draft, target=number))
            ask_doubt(turn, together, draft.values, more=mind(turn, found, position))
        case Several():
            orient(turn, part(f"problem.{Problem.TOO_MANY}"))
        case Unreadable():
            orient(turn, problem(together))
        case Understood():
            turn.drop()
            apply_fix(turn, number, draft)


def apply_fix(turn: Turn, number: int, draft: Draft) -> None:
    """Put the corrected numbers in place; the reading keeps its number and its time."""
    record = turn.held_record
    before = record.readings[number - 1]
    reading = replace(before, values=draft.values, words=draft.words, sources=draft.sources)
    done = part("fix.done", numbers=echo(reading.values))
    put_down(turn, record.with_reading(reading))
    unsafe = _unsafe(turn, reading)
    if record.origin is Origin.PAPER:
        own = unsafe is not None and unsafe[0].number == number
        turn.say(done, *care(unsafe[1] if unsafe is not None and own else None))
        _results_again(turn)
    elif turn.running is None:
        _after_the_end(turn, done, unsafe)
    elif unsafe is not None:
        end_for_reading(turn, *unsafe)
    elif isinstance(turn.stage, Resting) and turn.aside is None:
        turn.say(done)
    else:
        orient(turn, done)


def _after_the_end(turn: Turn, done: Part, unsafe: tuple[Reading, Crossing] | None) -> None:
    """Say what a correction means once the test has ended."""
    if unsafe is None and remeasuring.call_off(turn):
        turn.say(done, part("recovery.called-off"), urgency=Urgency.SAFETY)
    else:
        turn.say(done)
    if unsafe is not None:
        after_correction(turn, *unsafe)
    else:
        _results_again(turn)


def use_instead(turn: Turn, number: int) -> bool:
    """Let an extra reading count in the place of the planned one. False if it cannot."""
    record = turn.latest
    if record is None or not 1 <= number <= len(record.readings):
        return False
    extra = record.readings[number - 1]
    planned = [r for r in record.readings if r.slot and r.position is extra.position]
    if extra.slot is not None or not planned:
        return False
    counted = min(planned, key=lambda r: abs(r.given_at - extra.given_at))
    swapped = record.with_reading(replace(counted, slot=None))
    swapped = swapped.with_reading(replace(extra, slot=counted.slot))
    put_down(turn, swapped)
    done = part("reading.now-counts", numbers=echo(extra.values))
    if turn.running is None:
        turn.say(done)
        _results_again(turn)
    else:
        orient(turn, done)
    return True


def _unsafe(turn: Turn, corrected: Reading) -> tuple[Reading, Crossing] | None:
    """Return a reading that crosses a stop line now: the corrected one, or what rests on it."""
    record = turn.held_record
    standing = [r for r in record.readings if r.position is Position.STANDING]
    for reading in (corrected, *standing[-1:]):
        crossing = crossed(record, reading.position, reading.values, turn.context.stop_lines)
        if crossing is not None:
            return reading, crossing
    return None


def _results_again(turn: Turn) -> None:
    match turn.stage:
        case Finished() as stage:
            hand_over(turn, stage.record)
        case _ if turn.conversation.last is not None:
            hand_over(turn, turn.conversation.last)
        case _:
            orient(turn)


def take_edit(turn: Turn, typed: Typed) -> None:
    """Let an edited message correct the reading that it gave; any other edit changes nothing."""
    stage, record = turn.stage, turn.latest
    if isinstance(stage, AwaitingReading) and typed.source in stage.draft.sources:
        rebuilt = _rebuilt(stage.draft, typed)
        if rebuilt is None:
            found = candidates(typed.text, read(typed.text), Values())
            if not surely_unsafe(turn, stage.draft, found):
                warning = mind(turn, found, stage.phase.position)
                orient(turn, part("fix.edit-unclear"), *warning)
        elif rebuilt.values != stage.draft.values:
            turn.drop()
            accept(turn, rebuilt)
        return
    readings = record.readings if record else ()
    mine = next((r for r in readings if typed.source in r.sources), None)
    if mine is None:
        if isinstance(stage, AwaitingReading) and typed.source in stage.unread:
            take(turn, typed)
        elif remeasuring.take_edit(turn, typed.text, typed.source):
            pass
        elif _of_an_older_test(turn, typed):
            orient(turn, part("fix.too-late"))
        return
    rebuilt = _rebuilt(draft_of(mine), typed)
    if rebuilt is None or not rebuilt.values.complete:
        found = candidates(typed.text, read(typed.text), Values())
        if not _unsafe_fix(turn, mine.number, typed, found):
            turn.put(FixingReading(number=mine.number))
            orient(turn, part("fix.edit-unclear"), *mind(turn, found, mine.position))
    elif rebuilt.values != mine.values:
        turn.drop()
        apply_fix(turn, mine.number, rebuilt)


def _of_an_older_test(turn: Turn, typed: Typed) -> bool:
    """Whether the numbers can only be those of a test before the latest one."""
    outcome = read(typed.text)
    whole = isinstance(outcome, Understood) and outcome.values.complete
    older = len([t for t in turn.conversation.profile.tests if t.measured]) > 1
    return whole and older and turn.running is None


def _rebuilt(draft: Draft, typed: Typed) -> Draft | None:
    """Read all the words of a draft anew, with one message as it now stands."""
    words = tuple(
        typed.text if source == typed.source else text
        for text, source in zip(draft.words, draft.sources, strict=True)
    )
    values = Values()
    for text in words:
        outcome = read(text, values)
        if not isinstance(outcome, Understood):
            return None
        values = values.updated(outcome.values)
    return replace(draft, values=values, words=words)
