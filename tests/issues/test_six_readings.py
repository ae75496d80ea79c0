"""Readings close to one another: what was asked twice at once, or counted for the wrong minute."""

from datetime import timedelta

import pytest

from bot.engine.context import Context
from bot.engine.deadlines import next_deadline
from bot.engine.events import DeadlineReached
from bot.engine.state import AwaitingReading, Finished, Resting
from bot.protocol.record import Ending, TestRecord
from bot.protocol.released import SIX_READINGS
from bot.testing.playbook import Playbook


def stands() -> Playbook:
    """Return a playbook of the six-reading protocol in which somebody stands."""
    return Playbook(Context(protocol=SIX_READINGS.ref)).stands()


def standing_readings(book: Playbook) -> list[tuple[str | None, int | None, bool]]:
    """Return the standing readings: slot, systolic, and whether they came late."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return [(r.slot, r.values.systolic, r.late) for r in record.readings[2:]]


def stood_still(book: Playbook, *, minutes: float) -> tuple[tuple[str, ...], ...]:
    """Let nothing happen for some time, as when the program is down; return what is said then."""
    book.now += timedelta(minutes=minutes)
    said: list[tuple[str, ...]] = []
    while (due := next_deadline(book.context, book.conversation)) and due <= book.now:
        said.append(book.happens(DeadlineReached(at=book.now)).said)
    return tuple(said)


def test_silence_at_a_prompt_is_asked_about_alone() -> None:
    """The prompt and "are you all right?" came in the same instant."""
    book = stands().waits(minutes=2, seconds=59).waits(seconds=1)
    assert book.said == ("silence.check.standing",)
    assert "reading.ask.again" in book.taps("fine").said


def test_closing_at_a_prompt_is_all_that_is_said() -> None:
    """The prompt came in the same instant as the words that the test has ended."""
    book = stands().waits(minutes=4, seconds=59).waits(seconds=1)
    assert book.said == ("silence.closed",)
    assert isinstance(book.conversation.stage, Finished)
    assert book.conversation.stage.record.ending is Ending.SILENT


@pytest.mark.parametrize(
    ("first", "gone", "said"),
    [
        (0, 5.5, ("reading.ask.again",)),
        (1, 4.5, ("silence.check.standing",)),
        (0, 3.2, ("reading.ask.again",)),
    ],
)
def test_program_that_was_away_asks_for_one_reading(
    first: float, gone: float, said: tuple[str, ...]
) -> None:
    """Back after some minutes, it said "measure now" two or three times at once."""
    assert stood_still(stands().waits(minutes=first), minutes=gone) == (said,)


@pytest.mark.parametrize(
    ("minutes", "slot"),
    [(1.5, "standing-1"), (2.25, "standing-1"), (2.75, "standing-3"), (3.25, "standing-3"),
     (4.9, "standing-5"), (5.2, "standing-5")],
)  # fmt: skip
def test_reading_counts_for_the_minute_it_is_nearest(minutes: float, slot: str) -> None:
    """118/76 typed at 2:55 was a late one of minute 1, and five seconds later the next was due."""
    book = stands()
    for _ in range(int(minutes)):
        book.waits(minutes=1).types("where")  # a sign of life
    book.waits(minutes=minutes - int(minutes)).types("118/76 90")
    assert standing_readings(book)[0][0:2] == (slot, 118)


def test_reading_after_the_program_was_away_is_not_late_for_a_minute_long_past() -> None:
    """A reading typed at 5:12, unasked, was the late one of minute 3."""
    book = stands().waits(minutes=1).types("118/76 90")
    book.now += timedelta(minutes=4.2)
    book.types("117/75 93")
    assert standing_readings(book)[1:] == [("standing-5", 117, False)]


def test_half_a_reading_that_was_passed_over_is_said() -> None:
    """118/76 without its heart rate was kept in silence."""
    book = stands().waits(minutes=1).types("118/76").waits(minutes=1).types("where")
    book.waits(minutes=1)
    assert book.said == ("reading.half-kept", "reading.ask.again")
    assert standing_readings(book) == [("standing-1", 118, False)]


def test_half_a_reading_just_before_a_prompt_is_completed_after_it() -> None:
    """118/76 at 2:55 and 90 at 3:05 came to half a reading, and a question about the 90."""
    book = stands().waits(minutes=2, seconds=55).types("118/76").waits(seconds=10).types("90")
    assert standing_readings(book) == [("standing-3", 118, False)]
    assert isinstance(book.conversation.stage, Resting)


def test_stop_is_asked_again_under_a_reading() -> None:
    """After a reading nothing showed that "stop?" was still open, and a minute later it stopped."""
    book = stands().waits(minutes=1).types("help").waits(seconds=30).types("118/76 90")
    assert book.said == ("reading.kept", "stop.sure")
    book.taps("no").waits(minutes=1, seconds=30)
    assert isinstance(book.conversation.stage, AwaitingReading)
