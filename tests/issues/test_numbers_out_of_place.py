"""Numbers on the way to a position or after the end, and messages that reached nobody."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from bot.engine.context import Context
from bot.engine.effects import Form
from bot.engine.events import DeliveryFailed, Failure
from bot.engine.recovery import LyingDown, Remeasuring
from bot.engine.state import AwaitingPosition, AwaitingReading, AwaitingStopReason, Finished
from bot.protocol.record import Ending, TestRecord
from bot.protocol.released import SIX_READINGS
from bot.reports import make, summarise
from bot.testing.playbook import Playbook
from tests.companions.people import Town, lies, link
from tests.shelf import Shelf


def record_of(book: Playbook) -> TestRecord:
    """Return the record that the stage holds."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record


def getting_up() -> Playbook:
    """Return a playbook in which somebody was told to stand up, and has not said that they do."""
    book = Playbook().lies_down().waits(minutes=5).types("120/76 70").taps("there")
    book.waits(minutes=5).types("118/76 74")
    assert isinstance(book.conversation.stage, AwaitingPosition)
    return book


@pytest.mark.parametrize(
    ("words", "key"),
    [("85/50 95", "unsafe.corrected"), ("80/50", "unsafe.corrected"),
     ("190/110 90", "unsafe.high"), ("pulse 190", "unsafe.standing-fast"),
     ("80/50 70 82/51 72 79/49 71", "unsafe.corrected")],
)  # fmt: skip
def test_numbers_past_a_line_while_getting_up_end_the_test(words: str, key: str) -> None:
    """85/50 was not understood, and the next words were to stand up slowly."""
    book = getting_up().types(words)
    assert book.said == (key,)
    assert record_of(book).ending is Ending.UNSAFE_READING
    assert record_of(book).readings[-1].slot is None


def test_numbers_past_a_line_before_the_first_position_end_the_test() -> None:
    """85/50 before lying down was not understood; results can be made of such a test."""
    book = Playbook().opens().taps("20-and-over").taps("go").types("85/50 70")
    assert book.said == ("unsafe.supine-low",)
    assert summarise(record_of(book), "en")
    assert b",85," in make(Form.CSV, record_of(book), "en").content


@pytest.mark.parametrize("words", ["118/76 90", "118/76 90 dizzy 3", "118/76"])
def test_other_numbers_while_getting_up_are_answered(words: str) -> None:
    """Numbers before their time were not understood, or lost beside a symptom without a word."""
    book = getting_up().types(words)
    assert "reading.no-position" in book.said
    assert isinstance(book.conversation.stage, AwaitingPosition)
    assert len(record_of(book).symptoms) == ("dizzy" in words)


@pytest.mark.parametrize(
    ("words", "key", "recovery"),
    [("85/50 100", "unsafe.supine-low", LyingDown), ("190/120 100", "unsafe.high", Remeasuring),
     ("118/76 90", "reading.after-the-end", LyingDown)],
)  # fmt: skip
@pytest.mark.parametrize("stop", ["stop", "about to faint"])
def test_numbers_after_a_stop_count(words: str, key: str, recovery: type, stop: str) -> None:
    """Numbers measured lying down after a stop were a reason to stop, or not understood."""
    book = Playbook().stands().waits(minutes=3).types(stop).types(words)
    assert book.said[0] == key
    assert isinstance(book.conversation.recovery, recovery)
    assert len(record_of(book).repeats) == 1
    assert isinstance(book.conversation.stage, AwaitingStopReason | Finished)
    assert record_of(book).stop_reason is not None or stop == "stop"


@pytest.mark.parametrize("failure", Failure)
def test_lost_prompt_is_made_good_by_the_nudge(failure: Failure) -> None:
    """A prompt that did not arrive is said again a minute later; nothing of the test changes."""
    book = Playbook(Context(protocol=SIX_READINGS.ref)).stands().waits(minutes=1)
    before = book.conversation
    number = book.heard[-1].number
    book.happens(DeliveryFailed(at=book.now, number=number, failure=failure))
    blocked_at = book.now if failure is Failure.BLOCKED else None
    assert (book.effects, book.conversation) == ((), replace(before, blocked_at=blocked_at))
    assert book.waits(minutes=1).said == ("silence.nudge", "reading.ask.standing")
    assert isinstance(book.conversation.stage, AwaitingReading)


@pytest.mark.parametrize("failure", Failure)
def test_lost_words_after_a_stop_end_in_the_words_for_anybody(failure: Failure) -> None:
    """Where no words of safety arrive the looking after goes on, up to the last rung."""
    book = Playbook(Context(protocol=SIX_READINGS.ref)).stands().waits(minutes=1)
    book.types("about to faint")
    said: list[str] = []
    for _ in range(4):
        number = book.heard[-1].number
        book.happens(DeliveryFailed(at=book.now, number=number, failure=failure))
        assert book.effects == ()
        said += book.waits(minutes=3).said
    assert said == ["recovery.how", "recovery.silent", "recovery.how", "recovery.how",
                    "recovery.silent"]  # fmt: skip


@pytest.fixture
def town(shelf: Shelf) -> Iterator[Town]:
    """Return a town in which a test begins at once."""
    store = shelf.fresh()
    yield Town(store)
    store.close()


def test_companion_out_of_reach_is_told_before_standing_up(town: Town) -> None:
    """That their chat takes no messages came out only when the first alarm was refused."""
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens()
    link(ana, bea, "all")
    bea.blocked = True
    lies(ana)
    assert "companion.out-of-reach" in ana.new()
    ana.types("stop")
    assert "companion.unreached" in ana.new()
