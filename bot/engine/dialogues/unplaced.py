"""Numbers that come when no reading can be taken: on the way to a position, or after the end.

They are none of the test's readings, but the stop lines hold for them as for any other.
"""

from datetime import timedelta

from bot.engine.asides import Draft
from bot.engine.buttons import part
from bot.engine.candidates import candidates
from bot.engine.dialogues import remeasuring
from bot.engine.dialogues.crossing import Crossing, crossed
from bot.engine.dialogues.keeping import heard_in, mind, past_lines
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.readings import Typed
from bot.engine.dialogues.stopping import end_for_reading, unsafe_words
from bot.engine.drafts import grown
from bot.engine.effects import Urgency
from bot.engine.notices import Notice
from bot.engine.recovery import LyingDown
from bot.engine.state import AwaitingPosition, AwaitingStopReason, Finished
from bot.engine.turn import Turn
from bot.protocol.definition import Position
from bot.protocol.record import Reading, TestRecord, Values
from bot.readings import echo, read
from bot.readings.outcome import Doubtful, Understood


def before_position(turn: Turn, stage: AwaitingPosition, typed: Typed) -> bool:
    """Hold numbers against the stop lines that come before somebody is in position.

    They were measured where the person was last, or where they are getting to: the lines of both
    hold. Returns False if there are no numbers.
    """
    found = candidates(typed.text, read(typed.text), Values())
    if not (found.likely or found.others):
        return False
    phases = stage.record.phases
    rested = phases[-1].position if phases else stage.phase.position
    for position in (rested, stage.phase.position):
        if past_lines(turn, found.likely, position):
            _end(turn, stage.record, typed, found.likely[-1], position)
            return True
    warning = mind(turn, found, rested) or mind(turn, found, stage.phase.position)
    orient(turn, *heard_in(turn, typed.text), part("reading.no-position"), *warning)
    return True


def _end(turn: Turn, record: TestRecord, typed: Typed, values: Values, position: Position) -> None:
    """End the test by numbers from where the person was last."""
    rested = record.phases[-1] if record.phases else None
    offset = timedelta(0) if rested is None else max(turn.at - rested.started_at, timedelta(0))
    reading = Reading(
        number=record.next_number,
        position=position if rested is None else rested.position,
        slot=None,
        values=values,
        offset=offset,
        given_at=turn.at,
        words=(typed.text,),
        sources=(typed.source,),
    )
    crossing = crossed(record, position, values, turn.context.stop_lines)
    assert crossing is not None
    turn.update(record.with_reading(reading))
    end_for_reading(turn, reading, crossing)


def after_the_end(turn: Turn, typed: Typed) -> bool:
    """Keep numbers beside a test that was stopped, and say what they call for.

    Returns False if they hold no pressure, or correct one, or nobody is looked after.
    """
    match turn.stage, turn.conversation.recovery:
        case (AwaitingStopReason(), _) | (Finished(), LyingDown()):
            pass
        case _:
            return False
    outcome = read(typed.text)
    if isinstance(outcome, Understood | Doubtful) and outcome.correction:
        return False
    found = candidates(typed.text, outcome, Values())
    given = next((v for v in reversed(found.likely) if v.systolic is not None), None)
    if given is None:
        return False
    record = turn.held_record
    remeasuring.keep_beside(turn, grown(Draft(), given, typed.text, typed.source, turn.at))
    crossing = crossed(record, Position.SUPINE, given, turn.context.stop_lines)
    if crossing is None:
        orient(turn, part("reading.after-the-end", numbers=echo(given)))
        return True
    turn.tell(Notice.UNSAFE_READING)
    if crossing is Crossing.HIGH:
        remeasuring.measure_again(turn, record.number)
    else:
        remeasuring.lie_down(turn, record.number)
    turn.say(unsafe_words(given, crossing), urgency=Urgency.SAFETY)
    return True
