"""The person's side of being linked: who stands by for them, what these see, and ending it."""

from dataclasses import replace
from datetime import datetime
from typing import Final, assert_never

from bot.engine.asides import Asking, Question
from bot.engine.buttons import COMPANION, Always, Rows, part
from bot.engine.context import Opening
from bot.engine.dialogues import enrolment
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.remeasuring import note
from bot.engine.effects import Day, Param, Urgency
from bot.engine.letters import AlarmAnswer, Leave, Unlink, Welcome
from bot.engine.post import LINK_LASTS
from bot.engine.profile import Companion, Offer, Share
from bot.engine.questions import asked_by_stage
from bot.engine.turn import Turn
from bot.protocol.record import Answer

LIMIT: Final = 5
"""How many companions a person can have (design choice)."""

REMOVE: Final = "unlink"
"""How the token of a button begins that removes a companion."""

WITHDRAW: Final = "withdraw"
"""How the token of a button begins that takes back a link which nobody has used."""


def ask(turn: Turn) -> None:
    """Ask what a companion may see; consent to the whole comes first."""
    agreed = turn.conversation.profile.consented_at is not None
    if turn.running is not None:
        orient(turn, part("after-the-test"))
    elif turn.context.opening is Opening.FULL and not agreed:
        enrolment.begin(turn)
    elif len(turn.conversation.profile.companions) >= LIMIT:
        turn.say(part("companion.full", limit=LIMIT), rows=_rows(turn))
    else:
        turn.put(Asking(question=Question.SHARE))
        orient(turn)


def take_share(turn: Turn, choice: str) -> None:
    """Take what a companion may see, and send the link for them."""
    turn.drop()
    if choice in tuple(Share):
        turn.say(part(f"link.offered.{choice}"))
        offer = Offer(number=turn.offer_link(Share(choice)), since=turn.at)
        turn.know(offers=(*_open(turn), offer))
    else:
        turn.say(part("left"))
    if asked_by_stage(turn.conversation) is not None:
        orient(turn)


def _open(turn: Turn) -> tuple[Offer, ...]:
    """Return the links that are still good."""
    offers = turn.conversation.profile.offers
    return tuple(offer for offer in offers if turn.at <= offer.since + LINK_LASTS)


def withdraw(turn: Turn, number: str) -> bool:
    """Take back a link that nobody has used. Returns False if there is no such."""
    offer = next((o for o in _open(turn) if str(o.number) == number), None)
    if offer is None:
        return False
    turn.know(offers=tuple(o for o in _open(turn) if o != offer))
    turn.withdraw_link(offer)
    turn.say(part("companion.withdrawn"))
    return True


def declined(turn: Turn, offered_at: datetime | None) -> None:
    """Somebody who opened a link does not want to: say so, once for each link."""
    offer = next((o for o in _open(turn) if o.since == offered_at), None)
    if offer is None or offer.declined:
        return
    noted = replace(offer, declined=True)
    turn.know(offers=tuple(noted if o == offer else o for o in _open(turn)))
    turn.say(part("companion.declined"))


def join(turn: Turn, companion: str, share: Share, offered_at: datetime | None) -> None:
    """Take in somebody who agreed; one who is linked already is so by the new agreement.

    Their link is used up; in logs that do not say which it was, it is the oldest.
    """
    offers = _open(turn)
    turn.know(offers=tuple(o for o in offers if o.since != offered_at))
    if offered_at is None:
        turn.know(offers=offers[1:])
    others = tuple(c for c in turn.conversation.profile.companions if c.id != companion)
    if len(others) >= LIMIT:
        turn.send(Unlink(to=companion))
        return
    joined = Companion(id=companion, share=share, since=turn.at)
    turn.know(companions=(*others, joined))
    turn.send(Welcome(to=companion, share=share))
    turn.say(part(f"companion.joined.{share}"))


def show(turn: Turn) -> bool:
    """List companions and open links, a button each to end them. Returns False without any."""
    linked, offered = len(turn.conversation.profile.companions), len(_open(turn))
    said = (
        *((part("companion.list", count=linked),) if linked else ()),
        *((part("companion.offers", count=offered),) if offered else ()),
    )
    if said:
        turn.say(*said, rows=(*_rows(turn), *_offers(turn), (COMPANION,)))
    return bool(said)


def _offers(turn: Turn) -> Rows:
    rows: list[tuple[Always, ...]] = []
    for number, offer in enumerate(_open(turn), start=1):
        day = offer.since.astimezone(turn.zone_info).date()
        values: dict[str, Param] = {"number": number, "day": Day(day)}
        rows.append((Always("label.offer", f"{WITHDRAW}:{offer.number}", values),))
    return tuple(rows)


def _rows(turn: Turn) -> Rows:
    rows: list[tuple[Always, ...]] = []
    for number, companion in enumerate(turn.conversation.profile.companions, start=1):
        day = companion.since.astimezone(turn.zone_info).date()
        values: dict[str, Param] = {"number": number, "day": Day(day)}
        label = f"label.companion.{companion.share}"
        rows.append((Always(label, f"{REMOVE}:{companion.id}", values),))
    return tuple(rows)


def remove(turn: Turn, companion: str) -> bool:
    """End a companion's link. Returns False if there is no such."""
    companions = turn.conversation.profile.companions
    others = tuple(c for c in companions if c.id != companion)
    if others == companions:
        return False
    turn.know(companions=others)
    turn.send(Unlink(to=companion))
    turn.say(part("companion.removed"))
    return True


def left(turn: Turn, companion: str) -> None:
    """A companion has gone: say so."""
    companions = turn.conversation.profile.companions
    others = tuple(c for c in companions if c.id != companion)
    if others != companions:
        turn.know(companions=others)
        turn.say(part("companion.left"))


def part_all(turn: Turn) -> None:
    """Tell everybody who is linked, on either side, that it has ended."""
    profile = turn.conversation.profile
    for companion in profile.companions:
        turn.send(Unlink(to=companion.id))
    for person in profile.accompanies:
        turn.send(Leave(to=person.id))


def answered(turn: Turn, companion: str, answer: AlarmAnswer) -> None:
    """A companion answered an alarm: the person is told."""
    if not _linked(turn, companion):
        return
    match answer:
        case AlarmAnswer.WITH_THEM:
            note(turn, Answer.COMPANION_THERE)
            turn.say(part("companion.with-you"))
        case AlarmAnswer.NOT_REACHED:
            note(turn, Answer.COMPANION_NOT_THERE)
            turn.say(part("companion.not-reached"), urgency=Urgency.SAFETY)
        case _:
            assert_never(answer)


def unreached(turn: Turn, companion: str, *, alarm: bool) -> None:
    """An alarm did not reach a companion, or none would in the test under way: say so."""
    if not _linked(turn, companion):
        return
    if alarm:
        turn.say(part("companion.unreached"), urgency=Urgency.SAFETY)
    elif turn.running is not None:
        turn.say(part("companion.out-of-reach"))


def _linked(turn: Turn, companion: str) -> bool:
    return any(c.id == companion for c in turn.conversation.profile.companions)
