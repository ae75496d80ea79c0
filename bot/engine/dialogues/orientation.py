"""Where the person is, and what is expected of them: said on request and whenever in doubt."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta
from types import MappingProxyType
from typing import Final, assert_never

from bot.engine.asides import (
    Asking,
    ChoosingLanguage,
    ConfirmingDistress,
    ConfirmingReading,
    ConfirmingStop,
    FixingReading,
    NamingSymptom,
    PlacingReading,
    Question,
    RatingSymptom,
)
from bot.engine.buttons import LANGUAGE, NEW_TEST, RESULTS, Answer, Rows, part
from bot.engine.context import written
from bot.engine.dialogues.daybook import day_asked, repeat_asked, repeat_rows, stopped_today
from bot.engine.dialogues.offers import place_rows, plan_rows
from bot.engine.dialogues.paper_questions import MISSED_ROWS, copied, dated
from bot.engine.dialogues.questionnaire import rows_for, words_for
from bot.engine.effects import Day, Moment, Param, Part, Term, Urgency
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.profile import Share
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingPlace,
    Enrolling,
    Finished,
    Held,
    Idle,
    Planning,
    Resting,
)
from bot.engine.turn import Turn
from bot.protocol.circumstances import Hazard
from bot.protocol.definition import Position, Protocol
from bot.protocol.record import AgeBand, StopReason, Symptom, Values
from bot.protocol.released import released
from bot.readings import echo, example

IN_POSITION = "there"
FINE = "fine"
UNWELL = "unwell"
NOW = "now"
EARLIER = "earlier"
AGAIN = "again"
YES = "yes"
NO = "no"
READY = "go"

STEPS: Final[Mapping[Question, int]] = MappingProxyType(
    {
        Question.CONSENT: 1,
        Question.AGE: 2,
        Question.LOCAL_TIME: 3,
        Question.HAZARDS: 4,
        Question.MEDICINES: 5,
        Question.CUFF: 6,
        Question.RATE_SOURCE: 6,
        Question.TRIAL: 7,
    }
)
"""How far each question before the first booking is."""

_START, _LATER, _MOVE, _CANCEL = (
    Answer(f"button.{name}", choice, of_stage=True)
    for name, choice in (
        ("start-now", "start"), ("later", "later"), ("move", "move"), ("cancel", "cancel"),
    )
)  # fmt: skip
CHANGE_ROWS: Final[Rows] = ((_MOVE, _CANCEL),)
"""What can be done with a booking long before."""

BOOKING_ROWS: Final[Rows] = ((_START,), *CHANGE_ROWS)
"""What can be done with a booking when asked where things stand."""

SOON_ROWS: Final[Rows] = ((_START, _LATER), *CHANGE_ROWS)
"""What can be done when the test is near."""

YES_OR_NO: Rows = ((Answer("button.yes", YES), Answer("button.no", NO)),)


def orient(turn: Turn, *first: Part, more: Rows = (), urgency: Urgency = Urgency.REPLY) -> None:
    """Say where things stand and put the open question again, after any `first` words.

    Args:
        turn: The step.
        first: Words to say before.
        more: Buttons besides those of the question.
        urgency: What it may overtake.
    """
    parts, rows = _aside(turn) if turn.aside is not None else _stage(turn)
    if first == (part("not-understood"),) and _asks_consent(turn):
        first, parts = (), (part("consent.again"),)  # what they would agree to stands right above
    number = turn.say(*first, *parts, rows=(*rows, *more), urgency=urgency)
    match turn.stage:
        case Enrolling() | Auditing() as stage:
            turn.stay(replace(stage, number=number))
        case _:
            pass


def _asks_consent(turn: Turn) -> bool:
    stage = turn.stage
    return (
        turn.aside is None and isinstance(stage, Enrolling) and stage.question is Question.CONSENT
    )


def contact(turn: Turn) -> tuple[Part, ...]:
    """Say how the care team is reached, if the clinic has written it."""
    how = written(turn.context.contact, turn.conversation.locale)
    return () if how is None else (part("care-team.contact", contact=how),)


def _stage(turn: Turn) -> tuple[tuple[Part, ...], Rows]:
    match turn.stage:
        case Idle() if (people := turn.conversation.profile.accompanies) and _no_test(turn):
            return (part("where.companion", count=len(people)),), ((NEW_TEST,),)
        case Idle():
            return (part("where.idle"),), ((NEW_TEST,),)
        case Enrolling(question=question) if turn.conversation.resumes is not None:
            return _with_team(turn, question, words_for(question)), rows_for(question)
        case Enrolling() as stage:
            renewed = turn.conversation.profile.consented_at is not None
            parts, rows = question_of(stage, renewed=renewed)
            return _with_team(turn, stage.question, parts), rows
        case ChoosingPlace() as stage:
            return (part("question.place"),), place_rows(turn, stage)
        case Held():
            code = turn.conversation.profile.reference or turn.conversation.id[:8]
            if turn.conversation.profile.suitable:
                return (part("cleared"),), ()
            if turn.conversation.profile.hazards == (Hazard.ILL,):
                return (part("held.ill"),), ((Answer("button.well-again", AGAIN),),)
            said = (part("held", code=code), *contact(turn))
            return said, ((Answer("button.tapped-wrong", AGAIN),),)
        case Planning() as stage:
            return _planning(turn, stage)
        case Booked() as stage:
            moment = Moment(stage.booking.at, stage.booking.zone)
            key = "where.booked" if turn.at < stage.booking.at else "where.booked.past"
            return (part(key, moment=moment),), BOOKING_ROWS
        case Auditing() as stage:
            return question_of(stage)
        case AwaitingAgeBand():
            rows = tuple((Answer(f"age.{band}", band.value),) for band in AgeBand)
            return (part("opening.age"),), rows
        case AwaitingReady():
            ready = _ready(released(turn.protocol))
            band = turn.conversation.age_band
            age = () if band is None else (part("opening.age-is", age=Term(f"age.{band}")),)
            again = (part("opening.stopped-today"),) if stopped_today(turn) else ()
            return (*again, ready, *age), ((Answer("button.ready", READY),),)
        case AwaitingPosition() as stage:
            position = stage.phase.position
            return (
                (part(f"go.{position}", **_step(stage.protocol, stage.phase_index)),),
                ((Answer(f"button.there.{position}", IN_POSITION),),),
            )
        case Resting() as stage:
            left = max(stage.due_at - turn.at, timedelta(0))
            step = _step(stage.protocol, stage.phase_index)
            return (part(f"where.{stage.phase.position}", left=left, **step),), ()
        case AwaitingReading() as stage:
            return (
                reading_wanted(
                    stage.phase.position, stage.draft.values, first=stage.slot_index == 0
                ),
            ), ()
        case AwaitingStopReason():
            rows = tuple((Answer(f"reason.{reason}", reason.value),) for reason in StopReason)
            return (part("stop.reason"),), rows
        case Finished():
            return (part("where.finished"),), ((RESULTS, NEW_TEST),)
        case DatingPaper() as stage:
            return dated(turn, stage)
        case CopyingPaper(draft=draft, doubted=True):
            return (part("doubt.again", numbers=echo(draft.values)),), YES_OR_NO
        case CopyingPaper(draft=draft) as stage if not draft.values.empty:
            wanted = reading_wanted(stage.phase.position, draft.values, first=False)
            return (wanted,), MISSED_ROWS
        case CopyingPaper() as stage:
            return copied(stage)
        case _:
            assert_never(turn.stage)


def _with_team(turn: Turn, question: Question, parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Ask for consent in the words that tell of the care team, where there is one."""
    if question is not Question.CONSENT or not turn.context.team:
        return parts
    return (*parts[:-1], part("question.consent.team"))


def _no_test(turn: Turn) -> bool:
    """Whether nothing of a test of their own has begun."""
    conversation = turn.conversation
    return conversation.profile.consented_at is None and conversation.age_band is None


def question_of(
    stage: Enrolling | Auditing, *, renewed: bool = False
) -> tuple[tuple[Part, ...], Rows]:
    """Return the words and buttons of the question that is open, as it stands ticked."""
    rows = rows_for(stage.question, stage.ticked)
    match stage:
        case Auditing():
            return words_for(stage.question), rows
        case Enrolling(question=Question.TRIAL, doubted=True, draft=draft):
            return (part("trial.doubt", numbers=echo(draft.values)),), YES_OR_NO
        case Enrolling(question=Question.TRIAL, draft=draft) if not draft.values.empty:
            return (reading_wanted(Position.SEATED, draft.values, first=True),), rows
        case Enrolling(question=Question.CONSENT) if renewed:
            return words_for(stage.question), (*rows, (LANGUAGE,))
        case Enrolling(question=Question.CONSENT):
            step = STEPS[Question.CONSENT]
            return words_for(stage.question, step, max(STEPS.values())), (*rows, (LANGUAGE,))
        case Enrolling():
            return words_for(stage.question, STEPS[stage.question], max(STEPS.values())), rows


def _planning(turn: Turn, stage: Planning) -> tuple[tuple[Part, ...], Rows]:
    if stage.at is not None:
        return (part("plan.sure", moment=Moment(stage.at, turn.zone)),), YES_OR_NO
    if stage.day is None:
        return (part("plan.day"),), plan_rows(turn, stage)
    return (part("plan.time", day=Day(stage.day)),), plan_rows(turn, stage)


def _aside(turn: Turn) -> tuple[tuple[Part, ...], Rows]:
    match turn.aside:
        case ChoosingLanguage():
            rows = tuple((Answer(f"language.{code}", code),) for code in turn.context.languages)
            return (part("language.ask"),), rows
        case Asking(question=Question.DAY_KIND, test=number):
            return (day_asked(turn, number),), rows_for(Question.DAY_KIND)
        case Asking(question=Question.REPEAT):
            return (repeat_asked(turn),), repeat_rows(turn)
        case Asking(question=Question.ACCOMPANY):
            request = turn.conversation.profile.asked_by
            share = Share.ALARMS if request is None else request.share
            asked = part(f"question.accompany.{share}")
            return (asked,), (*rows_for(Question.ACCOMPANY), (LANGUAGE,))
        case Asking(question=question):
            return words_for(question), rows_for(question)
        case NamingSymptom():
            return (part("symptom.ask"),), _symptom_rows()
        case RatingSymptom(index=index):
            record = turn.held_record
            name = Term(f"symptom.{record.symptoms[index].symptom}")
            return (part("symptom.strength", symptom=name),), _strength_rows()
        case FixingReading(number=number):
            record = turn.held_record
            reading = record.readings[number - 1]
            return (
                part(
                    f"fix.ask.{reading.position}",
                    numbers=echo(reading.values),
                    example=example(Values()),
                ),
            ), ((Answer("button.leave", NO),),)
        case ConfirmingReading(draft=draft):
            return (part("doubt.again", numbers=echo(draft.values)),), YES_OR_NO
        case PlacingReading(draft=draft):
            return (part("place.ask", numbers=echo(draft.values)),), (
                (Answer("button.place-now", NOW),),
                (Answer("button.place-earlier", EARLIER),),
            )
        case ConfirmingDistress(grade=grade):
            return (part(f"help.sure.{grade}"),), (
                (Answer("button.help-yes", YES),),
                (Answer("button.help-no", NO),),
            )
        case ConfirmingStop():
            return (part("stop.sure"),), (
                (Answer("button.stop-yes", YES), Answer("button.stop-no", NO)),
            )
        case None:
            raise AssertionError("no question was put in between")
        case _:
            assert_never(turn.aside)


def reading_wanted(position: Position, known: Values, *, first: bool) -> Part:
    """Return the words that ask for a reading, or for what is still missing of it.

    Args:
        position: The position it is taken in.
        known: The numbers already given.
        first: Whether it is the first reading of its phase, which explains more.
    """
    values: dict[str, Param] = {"example": example(known)}
    if known.empty:
        return Part(f"reading.ask.{position}" if first else "reading.ask.again", values)
    key = _missing(known)
    if key == "reading.want.pressures" and known.heart_rate is not None:
        return Part(key, {**values, "heart_rate": known.heart_rate})
    return Part(key, {**values, "numbers": echo(known)})


def _missing(known: Values) -> str:
    if known.heart_rate is None:
        if known.systolic is not None and known.diastolic is not None:
            return "reading.want.heart-rate"
        return "reading.want.rest"
    if known.systolic is None and known.diastolic is None:
        return "reading.want.pressures"
    return "reading.want.rest"


def _ready(protocol: Protocol) -> Part:
    length = sum((phase.length for phase in protocol.phases), timedelta(0))
    return part(
        "opening.ready",
        count=len(protocol.slots),
        length=_rounded_up(length),
    )


def _rounded_up(length: timedelta) -> timedelta:
    """Leave room for the readings themselves: a quarter more, up to the next five minutes."""
    return timedelta(minutes=-(-int(length.total_seconds() * 1.25) // 300) * 5)


def _step(protocol: Protocol, phase_index: int) -> dict[str, Param]:
    return {"step": phase_index + 1, "steps": len(protocol.phases)}


def _symptom_rows() -> Rows:
    buttons = [Answer(f"symptom.{symptom}", symptom.value) for symptom in Symptom]
    pairs = [tuple(buttons[i : i + 2]) for i in range(0, len(buttons), 2)]
    return (*pairs, (Answer("button.leave", NO),))


def _strength_rows() -> Rows:
    numbers = [Answer(f"strength.{n}", str(n)) for n in range(11)]
    return (tuple(numbers[0:4]), tuple(numbers[4:8]), tuple(numbers[8:11]))
