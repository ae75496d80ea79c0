"""From what one conversation says to another to what happens there: letters become events.

Who is told what is decided here, and held once more where it arrives.
"""

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Final

from bot.engine.effects import Effect
from bot.engine.events import Event
from bot.engine.letters import (
    Agree,
    AnswerAlarm,
    Decline,
    Leave,
    Relay,
    Report,
    Unlink,
    Unreached,
    Welcome,
)
from bot.engine.linked import (
    CompanionAnswered,
    CompanionDeclined,
    CompanionJoined,
    CompanionLeft,
    CompanionUnreached,
    Joined,
    LinkEnded,
    Notified,
    WordsRelayed,
    WordsTaken,
)
from bot.engine.notices import Notice, Tell
from bot.engine.profile import Share
from bot.engine.state import AwaitingPosition, AwaitingReading, Conversation, Resting

LINK: Final = "with-"
"""How the code of a companion's link begins; an invitation of the clinic never does."""

LINK_LASTS: Final = timedelta(days=7)
"""How long a companion's link is good (design choice)."""

_COURSE: Final = frozenset({Notice.STARTED, Notice.COMPLETED})
"""What is no alarm: that a test has begun, or ended as planned."""


def is_alarm(notice: Notice) -> bool:
    """Whether a notice is about something that has gone wrong, or about how it went on."""
    return notice not in _COURSE


def may_hear(share: Share, notice: Notice) -> bool:
    """Whether somebody may be told, by what was agreed."""
    return share is Share.ALL or is_alarm(notice)


def posted(sender: Conversation, effect: Effect, at: datetime) -> Iterator[tuple[str, Event]]:
    """Yield what an effect leads to in other conversations, each by its id.

    Args:
        sender: The conversation after the step that caused the effect.
        effect: Any effect; most lead to nothing elsewhere.
        at: When the step was.
    """
    me = sender.id
    match effect:
        case Tell(notice=notice, position=position, offset=offset):
            for companion in sender.profile.companions:
                if may_hear(companion.share, notice):
                    yield (
                        companion.id,
                        Notified(at=at, of=me, notice=notice, position=position, offset=offset),
                    )
        case Agree(to=to, share=share, offered_at=offered_at):
            yield to, CompanionJoined(at=at, id=me, share=share, offered_at=offered_at)
        case Decline(to=to, offered_at=offered_at):
            yield to, CompanionDeclined(at=at, offered_at=offered_at)
        case Welcome(to=to, share=share):
            yield to, Joined(at=at, of=me, share=share)
        case Unlink(to=to):
            yield to, LinkEnded(at=at, of=me)
        case Leave(to=to):
            yield to, CompanionLeft(at=at, id=me)
        case Relay(to=to, text=text, source=source, edited=edited):
            yield to, WordsRelayed(at=at, text=text, source=source, by=me, edited=edited)
        case Report(to=to, outcome=outcome, numbers=numbers):
            yield to, WordsTaken(at=at, of=me, outcome=outcome, numbers=numbers)
        case AnswerAlarm(to=to, answer=answer):
            yield to, CompanionAnswered(at=at, id=me, answer=answer)
        case Unreached(to=to, alarm=alarm):
            yield to, CompanionUnreached(at=at, id=me, alarm=alarm)
        case _:
            return


def tested(conversation: Conversation) -> bool:
    """Whether somebody is doing a test, or is looked after since one was stopped."""
    match conversation.stage:
        case AwaitingPosition() | Resting() | AwaitingReading():
            return True
        case _:
            return conversation.recovery is not None


def related(conversation: Conversation) -> frozenset[str]:
    """Return the conversations that a step of this one may reach."""
    profile = conversation.profile
    asked = () if profile.asked_by is None else (profile.asked_by.of,)
    return frozenset(
        (*(c.id for c in profile.companions), *(a.id for a in profile.accompanies), *asked)
    )
