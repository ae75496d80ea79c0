"""Items in a member's hands: seen, opened, taken, given, closed."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Final

from bot.care.freeing import on_again
from bot.care.items import (
    Closing,
    FollowUp,
    Item,
    Refusal,
    close,
    hand_over,
    in_order,
    let_go,
    take,
)
from bot.care.member import Member, asks_follow_up
from bot.care.reaching import not_told
from bot.care.sayings import (
    brief,
    button,
    follow_up_rows,
    headline,
    item_rows,
    opening,
    out_of_reach,
    standing,
    to_others,
)
from bot.care.step import Audit, CareStep, Did, Facts, Message, Paper
from bot.engine.buttons import part
from bot.engine.effects import Form
from bot.engine.team import Outlook, ResultSeen

SHOWN: Final = 10
"""How many items of the inbox one message shows: a phone's screen (design choice)."""

_HOLDERS: Final[Mapping[str, Callable[[int], tuple[int | None, ...] | None]]] = {
    "open": lambda _: None,
    "take": lambda _: (None,),
    "go": lambda me: (me,),
    "give": lambda me: (me,),
    "close": lambda me: (me, None),
}
"""In whose hands an item has to be for a member to do that with it; `None` for anybody's."""

LONGEST: Final = 500
"""Characters of a follow-up in words that are kept (design choice)."""


def see_inbox(member: Member, facts: Facts) -> CareStep:
    """Show what waits, the most urgent first, each with its state and a button."""
    audit = Audit(who=member.number, did=Did.SAW_INBOX)
    waiting = in_order(facts.items)
    if not waiting:
        empty = Message(to=member.number, parts=(part("care.inbox.empty"),))
        return CareStep(messages=(empty,), audits=(audit,))
    parts = [part("care.inbox", count=len(waiting))]
    for item in waiting[:SHOWN]:
        parts += [headline(item), standing(item, member.number, facts)]
        parts += out_of_reach(item, member, facts)
    if len(waiting) > SHOWN:
        parts.append(part("care.inbox.more", count=len(waiting) - SHOWN))
    rows = tuple((opening(item, member, "label.care.item"),) for item in waiting[:SHOWN])
    message = Message(to=member.number, parts=tuple(parts), rows=rows)
    return CareStep(messages=(message,), audits=(audit,))


def ask_which(member: Member, verb: str, facts: Facts) -> CareStep:
    """Ask which item is meant, of those with which it can be done; in a group show the inbox."""
    if member.room:
        return see_inbox(member, facts)
    holders = _HOLDERS[verb](member.number)
    found = [i for i in in_order(facts.items) if holders is None or i.taken_by in holders]
    if not found:
        nothing = Message(to=member.number, parts=(part("care.which.none"),))
        return CareStep(messages=(nothing,))
    parts = [part("care.which"), *map(headline, found[:SHOWN])]
    if len(found) > SHOWN:
        parts.append(part("care.inbox.more", count=len(found) - SHOWN))
    rows = tuple(
        (button("label.care.which", verb, i.number, item=i.number, reference=i.reference),)
        for i in found[:SHOWN]
    )
    audit = Audit(who=member.number, did=Did.SAW_INBOX)
    message = Message(to=member.number, parts=tuple(parts), rows=rows)
    return CareStep(messages=(message,), audits=(audit,))


def open_item(member: Member, facts: Facts) -> CareStep:
    """Show an item, and the result if it was sent: every such look is in the log."""
    item = _item(facts)
    shown = brief(item, member, facts)
    audit = _audit(member, Did.OPENED_RESULT, item, str(item.test))
    if item.closing is Closing.TAKEN_BACK:
        return CareStep(messages=(shown,), audits=(audit,))
    if facts.record is None or not item.shared:
        nothing = replace(shown, parts=(*shown.parts, part("care.not-sent")))
        return CareStep(messages=(nothing,), audits=(audit,))
    head = Message(to=member.number, parts=(headline(item), part("care.papers")))
    papers = tuple(
        Paper(
            to=member.number,
            form=form,
            record=facts.record,
            item=item.number,
            reference=item.reference,
            at=facts.at,
        )
        for form in (Form.SUMMARY, Form.CHART, Form.PDF, Form.CSV)
    )
    return CareStep(messages=(head, *papers, shown), audits=(audit,))


def take_item(member: Member, facts: Facts) -> CareStep:
    """Let a member take an item; another one who was faster is named, with the time."""
    taken = take(_item(facts), member.number, facts.at)
    return _changed(member, taken, Did.TOOK_ITEM, facts)


def give_back(member: Member, facts: Facts) -> CareStep:
    """Let a member give an item back; an alarm begins its ladder anew."""
    before = _item(facts)
    step = _changed(member, let_go(before, member.number), Did.LET_GO_ITEM, facts)
    return on_again(step, before, member.number, facts)


def give(member: Member, to: int | None, facts: Facts) -> CareStep:
    """Let a member give an item to another one, who is told."""
    item = _item(facts)
    held = hand_over(item, member.number, member.number, facts.at)
    if isinstance(held, Refusal):
        return _changed(member, held, Did.HANDED_OVER_ITEM, facts)
    others = tuple(m for m in facts.members if not m.room and m.number != member.number)
    if to is None or not any(m.number == to for m in others):
        key = "care.hand-over.to-whom" if others else "care.hand-over.nobody"
        rows = tuple(
            (button("label.care.member", "give", item.number, m.number, member=m.label),)
            for m in others
        )
        return CareStep(messages=(Message(to=member.number, parts=(part(key),), rows=rows),))
    given = hand_over(item, member.number, to, facts.at)
    step = _changed(member, given, Did.HANDED_OVER_ITEM, facts, detail=str(to))
    if isinstance(given, Refusal):
        return step
    receiver = next(m for m in others if m.number == to)
    first = part("care.given-to-you", member=member.label)
    # The one who receives it is told in a message of its own, not by a quiet change.
    kept = tuple(m for m in step.messages if m.to != to)
    told = brief(given, receiver, facts, first)
    return replace(step, messages=(*kept, told))


def close_item(
    member: Member,
    follow_up: FollowUp | None,
    facts: Facts,
) -> CareStep:
    """Close an item with what follows; without that it is asked."""
    item = _item(facts)
    can = close(item, member.number, FollowUp.OTHER, None, facts.at)
    if isinstance(can, Refusal):
        return _changed(member, can, Did.CLOSED_ITEM, facts)
    if follow_up is FollowUp.OTHER:
        blocked = facts.is_blocked(item.person)
        key = "care.follow-up.words"
        if not facts.rules.free_text and not blocked:
            key = "care.follow-up.words.team"
        return _asks_words(member, item, key, team_only=blocked or not facts.rules.free_text)
    if follow_up is None:
        blocked = facts.is_blocked(item.person)
        asked = part("care.follow-up.ask.blocked" if blocked else "care.follow-up.ask")
        rows = follow_up_rows(item)
        return CareStep(messages=(Message(to=member.number, parts=(asked,), rows=rows),))
    return _close(member, item, follow_up, None, facts)


def close_in_words(member: Member, text: str, facts: Facts, *, team_only: bool) -> CareStep:
    """Close an item with a follow-up in the member's own words; `team_only` as they were told."""
    words, item = " ".join(text.split()), _item(facts)
    if len(words) > LONGEST:
        # Never cut off: half a sentence may say the opposite of the whole.
        return _asks_words(member, item, "care.words.too-long", team_only=team_only)
    return _close(member, item, FollowUp.OTHER, words, facts, team_only=team_only)


def _asks_words(member: Member, item: Item, key: str, *, team_only: bool) -> CareStep:
    """Ask what follows, in the member's own words."""
    asks = Message(to=member.number, parts=(part(key),))
    asked = asks_follow_up(item.number, team_only=team_only)
    return CareStep(messages=(asks,), members=(replace(member, asked=asked),))


def _close(
    member: Member,
    item: Item,
    follow_up: FollowUp,
    words: str | None,
    facts: Facts,
    *,
    team_only: bool = False,
) -> CareStep:
    closed = close(item, member.number, follow_up, words, facts.at)
    step = _changed(member, closed, Did.CLOSED_ITEM, facts, detail=str(follow_up))
    if isinstance(closed, Refusal):
        return step
    seen = ResultSeen(
        at=facts.at,
        test=closed.test,
        outlook=Outlook(follow_up.value),
        words=words if facts.rules.free_text and not team_only else None,
    )
    heard = replace(step, letters=((closed.person, seen),))
    # Nobody hears of it who has blocked the bot, nor later: the team was told to call them.
    blocked = facts.is_blocked(item.person)
    return replace(not_told(heard, facts), letters=()) if blocked else heard


def _changed(
    member: Member,
    outcome: Item | Refusal,
    did: Did,
    facts: Facts,
    detail: str | None = None,
) -> CareStep:
    """Return what a change of an item, or its refusal, is to the member and to the others."""
    if isinstance(outcome, Refusal):
        as_is = brief(_item(facts), member, facts, part(f"care.refused.{outcome}"))
        return CareStep(messages=(as_is,))
    mine = Message(
        to=member.number,
        parts=(
            headline(outcome),
            standing(outcome, member.number, facts),
            *out_of_reach(outcome, member, facts),
        ),
        rows=item_rows(outcome, member),
        item=outcome.number,
    )
    return CareStep(
        messages=(mine, *to_others(outcome, member.number, facts)),
        items=(outcome,),
        audits=(_audit(member, did, outcome, detail),),
    )


def _audit(member: Member, did: Did, item: Item, detail: str | None = None) -> Audit:
    return Audit(who=member.number, did=did, person=item.person, item=item.number, detail=detail)


def _item(facts: Facts) -> Item:
    assert facts.item is not None
    return facts.item
