"""One command about people: what it leads to; see `desk`."""

from dataclasses import replace
from typing import Final, assert_never

from bot.care import digest, guiding, overview, page, reaching
from bot.care.member import Member
from bot.care.people_commands import (
    AskRepeat,
    ClearThem,
    CloseThem,
    NudgePerson,
    PeopleCommand,
    SeeBoard,
    SeeDigest,
    SeeFiles,
    SeePerson,
    SeeSeries,
    SeeStuck,
    SetDigest,
    SetPlan,
    SetProtocol,
    Write,
    WriteWords,
)
from bot.care.roles import Action
from bot.care.step import Audit, CareStep, Did, Facts, Message
from bot.engine.buttons import part

ACTION_OF: Final = {
    SeeBoard: Action.SEE_BOARD,
    SeeStuck: Action.SEE_BOARD,
    SeeDigest: Action.SEE_BOARD,
    SetDigest: Action.SET_DIGEST,
    SeePerson: Action.SEE_PERSON,
    SeeFiles: Action.SEE_PERSON,
    SeeSeries: Action.SEE_PERSON,
    NudgePerson: Action.NUDGE_PERSON,
    ClearThem: Action.CLEAR_PERSON,
    SetProtocol: Action.SET_PROTOCOL,
    SetPlan: Action.SET_PLAN,
    AskRepeat: Action.ASK_REPEAT,
    Write: Action.WRITE_TO_PERSON,
    WriteWords: Action.WRITE_TO_PERSON,
    CloseThem: Action.CLOSE_PERSON,
}
"""What a command about people does."""


def done(member: Member, command: PeopleCommand, facts: Facts) -> CareStep:
    """Return what a command about people leads to.

    An answer that does nothing still says where somebody stands, so it is logged as a look.
    """
    step = _done(member, command, facts)
    if step.audits or step.members or facts.person is None or _asks(step):
        return step
    detail = ACTION_OF[type(command)].value
    looked = Audit(
        who=member.number, did=Did.SAW_PERSON, person=facts.person.id, detail=f"answered: {detail}"
    )
    return replace(step, audits=(looked,))


def _asks(step: CareStep) -> bool:
    """Whether a step only asks which, or whether: that says nothing of the person."""
    return any(isinstance(m, Message) and m.rows for m in step.messages)


def _done(member: Member, command: PeopleCommand, facts: Facts) -> CareStep:
    match command:
        case SeeBoard(picture=True):
            return overview.picture_board(member, facts)
        case SeeBoard():
            return overview.see_board(member, facts)
        case SeeStuck(place=place, page=number):
            return overview.see_stuck(member, place, number, facts)
        case SeeDigest():
            return digest.see(member, facts)
        case SetDigest(on=on):
            return digest.choose(member, facts, on=on)
        case _ if not facts.people:
            return _said(member, "care.no-such-person")
        case SeePerson():
            return page.see_person(member, facts)
        case SeeFiles():
            return page.see_files(member, facts)
        case SeeSeries():
            return page.see_series(member, facts)
        case _ if facts.person is None:
            return _said(member, "care.person.unopened")
        case NudgePerson() | AskRepeat() | Write() | WriteWords() if (
            refused := reaching.cannot_arrive(member, facts)
        ):
            return refused
        case NudgePerson(nudge=nudge):
            return guiding.nudge(member, nudge, facts)
        case _ if facts.person.profile.consented_at is None:
            return _said(member, "care.person.unopened")
        case ClearThem():
            return reaching.not_told(guiding.clear(member, facts), facts)
        case SetProtocol(protocol=protocol):
            return reaching.not_told(guiding.set_protocol(member, protocol, facts), facts)
        case SetPlan(plan=plan):
            return reaching.not_told(guiding.set_plan(member, plan, facts), facts)
        case AskRepeat():
            return guiding.ask_repeat(member, facts)
        case Write(template=template):
            return guiding.write(member, template, facts)
        case WriteWords():
            return guiding.ask_words(member, facts)
        case CloseThem(sure=sure):
            return reaching.not_told(guiding.close(member, facts, sure=sure), facts)
        case _:
            assert_never(command)


def words(member: Member, text: str, facts: Facts) -> CareStep:
    """Take words that were asked for, to be sent to a person."""
    if facts.person is None or not facts.people:
        return _said(member, "care.no-such-person")
    return reaching.cannot_arrive(member, facts) or guiding.write_words(member, text, facts)


def _said(member: Member, key: str) -> CareStep:
    return CareStep(messages=(Message(to=member.number, parts=(part(key),)),))
