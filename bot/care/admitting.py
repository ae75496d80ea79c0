"""The team itself: who joins, who is on duty, who goes; and people who are cleared."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime

from bot.care.arrivals import still_open
from bot.care.freeing import released
from bot.care.member import Member, Ticket
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.care.sayings import button
from bot.care.step import Audit, CareStep, Did, Facts, Message, TicketWanted
from bot.engine.buttons import part
from bot.engine.effects import Term
from bot.engine.events import Cleared


def ticket(
    digest: str,
    role: Role,
    label: str,
    *,
    rules: CareRules,
    at: datetime,
    made_by: int | None = None,
) -> Ticket:
    """Return what a new code stands for."""
    return Ticket(
        digest=digest,
        role=role,
        label=label,
        made_at=at,
        made_by=made_by,
        expires_at=at + rules.code_lasts,
    )


def free_label(label: str, members: Iterable[Member]) -> str:
    """Return a label that nobody else in the team has: two codes may be made for one name."""
    taken = {member.label.casefold() for member in members}
    free, number = label, 2
    while free.casefold() in taken:
        free, number = f"{label} {number}", number + 1
    return free


def joined(member: Member, facts: Facts) -> CareStep:
    """Somebody has opened a good code: say what will come, what can be typed, and open alarms."""
    key = "care.joined.room" if member.room else "care.joined"
    hello = part(key, label=member.label, role=Term(f"care.role.{member.role}"))
    helps = part("care.help.room" if member.room else f"care.help.{member.role}")
    return CareStep(
        messages=(Message(to=member.number, parts=(hello, helps)),),
        audits=(Audit(who=member.number, did=Did.JOINED, detail=str(member.role)),),
    ).and_then(still_open(member, facts))


def set_duty(member: Member, facts: Facts, *, on: bool) -> CareStep:
    """Let alarms come to a member first, or no more; whoever comes on duty hears of open ones."""
    changed = replace(member, on_duty=on)
    others = any(facts.on_duty(m) for m in facts.members if m.number != member.number)
    if on:
        key = "care.duty.on"
    elif facts.on_duty(changed):
        key = "care.duty.off.set"
    else:
        key = "care.duty.off" if others else "care.duty.off.nobody"
    return CareStep(
        messages=(Message(to=member.number, parts=(part(key),)),),
        members=(changed,),
        audits=(Audit(who=member.number, did=Did.ON_DUTY if on else Did.OFF_DUTY),),
    ).and_then(still_open(changed, facts) if on else CareStep())


def see_team(member: Member, facts: Facts) -> CareStep:
    """List the team; whoever runs it gets a button each to remove somebody."""
    parts = [part("care.team", count=len(facts.members))]
    for other in facts.members:
        key = "care.team.room" if other.room else "care.team.member"
        duty = Term("care.on-duty" if facts.on_duty(other) else "care.off-duty")
        role = Term(f"care.role.{other.role}")
        parts.append(part(key, label=other.label, role=role, duty=duty))
    removing = member.role is Role.CLINICIAN and not member.room
    rows = tuple(
        (button("label.care.remove", "remove", m.number, member=m.label),)
        for m in facts.members
        if removing and m.number != member.number
    )
    message = Message(to=member.number, parts=tuple(parts), rows=rows)
    audit = Audit(who=member.number, did=Did.SAW_TEAM)
    return CareStep(messages=(message,), audits=(audit,))


def add(member: Member, role: Role, label: str | None, facts: Facts) -> CareStep:
    """Ask for a code for somebody new; it needs what the others will call them."""
    if label is None:
        return _said(member, "care.add.label")
    if any(m.label.casefold() == label.casefold() for m in facts.members):
        return _said(member, "care.add.taken")
    return CareStep(
        tickets=(TicketWanted(to=member.number, role=role, label=label),),
        audits=(Audit(who=member.number, did=Did.MADE_CODE, detail=str(role)),),
    )


def code_made(wanted: TicketWanted, link: str) -> Message:
    """Return the message that hands a new code to whoever asked for it."""
    role = Term(f"care.role.{wanted.role}")
    key = "care.code" if link.startswith("https://") else "care.code.to-type"
    return Message(to=wanted.to, parts=(part(key, label=wanted.label, role=role, link=link),))


def remove(member: Member, number: int, facts: Facts) -> CareStep:
    """Take somebody out of the team. It holds at once, and they are sent nothing more."""
    gone = next((m for m in facts.members if m.number == number), None)
    if gone is None:
        return _said(member, "care.no-such-member")
    removed = Message(to=member.number, parts=(part("care.removed", member=gone.label),))
    return CareStep(messages=(removed,)).and_then(
        going(gone, member.number, Did.REMOVED_MEMBER, facts)
    )


def going(gone: Member, by: int, did: Did, facts: Facts) -> CareStep:
    """Return what it leads to that somebody goes: what they had is nobody's."""
    held = tuple(i for i in facts.items if i.taken_by == gone.number)
    others = replace(facts, members=tuple(m for m in facts.members if m.number != gone.number))
    step = CareStep(
        members=(replace(gone, removed_at=facts.at, on_duty=False, asked=None),),
        audits=(Audit(who=by, did=did, detail=str(gone.number)),),
    )
    return step.and_then(released(gone, held, others))


def leave(member: Member, facts: Facts) -> CareStep:
    """Let a member go by their own wish. After this answer nothing is sent to them any more."""
    return _said(member, "care.left").and_then(going(member, member.number, Did.LEFT, facts))


def clear(member: Member, facts: Facts) -> CareStep:
    """Clear a person for a test at home."""
    if facts.person is None:
        return _said(member, "care.person.unopened" if facts.people else "care.no-such-person")
    if not facts.person.profile.hazards or facts.person.profile.suitable:
        return _said(member, "care.clear.needless")
    cleared = Cleared(at=facts.at, by=member.label)
    return CareStep(
        messages=(Message(to=member.number, parts=(part("care.cleared"),)),),
        letters=((facts.person.id, cleared),),
        audits=(Audit(who=member.number, did=Did.CLEARED_PERSON, person=facts.person.id),),
    )


def _said(member: Member, key: str) -> CareStep:
    return CareStep(messages=(Message(to=member.number, parts=(part(key),)),))
