"""The machine: every event meets every stage here, and each pair is decided.

Rule 1: whatever happens next in a conversation is decided in this module and the dialogues
that it calls, and nowhere else.
"""

from typing import Final, assert_never

from bot.booking.plan import Booking
from bot.engine.asides import ConfirmingDistress, ConfirmingStop
from bot.engine.buttons import STOP, part
from bot.engine.context import Context
from bot.engine.deadlines import (
    REASON_WAITS,
    STOP_MEANT_AFTER,
    next_deadline,
    next_slot_at,
)
from bot.engine.dialogues import (
    accompanying,
    anywhere,
    between,
    clearing,
    enrolment,
    linking,
    nudging,
    orientation,
    pacing,
    passing,
    reaching,
    recovering,
    reminding,
    silence,
    standing,
    stopping,
    team,
    waiting,
    watching,
)
from bot.engine.dialogues.listening import words_edited, words_given
from bot.engine.dialogues.readings import Typed
from bot.engine.dialogues.tapping import choice_tapped
from bot.engine.events import (
    Blocked,
    ChoiceTapped,
    Cleared,
    DeadlineReached,
    DeliveryFailed,
    Event,
    Invited,
    Opened,
    ThingSent,
    Unblocked,
    WordsEdited,
    WordsGiven,
)
from bot.engine.linked import (
    CompanionAnswered,
    CompanionUnreached,
    LinkOpened,
    Notified,
    WordsBeside,
    WordsTaken,
)
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.post import tested
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingPlace,
    Conversation,
    Enrolling,
    Finished,
    Held,
    Idle,
    Planning,
    Resting,
)
from bot.engine.team import (
    CODE,
    Nudged,
    PersonClosed,
    PlanSet,
    ProtocolSet,
    RepeatAsked,
    ResultSeen,
    TeamWrote,
)
from bot.engine.turn import Transition, Turn


def advance(context: Context, conversation: Conversation, event: Event) -> Transition:
    """Return what an event leads to.

    Args:
        context: What the clinic has set.
        conversation: Where it stands.
        event: What happened; its `at` is the only clock.
    """
    turn = Turn(context.under(conversation.pinned), conversation, event.at)
    if isinstance(event, _OF_THEIR_OWN):
        reaching.reach(turn)
    match event:
        case Opened(code=code):
            silence.hear(turn)
            _opened(turn, code)
        case Invited(reference=reference, protocol=protocol, language=language):
            silence.hear(turn)
            if turn.conversation.profile.reference is None and language in context.languages:
                turn.speak(language)  # the link on the handout may be opened again later
            turn.know(reference=reference, protocol=protocol)
            _opened(turn, None)
        case Cleared(by=by):
            clearing.clear(turn, by)
        case WordsGiven(text=text, source=source):
            silence.hear(turn)
            _words_given(turn, Typed(text, source))
        case WordsEdited(text=text, source=source):
            silence.hear(turn)
            words_edited(turn, Typed(text, source))
        case ChoiceTapped(token=token):
            silence.hear(turn)
            if pacing.lost_track(turn) and token != STOP.token:
                pacing.give_up(turn)
            elif not linking.tap(turn, token) and not team.tap(turn, token):
                choice_tapped(turn, token)
        case ThingSent(thing=thing):
            silence.hear(turn)
            orientation.orient(turn, part(f"thing.{thing}"))
        case DeadlineReached():
            _deadline_reached(turn)
        case DeliveryFailed() | Blocked() | Unblocked():
            reaching.happened(turn, event)
        case WordsBeside(text=text, source=source, edited=edited):
            silence.hear(turn)
            if not passing.pass_on(turn, event):
                hear = words_edited if edited else _words_given
                hear(turn, Typed(text, source))
        case (
            ResultSeen() | TeamWrote() | RepeatAsked()
            | Nudged() | ProtocolSet() | PlanSet() | PersonClosed()
        ):  # fmt: skip
            team.happened(turn, event)
        case _:
            linking.happened(turn, event)
    standing.settle_after_test(turn)
    if not isinstance(event, _TAKES_NOTHING_UP):
        _take_up_again(turn, conversation)
        if not isinstance(event, Cleared):
            turn.act()
    turn.pin(context.pinned if tested(turn.conversation) else None)
    return turn.transition()


_OF_THEIR_OWN: Final = (
    Opened,
    Invited,
    WordsGiven,
    WordsEdited,
    WordsBeside,
    ChoiceTapped,
    ThingSent,
    LinkOpened,
    Unblocked,
)
"""What the person has done: their chat takes messages again."""

_TAKES_NOTHING_UP: Final = (
    DeadlineReached,
    DeliveryFailed,
    Blocked,
    Unblocked,
    Notified,
    WordsTaken,
    CompanionAnswered,
    CompanionUnreached,
    ResultSeen,
    TeamWrote,
    RepeatAsked,
    Nudged,
    ProtocolSet,
    PlanSet,
    PersonClosed,
)
"""What is no word of the person's: no question is put because of it."""


def _words_given(turn: Turn, typed: Typed) -> None:
    if not linking.hear(turn, typed) and not team.hear(turn, typed.text):
        words_given(turn, typed)


def _take_up_again(turn: Turn, before: Conversation) -> None:
    """Put a question again that was put off, when what stood in its way is done with."""
    if turn.urgent:
        watching.rest(turn)
        nudging.drop(turn)
        return
    if isinstance(turn.stage, Held) and isinstance(before.stage, Held) and before.profile.suitable:
        # Cleared at night, and not told before they wrote.
        enrolment.go_on(turn)
    nothing_was_open = before.aside is None and isinstance(before.stage, Idle | Booked | Finished)
    if not nothing_was_open and not accompanying.ask_again(turn):
        between.ask_owed(turn)


def _opened(turn: Turn, code: str | None) -> None:
    if code is not None and linking.code_in(code) is not None:
        turn.say(part("link.unknown"))
        return
    if code == CODE and not _is_strangers(turn.conversation):
        turn.say(part("team.code-not-here"))
        return
    if code is not None and turn.conversation.profile.consented_at is None:
        turn.say(part("invitation.unknown"))
    match turn.stage:
        case Idle() if not accompanying.only_companion(turn.conversation):
            enrolment.begin(turn)
        case _:
            if not accompanying.ask_again(turn):
                orientation.orient(turn)


def _is_strangers(conversation: Conversation) -> bool:
    """Whether a chat is of somebody who has agreed to nothing yet, for themselves or for others."""
    profile = conversation.profile
    return profile.consented_at is None and not profile.accompanies


def _deadline_reached(turn: Turn) -> None:
    match turn.aside:
        case ConfirmingStop(asked_at=asked_at) if turn.at >= asked_at + STOP_MEANT_AFTER:
            stopping.stop(turn)
            return
        case ConfirmingDistress(asked_at=asked_at, grade=grade) if (
            turn.at >= asked_at + STOP_MEANT_AFTER
        ):
            anywhere.help_meant(turn, grade, meant=True)
            return
        case _:
            pass
    looked_after = recovering.deadline(turn.context, turn.conversation)
    if looked_after is not None and turn.at >= looked_after:
        recovering.pass_time(turn)
        return
    news_at = team.told_at(turn.context, turn.conversation)
    if news_at is not None and turn.at >= news_at:
        team.tell(turn)
        return
    if pacing.lost_track(turn):
        pacing.give_up(turn)
        return
    match turn.stage:
        case Resting() as stage:
            pacing.pass_time(turn, stage)
        case AwaitingPosition() as stage:
            silence.pass_silence(turn, stage)
        case AwaitingReading() as stage:
            following = next_slot_at(stage)
            due = following is not None and turn.at >= following
            if due and not silence.closes(turn, stage):
                pacing.pass_over(turn, stage)
            else:
                silence.pass_silence(turn, stage)
        case Booked() as stage if _reminds(turn, stage):
            reminding.pass_time(turn, stage, stage.booking)
        case Booked():
            watching.pass_time(turn)
        case Planning(moving=Booking() as booking) as stage:
            reminding.pass_time(turn, stage, booking)
        case Idle() | Finished():
            watching.pass_time(turn)
        case Planning() | Auditing() | AwaitingReady() | Enrolling() | ChoosingPlace() as stage:
            if _is_due(turn):
                waiting.pass_time(turn, stage)
        case DatingPaper() | CopyingPaper() as stage:
            if _is_due(turn):
                waiting.pass_time(turn, stage)
        case Held() if _is_due(turn):
            clearing.tell(turn)
        case AwaitingStopReason() as stage if turn.at >= stage.asked_at + REASON_WAITS:
            stopping.take_reason(turn, stage, None)
        case AwaitingAgeBand() | Held() | AwaitingStopReason():
            pass
        case _:
            assert_never(turn.stage)


def _is_due(turn: Turn) -> bool:
    due = next_deadline(turn.context, turn.conversation)
    return due is not None and turn.at >= due


def _reminds(turn: Turn, stage: Booked) -> bool:
    """Whether it is a reminder that is due, and not the daily question before the test."""
    profile = turn.conversation.profile
    reminder = reminding.deadline(turn.context, profile, stage)
    question = watching.deadline_before(turn.context, profile, stage.booking)
    asks = question is not None and turn.at >= question
    return not asks or (reminder is not None and turn.at >= reminder)
