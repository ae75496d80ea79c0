"""From a first hello to the start of a test."""

from bot.engine.dialogues.orientation import orient
from bot.engine.state import AwaitingAgeBand, AwaitingPosition, AwaitingReady
from bot.engine.turn import Turn, part
from bot.protocol.record import AgeBand, TestRecord


def begin(turn: Turn) -> None:
    """Start towards a test: the age band first, if it is not known."""
    if turn.conversation.age_band is None:
        turn.move(AwaitingAgeBand())
        orient(turn, part("opening.hello"))
    else:
        turn.move(AwaitingReady())
        orient(turn)


def take_age_band(turn: Turn, band: AgeBand) -> None:
    """Keep the age band and go on."""
    turn.know_age(band)
    turn.move(AwaitingReady())
    orient(turn)


def start_test(turn: Turn) -> None:
    """Open the record of a new test and send the person to the first position."""
    record = TestRecord(
        number=turn.count_test(),
        protocol=turn.context.protocol,
        age_band=turn.conversation.age_band,
        began_at=turn.at,
    )
    turn.move(AwaitingPosition(record=record, phase_index=0, silent_since=turn.at))
    orient(turn)
