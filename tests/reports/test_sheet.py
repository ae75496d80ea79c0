"""The CSV: tidy, plain and safe to open."""

import csv
import io
import re
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Final

import pytest

from bot.engine.effects import Form
from bot.findings import find
from bot.findings.certainty import certainty
from bot.findings.quality import quality
from bot.protocol.record import Aftercare, Answer, Repeat, Symptom, TestRecord, Values
from bot.protocol.released import released
from bot.reports import make, people_table, person_table
from bot.reports.columns import COLUMNS, ON_CHANGES, dictionary, stem
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


WHOLE: Final = ("test", "revision", "ending", "day", "cuff", "departures", "quality", "shortfalls")
"""Columns that say something of the whole test."""


def content(record: TestRecord) -> bytes:
    """Return the file."""
    return make(Form.CSV, record, "en").content


def read(plain: bytes) -> list[dict[str, str]]:
    """Return the rows of a file by its header."""
    return list(csv.DictReader(io.StringIO(plain.decode(), newline=""), strict=True))


def rows(record: TestRecord) -> list[dict[str, str]]:
    """Return the file, read back."""
    return read(content(record))


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
    assert plain.decode().split("\r\n")[0].split(",") == [column.name for column in COLUMNS]


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
    risky = ("=cmd()", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1", "－1")
    people = dict.fromkeys((*risky, "HS-0042"), (CLEAR_RISE,))
    found = read(people_table(people).content)
    assert [row["person"] for row in found[::4]] == [*(f"'{name}" for name in risky), "HS-0042"]
    assert {row["systolic_change_mmHg"] for row in found} == {"", "3", "-2", "-6"}


def test_what_was_measured_again_is_a_row_of_its_own() -> None:
    """Numbers measured again after the test stand in the last row, as none of its readings."""
    assert CLEAR_RISE.ended_at is not None
    later = CLEAR_RISE.ended_at + timedelta(minutes=1)
    repeat = Repeat(values=Values(systolic=184, diastolic=122), given_at=later)
    *before, last = rows(replace(CLEAR_RISE, repeats=(repeat,)))
    assert before == rows(CLEAR_RISE)
    assert {name: last[name] for name in WHOLE} == {name: before[0][name] for name in WHOLE}
    assert (last["status"], last["reading"], last["position"]) == ("again", "", "")
    assert (last["systolic_mmHg"], last["diastolic_mmHg"]) == ("184", "122")
    assert last["taken_at_utc"] == later.isoformat(timespec="seconds")


def test_how_somebody_was_looked_after_stands_in_every_row() -> None:
    """Answers after the end, silence too, come back in order with seconds from lying down."""
    assert CLEAR_RISE.ended_at is not None
    since = round((CLEAR_RISE.ended_at - CLEAR_RISE.phases[0].started_at).total_seconds())
    told = tuple(
        Aftercare(answer=answer, at=CLEAR_RISE.ended_at + timedelta(minutes=minutes))
        for answer, minutes in ((Answer.SILENT, 2), (Answer.BETTER, 5))
    )
    cells = {row["aftercare"] for row in rows(replace(CLEAR_RISE, aftercare=told))}
    assert cells == {f"silent, {since + 120} s | better, {since + 300} s"}
    assert {row["aftercare"] for row in rows(CLEAR_RISE)} == {""}


@examples
def test_every_row_says_how_sure_and_how_good(record: TestRecord) -> None:
    """State, probability, band and grade are those of the findings, in every row of the test."""
    findings = find(record)
    known, graded = certainty(record, findings), quality(record, findings)
    assert {one.line for one in known.lines} <= set(ON_CHANGES)
    for row in rows(record):
        assert row["quality"] == graded.grade
        assert row["shortfalls"] == " | ".join(reason.shortfall for reason in graded.reasons)
        for line in ON_CHANGES:
            told = tuple(row[f"{stem(line)}_{part}"] for part in ("state", "probability", "band"))
            one = known.on(line)
            sure = ("", "") if one is None else (str(round(one.probability, 3)), one.band)
            assert told == (findings.on(line).state, *sure)


def test_a_change_has_its_error_beside_it() -> None:
    """By hand: the root of twice a quarter of 8 squared and 1/12 is 5.67 for a pressure.

    For the rate, with what it was read from not told, the wider of oximeter and cuff.
    """
    lying, seated, standing, *_ = rows(CLEAR_RISE)
    spread = ("systolic_change_sd_mmHg", "diastolic_change_sd_mmHg")
    assert [standing[name] for name in spread] == ["5.7", "5.7"]
    assert float(standing["heart_rate_change_sd_per_min"]) > 0
    assert [row[name] for row in (lying, seated) for name in spread] == [""] * 4


def test_all_tests_of_a_person_are_one_table() -> None:
    """The rows of several tests follow each other under one header, and say which each is of."""
    second = replace(EARLY_FALL, number=2)
    both = person_table([CLEAR_RISE, second])
    assert read(both.content) == [*rows(CLEAR_RISE), *rows(second)]
    assert both.name == "wallside-tests.csv"
    assert both.content.count(b"age_band") == 1


def test_the_tests_of_many_are_one_table() -> None:
    """The same columns behind the reference; a file without anybody is its header."""
    many = people_table({"HS-2": [CLEAR_RISE], "HS-1": [EARLY_FALL, STOPPED], "HS-3": []})
    found = read(many.content)
    assert list(found[0]) == ["person", *(column.name for column in COLUMNS)]
    assert [{**row, "person": ""} for row in found] == [
        {**row, "person": ""}
        for record in (CLEAR_RISE, EARLY_FALL, STOPPED)
        for row in rows(record)
    ]
    assert list(dict.fromkeys(row["person"] for row in found)) == ["HS-2", "HS-1"]
    assert "HS-" not in many.name
    assert read(people_table({}).content) == []


def test_every_column_is_documented() -> None:
    """The developers' page holds the dictionary of the columns, made from the code."""
    page = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert dictionary() in page
    stems = "|".join(stem(line) for line in ON_CHANGES)
    for column in COLUMNS:
        assert f"| `{re.sub(f'^({stems})_', '{line}_', column.name)}` |" in page
