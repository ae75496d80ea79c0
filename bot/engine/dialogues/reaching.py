"""Whether the person's chat takes our messages: since when not, and what is lost by it.

A block is known once and changes the conversation once, however many messages are refused for it.
What waits of the care team's is dropped then, and the team is told: what it was told did not reach
the person does not come later, when somebody has called them.
"""

from dataclasses import replace
from datetime import datetime
from typing import Final, assert_never

from bot.engine.context import Opening
from bot.engine.dialogues import accompanying, nudging
from bot.engine.effects import Effect, Outgoing, Urgency
from bot.engine.events import Blocked, DeliveryFailed, Failure, Unblocked
from bot.engine.profile import News, PassedOn
from bot.engine.state import Conversation, Held
from bot.engine.turn import Turn

_REMEMBERED: Final = 5
"""How many of the latest things that the care team said may still be refused (design choice)."""


def goes_out(conversation: Conversation, effect: Effect) -> bool:
    """Whether an effect is put down: nothing less urgent than an answer is for a blocked chat.

    Prompts of a test and words of safety are tried: the chat may be open again.
    """
    if conversation.blocked_at is None or not isinstance(effect, Outgoing):
        return True
    return effect.urgency <= Urgency.REPLY


def heeds(conversation: Conversation, number: int, failure: Failure) -> bool:
    """Whether it matters that a message failed: of a block that is known it mostly does not."""
    if failure is not Failure.BLOCKED or conversation.blocked_at is None:
        return True
    profile = conversation.profile
    about_others = any(number == p.alarm or number in p.told for p in profile.accompanies)
    return about_others or any(p.first <= number <= p.last for p in profile.passed_on)


def happened(turn: Turn, event: DeliveryFailed | Blocked | Unblocked) -> None:
    """Take in whether messages arrive."""
    before = turn.conversation.blocked_at
    lost: tuple[News | PassedOn, ...] = ()
    match event:
        case DeliveryFailed(number=number, failure=failure):
            # The courier has tried all it may; what the person sees next says where they are.
            accompanying.undelivered(turn, number, failure)
            # Only a block says that other messages will fail as well.
            if failure is Failure.BLOCKED:
                lost = (*_lose(turn), *_refused(turn, number))
        case Blocked():
            accompanying.out_of_reach(turn)
            lost = _lose(turn)
        case Unblocked():
            return  # they can be written to again, which is all that it says
        case _:
            assert_never(event)
    for said in lost:
        _unheard(turn, said)
    agreed = turn.context.team and turn.conversation.profile.team_since is not None
    if before is None and turn.conversation.blocked_at is not None and agreed:
        turn.lose_touch(told=bool(lost))


def reach(turn: Turn) -> None:
    """The person did something: their chat is open to us."""
    if turn.conversation.blocked_at is not None:
        turn.conversation = replace(turn.conversation, blocked_at=None)


def remember(turn: Turn, at: datetime, *, since: int) -> None:
    """Remember by which messages went out what the care team said at an instant.

    They are those after number `since`; into a chat that is known to be blocked none went.
    """
    if turn.conversation.blocked_at is not None:
        return
    said = PassedOn(at=at, first=since + 1, last=turn.conversation.said)
    turn.know(passed_on=(*turn.conversation.profile.passed_on, said)[-_REMEMBERED:])


def _lose(turn: Turn) -> tuple[News, ...]:
    """Put down that the person has blocked the bot; returns what waited and is not said now.

    Before they agree to anything, not even that is kept.
    """
    if turn.conversation.blocked_at is not None or not _may_be_kept(turn):
        return ()
    turn.conversation = replace(turn.conversation, blocked_at=turn.at)
    waiting = turn.conversation.profile.news
    turn.know(news=())
    lost = tuple(news for news in waiting if nudging.still_holds(turn.conversation, news))
    profile = turn.conversation.profile
    if isinstance(turn.stage, Held) and profile.suitable and profile.cleared_at is not None:
        return (*lost, News(at=profile.cleared_at))  # it waited for the end of the night
    return lost


def _refused(turn: Turn, number: int) -> tuple[PassedOn, ...]:
    """Return what the care team said in a message that was refused; it is so once."""
    passed_on = turn.conversation.profile.passed_on
    lost = tuple(said for said in passed_on if said.first <= number <= said.last)
    if lost:
        turn.know(passed_on=tuple(said for said in passed_on if said not in lost))
    return lost


def _unheard(turn: Turn, said: News | PassedOn) -> None:
    """Let the team know; a reminder that never came stands in no other one's way."""
    if turn.conversation.profile.nudged_at == said.at:
        turn.know(nudged_at=None)
    turn.unheard(said.at)


def _may_be_kept(turn: Turn) -> bool:
    profile = turn.conversation.profile
    agreed = profile.consented_at is not None or bool(profile.accompanies)
    return agreed or turn.context.opening is Opening.SHORT
