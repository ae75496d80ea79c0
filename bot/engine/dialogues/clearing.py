"""Somebody whom the checklist held back is cleared by the care team, and hears so."""

from datetime import datetime

from bot.booking.quiet import quiet_span
from bot.engine.buttons import part
from bot.engine.context import Context
from bot.engine.dialogues import enrolment, reaching
from bot.engine.effects import Urgency
from bot.engine.profile import Profile
from bot.engine.state import Held
from bot.engine.turn import Turn


def clear(turn: Turn, by: str) -> None:
    """The care team has cleared this person for a test at home; it needs something to clear."""
    if not turn.conversation.profile.hazards:
        return
    turn.know(cleared_by=by, cleared_at=turn.at)
    if turn.running is not None:
        return  # whoever stands in a test is not spoken to about another one
    if not isinstance(turn.stage, Held):
        _say(turn)
    elif told_at(turn.context, turn.conversation.profile) == turn.at:
        tell(turn)


def told_at(context: Context, profile: Profile) -> datetime | None:
    """Return when somebody who waits is told that they are cleared: at once, but not at night."""
    if profile.cleared_at is None or not profile.suitable:
        return None
    span = quiet_span(context.quiet, profile.zone or "UTC", profile.cleared_at)
    return profile.cleared_at if span is None else span[1]


def tell(turn: Turn) -> None:
    """Say to somebody who waits that they are cleared, and go on."""
    _say(turn)
    enrolment.go_on(turn)


def _say(turn: Turn) -> None:
    """Say it; if it is refused, the care team hears that it was not heard."""
    before, cleared_at = turn.conversation.said, turn.conversation.profile.cleared_at
    turn.say(part("cleared"), urgency=Urgency.REMINDER)
    if cleared_at is not None:
        reaching.remember(turn, cleared_at, since=before)
