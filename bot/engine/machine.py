"""The machine: every event meets every stage here, and each pair is decided.

Rule 1: whatever happens next in a conversation is decided in this module and the dialogues
that it calls, and nowhere else.
"""

from typing import assert_never

from bot.engine.deadlines import REASON_WAITS, STOP_MEANT_AFTER, next_slot_at
from bot.engine.dialogues import opening, orientation, pacing, silence, stopping
from bot.engine.dialogues.listening import words_edited, words_given
from bot.engine.dialogues.readings import Typed
from bot.engine.dialogues.tapping import choice_tapped
from bot.engine.events import (
    ChoiceTapped,
    DeadlineReached,
    DeliveryFailed,
    Event,
    Opened,
    ThingSent,
    WordsEdited,
    WordsGiven,
)
from bot.engine.state import (
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    ConfirmingStop,
    Context,
    Conversation,
    Finished,
    Idle,
    Resting,
)
from bot.engine.turn import Transition, Turn, part


def advance(context: Context, conversation: Conversation, event: Event) -> Transition:
    """Return what an event leads to.

    Args:
        context: What the clinic has set.
        conversation: Where it stands.
        event: What happened; its `at` is the only clock.
    """
    turn = Turn(context, conversation, event.at)
    match event:
        case Opened():
            silence.hear(turn)
            _opened(turn)
        case WordsGiven(text=text, source=source):
            silence.hear(turn)
            words_given(turn, Typed(text, source))
        case WordsEdited(text=text, source=source):
            silence.hear(turn)
            words_edited(turn, Typed(text, source))
        case ChoiceTapped(token=token):
            silence.hear(turn)
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
    return turn.transition()


def _opened(turn: Turn) -> None:
    match turn.stage:
        case Idle():
            opening.begin(turn)
        case _:
            orientation.orient(turn)


def _deadline_reached(turn: Turn) -> None:
    match turn.aside:
        case ConfirmingStop(asked_at=asked_at) if turn.at >= asked_at + STOP_MEANT_AFTER:
            stopping.stop(turn)
            return
        case _:
            pass
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
        case AwaitingStopReason() as stage if turn.at >= stage.asked_at + REASON_WAITS:
            stopping.take_reason(turn, stage, None)
        case Idle() | AwaitingAgeBand() | AwaitingReady() | AwaitingStopReason() | Finished():
            pass
        case _:
            assert_never(turn.stage)
