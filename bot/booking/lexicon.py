"""All languages as one table: both are listened for at once, whatever a person's own is."""

from collections.abc import Iterator, Sequence
from typing import Final

from bot.booking.english import ENGLISH
from bot.booking.spanish import SPANISH
from bot.booking.words import Language, Role, Sense

_MENDED: Final = frozenset(
    {Role.WEEKDAY, Role.MONTH, Role.AHEAD, Role.STRETCH, Role.NOON, Role.MIDNIGHT}
)
_SHORTEST_TYPED: Final = 5  # design choice: shorter words are too close to one another
_SHORTEST_MEANT: Final = 6


def find(words: Sequence[str]) -> tuple[frozenset[Sense], int]:
    """Return what the longest known phrase at the start of the words can mean, and its length.

    Returns:
        The senses and how many words they take; no senses and 0 if none is known.
    """
    for length in range(min(len(words), _LONGEST), 0, -1):
        senses = _TABLE.get(tuple(words[:length]))
        if senses is not None:
            return senses, length
    return frozenset(), 0


def mend(word: str) -> frozenset[Sense]:
    """Return what a misspelt name of a day, month or part of the day means, if just one is near.

    Numbers are not mended: "right" is one letter from "eight".
    """
    if len(word) < _SHORTEST_TYPED:
        return frozenset()
    near = [known for known in _SINGLE if _one_slip(word, known)]
    meanings = {_TABLE[known,] for known in near}
    if len(meanings) != 1 or max(map(len, near)) < _SHORTEST_MEANT:
        return frozenset()
    (senses,) = meanings
    return senses if all(sense.role in _MENDED for sense in senses) else frozenset()


def _one_slip(typed: str, meant: str) -> bool:
    """Return whether one letter was added, left out, changed, or swapped with its neighbour."""
    if abs(len(typed) - len(meant)) > 1:
        return False
    first = 0
    while first < min(len(typed), len(meant)) and typed[first] == meant[first]:
        first += 1
    typed, meant = typed[first:], meant[first:]
    return (
        typed[1:] == meant[1:]
        or typed[1:] == meant
        or typed == meant[1:]
        or (typed[:2] == meant[1::-1] and typed[2:] == meant[2:])
    )


def _entries(language: Language) -> Iterator[tuple[str, Sense]]:
    numbered = {
        Role.NUMBER: language.numbers,
        Role.ORDINAL: language.ordinals,
        Role.WEEKDAY: language.weekdays,
        Role.MONTH: language.months,
        Role.AHEAD: language.ahead,
        Role.WEEK: language.weeks,
        Role.UNIT: language.units,
        Role.LENGTH: language.lengths,
    }
    for role, words in numbered.items():
        for word, value in words.items():
            yield word, Sense(role=role, value=value)
    for word, stretch in language.stretches.items():
        yield word, Sense(role=Role.STRETCH, stretch=stretch)
    for word, stretch in language.todays.items():
        yield word, Sense(role=Role.TODAYS, stretch=stretch)
    plain = {**language.plain, Role.SOFT: language.soft, Role.OTHER: language.others}
    for role, phrases in plain.items():
        for word in phrases:
            yield word, Sense(role=role)


def _table() -> dict[tuple[str, ...], frozenset[Sense]]:
    table: dict[tuple[str, ...], frozenset[Sense]] = {}
    for language in (ENGLISH, SPANISH):
        for word, sense in _entries(language):
            key = tuple(word.split())
            table[key] = table.get(key, frozenset()) | {sense}
    return table


_TABLE: Final = _table()
_LONGEST: Final = max(map(len, _TABLE))
_SINGLE: Final = tuple(key[0] for key in _TABLE if len(key) == 1 and len(key[0]) >= _SHORTEST_TYPED)
