"""Which known words a word may be: as it stands, drawn out, spelt as it sounds, or misspelt."""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import combinations, product
from typing import Final

from rapidfuzz.distance import OSA

from bot.distress.language import Language
from bot.distress.languages import LANGUAGES

_SHORTEST_MISSPELT: Final = 5
_SHORTEST_TWICE_MISSPELT: Final = 8
"""Letters of a word that may hold one slip, or two (design choice: below these, everyday words
stand too close together)."""
_LONGEST: Final = 24
_BEGINNING: Final = 7
"""Letters by which words are looked up; two words that are a slip apart begin a slip apart."""
_MOST_RUNS: Final = 4
_RUN: Final = re.compile(r"(.)\1\1")


def slots_of(language: Language, phrase: str) -> tuple[tuple[frozenset[str], bool], ...]:
    """Return the slots of a phrase: the words that fill it, and whether much may stand before."""
    slots: list[tuple[frozenset[str], bool]] = []
    wide = False
    for part in phrase.split():
        if part == "~":
            wide = True
            continue
        words: set[str] = set()
        for option in part.split("|"):
            words |= group(language, option[1:-1]) if option.startswith("<") else {option}
        slots.append((frozenset(words), wide))
        wide = False
    return tuple(slots)


def group(language: Language, name: str) -> set[str]:
    """Return the words of a group: those of all languages, so that they may be mixed."""
    words = set(language.groups[name].split())
    return words.union(*(other.groups.get(name, "").split() for other in LANGUAGES))


def phrases_in(lines: str) -> Iterator[str]:
    """Yield the phrases of a block, one a line; a line that begins with "|" goes on."""
    joined = re.sub(r"\n\s*([|~])", r" \1", lines).replace(" |", "|")
    yield from (line.strip() for line in joined.splitlines() if line.strip())


def _blocks(language: Language) -> Iterator[str]:
    for phrases in (language.phrases, language.unclear, language.whole):
        yield from phrases.values()
    yield from (language.harmless, language.hazy, language.unwell, language.pasts)


def _context(language: Language) -> Iterator[Iterable[str]]:
    yield language.small
    yield language.bridges
    yield language.negations
    yield language.lists
    yield language.subjects
    yield language.ends
    yield language.presents
    yield language.ages
    yield language.habits
    yield language.others
    yield language.others_before
    yield language.others_now
    yield language.firsts
    yield language.conditions
    yield language.openers
    yield language.pleas_asked
    yield from language.questions
    for twin, joined in language.twins.items():
        yield (*twin, joined)


def _words(language: Language) -> set[str]:
    words = {word for listed in _context(language) for word in listed}
    for block in _blocks(language):
        for phrase in phrases_in(block):
            for options, _ in slots_of(language, phrase):
                words |= options
    return words


def sounding(language: Language, word: str) -> str:
    """Return how the word sounds, so that words that sound alike are the same."""
    for spelt, sound in language.sounds:
        word = word.replace(spelt, sound)
    return word


def _shorter(word: str) -> Iterator[str]:
    for index in range(len(word)):
        yield word[:index] + word[index + 1 :]


def _index(words: Iterable[str], slips: int) -> dict[str, set[str]]:
    """Return what is left of each beginning when letters are left out, and the words it is of."""
    found: dict[str, set[str]] = {}
    for word in words:
        left = {word[:_BEGINNING]}
        for _ in range(slips):
            left |= {shorter for longer in left for shorter in _shorter(longer)}
        for rest in left:
            found.setdefault(rest, set()).add(word)
    return found


def _swapped(words: Iterable[str]) -> dict[str, set[str]]:
    """Return each word with two letters swapped, and the words that it may be."""
    found: dict[str, set[str]] = {}
    for word in words:
        for at in range(len(word) - 1):
            twisted = word[:at] + word[at + 1] + word[at] + word[at + 2 :]
            found.setdefault(twisted, set()).add(word)
    return found


def _alike(language: Language, words: Iterable[str]) -> dict[str, set[str]]:
    """Return the words of a language by how they sound."""
    found: dict[str, set[str]] = {}
    for word in words:
        if len(word) >= _SHORTEST_MISSPELT - 1:
            found.setdefault(sounding(language, word), set()).add(word)
    return found


_WORDS: Final = tuple(_words(language) for language in LANGUAGES)
LEXICON: Final = frozenset[str]().union(*_WORDS)
"""Every word that means something here."""
KNOWN: Final = LEXICON.union(*(language.ordinary for language in LANGUAGES))
"""Those and everyday words that are taken as they stand."""
SMALL: Final = frozenset[str]().union(*(language.small for language in LANGUAGES))
"""Words that may stand between the slots of a phrase."""

_ONE_SLIP: Final = _index((w for w in LEXICON if len(w) >= _SHORTEST_MISSPELT), 1)
_TWO_SLIPS: Final = _index((w for w in LEXICON if len(w) >= _SHORTEST_TWICE_MISSPELT), 2)
_SWAPPED: Final = _swapped(w for w in LEXICON if len(w) == _SHORTEST_MISSPELT - 1)
_SOUNDS: Final = tuple(map(_alike, LANGUAGES, _WORDS))


@lru_cache(maxsize=4096)
def meanings(word: str) -> frozenset[str]:
    """Return the known words that a folded word may be; none for an everyday word."""
    if word in LEXICON:
        return frozenset({word})
    if word in KNOWN or len(word) > _LONGEST or not word.isalpha():
        return frozenset()
    shortened = undrawn(word)
    if shortened != (word,):
        exact = frozenset(w for w in shortened if w in LEXICON)
        if exact:
            return exact
        if any(w in KNOWN for w in shortened):
            return frozenset()
    return frozenset().union(*(_misspelt(w) for w in shortened))


@lru_cache(maxsize=4096)
def guesses(word: str) -> frozenset[str]:
    """Return the known words that a word may be by one slip, though it is a word itself."""
    if word not in KNOWN or not _SHORTEST_MISSPELT - 1 <= len(word) <= _LONGEST:
        return frozenset()
    begun = word[:_BEGINNING]
    return _within(word, 1, _ONE_SLIP, (begun, *_shorter(begun))) - {word}


def undrawn(word: str) -> tuple[str, ...]:
    """Return the word with each drawn-out letter once and twice; itself if there is none."""
    if _RUN.search(word) is None:
        return (word,)
    runs: list[tuple[str, ...]] = []
    index = drawn = 0
    while index < len(word):
        end = index
        while end < len(word) and word[end] == word[index]:
            end += 1
        ch = word[index]
        if end - index > 2:
            drawn += 1
            runs.append((ch, ch * 2) if drawn <= _MOST_RUNS else (ch,))
        else:
            runs.append((ch * (end - index),))
        index = end
    return tuple("".join(parts) for parts in product(*runs)) if drawn else (word,)


def _misspelt(word: str) -> frozenset[str]:
    if word in _SWAPPED:
        return frozenset(_SWAPPED[word])
    if len(word) < _SHORTEST_MISSPELT - 1:
        return frozenset()
    found: set[str] = set()
    for language, alike in zip(LANGUAGES, _SOUNDS, strict=True):
        found |= alike.get(sounding(language, word), set())
    begun = word[:_BEGINNING]
    once = (begun, *_shorter(begun))
    found |= _within(word, 1, _ONE_SLIP, once)
    if not found and len(word) >= _SHORTEST_TWICE_MISSPELT - 1:
        twice = (begun[:i] + begun[i + 1 : j] + begun[j + 1 :] for i, j in _TWO_OUT)
        found |= _within(word, 2, _TWO_SLIPS, (*once, *twice))
    return frozenset(found)


_TWO_OUT: Final = tuple(combinations(range(_BEGINNING), 2))


def _within(
    word: str, slips: int, index: dict[str, set[str]], rests: Iterable[str]
) -> frozenset[str]:
    near: set[str] = set()
    for rest in rests:
        if rest in index:
            near |= index[rest]
    return frozenset(w for w in near if OSA.distance(word, w, score_cutoff=slips) <= slips)
