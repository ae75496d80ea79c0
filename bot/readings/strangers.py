"""Numbers that belong to something else by the words around them: phones, addresses, ages.

They are taken out as if they were one word, so that no part of them can be taken for a reading.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Final

from bot.readings.labels import HOURS, JOINS
from bot.readings.language import Join
from bot.readings.languages import LANGUAGES
from bot.readings.plausibility import POSSIBLE
from bot.readings.tokens import Kind, Token

_FEWEST_PHONE_DIGITS: Final = 9
"""Design choice: three readings' worth; fewer may be a reading whose marks were lost."""

_MOST_PHONE_DIGITS: Final = 15
"""ITU-T E.164: a telephone number has no more (from memory); so it has no more groups either."""

_HIGHEST: Final = max(bounds.high for bounds in POSSIBLE.values())
_FEWEST_TRUNK_DIGITS: Final = 4
_MOST_NAME: Final = 3
_MOST_AGE: Final = 110
_STANDS_FOR: Final = "\ue001"
_TIGHT_UNITS: Final = frozenset({"v", "w", "hz", "khz"})


def _phrases(name: str) -> tuple[tuple[str, ...], ...]:
    return tuple(
        tuple(phrase.split())
        for language in LANGUAGES
        for phrase in " ".join(language.strangers.get(name, "").split()).split(", ")
        if phrase
    )


Endings = Mapping[str, tuple[tuple[str, ...], ...]]
"""Phrases by their last word."""


def _endings(name: str) -> Endings:
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for phrase in _phrases(name):
        found[phrase[-1]] = (*found.get(phrase[-1], ()), phrase)
    return found


_STREETS: Final = frozenset(phrase[0] for phrase in _phrases("street after"))
_STREET_FIRST: Final = frozenset(phrase[0] for phrase in _phrases("street before"))
_LIVES: Final = _endings("lives at")
_PHONES: Final = _endings("phone")
_DAYS: Final = frozenset(phrase[0] for phrase in _phrases("day"))
_KIN: Final = _endings("age of")


def without_strangers(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens with each such number, and the words that make it one, as one word."""
    out: list[Token] = []
    end = 0
    for first, after in _spans(tokens):
        if first < end:
            continue
        out += tokens[end:first]
        whole = replace(tokens[first], kind=Kind.WORD, key=_STANDS_FOR, end=tokens[after - 1].end)
        out.append(whole)
        end = after
    return (*out, *tokens[end:])


def _spans(tokens: tuple[Token, ...]) -> Iterator[tuple[int, int]]:
    place = 0
    while place < len(tokens):
        if not _starts_number(tokens, place):
            place += 1
            continue
        after = next(
            (
                found
                for look in (_phone, _voltage, _address, _home, _age, _date, _hour)
                if (found := look(tokens, place))
            ),
            0,
        )
        if after:
            yield place, after
        place = max(place + 1, after)


def _starts_number(tokens: tuple[Token, ...], place: int) -> bool:
    return tokens[place].kind is Kind.NUMBER


def _alone(tokens: tuple[Token, ...], place: int) -> bool:
    """Return whether a number of at most four digits hangs on to no other."""
    after = tokens[place + 1] if place + 1 < len(tokens) else None
    before = tokens[place - 1] if place > 0 else None
    joined = any(
        token is not None
        and (token.kind is Kind.NUMBER or (token.key in JOINS and token.key != ","))
        for token in (before, after)
    )
    return not joined and len(tokens[place].key) <= 4


def _ends_with(tokens: tuple[Token, ...], place: int, phrases: Endings) -> bool:
    """Return whether one of some phrases stands right before a place."""
    if place == 0:
        return False
    return any(
        place >= len(phrase)
        and tuple(token.key for token in tokens[place - len(phrase) : place]) == phrase
        for phrase in phrases.get(tokens[place - 1].key, ())
    )


def _phone(tokens: tuple[Token, ...], place: int) -> int:
    """Return the place after a telephone number: many digits in groups."""
    groups = [tokens[place].key]
    after = place + 1
    while after < len(tokens):
        hyphen = tokens[after].key == "-"
        number = after + hyphen
        if number >= len(tokens) or tokens[number].kind is not Kind.NUMBER:
            break
        groups.append(tokens[number].key)
        after = number + 1
        if len(groups) > _MOST_PHONE_DIGITS:
            return 0
    plus = place > 0 and tokens[place - 1].key == "+" and tokens[place].tight
    said = _ends_with(tokens, place, _PHONES) or (plus and _ends_with(tokens, place - 1, _PHONES))
    if after < len(tokens) and JOINS.get(tokens[after].key) is Join.PAIR:
        return 0
    many = sum(map(len, groups)) >= _FEWEST_PHONE_DIGITS and len(groups) > 1
    beyond = any(int(group[:9]) > _HIGHEST for group in groups)
    trunk = (groups[0].startswith("0") or plus) and any(
        len(group) >= _FEWEST_TRUNK_DIGITS and int(group[:9]) > 999 for group in groups
    )
    return after if many and (trunk or (said and beyond)) else 0


def _voltage(tokens: tuple[Token, ...], place: int) -> int:
    """Return the place after "240V" or "100-240V"."""
    after = place + 1
    if after + 1 < len(tokens) and tokens[after].key == "-":
        after += 2 if tokens[after + 1].kind is Kind.NUMBER else 0
    if after >= len(tokens) or not tokens[after].tight or tokens[after].key not in _TIGHT_UNITS:
        return 0
    begun = place > 0 and tokens[place - 1].key in JOINS
    runs_on = after + 1 < len(tokens) and tokens[after + 1].tight
    runs_on = runs_on and tokens[after + 1].kind in {Kind.NUMBER, Kind.WORD}
    return 0 if begun or runs_on else after + 1


def _address(tokens: tuple[Token, ...], place: int) -> int:
    """Return the place after "124 Elm Road" or after the number of "calle Olmo 124"."""
    if not _alone(tokens, place):
        return 0
    for after in range(place + 2, min(place + 2 + _MOST_NAME, len(tokens))):
        if any(token.kind is not Kind.WORD for token in tokens[place + 1 : after + 1]):
            break
        if tokens[after].key in _STREETS:
            return after + 1
    for first in range(place - 2, max(place - 3 - _MOST_NAME, -1), -1):
        if any(token.kind is not Kind.WORD for token in tokens[first + 1 : place]):
            break
        if tokens[first].key in _STREET_FIRST:
            return place + 1
    return 0


def _home(tokens: tuple[Token, ...], place: int) -> int:
    """Return the place after "lives at 118"."""
    return place + 1 if _alone(tokens, place) and _ends_with(tokens, place, _LIVES) else 0


def _age(tokens: tuple[Token, ...], place: int) -> int:
    """Return the place after the age of somebody else, as in "my daughter is 34"."""
    old = _alone(tokens, place) and int(tokens[place].key) <= _MOST_AGE
    if not (old and _ends_with(tokens, place, _KIN)):
        return 0
    after = tokens[place + 1] if place + 1 < len(tokens) else None
    ends = after is None or after.kind is Kind.BREAK or after.key in {",", "and", "y", "now"}
    others = any(token.kind is Kind.NUMBER for token in tokens[place + 1 : place + 3])
    return place + 1 if ends and not others else 0


def _date(tokens: tuple[Token, ...], place: int) -> int:
    """Return the place after a day and a month, as in "el 14/3"."""
    after = place + 3
    if place == 0 or after > len(tokens) or tokens[place + 1].key not in {"/", "-"}:
        return 0
    day, month = tokens[place], tokens[place + 2]
    runs_on = after < len(tokens) and tokens[after].tight and tokens[after].kind is Kind.MARK
    if month.kind is not Kind.NUMBER or (runs_on and tokens[after].key in {"/", "-"}):
        return 0
    if len(day.key) > 2 or len(month.key) > 2 or tokens[place - 1].key not in _DAYS:
        return 0
    return after if 1 <= int(day.key) <= 31 and 1 <= int(month.key) <= 12 else 0


def _hour(tokens: tuple[Token, ...], place: int) -> int:
    """Return the place after the hour of "at 8 119/75" or "a las 7, 119/75"."""
    after = tokens[place + 1] if place + 1 < len(tokens) else None
    if place == 0 or (tokens[place - 1].key,) not in HOURS or int(tokens[place].key[:4]) > 24:
        return 0
    if after is None:
        return 0
    if after.key == ",":
        number = tokens[place + 2] if place + 2 < len(tokens) else None
        return place + 1 if number is not None and not number.tight else 0
    whole = after.kind is Kind.NUMBER and len(after.key) == 3 and not after.tight
    return place + 1 if whole else 0


def half_pairs(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens with "120/??" as a number and a mark that says that half is missing."""
    out = list(tokens)
    for number, token in reversed(list(enumerate(tokens))):
        if token.kind is not Kind.NUMBER:
            continue
        gone = _gone_after(tokens, number + 2)
        if gone and JOINS.get(tokens[number + 1].key) is Join.PAIR:
            whole = replace(tokens[number + 1], kind=Kind.MARK, key="/?", end=tokens[gone - 1].end)
            out[number + 1 : gone] = [whole]
        first = _gone_before(tokens, number - 2)
        if first is not None and JOINS.get(tokens[number - 1].key) is Join.PAIR:
            end = tokens[number - 1].end
            out[first:number] = [replace(tokens[first], kind=Kind.MARK, key="?/", end=end)]
    return tuple(out)


_GONE: Final = frozenset({"?", "-", "_", "*", "x", "xx", "xxx", "…"})


def _gone_after(tokens: tuple[Token, ...], place: int) -> int:
    """Return the place after marks in a row that stand for a number; 0 if there are none."""
    after = place
    while after < len(tokens) and tokens[after].key in _GONE:
        if after > place and not tokens[after].tight:
            break
        after += 1
    runs_on = after < len(tokens) and tokens[after].tight and tokens[after].kind is not Kind.BREAK
    runs_on = runs_on and tokens[after].key not in {",", ";", ")"}
    return 0 if after == place or runs_on else after


def _gone_before(tokens: tuple[Token, ...], place: int) -> int | None:
    """Return the place of the first of such marks, if nothing runs into them."""
    if place < 0 or tokens[place].key not in _GONE:
        return None
    while place > 0 and tokens[place].tight and tokens[place - 1].key in _GONE:
        place -= 1
    pairs = pairwise(tokens[max(place - 1, 0) : place + 1])
    return None if any(after.tight for _, after in pairs) else place
