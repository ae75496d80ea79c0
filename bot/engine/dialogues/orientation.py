"""Where the person is, and what is expected of them: said on request and whenever in doubt."""

from datetime import timedelta
from typing import assert_never

from bot.engine.effects import Param, Part, Term, Urgency
from bot.engine.state import (
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    ChoosingLanguage,
    ConfirmingReading,
    ConfirmingStop,
    Finished,
    FixingReading,
    Idle,
    NamingSymptom,
    RatingSymptom,
    Resting,
)
from bot.engine.turn import NEW_TEST, RESULTS, Answer, Rows, Turn, part
from bot.protocol.definition import Position, Protocol
from bot.protocol.record import AgeBand, StopReason, Symptom, Values
from bot.protocol.released import released
from bot.readings import echo, example

IN_POSITION = "there"
FINE = "fine"
YES = "yes"
NO = "no"
READY = "go"

YES_OR_NO: Rows = ((Answer("button.yes", YES), Answer("button.no", NO)),)


def orient(turn: Turn, *first: Part, urgency: Urgency = Urgency.REPLY) -> None:
    """Say where things stand and put the open question again, after any `first` words."""
    parts, rows = _aside(turn) if turn.aside is not None else _stage(turn)
    turn.say(*first, *parts, rows=rows, urgency=urgency)


def _stage(turn: Turn) -> tuple[tuple[Part, ...], Rows]:
    match turn.stage:
        case Idle():
            return (part("where.idle"),), ((NEW_TEST,),)
        case AwaitingAgeBand():
            rows = tuple((Answer(f"age.{band}", band.value),) for band in AgeBand)
            return (part("opening.age"),), rows
        case AwaitingReady():
            return (_ready(released(turn.context.protocol)),), ((Answer("button.ready", READY),),)
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
        case _:
            assert_never(turn.stage)


def _aside(turn: Turn) -> tuple[tuple[Part, ...], Rows]:
    match turn.aside:
        case ChoosingLanguage():
            rows = tuple((Answer(f"language.{code}", code),) for code in turn.context.languages)
            return (part("language.ask"),), rows
        case NamingSymptom():
            return (part("symptom.ask"),), _symptom_rows()
        case RatingSymptom(index=index):
            record = turn.held_record
            name = Term(f"symptom.{record.symptoms[index].symptom}")
            return (part("symptom.strength", symptom=name),), _strength_rows()
        case FixingReading(number=number):
            record = turn.held_record
            reading = record.readings[number - 1]
            return (part(f"fix.ask.{reading.position}", numbers=echo(reading.values)),), (
                (Answer("button.leave", NO),),
            )
        case ConfirmingReading(draft=draft):
            return (part("doubt.again", numbers=echo(draft.values)),), YES_OR_NO
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
    return Part(_missing(known), {**values, "numbers": echo(known)})


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
