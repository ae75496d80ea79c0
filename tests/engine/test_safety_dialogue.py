"""Stopping, silence, and words that cannot wait."""

from datetime import timedelta

import pytest

from bot.engine.asides import ConfirmingStop
from bot.engine.effects import Say, Urgency
from bot.engine.events import DeadlineReached
from bot.engine.state import (
    AwaitingPosition,
    AwaitingReading,
    AwaitingStopReason,
    Finished,
    Resting,
)
from bot.protocol.record import Ending, StopReason, TestRecord
from bot.testing.playbook import Playbook


def record_of(book: Playbook) -> TestRecord:
    """Return the record that the stage holds."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record


@pytest.mark.parametrize(
    "words", ["stop", "STOP!!", "please stop", "/stop", "stop it now", "para", "quiero parar"]
)
def test_stop_tells_to_lie_down_first(words: str) -> None:
    """Stop by words ends the test at once; lying down comes first, the reason after."""
    book = Playbook().stands().waits(minutes=1).types(words)
    assert book.said == ("stop.now", "stop.reason")
    first = next(e for e in book.effects if isinstance(e, Say))
    assert first.urgency is Urgency.SAFETY
    assert record_of(book).ending is Ending.STOPPED


@pytest.mark.parametrize("minutes", [0, 4.7, 5, 6])
def test_stop_button_works_at_every_moment(minutes: float) -> None:
    """The stop button ends the test while resting, warned, asked and nudged."""
    book = Playbook().stands().waits(minutes=minutes).taps("stop")
    assert isinstance(book.conversation.stage, AwaitingStopReason)


def test_what_was_measured_is_kept_at_a_stop() -> None:
    """The readings given before a stop stay, and so does a part of the one under way."""
    book = Playbook().stands().waits(minutes=5).types("116/70").taps("stop")
    readings = record_of(book).readings
    assert len(readings) == 3
    assert readings[-1].values.systolic == 116


def test_reason_of_a_stop_is_kept_and_results_follow() -> None:
    """The reason goes into the record; then the results come."""
    book = Playbook().stands().taps("stop").taps("felt-faint")
    assert record_of(book).stop_reason is StopReason.FELT_FAINT
    assert book.said == ("stop.thanks", "hand.summary", "hand.chart", "hand.pdf", "hand.csv")


def test_typed_reason_keeps_the_words() -> None:
    """A reason in the person's own words is kept as they wrote it."""
    book = Playbook().stands().taps("stop").types("my cuff fell off")
    assert record_of(book).stop_words == "my cuff fell off"


def test_results_come_even_without_a_reason() -> None:
    """Who does not tell the reason gets the results all the same, and nothing more after.

    Their answer to how they are is all that is asked in between.
    """
    book = Playbook().stands().taps("stop").waits(minutes=2).taps("better").waits(minutes=3)
    assert "hand.summary" in book.said
    assert book.waits(minutes=600).effects == ()


def test_stop_before_anything_was_measured_says_so() -> None:
    """A test without a reading has no files to send."""
    book = Playbook().lies_down().taps("stop").taps("other")
    assert book.said == ("stop.thanks", "finished.nothing")


@pytest.mark.parametrize(
    "words", ["stpo", "sotp", "please stpo", "detner", "I would like to stop this whole thing"]
)
def test_perhaps_stop_is_asked(words: str) -> None:
    """A misspelt stop, or one inside a sentence, is asked about with two buttons."""
    book = Playbook().stands().types(words)
    assert isinstance(book.conversation.aside, ConfirmingStop)


@pytest.mark.parametrize("words", ["step", "dont stop", "I will not stop"])
def test_other_words_are_not_taken_for_stop(words: str) -> None:
    """A word that is like stop, or its denial, does not ask to stop."""
    book = Playbook().stands().types(words)
    assert book.conversation.aside is None
    assert isinstance(book.conversation.stage, Resting)


def test_no_answer_to_perhaps_stop_is_yes() -> None:
    """Silence on "did you mean stop?" stops after a minute."""
    book = Playbook().stands().types("stpo").waits(minutes=1)
    assert isinstance(book.conversation.stage, AwaitingStopReason)
    book = Playbook().stands().types("stpo").taps("no").waits(minutes=1)
    assert isinstance(book.conversation.stage, Resting)


EMERGENCIES = [
    "i fainted",
    "I have CHEST PAIN",
    "can't breathe",
    "cannot breathe",
    "i think it is a stroke",
    "call an ambulance",
    "i want to die",
    "me desmayé",
    "dolor en el pecho",
    "No puedo respirar!!",
]


@pytest.mark.parametrize("words", EMERGENCIES)
@pytest.mark.parametrize("locale", ["en", "es"])
def test_emergency_words_come_before_everything(words: str, locale: str) -> None:
    """Emergency words are answered first and end the test, whatever the chosen language."""
    book = Playbook(locale=locale).stands().waits(minutes=5).types(words)
    assert book.said == ("emergency.now", "emergency.test-over")
    assert record_of(book).ending is Ending.EMERGENCY
    assert {*book.waits(minutes=15).said} == {"recovery.how", "recovery.silent"}
    assert book.waits(minutes=600).effects == ()


def test_emergency_words_are_answered_at_every_stage() -> None:
    """No stage is deaf: before, during and after a test the answer is the same."""
    books = [
        Playbook(),
        Playbook().opens(),
        Playbook().opens().taps("20-and-over"),
        Playbook().opens().taps("20-and-over").taps("go"),
        Playbook().lies_down(),
        Playbook().lies_down().waits(minutes=5),
        Playbook().lies_down().waits(minutes=5).types("76/124 72"),
        Playbook().lies_down().taps("symptom"),
        Playbook().stands().taps("stop"),
        Playbook().stands().taps("stop").taps("other"),
    ]
    for book in books:
        book.types("chest pain")
        assert book.said[0] == "emergency.now"


def test_emergency_words_keep_the_reading_beside_them() -> None:
    """A whole reading in the same message is put down before the test ends."""
    book = Playbook().stands().waits(minutes=5).types("100/60 130 chest pain")
    assert book.said[0] == "emergency.now"
    assert record_of(book).readings[-1].values.heart_rate == 130


@pytest.mark.parametrize(
    "words", ["I'm going to faint", "about to pass out", "vision going", "me voy a desmayar"]
)
def test_near_faint_ends_the_test_lying_down(words: str) -> None:
    """Words of a faint that is near end the test with lying down first."""
    book = Playbook().stands().waits(minutes=7).types(words)
    assert book.said[-1] == "faint.now"
    assert record_of(book).stop_reason is StopReason.FELT_FAINT
    assert isinstance(book.conversation.stage, Finished)


def test_symptom_of_fainting_is_a_stop() -> None:
    """Tapping "about to faint" among the symptoms ends the test, and the symptom is kept."""
    book = Playbook().stands().taps("symptom").taps("faint")
    assert book.said == ("faint.now",)
    assert [s.symptom.value for s in record_of(book).symptoms] == ["faint"]


def test_silence_is_nudged_checked_and_closed() -> None:
    """A nudge, "are you all right?", then the test closes with safety words.

    How the person is is asked three times more, with words for whoever finds them; then all is
    quiet.
    """
    book = Playbook().stands().waits(minutes=5)
    assert book.waits(minutes=1).said == ("silence.nudge", "reading.ask.standing")
    assert book.waits(minutes=1).said == ("silence.check.standing",)
    assert book.waits(minutes=2).said == ("silence.closed",)
    assert record_of(book).ending is Ending.SILENT
    assert len(record_of(book).readings) == 2
    assert book.waits(minutes=4).said == ("recovery.how", "recovery.silent")
    later = ("recovery.how", "recovery.how", "recovery.silent")
    assert book.waits(minutes=600).said == later


def test_silence_while_getting_into_position_is_noticed() -> None:
    """Who never says they are standing is asked, and the test is closed in the end."""
    book = Playbook().lies_down().waits(minutes=5).types("120/76 70").taps("there")
    book.waits(minutes=5).types("118/76 74")
    assert isinstance(book.conversation.stage, AwaitingPosition)
    book.waits(minutes=7)
    assert "silence.check.standing" in book.said
    assert record_of(book).ending is Ending.SILENT


def test_any_word_is_a_sign_of_life() -> None:
    """Whatever the person says, silence counts anew from there."""
    book = Playbook().stands().waits(minutes=6).types("hm").waits(seconds=59)
    assert book.effects == ()
    assert book.waits(seconds=1).said[0] == "silence.nudge"


def test_all_right_goes_on() -> None:
    """The answer to "are you all right?" repeats what is awaited."""
    book = Playbook().stands().waits(minutes=7).taps("fine")
    assert book.said == ("silence.good", "reading.ask.standing")
    assert isinstance(book.conversation.stage, AwaitingReading)


def test_standstill_of_the_program_asks_before_it_closes() -> None:
    """After a standstill the person is asked if they are all right before the test is closed."""
    book = Playbook().stands().waits(minutes=5).types("116/70 90").waits(minutes=5)
    book.now += timedelta(minutes=6)
    book.happens(DeadlineReached(at=book.now))
    assert book.said == ("silence.check.standing",)
    assert book.waits(minutes=1, seconds=59).effects == ()
    assert book.waits(seconds=1).said == ("silence.closed",)


def test_prompt_after_a_standstill_starts_silence_anew() -> None:
    """A reading that became due while the program stood still is asked for, not given up."""
    book = Playbook().stands()
    book.now += timedelta(minutes=8)
    book.happens(DeadlineReached(at=book.now))
    assert book.said == ("reading.ask.standing",)
    book.types("116/70 90")
    assert record_of(book).readings[-1].late
