"""Labels and strokes as they were meant: "puslo 72", "puls e 72", "132 ower 88", "112//70".

A word is put right only where it is none of ours, one slip away from one that is, and beside a
number; a stroke only between two numbers that go together as pressures.
"""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType
from typing import Final

from bot.readings.labels import JOINS, PHRASES, role_at
from bot.readings.language import Join, Role
from bot.readings.languages import LANGUAGES
from bot.readings.lexicon import STARTERS
from bot.readings.plausibility import ordinary
from bot.readings.slips import slip
from bot.readings.tokens import Kind, Token

_NAMES: Final = frozenset({Role.SYSTOLIC, Role.DIASTOLIC, Role.HEART_RATE, Role.PRESSURE})
_SMALL: Final = frozenset({Role.POINTER, Role.FILLER})
_SHORTEST: Final = 4
"""A shorter word is too many words of others with one slip (design choice)."""

_KISSES: Final = frozenset({"x", "xx", "xxx"})

_SHORTEST_WHOLE: Final = 5
"""The shortest label that a space may have cut in two (design choice)."""

_LABELS: Final[Mapping[str, Role]] = MappingProxyType(
    {keys[0]: role for keys, role in PHRASES if len(keys) == 1 and role in _NAMES}
)
_WHOLE: Final = frozenset(key for key in _LABELS if len(key) >= _SHORTEST_WHOLE)
_MEANT: Final = frozenset().union(*(language.misspelt for language in LANGUAGES))
_STROKES: Final = tuple(
    word for word, join in JOINS.items() if join is Join.PAIR and len(word) >= _SHORTEST
)
_OURS: Final = frozenset(
    {key for keys, _ in PHRASES for key in keys}
    | JOINS.keys()
    | STARTERS
    | frozenset().union(
        *(
            language.unlike | language.seen | language.gone | language.negations | language.doubts
            for language in LANGUAGES
        )
    )
)


def mended(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens of a message with slips in labels and strokes put right."""
    tokens = _joined(_stroked(tokens))
    if len(tokens) > 1 and tokens[-1].key in _KISSES and not tokens[-1].tight:
        tokens = tokens[:-1]
    if all(
        token.kind is not Kind.WORD or (token.key in _OURS and "'" not in token.key)
        for token in tokens
    ):
        return tokens
    return tuple(_mended(tokens, place) for place in range(len(tokens)))


def _stroked(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Take several strokes in a row between two numbers for one."""
    if not any(a.key == "/" == b.key for a, b in pairwise(tokens)):
        return tokens
    out: list[Token] = []
    for place, token in enumerate(tokens):
        again = token.key == "/" and token.tight and bool(out) and out[-1].key == "/"
        numbers = len(out) > 1 and out[-2].kind is Kind.NUMBER
        after = next((later for later in tokens[place:] if later.key != "/"), None)
        if again and numbers and after is not None and after.kind is Kind.NUMBER:
            out[-1] = replace(out[-1], end=token.end)
        else:
            out.append(token)
    return tuple(out)


def _joined(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Join the two parts of a label that a space has cut, as in "puls e"."""
    out: list[Token] = []
    place = 0
    while place < len(tokens):
        pair = tokens[place : place + 2]
        words = len(pair) == 2 and all(token.kind is Kind.WORD for token in pair)
        words = words and (role_at(tokens, place) or (None, 1))[1] == 1
        if words and pair[0].key + pair[1].key in _WHOLE and _beside(tokens, place, place + 1):
            whole = pair[0].key + pair[1].key
            out.append(replace(pair[0], key=whole, end=pair[1].end))
            place += 2
        else:
            out.append(tokens[place])
            place += 1
    return tuple(out)


def _mended(tokens: tuple[Token, ...], place: int) -> Token:
    token = tokens[place]
    bare = token.key.removesuffix("'s")
    if bare != token.key and bare in _LABELS and role_at(tokens, place) is None:
        return replace(token, key=bare)  # "pulse's 66"
    if token.kind is not Kind.WORD or len(token.key) < _SHORTEST or token.key in _OURS:
        return token
    if _between_pressures(tokens, place) and any(slip(word, token.key) for word in _STROKES):
        return replace(token, key=_STROKES[0])
    meant = [label for label in _MEANT if slip(label, token.key)]
    roles = {_LABELS[label] for label in meant}
    if len(roles) == 1 and _beside(tokens, place, place):
        return replace(token, key=min(meant))
    return token


def _between_pressures(tokens: tuple[Token, ...], place: int) -> bool:
    if not 0 < place < len(tokens) - 1:
        return False
    before, after = tokens[place - 1], tokens[place + 1]
    if not before.kind is after.kind is Kind.NUMBER or max(len(before.key), len(after.key)) > 3:
        return False
    return ordinary(int(before.key), int(after.key), None)


def _beside(tokens: tuple[Token, ...], first: int, last: int) -> bool:
    """Return whether a number stands right beside a word, at most with a small word between."""
    after = last + 1
    while after < len(tokens) and (role_at(tokens, after) or (None,))[0] in _SMALL:
        after += 1
    before = first - 1
    if before > 0 and tokens[before].key in {"de", "of"}:
        before -= 1
    return (after < len(tokens) and _number(tokens[after])) or (
        before >= 0 and _number(tokens[before])
    )


def _number(token: Token) -> bool:
    return token.kind is Kind.NUMBER or token.key in STARTERS
