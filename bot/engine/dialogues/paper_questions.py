"""The questions about a test on paper: their words and buttons, and what answers are called."""

from datetime import timedelta
from typing import Final, assert_never

from bot.engine.asides import Question
from bot.engine.buttons import Answer, Rows, part
from bot.engine.dialogues.crossing import Crossing
from bot.engine.dialogues.questionnaire import rows_for
from bot.engine.effects import Day, Moment, Part
from bot.engine.hearing import normalised
from bot.engine.options import OPTIONS
from bot.engine.paper import CopyingPaper, DatingPaper, PaperQuestion
from bot.engine.turn import Turn
from bot.protocol.definition import Position
from bot.protocol.record import Values
from bot.readings import example

MISSED: Final = "missed"
NOTHING: Final = "nothing"
TO_THE_END: Final = "to-the-end"

_DAYS: Final = 4
"""How many days are offered, today first."""

_NONE: Final = frozenset({"nothing", "none", "nada", "ninguno", "ninguna"})

MISSED_ROWS: Final[Rows] = ((Answer("paper.missed", MISSED),),)
"""What can be answered instead of numbers."""


def dated(turn: Turn, stage: DatingPaper) -> tuple[tuple[Part, ...], Rows]:
    """Return the words and buttons of the question when it began."""
    if stage.at is not None:
        sure = ((Answer("button.yes", "yes"), Answer("button.no", "no")),)
        return (part("plan.sure", moment=Moment(stage.at, turn.zone)),), sure
    if stage.day is not None:
        return (part("paper.hour", day=Day(stage.day)),), ()
    days = [turn.today - timedelta(days=ago) for ago in range(_DAYS)]
    rows = tuple((Answer("label.day", day.isoformat(), {"day": Day(day)}),) for day in days)
    return (part("paper.when"),), rows


def copied(stage: CopyingPaper) -> tuple[tuple[Part, ...], Rows]:
    """Return the words and buttons of the question that is open, before it has any answer."""
    match stage.question:
        case PaperQuestion.DAY_KIND:
            return (part("paper.day-kind"),), rows_for(Question.DAY_KIND)
        case PaperQuestion.READING:
            return _reading(stage), MISSED_ROWS
        case PaperQuestion.SYMPTOMS:
            return (part("paper.symptoms"),), ((Answer("paper.nothing", NOTHING),),)
        case PaperQuestion.ENDED:
            rows = tuple((Answer(f"paper.{choice}", choice),) for choice in endings(stage))
            return (part("paper.ended"),), rows
        case _:
            assert_never(stage.question)


def _reading(stage: CopyingPaper) -> tuple[Part, ...]:
    asked = part(
        f"paper.reading.{stage.phase.position}",
        step=stage.slot_index + 1,
        steps=len(stage.protocol.slots),
        time=stage.slot.due,
        example=example(Values()),
    )
    return (asked, part("paper.reading.hint")) if stage.slot_index == 0 else (asked,)


def endings(stage: CopyingPaper) -> tuple[str, ...]:
    """Return how the test can have ended: by the plan, or from the last reading's position on."""
    positions = [phase.position for phase in stage.protocol.phases]
    reached = [positions.index(reading.position) for reading in stage.record.readings]
    return (TO_THE_END, *positions[max(reached, default=0) :])


def named(stage: CopyingPaper, text: str) -> str | None:
    """Return the answer that the words name, for questions with answers of their own."""
    plain = normalised(text)
    match stage.question:
        case PaperQuestion.READING:
            return MISSED if plain in OPTIONS["paper.missed"] else None
        case PaperQuestion.SYMPTOMS:
            done = plain in OPTIONS["done"] or not _NONE.isdisjoint(plain.split())
            return NOTHING if done else None
        case PaperQuestion.ENDED:
            found = [c for c in endings(stage) if plain in OPTIONS[f"paper.{c}"]]
            return found[0] if found else None
        case PaperQuestion.DAY_KIND:
            return None
        case _:
            assert_never(stage.question)


def position_named(choice: str) -> Position | None:
    """Return where the test was stopped; `None` when it was done to its end."""
    return None if choice == TO_THE_END else Position(choice)


def care(crossing: Crossing | None) -> tuple[Part, ...]:
    """Return what to do about past numbers beyond a stop line: it is past, so nothing stops."""
    match crossing:
        case None:
            return ()
        case Crossing.HIGH:
            return (part("paper.care.high"),)
        case Crossing.LOW | Crossing.SUPINE_LOW | Crossing.SEATED_LOW:
            return (part("paper.care.low"),)
        case Crossing.SUPINE_SLOW | Crossing.SUPINE_FAST | Crossing.STANDING_FAST | Crossing.RACING:
            return (part("paper.care.rate"),)
        case Crossing.FALL | Crossing.SLOWING:
            return (part("paper.care.fall"),)
        case _:
            assert_never(crossing)
