"""Outcomes in short, so that tables of phrases can be read.

A day is "7 Mar" (in 2026, else "7 Mar 2027"), a time "09:00", a part of the day its name; a
question is "?" with its reason, and what it offers after a colon, parted by bars.
"""

import re
from datetime import date, datetime
from zoneinfo import ZoneInfo

from bot.booking.phrases import Outcome, Unclear, When

WEDNESDAY = datetime(2026, 3, 4, 10, 15, tzinfo=ZoneInfo("Europe/Madrid"))
"""The present in the tables: the fourth of March 2026, quarter past ten."""

_MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


def say(outcome: Outcome) -> str:
    """Return an outcome in short."""
    if isinstance(outcome, When):
        return _when(outcome)
    parts = [f"?{outcome.reason}"]
    if outcome.word is not None:
        parts.append(f"({outcome.word})")
    if outcome.options:
        parts.append("= " + " | ".join(map(_when, outcome.options)))
    return " ".join(parts)


def asks(outcome: Outcome) -> bool:
    """Return whether the person is asked."""
    return isinstance(outcome, Unclear)


def _when(when: When) -> str:
    parts = []
    if when.day is not None:
        parts.append(_day(when.day))
    if when.time is not None:
        parts.append(f"{when.time:%H:%M}")
    if when.part is not None:
        parts.append(when.part)
    return " ".join(parts)


def _day(day: date) -> str:
    year = "" if day.year == WEDNESDAY.year else f" {day.year}"
    return f"{day.day} {_MONTHS[day.month - 1]}{year}"


def rows(table: str) -> list[tuple[str, str]]:
    """Return the phrases of a table, each with what it should come to."""
    lines = [line for line in table.splitlines() if line.strip()]
    return [
        (phrase.strip(), said.strip())
        for phrase, said in (re.split("  +", x, maxsplit=1) for x in lines)
    ]
