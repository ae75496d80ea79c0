"""The words around numbers, of all languages: which phrase stands where, and what it does."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from bot.readings.language import Join, Role
from bot.readings.languages import LANGUAGES
from bot.readings.languages.signs import JOIN_MARKS, MARKS
from bot.readings.tokens import Token, scan

_ANY: Final = 99


def role_at(tokens: tuple[Token, ...], position: int, most: int = _ANY) -> tuple[Role, int] | None:
    """Return the role of the longest known phrase that begins here and how many tokens it has.

    Args:
        tokens: The tokens of a message.
        position: Where.
        most: How many tokens it may have.
    """
    for keys, role in _PHRASES.get(tokens[position].key, ()):
        count = len(keys)
        if count > most:
            continue
        if count == 1:  # it is known by its first key
            return role, 1
        if tuple([token.key for token in tokens[position : position + count]]) == keys:
            return role, count
    return None


def _listed(written: str) -> list[str]:
    return " ".join(written.split()).split(", ")


def _phrases() -> Iterator[tuple[tuple[str, ...], Role]]:
    for language in LANGUAGES:
        for role, listed in language.phrases.items():
            for phrase in _listed(listed):
                yield tuple(token.key for token in scan(phrase)), role
    for mark, role in MARKS.items():
        yield (mark,), role


PHRASES: Final = tuple(_phrases())
"""Every phrase of every language as the keys of its tokens, with its role."""


def _by_first_key() -> Mapping[str, tuple[tuple[tuple[str, ...], Role], ...]]:
    grouped: dict[str, list[tuple[tuple[str, ...], Role]]] = {}
    for keys, role in PHRASES:
        grouped.setdefault(keys[0], []).append((keys, role))
    return MappingProxyType(
        {
            first: tuple(sorted(found, key=lambda entry: -len(entry[0])))
            for first, found in grouped.items()
        }
    )


_PHRASES: Final = _by_first_key()


JOINS: Final[Mapping[str, Join]] = MappingProxyType(
    {
        **JOIN_MARKS,
        **{
            word: join
            for language in LANGUAGES
            for join, listed in language.joins.items()
            for word in _listed(listed)
        },
    }
)
"""What joins two numbers when it stands between them and nothing else does."""

HOURS: Final = frozenset(
    words
    for language in LANGUAGES
    if language.numerals is not None
    for words in language.numerals.hours
)
"""What stands before a time of day."""
