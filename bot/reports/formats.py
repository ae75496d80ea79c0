"""Numbers, days and times as a language writes them. Times are UTC and say so."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from typing import Final

from babel.dates import format_date, format_time
from babel.lists import format_list
from babel.numbers import format_decimal

from bot.protocol.record import Values
from bot.texts import render

NONE: Final = "–"
"""Stands for a number that there is not."""


@lru_cache(maxsize=4096)
def _number(value: float, pattern: str, locale: str) -> str:
    """Return a number as a language writes it; the same few numbers come again and again."""
    return format_decimal(value, format=pattern, locale=locale)


def whole(value: float, locale: str) -> str:
    """Return a whole number: `98`."""
    return _number(round(value), "0", locale)


def decimal(value: float, locale: str) -> str:
    """Return a number with one decimal where it has one: `82.6`, `27`."""
    return format_decimal(value, format="0.#", locale=locale)


def ratio(value: float, locale: str) -> str:
    """Return a number with two decimals: `0.60`."""
    return _number(value, "0.00", locale)


def signed(value: float, locale: str) -> str:
    """Return a change with its sign: `+34`, `-12`, `0`."""
    pattern = "+0;-0" if round(value) else "0"
    return _number(round(value), pattern, locale)


def minutes(length: timedelta, locale: str) -> str:
    """Return a length of time in minutes and seconds: `5:40`, `305:00`."""
    whole_minutes, seconds = divmod(round(length.total_seconds()), 60)
    return f"{_number(whole_minutes, '0', locale)}:{seconds:02d}"


def day(at: datetime, locale: str) -> str:
    """Return the date in UTC: `Mar 2, 2026`."""
    return format_date(at.astimezone(UTC), format="medium", locale=locale)


def moment(at: datetime, locale: str) -> str:
    """Return date and time: `Mar 2, 2026, 09:14 UTC`."""
    clock = format_time(at.astimezone(UTC), format="HH:mm", locale=locale)
    return render("files.moment", {"day": day(at, locale), "time": clock}, locale)


def pressures(values: Values, locale: str) -> str:
    """Return a pressure: `118/74`, `118/–`."""
    top, bottom = (
        NONE if number is None else whole(number, locale)
        for number in (values.systolic, values.diastolic)
    )
    return f"{top}/{bottom}"


def percent(share: float, locale: str) -> str:
    """Return a probability in whole percent; one that rounds to all or nothing is not said so."""
    value = round(100 * share)
    if value in (0, 100):
        bound, key = (1, "under") if value == 0 else (99, "over")
        return render(f"files.percent.{key}", {"value": whole(bound, locale)}, locale)
    return render("files.percent", {"value": whole(value, locale)}, locale)


def listing(items: Sequence[str], locale: str) -> str:
    """Return a list in words: `a, b and c`."""
    return format_list(list(items), style="standard", locale=locale)
