"""The machine: every event meets every stage here, and each pair is decided.

Rule 1: whatever happens next in a conversation is decided in this module and the dialogues
that it calls, and nowhere else.
"""

from typing import assert_never

from bot.booking.plan import Booking
from bot.engine.context import Context
from bot.engine.deadlines import (
    REASON_WAITS,
    STOP_MEANT_AFTER,
    next_deadline,
    next_slot_at,
)
from bot.engine.dialogues import (
    between,
    enrolment,
    orientation,
    pacing,
    reminding,
    silence,
    stopping,
    watching,
)
from bot.engine.dialogues.listening import words_edited, words_given
from bot.engine.dialogues.readings import Typed
from bot.engine.dialogues.tapping import choice_tapped
from bot.engine.events import (
    ChoiceTapped,
    Cleared,
    DeadlineReached,
    DeliveryFailed,
    Event,
    Invited,
    Opened,
    ThingSent,
    WordsEdited,
    WordsGiven,
)
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingPlace,
    ConfirmingStop,
    Conversation,
    Enrolling,
    Finished,
    Held,
    Idle,
    Planning,
    Resting,
)
from bot.engine.turn import STOP, Transition, Turn, part


def advance(context: Context, conversation: Conversation, event: Event) -> Transition:
    """Return what an event leads to.

    Args:
        context: What the clinic has set.
        conversation: Where it stands.
        event: What happened; its `at` is the only clock.
    """
    turn = Turn(context, conversation, event.at)
    match event:
        case Opened(code=code):
            silence.hear(turn)
            _opened(turn, code)
        case Invited(reference=reference, protocol=protocol):
            silence.hear(turn)
            turn.know(reference=reference, protocol=protocol)
            _opened(turn, None)
        case Cleared(by=by):
            enrolment.clear(turn, by)
        case WordsGiven(text=text, source=source):
            silence.hear(turn)
            words_given(turn, Typed(text, source))
        case WordsEdited(text=text, source=source):
            silence.hear(turn)
            words_edited(turn, Typed(text, source))
        case ChoiceTapped(token=token):
            silence.hear(turn)
            if pacing.lost_track(turn) and token != STOP.token:
                pacing.give_up(turn)
            else:
                choice_tapped(turn, token)
        case ThingSent(thing=thing):
            silence.hear(turn)
            orientation.orient(turn, part(f"thing.{thing}"))
        case DeadlineReached():
            _deadline_reached(turn)
        case DeliveryFailed():
            pass  # the courier has tried all it may; what the person sees next says where they are
        case _:
            assert_never(event)
    if not isinstance(event, DeadlineReached | DeliveryFailed):
        _take_up_again(turn, conversation)
    return turn.transition()


def _take_up_again(turn: Turn, before: Conversation) -> None:
    """Put a question again that was put off, when what stood in its way is done with."""
    nothing_was_open = before.aside is None and isinstance(before.stage, Idle | Booked | Finished)
    if not nothing_was_open and not turn.urgent:
        between.ask_owed(turn)


def _opened(turn: Turn, code: str | None) -> None:
    if code is not None and turn.conversation.profile.consented_at is None:
        turn.say(part("invitation.unknown"))
    match turn.stage:
        case Idle():
            enrolment.begin(turn)
        case _:
            orientation.orient(turn)


def _deadline_reached(turn: Turn) -> None:
    match turn.aside:
        case ConfirmingStop(asked_at=asked_at) if turn.at >= asked_at + STOP_MEANT_AFTER:
            stopping.stop(turn)
            return
        case _:
            pass
    if turn.conversation.resumes is not None:
        due = next_deadline(turn.context, turn.conversation)
        if due is None or turn.at < due:
            return
        turn.move(turn.take_resume())
    if pacing.lost_track(turn):
        pacing.give_up(turn)
        return
    match turn.stage:
        case Resting() as stage:
            pacing.pass_time(turn, stage)
        case AwaitingPosition() as stage:
            silence.pass_silence(turn, stage)
        case AwaitingReading() as stage:
            following = next_slot_at(stage)
            if following is not None and turn.at >= following:
                pacing.pass_over(turn, stage)
            else:
                silence.pass_silence(turn, stage)
        case Booked() as stage:
            reminding.pass_time(turn, stage, stage.booking)
        case Planning(moving=Booking() as booking) as stage:
            reminding.pass_time(turn, stage, booking)
        case Idle() | Finished():
            watching.pass_time(turn)
        case Planning() | Auditing() | AwaitingReady():
            due = next_deadline(turn.context, turn.conversation)
            if due is not None and turn.at >= due:
                turn.move(Idle())
                watching.pass_time(turn)
        case AwaitingStopReason() as stage if turn.at >= stage.asked_at + REASON_WAITS:
            stopping.take_reason(turn, stage, None)
        case AwaitingAgeBand() | Enrolling() | ChoosingPlace() | Held() | AwaitingStopReason():
            pass
        case _:
            assert_never(turn.stage)
