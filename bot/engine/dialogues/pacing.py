"""The clock of a phase: it starts when the person is in position, and leads to each reading."""

from dataclasses import replace
from datetime import datetime, timedelta

from bot.engine.asides import ConfirmingReading, FixingReading
from bot.engine.buttons import NEW_TEST, RESULTS, Rows, part
from bot.engine.dialogues import silence
from bot.engine.dialogues.closing import end
from bot.engine.dialogues.orientation import orient, reading_wanted
from bot.engine.drafts import with_draft
from bot.engine.effects import Part, Urgency
from bot.engine.state import AwaitingPosition, AwaitingReading, Resting
from bot.engine.turn import Turn
from bot.protocol.record import Ending, PhaseStart, TestRecord, Values
from bot.readings import echo


def start_clock(turn: Turn, stage: AwaitingPosition) -> None:
    """Start the phase's clock: the person says they are in position."""
    position = stage.phase.position
    start = PhaseStart(position=position, started_at=turn.at)
    record = replace(stage.record, phases=(*stage.record.phases, start))
    number = turn.say(
        part(f"clock.{position}", length=stage.phase.slots[0].due), urgency=Urgency.TIMED
    )
    turn.move(
        Resting(
            record=record,
            phase_index=stage.phase_index,
            phase_started_at=turn.at,
            slot_index=0,
            progress_number=number,
        )
    )


def pass_time(turn: Turn, stage: Resting) -> None:
    """Do what the clock calls for now, if anything.

    The reading, its heads-up, whether all is well, an answer to that which does not come, a
    progress note.
    """
    since_start = turn.at - stage.phase_started_at
    notes_due = sum(note <= since_start for note in stage.phase.progress)
    warn_at = stage.due_at - stage.protocol.heads_up
    if turn.at >= stage.due_at:
        due = latest_due(stage, turn.at)
        ask_for_reading(turn, replace(stage, slot_index=due, notes_shown=notes_due))
    elif turn.at >= warn_at and not stage.warned:
        turn.stay(replace(stage, warned=True, notes_shown=notes_due))
        turn.say(
            part(f"heads-up.{stage.phase.position}", left=stage.due_at - turn.at),
            urgency=Urgency.TIMED,
            until=stage.due_at,
        )
    elif checks_by(stage, turn.at) > stage.checks_put:
        silence.ask_well(turn, stage)
    elif stage.silent_since is not None and notes_due == stage.notes_shown:
        silence.pass_silence(turn, stage)
    elif notes_due > stage.notes_shown:
        turn.stay(replace(stage, notes_shown=notes_due))
        turn.revise(
            stage.progress_number,
            part(
                f"progress.{stage.phase.position}",
                gone=since_start,
                left=stage.due_at - turn.at,
            ),
            until=warn_at,
        )


def latest_due(
    stage: Resting | AwaitingReading, at: datetime, ahead: timedelta = timedelta(0)
) -> int:
    """Return the place of the last planned reading that is due, or will be so much `ahead`.

    Those before it that never came are passed over: nobody is asked for two at once.
    """
    slots = stage.phase.slots[stage.slot_index :]
    due = sum(stage.phase_started_at + slot.due <= at + ahead for slot in slots)
    return stage.slot_index + max(due - 1, 0)


def checks_by(stage: Resting | AwaitingReading, at: datetime) -> int:
    """Return how many of the phase's questions whether all is well are due by an instant."""
    return sum(check <= at - stage.phase_started_at for check in stage.phase.checks)


def await_reading(turn: Turn, stage: Resting | AwaitingReading) -> None:
    """Wait for the stage's reading; silence counts from here."""
    turn.move(
        AwaitingReading(
            record=stage.record,
            phase_index=stage.phase_index,
            phase_started_at=stage.phase_started_at,
            slot_index=stage.slot_index,
            progress_number=stage.progress_number,
            notes_shown=stage.notes_shown,
            checks_put=stage.checks_put,
            silent_since=turn.at,
        )
    )
    if isinstance(stage, Resting) and stage.silent_since is not None:
        awaited = _awaited(turn)
        turn.stay(replace(awaited, silent_since=stage.silent_since, rung=stage.rung))


def ask_for_reading(
    turn: Turn, stage: Resting | AwaitingReading, *before: Part, prompt: bool = True
) -> None:
    """Wait for the stage's reading, since its time has come, and ask for it.

    A question put in between stays open. But numbers that come next are for now: a correction or
    a doubt that was open is dropped, in words.

    Args:
        turn: The step.
        stage: The stage, at that reading.
        before: Words to say before.
        prompt: Whether it is asked for now; if not, something graver is asked first.
    """
    aside = turn.aside
    await_reading(turn, stage)
    first: tuple[Part, ...] = ()
    match aside:
        case FixingReading(number=number) | ConfirmingReading(target=int(number)):
            first = (part("fix.interrupted"),)
            turn.stay(replace(_awaited(turn), interrupted_fix=number))
        case ConfirmingReading(draft=draft):
            first = (part("doubt.dropped", numbers=echo(draft.values)),)
        case None:
            pass
        case _:
            turn.reopen(aside)
    asked = (reading_wanted(stage.phase.position, Values(), first=stage.slot_index == 0),)
    said = (*before, *first, *(asked if prompt else ()))
    if said:
        turn.say(*said, urgency=Urgency.TIMED)


def _awaited(turn: Turn) -> AwaitingReading:
    assert isinstance(turn.stage, AwaitingReading)
    return turn.stage


def pass_over(turn: Turn, stage: AwaitingReading) -> None:
    """Leave a reading that never came whole for the next one of the phase, which is now due.

    What was given of it is kept, and it is said so. The silence goes on: who has not answered
    since the last prompt is still silent, and this one is their nudge if it is time for that;
    where it is time to ask whether they are all right, nothing else is asked.
    """
    due = latest_due(stage, turn.at)
    following = replace(stage, record=with_draft(stage), slot_index=due)
    kept = stage.draft.values
    half = () if kept.empty else (part("reading.half-kept", numbers=echo(kept)),)
    ask_for_reading(turn, following, *half, prompt=not silence.is_grave(turn, stage))
    rung = max(stage.rung, 1) if silence.nudges(turn, stage) else stage.rung
    turn.stay(replace(_awaited(turn), silent_since=stage.silent_since, rung=rung))
    if silence.is_grave(turn, stage):
        silence.pass_silence(turn, _awaited(turn))


def go_on(
    turn: Turn,
    stage: Resting | AwaitingReading,
    record: TestRecord,
    *first: Part,
    more: Rows = (),
) -> bool:
    """Go to what follows a planned reading. Returns False when it was the last of the test.

    Args:
        turn: The step.
        stage: Where the reading was taken.
        record: The test with the reading in it.
        first: Words to say before those of the next position.
        more: Buttons besides those of the next position.
    """
    if stage.slot_index + 1 < len(stage.phase.slots):
        turn.move(
            Resting(
                record=record,
                phase_index=stage.phase_index,
                phase_started_at=stage.phase_started_at,
                slot_index=stage.slot_index + 1,
                progress_number=stage.progress_number,
                notes_shown=stage.notes_shown,
                checks_put=checks_by(stage, turn.at),
            )
        )
        return True
    if stage.phase_index + 1 < len(stage.protocol.phases):
        turn.move(
            AwaitingPosition(record=record, phase_index=stage.phase_index + 1, silent_since=turn.at)
        )
        orient(turn, *first, more=more, urgency=Urgency.TIMED)
        return True
    return False


def lost_track(turn: Turn) -> bool:
    """Whether a running clock can no longer be trusted: the program, or the person, was away.

    A reading so far past its time says nothing about the minute it was meant for.
    """
    match turn.stage:
        case Resting() | AwaitingReading() as stage:
            return turn.at > lost_at(stage)
        case _:
            return False


def lost_at(stage: Resting | AwaitingReading) -> datetime:
    """Return when a phase's clock is given up: long after its reading was due."""
    return stage.due_at + stage.slot.window + 2 * stage.phase.reading.close_after


def give_up(turn: Turn) -> None:
    """End a test whose clock cannot be trusted any more, and ask after the person."""
    end(turn, Ending.INTERRUPTED)
    turn.say(part("interrupted"), rows=((RESULTS, NEW_TEST),), urgency=Urgency.SAFETY)
