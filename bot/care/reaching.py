"""People whom nothing reaches, since they have blocked the bot: what their team is told, and when.

It matters where the team counts on a message: an alarm is open, a second test is awaited, or the
team itself had something to say. Elsewhere the board and the person's page say it. No room hears
of it: in a group there is no reason beside a reference.
"""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bot.care.arrivals import reference_of
from bot.care.board import PersonFacts, Place, stand
from bot.care.items import Item
from bot.care.member import Member
from bot.care.sayings import brief, button, when
from bot.care.step import ITSELF, Audit, CareStep, Did, Facts, Message
from bot.engine.buttons import part
from bot.engine.effects import Part, Term, Urgency
from bot.engine.post import tested
from bot.engine.state import Conversation

TOLD_AGAIN: Final = timedelta(days=7)
"""How long a second test that is awaited in vain is named but once, however often somebody blocks
the bot and comes back (design choice)."""

SAID: Final[dict[Did, str]] = {
    Did.CLOSED_ITEM: "followed-up",
    Did.NUDGED: "nudged",
    Did.WROTE: "wrote",
    Did.ASKED_REPEAT: "asked-repeat",
    Did.SET_PROTOCOL: "set-protocol",
    Did.SET_PLAN: "set-plan",
    Did.CLEARED_PERSON: "cleared",
    Did.CLOSED_PERSON: "closed",
}
"""What in the audit log is said to the person, by the word for it."""


UNTOLD: Final = frozenset({"care.cleared", "care.protocol.set", "care.plan.set", "care.close.done"})
"""What is said to a member with "they are told", and without it as `….untold`."""


def cannot_arrive(member: Member, facts: Facts) -> CareStep | None:
    """Return what a member is told who would write to somebody whom nothing reaches; else `None`.

    Nothing is queued. That they learn of it is a look at the person, and stands in the log.
    """
    person = facts.person
    if person is None or not facts.is_blocked(person.id):
        return None
    reference = facts.people[0].reference if facts.people else reference_of(person)
    said = part("care.blocked.cannot", reference=reference)
    looked = Audit(who=member.number, did=Did.SAW_PERSON, person=person.id, detail="blocked")
    return CareStep(messages=(Message(to=member.number, parts=(said,)),), audits=(looked,))


def unheard(audit: Audit, at: datetime) -> Audit:
    """Return the line of the log that says of another one that the person does not hear of it."""
    return _unreached(audit.who, audit, at)


def not_told(step: CareStep, facts: Facts) -> CareStep:
    """Return a step whose person does not hear of it: the member is told, and the log says so."""
    if not any(facts.is_blocked(who) for who, _ in step.letters):
        return step
    first, *others = step.messages
    assert isinstance(first, Message)
    said, *more = first.parts
    if said.key in UNTOLD:
        said = replace(said, key=f"{said.key}.untold")
    told = replace(first, parts=(said, *more, part("care.blocked.not-told")))
    lost = tuple(
        _unreached(audit.who, audit, facts.at) for audit in step.audits if audit.did in SAID
    )
    return replace(step, messages=(told, *others), audits=(*step.audits, *lost))


def lost(
    person: Conversation,
    said: Iterable[Audit],
    said_at: datetime,
    facts: Facts,
) -> CareStep:
    """What members said did not reach a person: each is told; for one who is gone, the others.

    Args:
        person: Who did not hear it.
        said: The lines of the log of that instant about the person.
        said_at: When it was said.
        facts: The team.
    """
    step = CareStep()
    for audit in said:
        if audit.did not in SAID:
            continue
        told = part(
            "care.blocked.lost",
            reference=reference_of(person),
            what=Term(f"care.said.{SAID[audit.did]}"),
            **when(said_at, facts),
        )
        to = tuple(m for m in facts.members if m.number == audit.who) or _on_call(facts)
        messages = tuple(_to_one(m, person.id, told, reference_of(person)) for m in to)
        step = step.and_then(
            CareStep(messages=messages, audits=(_unreached(ITSELF, audit, said_at),))
        )
    return step


def out_of_touch(
    person: Conversation,
    standing: PersonFacts | None,
    done: Iterable[tuple[datetime, Audit]],
    items: Iterable[Item],
    facts: Facts,
) -> CareStep:
    """Somebody has blocked the bot: tell the team where it waits for them.

    Args:
        person: Who.
        standing: Where they stand; `None` for whoever is not on the board, or of whom somebody is
            told already.
        done: What the log has of them.
        items: What is in the inbox of them.
        facts: The team.
    """
    alarms = tuple(item for item in items if item.is_open and item.alarmed_at is not None)
    if alarms:
        step = CareStep()
        for item in alarms:
            to = tuple(
                m
                for m in facts.members
                if not m.room
                and (m.number == item.taken_by or (item.alarming and item.told_to(m.number)))
            )
            step = step.and_then(
                CareStep(
                    messages=tuple(brief(item, m, facts) for m in to),
                    audits=(_touch_lost(person, "alarm"),),
                )
            )
        return step
    lately = any(audit.did is Did.LOST_TOUCH and at > facts.at - TOLD_AGAIN for at, audit in done)
    if lately or standing is None or not _awaited(person, standing):
        return CareStep()
    told = part("care.blocked.second", reference=standing.reference)
    messages = tuple(_to_one(m, person.id, told, standing.reference) for m in _on_call(facts))
    return CareStep(messages=messages, audits=(_touch_lost(person, "second-test"),))


def lost_lines(done: Iterable[tuple[datetime, Audit]]) -> frozenset[str]:
    """Return which lines of the log did not reach their person, each as `line_of` names it."""
    return frozenset(
        audit.detail for _, audit in done if audit.did is Did.NOT_REACHED and audit.detail
    )


def line_of(audit: Audit, at: datetime) -> str:
    """Return the name of a line of the log about one person: what, and when."""
    return f"{audit.did} {at.isoformat()}"


def _awaited(person: Conversation, standing: PersonFacts) -> bool:
    """Whether a second test is awaited: not of whoever asked for rest, or is at a test now."""
    place = stand(standing).place
    return place is Place.FIRST_TEST and not person.profile.paused and not tested(person)


def _on_call(facts: Facts) -> tuple[Member, ...]:
    """Return those on duty, or else everybody, in their own chats."""
    private = tuple(m for m in facts.members if not m.room)
    return tuple(m for m in private if facts.on_duty(m)) or private


def _to_one(member: Member, who: str, told: Part, reference: str) -> Message:
    opens = button("label.care.person", "who", who, reference=reference)
    return Message(
        to=member.number,
        parts=(told,),
        rows=((opens,),),
        urgency=Urgency.REMINDER,
    )


def _unreached(who: int, audit: Audit, at: datetime) -> Audit:
    return Audit(
        who=who,
        did=Did.NOT_REACHED,
        person=audit.person,
        item=audit.item,
        detail=line_of(audit, at),
    )


def _touch_lost(person: Conversation, why: str) -> Audit:
    return Audit(who=ITSELF, did=Did.LOST_TOUCH, person=person.id, detail=why)
