"""Readings given together, apart, late, early, wrong, and corrected."""

from datetime import timedelta

import pytest

from bot.engine.asides import ConfirmingReading, FixingReading
from bot.engine.context import Context
from bot.engine.effects import Keep, Say
from bot.engine.state import AwaitingPosition, AwaitingReading, Finished, Resting
from bot.protocol.record import Ending, Reading, TestRecord, Values
from bot.protocol.released import SIX_READINGS
from bot.testing.playbook import Playbook


def readings(book: Playbook) -> tuple[Reading, ...]:
    """Return the readings that count so far."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record.readings


def asked() -> Playbook:
    """Play until the supine reading is asked for."""
    return Playbook().lies_down().waits(minutes=5)


FULL = Values(systolic=124, diastolic=76, heart_rate=72)


@pytest.mark.parametrize(
    "messages",
    [("124/76 72",), ("124/76", "72"), ("hr 72", "124/76"), ("pulse 72", "bp 124 over 76")],
)
def test_parts_may_come_together_or_apart(messages: tuple[str, ...]) -> None:
    """Three numbers are accepted in one message or several, in any order."""
    book = asked()
    for message in messages:
        book.types(message)
    assert [r.values for r in readings(book)] == [FULL]
    assert readings(book)[0].words == messages


def test_missing_part_is_asked_for() -> None:
    """A part of a reading is said back, and only what is missing is asked."""
    book = asked().types("124/76")
    assert book.said == ("reading.want.heart-rate",)
    book = asked().types("pulse 72")
    assert book.said == ("reading.want.pressures",)


def test_time_of_a_reading_is_that_of_its_first_part() -> None:
    """Typing the heart rate later does not move the reading."""
    book = asked().waits(seconds=20).types("124/76").waits(seconds=40).types("72")
    assert readings(book)[0].offset == timedelta(minutes=5, seconds=20)


def test_reading_is_echoed_with_a_way_to_fix_it() -> None:
    """The numbers are said back and the message has a button to correct them."""
    book = asked().types("124/76 72")
    echo = next(e for e in book.effects if isinstance(e, Say))
    assert echo.parts[0].key == "reading.kept"
    assert echo.parts[0].params == {"pressures": "124/76", "heart_rate": 72}
    assert "fix:1.1" in {c.token for row in echo.choices for c in row}


def test_late_reading_is_kept_and_marked() -> None:
    """A reading after its window counts, marked late, and the person is told."""
    book = asked()
    book.waits(minutes=3, seconds=1).types("124/76 72")
    assert readings(book)[0].late
    assert "reading.kept-late" in book.said


def test_reading_at_the_end_of_its_window_is_on_time() -> None:
    """The window's last instant still counts as on time."""
    book = asked().waits(minutes=3).types("124/76 72")
    assert not readings(book)[0].late


def test_reading_during_the_heads_up_is_the_planned_one() -> None:
    """Who measures as soon as warned is not asked again."""
    book = Playbook().lies_down().waits(minutes=4, seconds=40).types("124/76 72")
    assert readings(book)[0].slot == "supine-5"
    assert isinstance(book.conversation.stage, AwaitingPosition)


def test_reading_in_parts_during_the_heads_up_is_completed() -> None:
    """A first part given during the heads-up begins the planned reading."""
    book = Playbook().lies_down().waits(minutes=4, seconds=40).types("124/76").types("72")
    assert readings(book)[0].values == FULL
    assert readings(book)[0].slot == "supine-5"


def test_reading_in_between_is_kept_as_an_extra() -> None:
    """A whole reading given between planned ones is kept, and the planned one still asked."""
    book = Playbook().stands().waits(minutes=2).types("110/70 98")
    extra = readings(book)[-1]
    assert extra.slot is None
    assert extra.offset == timedelta(minutes=2)
    book.waits(minutes=3)
    assert isinstance(book.conversation.stage, AwaitingReading)
    assert book.conversation.stage.slot.id == "standing-5"


def test_part_in_between_is_not_kept_silently() -> None:
    """A part of a reading at the wrong time is refused in words."""
    book = Playbook().lies_down().waits(minutes=1).types("124/76")
    assert readings(book) == ()
    assert book.said == ("reading.not-yet",)


def test_swapped_pressures_are_offered_the_right_way_round() -> None:
    """The smaller number first is asked about; a yes keeps it swapped, a no keeps nothing."""
    book = asked().types("76/124 72")
    assert isinstance(book.conversation.aside, ConfirmingReading)
    assert readings(book) == ()
    book.taps("yes")
    assert readings(book)[0].values == FULL
    book = asked().types("76/124 72").types("no")
    assert readings(book) == ()
    assert isinstance(book.conversation.stage, AwaitingReading)


def test_new_numbers_answer_a_doubt_as_well() -> None:
    """Typing the numbers again is as good as no, and then typing them."""
    book = asked().types("76/124 72").types("124/76 72")
    assert readings(book)[0].values == FULL


@pytest.mark.parametrize("text", ["124/76 722", "12476 72", "1 2 3 4 5", "300/76 72", "124"])
def test_impossible_numbers_are_asked_again(text: str) -> None:
    """What cannot be a reading is never kept, and the answer says so."""
    book = asked().types(text)
    assert readings(book) == ()
    assert isinstance(book.conversation.stage, AwaitingReading)
    assert len(book.said) == 2


def test_missed_reading_gives_way_to_the_next() -> None:
    """When the next reading is due, the one that never came is passed over."""
    book = Playbook(Context(protocol=SIX_READINGS.ref)).stands().waits(minutes=3)
    stage = book.conversation.stage
    assert isinstance(stage, AwaitingReading)
    assert stage.slot.id == "standing-3"
    book.types("118/76 90")
    assert [r.slot for r in readings(book)][-1] == "standing-3"


def test_part_of_a_missed_reading_is_kept() -> None:
    """What was given of a reading stays when the next one comes due."""
    book = Playbook(Context(protocol=SIX_READINGS.ref)).stands().waits(minutes=1)
    book.types("118/76").waits(minutes=2)
    kept = readings(book)[-1]
    assert kept.slot == "standing-1"
    assert kept.values == Values(systolic=118, diastolic=76)


def test_fix_button_replaces_the_numbers_and_keeps_the_time() -> None:
    """A correction keeps the reading's number and time; the old numbers stay on record."""
    book = asked().types("142/76 72").waits(minutes=1).taps("fix:1.1")
    assert isinstance(book.conversation.aside, FixingReading)
    book.types("124/76")
    fixed = readings(book)[0]
    assert fixed.values == FULL
    assert fixed.offset == timedelta(minutes=5)
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    assert [r.values.systolic for r in record.replaced] == [142]


def test_fix_goes_back_to_the_open_question() -> None:
    """After a correction the person is where they were."""
    book = asked().types("142/76 72").taps("fix:1.1").types("124/76")
    assert book.said == ("fix.done", "go.seated")
    assert book.conversation.aside is None


def test_odd_correction_is_asked_about() -> None:
    """A correction is held against the same doubts as a reading."""
    book = asked().types("142/76 72").taps("fix:1.1").types("76/124")
    assert isinstance(book.conversation.aside, ConfirmingReading)
    book.taps("yes")
    assert readings(book)[0].values == FULL


def test_edited_message_corrects_its_reading() -> None:
    """Editing the message that gave a reading corrects it, even some steps later."""
    book = Playbook().opens().types("34").types("ready").types("lying").waits(minutes=5)
    book.types("142/76 72").types("sitting").waits(minutes=1)
    book.edits(4, "124/76 72")
    assert readings(book)[0].values == FULL
    assert book.said == ("fix.done",)


def test_edit_of_one_part_corrects_that_part() -> None:
    """A reading given in two messages can be corrected by editing either."""
    book = asked().types("142/76").types("72").edits(1, "124/76")
    assert readings(book)[0].values == FULL


def test_edit_before_the_reading_is_complete_counts() -> None:
    """A part can be edited while the rest is still awaited."""
    book = asked().types("142/76").edits(1, "124/76").types("72")
    assert readings(book)[0].values == FULL


def test_edit_that_cannot_be_read_keeps_the_old_numbers() -> None:
    """An unreadable edit is asked about, and nothing is lost."""
    book = asked().types("124/76 72").edits(1, "oops")
    assert readings(book)[0].values == FULL
    assert "fix.edit-unclear" in book.said


def test_invisible_edit_is_silent() -> None:
    """An edit that changes no number says nothing."""
    book = asked().types("124/76 72").edits(1, "124/76  72")
    assert book.effects == ()


def test_edit_after_the_end_sends_new_results() -> None:
    """A correction after the end raises the revision, keeps the result and sends it again."""
    book = Playbook().stands().waits(minutes=5).types("116/78 92").waits(minutes=5)
    book.types("114/78 96").edits(4, "114/78 86")
    stage = book.conversation.stage
    assert isinstance(stage, Finished)
    assert stage.record.revision == 2
    assert stage.record.readings[-1].values.heart_rate == 86
    assert Keep(record=stage.record) in book.effects
    assert "hand.summary" in book.said


def test_word_fix_lets_go_of_a_part() -> None:
    """While a reading is incomplete, `fix` starts it over."""
    book = asked().types("142/76").types("fix")
    assert book.said == ("fix.cleared", "reading.ask.supine")


def test_reading_and_symptom_in_one_message_are_both_kept() -> None:
    """A message may hold a reading and a symptom."""
    book = asked().types("124/76 72 dizzy 6")
    assert readings(book)[0].values == FULL
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    assert [(s.symptom.value, s.strength) for s in record.symptoms] == [("dizzy", 6)]


@pytest.mark.parametrize(
    ("supine", "words"), [("186/96 80", "unsafe.high"), ("150/122 80", "unsafe.high")]
)
def test_very_high_pressure_ends_the_test(supine: str, words: str) -> None:
    """At the upper stop lines the test ends with what to do, and the reading is kept."""
    book = asked().types(supine)
    assert words in book.said
    stage = book.conversation.stage
    assert isinstance(stage, Finished)
    assert stage.record.ending is Ending.UNSAFE_READING
    assert len(stage.record.readings) == 1


def test_low_pressure_standing_ends_the_test() -> None:
    """A systolic under 90 ends the test, standing or before; 90 does not."""
    book = Playbook().stands().waits(minutes=5).types("89/60 98")
    assert "unsafe.low" in book.said
    assert isinstance(book.conversation.stage, Finished)
    book = asked().types("104/60 62").taps("there").waits(minutes=5).types("89/60 70")
    assert book.said == ("unsafe.seated-low",)
    book = asked().types("104/60 62").taps("there").waits(minutes=5).types("90/60 70")
    assert isinstance(book.conversation.stage, AwaitingPosition)
    book = Playbook().stands().waits(minutes=5).types("90/60 98")
    assert isinstance(book.conversation.stage, Resting)
