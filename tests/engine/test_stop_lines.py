"""Numbers that stop a test, each at its edge.

The lines are a design choice for each clinic to sign off; sources stand at `StopLines`. Check
values: CDISC pilot study (open clinical-trial sample data; attribution: CDISC SDTM/ADaM pilot
project), where 110/60 88 lying and 70/50 80 standing is to stop and is a reflex pattern.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.engine.context import Context, StopLines
from bot.engine.dialogues.crossing import WARNING, Crossing, crossed
from bot.engine.recovery import LyingDown, Remeasuring
from bot.engine.state import AwaitingPosition, Finished, Resting
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Symptom, TestRecord, Values
from bot.testing.playbook import Playbook

LINES = StopLines()


def ended(book: Playbook) -> TestRecord:
    """Return the record of a test that a reading has ended."""
    assert isinstance(book.conversation.stage, Finished)
    record = book.conversation.stage.record
    assert record.ending is Ending.UNSAFE_READING
    return record


def standing(numbers: str, supine: str = "120/76 70") -> Playbook:
    """Return a playbook in which the first standing reading was typed."""
    return Playbook().stands(supine=supine).waits(minutes=5).types(numbers)


@pytest.mark.parametrize(
    ("numbers", "key"),
    [
        ("89/60 72", "unsafe.supine-low"),
        ("90/60 72", None),
        ("112/70 39", "unsafe.supine-slow"),
        ("112/70 40", None),
        ("112/70 130", "unsafe.supine-fast"),
        ("112/70 129", None),
        ("180/100 72", "unsafe.high"),
        ("179/100 72", None),
        ("170/120 72", "unsafe.high"),
        ("170/119 72", None),
    ],
)
def test_lying_lines_are_held_at_their_edges(numbers: str, key: str | None) -> None:
    """Past a line, the person is told not to stand up, and the test ends before they do."""
    book = Playbook().lies_down().waits(minutes=5).types(numbers)
    if key is None:
        assert isinstance(book.conversation.stage, AwaitingPosition)
    else:
        assert book.said == (key,)
        assert len(ended(book).readings) == 1


@pytest.mark.parametrize(
    ("supine", "numbers", "key"),
    [
        ("120/76 70", "89/60 95", "unsafe.low"),
        ("118/76 70", "90/60 95", None),
        ("110/60 88", "70/50 80", "unsafe.low"),  # CDISC pilot
        ("130/80 84", "110/70 79", "unsafe.slowing"),
        ("130/80 84", "110/72 80", None),
        ("130/80 84", "111/70 71", None),
    ],
)
def test_standing_lines_are_held_at_their_edges(supine: str, numbers: str, key: str | None) -> None:
    """A low systolic, and a heart rate that falls with the pressure, end the test."""
    book = standing(numbers, supine)
    if key is None:
        assert isinstance(book.conversation.stage, Resting)
    else:
        assert book.said == (key,)
        ended(book)


def test_large_fall_alone_is_minded() -> None:
    """A fall of 30 with no symptom goes on, with words on what to do if one comes."""
    assert "reading.large-fall" in standing("100/66 92", supine="130/80 70").said
    assert "reading.large-fall" not in standing("101/66 92", supine="130/80 70").said


@pytest.mark.parametrize("words", ["dizzy 4", "mareo 5", "blurred vision 3", "weak 6"])
def test_large_fall_with_a_symptom_ends_the_test(words: str) -> None:
    """The symptom may come before the reading, in the same message, or after it."""
    before = Playbook().stands(supine="130/80 70").waits(minutes=4).types(words)
    before.waits(minutes=1).types("100/66 92")
    beside = standing(f"100/66 92 {words}", supine="130/80 70")
    after = standing("100/66 92", supine="130/80 70").types(words)
    for book in (before, beside, after):
        assert "unsafe.fall" in book.said
        assert ended(book).symptoms


@pytest.mark.parametrize("words", ["headache 6", "palpitations 5", "tired 4"])
def test_other_symptoms_do_not_end_it(words: str) -> None:
    """A symptom that does not come before a faint is noted, and the test goes on."""
    book = standing(f"100/66 92 {words}", supine="130/80 70")
    assert isinstance(book.conversation.stage, Resting)


def test_corrected_lying_reading_can_cross_a_line_for_the_standing_one() -> None:
    """An edit of the reading that a fall is counted from is held against the lines as well."""
    book = Playbook().stands(supine="120/76 70").waits(minutes=4).types("dizzy 5")
    book.waits(minutes=1).types("100/66 92")
    assert isinstance(book.conversation.stage, Resting)
    book.edits(1, "130/76 70")
    assert "unsafe.fall" in book.said
    ended(book)


def test_what_follows_depends_on_the_line() -> None:
    """A very high pressure is measured again; after any other line the person is looked after."""
    high = standing("184/100 92").conversation.recovery
    low = standing("84/52 98").conversation.recovery
    assert isinstance(high, Remeasuring)
    assert isinstance(low, LyingDown)


def test_the_clinics_own_lines_are_used() -> None:
    """A line that the clinic has moved is the one that counts."""
    lines = StopLines(standing_systolic_below=100)
    book = Playbook(Context(stop_lines=lines)).stands().waits(minutes=5).types("99/60 90")
    assert book.said == ("unsafe.low",)


NUMBERS = st.none() | st.integers(25, 260)


@given(st.sampled_from(Position), st.builds(
    Values, systolic=NUMBERS, diastolic=NUMBERS, heart_rate=NUMBERS
))  # fmt: skip
def test_lower_never_stops_being_low(position: Position, values: Values) -> None:
    """What is very low stays a reason to stop when it is lower still, whatever else is known."""
    record = Playbook().stands().waits(minutes=5).types("dizzy 5").conversation.stage.record  # type: ignore[union-attr]
    crossing = crossed(record, position, values, LINES)
    if crossing in (Crossing.LOW, Crossing.SUPINE_LOW, Crossing.FALL) and values.systolic:
        lower = replace(values, systolic=values.systolic - 1)
        assert crossed(record, position, lower, LINES) is not None


def test_symptoms_that_warn_are_those_before_a_faint() -> None:
    """The list is that of Rowe 2017 (Front Pediatr 5:121), with weakness and short breath added."""
    before_a_faint = {Symptom.DIZZY, Symptom.FAINT, Symptom.NAUSEA, Symptom.BLURRED_VISION,
                      Symptom.SWEATING}  # fmt: skip
    assert before_a_faint < WARNING
    assert WARNING - before_a_faint == {Symptom.WEAK, Symptom.SHORT_OF_BREATH}
