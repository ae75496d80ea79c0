"""Dictation as it was meant, before its words become numbers.

Voice typing parts words with full stops, writes a word that sounds alike, and half a number in
digits. Each is put right only where nothing else can be meant.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from bot.protocol.record import Measure
from bot.readings.labels import JOINS, role_at
from bot.readings.language import Join, Role
from bot.readings.lexicon import LEXICONS, STARTERS
from bot.readings.plausibility import NEVER_A_READING, ORDINARY, POSSIBLE, ordinary
from bot.readings.tokens import Kind, Token

_LABELS: Final = frozenset(
    {Role.SYSTOLIC, Role.DIASTOLIC, Role.FOOT, Role.HEART_RATE, Role.PRESSURE}
)
_UNITS: Final = frozenset({Role.BEATS, Role.MERCURY})
_HALVES: Final = ("y", "medio")
_LOWEST_HALF: Final = 7  # design choice: "doce y medio" may be 125; "uno y medio" is a dose

_HUNDREDS: Final[Mapping[tuple[str, ...], int]] = MappingProxyType(
    {
        ("1",): 100,
        ("one",): 100,
        ("won",): 100,
        ("2",): 200,
        ("two",): 200,
        ("hundred",): 100,
        ("hundred", "and"): 100,
        ("a", "hundred"): 100,
        ("a", "hundred", "and"): 100,
        ("one", "hundred"): 100,
        ("one", "hundred", "and"): 100,
        ("two", "hundred"): 200,
        ("two", "hundred", "and"): 200,
        ("ciento",): 100,
        ("siento",): 100,
        ("doscientos",): 200,
    }
)
"""What may stand, with a space after it, for the hundreds of two digits: "1 19", "ciento 19"."""

_LEAST_SYSTOLIC: Final = POSSIBLE[Measure.SYSTOLIC].low
_SPLIT: Final = frozenset({"1", "2"})
_MOST_LEAD: Final = max(map(len, _HUNDREDS))


def heard(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens of a message with what voice typing did to them put right."""
    tokens = _without_stops(tokens)
    tokens = _tens(tokens)
    tokens = _sounds(tokens)
    tokens = _halves(tokens)
    return _hundreds(tokens)


def _stop(token: Token) -> bool:
    return token.kind is Kind.BREAK and token.key == "."


def _without_stops(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Drop the full stops of "One. Twenty. Six. Over. Eighty.".

    Only where a stroke between pressures stands alone between two of them, and only among words
    that bear on a reading.
    """
    alone = any(
        JOINS.get(tokens[place].key) is Join.PAIR
        and _stop(tokens[place - 1])
        and _stop(tokens[place + 1])
        for place in range(1, len(tokens) - 1)
    )
    ours = all(
        _stop(token) or token.key in STARTERS or token.key in JOINS or _ours(tokens, place)
        for place, token in enumerate(tokens)
    )
    if not (alone and ours):
        return tokens
    return tuple(token for token in tokens if not _stop(token))


def _ours(tokens: tuple[Token, ...], place: int) -> bool:
    key = tokens[place].key
    if any(lexicon.letter(key) for lexicon in LEXICONS):
        return True
    if any(role_at(tokens, before) for before in range(max(0, place - 2), place + 1)):
        return True
    return tokens[place].kind is Kind.NUMBER


def _tens(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Join "ate tea" to eighty, beside a stroke between pressures or after a label."""
    out: list[Token] = []
    place = 0
    while place < len(tokens):
        pair = tuple(token.key for token in tokens[place : place + 2])
        ten = next((t for lex in LEXICONS if (t := lex.numerals.parted.get(" ".join(pair)))), None)
        if ten is not None and (_framed(tokens, place) or _pairs(tokens, place + 2)):
            out.append(replace(tokens[place], key=ten, end=tokens[place + 1].end))
            place += 2
        else:
            out.append(tokens[place])
            place += 1
    return tuple(out)


def _pairs(tokens: Sequence[Token], place: int) -> bool:
    """Return whether a stroke between pressures stands here, with a number behind it."""
    if place + 1 >= len(tokens) or JOINS.get(tokens[place].key) is not Join.PAIR:
        return False
    after = tokens[place + 1]
    return after.kind is Kind.NUMBER or any(lexicon.letter(after.key) for lexicon in LEXICONS)


def _framed(tokens: tuple[Token, ...], place: int) -> bool:
    """Return whether a label, or a stroke after a number, stands right before."""
    return _labelled(tokens, place) is not None or (
        place > 1
        and JOINS.get(tokens[place - 1].key) is Join.PAIR
        and (tokens[place - 2].kind is Kind.NUMBER or tokens[place - 2].key in STARTERS)
    )


def _labelled(tokens: tuple[Token, ...], place: int) -> Role | None:
    """Return the role of a label right before a place, at most with an "is" between."""
    found = role_at(tokens, place - 1) if place > 0 else None
    if found == (Role.POINTER, 1):
        place -= 1
    for length in (1, 2, 3):
        role = role_at(tokens, place - length) if place >= length else None
        if role is not None and role[0] in _LABELS and role[1] == length:
            return role[0]
    return None


def _sounds(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Put the unit that was said for a word that sounds like it, inside a number."""
    out = list(tokens)
    for lexicon in LEXICONS:
        numerals = lexicon.numerals
        for place in range(1, len(out)):
            unit = numerals.sounds.get(out[place].key)
            if unit is None or out[place].kind is not Kind.WORD:
                continue
            letters = "".join(lexicon.letter(token.key) or " " for token in out[:place])
            ended = _ends(tuple(out), place + 1)
            open_number = letters.endswith(("H&", "uz")) and ended
            hyphened = letters.endswith("T ") and out[place - 1].key == "-" and ended
            rare = out[place].key not in numerals.heard and letters.endswith("T") and ended
            if open_number or rare or (hyphened and out[place].tight):
                out[place] = replace(out[place], key=unit)
    return tuple(out)


def _ends(tokens: tuple[Token, ...], place: int) -> bool:
    """Return whether a number plainly ends before a place."""
    if place >= len(tokens) or tokens[place].kind in {Kind.BREAK, Kind.NUMBER}:
        return place >= len(tokens) or tokens[place].kind is Kind.BREAK
    if tokens[place].key in {",", ";"} or _pairs(tokens, place):
        return True
    found = role_at(tokens, place)
    return found is not None and found[0] in _LABELS | _UNITS


def _halves(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Take "once y medio" for what it is where pressures are said in tens: not a whole number."""
    out: list[Token] = []
    place = 0
    while place < len(tokens):
        number = _value(tokens[place])
        keys = tuple(token.key for token in tokens[place + 1 : place + 3])
        if (
            number is not None
            and keys == _HALVES
            and _LOWEST_HALF <= number <= NEVER_A_READING.high
        ):
            whole = replace(tokens[place], kind=Kind.ODD, key="?", end=tokens[place + 2].end)
            out.append(whole)
            place += 3
        else:
            out.append(tokens[place])
            place += 1
    return tuple(out)


def _value(token: Token) -> int | None:
    if token.kind is Kind.NUMBER:
        return int(token.key) if len(token.key) <= 3 else None
    return next((lex.values[token.key] for lex in LEXICONS if token.key in lex.values), None)


def _hundreds(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Join "1 19 over 73" and "ciento 19 sobre 73" where the parts can be nothing else."""
    out: list[Token] = []
    place = 0
    while place < len(tokens):
        length = _lead(tokens, place)
        if length:
            hundreds = _HUNDREDS[tuple(token.key for token in tokens[place : place + length])]
            last = tokens[place + length]
            number = hundreds + int(last.key)
            key = str(number)
            out.append(replace(tokens[place], kind=Kind.NUMBER, key=key, end=last.end))
            place += length + 1
        else:
            out.append(tokens[place])
            place += 1
    return tuple(out)


def _lead(tokens: tuple[Token, ...], place: int) -> int:
    """Return how many tokens from here are the hundreds of the two digits after them."""
    if place > 0 and _part_of_a_number(tokens, place - 1):
        return 0
    for length in range(_MOST_LEAD, 0, -1):
        lead = tokens[place : place + length]
        hundreds = _HUNDREDS.get(tuple(token.key for token in lead))
        digits = tokens[place + length] if place + length < len(tokens) else None
        if hundreds is None or digits is None or digits.kind is not Kind.NUMBER:
            continue
        if len(digits.key) != 2 or any(token.tight for token in (*lead[1:], digits)):
            continue
        if _only_so(tokens, place, place + length, hundreds):
            return length
    return 0


def _part_of_a_number(tokens: tuple[Token, ...], place: int) -> bool:
    """Return whether a number, or a mark that binds one, stands at a place."""
    token = tokens[place]
    number = token.kind in {Kind.NUMBER, Kind.ODD} or token.key in STARTERS
    return number or token.key in JOINS or token.key in {"#", "+", "a", "and", "y"}


def _only_so(tokens: tuple[Token, ...], place: int, at: int, hundreds: int) -> bool:
    """Return whether two digits make sense with their hundreds, and none without."""
    short = int(tokens[at].key)
    said = _labelled(tokens, place)
    if _pairs(tokens, at + 1) and (said is not Role.HEART_RATE):
        after = tokens[at + 2]
        if after.kind is not Kind.NUMBER or len(after.key) not in {2, 3}:
            return False
        lower = int(after.key)
        # "1 98 over 62" may be the first reading, of 98/62; "dizzy 1 80/110" a pair turned round.
        begins = place == 0 or tokens[place - 1].kind is Kind.BREAK or said is not None
        most = _LEAST_SYSTOLIC - 1 if begins else NEVER_A_READING.high
        return short <= min(most, lower) and ordinary(hundreds + short, lower, None)
    if not _ends(tokens, at + 1) or tokens[place].key not in _SPLIT:
        return False
    if said is Role.HEART_RATE:
        return hundreds == 100 and short <= NEVER_A_READING.high
    return (
        said is Role.SYSTOLIC
        and hundreds + short in ORDINARY[Measure.SYSTOLIC]
        and short < _LEAST_SYSTOLIC
    )
