"""A nudge of the care team: whether it comes, when, and what it says.

It never comes while reminders are paused or a test is being done, waits for the end of the quiet
hours, and comes once in a while only. What it reminds of has to be missing, also when it is said.
"""

from datetime import datetime
from enum import StrEnum
from typing import Final, assert_never

from bot.booking.quiet import quiet_span
from bot.engine.buttons import BOOK, Always, Rows, part
from bot.engine.context import Context
from bot.engine.dialogues.standing import booking_of
from bot.engine.dialogues.waiting import LEFT_OPEN
from bot.engine.effects import Part
from bot.engine.profile import News, Profile
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    Conversation,
    Finished,
    Held,
    Idle,
    Resting,
)
from bot.engine.team import Nudge, Outlook
from bot.engine.turn import Turn

_FREE: Final = (Idle, Booked, Finished, Held)
"""The stages at which the care team may speak at once."""

_TESTING: Final = (AwaitingPosition, Resting, AwaitingReading, AwaitingStopReason)
_BUSY: Final = (*_TESTING, Auditing, AwaitingReady, AwaitingAgeBand)

_SEND: Final = Always("button.send-result", "sharing:latest")


class Fate(StrEnum):
    """What becomes of a nudge."""

    NOW = "now"
    LATER = "later"  # once the quiet hours are over, or what is being asked is left alone
    NOT_AGREED = "not-agreed"  # to the care team
    DONE = "done"  # the care team has closed them
    PAUSED = "paused"
    BUSY = "busy"  # a test runs, is about to, or is looked after
    HELD = "held"  # the care team has to clear them first
    NEEDLESS = "needless"  # it is not missing
    LATELY = "lately"  # there was one not long ago


def is_busy(conversation: Conversation) -> bool:
    """Whether a test is being done, prepared, or looked after."""
    return isinstance(conversation.stage, _BUSY) or conversation.recovery is not None


def fate(context: Context, conversation: Conversation, nudge: Nudge, at: datetime) -> Fate:
    """Return what becomes of a nudge that is sent now."""
    profile = conversation.profile
    if profile.consented_at is None or profile.team_since is None:
        return Fate.NOT_AGREED
    if profile.done_at is not None:
        return Fate.DONE
    if profile.paused:
        return Fate.PAUSED
    if is_busy(conversation):
        return Fate.BUSY
    if nudge is not Nudge.SEND and profile.hazards and not profile.suitable:
        return Fate.HELD
    if not _is_missing(conversation, nudge):
        return Fate.NEEDLESS
    if profile.nudged_at is not None and at < profile.nudged_at + context.nudge_gap:
        return Fate.LATELY
    return Fate.NOW if spoken_at(context, conversation, at) == at else Fate.LATER


def spoken_at(context: Context, conversation: Conversation, at: datetime) -> datetime | None:
    """Return from when on the care team may speak: by day, and not into what is being done.

    A question that is left open for long is no hindrance. `None` while a test is done or prepared.
    """
    if is_busy(conversation):
        return None
    active_at = conversation.active_at
    if not isinstance(conversation.stage, _FREE) and active_at is not None:
        at = max(at, active_at + LEFT_OPEN)
    span = quiet_span(context.quiet, conversation.profile.zone or "UTC", at)
    return at if span is None else span[1]


def _is_missing(conversation: Conversation, nudge: Nudge) -> bool:
    profile = conversation.profile
    booked = booking_of(conversation.stage) or booking_of(conversation.resumes)
    measured = [test for test in profile.tests if test.measured]
    match nudge:
        case Nudge.BOOK:
            return booked is None and not measured
        case Nudge.SECOND:
            return booked is None and len(measured) == 1
        case Nudge.SEND:
            return bool(measured) and not measured[-1].shared
        case _:
            assert_never(nudge)


def take(turn: Turn, nudge: Nudge) -> News | None:
    """Put a nudge down and return it; `None` if it may not come."""
    if fate(turn.context, turn.conversation, nudge, turn.at) not in (Fate.NOW, Fate.LATER):
        return None
    turn.know(nudged_at=turn.at)
    return News(at=turn.at, nudge=nudge)


def still_holds(conversation: Conversation, news: News) -> bool:
    """Whether something that waited is still to be said; all but a nudge is."""
    if news.nudge is None:
        return True
    profile = conversation.profile
    tested = any(test.began_at > news.at for test in profile.tests)
    gone = profile.paused or profile.done_at is not None or tested
    return not gone and _is_missing(conversation, news.nudge)


def drop(turn: Turn) -> None:
    """Words of safety were said: what waits and asks for a test is not said any more.

    What the care team says of a test that it has looked at stays, whatever follows from it.
    """
    news = turn.conversation.profile.news
    kept = tuple(n for n in news if n.nudge is None and not _asks_repeat(n))
    if kept != news:
        turn.know(news=kept)


def _asks_repeat(news: News) -> bool:
    return news.outlook is Outlook.REPEAT and news.test is None


def words(profile: Profile, nudge: Nudge) -> tuple[tuple[Part, ...], Rows]:
    """Return what a nudge says, and its buttons."""
    begun = "book" if profile.enrolled else "go-on"
    match nudge:
        case Nudge.BOOK:
            return (part(f"team.nudge.{begun}"),), ((BOOK,),)
        case Nudge.SECOND:
            return (part("team.nudge.second"),), ((BOOK,),)
        case Nudge.SEND:
            return (part("team.nudge.send"),), ((_SEND,),)
        case _:
            assert_never(nudge)
