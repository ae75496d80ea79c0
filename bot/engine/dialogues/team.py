"""The person's side of the care team: what is sent to it, taken back, and what it has to say."""

from dataclasses import replace
from datetime import datetime
from typing import Final, assert_never

from bot import distress
from bot.engine.asides import Asking, Question
from bot.engine.buttons import BOOK, Always, Rows, part
from bot.engine.context import Context, Opening
from bot.engine.dialogues import enrolment, guided, nudging, pacing, reaching
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.sending import SHARE, STOP_SENDING, offered
from bot.engine.effects import Day, Part, Urgency
from bot.engine.hearing import normalised, stop
from bot.engine.profile import News
from bot.engine.state import Booked, Conversation, Finished, Held, Idle
from bot.engine.team import (
    Nudged,
    Outlook,
    PersonClosed,
    PlanSet,
    ProtocolSet,
    RepeatAsked,
    ResultSeen,
    TeamEvent,
    TeamWrote,
)
from bot.engine.turn import Turn

_SEND: Final = (
    "send", "send it", "send my result", "send my results", "send results", "send to my care team",
    "enviar", "enviar mi resultado", "enviar mis resultados", "enviar a mi equipo",
)  # fmt: skip
_SHARING: Final = (
    "sharing", "my care team", "care team", "compartir", "mi equipo", "equipo medico",
)  # fmt: skip
"""Words by which a person asks about their care team; they mean nothing where there is none."""

_ALWAYS_SEND: Final = Always("button.sharing.always", f"{SHARE}:always")
_TAKE_BACK: Final = Always("button.sharing.back", f"{SHARE}:back")


# -- asking about it, and changing it


def hear(turn: Turn, text: str) -> bool:
    """Take words about the care team. False for all others, and for calls for help."""
    plain = normalised(text)
    if not turn.context.team or plain not in (*_SEND, *_SHARING):
        return False
    if pacing.lost_track(turn) or distress.hear_all(text) or stop(text):
        return False
    if isinstance(turn.aside, Asking) and turn.aside.question is Question.SEND and plain in _SEND:
        return False
    if not offered(turn):
        if turn.context.opening is Opening.FULL and isinstance(turn.stage, Idle):
            enrolment.begin(turn)
        else:
            orient(turn, part("send.not-agreed"))
        return True
    if turn.running is not None:
        orient(turn, part("after-the-test"))
    elif plain in _SEND:
        _send_latest(turn)
    else:
        show(turn)
    return True


def _send_latest(turn: Turn) -> None:
    measured = [t for t in turn.conversation.profile.tests if t.measured]
    if not measured:
        turn.say(part("send.nothing"))
    elif measured[-1].shared:
        turn.say(part("send.already"))
    else:
        turn.put(Asking(question=Question.SEND, test=measured[-1].number))
        orient(turn)


def show(turn: Turn) -> None:
    """Say what the care team gets, with buttons to change it."""
    turn.say(*_standing(turn), rows=_rows(turn))


def _standing(turn: Turn) -> tuple[Part, ...]:
    profile = turn.conversation.profile
    count = sum(1 for t in profile.tests if t.shared)
    if profile.sends_since is None:
        always = part("sharing.each")
    else:
        day = profile.sends_since.astimezone(turn.zone_info).date()
        always = part("sharing.always", day=Day(day))
    return (part("sharing.alarms"), always, part("sharing.sent", count=count))


def _rows(turn: Turn) -> Rows:
    profile = turn.conversation.profile
    first = _ALWAYS_SEND if profile.sends_since is None else STOP_SENDING
    back = ((_TAKE_BACK,),) if any(t.shared for t in profile.tests) else ()
    return ((first,), *back)


def tap(turn: Turn, token: str) -> bool:
    """Take a tap on a button about the care team. Returns False for any other."""
    verb, _, what = token.partition(":")
    if verb != SHARE or not offered(turn):
        return False
    match what:
        case "always":
            turn.know(sends_since=turn.at)
            turn.say(part("sharing.always-now"), rows=((STOP_SENDING,),))
        case "stop":
            turn.know(sends_since=None)
            turn.say(part("sharing.stopped"), rows=_rows(turn))
        case "back":
            _take_back(turn)
        case "latest":
            _send_latest(turn)
        case _:
            return False
    return True


def _take_back(turn: Turn) -> None:
    """Withdraw what was sent: from now on the team can open none of it."""
    tests = tuple(
        replace(t, shared=False) if t.shared else t for t in turn.conversation.profile.tests
    )
    turn.know(tests=tests, sends_since=None)
    turn.take_back()
    turn.say(part("sharing.taken-back"))


# -- what the team has to say


def happened(turn: Turn, event: TeamEvent) -> None:
    """Take what the care team has to say; it waits for the end of a test, and of the night.

    What somebody who has blocked the bot cannot hear does not wait: the team was told so.
    """
    news = _news(turn, event)
    if news is None or turn.conversation.blocked_at is not None:
        return
    turn.know(news=(*turn.conversation.profile.news, news))
    due = told_at(turn.context, turn.conversation)
    if due is not None and turn.at >= due:
        tell(turn)


def _news(turn: Turn, event: TeamEvent) -> News | None:
    """Return what is to be said, with what it changes put down; `None` if it is not to be."""
    match event:
        case ResultSeen(at=at, test=test, outlook=outlook, words=words):
            return News(at=at, test=test, outlook=outlook, words=words)
        case TeamWrote(at=at, words=words):
            return News(at=at, words=words)
        case RepeatAsked(at=at):
            turn.know(done_at=None)
            return News(at=at, outlook=Outlook.REPEAT)
        case Nudged(nudge=nudge):
            return nudging.take(turn, nudge)
        case ProtocolSet():
            return guided.set_protocol(turn, event)
        case PlanSet():
            return guided.set_plan(turn, event)
        case PersonClosed():
            return guided.close(turn)
        case _:
            assert_never(event)


def told_at(context: Context, conversation: Conversation) -> datetime | None:
    """Return when the person is told what the team said: at once, but not at night or in a test.

    A question that is being answered is not interrupted until it is left alone.
    """
    news = conversation.profile.news
    return nudging.spoken_at(context, conversation, news[0].at) if news else None


def tell(turn: Turn) -> None:
    """Say what the team had to say; a nudge only if what it reminds of is still missing."""
    waiting = turn.conversation.profile.news
    turn.know(news=())
    for news in waiting:
        if nudging.still_holds(turn.conversation, news):
            _say(turn, news)


def _say(turn: Turn, news: News) -> None:
    if news.nudge is not None:
        words, rows = nudging.words(turn.conversation.profile, news.nudge)
    elif news.topic is not None:
        words, rows = guided.told(turn, news), ()
    else:
        words, rows = _told(news), ((BOOK,),) if news.outlook is Outlook.REPEAT else ()
    if not words:
        return
    before = turn.conversation.said
    if isinstance(turn.stage, Idle | Booked | Finished | Held):
        turn.say(*words, rows=rows, urgency=Urgency.REMINDER)
    else:
        orient(turn, *words, urgency=Urgency.REMINDER)
    guided.after(turn, news)
    reaching.remember(turn, news.at, since=before)


def _told(news: News) -> tuple[Part, ...]:
    said = () if news.words is None else (part("team.words", words=news.words),)
    if news.outlook is None:
        return said
    if news.test is None:
        return (part("team.repeat"), *said)
    seen = part("team.seen", test=news.test)
    if news.outlook is Outlook.OTHER and said:
        return (seen, *said)
    return (seen, part(f"team.next.{news.outlook}"), *said)
