"""The name of the open question. A button carries it, so that an old tap is known as old."""

from typing import assert_never

from bot.engine.state import (
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    ChoosingLanguage,
    ConfirmingReading,
    ConfirmingStop,
    Conversation,
    Finished,
    FixingReading,
    Idle,
    NamingSymptom,
    RatingSymptom,
    Resting,
)


def asked_by_stage(conversation: Conversation) -> str | None:
    """Return the name of the stage's own question; `None` when it asks nothing."""
    match conversation.stage:
        case Idle() | Resting() | Finished():
            return None
        case AwaitingAgeBand():
            return "age"
        case AwaitingReady():
            return f"t{conversation.tests + 1}.ready"
        case AwaitingPosition() as stage:
            return f"t{conversation.tests}.{stage.phase.position}"
        case AwaitingReading() as stage:
            return f"t{conversation.tests}.{stage.slot.id}"
        case AwaitingStopReason():
            return f"t{conversation.tests}.reason"
        case _:
            assert_never(conversation.stage)


def asked_by_aside(conversation: Conversation) -> str | None:
    """Return the name of the question put in between; `None` without one."""
    test = conversation.tests
    match conversation.aside:
        case None:
            return None
        case ChoosingLanguage():
            return "language"
        case NamingSymptom():
            return f"t{test}.which"
        case RatingSymptom(index=index):
            return f"t{test}.strength{index}"
        case FixingReading(number=number):
            return f"t{test}.fix{number}"
        case ConfirmingReading(target=target):
            return f"t{test}.sure{target or 'new'}"
        case ConfirmingStop():
            return f"t{test}.stop"
        case _:
            assert_never(conversation.aside)
