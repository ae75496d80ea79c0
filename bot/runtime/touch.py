"""People whom nothing reaches: what their team has to know is loaded, and put down."""

from dataclasses import replace
from datetime import datetime
from typing import assert_never

from bot.care import reaching
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
