"""What the care team sets for a person: the protocol, the medicine plan, that they are done."""

from bot.engine.buttons import part
from bot.engine.dialogues import nudging
from bot.engine.dialogues.medicines import plan_for
from bot.engine.dialogues.standing import booking_of, take_out
from bot.engine.effects import Part
from bot.engine.profile import News
from bot.engine.state import Finished, Held, Idle
from bot.engine.team import PlanSet, ProtocolSet, Topic
from bot.engine.turn import Turn
from bot.protocol.released import RELEASED, released


def set_protocol(turn: Turn, event: ProtocolSet) -> News | None:
    """Let the next test follow another protocol; one that is done or prepared stays as it is."""
    profile = turn.conversation.profile
    known = event.protocol in RELEASED
    if nudging.is_busy(turn.conversation) or profile.consented_at is None or not known:
        return None
    turn.know(protocol=event.protocol, protocol_by_team=True)
    return News(at=turn.at, topic=Topic.PROTOCOL)


def set_plan(turn: Turn, event: PlanSet) -> News | None:
    """Let one of the clinic's medicine plans be the person's, if the clinic has it."""
    plans = turn.context.medicine_plans or {}
    if event.plan not in plans or turn.conversation.profile.consented_at is None:
        return None
    turn.know(plan=event.plan)
    return News(at=turn.at, topic=Topic.PLAN)


def close(turn: Turn) -> News | None:
    """The care team is done with the person: no watch, no reminders. What is kept stays."""
    conversation = turn.conversation
    profile = conversation.profile
    agreed = profile.consented_at is not None
    if nudging.is_busy(conversation) or not agreed or profile.done_at is not None:
        return None
    booking = booking_of(conversation.stage) or booking_of(conversation.resumes)
    turn.clear_resume()
    if not isinstance(turn.stage, Idle | Finished | Held):
        turn.move(Idle())
    turn.drop()
    turn.know(
        done_at=turn.at,
        watch=None,
        watch_asked=False,
        second_missing_since=None,
        repeat_offered_at=None,
    )
    nudging.drop(turn)
    return News(at=turn.at, topic=Topic.DONE, booking=booking)


def told(turn: Turn, news: News) -> tuple[Part, ...]:
    """Return what is said of it."""
    profile = turn.conversation.profile
    match news.topic:
        case Topic.PROTOCOL:
            protocol = released(turn.protocol)
            count = sum(len(phase.slots) for phase in protocol.phases)
            return (part("team.protocol", count=count),)
        case Topic.PLAN:
            plan = plan_for(turn.context, profile, turn.conversation.locale)
            return () if plan is None else (part("team.plan", plan=plan), part("team.plan.care"))
        case Topic.DONE:
            return (part("team.done"),)
        case None:
            return ()


def after(turn: Turn, news: News) -> None:
    """Take a booking that was called off out of the person's calendar."""
    if news.booking is not None:
        take_out(turn, news.booking)
