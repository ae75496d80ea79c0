"""Readings given twice, corrected in words, or far from the last one."""

import pytest

from bot.engine.asides import ConfirmingReading, PlacingReading
from bot.engine.state import AwaitingPosition, Resting
from bot.protocol.record import TestRecord
from bot.testing.playbook import Playbook


def record_of(book: Playbook) -> TestRecord:
    """Return the record that the stage holds."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record


def lying() -> Playbook:
    """Return a playbook in which the lying reading was asked for."""
    return Playbook().lies_down().waits(minutes=5)


def numbers(book: Playbook) -> list[tuple[str | None, int | None, int | None, int | None]]:
    """Return each reading: its slot and its numbers."""
    return [
        (r.slot, r.values.systolic, r.values.diastolic, r.values.heart_rate)
        for r in record_of(book).readings
    ]


def test_two_readings_in_a_message_are_both_kept_after_a_yes() -> None:
    """The last one is said to count, and the other is kept as an extra."""
    book = lying().types("118/74 70 and then 116/72 68")
    assert book.said == ("doubt.several",)
    book.taps("yes")
    assert numbers(book) == [(None, 118, 74, 70), ("supine-5", 116, 72, 68)]
    assert isinstance(book.conversation.stage, AwaitingPosition)


def test_two_readings_in_a_message_are_none_after_a_no() -> None:
    """After a no nothing is kept, and the reading is asked for again."""
    book = lying().types("118/74 70 and then 116/72 68").taps("no")
    assert numbers(book) == []
    assert "doubt.denied" in book.said


def standing() -> Playbook:
    """Return a playbook in which the first standing reading was kept."""
    return Playbook().stands().waits(minutes=5).types("116/70 90")


def test_reading_taken_again_can_be_the_one_that_counts() -> None:
    """A second reading is an extra; one tap lets it count, another puts it back."""
    book = standing().waits(minutes=1).types("I took it again: 118/72 92")
    assert "reading.kept-extra" in book.said
    book.taps(f"use:1.{len(record_of(book).readings)}")
    assert numbers(book)[-2:] == [(None, 116, 70, 90), ("standing-5", 118, 72, 92)]
    assert "reading.now-counts" in book.said
    book.taps("use:1.4")
    assert "stale" in book.said  # it counts already


@pytest.mark.parametrize("words", ["no, 118/70 90", "I meant 118/70 90", "perdón, 118/70 90"])
def test_correction_in_words_puts_the_last_reading_right(words: str) -> None:
    """Between two readings, words that correct are for the one just given."""
    book = standing().types(words)
    assert numbers(book)[-1] == ("standing-5", 118, 70, 90)
    assert len(record_of(book).readings) == 3
    assert [r.values.systolic for r in record_of(book).replaced] == [116]


def test_correction_of_one_number_keeps_the_others() -> None:
    """A single number that names what it is, or can be only one, changes that alone."""
    book = standing().types("no, sys 128")
    assert numbers(book)[-1] == ("standing-5", 128, 70, 90)


def test_number_that_could_be_either_is_no_correction() -> None:
    """A bare number that could be the pressure or the heart rate offers to fix the reading."""
    book = standing().types("no, 128")
    assert book.said == ("reading.not-yet",)
    book.taps("fix:1.3").types("128/70 90")
    assert numbers(book)[-1] == ("standing-5", 128, 70, 90)


def test_correction_right_after_a_prompt_is_asked_about() -> None:
    """Once the next reading is asked for it may be that one, if the last is still fresh."""
    book = standing().waits(minutes=3).types("I took it again: 118/72 92").waits(minutes=2)
    book.types("no, 112/70 96")
    assert isinstance(book.conversation.aside, PlacingReading)
    book.types("the correction")
    assert numbers(book)[-1] == (None, 112, 70, 96)
    late = standing().waits(minutes=5).types("no, 112/70 96")
    assert numbers(late)[-1] == ("standing-10", 112, 70, 96)


@pytest.mark.parametrize(
    ("supine", "upright"),
    [("178/87 51", "138/58 51"), ("132/86 86", "134/98 134"), ("110/60 88", "94/50 80")],
)
def test_true_changes_are_not_asked_about(supine: str, upright: str) -> None:
    """Changes of real people on standing (CDISC pilot study) are taken without a question."""
    book = Playbook().stands(supine=supine, seated=supine).waits(minutes=5).types(upright)
    assert not isinstance(book.conversation.aside, ConfirmingReading)


def test_slip_of_a_digit_is_asked_about() -> None:
    """A heart rate a hundred off the last one is kept only after a yes."""
    book = Playbook().stands().waits(minutes=5).types("116/70 176")
    assert book.said == ("doubt.jump",)
    book.taps("yes")
    assert numbers(book)[-1] == ("standing-5", 116, 70, 176)


def test_same_as_before_is_asked_about() -> None:
    """Words alone take the last numbers only after a yes."""
    book = Playbook().stands().waits(minutes=5).types("same as before")
    assert book.said == ("doubt.same-as-before",)
    book.taps("yes")
    assert numbers(book)[-1] == ("standing-5", 118, 76, 74)
    assert isinstance(book.conversation.stage, Resting)


def test_pressures_said_in_tens_offer_what_was_meant() -> None:
    """12/7 is asked about as 120/70, never taken as it stands."""
    book = lying().types("ta 12/7")
    assert book.said == ("doubt.tens",)
    book.taps("yes").types("72")
    assert numbers(book) == [("supine-5", 120, 70, 72)]


@pytest.mark.parametrize(
    "words",
    ["one twenty-four over seventy-six, pulse seventy-two",
     "ciento veinticuatro sobre setenta y seis, pulso setenta y dos"],
)  # fmt: skip
def test_dictated_numbers_are_taken(words: str) -> None:
    """Number words are a reading, also where stop may have been meant beside them."""
    assert numbers(lying().types(words)) == [("supine-5", 124, 76, 72)]
