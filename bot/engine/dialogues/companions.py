"""The person's side of being linked: who stands by for them, what these see, and ending it."""

from typing import Final, assert_never

from bot.engine.asides import Asking, Question
from bot.engine.buttons import COMPANION, Always, Rows, part
from bot.engine.context import Opening
from bot.engine.dialogues import enrolment
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import Day, Param, Urgency
from bot.engine.letters import AlarmAnswer, Leave, Unlink, Welcome
from bot.engine.profile import Companion, Share
from bot.engine.questions import asked_by_stage
from bot.engine.turn import Turn

LIMIT: Final = 5
"""How many companions a person can have (design choice)."""

REMOVE: Final = "unlink"
"""How the token of a button begins that removes a companion."""


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
        turn.offer_link(Share(choice))
    else:
        turn.say(part("left"))
    if asked_by_stage(turn.conversation) is not None:
        orient(turn)


def join(turn: Turn, companion: str, share: Share) -> None:
    """Take in somebody who agreed; one who is linked already is so by the new agreement."""
    others = tuple(c for c in turn.conversation.profile.companions if c.id != companion)
    if len(others) >= LIMIT:
        turn.send(Unlink(to=companion))
        return
    joined = Companion(id=companion, share=share, since=turn.at)
    turn.know(companions=(*others, joined))
    turn.send(Welcome(to=companion, share=share))
    turn.say(part(f"companion.joined.{share}"))


def show(turn: Turn) -> bool:
    """List the companions, a button each to remove them. Returns False if there are none."""
    count = len(turn.conversation.profile.companions)
    if count:
        turn.say(part("companion.list", count=count), rows=(*_rows(turn), (COMPANION,)))
    return count > 0


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
            turn.say(part("companion.with-you"))
        case AlarmAnswer.NOT_REACHED:
            turn.say(part("companion.not-reached"), urgency=Urgency.SAFETY)
        case _:
            assert_never(answer)


def unreached(turn: Turn, companion: str) -> None:
    """An alarm did not reach a companion: nobody must rely on it."""
    if _linked(turn, companion):
        turn.say(part("companion.unreached"), urgency=Urgency.SAFETY)


def _linked(turn: Turn, companion: str) -> bool:
    return any(c.id == companion for c in turn.conversation.profile.companions)
