"""What surrounded a test travels with it: on the page and in the table."""

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from typing import Final

import pytest

from bot.engine.effects import Form
from bot.protocol.circumstances import (
    Circumstances,
    Cuff,
    DayKind,
    Departure,
    LastDose,
    Medicine,
    RateSource,
)
from bot.protocol.record import TestRecord
from bot.reports import circumstances, make
from bot.texts import between_files
from tests.reports.examples import CLEAR_RISE, CROWDED, EXAMPLES, STOPPED
from tests.reports.test_page import assert_accessible, assert_within_margins, squeezed, words_of

LONGEST: Final = Circumstances(
    zone="America/Argentina/ComodRivadavia",
    cuff=Cuff.UPPER_ARM,
    rate_source=RateSource.FINGERS,
    medicines=tuple(Medicine),
    last_dose=LastDose.WITHIN_24_HOURS,
    departures=tuple(Departure),
    audited=True,
)

examples = pytest.mark.parametrize("record", EXAMPLES.values(), ids=EXAMPLES)


def told(record: TestRecord, known: Circumstances | None = LONGEST) -> TestRecord:
    """Return a record with circumstances, on a symptomatic day."""
    return replace(record, circumstances=known, day=DayKind.SYMPTOMATIC)


def page(record: TestRecord) -> bytes:
    """Return the PDF."""
    return make(Form.PDF, record, "en").content


def cells(record: TestRecord) -> list[dict[str, str]]:
    """Return the CSV, read back."""
    content = make(Form.CSV, record, "en").content.decode()
    return list(csv.DictReader(io.StringIO(content, newline=""), strict=True))


@examples
def test_the_longest_circumstances_fit_the_page(record: TestRecord) -> None:
    """With all that can be told, any example is still one accessible page within its margins."""
    content = page(told(record))
    assert_accessible(content)
    assert_within_margins(content)
    assert squeezed("Departures from the preparation: extra fluids; extra salt") in words_of(
        content
    )


@examples
def test_a_longer_language_fits_with_circumstances(record: TestRecord, longer_words: None) -> None:
    """The same with all sentences a third longer."""
    content = page(told(record))
    assert words_of(content)
    assert_within_margins(content)


def test_all_that_was_told_is_on_the_page() -> None:
    """Day, cuff, source, zone, medicines, last dose and departures stand there in words."""
    text = words_of(page(told(CROWDED)))
    for words in (
        "Circumstances",
        "Kind of day: a symptomatic day.",
        "Cuff: upper arm.",
        "Heart rate read from: the pulse, counted.",
        "Time zone: America/Argentina/ComodRivadavia.",
        "SNRI, NRI or amitriptyline; diuretic;",
        "Last dose: within 24 h before.",
        "poor sleep; illness that day.",
    ):
        assert squeezed(words) in text


def test_without_circumstances_nothing_is_said() -> None:
    """A test of which nothing of it is known has no such part, and its times are UTC alone."""
    text = words_of(page(CLEAR_RISE))
    assert "Circumstances" not in text
    assert "localtime" not in text
    assert circumstances.lines(CLEAR_RISE, "en") == []


def test_what_was_not_told_is_not_made_up() -> None:
    """Not told, not asked about, and none are three things."""
    bare = circumstances.lines(replace(CLEAR_RISE, circumstances=Circumstances()), "en")
    assert bare == [
        "Cuff: not told. Heart rate read from: not told.",
        "Medicines that move the numbers: not asked about.",
        "Departures from the preparation: not asked about.",
    ]
    none = Circumstances(medicines=(), audited=True)
    said = circumstances.lines(replace(CLEAR_RISE, circumstances=none), "en")[1]
    assert said == "Medicines that move the numbers: none told."
    asked = Circumstances(medicines=(Medicine.DIURETIC,), audited=True)
    assert circumstances.lines(replace(CLEAR_RISE, circumstances=asked), "en")[1:] == [
        "Medicines that move the numbers: diuretic. Last dose: not told.",
        "Departures from the preparation: none told.",
    ]
    day = replace(CLEAR_RISE, day=DayKind.UNSURE)
    assert circumstances.lines(day, "en") == ["Kind of day: the person was not sure."]


@pytest.mark.parametrize(
    ("zone", "shown"),
    [
        ("Europe/Madrid", "Mar 2, 2026, 09:14 UTC (10:14 local time)"),
        ("Asia/Kolkata", "Mar 2, 2026, 09:14 UTC (14:44 local time)"),
        ("Pacific/Kiritimati", "Mar 2, 2026, 09:14 UTC (23:14 local time)"),
        ("Pacific/Niue", "Mar 2, 2026, 09:14 UTC (Mar 1, 2026, 22:14 local time)"),
        (None, "Mar 2, 2026, 09:14 UTC"),
    ],
)
def test_local_time_stands_beside_utc(zone: str | None, shown: str) -> None:
    """The person's clock at the start, with its date where that is another day."""
    record = told(CLEAR_RISE, Circumstances(zone=zone))
    assert circumstances.beside_local(record.began_at, record, "en") == shown
    assert squeezed(f"Begun {shown}") in words_of(page(record))


def test_local_time_follows_the_clocks() -> None:
    """Before and after the clocks change the same instant of the day is another local time."""
    record = told(CLEAR_RISE, Circumstances(zone="Europe/Madrid"))
    shown = [
        circumstances.beside_local(datetime(2026, 3, day, 9, 0, tzinfo=UTC), record, "en")
        for day in (28, 29)
    ]
    assert [re.findall(r"\((\d\d:\d\d)", words) for words in shown] == [["10:00"], ["11:00"]]


def test_the_table_has_them_as_codes() -> None:
    """In every row: day, cuff, source, medicines, last dose, departures."""
    for row in cells(told(STOPPED)):
        assert row["day"] == "symptomatic"
        assert row["cuff"] == "upper-arm"
        assert row["rate_source"] == "fingers"
        assert row["medicines"].split(" | ") == list(Medicine)
        assert row["last_dose"] == "within-24-hours"
        assert row["departures"].split(" | ") == list(Departure)


@pytest.mark.parametrize(
    ("known", "filled"),
    [
        (None, ["", "", "", "", "", ""]),
        (Circumstances(), ["", "", "", "", "", ""]),
        (Circumstances(audited=True), ["", "", "", "", "", "none"]),
        (Circumstances(medicines=(), audited=True), ["", "", "", "none", "", "none"]),
    ],
)
def test_the_table_is_empty_where_nothing_was_told(
    known: Circumstances | None, filled: Sequence[str]
) -> None:
    """What was not told is empty; what was asked and denied says so."""
    columns = ("day", "cuff", "rate_source", "medicines", "last_dose", "departures")
    for row in cells(replace(CLEAR_RISE, circumstances=known)):
        assert [row[column] for column in columns] == filled


def test_every_value_has_its_words_for_the_page() -> None:
    """Each kind of day, cuff, source, medicine, dose and departure has words of its own."""
    families = {
        "day": DayKind, "cuff": Cuff, "rate-source": RateSource, "medicine": Medicine,
        "last-dose": LastDose, "departure": Departure,
    }  # fmt: skip
    for family, values in families.items():
        words = [between_files.MESSAGES[f"files.{family}.{value}"].one for value in values]
        assert len(set(words)) == len(words)
