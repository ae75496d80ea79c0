"""A racing heart, and symptoms told while getting up: once neither stopped a test."""

import pytest

from bot.engine.context import Context, StopLines
from bot.engine.state import AwaitingPosition, Finished, Resting
from bot.protocol.record import Ending
from bot.protocol.released import SIX_READINGS
from bot.testing.playbook import Playbook


def ended(book: Playbook) -> bool:
    """Whether the test ended for its numbers."""
    stage = book.conversation.stage
    return isinstance(stage, Finished) and stage.record.ending is Ending.UNSAFE_READING


def getting_up() -> Playbook:
    """Return a playbook in which somebody was told to stand up, and has not said that they do."""
    book = Playbook().lies_down().waits(minutes=5).types("130/80 70").taps("there")
    book.waits(minutes=5).types("128/80 74")
    assert isinstance(book.conversation.stage, AwaitingPosition)
    return book


@pytest.mark.parametrize(("rate", "stops"), [(179, False), (180, True), (230, True)])
def test_very_fast_standing_heart_ends_the_test(rate: int, stops: bool) -> None:
    """180 and more, standing, went on like any other number."""
    book = Playbook().stands().waits(minutes=5).types(f"118/76 {rate}")
    if not stops:
        book.types("yes")  # so far from the last reading that it is asked about
    assert ended(book) is stops
    assert ("unsafe.standing-fast" in book.said) is stops


@pytest.mark.parametrize("words", ["pulse 185", "hr 190 or 192", "118/76 185 dizzy 4"])
def test_very_fast_heart_counts_in_parts_and_in_doubt(words: str) -> None:
    """A part of a reading, or one of two, is enough, as it is for a pressure."""
    assert ended(Playbook().stands().waits(minutes=5).types(words))


@pytest.mark.parametrize("symptom", ["dizzy", "palpitations 5", "mareo 4"])
@pytest.mark.parametrize(("rate", "stops"), [(159, False), (160, True)])
def test_fast_standing_heart_with_a_symptom_ends_the_test(
    rate: int, stops: bool, symptom: str
) -> None:
    """160 with dizziness went on."""
    before = Playbook().stands("120/76 100", "118/76 104").waits(minutes=4).types(symptom)
    before.waits(minutes=1).types(f"118/76 {rate}")
    after = Playbook().stands("120/76 100", "118/76 104").waits(minutes=5)
    after.types(f"118/76 {rate}").types(symptom)
    assert [ended(before), ended(after)] == [stops, stops]


def test_fast_standing_heart_alone_is_minded() -> None:
    """160 without a symptom goes on, with words on what to do if one comes."""
    book = Playbook().stands("120/76 100", "118/76 104").waits(minutes=5).types("118/76 160")
    assert isinstance(book.conversation.stage, Resting)
    assert "reading.fast" in book.said


def test_the_clinics_own_heart_rate_lines_are_used() -> None:
    """A line that the clinic has moved is the one that counts."""
    lines = StopLines(standing_heart_rate_always=140)
    book = Playbook(Context(stop_lines=lines)).stands().waits(minutes=5).types("118/76 141")
    assert ended(book)


@pytest.mark.parametrize("words", ["dizzy", "dizzy 6", "mareo", "weak 3"])
def test_symptom_told_while_getting_up_counts_with_a_fall(words: str) -> None:
    """Dizziness on the way up did not count toward a fall with symptoms."""
    book = getting_up().types(words).taps("there").waits(minutes=5).types("99/66 92")
    assert ended(book)
    assert "unsafe.fall" in book.said


@pytest.mark.parametrize("protocol", ["four-readings", "six-readings"])
def test_symptom_told_sitting_or_denied_does_not_count(protocol: str) -> None:
    """What was felt sitting, or is rated nothing, is no symptom of standing."""
    context = Context(protocol=SIX_READINGS.ref) if protocol == "six-readings" else Context()
    book = Playbook(context).lies_down().waits(minutes=5).types("130/80 70").taps("there")
    book.waits(minutes=2).types("dizzy 6").waits(minutes=3).types("128/80 74").types("dizzy 0")
    book.taps("there").waits(minutes=5 if protocol == "four-readings" else 1).types("99/66 92")
    assert not ended(book)


def test_symptom_between_the_first_readings_counts_with_the_next_fall() -> None:
    """Dizziness a minute after standing up counts at the next reading."""
    book = Playbook(Context(protocol=SIX_READINGS.ref)).stands("130/80 70", "128/80 74")
    book.waits(minutes=1).types("120/76 80 dizzy 3").waits(minutes=2).types("99/66 92")
    assert ended(book)


def test_symptom_beside_numbers_that_were_not_kept_counts_with_the_fall() -> None:
    """After a large fall, dizziness told beside a wrong number went on."""
    book = Playbook().stands("130/80 70", "128/80 74").waits(minutes=5).types("99/66 92")
    assert ended(book.waits(minutes=1).types("dizzy, pulse 400"))


def test_symptom_told_while_numbers_are_in_doubt_counts_with_them() -> None:
    """165 was asked about, palpitations were told instead of a yes, and the 165 was lost."""
    book = Playbook().stands().waits(minutes=5).types("118/76 176")
    assert book.said == ("doubt.jump",)
    book.types("palpitations 5")
    assert ended(book)
    other = Playbook().stands().waits(minutes=5).types("118/76 176").types("headache 5")
    assert other.said[-1] == "doubt.dropped"
