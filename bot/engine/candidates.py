"""The readings that a message may hold which could not be read without doubt.

They are only held against the stop lines, and never kept as they are: what is dangerous however a
message is read must not wait until it has been read.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings import read
from bot.readings.numerals import spoken
from bot.readings.outcome import Doubtful, Outcome, Problem, Several, Understood, Unreadable
from bot.readings.plausibility import PULSE_PRESSURE, possible
from bot.readings.tokens import Kind, scan

_NUMBERS: Final = r"\d{1,3}(?: (?:/|over|sobre) \d{1,3})*"
_EITHER: Final = re.compile(rf"\b({_NUMBERS}) (?:or|o|u) ({_NUMBERS})\b")
_JOINED: Final = re.compile(r"(?=\b(\d{2,3}) (?:/|-|over|sobre) (\d{2,3})\b)")
_NEIGHBOURS: Final = re.compile(r"(?=\b(\d{2,3}) (?:(?:,|;|\.|and|y) )?(\d{2,3})\b)")
_AFTER_A_NUMBER: Final = re.compile(r"(?<=\d) (?=[^\W\d])")


@dataclass(frozen=True, slots=True)
class Candidates:
    """What a message may hold.

    Attributes:
        likely: The readings it holds as it is most plainly read, in the order they came.
        others: Readings it could hold as well.
    """

    likely: tuple[Values, ...] = ()
    others: tuple[Values, ...] = ()


def candidates(text: str, outcome: Outcome, known: Values) -> Candidates:
    """Return the readings that a message may hold.

    Args:
        text: The message.
        outcome: What reading it came to.
        known: The numbers of the same reading that earlier messages gave.
    """
    match outcome:
        case Understood(values=values):
            return Candidates((known.updated(values),))
        case Doubtful(values=values, suggested=suggested):
            return Candidates((known.updated(suggested or values),))
        case Several(readings=readings):
            return Candidates(readings)
        case Unreadable(problem=Problem.NO_NUMBERS):
            return Candidates()
        case Unreadable(problem=problem, understood=understood):
            found = _found(_plain(text), sure=problem is Problem.TOO_MANY)
            if understood.systolic is None:
                return found
            return Candidates((known.updated(understood),), found.likely)


def _plain(text: str) -> str:
    """Return the text with its numbers in digits and a space between all its pieces."""
    tokens = spoken(scan(text))
    return " ".join("." if token.kind is Kind.BREAK else token.key for token in tokens)


def _found(plain: str, *, sure: bool) -> Candidates:
    """Return what the pieces of a message may be; numbers side by side only where it is `sure`."""
    either = _EITHER.search(plain)
    if either is not None and (ways := _alternatives(plain, either)):
        return Candidates(ways)
    if joined := _pairs(_JOINED.finditer(plain)):
        return Candidates(tuple(_values(pair) for pair in joined))
    if neighbours := _pairs(_NEIGHBOURS.finditer(plain)):
        all_of_them = tuple(_values(pair) for pair in neighbours)
        likely = tuple(_values(pair) for pair in _one_after_the_other(neighbours))
        return Candidates(likely if sure else (), all_of_them)
    return Candidates(_labelled(plain))


def _alternatives(plain: str, either: re.Match[str]) -> tuple[Values, ...]:
    """Return what is read of "80 or 85 over 50" with the one number and with the other."""
    before, after = plain[: either.start()], plain[either.end() :]
    first, second = either[1].split(" "), either[2].split(" ")
    first, second = first + second[len(first) :], first[: -len(second)] + second
    outcomes = (read(f"{before}{' '.join(way)}{after}") for way in (first, second))
    read_so = [_read_without_doubt(outcome) for outcome in outcomes]
    return tuple(values for values in read_so if values is not None)


def _read_without_doubt(outcome: Outcome) -> Values | None:
    match outcome:
        case Understood(values=values) | Doubtful(values=values, suggested=None):
            return values
        case Unreadable(understood=understood) if not understood.empty:
            return understood
        case _:
            return None


def _labelled(plain: str) -> tuple[Values, ...]:
    """Return the top numbers that are called so, of "sys 80 sys 82"."""
    outcomes = (read(piece) for piece in _AFTER_A_NUMBER.split(plain))
    read_so = [o.values for o in outcomes if isinstance(o, Understood)]
    return tuple(values for values in read_so if values.systolic is not None)


def _pairs(matches: Iterable[re.Match[str]]) -> list[re.Match[str]]:
    """Return those matches whose two numbers can be pressures."""
    return [pair for pair in matches if _pressures(int(pair[1]), int(pair[2]))]


def _pressures(systolic: int, diastolic: int) -> bool:
    return (
        possible(Measure.SYSTOLIC, systolic)
        and possible(Measure.DIASTOLIC, diastolic)
        and systolic - diastolic in PULSE_PRESSURE
    )


def _values(pair: re.Match[str]) -> Values:
    return Values(systolic=int(pair[1]), diastolic=int(pair[2]))


def _one_after_the_other(pairs: list[re.Match[str]]) -> list[re.Match[str]]:
    """Return the pairs none of which shares a number with the one before it."""
    taken: list[re.Match[str]] = []
    for pair in pairs:
        if not taken or pair.start(1) >= taken[-1].end(2):
            taken.append(pair)
    return taken
