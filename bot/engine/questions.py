"""The name of the open question. A button carries it, so that an old tap is known as old."""

from collections.abc import Mapping
from typing import Final, assert_never

from bot.engine.asides import (
    Aside,
    Asking,
    ChoosingLanguage,
    ConfirmingDistress,
    ConfirmingReading,
    ConfirmingStop,
    FixingReading,
    NamingSymptom,
    PlacingReading,
    RatingSymptom,
)
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingPlace,
    Conversation,
    Enrolling,
    Finished,
    Held,
    Idle,
    Planning,
    Resting,
)


def asked_by_stage(conversation: Conversation) -> str | None:
    """Return the name of the stage's own question; `None` when it asks nothing."""
    match conversation.stage:
        case Idle() | Finished():
            return None
        case Resting() as stage:
            return f"t{conversation.tests}.{stage.phase.position}.well{stage.checks_put}"
        case AwaitingAgeBand():
            return "age"
        case Enrolling(question=question):
            return f"p.{question}"
        case ChoosingPlace(page=page):
            return f"p.place{page}"
        case Held():
            return "p.held"
        case Planning() as stage:
            return f"b{conversation.profile.bookings + 1}.{_planning(stage)}"
        case Booked(booking=booking):
            return f"b{booking.number}.{booking.sequence}"
        case Auditing(question=question):
            return f"t{conversation.tests + 1}.{question}"
        case AwaitingReady():
            return f"t{conversation.tests + 1}.ready"
        case AwaitingPosition() as stage:
            return f"t{conversation.tests}.{stage.phase.position}"
        case AwaitingReading() as stage:
            return f"t{conversation.tests}.{stage.slot.id}"
        case AwaitingStopReason():
            return f"t{conversation.tests}.reason"
        case DatingPaper() as stage:
            return f"w{conversation.tests + 1}.{_dating(stage)}"
        case CopyingPaper() as stage:
            sure = ".sure" if stage.doubted else ""
            return f"w{conversation.tests + 1}.{stage.question}{stage.slot_index}{sure}"
        case _:
            assert_never(conversation.stage)


def asked_by_aside(conversation: Conversation) -> str | None:
    """Return the name of the question put in between; `None` without one.

    Each question put has a name of its own: the button of an old one never answers a new one.
    """
    if conversation.aside is None:
        return None
    return f"a{conversation.asides}.{_KINDS[type(conversation.aside)]}"


_KINDS: Final[Mapping[type[Aside], str]] = {
    ChoosingLanguage: "language",
    Asking: "ask",
    NamingSymptom: "which",
    RatingSymptom: "strength",
    FixingReading: "fix",
    ConfirmingReading: "sure",
    PlacingReading: "place",
    ConfirmingStop: "stop",
    ConfirmingDistress: "help",
}


def _dating(stage: DatingPaper) -> str:
    if stage.at is not None:
        return f"sure{int(stage.at.timestamp())}"
    return "day" if stage.day is None else f"hour{stage.day.toordinal()}"


def _planning(stage: Planning) -> str:
    if stage.at is not None:
        return f"sure{int(stage.at.timestamp())}"
    return "day" if stage.day is None else f"time{stage.day.toordinal()}"
