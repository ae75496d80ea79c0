"""Results that go to the care team: each by the person's word, or all by a standing one."""

from dataclasses import replace
from typing import Final

from bot.engine.asides import Asking, Question
from bot.engine.buttons import Always, part
from bot.engine.dialogues import between
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.questionnaire import ALWAYS, YES
from bot.engine.profile import Profile
from bot.engine.turn import Turn
from bot.protocol.record import TestRecord

SHARE: Final = "sharing"
"""How the tokens of the buttons begin that change what is sent; see `team.tap`."""

STOP_SENDING: Final = Always("button.sharing.stop", f"{SHARE}:stop")


def offered(turn: Turn) -> bool:
    """Whether results of this person can go to a care team."""
    profile = turn.conversation.profile
    return turn.context.team and profile.team_since is not None


def send_if_always(turn: Turn, record: TestRecord) -> None:
    """Send a test that has just ended, if that was agreed once for all."""
    always = turn.conversation.profile.sends_since is not None
    if offered(turn) and always and record.readings:
        decide(turn, record.number, sent=True)


def ask_to_send(turn: Turn, record: TestRecord) -> bool:
    """Ask whether a test is to be sent, or say that it was. Returns whether it was asked."""
    if not offered(turn) or not record.readings:
        return False
    if _shared(turn.conversation.profile, record.number):
        turn.say(part("send.sent.always"), rows=((STOP_SENDING,),))
        return False
    turn.put(Asking(question=Question.SEND, test=record.number))
    orient(turn)
    return True


def _shared(profile: Profile, test: int) -> bool:
    return any(t.number == test and t.shared for t in profile.tests)


def take_send(turn: Turn, test: int | None, choice: str) -> None:
    """Take whether a test is to be sent: this one, every one, or not."""
    turn.drop()
    if choice == ALWAYS:
        turn.know(sends_since=turn.at)
    sent = choice in (YES, ALWAYS)
    decide(turn, test, sent=sent)
    if choice == ALWAYS:
        turn.say(part("send.sent.always"), rows=((STOP_SENDING,),))
    else:
        turn.say(part("send.sent" if sent else "send.not-sent"))
    between.ask_owed(turn)


def decide(turn: Turn, test: int | None, *, sent: bool) -> None:
    """Put down whether a test is sent, and send it if it is."""
    tests = tuple(
        replace(t, shared=sent) if t.number == test else t for t in turn.conversation.profile.tests
    )
    turn.know(tests=tests)
    if sent and test is not None:
        turn.submit(test)
