"""Messages of two parts: numbers and their correction, or two readings."""

from typing import Final

from bot.protocol.record import Values
from bot.readings.labels import JOINS, role_at
from bot.readings.language import Role
from bot.readings.outcome import Doubtful, Outcome, Several, Understood
from bot.readings.plausibility import doubt
from bot.readings.repairs import repaired
from bot.readings.taking import taken
from bot.readings.tokens import Kind, Token

_NOTHING: Final = Values()

_MOST_PARTS: Final = 24
"""In how many places a message is cut at most to find two readings (design choice)."""

_NAMES: Final = frozenset({Role.PRESSURE, Role.SYSTOLIC, Role.HEART_RATE, Role.COUNTER})
_STRONG: Final = frozenset({";", "|", "and", "then", "y", "luego", "despues"})


def within(
    text: str, tokens: tuple[Token, ...], known: Values, before: Values | None
) -> Outcome | None:
    """Read "124/76 72, no, 128/76": numbers that the same message puts right."""
    for place in range(1, len(tokens)):
        found = role_at(tokens, place)
        if found is None or found[0] is not Role.CORRECTION:
            continue
        first = taken(text, tokens[:place], known)
        if not isinstance(first, Understood):
            return None
        second = taken(text, tokens[place:], _NOTHING)
        if not isinstance(second, Understood):
            again = repaired(text, tokens[place:], first.values, None, beside=True)
            if again is None:
                return None
            second = again
        if not isinstance(second, Understood) or not second.correction:
            return None
        values = first.values.updated(second.values)
        rest = " ".join(part for part in (first.rest, second.rest) if part)
        odd = doubt(values, known, before)
        if odd is None:
            return Understood(values=values, rest=rest)
        return Doubtful(values=values, doubt=odd[0], suggested=odd[1], rest=rest)
    return None


def several(text: str, tokens: tuple[Token, ...]) -> Several | None:
    """Read two readings in one message, if there is just one way to part them."""
    for places in (_strong(tokens), _weak(tokens)):
        found: list[Several] = []
        for place in places:
            first = taken(text, tokens[:place], _NOTHING)
            second = taken(text, tokens[place:], _NOTHING)
            if not (isinstance(first, Understood) and isinstance(second, Understood)):
                continue
            if all(_paired(part.values) for part in (first, second)):
                rest = " ".join(part for part in (first.rest, second.rest) if part)
                found.append(Several(readings=(first.values, second.values), rest=rest))
        if found:
            alike = all(several.readings == found[0].readings for several in found)
            return found[0] if alike else None
    return None


def _strong(tokens: tuple[Token, ...]) -> list[int]:
    """Return the places where a line or sentence ends, or words say that more follows."""
    places = [
        place
        for place in range(1, len(tokens))
        if tokens[place - 1].kind is Kind.BREAK
        or tokens[place].key in _STRONG
        or ((found := role_at(tokens, place)) is not None and found[0] is Role.AGAIN)
    ]
    return places if len(places) <= _MOST_PARTS else []


def _weak(tokens: tuple[Token, ...]) -> list[int]:
    """Return the places before a number or a name for one."""
    places = [place for place in range(1, len(tokens)) if _begins(tokens, place)]
    return places if len(places) <= _MOST_PARTS else []


def _begins(tokens: tuple[Token, ...], place: int) -> bool:
    if tokens[place].kind is Kind.NUMBER:
        return tokens[place - 1].key not in JOINS
    found = role_at(tokens, place)
    return found is not None and found[0] in _NAMES


def _paired(values: Values) -> bool:
    return values.systolic is not None and values.diastolic is not None
