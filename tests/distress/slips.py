"""Every phrase that is listened for, written out, and slips of the fingers by a seed."""

import random
import string
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import islice, product
from typing import Final

from bot.distress import Grade, hear
from bot.distress.heard import GRADES
from bot.distress.languages import LANGUAGES
from bot.distress.lexicon import phrases_in, slots_of

FEWEST_LETTERS = 5
MOST_OF_A_PHRASE = 40


def _written(language_index: int) -> Iterator[tuple[str, Grade]]:
    language = LANGUAGES[language_index]
    own = random.Random(language_index)
    for kind, lines in language.phrases.items():
        for line in phrases_in(lines):
            options = [sorted(words) for words, _ in slots_of(language, line)]
            for words in options:
                own.shuffle(words)
            for chosen in islice(product(*options), MOST_OF_A_PHRASE):
                yield " ".join(chosen), GRADES[kind]


NAMES: Final = ("English", "Spanish")


@cache
def phrases(name: str) -> tuple[tuple[str, Grade], ...]:
    """Return the phrases of a language with their grade.

    Those apart that another phrase takes up a grade.
    """
    return tuple(
        (phrase, grade)
        for phrase, grade in _written(NAMES.index(name))
        if (heard := hear(phrase)) is not None and heard.grade is grade
    )


def slipped(word: str, chance: random.Random) -> str:
    """Return the word with one slip: a letter left out, swapped, changed or put in."""
    at = chance.randrange(len(word))
    letter = chance.choice(string.ascii_lowercase)
    match chance.randrange(4):
        case 0:
            return word[:at] + word[at + 1 :]
        case 1:
            at = min(at, len(word) - 2)
            return word[:at] + word[at + 1] + word[at] + word[at + 2 :]
        case 2:
            return word[:at] + letter + word[at + 1 :]
        case _:
            return word[:at] + letter + word[at:]


def misspelt(phrase: str, chance: random.Random) -> str | None:
    """Return the phrase with a slip in one of its longer words, if it has any."""
    words = phrase.split()
    long = [index for index, word in enumerate(words) if len(word) >= FEWEST_LETTERS]
    if not long:
        return None
    index = chance.choice(long)
    words[index] = slipped(words[index], chance)
    return " ".join(words)


def share_heard(
    phrases: Sequence[tuple[str, Grade]], *, several: bool, seed: int = 7
) -> tuple[int, int]:
    """Return how many misspelt phrases are heard, and of how many; `several` words or just one."""
    return len(tried := list(_tried(phrases, several=several, seed=seed))) - len(
        [phrase for phrase, heard in tried if not heard]
    ), len(tried)


def unheard(phrases: Sequence[tuple[str, Grade]], *, several: bool, seed: int = 7) -> list[str]:
    """Return the misspelt phrases that are not heard."""
    return [p for p, heard in _tried(phrases, several=several, seed=seed) if not heard]


def _tried(
    phrases: Sequence[tuple[str, Grade]], *, several: bool, seed: int
) -> Iterator[tuple[str, bool]]:
    chance = random.Random(seed)
    for phrase, _ in phrases:
        if (" " in phrase) == several and (typed := misspelt(phrase, chance)) is not None:
            yield typed, hear(typed) is not None
