"""What comes in by itself: a result that was sent, an alarm, an alarm that nobody takes."""

from dataclasses import replace
from datetime import datetime

from bot.care import ladder
from bot.care.items import Item, graver, take_back
from bot.care.ladder import Reach
from bot.care.member import Member
from bot.care.sayings import brief, to_others
from bot.care.step import ITSELF, Audit, CareStep, Did, Facts, Message
from bot.care.triage import Priority, Triage
from bot.engine.buttons import part
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
    raised = ladder.begin(item, triage.cause, facts.at)
    if raised.taken_by is not None:
        # Somebody has it: they are told, and the ladder waits for them as for those on duty.
        holder = tuple(m for m in facts.members if m.number == raised.taken_by)
        raised = replace(raised, taken_by=None, taken_at=None)
        following = climbed(raised, facts, also=holder)
    else:
        following = climbed(raised, facts)
    return replace(following, audits=(audit, *following.audits))


def climbed(item: Item, facts: Facts, *, also: tuple[Member, ...] = ()) -> CareStep:
    """An alarm that nobody has taken goes one rung further."""
    item, reach, told = ladder.climb(item, facts.members, facts.rules, facts.at)
    told = (*told, *(m for m in also if m not in told))
    audits = [
        Audit(
            who=ITSELF,
            did=Did.ALARM_SENT,
            person=item.person,
            item=item.number,
            detail=f"{reach}: {m.number}",
        )
        for m in told
    ]
    if reach in (Reach.AGAIN, Reach.OVER):
        audits.insert(
            0,
            Audit(who=ITSELF, did=Did.ALARM_UNANSWERED, person=item.person, item=item.number),
        )
    messages = [brief(item, m, facts, part(f"care.alarm.{reach}")) for m in told]
    return CareStep(messages=tuple(messages), items=(item,), audits=tuple(audits))


def unreached(item: Item, member: Member, facts: Facts) -> CareStep:
    """An alarm did not reach a member: it goes further at once."""
    audit = Audit(
        who=ITSELF,
        did=Did.ALARM_UNREACHED,
        person=item.person,
        item=item.number,
        detail=str(member.number),
    )
    others = replace(facts, members=tuple(m for m in facts.members if m.number != member.number))
    following = climbed(item, others)
    return replace(following, audits=(audit, *following.audits))


def taken_back(item: Item, facts: Facts) -> CareStep:
    """A person no longer agrees that the team has their result."""
    back = take_back(item, facts.at)
    audit = Audit(who=ITSELF, did=Did.RESULT_TAKEN_BACK, person=item.person, item=item.number)
    messages: tuple[Message, ...] = ()
    if item.is_open:
        messages = to_others(back, 0, facts)
    return CareStep(messages=messages, items=(back,), audits=(audit,), withdrawn=(item,))
