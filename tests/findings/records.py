"""Records of invented tests, written as rows of text.

A row is `place@minutes:seconds systolic/diastolic rate`. The place is a planned reading
(`standing-5`) or, for one given in between, a position (`standing`). A number not given is `-`,
and `!` after the time marks a reading that came after its window.
"""

import re
from datetime import UTC, datetime, timedelta
from typing import Final

from bot.protocol.definition import Position, ProtocolRef
from bot.protocol.record import AgeBand, PhaseStart, Reading, TestRecord, Values
from bot.protocol.released import SIX_READINGS

BEGAN_AT: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
STARTS_AFTER: Final = {
    Position.SUPINE: timedelta(0),
    Position.SEATED: timedelta(minutes=8),
    Position.STANDING: timedelta(minutes=16),
}
_ROW: Final = re.compile(
    r"(?P<position>supine|seated|standing)(?P<slot>-\d+)?@(?P<minutes>\d+):(?P<seconds>\d\d)"
    r"(?P<late>!?) (?P<systolic>\d+|-)/(?P<diastolic>\d+|-) (?P<rate>\d+|-)"
)


def at(text: str) -> timedelta:
    """Return an offset from its text, e.g. `3:40`."""
    minutes, seconds = text.split(":")
    return timedelta(minutes=int(minutes), seconds=int(seconds))


def reading(number: int, row: str) -> Reading:
    """Return the reading that a row describes."""
    found = _ROW.fullmatch(row)
    if found is None:
        raise ValueError(row)
    position = Position(found["position"])
    offset = at(f"{found['minutes']}:{found['seconds']}")
    return Reading(
        number=number,
        position=position,
        slot=f"{position}{found['slot']}" if found["slot"] else None,
        values=Values(
            systolic=_number(found["systolic"]),
            diastolic=_number(found["diastolic"]),
            heart_rate=_number(found["rate"]),
        ),
        offset=offset,
        given_at=BEGAN_AT + STARTS_AFTER[position] + offset,
        late=bool(found["late"]),
    )


def record(
    *rows: str,
    age: AgeBand | None = AgeBand.FROM_20,
    protocol: ProtocolRef = SIX_READINGS.ref,
) -> TestRecord:
    """Return a record of the rows, numbered in the order they stand."""
    return TestRecord(
        number=1,
        protocol=protocol,
        age_band=age,
        began_at=BEGAN_AT,
        phases=tuple(
            PhaseStart(position=position, started_at=BEGAN_AT + after)
            for position, after in STARTS_AFTER.items()
        ),
        readings=tuple(reading(number, row) for number, row in enumerate(rows, start=1)),
    )


def three(
    lying: str, first: str, third: str, *, age: AgeBand | None = AgeBand.FROM_20
) -> TestRecord:
    """Return a record read lying at 5 min and standing at 1 and 3 min."""
    return record(
        f"supine-5@5:00 {lying}", f"standing-1@1:00 {first}", f"standing-3@3:00 {third}", age=age
    )


def rates(
    lying: int, *standing: tuple[str, int], age: AgeBand | None = AgeBand.FROM_20
) -> TestRecord:
    """Return a record of heart rates alone, standing ones with their offsets."""
    rows = [f"standing@{when} -/- {rate}" for when, rate in standing]
    return record(f"supine-5@5:00 -/- {lying}", *rows, age=age)


def pressures(lying: str, *standing: tuple[str, str]) -> TestRecord:
    """Return a record of pressures alone, standing ones with their offsets."""
    rows = [f"standing@{when} {pressure} -" for when, pressure in standing]
    return record(f"supine-5@5:00 {lying} -", *rows)


def _number(text: str) -> int | None:
    return None if text == "-" else int(text)
