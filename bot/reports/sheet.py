"""The CSV: one row a reading, planned ones that were missed among them, in order of time.

RFC 4180 with a header, UTF-8 without a byte order mark. Column names and codes are the same in
every language. Numbers are plain: a point for decimals, a minus for falls, empty when there is
none. Text that a spreadsheet could take for a formula begins with an apostrophe.

Columns:
    test: Counts this person's tests from 1.
    revision: Of the result; goes up with each correction after the end.
    protocol_id: Name of the protocol.
    protocol_version: Its version.
    age_band: `under-12`, `12-to-19` or `20-and-over`; decides the heart-rate line.
    ending: `completed`, `stopped`, `silent`, `emergency` or `unsafe-reading`.
    reading: Number of the reading in the test, in the order given; empty when it was missed.
    slot: Id of the planned reading; empty when it was not planned.
    position: `supine`, `seated` or `standing`.
    status: `taken`, `late` (after its window), `missed`, `extra` (not planned) or `again`: once
        more after the test, since a pressure was very high; no reading of it, in the last rows.
    corrected: `yes` when its numbers were changed after they were first given, else `no`.
    taken_at_utc: When it was given, ISO 8601; empty when it was missed.
    planned_s: Seconds from the start of the position to the planned time.
    offset_s: Seconds from the start of the position to the time it was given.
    since_lying_down_s: Seconds from lying down to the time it was given.
    systolic_mmHg, diastolic_mmHg, heart_rate_per_min: Its numbers.
    systolic_change_mmHg, diastolic_change_mmHg, heart_rate_change_per_min: Its numbers minus
        those of the supine reading that counts; empty for supine readings.
    symptoms: Those told since the row above and up to this one, parted by ` | `: code, strength
        of 10, seconds from lying down, own words (in which " is ' and | is /). The first row
        without a time, or else the last row, has those told later:
        `dizzy, 6/10, 1310 s | other, 1400 s, "legs buzz"`
    day: Kind of day as the person told it: `good`, `symptomatic` or `unsure`; this and what
        follows is empty when it was not told.
    cuff: `upper-arm` or `wrist`.
    rate_source: What the heart rate was read from: `cuff`, `oximeter`, `watch` or `fingers`.
    medicines: Classes that move the numbers, parted by ` | `: `beta-blocker`, `heart-slowing`,
        `stimulant`, `noradrenaline` (SNRI, NRI, amitriptyline), `diuretic`, `pressure-lowering`,
        `pressure-raising`; `none` when asked and none was named.
    last_dose: Of one of those, before the test: `within-4-hours`, `within-12-hours`,
        `within-24-hours` or `longer-ago`.
    departures: From the preparation, parted by ` | `: `extra-fluids`, `extra-salt`, `caffeine`,
        `nicotine` (both within 3 h), `heavy-meal`, `garments`, `poor-sleep`, `illness`; `none`
        when asked and none was named.
    origin: `watched` in the chat, or `paper`: typed in afterwards. Then only the beginning was
        told, and all other times are those of the plan; a symptom of no known time has none.

The person's own words for a reading are left out: its numbers are what was understood of them.
"""

import csv
import io
import unicodedata
from collections.abc import Sequence
from datetime import UTC
from typing import Final

from bot.findings.result import Findings
from bot.protocol.circumstances import Circumstances
from bot.protocol.record import Repeat, SymptomReport, TestRecord, Values
from bot.reports.rows import Row, rows, since_zero, symptoms_by_row

COLUMNS: Final = (
    "test",
    "revision",
    "protocol_id",
    "protocol_version",
    "age_band",
    "ending",
    "reading",
    "slot",
    "position",
    "status",
    "corrected",
    "taken_at_utc",
    "planned_s",
    "offset_s",
    "since_lying_down_s",
    "systolic_mmHg",
    "diastolic_mmHg",
    "heart_rate_per_min",
    "systolic_change_mmHg",
    "diastolic_change_mmHg",
    "heart_rate_change_per_min",
    "symptoms",
    "day",
    "cuff",
    "rate_source",
    "medicines",
    "last_dose",
    "departures",
    "origin",
)
"""The header, in order."""

_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n")

Cell = int | str | None


def tabulate(record: TestRecord, findings: Findings) -> bytes:
    """Return the file."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    found = rows(record, findings)
    for row, told in zip(found, symptoms_by_row(record, found), strict=True):
        writer.writerow([_safe(cell) for cell in _cells(record, row, told)])
    for repeat in record.repeats:
        writer.writerow([_safe(cell) for cell in _again(record, repeat)])
    return out.getvalue().encode()


def _cells(record: TestRecord, row: Row, told: Sequence[SymptomReport]) -> list[Cell]:
    reading = row.reading
    return [
        record.number,
        record.revision,
        record.protocol.id,
        record.protocol.version,
        record.age_band,
        record.ending,
        None if reading is None else reading.number,
        None if row.slot is None else row.slot.id,
        row.position,
        row.status,
        "no" if row.before is None else "yes",
        None if reading is None else reading.given_at.astimezone(UTC).isoformat(timespec="seconds"),
        None if row.slot is None else round(row.slot.due.total_seconds()),
        None if reading is None else round(reading.offset.total_seconds()),
        None if reading is None else round(since_zero(record, reading.given_at).total_seconds()),
        *_numbers(row.values),
        *_numbers(row.change or Values()),
        " | ".join(_symptom(record, report) for report in told),
        record.day,
        *_circumstances(record.circumstances or Circumstances()),
        record.origin,
    ]


def _again(record: TestRecord, repeat: Repeat) -> list[Cell]:
    known: dict[str, Cell] = {
        "test": record.number,
        "revision": record.revision,
        "protocol_id": record.protocol.id,
        "protocol_version": record.protocol.version,
        "age_band": record.age_band,
        "ending": record.ending,
        "status": "again",
        "taken_at_utc": repeat.given_at.astimezone(UTC).isoformat(timespec="seconds"),
        "since_lying_down_s": round(since_zero(record, repeat.given_at).total_seconds()),
        "day": record.day,
        "origin": record.origin,
    }
    numbers = dict(
        zip(
            ("systolic_mmHg", "diastolic_mmHg", "heart_rate_per_min"),
            _numbers(repeat.values),
            strict=True,
        )
    )
    return [{**known, **numbers}.get(column) for column in COLUMNS]


def _circumstances(told: Circumstances) -> list[Cell]:
    none = "none" if told.audited else None
    return [
        told.cuff,
        told.rate_source,
        " | ".join(told.medicines) or none,
        told.last_dose,
        " | ".join(told.departures) or none,
    ]


def _numbers(values: Values) -> tuple[int | None, int | None, int | None]:
    return values.systolic, values.diastolic, values.heart_rate


def _symptom(record: TestRecord, report: SymptomReport) -> str:
    since = round(since_zero(record, report.told_at).total_seconds())
    parts = [
        str(report.symptom),
        *([] if report.strength is None else [f"{report.strength}/10"]),
        *([f"{since} s"] if record.time_known(report) else []),
        *([f'"{words}"'] if (words := _one_line(report.words or "")) else []),
    ]
    return ", ".join(parts)


def _one_line(text: str) -> str:
    """Return text without controls, and with nothing in it that parts or quotes symptoms."""
    visible = "".join(
        " " if character.isspace() else character
        for character in text.replace('"', "'").replace("|", "/")
        if character.isspace() or not unicodedata.category(character).startswith("C")
    )
    return " ".join(visible.split())


def _safe(cell: Cell) -> Cell:
    """Return text that no spreadsheet runs as a formula; numbers stay numbers."""
    if isinstance(cell, str) and cell.startswith(_FORMULA):
        return f"'{cell}"
    return cell
