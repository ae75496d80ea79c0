"""The CSV: one row a reading, planned ones that were missed among them, in order of time.

RFC 4180 with a header, UTF-8 without a byte order mark. Column names and codes are the same in
every language; what each holds is said in `columns.py`. Numbers are plain: a point for decimals, a
minus for falls, empty when there is none. Text that a spreadsheet could take for a formula begins
with an apostrophe. What is of the whole test stands in each of its rows, so that a row taken out
of the file still says what it is of.

The person's own words for a reading are left out: its numbers are what was understood of them.
"""

import csv
import io
import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import UTC
from typing import Final

from bot.findings import find
from bot.findings.certainty import Certainties, certainty
from bot.findings.deltas import number
from bot.findings.quality import quality
from bot.findings.result import Findings
from bot.protocol.circumstances import Circumstances
from bot.protocol.record import Aftercare, Measure, Repeat, SymptomReport, TestRecord, Values
from bot.reports.columns import AGAIN, COLUMNS, ON_CHANGES, PERSON, Column, stem
from bot.reports.rows import Row, rows, since_zero, symptoms_by_row

_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""What a spreadsheet may take for the beginning of a formula; the wide ones are read as the others
where wide letters are usual."""

_UNITS: Final = {
    Measure.SYSTOLIC: "mmHg",
    Measure.DIASTOLIC: "mmHg",
    Measure.HEART_RATE: "per_min",
}

Cell = int | float | str | None
Cells = Mapping[str, Cell]


def tabulate(records: Sequence[TestRecord]) -> bytes:
    """Return the file of one person: one test, or several in the order given.

    Raises:
        KeyError: The protocol of a record was never released.
    """
    return _written(COLUMNS, (cells for record in records for cells in _test(record)))


def tabulate_people(people: Mapping[str, Sequence[TestRecord]]) -> bytes:
    """Return the file of many: the same columns behind what each person is known as.

    Args:
        people: The tests of each, by the clinic's reference or the conversation's id.

    Raises:
        KeyError: The protocol of a record was never released.
    """
    return _written(
        (PERSON, *COLUMNS),
        (
            {PERSON.name: person, **cells}
            for person, records in people.items()
            for record in records
            for cells in _test(record)
        ),
    )


def _written(columns: Sequence[Column], table: Iterable[Cells]) -> bytes:
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([column.name for column in columns])
    writer.writerows([_safe(cells.get(column.name)) for column in columns] for cells in table)
    return out.getvalue().encode()


def _test(record: TestRecord) -> Iterator[Cells]:
    """Yield the rows of a test."""
    findings = find(record)
    known = certainty(record, findings)
    whole = _whole(record, findings, known)
    spread = {(one.reading, one.measure): one.sd for one in known.changes}
    found = rows(record, findings)
    for row, told in zip(found, symptoms_by_row(record, found), strict=True):
        yield {**whole, **_reading(record, row, spread), "symptoms": _told(record, told)}
    for repeat in record.repeats:
        yield {**whole, **_again(record, repeat)}


def _whole(record: TestRecord, findings: Findings, known: Certainties) -> Cells:
    """Return what is of the whole test."""
    told = record.circumstances or Circumstances()
    none = "none" if told.audited else None
    graded = quality(record, findings)
    cells: dict[str, Cell] = {
        "test": record.number,
        "revision": record.revision,
        "protocol_id": record.protocol.id,
        "protocol_version": record.protocol.version,
        "age_band": record.age_band,
        "ending": record.ending,
        "day": record.day,
        "cuff": told.cuff,
        "rate_source": told.rate_source,
        "medicines": " | ".join(told.medicines or ()) or (None if told.medicines is None else none),
        "last_dose": told.last_dose,
        "departures": " | ".join(told.departures) or none,
        "origin": record.origin,
        "quality": graded.grade,
        "shortfalls": " | ".join(reason.shortfall for reason in graded.reasons),
        "aftercare": " | ".join(_answered(record, one) for one in record.aftercare) or None,
    }
    for line in ON_CHANGES:
        cells[f"{stem(line)}_state"] = findings.on(line).state
        if (sure := known.on(line)) is not None:
            cells[f"{stem(line)}_probability"] = round(sure.probability, 3)
            cells[f"{stem(line)}_band"] = sure.band
    return cells


def _reading(
    record: TestRecord, row: Row, spread: Mapping[tuple[int, Measure], float]
) -> Mapping[str, Cell]:
    cells: dict[str, Cell] = {
        "slot": None if row.slot is None else row.slot.id,
        "position": row.position,
        "status": row.status,
        "corrected": "no" if row.before is None else "yes",
        "planned_s": None if row.slot is None else round(row.slot.due.total_seconds()),
        **_numbers(row.values),
        **_numbers(row.change or Values(), "_change"),
    }
    if (reading := row.reading) is None:
        return cells
    sure = {measure: spread.get((reading.number, measure)) for measure in Measure}
    return {
        **cells,
        "reading": reading.number,
        "taken_at_utc": reading.given_at.astimezone(UTC).isoformat(timespec="seconds"),
        "offset_s": round(reading.offset.total_seconds()),
        "since_lying_down_s": round(since_zero(record, reading.given_at).total_seconds()),
        **{
            f"{measure}_change_sd_{_UNITS[measure]}": None if sd is None else round(sd, 1)
            for measure, sd in sure.items()
        },
    }


def _again(record: TestRecord, repeat: Repeat) -> Cells:
    return {
        "status": AGAIN,
        "taken_at_utc": repeat.given_at.astimezone(UTC).isoformat(timespec="seconds"),
        "since_lying_down_s": round(since_zero(record, repeat.given_at).total_seconds()),
        **_numbers(repeat.values),
    }


def _numbers(values: Values, of: str = "") -> Mapping[str, Cell]:
    return {f"{measure}{of}_{unit}": number(values, measure) for measure, unit in _UNITS.items()}


def _told(record: TestRecord, told: Sequence[SymptomReport]) -> str:
    return " | ".join(_symptom(record, report) for report in told)


def _answered(record: TestRecord, one: Aftercare) -> str:
    return f"{one.answer}, {round(since_zero(record, one.at).total_seconds())} s"


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
