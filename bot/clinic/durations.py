"""Durations as a clinic writes them: `15 min`, `4 hours`, `8 weeks`."""

import re
from datetime import timedelta
from typing import Final

UNITS: Final = {
    "s": timedelta(seconds=1),
    "min": timedelta(minutes=1),
    "hour": timedelta(hours=1),
    "hours": timedelta(hours=1),
    "day": timedelta(days=1),
    "days": timedelta(days=1),
    "week": timedelta(weeks=1),
    "weeks": timedelta(weeks=1),
}
"""The units there are."""

_FORM: Final = re.compile(r"(\d{1,5}) ?([a-z]+)")


def duration(written: object) -> timedelta:
    """Return what was written as a duration.

    Raises:
        ValueError: It looks like none.
    """
    if isinstance(written, timedelta):
        return written
    found = _FORM.fullmatch(written.strip()) if isinstance(written, str) else None
    if found is None or found[2] not in UNITS:
        raise ValueError('write a number and a unit, such as "15 min", "4 hours" or "8 weeks"')
    return int(found[1]) * UNITS[found[2]]
