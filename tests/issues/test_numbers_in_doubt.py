"""Numbers that could not be read for sure, and crossed a stop line all the same."""

import pytest

from bot.engine.state import Finished, Resting
from bot.protocol.record import Ending
from bot.testing.playbook import Playbook

_ALL_LOW = [
    "80/50 70 82/51 72 79/49 71",
    "80 50 70 82 51 72 79 49 71",
    "80/50/70/82",
    "80-50-70-82-51-72",
    "80/50 or 82/52",
    "80 or 85 over 50",
    "sistólica 80 u 82",
    "sys 80 sys 82",
    "ochenta sobre cincuenta, setenta, ochenta y dos sobre cincuenta y uno, setenta, setenta",
]


def ended(book: Playbook) -> bool:
    """Whether the test ended for its numbers."""
    stage = book.conversation.stage
    return isinstance(stage, Finished) and stage.record.ending is Ending.UNSAFE_READING


@pytest.mark.parametrize("words", _ALL_LOW)
@pytest.mark.parametrize("minutes", [3, 5])
def test_numbers_low_however_read_end_the_test(words: str, minutes: int) -> None:
    """Several readings, all under the floor, were "more numbers than one reading has"."""
    book = Playbook().stands().waits(minutes=minutes).types(words)
    assert ended(book)
    assert "unsafe.low" in book.said


@pytest.mark.parametrize("words", _ALL_LOW)
def test_correction_low_however_read_ends_the_test(words: str) -> None:
    """The same as a correction, or as an edit, left somebody standing."""
    book = Playbook().stands().waits(minutes=5).types("116/70 90")
    assert ended(book.waits(minutes=1).types("fix").types(words))
    edited = Playbook().stands().waits(minutes=5).types("116/70 90")
    assert ended(edited.waits(minutes=1).edits(3, words))


@pytest.mark.parametrize("words", ["120/80 70 82/51 72 118/76 80", "84 50 100 33"])
def test_numbers_low_in_one_way_of_reading_bring_a_word_of_safety(words: str) -> None:
    """Somebody at 82/51 was only told that there were too many numbers."""
    book = Playbook().stands().waits(minutes=5).types(words)
    assert not ended(book)
    assert book.said[0:2] == ("problem.too-many", "doubt.unwell")
    assert "doubt.unwell" in book.types("fix").types(words).said


@pytest.mark.parametrize(
    "words", ["120/80 70 118/76 80 122/78 71", "72 74 71 70 75", "124/76 70 71"]
)
def test_ordinary_numbers_too_many_bring_no_alarm(words: str) -> None:
    """A warning that comes with every slip would soon be read by nobody."""
    book = Playbook().stands().waits(minutes=5).types(words)
    assert book.said == ("problem.too-many", "reading.ask.standing")


def test_doubted_correction_past_a_line_ends_the_test() -> None:
    """A low pressure in the place of another waited for a yes, the person standing."""
    book = Playbook().stands().waits(minutes=5).types("116/70 90").waits(minutes=1)
    assert ended(book.types("fix").types("75/62 120"))


def test_part_of_an_edit_past_a_line_ends_the_test() -> None:
    """A reading edited to 85/50, without a heart rate, was only asked about."""
    book = Playbook().stands().waits(minutes=5).types("116/70 90").waits(minutes=1)
    assert ended(book.edits(3, "85/50"))


def test_several_readings_do_not_answer_whether_stop_was_meant() -> None:
    """A yes to "I keep them all" stopped the test, since "stop?" was still open beneath it."""
    book = Playbook().stands().waits(minutes=5).types("stp").types("118/74 90 and then 116/72 91")
    assert "doubt.several" not in book.said
    assert "doubt.not-kept" in book.said
    assert not isinstance(book.taps("no").conversation.stage, Resting | Finished)


@pytest.mark.parametrize("typed", [False, True])
def test_numbers_in_doubt_are_spoken_of_when_a_symptom_is_tapped(*, typed: bool) -> None:
    """They were dropped without a word; and with the symptom they may be past a line.

    172 standing is doubted by itself; with a symptom 160 and more ends a test (`StopLines`).
    """
    book = Playbook().stands().waits(minutes=5).types("118/78 172").taps("symptom")
    assert book.said == ("doubt.dropped", "symptom.ask")
    book = book.types("dizzy") if typed else book.taps("dizzy")
    assert ended(book)
    calm = Playbook().stands().waits(minutes=5).types("118/78 40").taps("symptom").taps("tired")
    assert not ended(calm)
    assert calm.said == ("symptom.strength",)
