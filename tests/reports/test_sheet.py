"""The CSV: tidy, plain and safe to open."""

import csv
import io
from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from bot.engine.effects import Form
from bot.findings import find
from bot.protocol.record import Repeat, Symptom, TestRecord, Values
from bot.protocol.released import released
from bot.reports import make, sheet
from tests.reports.examples import (
    CLEAR_RISE,
    CORRECTED,
    CROWDED,
    EARLY_FALL,
    EXAMPLES,
    HOSTILE,
    STOPPED,
    symptom,
)

examples = pytest.mark.parametrize("record", EXAMPLES.values(), ids=EXAMPLES)


def content(record: TestRecord) -> bytes:
    """Return the file."""
    return make(Form.CSV, record, "en").content


def rows(record: TestRecord) -> list[dict[str, str]]:
    """Return the file, read back."""
    return list(csv.DictReader(io.StringIO(content(record).decode(), newline=""), strict=True))


def number(cell: str) -> int | None:
    """Return the number in a cell."""
    return int(cell) if cell else None


@examples
def test_one_row_a_reading(record: TestRecord) -> None:
    """Each planned reading has a row, taken or not, and so has each extra one."""
    found = rows(record)
    planned = [slot.id for slot in released(record.protocol).slots]
    extras = [r for r in record.readings if r.slot is None]
    assert sorted(row["slot"] for row in found if row["slot"]) == sorted(planned)
    assert len(found) == len(planned) + len(extras)
    assert {row["status"] for row in found} <= {"taken", "late", "missed", "extra"}


@examples
def test_numbers_come_back(record: TestRecord) -> None:
    """Every number, offset and instant reads back as it was recorded."""
    by_number = {row["reading"]: row for row in rows(record) if row["reading"]}
    assert len(by_number) == len(record.readings)
    for reading in record.readings:
        row = by_number[str(reading.number)]
        assert number(row["systolic_mmHg"]) == reading.values.systolic
        assert number(row["diastolic_mmHg"]) == reading.values.diastolic
        assert number(row["heart_rate_per_min"]) == reading.values.heart_rate
        assert timedelta(seconds=int(row["offset_s"])) == reading.offset
        assert datetime.fromisoformat(row["taken_at_utc"]) == reading.given_at
        assert row["position"] == reading.position


@examples
def test_changes_are_those_of_the_findings(record: TestRecord) -> None:
    """The change columns of standing readings are the changes that findings rest on."""
    by_number = {row["reading"]: row for row in rows(record)}
    for change in find(record).changes:
        row = by_number[str(change.reading.number)]
        assert number(row["systolic_change_mmHg"]) == change.systolic
        assert number(row["diastolic_change_mmHg"]) == change.diastolic
        assert number(row["heart_rate_change_per_min"]) == change.heart_rate


@examples
def test_rows_are_in_order_of_time(record: TestRecord) -> None:
    """Rows with an instant are in its order."""
    instants = [row["taken_at_utc"] for row in rows(record) if row["taken_at_utc"]]
    assert instants == sorted(instants)


def test_every_row_tells_its_test() -> None:
    """A row taken out of the file still says which test, revision and protocol it is of."""
    for row in rows(CORRECTED):
        assert row["test"] == "1"
        assert row["revision"] == "2"
        assert (row["protocol_id"], row["protocol_version"]) == ("four-readings", "2")


def test_statuses() -> None:
    """Late, missed and corrected readings say so; a missed one has no numbers."""
    late = {row["slot"]: row["status"] for row in rows(EARLY_FALL)}
    assert late["standing-5"] == "late"
    missed = {row["slot"]: row for row in rows(STOPPED)}["seated-5"]
    assert missed["status"] == "missed"
    assert missed["systolic_mmHg"] == missed["taken_at_utc"] == missed["offset_s"] == ""
    assert missed["planned_s"] == "300"
    assert [row["corrected"] for row in rows(CORRECTED)] == ["no", "no", "yes", "no"]
    assert {row["status"] for row in rows(CROWDED) if not row["slot"]} == {"extra"}


@examples
def test_every_symptom_is_there_once(record: TestRecord) -> None:
    """All symptoms are in the file, whatever the chart and the PDF left out."""
    told = [part for row in rows(record) for part in row["symptoms"].split(" | ") if part]
    assert len(told) == len(record.symptoms)


def test_a_symptom_stands_by_the_reading_after_it() -> None:
    """A symptom is in the row of the first reading after it, with strength, time and words."""
    found = {row["slot"]: row["symptoms"] for row in rows(CLEAR_RISE)}
    assert found["standing-5"] == "dizzy, 6/10, 880 s"
    assert found["standing-10"] == 'other, 1300 s, "my legs buzz"'


def test_the_bytes_are_plain() -> None:
    """UTF-8 without a mark, RFC 4180 line ends, the documented header."""
    plain = content(CLEAR_RISE)
    assert not plain.startswith(b"\xef\xbb\xbf")
    assert plain.endswith(b"\r\n")
    assert plain.count(b"\n") == plain.count(b"\r\n") == 1 + 4
    assert plain.decode().split("\r\n")[0].split(",") == list(sheet.COLUMNS)
    documented = sheet.__doc__ or ""
    assert [name for name in sheet.COLUMNS if name not in documented] == []


@pytest.mark.parametrize("words", [*HOSTILE, "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "a|b\"c'"])
def test_no_cell_runs(words: str) -> None:
    """No text cell begins as a formula does, and words neither break rows nor hide symptoms."""
    record = replace(
        CLEAR_RISE,
        symptoms=(
            symptom(Symptom.OTHER, 2, words=words),
            symptom(Symptom.DIZZY, 2.5, words=words),
        ),
    )
    found = rows(record)
    assert len(found) == 4
    assert len(found[2]["symptoms"].split(" | ")) == 2
    for row in found:
        for column, cell in row.items():
            if not column.endswith(("_mmHg", "_per_min")):
                assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))


def test_a_formula_in_a_text_cell_gets_an_apostrophe() -> None:
    """Text from outside that begins as a formula is made harmless; numbers stay numbers."""
    protocol = replace(CLEAR_RISE.protocol)
    assert sheet._safe("=cmd()") == "'=cmd()"
    assert sheet._safe(-20) == -20
    assert sheet._safe(protocol.id) == protocol.id


def test_what_was_measured_again_is_a_row_of_its_own() -> None:
    """Numbers measured again after the test stand in the last row, as none of its readings."""
    assert CLEAR_RISE.ended_at is not None
    later = CLEAR_RISE.ended_at + timedelta(minutes=1)
    repeat = Repeat(values=Values(systolic=184, diastolic=122), given_at=later)
    *before, last = rows(replace(CLEAR_RISE, repeats=(repeat,)))
    assert before == rows(CLEAR_RISE)
    assert (last["status"], last["reading"], last["position"]) == ("again", "", "")
    assert (last["systolic_mmHg"], last["diastolic_mmHg"]) == ("184", "122")
    assert last["taken_at_utc"] == later.isoformat(timespec="seconds")
