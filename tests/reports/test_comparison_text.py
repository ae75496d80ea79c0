"""The comparison in words: short, plain, true to the numbers, and never a diagnosis."""

import re
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Final

import pytest
from hypothesis import given, settings

from bot.findings import Line
from bot.findings.alike import Doubt
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
from bot.reports.comparison import compare, compose
from bot.texts import between_files
from tests.reports.examples import (
    CLEAR_RISE,
    EARLY_FALL,
    EXAMPLES,
    LATER_FALL,
    NO_CHANGE,
    NOTHING,
    QUIET_FOUR,
    RISE_ONCE,
    STOPPED,
    VERY_HIGH,
    any_record,
)
from tests.reports.test_summary import grade

LONGEST: Final = 1260
"""Characters: about one screen of a phone, and a little more when all that can differ differs."""

ALIKE: Final = Circumstances(
    zone="Europe/Madrid",
    cuff=Cuff.WRIST,
    rate_source=RateSource.CUFF,
    medicines=(Medicine.DIURETIC,),
    last_dose=LastDose.WITHIN_4_HOURS,
    audited=True,
)
UNLIKE: Final = Circumstances(
    zone="Asia/Tokyo",
    cuff=Cuff.UPPER_ARM,
    rate_source=RateSource.WATCH,
    departures=(Departure.CAFFEINE,),
)

examples = pytest.mark.parametrize("record", EXAMPLES.values(), ids=EXAMPLES)


def one(record: TestRecord, known: Circumstances | None = ALIKE) -> TestRecord:
    """Return a record as test 1, on a good day."""
    return replace(record, number=1, day=DayKind.GOOD, circumstances=known)


def two(record: TestRecord, known: Circumstances | None = ALIKE) -> TestRecord:
    """Return a record as test 2, a week later, on a symptomatic day."""
    return replace(
        record,
        number=2,
        day=DayKind.SYMPTOMATIC,
        began_at=record.began_at + timedelta(days=7),
        circumstances=known,
    )


def keys(first: TestRecord, second: TestRecord) -> list[str]:
    """Return the keys of all sentences, in order."""
    return [s.key for paragraph in compose(first, second, "en") for s in paragraph]


@examples
def test_it_is_short_and_plain(record: TestRecord) -> None:
    """Beside any other test: about one screen, grade 6 or below, short sentences, no gaps."""
    for other in EXAMPLES.values():
        text = compare(one(record), two(other, UNLIKE), "en")
        assert len(text) <= LONGEST
        assert grade(text) <= 6
        assert max(len(part.split()) for part in re.split(r"(?<=[.?!])\s", text)) <= 30
        assert not re.search(r"[{}]|\bNone\b(?! of)|\n\n\n| {2}|\n$|^\n", text)


@examples
def test_it_is_a_screening_with_a_next_step(record: TestRecord) -> None:
    """Whatever the numbers: no diagnosis, the care team, no medicine stopped, nothing soothing."""
    text = compare(one(record), two(EARLY_FALL), "en")
    for sentence in (
        "These are screening tests. They are not a diagnosis.",
        "send both PDFs to your care team",
        "Do not stop or change any medicine",
    ):
        assert sentence in text
    lowered = text.lower()
    conditions = ("pots", "tachycardia", "hypotension", "hypertension", "syndrome", "you have")
    comforts = ("normal", "healthy", "nothing wrong", "all clear", "safe", "better", "worse")
    for word in (*conditions, *comforts):
        assert not re.search(rf"\b{word}\b", lowered)


def test_the_days_are_named_as_they_were_told() -> None:
    """Each test stands with its number, its date on the person's clock, and its kind of day."""
    late = replace(one(CLEAR_RISE), began_at=datetime(2026, 3, 2, 23, 30, tzinfo=UTC))
    text = compare(late, replace(two(CLEAR_RISE), day=DayKind.UNSURE), "en")
    assert re.search(r"Test 1: \w+, \w+ 3, a good day\.", text)
    assert re.search(r"Test 2: \w+, \w+ 9, not sure what kind of day\.", text)
    assert "a day with symptoms" in compare(late, two(CLEAR_RISE), "en")
    untold = compare(replace(late, day=None), replace(two(CLEAR_RISE), day=None), "en")
    assert "day." not in untold.split("\n\n")[1]


def test_numbers_stand_side_by_side_with_what_they_come_to() -> None:
    """Both changes, how far apart, larger or within, and what the ordinary difference is."""
    text = compare(one(CLEAR_RISE), two(LATER_FALL), "en")
    assert (
        "Heart rate: +38, then +7. That is 31 apart. It is larger than the ordinary day-to-day "
        "difference, up to 18." in text
    )
    assert "5 min: +33, then +6; 10 min: +38, then +7." in text
    assert (
        "Blood pressure, top number: -6, then -26. That is 20 apart. It is within the ordinary "
        "day-to-day difference, up to 25." in text
    )


def test_the_limit_that_is_told_is_never_below_what_is_within() -> None:
    """A difference called larger is more than the limit told; one called within is not."""
    for first in EXAMPLES.values():
        for second in EXAMPLES.values():
            text = compare(one(first), two(second), "en")
            for apart, word, limit in re.findall(
                r"That is (\d+) apart\. It is (larger|within)\D+(\d+)\.", text
            ):
                assert (int(apart) > int(limit)) is (word == "larger")


@pytest.mark.parametrize(
    ("first", "second", "key"),
    [
        (CLEAR_RISE, CLEAR_RISE, "comparison.same"),
        (CLEAR_RISE, CLEAR_RISE, "comparison.lines.both"),
        (CLEAR_RISE, QUIET_FOUR, "comparison.lines.one"),
        (CLEAR_RISE, EARLY_FALL, "comparison.lines.unknown"),
        (CLEAR_RISE, RISE_ONCE, "comparison.lines.not-confirmed"),
        (CLEAR_RISE, VERY_HIGH, "comparison.lines.more"),
        (NO_CHANGE, NO_CHANGE, "comparison.lines.none"),
        (CLEAR_RISE, NOTHING, "comparison.nothing"),
        (CLEAR_RISE, STOPPED, "comparison.larger"),
        (CLEAR_RISE, QUIET_FOUR, "comparison.guide"),
        (CLEAR_RISE, replace(CLEAR_RISE, readings=CLEAR_RISE.readings[:2]), "comparison.nothing"),
    ],
)
def test_each_pattern_has_its_sentence(first: TestRecord, second: TestRecord, key: str) -> None:
    """What the comparison finds is said by the sentence made for it."""
    assert key in keys(one(first), two(second))


def test_a_missing_number_is_told() -> None:
    """A change that one day lacks is told as not measured, and not compared."""
    missing = replace(
        CLEAR_RISE,
        readings=tuple(
            replace(r, values=replace(r.values, systolic=None)) for r in CLEAR_RISE.readings
        ),
    )
    text = compare(one(CLEAR_RISE), two(missing), "en")
    assert "top number: -6, then not measured. A number is missing" in text


def test_alike_tests_have_no_warning_and_unlike_ones_do() -> None:
    """What differs is named before the next step; the hour comes with its reason."""
    assert "comparison.doubts" not in keys(one(CLEAR_RISE), two(CLEAR_RISE))
    found = keys(one(CLEAR_RISE), two(CLEAR_RISE, UNLIKE))
    assert found.index("comparison.doubts") < found.index("comparison.next")
    assert "comparison.doubts.hour" in found
    text = compare(one(CLEAR_RISE), two(CLEAR_RISE, replace(ALIKE, cuff=Cuff.UPPER_ARM)), "en")
    assert "Take care when you compare: the cuff differed." in text
    untold = compare(one(CLEAR_RISE), two(CLEAR_RISE, None), "en")
    assert "we do not know all about both days" in untold


def test_what_goes_without_saying_is_not_said() -> None:
    """A test that ended early is not also told to lack readings."""
    short = replace(STOPPED, circumstances=ALIKE)
    assert "the readings differed" not in compare(one(short), two(NO_CHANGE), "en")
    few = replace(NO_CHANGE, readings=NO_CHANGE.readings[:-1])
    assert "the readings differed" in compare(one(few), two(NO_CHANGE), "en")


@settings(deadline=None, max_examples=60)
@given(first=any_record(), second=any_record())
def test_any_two_records_are_compared(first: TestRecord, second: TestRecord) -> None:
    """No two records are too odd: no gap is left in a sentence, and it stays short."""
    text = compare(one(first, UNLIKE), two(second), "en")
    assert not re.search(r"[{}]|\bNone\b(?! of)|\n\n\n| {2}", text)
    assert len(text) <= LONGEST


def test_every_value_has_its_words() -> None:
    """Each line, doubt and kind of day has words of its own."""
    wanted = [
        *(f"comparison.line.{line}" for line in Line),
        *(f"comparison.doubt.{doubt}" for doubt in Doubt),
        *(f"comparison.day.{day}" for day in DayKind),
    ]
    words = [between_files.MESSAGES[key].one for key in wanted]
    assert len(set(words)) == len(words)
