"""The weekly digest: on Monday morning, to the members who want it."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from bot.booking.quiet import earliest
from bot.care.board import Place, Standing, stuck
from bot.care.member import Member
from bot.care.overview import NAMED, blocked_lines, length, standings
from bot.care.rules import CareRules
from bot.care.sayings import button
from bot.care.step import ITSELF, Audit, CareStep, Did, Facts, Message
from bot.engine.buttons import part
from bot.engine.effects import Part, Term

WEEK: Final = timedelta(days=7)

LONGEST: Final = 3
"""How many of those who wait longest are named (design choice)."""


def next_at(rules: CareRules, at: datetime) -> datetime:
    """Return the first Monday morning on the clinic's clock that is later than an instant."""
    today = at.astimezone(ZoneInfo(rules.zone)).date()
    monday = today + timedelta(days=-today.weekday() % 7)
    while (due := earliest(datetime.combine(monday, rules.digest_hour), rules.zone)) <= at:
        monday += WEEK
    return due


def armed(member: Member, rules: CareRules, at: datetime) -> Member:
    """Return a member with the time of their next digest, if they want it and have none yet."""
    if not member.wants_digest or member.removed_at is not None:
        return replace(member, digest_at=None)
    return member if member.digest_at is not None else replace(member, digest_at=next_at(rules, at))


def choose(member: Member, facts: Facts, *, on: bool) -> CareStep:
    """Let the digest come to a member, or no more."""
    changed = armed(replace(member, digest=on), facts.rules, facts.at)
    said = part("care.digest.on" if on else "care.digest.off")
    return CareStep(
        messages=(Message(to=member.number, parts=(said,)),),
        members=(changed,),
        audits=(Audit(who=member.number, did=Did.DIGEST_ON if on else Did.DIGEST_OFF),),
    )


def tell(member: Member, facts: Facts) -> CareStep:
    """Send a member the digest of the week; the next one comes a week later, at the same hour."""
    following = replace(member, digest_at=next_at(facts.rules, facts.at))
    audit = Audit(who=ITSELF, did=Did.DIGEST_SENT, detail=str(member.number))
    message = _digest(member, facts, part("care.digest.end"))
    return CareStep(messages=(message,), members=(following,), audits=(audit,))


def see(member: Member, facts: Facts) -> CareStep:
    """Show the digest as it would be now; when the next one comes stays as it is."""
    audit = Audit(who=member.number, did=Did.SAW_BOARD, detail="digest")
    ends = () if member.room else (part(f"care.digest.{'end' if member.wants_digest else 'none'}"),)
    return CareStep(messages=(_digest(member, facts, *ends),), audits=(audit,))


def _digest(member: Member, facts: Facts, *ends: Part) -> Message:
    everybody = standings(facts)
    parts = (
        part("care.digest", count=len(everybody)),
        *_fresh(everybody, facts),
        *_waiting(everybody, facts),
        *_without_second(everybody, facts),
        *blocked_lines(member, everybody),
        *ends,
    )
    return Message(to=member.number, parts=parts, rows=((button("button.care.board", "board"),),))


def _fresh(everybody: tuple[Standing, ...], facts: Facts) -> Iterator[Part]:
    """Yield what is new since a week ago."""
    since = facts.at - WEEK
    people = [one.facts for one in everybody]
    items = [item for person in people for item in person.items]
    yield part(
        "care.digest.fresh",
        invited=sum(1 for p in people if p.invited_at is not None and p.invited_at >= since),
        agreed=sum(1 for p in people if p.consented_at is not None and p.consented_at >= since),
        tests=sum(1 for p in people for t in p.measured if t.began_at >= since),
        sent=sum(1 for item in items if item.shared and item.opened_at >= since),
    )
    waiting = sum(1 for item in items if item.is_open)
    if waiting:
        yield part("care.digest.inbox", count=waiting)


def _waiting(everybody: tuple[Standing, ...], facts: Facts) -> Iterator[Part]:
    """Yield who waits longest, wherever that is; paused people asked for rest."""
    waiting = [
        one for one in everybody if one.waits_since(facts.at) is not None and not one.facts.paused
    ]
    waiting.sort(key=lambda one: (-one.waited(facts.at), one.facts.reference))
    if waiting:
        yield part("care.digest.longest")
    for one in waiting[:LONGEST]:
        yield part(
            "care.digest.waits",
            reference=one.facts.reference,
            place=Term(f"care.place.{one.place}"),
            length=length(one.waited(facts.at)),
        )


def _without_second(everybody: tuple[Standing, ...], facts: Facts) -> Iterator[Part]:
    """Yield whose second test is missing."""
    missing = stuck(everybody, Place.FIRST_TEST, facts.at)
    if not missing:
        return
    named = ", ".join(one.facts.reference for one in missing[:NAMED])
    more = len(missing) - NAMED
    yield part("care.digest.second", count=len(missing), references=named)
    if more > 0:
        yield part("care.digest.more", count=more)
