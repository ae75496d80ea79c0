"""What comes in by itself: a result that was sent, an alarm, an alarm that nobody takes."""

from dataclasses import replace
from datetime import datetime

from bot.care import ladder
from bot.care.items import Item, graver, in_order, take_back
from bot.care.ladder import Reach
from bot.care.member import Member
from bot.care.sayings import brief, to_others
from bot.care.step import ITSELF, Audit, CareStep, Did, Facts, Message
from bot.care.triage import Cause, Priority, Triage
from bot.engine.buttons import part
from bot.engine.effects import Urgency
from bot.engine.state import Conversation


def reference_of(person: Conversation) -> str:
    """Return what the team calls a person: the clinic's reference, or a short number."""
    return person.profile.reference or person.id[:8]


def new_item(person: Conversation, test: int, triage: Triage, at: datetime) -> Item:
    """Return an item as it comes in, before it is kept."""
    return Item(
        person=person.id,
        reference=reference_of(person),
        test=test,
        priority=triage.priority,
        cause=triage.cause,
        opened_at=at,
    )


def submitted(item: Item, triage: Triage, facts: Facts) -> CareStep:
    """A person has sent the result of a test; its item is there, perhaps because of an alarm."""
    shared = graver(replace(item, shared=True), triage)
    audit = Audit(
        who=ITSELF,
        did=Did.RESULT_SENT,
        person=item.person,
        item=item.number,
        detail=shared.priority.name.lower(),
    )
    first = part("care.result-sent")
    messages = [brief(shared, m, facts, first) for m in facts.members]
    return CareStep(messages=tuple(messages), items=(shared,), audits=(audit,))


def alarmed(item: Item, triage: Triage, facts: Facts) -> CareStep:
    """Something has gone wrong in a person's test; what is no alarm goes to all as an item does."""
    audit = Audit(
        who=ITSELF,
        did=Did.ALARM_RAISED,
        person=item.person,
        item=item.number,
        detail=str(triage.cause),
    )
    if triage.priority is not Priority.ALARM:
        item = graver(item, triage)
        told = tuple(brief(item, m, facts) for m in facts.members)
        return CareStep(messages=told, items=(item,), audits=(audit,))
    if item.alarmed_at is not None or item.taken_by is not None:
        return _alarmed_again(item, triage.cause, facts, audit)
    following = climbed(ladder.begin(item, triage.cause, facts.at), facts)
    return replace(following, audits=(audit, *following.audits))


def _alarmed_again(item: Item, cause: Cause, facts: Facts, audit: Audit) -> CareStep:
    """One more thing has gone wrong: whoever has it, or was told so far, hears of it now.

    The ladder goes on where it is. Words of an emergency stay the reason, whatever comes after.
    """
    kept = item.cause if item.cause is Cause.EMERGENCY else cause
    first_time = item.alarmed_at is None
    item = replace(
        item,
        priority=Priority.ALARM,
        cause=kept,
        alarmed_at=facts.at if first_time else item.alarmed_at,
    )
    told = [
        m
        for m in facts.members
        if m.number == item.taken_by
        or facts.on_duty(m)
        or (item.taken_by is None and item.told_to(m.number) is not None)
    ] or list(facts.members)  # it has reached nobody so far
    more = part(f"care.alarm.more.{cause}")
    messages = tuple(replace(brief(item, m, facts, more), urgency=Urgency.SAFETY) for m in told)
    sent = tuple(_sent(item, "more", m) for m in told)
    return CareStep(messages=messages, items=(item,), audits=(audit, *sent))


def eased(item: Item, facts: Facts) -> CareStep:
    """The person feels better: whoever has it, or was told, hears so; the alarm stays open."""
    told = [
        m
        for m in facts.members
        if m.number == item.taken_by
        or (item.taken_by is None and item.told_to(m.number) is not None)
    ]
    better = part("care.alarm.better")
    messages = tuple(replace(brief(item, m, facts, better), urgency=Urgency.REPLY) for m in told)
    return CareStep(messages=messages, items=(item,))


def climbed(item: Item, facts: Facts, *, but: int | None = None) -> CareStep:
    """An alarm that nobody has taken goes one rung further; `but` is who cannot be reached."""
    item, reach, told = ladder.climb(item, facts.members, facts.rules, facts.at, but=but)
    audits = [_sent(item, reach, m) for m in told]
    if reach in (Reach.AGAIN, Reach.OVER):
        audits.insert(
            0,
            Audit(who=ITSELF, did=Did.ALARM_UNANSWERED, person=item.person, item=item.number),
        )
    messages = [brief(item, m, facts, part(f"care.alarm.{reach}")) for m in told]
    return CareStep(messages=tuple(messages), items=(item,), audits=tuple(audits))


def still_open(member: Member, facts: Facts) -> CareStep:
    """Tell somebody who joins or comes on duty of every alarm that nobody has taken."""
    waiting = [item for item in in_order(facts.items) if item.alarming]
    again = part(f"care.alarm.{Reach.AGAIN}")
    return CareStep(
        messages=tuple(brief(item, member, facts, again) for item in waiting),
        audits=tuple(_sent(item, "came", member) for item in waiting),
    )


def _sent(item: Item, how: str, to: Member) -> Audit:
    return Audit(
        who=ITSELF,
        did=Did.ALARM_SENT,
        person=item.person,
        item=item.number,
        detail=f"{how}: {to.number}",
    )


def unreached(item: Item, member: Member, facts: Facts) -> CareStep:
    """An alarm did not reach a member: unless others of its rung have it, it goes further at once.

    Those who were told hear nothing twice for it, and no rung is lost.
    """
    item = item.untold(member.number)
    audit = Audit(
        who=ITSELF,
        did=Did.ALARM_UNREACHED,
        person=item.person,
        item=item.number,
        detail=str(member.number),
    )
    if not ladder.goes_further(item, facts.members, facts.rules, facts.at):
        return CareStep(items=(item,), audits=(audit,))
    following = climbed(item, facts, but=member.number)
    return replace(following, audits=(audit, *following.audits))


def forgotten(item: Item, facts: Facts) -> CareStep:
    """A person has had all of theirs deleted; an alarm that was open does not end in silence.

    Whoever has it or was told of it is told anew: a message that only changes is easily missed.
    """
    step = taken_back(replace(item, alarmed_at=None), facts)
    if not item.is_open or item.alarmed_at is None:
        return step
    (gone,) = step.items
    told = [m for m in facts.members if item.told_to(m.number) is not None]
    first = part("care.alarm.forgotten")
    messages = tuple(replace(brief(gone, m, facts, first), urgency=Urgency.SAFETY) for m in told)
    return replace(step, messages=messages)


def taken_back(item: Item, facts: Facts) -> CareStep:
    """A person no longer agrees that the team has their result."""
    back = take_back(item, facts.at)
    audit = Audit(who=ITSELF, did=Did.RESULT_TAKEN_BACK, person=item.person, item=item.number)
    messages: tuple[Message, ...] = ()
    if item.is_open:
        messages = to_others(back, 0, facts)
    return CareStep(messages=messages, items=(back,), audits=(audit,), withdrawn=(item,))
