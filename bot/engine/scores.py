"""A number from 0 to 10, and an hour of the day, as people type them."""

import re
from datetime import time
from typing import Final

from bot.booking.outcome import Unclear
from bot.booking.phrases import read_times
from bot.engine.hearing import normalised

_OUT_OF_TEN: Final = re.compile(
    r"(?<=\d)\s*(?:/|out of|of|over|de|sobre)\s*(?:10|ten|diez)\b", re.IGNORECASE
)
_OUT_OF_TEN_WORDS: Final = re.compile(r"\b(?:out of|of|over|de|sobre) (?:10|ten|diez)\b")
_WORDS: Final = {
    word: value
    for words in (
        "zero one two three four five six seven eight nine ten",
        "cero uno dos tres cuatro cinco seis siete ocho nueve diez",
    )
    for value, word in enumerate(words.split())
}
_AROUND: Final = frozenset({
    "a", "an", "about", "around", "roughly", "like", "maybe", "perhaps", "say", "its", "it", "is",
    "im", "i", "am", "at", "today", "id", "more", "or", "less", "only", "just",
    "un", "una", "unos", "como", "quizas", "quiza", "tal", "vez", "es", "hoy", "estoy", "en", "mas",
    "o", "menos", "diria", "yo", "solo", "cerca", "de", "el", "la",
})  # fmt: skip
_IN_THE_MORNING: Final = 6


def score(text: str) -> int | None:
    """Return the number from 0 to 10 that a message says and nothing else (`about 7`, `7/10`)."""
    plain = _OUT_OF_TEN_WORDS.sub(" ", normalised(_OUT_OF_TEN.sub(" ", text[:80])))
    said = [word for word in plain.split() if word not in _AROUND]
    if len(said) != 1 or re.search(r"\d[.,]\d|-\d", text):
        return None
    word = said[0]
    value = int(word) if re.fullmatch(r"\d{1,2}", word, re.ASCII) else _WORDS.get(word)
    return value if value is not None and value <= 10 else None


def hour(text: str) -> time | None:
    """Return the time of day that a message says.

    Without a half of the day it is the first one from 6:00 on.
    """
    said = read_times(text[:40])
    if isinstance(said, Unclear):
        return None
    by_day = [moment for moment in said if moment.hour >= _IN_THE_MORNING]
    return min(by_day or said)
