"""What a companion's words are about: whether they belong in the other person's test."""

from enum import StrEnum
from typing import Final

from bot import distress
from bot.distress import Doubt, Grade, Heard, Kind
from bot.engine import hearing
from bot.engine.vocabulary import Word
from bot.readings import read
from bot.readings.outcome import Problem, Unreadable


class Concern(StrEnum):
    """What the words of a companion are about, while a test is under way."""

    GRAVE = "grave"  # cannot wait: passed on, whatever was agreed
    COURSE = "course"  # numbers, symptoms, a position: for those who may type them
    OWN = "own"  # anything else: it stays in their own chat


_OF_THE_TEST: Final = frozenset({
    Word.READY, Word.SUPINE, Word.SEATED, Word.STANDING, Word.YES, Word.NO,
})  # fmt: skip
"""Words that go on with a test. That all is well is not among them: the person says so."""


_UNWELL: Final = (
    # English
    "does not feel well", "doesnt feel well", "does not feel good", "doesnt feel good",
    "does not look well", "doesnt look well", "does not look good", "doesnt look good",
    "looks bad", "looks awful", "looks ill", "looks sick", "is sick", "is ill",
    # Spanish
    "se siente mal", "se encuentra mal", "se ve mal", "esta mal", "no se siente bien",
    "no se encuentra bien", "no se ve bien",
)  # fmt: skip
"""Words by which somebody says of another that they are not well; found anywhere."""


def concern_of(text: str) -> Concern:
    """Return what a companion's words are about."""
    heard = hearing.word(text)
    if heard is Word.STOP or heard is Word.WORSE or _calls(text):
        return Concern.GRAVE
    if heard in _OF_THE_TEST:
        return Concern.COURSE
    if heard is not None and heard is not Word.SYMPTOM:
        return Concern.OWN
    if hearing.perhaps_stop(text) or unwell_beside(text):
        return Concern.GRAVE
    return Concern.COURSE if _holds_number(text) or hearing.symptoms(text) else Concern.OWN


def _holds_number(text: str) -> bool:
    outcome = read(text)
    return not isinstance(outcome, Unreadable) or outcome.problem is not Problem.NO_NUMBERS


def unwell_beside(text: str) -> bool:
    """Whether a companion says that somebody is not well, themselves or the other."""
    plain = f" {hearing.normalised(text)} "
    return distress.unwell(text) or any(f" {phrase} " in plain for phrase in _UNWELL)


def _calls(text: str) -> bool:
    return any(heard.doubt is not Doubt.NUMBER for heard in distress.hear_all(text))


def grade_beside(text: str) -> Grade | None:
    """Return how bad it is that a companion surely says of the person they stand by for."""
    sure = [heard.grade for heard in distress.hear_all(text) if _sure(heard)]
    return Grade.EMERGENCY if Grade.EMERGENCY in sure else next(iter(sure), None)


def _sure(heard: Heard) -> bool:
    of_them = heard.doubt is None or heard.doubt is Doubt.ABOUT_OTHER
    return of_them and heard.kind is not Kind.VERY_DIZZY
