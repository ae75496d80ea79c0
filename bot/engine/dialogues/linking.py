"""What is typed, tapped or told about being linked, on either side; see both of them."""

import re
from typing import Final, assert_never

from bot import distress
from bot.engine import hearing
from bot.engine.asides import Asking
from bot.engine.buttons import part
from bot.engine.dialogues import accompanying, companions, pacing, passing, relaying
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.questionnaire import picked
from bot.engine.dialogues.readings import Typed
from bot.engine.letters import AlarmAnswer
from bot.engine.linked import (
    CompanionAnswered,
    CompanionDeclined,
    CompanionJoined,
    CompanionLeft,
    CompanionUnreached,
    Joined,
    LinkEnded,
    LinkEvent,
    LinkOpened,
    Notified,
    WordsBeside,
    WordsRelayed,
    WordsTaken,
)
from bot.engine.post import LINK
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word

_CODE: Final = re.compile(rf"\b{LINK}[A-Za-z0-9_-]{{16,58}}")

_HEARD_ELSEWHERE: Final = frozenset({
    Word.STOP, Word.WHERE, Word.HELP, Word.LANGUAGE, Word.ENGLISH, Word.SPANISH, Word.START,
    Word.MY_DATA, Word.DELETE, Word.RESULTS, Word.FILES,
})  # fmt: skip
"""Words that mean the same to a companion as to anybody."""


def code_in(text: str) -> str | None:
    """Return the code of a companion's link in what was typed or opened, if there is one."""
    found = _CODE.search(text)
    return None if found is None else found[0]


def happened(turn: Turn, event: LinkEvent) -> None:
    """Take in what happened between two who are linked, but for words that are still to be heard.

    Raises:
        ValueError: For words of a companion's own, see `passing.pass_on`.
    """
    match event:
        case LinkOpened():
            accompanying.asked(turn, event)
        case Joined():
            accompanying.joined(turn, event)
        case LinkEnded(of=of):
            accompanying.ended(turn, of)
        case Notified():
            accompanying.notified(turn, event)
        case WordsTaken():
            passing.taken(turn, event)
        case CompanionJoined(id=companion, share=share, offered_at=offered_at):
            companions.join(turn, companion, share, offered_at)
        case CompanionDeclined(offered_at=offered_at):
            companions.declined(turn, offered_at)
        case CompanionLeft(id=companion):
            companions.left(turn, companion)
        case WordsRelayed():
            relaying.take(turn, event)
        case CompanionAnswered(id=companion, answer=answer):
            companions.answered(turn, companion, answer)
        case CompanionUnreached(id=companion, alarm=alarm):
            companions.unreached(turn, companion, alarm=alarm)
        case WordsBeside():
            raise ValueError("these words are heard first")
        case _:
            assert_never(event)


def hear(turn: Turn, typed: Typed) -> bool:
    """Take words about being linked. Returns False for all others, and for calls for help."""
    text = typed.text
    if code_in(text) is not None:
        turn.say(part("link.unknown"))
        return True
    if pacing.lost_track(turn) or distress.hear_all(text) or hearing.stop(text):
        return False
    match hearing.word(text):
        case Word.COMPANION:
            companions.ask(turn)
            return True
        case Word.COMPANIONS:
            return _show(turn)
        case Word.LEAVE:
            return accompanying.leave_one(turn)
        case heard:
            return _hear_companion(turn, text, heard)


def _show(turn: Turn) -> bool:
    """List everybody who is linked; without anybody, offer to link somebody."""
    theirs, own = companions.show(turn), accompanying.show(turn)
    if not (theirs or own):
        companions.ask(turn)
    return True


def _hear_companion(turn: Turn, text: str, heard: Word | None) -> bool:
    """Answer somebody who is here for another person alone: they are not led into a test."""
    if not accompanying.only_companion(turn.conversation) or heard in _HEARD_ELSEWHERE:
        return False
    match turn.aside:
        case Asking(question=question) if picked(question, text) is not None:
            return False
        case _:
            first = () if heard in (Word.YES, Word.NO, Word.FINE) else (part("not-understood"),)
            orient(turn, *first)
            return True


def tap(turn: Turn, token: str) -> bool:
    """Take a tap on a button about being linked. Returns False for any other."""
    verb, _, who = token.partition(":")
    match verb, who:
        case "companion", "":
            companions.ask(turn)
        case companions.REMOVE, _:
            return companions.remove(turn, who) or _stale(turn)
        case companions.WITHDRAW, _:
            return companions.withdraw(turn, who) or _stale(turn)
        case accompanying.GO, _ if who:
            return accompanying.leave(turn, who) or _stale(turn)
        case accompanying.WITH_THEM, _:
            return accompanying.answer(turn, who, AlarmAnswer.WITH_THEM) or _stale(turn)
        case accompanying.NOT_REACHED, _:
            return accompanying.answer(turn, who, AlarmAnswer.NOT_REACHED) or _stale(turn)
        case _:
            return False
    return True


def _stale(turn: Turn) -> bool:
    orient(turn, part("stale"))
    return True
