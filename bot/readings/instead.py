"""Corrections that name the wrong number too: "123/78 not 213/78", "es 123/78, no 213/78"."""

from collections.abc import Iterator
from itertools import islice
from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.dissection import take_apart
from bot.readings.labels import role_at
from bot.readings.language import Role
from bot.readings.languages import LANGUAGES
from bot.readings.outcome import Outcome, Problem, Understood, Unreadable
from bot.readings.pieces import Group, Label
from bot.readings.plausibility import POSSIBLE, doubt
from bot.readings.taking import taken
from bot.readings.tokens import Kind, Token

_NOTHING: Final = Values()

_PHRASES: Final = tuple(
    tuple(phrase.split())
    for language in LANGUAGES
    for phrase in language.instead.split(", ")
    if phrase
)
_MOST: Final = 6
"""Places looked at: so often nobody says what a number is not (design choice)."""

_LONGEST: Final = 24
"""Tokens of the numbers that are not meant, with their labels (design choice)."""

_NOT: Final = frozenset({"not", "no"})
_SAYS: Final = frozenset({"es", "era", "son", "eran", "fue"})
_OPENS: Final = frozenset({":", ","})
_ENDS: Final = frozenset({",", ";", "and", "y", "but", "pero"})


def instead(
    text: str, tokens: tuple[Token, ...], known: Values, before: Values | None
) -> Understood | Unreadable | None:
    """Read numbers that are followed by those they are not.

    What comes after those is an addition, or holds no number.
    """
    if (swapped := _of_known(tokens, known)) is not None:
        return swapped
    for place, after in islice(_places(tokens), _MOST):
        end = _end(tokens, after)
        wrong = _numbers(tokens[after:end]) if end - after <= _LONGEST else None
        if wrong is None:
            continue
        first = taken(text, tokens[:place], known, before)
        if not isinstance(first, Understood):
            continue
        given = (first.values.systolic, first.values.diastolic, first.values.heart_rate)
        right = [number for number in given if number is not None]
        if len(wrong) > len(right) or set(wrong) <= set(right):
            continue
        if tokens[place].key == "no" and (
            not _says(tokens[:place])
            or (_reads(text, tokens[after:end]) and not _corrects(tokens[:place]))
        ):
            # "124/76, no 126/76" says that the second are wrong, or that the first are.
            return Unreadable(problem=Problem.WHICH_NUMBER)
        more = tokens[end:]
        if not any(token.kind in {Kind.NUMBER, Kind.ODD} for token in more):
            return first
        return _with(text, first, more, known, before)
    return None


def _of_known(tokens: tuple[Token, ...], known: Values) -> Understood | None:
    """Read "124 not 142" where 142 is one of the numbers given before: 124 takes its place."""
    numbers = [place for place, token in enumerate(tokens) if token.kind is Kind.NUMBER]
    odd = any(token.kind is Kind.ODD for token in tokens)
    if odd or len(numbers) != 2 or numbers[1] != numbers[0] + 2:
        return None
    if tokens[numbers[0] + 1].key not in _NOT:
        return None
    right, wrong = (_numbers(tokens[place : place + 1]) for place in numbers)
    if right is None or wrong is None or len(right) != 1 or len(wrong) != 1:
        return None
    names = ("systolic", "diastolic", "heart_rate")
    meant = [name for name in names if getattr(known, name) == wrong[0]]
    if len(meant) != 1:
        return None
    values = Values(**{meant[0]: right[0]})
    possible = right[0] in POSSIBLE[Measure(meant[0])]
    if not possible or doubt(values, known) is not None:
        return None
    return Understood(values=values, correction=True)


def _with(
    text: str, first: Understood, more: tuple[Token, ...], known: Values, before: Values | None
) -> Understood | None:
    """Return a reading with what is said after it, if that is a part that it lacks."""
    second = taken(text, more, known.updated(first.values), before)
    if not isinstance(second, Understood):
        return None
    if first.values.updated(second.values) != second.values.updated(first.values):
        return None
    return Understood(values=first.values.updated(second.values), correction=first.correction)


def _places(tokens: tuple[Token, ...]) -> Iterator[tuple[int, int]]:
    """Yield where what parts right from wrong begins, and the place after it."""
    keys = tuple(token.key for token in tokens)
    for place in range(1, len(tokens) - 1):
        for phrase in _PHRASES:
            after = place + len(phrase)
            if keys[place:after] == phrase:
                yield place, after
        number = tokens[place + 1].kind is Kind.NUMBER
        if keys[place - 1 : place + 1] == (",", "no") and number:
            yield place, place + 1


def _end(tokens: tuple[Token, ...], first: int) -> int:
    return next(
        (
            place
            for place in range(first, len(tokens))
            if tokens[place].kind is Kind.BREAK or tokens[place].key in _ENDS
        ),
        len(tokens),
    )


def _numbers(tokens: tuple[Token, ...]) -> tuple[int, ...] | None:
    """Return the numbers of tokens that hold one group of them, and labels at most."""
    items = take_apart(tokens).items
    groups = [item for item in items if isinstance(item, Group)]
    if len(groups) != 1 or not all(isinstance(item, Group | Label) for item in items):
        return None
    group = groups[0]
    return None if group.odd or group.foreign else group.shape.numbers


def _says(tokens: tuple[Token, ...]) -> bool:
    """Return whether "it is" stands right before the first number, and first in its sentence."""
    first = next((p for p, token in enumerate(tokens) if token.kind is Kind.NUMBER), 0)
    if first == 0 or tokens[first - 1].key not in _SAYS:
        return False
    return first == 1 or tokens[first - 2].kind is Kind.BREAK or tokens[first - 2].key in _OPENS


def _corrects(tokens: tuple[Token, ...]) -> bool:
    """Return whether something says that what comes puts right what came before."""
    found = (role_at(tokens, place) for place in range(len(tokens)))
    return any(role is not None and role[0] is Role.CORRECTION for role in found)


def _reads(text: str, tokens: tuple[Token, ...]) -> bool:
    outcome: Outcome = taken(text, tokens, _NOTHING)
    return isinstance(outcome, Understood)
