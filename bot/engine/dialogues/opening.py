"""The start of a test."""

from bot.engine.buttons import part
from bot.engine.dialogues import auditing
from bot.engine.dialogues.orientation import orient
from bot.engine.notices import Notice
from bot.engine.state import AwaitingPosition, AwaitingReady
from bot.engine.turn import Turn
from bot.protocol.record import AgeBand, TestRecord


def take_age_band(turn: Turn, band: AgeBand) -> None:
    """Keep the age band and go on; one told again is corrected."""
    turn.know_age(band)
    if not isinstance(turn.stage, AwaitingReady):
        turn.move(AwaitingReady())
    orient(turn)


def start_test(turn: Turn, stage: AwaitingReady) -> None:
    """Open the record of a new test and send the person to the first position.

    Answers about the preparation that are too old are asked for again first. A booking stays put
    aside until it is known whether anything was measured.
    """
    if auditing.outdated(turn, stage.since):
        turn.go_back()
        auditing.begin(turn, part("audit.anew"))
        return
    protocol = turn.protocol
    record = TestRecord(
        number=turn.count_test(),
        protocol=protocol,
        age_band=turn.conversation.age_band,
        began_at=turn.at,
        circumstances=stage.circumstances,
    )
    turn.recover(None)
    turn.move(AwaitingPosition(record=record, phase_index=0, silent_since=turn.at))
    turn.tell(Notice.STARTED)
    orient(turn)
