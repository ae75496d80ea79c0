"""An alarm that nobody takes goes on: to those on duty, to the next, to all, to all again."""

from dataclasses import replace
from datetime import datetime
from enum import StrEnum

from bot.care.items import Item
from bot.care.member import Member
from bot.care.rules import CareRules
from bot.care.triage import Cause, Priority


class Reach(StrEnum):
    """Whom a rung of the ladder reaches."""

    DUTY = "duty"
    NEXT = "next"
    ALL = "all"
    AGAIN = "again"  # all once more
    OVER = "over"  # nobody is written to any more; it stays at the top of the inbox


def begin(item: Item, cause: Cause, at: datetime) -> Item:
    """Raise an alarm about an item, or a new one; whoever has it is not enough any more."""
    return replace(
        item,
        priority=Priority.ALARM,
        cause=cause,
        alarmed_at=at,
        rung=0,
        wake_at=at,
    )


def climb(
    item: Item,
    members: tuple[Member, ...],
    rules: CareRules,
    at: datetime,
    *,
    but: int | None = None,
) -> tuple[Item, Reach, tuple[Member, ...]]:
    """Take the next rung that reaches anybody.

    Args:
        item: With an alarm that nobody has taken.
        members: The team as it stands, rooms included, in the order in which they joined.
        rules: What the clinic has set.
        at: Now.
        but: A member who cannot be reached.

    Returns:
        The item with when it goes on, how far it has gone, and who is told now.
    """
    rung = item.rung
    while True:
        reach, reached = _reached(rung, members, rules, at)
        told = tuple(m for m in reached if m.number != but)
        rung += 1
        if told or reach in (Reach.AGAIN, Reach.OVER):
            break
    wake_at = None if reach is Reach.OVER else at + rules.answer_within
    return replace(item, rung=rung, wake_at=wake_at), reach, told


def goes_further(item: Item, members: tuple[Member, ...], rules: CareRules, at: datetime) -> bool:
    """Whether an alarm that did not reach somebody goes on before its time.

    It does where nobody of its rung has it in their own chat and others are still to be told. Once
    all were told there is nobody further: the next rung comes in its time.
    """
    if item.rung < 1:
        return True
    reach, reached = _reached(item.rung - 1, members, rules, at)
    heard = any(item.told_to(m.number) is not None for m in reached if not m.room)
    return reach in (Reach.DUTY, Reach.NEXT) and not heard


def _reached(
    rung: int, members: tuple[Member, ...], rules: CareRules, at: datetime
) -> tuple[Reach, tuple[Member, ...]]:
    duty = tuple(m for m in members if rules.on_duty(m, at))
    others = tuple(m for m in members if m not in duty and not m.room)
    match rung:
        case 0:
            rooms = tuple(m for m in members if m.room and m not in duty)
            return Reach.DUTY, (*duty, *rooms) if duty else ()
        case 1:
            return Reach.NEXT, others[:1] if duty else ()
        case 2:
            return Reach.ALL, members
        case _ if rung < 3 + rules.reminders:
            return Reach.AGAIN, members
        case _:
            return Reach.OVER, ()
