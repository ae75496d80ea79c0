"""How items and the team look in a message: paragraphs and buttons, no prose of their own."""

from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from bot.care.commands import ITEM_LINK, TEAM
from bot.care.items import Closing, FollowUp, Item
from bot.care.member import Member
from bot.care.step import Facts, Message, Rows
from bot.care.triage import Priority
from bot.engine.buttons import part
from bot.engine.effects import Choice, ClockTime, Day, Param, Part, Term, Urgency

LINK: Final = "link:"
"""How the token of a button begins that opens a link: what follows is the code it carries."""


def button(label: str, *token: str | int, **params: Param) -> Choice:
    """Return a button of the team's."""
    return Choice(label, ":".join((TEAM, *map(str, token))), params)


def when(at: datetime, facts: Facts) -> dict[str, Param]:
    """Return the time of day in the clinic's zone, and the day."""
    there = at.astimezone(ZoneInfo(facts.rules.zone))
    return {"time": ClockTime(there.time()), "day": Day(there.date())}


def headline(item: Item) -> Part:
    """Return the one line that says which item it is, how urgent, and why. No numbers, no words."""
    return part(
        "care.item",
        item=item.number,
        reference=item.reference,
        test=item.test,
        priority=Term(f"care.priority.{item.priority.name.lower()}"),
        cause=Term(f"care.cause.{item.cause}"),
    )


def standing(item: Item, to: int, facts: Facts) -> Part:
    """Return the line that says who has an item, or what became of it."""
    if item.closing is Closing.TAKEN_BACK:
        return part("care.taken-back")
    if item.closed_at is not None:
        return part(
            "care.closed",
            member=facts.label(item.closed_by),
            follow_up=Term(f"care.follow-up.{item.follow_up}"),
            **when(item.closed_at, facts),
        )
    if item.taken_at is None:
        return part("care.free", **when(item.opened_at, facts))
    if item.taken_by == to:
        return part("care.yours", **when(item.taken_at, facts))
    return part("care.taken", member=facts.label(item.taken_by), **when(item.taken_at, facts))


def out_of_reach(item: Item, member: Member, facts: Facts) -> tuple[Part, ...]:
    """Return the line that says that an item's person has blocked the bot; none in a room."""
    told = item.is_open and not member.room and facts.is_blocked(item.person)
    return (part("care.blocked.item"),) if told else ()


def opening(item: Item, member: Member, label: str) -> Choice:
    """Return the button that opens an item; in a room it leads to the member's own chat."""
    if member.room:
        return Choice(label, f"{LINK}{ITEM_LINK}{item.number}", {"item": item.number})
    return button(label, "open", item.number, item=item.number)


def item_rows(item: Item, member: Member) -> Rows:
    """Return what a member can do with an item; in a room, only to open it in their own chat."""
    opens = opening(item, member, "button.care.open")
    if member.room:
        return ((opens,),)
    if item.closing is Closing.TAKEN_BACK:
        return ()
    if not item.is_open:
        return ((opens,),)
    if item.taken_by == member.number:
        return (
            (opens, button("button.care.close", "close", item.number)),
            (
                button("button.care.hand-over", "give", item.number),
                button("button.care.let-go", "go", item.number),
            ),
        )
    if item.taken_by is None:
        return ((opens, button("button.care.take", "take", item.number)),)
    return ((opens,),)


def brief(
    item: Item,
    member: Member,
    facts: Facts,
    *first: Part,
    changes: bool = False,
) -> Message:
    """Return the message that tells a member of an item, as it stands."""
    alarm = item.priority is Priority.ALARM and item.alarming and not changes
    return Message(
        to=member.number,
        parts=(
            *first,
            headline(item),
            standing(item, member.number, facts),
            *out_of_reach(item, member, facts),
        ),
        rows=item_rows(item, member),
        urgency=Urgency.SAFETY if alarm else Urgency.REPLY,
        item=item.number,
        changes=changes,
    )


def follow_up_rows(item: Item) -> Rows:
    """Return the choices of what follows."""
    return tuple(
        (button(f"care.follow-up.{follow_up}", "close", item.number, follow_up),)
        for follow_up in FollowUp
    )


def to_others(item: Item, but: int, facts: Facts) -> tuple[Message, ...]:
    """Return what changes in the chats of all who were told of an item, but one of them."""
    return tuple(
        brief(item, member, facts, changes=True)
        for member in facts.members
        if member.number != but and item.told_to(member.number) is not None
    )
