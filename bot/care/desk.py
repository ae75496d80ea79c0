"""One command of one member: what it leads to. The only place where the team's side is decided."""

from dataclasses import replace
from typing import Final, assert_never

from bot import distress
from bot.care import admitting, handling, inviting, people, reaching, sent
from bot.care.commands import (
    LANGUAGES,
    TEAM,
    AddMember,
    AskItem,
    Cancel,
    ClearPerson,
    Close,
    Command,
    ExportPerson,
    GetHelp,
    HandOver,
    Leave,
    LetGo,
    OpenItem,
    Other,
    RemoveMember,
    SeeInbox,
    SeeTeam,
    SetDuty,
    Speak,
    TakeItem,
)
from bot.care.invite_words import Invite, RevokeInvitation, SeeInvitations, SendAgain
from bot.care.member import Member, asked_for_team, asked_whom
from bot.care.people_commands import PeopleCommand, SeePerson
from bot.care.roles import Action
from bot.care.step import Audit, CareStep, Did, Facts, Message, Spoken
from bot.engine.buttons import part
from bot.engine.effects import Choice, Urgency

ACTION_OF: Final = {
    SeeInbox: Action.SEE_INBOX,
    OpenItem: Action.OPEN_RESULT,
    TakeItem: Action.TAKE_ITEM,
    LetGo: Action.LET_GO_ITEM,
    HandOver: Action.HAND_OVER_ITEM,
    Close: Action.CLOSE_ITEM,
    AskItem: Action.SEE_INBOX,
    SetDuty: Action.SET_DUTY,
    SeeTeam: Action.SEE_TEAM,
    AddMember: Action.ADD_MEMBER,
    RemoveMember: Action.REMOVE_MEMBER,
    ClearPerson: Action.CLEAR_PERSON,
    ExportPerson: Action.EXPORT,
    Leave: Action.LEAVE_TEAM,
    Invite: Action.INVITE,
    SendAgain: Action.INVITE,
    SeeInvitations: Action.SEE_INVITATIONS,
    RevokeInvitation: Action.REVOKE_INVITATION,
    **people.ACTION_OF,
}
"""What a command does; whatever stands here not is open to every member."""


def advance(member: Member, command: Command, facts: Facts) -> CareStep:
    """Return what a command leads to.

    Args:
        member: Who gave it.
        command: What they want.
        facts: What the store knows of it, and when it is.
    """
    action = ACTION_OF.get(type(command))
    if action is not None and not member.may(action):
        return _refused(member, action)
    if isinstance(command, Other) and not command.text.strip():
        # A changed message, a photo, a button of former times: what was asked stays open.
        return CareStep() if member.room else said(member, "care.only-words")
    asked = member.asked
    if asked is not None:
        # Whatever was asked is done with, unless this asks anew.
        member = replace(member, asked=None)
    step = _done(member, command, facts, asked)
    if asked is not None and not any(m.number == member.number for m in step.members):
        step = replace(step, members=(*step.members, member))
    return step


def _done(member: Member, command: Command, facts: Facts, asked: str | None) -> CareStep:
    if isinstance(command, PeopleCommand):
        return people.done(member, command, facts)
    match command:
        case SeeInbox():
            return handling.see_inbox(member, facts)
        case AskItem(verb=verb):
            return handling.ask_which(member, verb, facts)
        case OpenItem() | TakeItem() | LetGo() | HandOver() | Close() if facts.item is None:
            return said(member, "care.no-such-item")
        case OpenItem():
            return handling.open_item(member, facts)
        case TakeItem():
            return handling.take_item(member, facts)
        case LetGo():
            return handling.give_back(member, facts)
        case HandOver(to=to):
            return handling.give(member, to, facts)
        case Close(follow_up=follow_up):
            return handling.close_item(member, follow_up, facts)
        case SetDuty(on=on):
            return admitting.set_duty(member, facts, on=on)
        case SeeTeam():
            return admitting.see_team(member, facts)
        case AddMember(role=role, label=label):
            return admitting.add(member, role, label, facts)
        case RemoveMember(number=number):
            return admitting.remove(member, number, facts)
        case ClearPerson():
            return reaching.not_told(admitting.clear(member, facts), facts)
        case ExportPerson():
            return sent.export(member, facts)
        case Speak(locale=locale):
            return _speak(member, locale)
        case GetHelp():
            return _help(member)
        case Leave(sure=False):
            sure = Choice("button.care.leave", f"{TEAM}:leave:yes")
            asks = Message(to=member.number, parts=(part("care.leave.sure"),), rows=((sure,),))
            return CareStep(messages=(asks,))
        case Leave():
            return admitting.leave(member, facts)
        case Cancel():
            return said(member, "care.cancelled")
        case Invite():
            return inviting.invite(member, command, facts)
        case SendAgain(reference=reference):
            return inviting.send_again(member, reference, facts)
        case SeeInvitations():
            return inviting.see(member, facts)
        case RevokeInvitation(reference=reference):
            return inviting.revoke(member, reference, facts)
        case Other(text=text):
            return _words(member, text, facts, asked)
        case _:
            assert_never(command)


def _help(member: Member) -> CareStep:
    if member.room:
        return said(member, "care.help.room")
    return said(member, f"care.help.{member.role}", "care.help.inviting", "care.help.export")


def _speak(member: Member, locale: str | None) -> CareStep:
    if locale is not None:
        spoken = Spoken(member=member.number, locale=locale)
        return replace(said(member, "language.set"), spoken=(spoken,))
    row = tuple(Choice(f"language.{code}", f"{TEAM}:speak:{code}") for code in LANGUAGES)
    return CareStep(
        messages=(Message(to=member.number, parts=(part("language.ask"),), rows=(row,)),)
    )


def _words(member: Member, text: str, facts: Facts, asked: str | None) -> CareStep:
    if asked is not None and asked_whom(replace(member, asked=asked)):
        return people.words(member, text, facts)
    if asked is not None and facts.item is not None:
        team_only = asked_for_team(asked)
        return handling.close_in_words(member, text, facts, team_only=team_only)
    if distress.hear_all(text):
        # Whoever types this may need help; the team's chat is no place that passes it on.
        urgent = Message(
            to=member.number, parts=(part("care.call-for-help"),), urgency=Urgency.SAFETY
        )
        return CareStep(messages=(urgent,))
    if asked is not None:
        return said(member, "care.no-such-item")  # it was deleted while the words were typed
    if member.room:
        return CareStep()
    if facts.people:
        return advance(member, SeePerson(text), facts)
    return said(member, "care.not-understood")


def said(member: Member, *keys: str) -> CareStep:
    """Return a step that only says something to the member."""
    return CareStep(messages=(Message(to=member.number, parts=tuple(map(part, keys))),))


def _refused(member: Member, action: Action) -> CareStep:
    key = "care.not-in-room" if member.room else "care.may-not"
    audit = Audit(who=member.number, did=Did.REFUSED, detail=str(action))
    return CareStep(
        messages=(Message(to=member.number, parts=(part(key),)),),
        audits=(audit,),
    )
