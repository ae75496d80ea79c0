"""How easy a text is to read: the grade of English, the ease of Spanish, and its hard sentences.

English: Flesch and Kincaid's grade, 0.39 F + 11.8 P - 15.59. Spanish: Fernández Huerta's ease,
206.84 - 60 P - 1.02 F. P is syllables a word, F words a sentence; the Spanish formula as it is
commonly corrected. Both from memory, not verified.

Numerals are left out: neither formula knows them. `read_out` puts them into words first, which is
the hardest that a text can be to read. A sentence ends at a full stop, a question or
exclamation mark, or the end of its line. Syllables are counted by rule; where a rule does not know
better it counts one too many, which makes a text look harder, and never easier.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from num2words import num2words  # type: ignore[import-untyped]

_SENTENCE_END: Final = re.compile(r"(?<=[.!?])\s+|\n+")
_WORD: Final = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")

_ENGLISH_OTHERWISE: Final[Mapping[str, int]] = MappingProxyType(
    {
        **dict.fromkeys(("area", "idea", "ideas"), 3),
        **dict.fromkeys(("being", "doing", "going", "something", "sometimes", "someone"), 2),
        **dict.fromkeys(("every", "quiet", "diet", "science", "maybe", "lion"), 2),
        **dict.fromkeys(("fluid", "fluids"), 2),
        **dict.fromkeys(("companion", "companions"), 3),
        "association": 5,
        **dict.fromkeys(("coordinator", "coordinators"), 5),
        "everyone": 3,
        "everything": 3,
    }
)
"""Words that the rules get wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a text comes to.

    Attributes:
        score: The grade of English (lower is easier), the ease of Spanish (higher is easier).
        words: How many words.
        sentences: How many sentences have a word.
        syllables: How many syllables.
    """

    score: float
    words: int
    sentences: int
    syllables: int


def english_grade(text: str) -> Measured:
    """Return the reading grade of an English text by Flesch and Kincaid.

    Raises:
        ValueError: There is no word in it.
    """
    words, sentences, syllables = _counted(text, english_syllables)
    score = 0.39 * words / sentences + 11.8 * syllables / words - 15.59
    return Measured(score=score, words=words, sentences=sentences, syllables=syllables)


def spanish_ease(text: str) -> Measured:
    """Return the reading ease of a Spanish text by Fernández Huerta.

    Raises:
        ValueError: There is no word in it.
    """
    words, sentences, syllables = _counted(text, spanish_syllables)
    score = 206.84 - 60 * syllables / words - 1.02 * words / sentences
    return Measured(score=score, words=words, sentences=sentences, syllables=syllables)


def sentences_of(text: str) -> Sequence[str]:
    """Return the sentences of a text that have a word."""
    return [part.strip() for part in _SENTENCE_END.split(text) if _WORD.search(part)]


def words_of(text: str) -> Sequence[str]:
    """Return the words of a text, without the numerals."""
    return _WORD.findall(text)


def read_out(text: str, language: str) -> str:
    """Return a text with its whole numbers in the words of a language (num2words)."""
    return re.sub(r"\d+", lambda found: str(num2words(int(found[0]), lang=language)), text)


def english_syllables(word: str) -> int:
    """Return how many syllables an English word has; each part of a hyphened one counts."""
    return sum(_english(part) for part in re.split(r"[-’']", word.lower()) if len(part) > 1) or 1


def _english(word: str) -> int:
    if word in _ENGLISH_OTHERWISE:
        return _ENGLISH_OTHERWISE[word]
    # a y before a vowel is a consonant at the start and after a vowel, else a vowel of its own
    split = re.sub(r"(^|[aeiou])y(?=[aeiou])", r"\1j", word)
    split = re.sub(r"(?<=[^aeiou])y(?=[aeiou])", "y-", split)
    # two vowels that are said apart, but for those of -tion, -cial, -sion, -gion
    split = re.sub(r"(?<![tcsg])i(?=[aou])", "i-", split)
    split = re.sub(r"(?<=u)a(?=l)|(?<=e)o(?=n)", r"-\g<0>", split)
    groups = len(re.findall(r"[aeiouy]+", split))
    if groups > 1 and re.search(r"[^aeiouy]e$", word) and not re.search(r"[^aeiou]le$", word):
        groups -= 1
    elif groups > 1 and re.search(r"[^aeiouytd]ed$|[^aeiouysxzcg]es$", word):
        silent = not re.search(r"[cs]hes$|[^aeiou]les$|[^aeiou]led$", word)
        groups -= silent
    return max(1, groups)


def spanish_syllables(word: str) -> int:
    """Return how many syllables a Spanish word has.

    A run of vowels has one for each strong vowel in it (a, e, o, or any with an accent), and one if
    it has none. A final y is a vowel; the u of que, qui, gue and gui is none.
    """
    letters = re.sub(r"(?<=[qg])u(?=[eiéí])", "", re.sub(r"y$", "i", word.lower()))
    runs = re.findall(r"[aeiouáéíóúü]+", letters)
    return max(1, sum(max(1, len(re.findall(r"[aeoáéíóú]", run))) for run in runs))


def _counted(text: str, syllables: Callable[[str], int]) -> tuple[int, int, int]:
    words, sentences = words_of(text), sentences_of(text)
    if not words:
        raise ValueError(text)
    return len(words), len(sentences), sum(map(syllables, words))
