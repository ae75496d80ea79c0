"""The board as a member sees it: how many stand where, and who waits at a place."""

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Final

from bot.care.board import MOVING, Count, Place, Standing, counts, out_of_reach, stand, stuck
from bot.care.member import Member
from bot.care.sayings import button
from bot.care.step import Audit, CareStep, Did, Facts, Message, Rows, Sheet
from bot.engine.buttons import part
from bot.engine.effects import BoardLine, Choice, HandBoard, Param, Part, Term
from bot.engine.team import Nudge

SHOWN: Final = 8
"""How many people of a place one message lists: a phone's screen (design choice)."""

NAMED: Final = 10
"""How many people one line names (design choice)."""

NUDGES: Final[Mapping[Place, Nudge]] = {
    Place.CONSENTED: Nudge.BOOK,
    Place.FIRST_TEST: Nudge.SECOND,
    Place.SECOND_TEST: Nudge.SEND,
}
"""What a nudge reminds of whoever waits there; at the other places there is none."""


def standings(facts: Facts) -> tuple[Standing, ...]:
    """Return where everybody stands."""
    return tuple(stand(person) for person in facts.people)


def length(waited: timedelta) -> str:
    """Return a length of time in days, hours or minutes: the same in every language."""
    if waited >= timedelta(days=1):
        return f"{waited.days} d"
    minutes = int(waited.total_seconds()) // 60
    return f"{minutes // 60} h" if minutes >= 60 else f"{minutes} min"


def see_board(member: Member, facts: Facts) -> CareStep:
    """Show how many stand where, on one screen; every place where somebody waits has a button."""
    everybody = standings(facts)
    found = counts(everybody, facts.at)
    message = Message(
        to=member.number,
        parts=(
            part("care.board", count=len(everybody)),
            *count_lines(found),
            *blocked_lines(member, everybody),
        ),
        rows=(*_place_rows(found), (button("button.care.picture", "board", "picture"),)),
    )
    return CareStep(messages=(message,), audits=(Audit(who=member.number, did=Did.SAW_BOARD),))


def blocked_lines(member: Member, everybody: Iterable[Standing]) -> tuple[Part, ...]:
    """Return the lines that name who has blocked the bot, whom only a call reaches; none in a room.

    A group hears no reason.
    """
    blocked = sorted(one.facts.reference for one in out_of_reach(everybody))
    if member.room or not blocked:
        return ()
    named, more = ", ".join(blocked[:NAMED]), len(blocked) - NAMED
    line = part("care.blocked.people", count=len(blocked), references=named)
    return (line, part("care.digest.more", count=more)) if more > 0 else (line,)


def picture_board(member: Member, facts: Facts) -> CareStep:
    """Show the same as a picture, to look at together."""
    lines = tuple(
        BoardLine(place=place, here=count.here, reached=count.reached, longest=count.longest)
        for place, count in counts(standings(facts), facts.at).items()
    )
    sheet = Sheet(
        to=member.number,
        effect=HandBoard(number=0, lines=lines, at=facts.at, zone=facts.rules.zone),
    )
    return CareStep(messages=(sheet,), audits=(Audit(who=member.number, did=Did.SAW_BOARD),))


def count_lines(found: Mapping[Place, Count]) -> tuple[Part, ...]:
    """Return one line for every place: how many are there, have come so far, and wait longest."""
    lines = []
    for place, count in found.items():
        values: dict[str, Param] = {
            "place": Term(f"care.place.{place}"),
            "here": count.here,
            "reached": count.reached,
        }
        if count.longest is None:
            lines.append(part("care.board.line", **values))
        else:
            lines.append(part("care.board.waits", **values, length=length(count.longest)))
    return tuple(lines)


def _place_rows(found: Mapping[Place, Count]) -> Rows:
    """Return a button for every place at which somebody waits, two in a row."""
    waiting = [place for place in MOVING if found[place].longest is not None]
    choices = [button(f"care.place.{place}", "stuck", place) for place in waiting]
    return tuple(tuple(choices[i : i + 2]) for i in range(0, len(choices), 2))


def see_stuck(member: Member, place: Place, page: int, facts: Facts) -> CareStep:
    """List who waits at a place and for how long; in a group without buttons."""
    waiting = stuck(standings(facts), place, facts.at)
    shown = waiting[page * SHOWN : (page + 1) * SHOWN]
    named = Term(f"care.place.{place}")
    parts = [part("care.stuck", count=len(waiting), place=named), part(f"care.stuck.{place}")]
    if not waiting:
        parts = [part("care.stuck.nobody", place=named)]
    parts += [_line(one, facts.at, plain=member.room) for one in shown]
    left = len(waiting) - (page + 1) * SHOWN
    rows = () if member.room else _person_rows(shown, place)
    if left > 0:
        rows = (*rows, (button("button.care.more", "stuck", place, page + 1),))
    message = Message(to=member.number, parts=tuple(parts), rows=rows)
    audit = Audit(who=member.number, did=Did.SAW_BOARD, detail=str(place))
    return CareStep(messages=(message,), audits=(audit,))


def _line(one: Standing, at: datetime, *, plain: bool) -> Part:
    """Return a reference and how long they wait, with what explains it unless it is `plain`.

    What explains it is private: whoever has to be cleared has an illness on the checklist.
    """
    return part(
        f"care.stuck.line.{'person' if plain else reason_of(one)}",
        reference=one.facts.reference,
        length=length(one.waited(at)),
    )


def reason_of(one: Standing) -> str:
    """Return what explains that somebody waits; that nothing reaches them comes first."""
    reasons = (
        ("blocked", one.facts.blocked_at is not None),
        ("paused", one.facts.paused),
        ("held", one.facts.held),
    )
    return next((why for why, holds in reasons if holds), "person")


def _person_rows(shown: Iterable[Standing], place: Place) -> Rows:
    """Return the buttons of each person: their page, and a nudge where one is of use."""
    nudge = NUDGES.get(place)
    rows: list[tuple[Choice, ...]] = []
    for one in shown:
        facts = one.facts
        if facts.id is None:
            continue
        opens = button("label.care.person", "who", facts.id, reference=facts.reference)
        needless = nudge is Nudge.SEND and facts.took_back
        if nudge is None or needless or reason_of(one) != "person":
            rows.append((opens,))
            continue
        nudges = button(
            "label.care.nudge", "who", facts.id, "nudge", nudge, reference=facts.reference
        )
        rows.append((opens, nudges))
    return tuple(rows)
