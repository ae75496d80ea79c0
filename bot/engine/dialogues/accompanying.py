"""The companion's side: asked to stand by, told what happens, and free to go at any time.

Nothing but the chat's own address and the request is kept before they agree.
"""

from dataclasses import replace
from datetime import timedelta
from typing import Final

from bot.engine.asides import Asking, Question
from bot.engine.buttons import Always, Rows, part
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.questionnaire import YES
from bot.engine.effects import Day, Param, Part, Urgency
from bot.engine.events import Failure
from bot.engine.letters import Agree, AlarmAnswer, AnswerAlarm, Decline, Leave, Unreached
from bot.engine.linked import Joined, LinkOpened, Notified
from bot.engine.notices import Notice
from bot.engine.post import is_alarm, may_hear
from bot.engine.profile import Accompanied, LinkRequest, Profile
from bot.engine.questions import asked_by_stage
from bot.engine.state import Booked, Conversation, Finished, Held, Idle
from bot.engine.turn import Turn

WITH_THEM: Final = "with"
NOT_REACHED: Final = "lost"
GO: Final = "leave"
"""How the tokens of the buttons begin; whom they are about follows."""

ANSWER_WITHIN: Final = timedelta(hours=12)
"""How long the buttons of an alarm are good (design choice)."""

_AFTERWARDS: Final = frozenset({Notice.STILL_SILENT, Notice.WORSE, Notice.BETTER})
"""What is told of somebody who is looked after, in the same test as the alarm before."""

_REMEMBERED: Final = 8
"""How many messages about somebody can be taken back when the link ends."""

FREE: Final = (Idle, Booked, Finished, Held)
"""The stages at which nothing of their own is being asked."""


def only_companion(conversation: Conversation) -> bool:
    """Whether somebody is here for another person's sake alone: no test of theirs is in view."""
    profile = conversation.profile
    linked = bool(profile.accompanies) or profile.asked_by is not None
    own = profile.consented_at is not None or conversation.age_band is not None
    return linked and not own and isinstance(conversation.stage, Idle)


# -- being asked, and agreeing


def asked(turn: Turn, event: LinkOpened) -> None:
    """Ask whether they will stand by; whoever does a test is asked after it."""
    request = LinkRequest(of=event.of, share=event.share, offered_at=event.offered_at)
    turn.know(asked_by=request)
    if turn.running is not None:
        orient(turn, part("accompany.later"))
    else:
        _ask(turn)


def ask_again(turn: Turn) -> bool:
    """Put the question again that something else had put off. False if there is none."""
    waits = turn.conversation.profile.asked_by is not None and turn.aside is None
    if waits and isinstance(turn.stage, FREE):
        _ask(turn)
        return True
    return False


def _ask(turn: Turn) -> None:
    turn.put(Asking(question=Question.ACCOMPANY))
    orient(turn)


def take_answer(turn: Turn, choice: str) -> None:
    """Take whether they will stand by. It holds once the other side has it as well."""
    request = turn.conversation.profile.asked_by
    turn.know(asked_by=None)
    turn.drop()
    if request is None:
        orient(turn)
    elif choice == YES:
        turn.send(Agree(to=request.of, share=request.share, offered_at=request.offered_at))
    else:
        turn.send(Decline(to=request.of, offered_at=request.offered_at))
        turn.say(part("accompany.declined"))
        _settle(turn)


def joined(turn: Turn, event: Joined) -> None:
    """They are linked now: say what will come and how to end it."""
    people = turn.conversation.profile.accompanies
    known = person_of(turn, event.of)
    number = max((p.number for p in people), default=0) + 1 if known is None else known.number
    person = Accompanied(id=event.of, number=number, share=event.share, since=turn.at)
    turn.know(accompanies=(*(p for p in people if p.id != event.of), person))
    turn.say(part(f"accompany.joined.{event.share}"))
    _go_on(turn)


def person_of(turn: Turn, of: str) -> Accompanied | None:
    """Return what is known of somebody they stand by for; `None` if they do not."""
    return next((p for p in turn.conversation.profile.accompanies if p.id == of), None)


# -- the end of it


def ended(turn: Turn, of: str) -> None:
    """The person has ended the link, or it was no good: nothing more about them is said."""
    person = person_of(turn, of)
    request = turn.conversation.profile.asked_by
    if request is not None and request.of == of:
        turn.know(asked_by=None)
        turn.drop()
    if person is None:
        turn.say(part("link.unknown"))
    else:
        _let_go(turn, person)
        turn.say(part("accompany.ended"))
    _settle(turn)


def leave(turn: Turn, of: str) -> bool:
    """They go. Returns False if they are not linked with that person."""
    person = person_of(turn, of)
    if person is None:
        return False
    turn.send(Leave(to=of))
    _let_go(turn, person)
    turn.say(part("accompany.left"))
    _settle(turn)
    return True


def _let_go(turn: Turn, person: Accompanied) -> None:
    people = turn.conversation.profile.accompanies
    turn.retract(person.told)
    turn.know(accompanies=tuple(p for p in people if p.id != person.id))


def _settle(turn: Turn) -> None:
    """Keep nothing of somebody who was here for another person alone; others go on."""
    conversation = turn.conversation
    nothing = conversation.profile == Profile() and isinstance(conversation.stage, Idle)
    if nothing and conversation.age_band is None:
        turn.forget()
    else:
        _go_on(turn)


def _go_on(turn: Turn) -> None:
    if turn.running is None and asked_by_stage(turn.conversation) is not None:
        orient(turn)


def leave_one(turn: Turn) -> bool:
    """Take the word to leave; with several people it is asked which. False if there are none."""
    people = turn.conversation.profile.accompanies
    if len(people) == 1:
        return leave(turn, people[0].id)
    return show(turn)


def show(turn: Turn) -> bool:
    """List whom they stand by for, a button each to end it. Returns False if there is nobody."""
    people = turn.conversation.profile.accompanies
    if people:
        turn.say(part("accompany.list", count=len(people)), rows=_rows(turn))
    return bool(people)


def _rows(turn: Turn) -> Rows:
    rows: list[tuple[Always, ...]] = []
    for person in turn.conversation.profile.accompanies:
        day = person.since.astimezone(turn.zone_info).date()
        values: dict[str, Param] = {"number": person.number, "day": Day(day)}
        rows.append((Always("label.accompanied", f"{GO}:{person.id}", values),))
    return tuple(rows)


# -- being told


def notified(turn: Turn, event: Notified) -> None:
    """Say what happened and what to do, if that was agreed."""
    person = person_of(turn, event.of)
    if person is None or not may_hear(person.share, event.notice):
        return
    if event.notice is Notice.STILL_SILENT and person.with_them:
        return  # they know more than we do
    if event.notice not in _AFTERWARDS:
        person = replace(person, with_them=False)
    alarm = is_alarm(event.notice)
    words = (*_about(turn, person), part(f"notice.{event.notice}"), *_where(event))
    urgency = Urgency.SAFETY if alarm else Urgency.REPLY
    number = turn.say(*words, rows=_answers(event), urgency=urgency)
    told = remembered(person, number)
    keep_person(turn, replace(told, alarm=number, alarmed_at=turn.at) if alarm else told)


def remembered(person: Accompanied, number: int) -> Accompanied:
    """Return somebody with one more message about them that can be taken back."""
    return replace(person, told=(*person.told, number)[-_REMEMBERED:])


def keep_person(turn: Turn, person: Accompanied) -> None:
    """Put changed facts of somebody they stand by for in the place of the old ones."""
    people = turn.conversation.profile.accompanies
    turn.know(accompanies=tuple(person if p.id == person.id else p for p in people))


def _about(turn: Turn, person: Accompanied) -> tuple[Part, ...]:
    """Say of whom, where it could be of several."""
    several = len(turn.conversation.profile.accompanies) > 1
    return (part("notice.about", number=person.number),) if several else ()


def _where(event: Notified) -> tuple[Part, ...]:
    if event.position is None or not is_alarm(event.notice):
        return ()
    if event.offset is None:
        return (part(f"notice.going.{event.position}"),)
    return (part(f"notice.been.{event.position}", gone=event.offset),)


def _answers(event: Notified) -> Rows:
    if not is_alarm(event.notice) or event.notice == "better":
        return ()
    return (
        (Always("button.with-them", f"{WITH_THEM}:{event.of}"),),
        (Always("button.not-reached", f"{NOT_REACHED}:{event.of}"),),
    )


def answer(turn: Turn, of: str, answer: AlarmAnswer) -> bool:
    """Take the answer to an alarm. Returns False if that alarm is long past."""
    person = person_of(turn, of)
    if person is None or person.alarmed_at is None:
        return False
    if turn.at - person.alarmed_at > ANSWER_WITHIN:
        return False
    keep_person(turn, replace(person, with_them=answer is AlarmAnswer.WITH_THEM))
    turn.send(AnswerAlarm(to=of, answer=answer))
    turn.say(part(f"answer.{answer}"), urgency=Urgency.SAFETY)
    return True


def undelivered(turn: Turn, number: int, failure: Failure) -> None:
    """A message was refused: the person it was about must know that nobody can be told."""
    if failure is not Failure.UNKNOWN:
        for person in turn.conversation.profile.accompanies:
            if number == person.alarm or number in person.told:
                turn.send(Unreached(to=person.id, alarm=number == person.alarm))


def out_of_reach(turn: Turn) -> None:
    """This chat takes no messages: who is at a test and counts on it must know."""
    if turn.conversation.blocked_at is None:
        for person in turn.conversation.profile.accompanies:
            turn.send(Unreached(to=person.id, alarm=False))
