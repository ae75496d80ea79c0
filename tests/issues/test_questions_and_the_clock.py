"""Questions put in between once vanished, or were answered by the wrong button, as time went on."""

from datetime import timedelta

from bot.engine.asides import ConfirmingReading, PlacingReading
from bot.engine.context import Context
from bot.engine.events import ChoiceTapped
from bot.engine.state import (
    AwaitingPosition,
    AwaitingReading,
    AwaitingStopReason,
    Finished,
    Resting,
)
from bot.protocol.record import Reading, TestRecord, Values
from bot.protocol.released import SIX_READINGS
from bot.testing.playbook import Playbook


def readings(book: Playbook) -> tuple[Reading, ...]:
    """Return the readings that count so far."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record.readings


def test_stop_question_survives_the_prompt() -> None:
    """Once: "Do you want to stop?" was dropped by the next prompt; its Yes stays good."""
    book = Playbook().stands().waits(minutes=4, seconds=35).types("stpo")
    book.waits(seconds=25)
    assert isinstance(book.conversation.stage, AwaitingReading)
    book.taps("yes")
    assert isinstance(book.conversation.stage, AwaitingStopReason)


def test_stop_question_counts_as_yes_even_across_the_prompt() -> None:
    """No answer within a minute still means stop when a prompt came in between."""
    book = Playbook().stands().waits(minutes=4, seconds=35).types("stpo").waits(minutes=1)
    assert isinstance(book.conversation.stage, AwaitingStopReason)


def test_other_words_do_not_answer_the_stop_question() -> None:
    """Typing something else left the question silently unanswered; it stays open."""
    book = Playbook().stands().waits(minutes=1).types("stpo").types("please").waits(minutes=1)
    assert isinstance(book.conversation.stage, AwaitingStopReason)
    book = Playbook().stands().waits(minutes=1).types("stpo").taps("symptom").waits(minutes=1)
    assert isinstance(book.conversation.stage, AwaitingStopReason)


def test_second_no_to_the_stop_question_counts() -> None:
    """The second "no" was taken for a double tap of the first, and the test stopped."""
    book = Playbook().stands().waits(minutes=1).types("stpo").taps("no").waits(seconds=20)
    book.types("stpo").taps("no").waits(minutes=1)
    assert isinstance(book.conversation.stage, Resting)


def test_second_yes_to_a_doubt_counts() -> None:
    """The second "yes" to odd numbers was swallowed, and the numbers were lost."""
    book = Playbook().stands().waits(minutes=5).types("108/100 104").taps("yes")
    book.waits(minutes=5).types("106/100 109").taps("yes")
    assert isinstance(book.conversation.stage, Finished)
    assert readings(book)[-1].values.heart_rate == 109


def test_button_of_an_old_doubt_does_not_confirm_a_new_one() -> None:
    """Each question has a name of its own."""
    book = Playbook().stands().waits(minutes=5).types("108/100 104")
    old = book.token("yes")
    book.taps("no").types("109/101 105")
    book.waits(seconds=10).happens(ChoiceTapped(at=book.now, token=old))
    assert isinstance(book.conversation.aside, ConfirmingReading)
    assert book.said[0] == "stale"


def test_doubt_survives_the_nudge() -> None:
    """A reading that is being asked about was let go when the nudge came."""
    book = Playbook().stands().waits(minutes=5).types("121/77 77").waits(minutes=1)
    assert book.said[0] == "silence.nudge"
    book.types("yes")
    assert readings(book)[-1].values == Values(systolic=121, diastolic=77, heart_rate=77)


def test_doubt_that_the_next_prompt_ends_is_named() -> None:
    """When the next reading is due, the person is told that the odd one was not kept."""
    book = Playbook(Context(protocol=SIX_READINGS.ref)).stands().waits(minutes=1)
    book.types("100/70 100").waits(minutes=2)
    assert "doubt.dropped" in book.said


def test_fix_with_a_doubt_open_is_about_the_doubt() -> None:
    """`fix` overwrote the sitting reading while the standing one was being asked about."""
    book = Playbook().stands().waits(minutes=5).types("121/77 77").types("fix")
    assert book.said[0] == "doubt.denied"
    assert readings(book)[1].values == Values(systolic=118, diastolic=76, heart_rate=74)


def test_correction_interrupted_by_the_prompt_is_asked_about() -> None:
    """Numbers typed for a correction became the standing reading when the prompt came first."""
    book = Playbook().stands().waits(minutes=4, seconds=40).taps("fix:1.2").waits(seconds=20)
    assert "fix.interrupted" in book.said
    book.waits(seconds=5).types("117/76 74")
    assert isinstance(book.conversation.aside, PlacingReading)
    assert len(readings(book)) == 2
    book.taps("earlier")
    assert readings(book)[1].values.systolic == 117
    assert isinstance(book.conversation.stage, AwaitingReading)


def test_interrupted_correction_may_be_the_reading_itself() -> None:
    """The numbers may be the new reading as well; the person says which."""
    book = Playbook().stands().waits(minutes=4, seconds=40).taps("fix:1.2").waits(seconds=20)
    book.waits(seconds=5).types("112/76 98").taps("now")
    assert readings(book)[1].values.systolic == 118
    assert readings(book)[2].slot == "standing-5"


def test_strength_can_be_told_after_the_prompt() -> None:
    """A strength asked for just before a prompt was stale, and a typed 7 not understood."""
    book = Playbook().stands().waits(minutes=4, seconds=50).types("dizzy").waits(seconds=10)
    book.types("7")
    assert book.said[0] == "symptom.noted"
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    assert record.symptoms[0].strength == 7


def test_ok_is_no_position() -> None:
    """Once: "ok" to "stand up slowly" started the standing clock."""
    book = Playbook().lies_down().waits(minutes=5).types("120/76 70").types("ok")
    assert isinstance(book.conversation.stage, AwaitingPosition)


def test_clock_is_not_trusted_after_hours() -> None:
    """Back after three hours the old clock was believed; now the person is asked after."""
    book = Playbook().stands()
    book.now += timedelta(hours=3)
    book.types("90/60 114")
    assert book.said == ("interrupted",)
    assert len(readings(book)) == 2


def test_nobody_stands_for_ever() -> None:
    """Somebody who keeps typing but never measures was kept standing without an end."""
    book = Playbook().stands().waits(minutes=5).types("116/70 90").waits(minutes=5)
    for _ in range(40):
        book.waits(minutes=0.9).types("hmm")
    assert isinstance(book.conversation.stage, Finished)
