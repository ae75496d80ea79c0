"""People and members whom nothing reaches: what the team has to know is loaded, and put down."""

from dataclasses import replace
from datetime import datetime
from typing import assert_never

from bot.care import arrivals, freeing, reaching
from bot.care.member import Member
from bot.care.step import CareStep
from bot.engine.state import Conversation
from bot.engine.team import LoseTouch, Unheard
from bot.runtime.ledger import Ledger, TeamStep
from bot.runtime.ports import UnitOfWork


def lost(
    ledger: Ledger,
    unit: UnitOfWork,
    person: Conversation,
    effect: Unheard | LoseTouch,
    at: datetime,
) -> TeamStep:
    """Put down what it leads to on the team's side that a person has blocked the bot."""
    facts = replace(ledger.team(unit, at), person=person)
    done = tuple((line.at, line.audit) for line in unit.care.log_of(person.id))
    match effect:
        case Unheard(said_at=said_at):
            said = [audit for when, audit in done if when == said_at]
            step = reaching.lost(person, said, said_at, facts)
        case LoseTouch(told=told):
            standing = None if told else next(iter(unit.care.people(person.id)), None)
            items = unit.care.items_of(person.id)
            step = reaching.out_of_touch(person, standing, done, items, facts)
        case _:
            assert_never(effect)
    return ledger.put_down(unit, person.id, step, at)


def unheard(
    ledger: Ledger, unit: UnitOfWork, member: Member, number: int, at: datetime
) -> TeamStep:
    """Put down what it leads to that a message did not reach a member: no item waits with them."""
    step = CareStep()
    for item in unit.care.open_items():
        if item.told_to(member.number) != number:
            continue
        facts = ledger.about(unit, item, ledger.team(unit, at))
        if item.alarming:
            step = step.and_then(arrivals.unreached(item, member, facts))
        elif item.taken_by == member.number:
            step = step.and_then(freeing.out_of_hands(item, member, facts))
    return ledger.put_down(unit, member.id, step, at)
