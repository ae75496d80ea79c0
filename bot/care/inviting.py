"""Inviting from the team's chat: made, sent again, revoked, and who has not opened theirs."""

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

from bot.care.invitation import Invitation, InvitationWanted, Standing, unwanted
from bot.care.invite_words import Invite
from bot.care.member import Member
from bot.care.references import Fault, fault_of, same
from bot.care.rules import CareRules
from bot.care.sayings import button
from bot.care.step import Audit, CareStep, Did, Facts, InvitationAsked, Message, Rows, Sheet
from bot.engine.buttons import part
from bot.engine.context import Context, written
from bot.engine.effects import Choice, Day, HandHandout, HandInvitation, Param, Part, Term
from bot.protocol.released import latest

SHOWN = 6
"""How many invitations one message shows, each with two buttons of full width (design choice)."""

_LONGEST_TOKEN = 64
"""Bytes of what a button carries; references of former times may be too long for one."""


def invite(member: Member, command: Invite, facts: Facts) -> CareStep:
    """Ask for an invitation, or say kindly why there will be none."""
    wanted = command.wanted
    if wanted.reference is not None:
        fault = fault_of(wanted.reference)
        if fault is Fault.NAME and command.unread is not None and command.unread.isdigit():
            whole = f"{wanted.reference}-{command.unread}"
            if fault_of(whole) is None:
                return _said(member, part("care.reference.one-word", reference=whole))
        if fault is not None:
            return _said(member, part(f"care.reference.{fault}"), part("care.reference.how"))
    if command.unread is not None:
        return _said(member, part("care.invite.unread", word=command.unread[:40]))
    lacks = unwanted(wanted, facts.rules)
    if lacks:
        return _said(member, *(part(f"care.invite.{what}") for what in lacks))
    before = None if wanted.reference is None else same(wanted.reference, facts.invitations)
    if before is not None:
        day = Day(_there(before.made_at, facts.rules).date())
        said = part("care.invite.invited", reference=before.reference, day=day)
        return _said(member, said, _state(before, facts), rows=_rows((before,), facts.at))
    asked = InvitationAsked(to=member.number, what=wanted)
    return CareStep(invitations_asked=(asked,))


def see(member: Member, facts: Facts) -> CareStep:
    """List the invitations that nobody has opened, the oldest first."""
    audit = Audit(who=member.number, did=Did.SAW_INVITATIONS)
    waiting = unopened(facts.invitations, facts.at)
    if not waiting:
        return replace(_said(member, part("care.invitations.none")), audits=(audit,))
    parts = [part("care.invitations", count=len(waiting))]
    for invitation in waiting[:SHOWN]:
        parts.append(_state(invitation, facts))
        if invitation.note is not None:
            parts.append(part("care.invitation.note", note=invitation.note))
    if len(waiting) > SHOWN:
        parts.append(part("care.invitations.more", count=len(waiting) - SHOWN))
    step = _said(member, *parts, rows=_rows(waiting[:SHOWN], facts.at))
    return replace(step, audits=(audit,))


def send_again(member: Member, reference: str, facts: Facts) -> CareStep:
    """Ask for another link for somebody who has not opened theirs."""
    invitation = same(reference, facts.invitations)
    if invitation is None:
        return _said(member, part("care.no-such-invitation"))
    if invitation.standing(facts.at) is Standing.OPENED:
        return _said(member, _state(invitation, facts), part("care.invite.in-use"))
    return CareStep(
        invitations_asked=(InvitationAsked(to=member.number, what=invitation),),
    )


def revoke(member: Member, reference: str, facts: Facts) -> CareStep:
    """Let an invitation open nothing any more that nobody has opened."""
    invitation = same(reference, facts.invitations)
    if invitation is None:
        return _said(member, part("care.no-such-invitation"))
    if invitation.standing(facts.at) is Standing.OPENED:
        return _said(member, _state(invitation, facts), part("care.invite.in-use"))
    revoked = replace(invitation, revoked_at=invitation.revoked_at or facts.at)
    step = _said(
        member,
        part("care.invitation.is-revoked", reference=invitation.reference),
        rows=_rows((revoked,), facts.at),
    )
    if invitation.revoked_at is not None:
        return step
    audit = Audit(who=member.number, did=Did.REVOKED_INVITATION, detail=invitation.reference)
    return replace(step, invitations=(revoked,), audits=(audit,))


def unopened(invitations: tuple[Invitation, ...], at: datetime) -> tuple[Invitation, ...]:
    """Return those that still wait or have run out, the oldest first; a revoked one is over."""
    open_ones = (Standing.WAITS, Standing.RAN_OUT)
    waiting = [i for i in invitations if i.standing(at) in open_ones]
    return tuple(sorted(waiting, key=lambda i: (i.made_at, i.reference)))


def days_ago(invitation: Invitation, rules: CareRules, at: datetime) -> int:
    """Return how many days ago an invitation was made, on the clinic's calendar."""
    return (_there(at, rules).date() - _there(invitation.made_at, rules).date()).days


def handed(
    invitation: Invitation,
    to: int,
    link: str,
    *,
    rules: CareRules,
    context: Context,
    locale: str | None = None,
    again: bool = False,
) -> tuple[Message | Sheet, ...]:
    """Return what a member gets who invited: code and link, a picture to pass on, the handout.

    Args:
        invitation: As it was made.
        to: The member.
        link: What opens the chat; the bare code where the channel has no links.
        rules: What the clinic has set for its team.
        context: What it has set for its patients.
        locale: The language of the papers where the invitation names none; else the clinic's.
        again: Whether there was another link before.
    """
    protocol = context.protocol if invitation.protocol is None else latest(invitation.protocol)
    until = _there(invitation.expires_at, rules).date()
    language = invitation.language or locale or rules.languages[0]
    params: dict[str, Param] = {
        "reference": invitation.reference,
        "protocol": Term(f"care.protocol.{protocol.id}"),
        "day": Day(until),
    }
    parts = [part("care.invited", **params)]
    if again:
        parts.append(part("care.invited.again"))
    if invitation.language is not None:
        parts.append(part("care.invited.language", language=Term(f"language.{language}")))
    if invitation.note is not None:
        parts.append(part("care.invitation.note", note=invitation.note))
    parts.append(part("care.invited.code", code=invitation.code))
    if link != invitation.code:
        parts.append(part("care.invited.link", link=link))
    parts.append(part("care.invited.pass-on"))
    opens = link if link != invitation.code else ""
    picture = HandInvitation(
        number=0,
        reference=invitation.reference,
        code=invitation.code,
        link=opens,
        language=language,
        good_until=until,
    )
    handout = HandHandout(
        number=0,
        reference=invitation.reference,
        link=opens,
        language=language,
        good_until=until,
        made_at=invitation.made_at,
        protocol=protocol,
        lines=context.stop_lines,
        contact=written(context.contact, language) or "",
        emergency_number=context.emergency_number or "",
        medicine_plan=written(context.medicine_plan, language) or "",
    )
    revokes = _button("revoke", invitation)
    rows: Rows = () if revokes is None else ((revokes,),)
    return (
        Message(to=to, parts=tuple(parts), rows=rows),
        Sheet(to=to, effect=picture),
        Sheet(to=to, effect=handout),
    )


def audited(what: InvitationWanted | Invitation, reference: str, by: int) -> Audit:
    """Return the line of the log for an invitation that was made or sent again."""
    did = Did.SENT_INVITATION_AGAIN if isinstance(what, Invitation) else Did.INVITED
    return Audit(who=by, did=did, detail=reference)


def _state(invitation: Invitation, facts: Facts) -> Part:
    """Return the line that says where an invitation stands."""
    reference = invitation.reference
    match invitation.standing(facts.at):
        case Standing.OPENED:
            opened = invitation.opened_at or invitation.made_at
            day = Day(_there(opened, facts.rules).date())
            return part("care.invitation.opened", reference=reference, day=day)
        case Standing.EMPTIED:
            return part("care.invitation.emptied", reference=reference)
        case Standing.REVOKED:
            return part("care.invitation.is-revoked", reference=reference)
        case Standing.RAN_OUT:
            day = Day(_there(invitation.expires_at, facts.rules).date())
            return part("care.invitation.ran-out", reference=reference, day=day)
        case Standing.WAITS:
            day = Day(_there(invitation.expires_at, facts.rules).date())
            days = days_ago(invitation, facts.rules, facts.at)
            if days < 1:
                return part("care.invitation.today", reference=reference, day=day)
            return part("care.invitation.since", reference=reference, count=days, day=day)


def _rows(invitations: tuple[Invitation, ...], at: datetime) -> Rows:
    """Return what can be done with invitations that nobody has opened."""
    rows: list[tuple[Choice, ...]] = []
    for invitation in invitations:
        standing = invitation.standing(at)
        verbs = {Standing.OPENED: (), Standing.REVOKED: ("resend",)}.get(
            standing, ("resend", "revoke")
        )
        rows += [(b,) for verb in verbs if (b := _button(verb, invitation)) is not None]
    return tuple(rows)


def _button(verb: str, invitation: Invitation) -> Choice | None:
    choice = button(
        f"label.care.{verb}", verb, invitation.reference, reference=invitation.reference
    )
    return choice if len(choice.token) <= _LONGEST_TOKEN else None


def _there(at: datetime, rules: CareRules) -> datetime:
    return at.astimezone(ZoneInfo(rules.zone))


def _said(member: Member, *parts: Part, rows: Rows = ()) -> CareStep:
    return CareStep(messages=(Message(to=member.number, parts=parts, rows=rows),))
