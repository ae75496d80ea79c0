"""Words into meanings, for all that is not a reading. What a reading says is read elsewhere."""

import re
import unicodedata
from dataclasses import dataclass
from typing import Final

from rapidfuzz.distance import OSA

from bot.engine.vocabulary import EMERGENCY, NEAR_FAINT, NEGATIONS, SYMPTOMS, WHOLE, Word
from bot.protocol.record import AgeBand, Symptom

LONGEST: Final = 4096
"""Characters that are listened to; no channel carries more in one message."""

_APOSTROPHES: Final = re.compile(r"['’`´ʼ]")
_NOT_WORDS: Final = re.compile(r"[^\w]+|_")
_PHRASES: Final = {phrase: word for word, phrases in WHOLE.items() for phrase in phrases}
_SYMPTOM_PHRASES: Final = sorted(
    ((phrase, symptom) for symptom, phrases in SYMPTOMS.items() for phrase in phrases),
    key=lambda pair: -len(pair[0]),
)
_STRENGTH: Final = re.compile(r"(?<!\d)(10|\d)(?!\d)")
_OUT_OF_TEN: Final = re.compile(r"\s*(?:/|out of|of|over|de|sobre)\s*10\b")
_LEAST_FUZZY: Final = 4
_STOP_WORDS: Final = frozenset({"stop", "parar", "detener", "detenga"})
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


def normalised(text: str) -> str:
    """Return the text in lower case, without accents, apostrophes and signs, single-spaced."""
    plain = unicodedata.normalize("NFKD", text[:LONGEST].casefold())
    plain = "".join(ch for ch in plain if not unicodedata.combining(ch))
    return _NOT_WORDS.sub(" ", _APOSTROPHES.sub("", plain)).strip()


def emergency(text: str) -> bool:
    """Whether the message holds words of an emergency, in any shipped language."""
    return _holds(text, EMERGENCY)


def near_faint(text: str) -> bool:
    """Whether the message holds words of a faint that is near, in any shipped language."""
    return _holds(text, NEAR_FAINT)


def _holds(text: str, phrases: tuple[str, ...]) -> bool:
    padded = f" {normalised(text)}"
    return any(f" {phrase}" in padded for phrase in phrases)


def word(text: str) -> Word | None:
    """Return what the whole message means, if it is one of the words listened for."""
    plain = normalised(text)
    if plain in _PHRASES:
        return _PHRASES[plain]
    words = plain.split()
    if "stop" in words and len(words) <= 4 and not NEGATIONS.intersection(words):
        return Word.STOP
    return None


def perhaps_stop(text: str) -> bool:
    """Whether the message might mean stop: misspelt, or inside a longer sentence."""
    words = normalised(text).split()
    if len(words) == 1 and len(words[0]) >= _LEAST_FUZZY and words[0] not in _PHRASES:
        return words[0] != "step" and OSA.distance(words[0], "stop") == 1
    return not _STOP_WORDS.isdisjoint(words) and not NEGATIONS.intersection(words)


def symptoms(text: str) -> tuple[SymptomHeard, ...]:
    """Return the symptoms that a message names, in order, each at most once.

    A number from 0 to 10 after a symptom and before the next is its strength; so is a single
    one before the only symptom (`6 dizzy`).
    """
    plain = _APOSTROPHES.sub("", unicodedata.normalize("NFKD", text[:LONGEST].casefold()))
    plain = "".join(ch for ch in plain if not unicodedata.combining(ch))
    found: list[tuple[int, int, Symptom]] = []
    for phrase, symptom in _SYMPTOM_PHRASES:
        for match in re.finditer(rf"\b{phrase.replace(' ', '[ -]+')}\b", plain):
            start, end = match.span()
            if all(end <= s or start >= e for s, e, _ in found):
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
