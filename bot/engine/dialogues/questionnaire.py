"""Questions that are picked from, ticked, or typed to: how they are put, and how answers are read.

What an answer leads to is not here: see `enrolment`, `auditing`, `between`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, assert_never

from bot.engine.asides import Question
from bot.engine.buttons import Answer, Rows, part
from bot.engine.effects import Part
from bot.engine.hearing import normalised
from bot.engine.options import OPTIONS
from bot.engine.profile import Share
from bot.engine.vocabulary import NEGATIONS, WHOLE, Word
from bot.protocol.circumstances import (
    Cuff,
    DayKind,
    Departure,
    Hazard,
    LastDose,
    Medicine,
    RateSource,
)
from bot.protocol.record import AgeBand

DONE: Final = "done"
YES: Final = "yes"
NO: Final = "no"
ALWAYS: Final = "always"


@dataclass(frozen=True, slots=True)
class Pick:
    """One of several, a button each, so many in a row."""

    choices: tuple[str, ...]
    labels: str
    columns: int = 1


@dataclass(frozen=True, slots=True)
class Tick:
    """As many as fit, then done."""

    choices: tuple[str, ...]
    labels: str


@dataclass(frozen=True, slots=True)
class Typed:
    """Answered in words only."""


Shape = Pick | Tick | Typed

_SCORES: Final = tuple(str(n) for n in range(11))
_HOURS: Final = ("8", "10", "12", "18", "20")

SHAPES: Final[Mapping[Question, Shape]] = MappingProxyType({
    Question.CONSENT: Pick((YES, NO), "consent"),
    Question.AGE: Pick(tuple(AgeBand), "age"),
    Question.LOCAL_TIME: Typed(),
    Question.HAZARDS: Tick(tuple(Hazard), "hazard"),
    Question.MEDICINES: Tick(tuple(Medicine), "medicine"),
    Question.CUFF: Pick(tuple(Cuff), "cuff"),
    Question.RATE_SOURCE: Pick(tuple(RateSource), "rate-source"),
    Question.TRIAL: Typed(),
    Question.SAME_KIT: Pick(("same", "changed"), "same-kit"),
    Question.LAST_DOSE: Pick(tuple(LastDose), "last-dose"),
    Question.DEPARTURES: Tick(tuple(Departure), "departure"),
    Question.ILL_TODAY: Pick(("move", "go-on"), "ill-today"),
    Question.DAY_KIND: Pick(tuple(DayKind), "day-kind"),
    Question.WATCH: Pick(("daily", "word", "none"), "watch"),
    Question.WATCH_HOUR: Pick(_HOURS, "watch-hour", columns=3),
    Question.WATCH_LINE: Pick(("4", "5", "6", "7", "8"), "strength", columns=5),
    Question.DAY_SCORE: Pick(_SCORES, "strength", columns=4),
    Question.REPEAT: Pick(("now", "in-an-hour", "afternoon", "not-today"), "repeat"),
    Question.DELETE: Pick((YES, NO), "delete"),
    Question.SHARE: Pick((*Share, NO), "share"),
    Question.ACCOMPANY: Pick((YES, NO), "accompany"),
    Question.SEND: Pick((YES, ALWAYS, NO), "send"),
})  # fmt: skip

_NUMBERS_ARE_ANSWERS: Final = frozenset({
    Question.AGE, Question.WATCH_HOUR, Question.WATCH_LINE, Question.DAY_SCORE,
})  # fmt: skip

_YES_MEANS: Final[Mapping[Question, str]] = MappingProxyType({Question.WATCH: "daily"})
"""What a plain yes means to a question that is asked as one."""


def rows_for(question: Question, ticked: tuple[str, ...] = ()) -> Rows:
    """Return the buttons of a question.

    Args:
        question: Which.
        ticked: What has been ticked so far.
    """
    shape = SHAPES[question]
    match shape:
        case Pick():
            buttons = tuple(Answer(f"{shape.labels}.{c}", c) for c in shape.choices)
            return tuple(
                buttons[i : i + shape.columns] for i in range(0, len(buttons), shape.columns)
            )
        case Tick():
            last = Answer("button.done" if ticked else "button.none", DONE)
            return (
                *((Answer(f"{shape.labels}.{c}", c, ticked=c in ticked),) for c in shape.choices),
                (last,),
            )
        case Typed():
            return ()
        case _:
            assert_never(shape)


def picked(question: Question, text: str) -> str | None:
    """Return the choice that a typed answer picks, if it picks just one.

    A choice can be typed by its words or, where numbers mean nothing else, by its place. Nothing
    is deleted by a place.
    """
    shape = SHAPES[question]
    if not isinstance(shape, Pick):
        return None
    plain = normalised(text)
    named = [c for c in shape.choices if plain in _phrases(question, c)]
    if len(named) == 1:
        return named[0]
    if question in _YES_MEANS and plain in WHOLE[Word.YES]:
        return _YES_MEANS[question]
    if plain.isascii() and plain.isdigit() and question is not Question.DELETE:
        if question in _NUMBERS_ARE_ANSWERS:
            return plain if plain in shape.choices else None
        place = int(plain[:3])
        return shape.choices[place - 1] if 1 <= place <= len(shape.choices) else None
    if shape.choices == (YES, NO):
        return YES if plain in WHOLE[Word.YES] else NO if plain in WHOLE[Word.NO] else None
    return None


def is_label(question: Question, text: str) -> bool:
    """Whether the text is just what one of the question's choices is called."""
    shape, plain = SHAPES[question], normalised(text)
    if isinstance(shape, Typed):
        return False
    return any(plain in _phrases(question, choice) for choice in shape.choices)


def ticks(question: Question, text: str) -> tuple[str, ...] | None:
    """Return what a typed answer ticks; `()` for none of them, `None` when it names nothing."""
    shape = SHAPES[question]
    if not isinstance(shape, Tick):
        return None
    plain = normalised(text)
    if plain in OPTIONS[DONE] or plain in WHOLE[Word.NO]:
        return ()
    if not NEGATIONS.isdisjoint(plain.split()) and not is_label(question, text):
        return None  # "not pregnant", "no coffee": ask again rather than guess
    padded = f" {plain} "
    named = tuple(
        c for c in shape.choices if any(f" {p} " in padded for p in _phrases(question, c))
    )
    return named or None


def _phrases(question: Question, choice: str) -> tuple[str, ...]:
    shape = SHAPES[question]
    assert not isinstance(shape, Typed)
    return OPTIONS.get(f"{shape.labels}.{choice}", ())


def words_for(
    question: Question, step: int | None = None, steps: int | None = None
) -> tuple[Part, ...]:
    """Return the words of a question, with how far the person has come if that is counted."""
    asked = part(f"question.{question}")
    if step is None or steps is None:
        return (asked,)
    return (part("question.step", step=step, steps=steps), asked)
