"""One whole test as a person does it."""

from datetime import timedelta

import pytest

from bot.engine.context import Context, Opening
from bot.engine.effects import Form, Hand, Keep, Revise, Say, Urgency
from bot.engine.state import AwaitingPosition, AwaitingReading, Booked, Finished, Resting
from bot.protocol.definition import Position
from bot.protocol.record import Ending, TestRecord
from bot.protocol.released import FOUR_READINGS, SIX_READINGS
from bot.testing.playbook import Playbook


def record_of(book: Playbook) -> TestRecord:
    """Return the record that the stage holds."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record


def whole_test() -> Playbook:
    """Play a whole four-reading test."""
    book = Playbook().stands().waits(minutes=5).types("116/78 92").waits(minutes=5)
    return book.types("114/78 96")


def test_clock_of_a_phase_starts_when_the_person_says_they_are_there() -> None:
    """The reading comes five minutes after the tap, however long getting there took."""
    book = Playbook().opens().taps("20-and-over").taps("go").waits(minutes=2)
    book.taps("there").waits(minutes=4, seconds=59)
    assert isinstance(book.conversation.stage, Resting)
    book.waits(seconds=1)
    assert isinstance(book.conversation.stage, AwaitingReading)
    assert book.said == ("reading.ask.supine",)


def test_phase_is_paced_by_progress_heads_up_and_prompt() -> None:
    """Half-way is an edit of the first message; heads-up and prompt are messages of their own."""
    book = Playbook().lies_down()
    book.waits(minutes=2.5)
    assert [type(e) for e in book.effects] == [Revise]
    book.waits(minutes=2)
    assert book.said == ("heads-up.supine",)
    book.waits(seconds=30)
    assert book.said == ("reading.ask.supine",)
    assert all(e.urgency is Urgency.TIMED for e in book.effects if isinstance(e, Say))


def test_readings_keep_their_real_offset() -> None:
    """The offset counts from the start of the phase to the arrival of the reading."""
    book = Playbook().lies_down().waits(minutes=5, seconds=42).types("120/76 70")
    reading = record_of(book).readings[0]
    assert reading.offset == timedelta(minutes=5, seconds=42)
    assert reading.slot == "supine-5"
    assert not reading.late


def test_whole_test_ends_with_every_result() -> None:
    """After the last reading come the summary, the chart, the PDF and the CSV, and it is kept."""
    book = whole_test()
    assert book.said[-4:] == ("hand.summary", "hand.chart", "hand.pdf", "hand.csv")
    assert isinstance(book.conversation.stage, Finished)
    record = record_of(book)
    assert record.ending is Ending.COMPLETED
    assert [r.slot for r in record.readings] == [s.id for s in FOUR_READINGS.slots]
    assert Keep(record=record) in book.effects


def test_whole_test_costs_at_most_25_messages() -> None:
    """A four-reading test, first hello and files included, sends no more than 25 messages."""
    sent = [e for e in whole_test().heard if not isinstance(e, Revise)]
    assert len(sent) <= 25


def test_progress_is_edited_at_most_once_a_minute() -> None:
    """Edits of what is only nice to see are rare: the phases' notes, and an answer to a check."""
    edits = [e for e in whole_test().heard if isinstance(e, Revise)]
    notes = sum(len(phase.progress) + len(phase.checks) for phase in FOUR_READINGS.phases)
    assert 0 < len(edits) <= notes


def test_every_message_of_a_running_test_can_stop_it() -> None:
    """While a test runs, each message carries Stop, Symptom and Where am I."""
    book = Playbook().stands().waits(minutes=5)
    running = [e for e in book.heard[3:] if isinstance(e, Say)]
    assert running
    for message in running:
        tokens = [choice.token for row in message.choices for choice in row]
        assert {"stop", "symptom", "where"} <= set(tokens)


def test_six_readings_ask_in_the_first_three_minutes() -> None:
    """The six-reading protocol asks at 1, 3, 5 and 10 minutes of standing."""
    book = Playbook(Context(protocol=SIX_READINGS.ref)).stands()
    for minutes in (1, 2, 2, 5):
        book.waits(minutes=minutes).types("118/76 84")
    offsets = [r.offset for r in record_of(book).readings if r.position is Position.STANDING]
    assert offsets == [timedelta(minutes=m) for m in (1, 3, 5, 10)]


def test_results_can_be_asked_for_again() -> None:
    """After the end the results come again on request, and nothing else changes."""
    book = whole_test()
    before = book.conversation.stage
    book.types("results")
    assert book.said == ("hand.summary", "hand.chart", "hand.pdf", "hand.csv")
    assert book.conversation.stage == before


def test_second_test_asks_no_age_again() -> None:
    """A new test begins at once with what is needed; the age band is asked once only."""
    book = whole_test().types("start")
    assert book.said == ("opening.ready", "opening.age-is")
    book.taps("go")
    stage = book.conversation.stage
    assert isinstance(stage, AwaitingPosition)
    assert stage.record.number == 2


@pytest.mark.parametrize(
    "word", ["lying down", "Im lying down", "done", "READY", "acostada", "listo"]
)
def test_position_can_be_typed(word: str) -> None:
    """A position is confirmed by words as well as by the button, in any shipped language."""
    book = Playbook().opens().types("34").types("ready").types(word)
    assert isinstance(book.conversation.stage, Resting)


def test_wrong_position_does_not_start_the_clock() -> None:
    """Saying another position than the one asked for repeats the instruction."""
    book = Playbook().opens().types("34").types("ready").types("standing")
    assert isinstance(book.conversation.stage, AwaitingPosition)
    assert "go.supine" in book.said


@pytest.mark.parametrize(
    ("said", "form"),
    [("hand.summary", Form.SUMMARY), ("hand.pdf", Form.PDF)],
)
def test_results_hold_the_record_they_are_made_from(said: str, form: Form) -> None:
    """Each result carries the facts it is made from, so that it can be made at any time."""
    book = whole_test()
    hand = next(e for e in book.effects if isinstance(e, Hand) and e.form is form)
    assert said in book.said
    assert hand.record == record_of(book)


def test_booked_test_costs_at_most_25_messages() -> None:
    """From "start" under the reminder to the question about the day, no more than 25 messages."""
    book = Playbook(Context(opening=Opening.FULL)).books()
    stage = book.conversation.stage
    assert isinstance(stage, Booked)
    book.waits(minutes=(stage.booking.at - book.now).total_seconds() / 60 - 10)
    before = len(book.heard)
    book.taps("start").taps("done").taps("go").taps("there")
    for numbers in ("120/76 70", "118/76 74"):
        book.waits(minutes=5).types(numbers).taps("there")
    book.waits(minutes=5).types("116/76 90").waits(minutes=5).types("114/76 96")
    assert book.said[-1] == "question.day-kind"
    assert len([e for e in book.heard[before:] if not isinstance(e, Revise)]) <= 25
