"""Words into meanings, for all that is not a reading. What a reading says is read elsewhere."""

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from rapidfuzz.distance import OSA

from bot.distress import unwell
from bot.engine.vocabulary import (
    BARE_YES,
    DOWN,
    LEAVING,
    NOT_STOP,
    REASONS,
    STOP_NEGATIONS,
    STOP_PHRASES,
    SYMPTOMS,
    WHOLE,
    Word,
)
from bot.protocol.record import AgeBand, StopReason, Symptom

LONGEST: Final = 4096
"""Characters that are listened to; no channel carries more in one message."""

_APOSTROPHES: Final = re.compile(r"['’`´ʼ]")
_NOT_WORDS: Final = re.compile(r"[^\w]+|_")
_PHRASES: Final = {phrase: word for word, phrases in WHOLE.items() for phrase in phrases}
_SYMPTOM_PHRASES: Final = [
    (re.compile(rf"\b{phrase.replace(' ', '[ -]+')}\b"), symptom)
    for phrase, symptom in sorted(
        ((phrase, symptom) for symptom, phrases in SYMPTOMS.items() for phrase in phrases),
        key=lambda pair: -len(pair[0]),
    )
]
_JUST_HEARD: Final = 16
"""Messages that are remembered as heard: one step asks many things of the same words."""
_DENIAL: Final = re.compile(r"\b(not|no|without|sin|dont feel)\s+$")
_LETTER: Final = re.compile(r"[^\W\d_]")
_STRENGTH: Final = re.compile(r"(?<!\d)(10|\d)(?!\d)")
_OUT_OF_TEN: Final = re.compile(r"\s*(?:/|out of|of|over|de|sobre)\s*10\b")
_DRAWN_OUT: Final = re.compile(r"([^\W\d])\1{2,}")
_STOP_SIGN: Final = "\N{OCTAGONAL SIGN}"
_SHORT: Final = 4
_STOP_WORDS: Final = frozenset({"stop", "parar", "detener", "detenga", "basta"})
_SYMPTOM_WORDS: Final = frozenset(w for ps in SYMPTOMS.values() for p in ps for w in p.split())
_NUMBER: Final = re.compile(r"\d{1,4}")
_UNDER: Final = frozenset({"under", "below", "younger", "menos", "menor", "menores"})
_AGE_WORDS: Final = _UNDER | {
    "i", "im", "am", "age", "aged", "my", "is", "years", "year", "yrs", "old", "to", "or", "over",
    "and", "above", "older", "than", "tengo", "anos", "ano", "edad", "mi", "es", "de", "a", "o",
    "mas", "y", "mayor", "que",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SymptomHeard:
    """A symptom in a message, and its strength (0 to 10) if one was said."""

    symptom: Symptom
    strength: int | None


@lru_cache(maxsize=_JUST_HEARD)
def normalised(text: str) -> str:
    """Return the text in lower case, single-spaced, without accents, apostrophes and signs.

    Invisible characters go too, and a letter said three times or more is said once.
    """
    plain = unicodedata.normalize("NFKD", text[:LONGEST].casefold().replace(_STOP_SIGN, " stop "))
    plain = "".join(ch for ch in plain if unicodedata.category(ch) not in ("Mn", "Me", "Cf"))
    plain = _NOT_WORDS.sub(" ", _APOSTROPHES.sub("", plain)).strip()
    return _DRAWN_OUT.sub(r"\1", plain)


@lru_cache(maxsize=_JUST_HEARD)
def stop(text: str) -> bool:
    """Whether the message says to stop, without doubt."""
    plain = normalised(text)
    if _PHRASES.get(plain) is Word.STOP or _found(text, STOP_PHRASES) is not None:
        return True
    words = plain.split()
    letters = [w for w in words if not w.isdigit()]
    if _PHRASES.get(" ".join(letters)) is Word.STOP or "".join(letters) == "stop":
        return True
    return "stop" in letters and len(letters) <= _SHORT and not _stop_denied(words)


def down(text: str) -> bool:
    """Whether the message says that somebody sits or lies down."""
    return _found(text, DOWN) is not None


def leaving(text: str) -> bool:
    """Whether the message says that somebody goes, and no more."""
    return normalised(text) in LEAVING


def bare_yes(text: str) -> bool:
    """Whether the message is a yes and no more, which answers no question how somebody is."""
    return normalised(text) in BARE_YES


def tells_reason(text: str) -> bool:
    """Whether the words name a reason to stop as it is offered, and not how the person is now."""
    plain = f" {normalised(text)}"
    return any(f" {phrase}" in plain for phrases in REASONS.values() for phrase in phrases)


def perhaps_stop(text: str) -> bool:
    """Whether the message might mean stop: misspelt, or in a longer sentence."""
    plain = normalised(text)
    words = plain.split()
    if plain in _PHRASES and _PHRASES[plain] is not Word.STOP:
        return False
    if not _STOP_WORDS.isdisjoint(words):
        return not _stop_denied(words)
    if any(word.isdigit() for word in words):
        words = [word for word in words if word != "top"]  # "top 85" names a number
    return len(words) <= _SHORT and any(_like_stop(word) for word in words)


def reason_in(text: str) -> StopReason | None:
    """Return the reason to stop that the words name, if they name one."""
    plain = f" {normalised(text)}"
    for reason, phrases in REASONS.items():
        if any(f" {phrase}" in plain for phrase in phrases):
            return reason
    told = {heard.symptom for heard in symptoms(text)}
    if told & {Symptom.FAINT, Symptom.DIZZY, Symptom.BLURRED_VISION}:
        return StopReason.FELT_FAINT
    return StopReason.UNWELL if told or unwell(text) else None


def _found(text: str, phrases: tuple[str, ...]) -> int | None:
    """Return where the first of the phrases begins in the padded text."""
    padded = f" {normalised(text)}"
    found = [at for phrase in phrases if (at := padded.find(f" {phrase}")) >= 0]
    return min(found, default=None)


def _stop_denied(words: list[str]) -> bool:
    return any(
        word in _STOP_WORDS and index > 0 and words[index - 1] in STOP_NEGATIONS
        for index, word in enumerate(words)
    )


def _like_stop(word: str) -> bool:
    if word in NOT_STOP or word in _PHRASES or word in _SYMPTOM_WORDS:
        return False
    return any(
        len(word) >= len(meant) - 1 and OSA.distance(word, meant) == 1 for meant in _STOP_WORDS
    )


def word(text: str) -> Word | None:
    """Return what the whole message means, if it is one of the words listened for."""
    return Word.STOP if stop(text) else _PHRASES.get(normalised(text))


def symptoms(text: str) -> tuple[SymptomHeard, ...]:
    """Return the symptoms that a message names, in order, each at most once.

    A number from 0 to 10 after a symptom and before the next is its strength; so is a single
    one before the only symptom (`6 dizzy`).
    """
    plain = _APOSTROPHES.sub("", unicodedata.normalize("NFKD", text[:LONGEST].casefold()))
    plain = "".join(ch for ch in plain if not unicodedata.combining(ch))
    if _LETTER.search(plain) is None:
        return ()  # numbers alone name none
    found: list[tuple[int, int, Symptom]] = []
    for phrase, symptom in _SYMPTOM_PHRASES:
        for match in phrase.finditer(plain):
            start, end = match.span()
            denied = _DENIAL.search(plain[:start]) is not None
            if not denied and all(end <= s or start >= e for s, e, _ in found):
                found.append((start, end, symptom))
    found.sort()
    heard: dict[Symptom, int | None] = {}
    for index, (start, end, symptom) in enumerate(found):
        following = found[index + 1][0] if index + 1 < len(found) else len(plain)
        strength = _strength_in(plain[end:following])
        if strength is None and len(found) == 1:
            strength = _strength_in(plain[:start])
        if heard.get(symptom) is None:
            heard[symptom] = strength
    return tuple(SymptomHeard(symptom=s, strength=n) for s, n in heard.items())


def strength(text: str) -> int | None:
    """Return the strength, 0 to 10, if the message says only that (`6`, `6/10`, `6 out of 10`)."""
    plain = _OUT_OF_TEN.sub("", text[:40].casefold()).strip(" .!")
    return int(plain) if re.fullmatch(r"10|\d", plain) else None


def _strength_in(text: str) -> int | None:
    numbers = _STRENGTH.findall(_OUT_OF_TEN.sub("", text))
    return int(numbers[0]) if len(numbers) == 1 else None


def age_band(text: str) -> AgeBand | None:
    """Return the age band that the message names, by an age in years or by its bounds.

    Words that do not belong to an age make it something else, such as a symptom.
    """
    plain = normalised(unicodedata.normalize("NFKC", text[:80]))
    words = _NUMBER.sub(" ", plain).split()
    years = [int(number) for number in _NUMBER.findall(plain)]
    if not 1 <= len(years) <= 2 or not _AGE_WORDS.issuperset(words) or "/" in text:
        return None
    if _UNDER.intersection(words):
        return AgeBand.UNDER_12 if years == [12] else None
    if not all(1 <= number <= 120 for number in years):
        return None
    bands = {_band(number) for number in years}
    return bands.pop() if len(bands) == 1 else None


def _band(years: int) -> AgeBand:
    if years < 12:
        return AgeBand.UNDER_12
    return AgeBand.FROM_12_TO_19 if years < 20 else AgeBand.FROM_20
