"""Whether the person's chat takes our messages: since when not, and what is lost by it.

A block is known once and changes the conversation once, however many messages are refused for it.
What waits of the care team's is dropped then, and the team is told: what it was told did not reach
the person does not come later, when somebody has called them.
"""

from dataclasses import replace
from typing import Final, assert_never

from bot.engine.context import Opening
from bot.engine.dialogues import accompanying, nudging
from bot.engine.effects import Effect, Outgoing, Urgency
from bot.engine.events import Blocked, DeliveryFailed, Failure, Unblocked
from bot.engine.profile import News, PassedOn
from bot.engine.state import Conversation
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
    match event:
        case DeliveryFailed(number=number, failure=failure):
            # The courier has tried all it may; what the person sees next says where they are.
            accompanying.undelivered(turn, number, failure)
            _undelivered(turn, number, failure)
        case Blocked():
            accompanying.out_of_reach(turn)
            _lose(turn)
        case Unblocked():
            pass  # they can be written to again, which is all that it says
        case _:
            assert_never(event)


def reach(turn: Turn) -> None:
    """The person did something: their chat is open to us."""
    if turn.conversation.blocked_at is not None:
        turn.conversation = replace(turn.conversation, blocked_at=None)


def remember(turn: Turn, news: News, *, since: int) -> None:
    """Remember by which messages the care team's words went out, those after number `since`."""
    said = PassedOn(at=news.at, first=since + 1, last=turn.conversation.said)
    turn.know(passed_on=(*turn.conversation.profile.passed_on, said)[-_REMEMBERED:])


def _undelivered(turn: Turn, number: int, failure: Failure) -> None:
    """A message was given up; only a block says that others will be too."""
    if failure is not Failure.BLOCKED:
        return
    _lose(turn)
    profile = turn.conversation.profile
    lost = tuple(p for p in profile.passed_on if p.first <= number <= p.last)
    if lost:
        turn.know(passed_on=tuple(p for p in profile.passed_on if p not in lost))
    for passed_on in lost:
        _unheard(turn, passed_on)


def _lose(turn: Turn) -> None:
    """The person has blocked the bot; before they agree to anything, not even that is kept."""
    if turn.conversation.blocked_at is not None or not _may_be_kept(turn):
        return
    turn.conversation = replace(turn.conversation, blocked_at=turn.at)
    waiting = turn.conversation.profile.news
    turn.know(news=())
    for news in waiting:
        if nudging.still_holds(turn.conversation, news):
            _unheard(turn, news)
    if turn.context.team and turn.conversation.profile.team_since is not None:
        turn.lose_touch()


def _unheard(turn: Turn, said: News | PassedOn) -> None:
    """Let the team know; a reminder that never came stands in no other one's way."""
    if turn.conversation.profile.nudged_at == said.at:
        turn.know(nudged_at=None)
    turn.unheard(said.at)


def _may_be_kept(turn: Turn) -> bool:
    profile = turn.conversation.profile
    agreed = profile.consented_at is not None or bool(profile.accompanies)
    return agreed or turn.context.opening is Opening.SHORT
