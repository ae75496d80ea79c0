"""What a member does for a person: reminds them, writes, sets their test and plan, closes them."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from bot.care import admitting
from bot.care.board import Place, stand
from bot.care.member import Member, asks_words_for
from bot.care.reaching import line_of, lost_lines
from bot.care.sayings import button, when
from bot.care.step import Audit, CareStep, Did, Facts, Letter, Message, Rows
from bot.engine.buttons import part
from bot.engine.context import written
from bot.engine.dialogues.nudging import Fate, fate, is_busy, spoken_at
from bot.engine.effects import Param, Part
from bot.engine.state import Conversation
from bot.engine.team import (
    Nudge,
    Nudged,
    PersonClosed,
    PlanSet,
    ProtocolSet,
    RepeatAsked,
    TeamWrote,
)
from bot.protocol.released import latest, released

LONGEST_WORDS: Final = 500
"""Characters of a member's own words that are sent on (design choice)."""


def nudge(member: Member, what: Nudge, facts: Facts) -> CareStep:
    """Remind a person of what is missing, if the engine lets it come; the member is told which."""
    person = _person(facts)
    place = stand(facts.people[0]).place
    if place in (Place.INVITED, Place.OPENED):
        return _said(member, f"care.nudge.{place}", facts)
    if _alarm_is_open(facts):
        return _said(member, "care.nudge.alarm", facts)
    if what is Nudge.SEND and facts.people[0].took_back:
        return _said(member, "care.nudge.taken-back", facts)
    assert facts.context is not None
    becomes = fate(facts.context, person, what, facts.at)
    if becomes not in (Fate.NOW, Fate.LATER):
        return _said(member, f"care.nudge.{becomes}", facts)
    said = _said(member, f"care.nudge.{becomes}", facts, values=_when_said(person, facts))
    return _done(
        said, member, Did.NUDGED, person, Nudged(at=facts.at, nudge=what), detail=str(what)
    )


def clear(member: Member, facts: Facts) -> CareStep:
    """Clear a person for a test at home."""
    return admitting.clear(member, facts)


def set_protocol(member: Member, protocol: str | None, facts: Facts) -> CareStep:
    """Let a person's next test follow another protocol; without one it is asked which."""
    person = _person(facts)
    if protocol is None or protocol not in facts.rules.protocols:
        rows = tuple(
            (button("label.care.protocol", "who", person.id, "test", p, count=_readings(p)),)
            for p in facts.rules.protocols
        )
        return _said(member, "care.protocol.ask", facts, rows)
    if is_busy(person):
        return _said(member, "care.busy", facts)
    said = _said(member, "care.protocol.set", facts, values={"count": _readings(protocol)})
    event = ProtocolSet(at=facts.at, protocol=latest(protocol))
    return _done(said, member, Did.SET_PROTOCOL, person, event, detail=protocol)


def set_plan(member: Member, number: int | None, facts: Facts) -> CareStep:
    """Let one of the clinic's medicine plans be a person's; without one it is asked which."""
    person = _person(facts)
    context = facts.context
    plans = dict(context.medicine_plans or {}) if context is not None else {}
    if not plans:
        return _said(member, "care.plan.none", facts)
    names = tuple(plans)
    if number is None or number >= len(names):
        rows = tuple(
            (button("label.care.named", "who", person.id, "plan", n, name=name),)
            for n, name in enumerate(names)
        )
        texts = tuple(
            part("care.listed", name=name, text=written(plans[name], facts.locale) or "")
            for name in names
        )
        return _said(member, "care.plan.ask", facts, rows, more=texts)
    name = names[number]
    said = _said(member, "care.plan.set", facts, values={"name": name})
    return _done(said, member, Did.SET_PLAN, person, PlanSet(at=facts.at, plan=name), detail=name)


def ask_repeat(member: Member, facts: Facts) -> CareStep:
    """Ask a person for another test: not whom an alarm is open for, or who has to be cleared."""
    person = _person(facts)
    if not facts.people[0].measured:
        return _said(member, "care.repeat.none", facts)
    if _alarm_is_open(facts):
        return _said(member, "care.repeat.alarm", facts)
    if facts.people[0].held:
        return _said(member, "care.repeat.held", facts)
    if _asked_lately(person, facts):
        return _said(member, "care.repeat.lately", facts)
    said = _said(member, "care.repeat.asked", facts)
    return _done(said, member, Did.ASKED_REPEAT, person, RepeatAsked(at=facts.at))


def _asked_lately(person: Conversation, facts: Facts) -> bool:
    """Whether somebody of the team asked for a test not long ago, and none was done since.

    What never reached the person does not count, and neither does what came before a closing.
    """
    assert facts.context is not None
    since = facts.at - facts.context.nudge_gap
    lost = lost_lines(facts.done)
    asked = [
        at
        for at, audit in facts.done
        if audit.did is Did.ASKED_REPEAT and at > since and line_of(audit, at) not in lost
    ]
    if not asked or person.profile.done_at is not None:
        return False
    return not any(test.began_at > asked[-1] for test in person.profile.tests)


def write(member: Member, number: int | None, facts: Facts) -> CareStep:
    """Send a person one of the clinic's messages, in their language; else it is asked which."""
    person = _person(facts)
    templates = facts.rules.templates
    if number is None or number >= len(templates):
        rows: Rows = tuple(
            (button("label.care.named", "who", person.id, "write", n, name=name),)
            for n, (name, _) in enumerate(templates)
        )
        if facts.rules.free_text:
            own = button("button.care.own-words", "who", person.id, "write", "words")
            rows = (*rows, (own,))
        texts = tuple(
            part("care.listed", name=name, text=written(words, facts.locale) or "")
            for name, words in templates
        )
        key = "care.write.ask" if rows else "care.write.none"
        return _said(member, key, facts, rows, more=texts)
    name, words = templates[number]
    return _write(member, written(words, person.locale) or "", name, facts)


def ask_words(member: Member, facts: Facts) -> CareStep:
    """Ask for a member's own words to a person, where the clinic allows them."""
    if not facts.rules.free_text:
        return _said(member, "care.write.not-allowed", facts)
    asked = replace(member, asked=asks_words_for(_person(facts).id))
    return replace(_said(member, "care.write.words", facts), members=(asked,))


def write_words(member: Member, text: str, facts: Facts) -> CareStep:
    """Send a person a member's own words, where the clinic still allows them."""
    if not facts.rules.free_text:
        return _said(member, "care.write.not-allowed", facts)
    words = " ".join(text.split())
    if len(words) > LONGEST_WORDS:
        # Never cut off: half a sentence may say the opposite of the whole.
        asked = replace(member, asked=asks_words_for(_person(facts).id))
        return replace(_said(member, "care.words.too-long", facts), members=(asked,))
    return _write(member, words, "own-words", facts)


def _write(member: Member, words: str, name: str, facts: Facts) -> CareStep:
    person = _person(facts)
    said = _said(member, "care.write.sent", facts)
    return _done(said, member, Did.WROTE, person, TeamWrote(at=facts.at, words=words), detail=name)


def close(member: Member, facts: Facts, *, sure: bool) -> CareStep:
    """Close a person: no watch, no reminders, a kind word. What waits of theirs comes first."""
    person = _person(facts)
    waiting = facts.people[0].open_items
    if waiting:
        return _said(member, "care.close.waiting", facts, values={"count": len(waiting)})
    if person.profile.done_at is not None:
        return _said(member, "care.close.already", facts)
    if is_busy(person):
        return _said(member, "care.busy", facts)
    if not sure:
        rows = ((button("button.care.close-person", "who", person.id, "done", "yes"),),)
        blocked = facts.is_blocked(person.id)
        asks = "care.close.sure.untold" if blocked else "care.close.sure"
        return _said(member, asks, facts, rows)
    said = _said(member, "care.close.done", facts)
    return _done(said, member, Did.CLOSED_PERSON, person, PersonClosed(at=facts.at))


def _alarm_is_open(facts: Facts) -> bool:
    return any(item.alarmed_at is not None for item in facts.people[0].open_items)


def _readings(protocol: str) -> int:
    return sum(len(phase.slots) for phase in released(latest(protocol)).phases)


def _when_said(person: Conversation, facts: Facts) -> dict[str, Param]:
    """Return when the person hears it, on the clinic's clock."""
    assert facts.context is not None
    at = spoken_at(facts.context, person, facts.at)
    return when(facts.at if at is None else at, facts)


def _person(facts: Facts) -> Conversation:
    assert facts.person is not None
    return facts.person


def _said(
    member: Member,
    key: str,
    facts: Facts,
    rows: Rows = (),
    *,
    more: tuple[Part, ...] = (),
    values: Mapping[str, Param] = MappingProxyType({}),
) -> CareStep:
    """Return a step that tells the member what became of it, with whom it is about."""
    said = part(key, reference=facts.people[0].reference, **values)
    return CareStep(messages=(Message(to=member.number, parts=(said, *more), rows=rows),))


def _done(
    said: CareStep,
    member: Member,
    did: Did,
    person: Conversation,
    event: Letter,
    *,
    detail: str | None = None,
) -> CareStep:
    audit = Audit(who=member.number, did=did, person=person.id, detail=detail)
    return replace(said, letters=((person.id, event),), audits=(audit,))
