"""Numbers joined by marks: which are parts of a reading, and which are a date, a time, a score."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Final

from bot.readings.language import Join

TOO_LONG: Final = 10**9
"""Stands for a number with more digits than are worth reading."""

MOST_TIME: Final = 60
"""The largest number with a unit of time that is one: "72 h" is rather a slip for a heart rate
(design choice)."""

_LAST_DAY: Final = 31
_LAST_MONTH: Final = 12
_LAST_HOUR: Final = 24
_LAST_MINUTE: Final = 59
_TOP_SCORE: Final = 10
# Design choice: with a dot or one comma only these can be pressures; "98.60", "36,85" are decimals.
_LEAST_BEFORE_DOT: Final = 100
_LEAST_AFTER_DOT: Final = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """Numbers that hang together.

    Attributes:
        numbers: Their values.
        joins: What stands between them: only PAIR and LINK, unless odd or other.
        loose: Whether spaces stand around a pair's stroke.
        odd: Whether it takes guessing to make anything of them.
        other: Whether it is plainly a date, a clock time or a score.
    """

    numbers: tuple[int, ...]
    joins: tuple[Join, ...] = ()
    loose: bool = False
    odd: bool = False
    other: bool = False


def value(digits: str) -> int:
    """Return the value of some ASCII digits, at most `TOO_LONG`; that too for anything else."""
    return int(digits) if len(digits) <= 9 and digits.isdecimal() else TOO_LONG


def shapes(
    digits: Sequence[str], joins: Sequence[Join], odd: Collection[int]
) -> list[tuple[int, Shape]]:
    """Return the shapes in a chain of numbers, each with the index of its first number.

    Args:
        digits: The numbers as ASCII digits.
        joins: What stands between them; one fewer.
        odd: The indices of those that are not plain numbers.
    """
    # "124/76 / 72": where both kinds of stroke stand, the wide one parts a list.
    lists = {Join.DASH, Join.WIDE} if Join.PAIR in joins else {Join.DASH}
    lone_comma = len(digits) == 2 and value(digits[0]) < _LEAST_BEFORE_DOT
    found: list[tuple[int, Shape]] = []
    start = 0
    for index in range(len(digits)):
        is_last = index == len(digits) - 1
        listed = not is_last and (
            joins[index] in lists
            or (joins[index] is Join.COMMA and len(digits[index + 1]) > 1 and not lone_comma)
        )
        if is_last or listed:
            part = slice(start, index + 1)
            strange = any(start <= position <= index for position in odd)
            found.append((start, _shape(digits[part], joins[start:index], strange=strange)))
            start = index + 1
    return found


def _shape(digits: Sequence[str], written: Sequence[Join], *, strange: bool) -> Shape:
    numbers = tuple(value(number) for number in digits)
    joins = tuple(Join.PAIR if join is Join.WIDE else join for join in written)
    shape = Shape(numbers=numbers, joins=joins)
    if strange:
        return Shape(numbers=numbers, joins=shape.joins, odd=True)
    if _is_date(digits, numbers, joins) or _is_time(digits, numbers, joins) or _is_score(shape):
        return Shape(numbers=numbers, joins=shape.joins, other=True)
    padded = any(number[0] == "0" for number in digits if len(number) > 1)
    if padded and any(len(number) < 3 for number in digits):
        return Shape(numbers=numbers, joins=shape.joins, odd=True)
    decimal = Join.COMMA in joins or (Join.DOT in joins and not _dots_link(digits, numbers, joins))
    if decimal or Join.RANGE in joins:
        return Shape(numbers=numbers, joins=shape.joins, odd=True)
    links = tuple(join if join is Join.PAIR else Join.LINK for join in joins)
    return Shape(numbers=numbers, joins=links, loose=Join.WIDE in written)


def _is_date(digits: Sequence[str], numbers: tuple[int, ...], joins: Sequence[Join]) -> bool:
    if len(set(joins)) != 1 or joins[0] not in {Join.PAIR, Join.LINK, Join.DOT}:
        return False
    lengths = tuple(len(number) for number in digits)
    match numbers:
        case (first, second):
            return 1 <= first <= _LAST_MONTH and lengths[1] == 4 and 1900 <= second <= 2100
        case (first, second, third):
            days = 1 <= first <= _LAST_DAY and 1 <= second <= _LAST_DAY
            year_last = days and min(first, second) <= _LAST_MONTH and lengths[2] in {2, 4}
            year_first = lengths[0] == 4 and second <= _LAST_MONTH and third <= _LAST_DAY
            return year_last or year_first
        case _:
            return False


def _is_time(digits: Sequence[str], numbers: tuple[int, ...], joins: Sequence[Join]) -> bool:
    return (
        len(digits) in {2, 3}
        and set(joins) == {Join.COLON}
        and numbers[0] <= _LAST_HOUR
        and all(len(part) == 2 for part in digits[1:])
        and all(part <= _LAST_MINUTE for part in numbers[1:])
    )


def _is_score(shape: Shape) -> bool:
    return (
        len(shape.numbers) == 2
        and shape.joins in {(Join.PAIR,), (Join.RANGE,)}
        and shape.numbers[0] <= shape.numbers[1] <= _TOP_SCORE
    )


def _dots_link(digits: Sequence[str], numbers: tuple[int, ...], joins: Sequence[Join]) -> bool:
    return (
        set(joins) == {Join.DOT}
        and len(digits) in {2, 3}
        and numbers[0] >= _LEAST_BEFORE_DOT
        and all(len(part) > 1 for part in digits[1:])
        and all(part >= _LEAST_AFTER_DOT for part in numbers[1:])
    )
