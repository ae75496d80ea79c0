"""Numbers that were once doubled, misplaced or lost."""

from bot.engine.state import AwaitingPosition, AwaitingReading, AwaitingStopReason
from bot.findings import Line, State, find
from bot.protocol.record import AgeBand, Reading, TestRecord
from bot.testing.playbook import Playbook


def record_of(book: Playbook) -> TestRecord:
    """Return the record that the stage holds."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record


def readings(book: Playbook) -> tuple[Reading, ...]:
    """Return the readings that count so far."""
    return record_of(book).readings


def test_edit_of_an_old_message_is_no_reading() -> None:
    """An edit of a message refused earlier became the reading of another position."""
    book = Playbook().lies_down().waits(minutes=5).types("12476").types("124/76 72").taps("there")
    book.waits(minutes=5).edits(1, "124/76 72")
    assert isinstance(book.conversation.stage, AwaitingReading)
    assert len(readings(book)) == 1


def test_edit_of_the_message_just_refused_is_a_reading() -> None:
    """Putting right the message that could not be read is as good as typing it again."""
    book = Playbook().lies_down().waits(minutes=5).types("12476").edits(1, "124/76 72")
    assert isinstance(book.conversation.stage, AwaitingPosition)
    assert readings(book)[0].slot == "supine-5"


def test_fix_button_of_another_test_is_stale() -> None:
    """The button under a reading of test 1 overwrote a reading of test 2."""
    book = Playbook().stands().waits(minutes=5).types("116/78 92").waits(minutes=5)
    book.types("114/78 96")
    old = book.token("fix:1.1")
    book.types("start").taps("go").taps("there").waits(minutes=5).types("121/70 71")
    from bot.engine.events import ChoiceTapped

    book.happens(ChoiceTapped(at=book.now, token=old))
    assert book.said[0] == "stale"
    assert book.conversation.aside is None


def test_reading_beside_a_perhaps_stop_counts_once() -> None:
    """The reading was kept, and asked for again after "no, go on"."""
    book = Playbook().stands().waits(minutes=5)
    book.types("108/76 104 i wonder if i should stop this now").taps("no")
    assert [r.slot for r in readings(book)] == ["supine-5", "seated-5", "standing-5"]
    book.waits(minutes=1)
    assert not isinstance(book.conversation.stage, AwaitingReading)


def test_same_reading_said_again_counts_once() -> None:
    """Typing a reading again a minute later confirmed a rise with one measurement."""
    book = Playbook().stands().waits(minutes=5).types("108/76 104").waits(seconds=61)
    book.types("108/76 104")
    assert book.said[0] == "reading.same"
    assert len(readings(book)) == 3
    assert find(record_of(book)).on(Line.HEART_RATE_RISE).state is State.MET_ONCE


def test_reading_before_stop_is_kept() -> None:
    """A reading in the same message as "stop" was lost."""
    book = Playbook().stands().waits(minutes=5).types("108/76 104 stop")
    assert isinstance(book.conversation.stage, AwaitingStopReason)
    assert readings(book)[-1].values.heart_rate == 104


def test_symptom_beside_a_number_is_noted() -> None:
    """A symptom in a message whose number came at the wrong time was dropped."""
    book = Playbook().stands().waits(minutes=2).types("dizzy 5 pulse 110")
    assert [s.symptom.value for s in record_of(book).symptoms] == ["dizzy"]


def test_too_many_numbers_keep_none() -> None:
    """Once: "I kept none of them" was followed by "I have 124/76"."""
    book = Playbook().lies_down().waits(minutes=5).types("124/76 72 5 9")
    stage = book.conversation.stage
    assert isinstance(stage, AwaitingReading)
    assert stage.draft.values.empty


def test_age_can_be_put_right() -> None:
    """A mistapped age band stayed for ever."""
    book = Playbook().opens().taps("under-12").types("34")
    assert book.conversation.age_band is AgeBand.FROM_20
    assert "opening.age-is" in book.said
