"""Items that are nobody's again: their member goes, gives them back, or cannot be reached."""

from dataclasses import replace

from bot.care import ladder
from bot.care.arrivals import climbed
from bot.care.items import Item, Refusal, let_go
from bot.care.member import Member
from bot.care.sayings import brief, to_others
from bot.care.step import ITSELF, Audit, CareStep, Did, Facts
from bot.engine.buttons import part


def released(member: Member, items: tuple[Item, ...], facts: Facts) -> CareStep:
    """Free what somebody had who goes; an alarm among it begins its ladder anew."""
    whole = CareStep()
    for item in items:
        freed = let_go(item, member.number)
        if isinstance(freed, Refusal):
            continue
        step = CareStep(
            items=(freed,),
            messages=to_others(freed, member.number, facts),
            audits=(
                Audit(who=member.number, did=Did.LET_GO_ITEM, person=item.person, item=item.number),
            ),
        )
        whole = whole.and_then(on_again(step, item, member.number, facts))
    return whole


def out_of_hands(item: Item, member: Member, facts: Facts) -> CareStep:
    """What was said of an item did not reach the member who has it: it is nobody's again.

    An alarm begins its ladder anew; of anything else the others are told.
    """
    freed = let_go(item.untold(member.number), member.number)
    assert not isinstance(freed, Refusal)
    others = replace(facts, members=tuple(m for m in facts.members if m.number != member.number))
    lost = part("care.out-of-hands", member=member.label)
    step = CareStep(
        items=(freed,),
        messages=tuple(brief(freed, m, others, lost) for m in others.members),
        audits=(
            Audit(
                who=ITSELF,
                did=Did.LET_GO_ITEM,
                person=item.person,
                item=item.number,
                detail=f"unreached: {member.number}",
            ),
        ),
    )
    return on_again(step, item, member.number, facts)


def on_again(step: CareStep, before: Item, by: int, facts: Facts) -> CareStep:
    """An alarm that was given back is nobody's: it goes to those on duty again, at once."""
    freed = next((i for i in step.items if i.number == before.number), None)
    if freed is None or freed.alarmed_at is None or not freed.alarming:
        return step
    others = replace(facts, members=tuple(m for m in facts.members if m.number != by))
    again = climbed(ladder.begin(freed, freed.cause, facts.at), others)
    told = {m.to for m in again.messages}
    kept = tuple(m for m in step.messages if m.to not in told)
    return replace(
        step,
        messages=(*kept, *again.messages),
        items=again.items,
        audits=(*step.audits, *again.audits),
    )
