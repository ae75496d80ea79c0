"""Words for help and for stopping that were once missed, and words once taken for them."""

import pytest

from bot.distress import Grade, hear
from bot.engine import hearing
from bot.engine.effects import Urgency, Withdraw
from bot.engine.state import AwaitingStopReason, Finished, Idle, Resting
from bot.protocol.record import Ending, StopReason, TestRecord
from bot.testing.playbook import Playbook


def record_of(book: Playbook) -> TestRecord:
    """Return the record that the stage holds."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record


@pytest.mark.parametrize(
    "words",
    ["no", "not ok", "i feel bad", "no estoy bien", "I don't feel well"],
)
def test_no_to_all_right_ends_the_test(words: str) -> None:
    """A "no" to "are you all right?" was not understood, and counted as a sign of life."""
    book = Playbook().stands().waits(minutes=7).types(words)
    assert "faint.now" in book.said
    assert record_of(book).stop_reason is StopReason.UNWELL


def test_check_has_a_button_for_no() -> None:
    """Once: "Are you all right?" can be answered with no by a tap."""
    book = Playbook().stands().waits(minutes=7).taps("unwell")
    assert record_of(book).ending is Ending.STOPPED


@pytest.mark.parametrize(
    "words",
    ["i'm fainting", "feel like fainting", "im collapsing", "me estoy desmayando",
     "everything went black", "i can't see"],
)  # fmt: skip
def test_near_faint_that_was_missed(words: str) -> None:
    """These were not understood."""
    heard = hear(words)
    assert heard is not None
    assert heard.certain


@pytest.mark.parametrize(
    "words",
    ["chest tightness", "my chest is tight", "me duele mucho el pecho", "me aprieta el pecho",
     "i fell", "me caí", "911", "emergency", "sos", "socorro", "auxilio", "no respiro",
     "help me please"],
)  # fmt: skip
def test_emergency_that_was_missed(words: str) -> None:
    """These were not understood."""
    heard = hear(words)
    assert heard is not None
    assert (heard.grade, heard.certain) == (Grade.EMERGENCY, True)


@pytest.mark.parametrize(
    "words",
    ["no, stop!", "can't go on, stop", "not good stop", "stop i cant", "stoppp", "para por favor",
     "basta ya", "🛑", "st\u200bop", "i cant go on", "need to lie down", "no puedo seguir",
     "detener la prueba"],
)  # fmt: skip
def test_stop_that_was_missed(words: str) -> None:
    """These did not stop the test."""
    book = Playbook().stands().waits(minutes=1).types(words)
    assert isinstance(book.conversation.stage, AwaitingStopReason)


@pytest.mark.parametrize("words", ["stp", "top", "please stpo", "stpo please", "pararr", "detner"])
def test_misspelt_stop_is_asked_about(words: str) -> None:
    """These were not understood; now they are asked about, and silence means yes."""
    assert hearing.perhaps_stop(words)
    assert not hearing.stop(words)


@pytest.mark.parametrize("words", ["dont stop", "I will not stop", "I can't stand still"])
def test_denials_do_not_stop(words: str) -> None:
    """A denial is no stop."""
    book = Playbook().stands().waits(minutes=1).types(words)
    assert isinstance(book.conversation.stage, Resting)


@pytest.mark.parametrize("words", ["i don't feel faint", "no faint, i am not going to faint"])
def test_denied_faint_is_asked_about(words: str) -> None:
    """A faint that is denied does not end the test at once; it is asked about."""
    book = Playbook().stands().waits(minutes=1).types(words)
    assert isinstance(book.conversation.stage, Resting)


def test_stop_in_an_edit_is_heard() -> None:
    """A message edited to "stop", or to a faint that is near, met silence."""
    book = Playbook().stands().waits(minutes=1).types("stp").edits(99, "stop")
    assert isinstance(book.conversation.stage, AwaitingStopReason)
    book = Playbook().stands().waits(minutes=1).edits(99, "going to faint")
    assert isinstance(book.conversation.stage, Finished)


@pytest.mark.parametrize("text", ["72/50", "72/65 130", "210/130"])
def test_stop_line_on_part_of_a_reading(text: str) -> None:
    """Dangerous pressures waited for the heart rate, or for a doubt to be settled."""
    book = Playbook().stands().waits(minutes=5).types(text)
    assert book.said[-1].startswith("unsafe")
    assert record_of(book).ending is Ending.UNSAFE_READING
    assert len(record_of(book).readings) == 3


def test_fix_after_the_end_that_crosses_a_line_says_what_to_do() -> None:
    """A correction to a dangerous reading was only called corrected."""
    book = Playbook().stands().waits(minutes=5).types("116/78 92").waits(minutes=5)
    book.types("114/78 96").taps("fix:1.4").types("80/50 109")
    assert "unsafe.low" in book.said


def test_nothing_of_an_ended_test_goes_out_any_more() -> None:
    """Once: "Measure now" could arrive after "lie down now"."""
    book = Playbook().stands().waits(minutes=5).types("i feel faint")
    assert any(isinstance(effect, Withdraw) for effect in book.effects)
    assert [e.urgency for e in book.heard if e in book.effects] == [Urgency.SAFETY]


def test_emergency_before_a_test_starts_none() -> None:
    """After an emergency the button "I am ready" started a test at once."""
    book = Playbook().opens().taps("20-and-over").types("chest pain")
    assert book.said == ("emergency.now",)
    book.taps("go")
    assert isinstance(book.conversation.stage, Idle)


def test_faint_as_the_reason_of_a_stop_is_taken() -> None:
    """Words of a faint in answer to "what made you stop?" were not taken as the reason."""
    book = Playbook().stands().taps("stop").types("i was about to faint")
    assert record_of(book).stop_reason is StopReason.FELT_FAINT
    book = Playbook().stands().taps("stop").types("I felt dizzy")
    assert record_of(book).stop_reason is StopReason.FELT_FAINT


def test_stop_before_the_test_goes_back() -> None:
    """Once: "You can stop at any time" was untrue before the first position."""
    book = Playbook().opens().taps("20-and-over").types("stop")
    assert book.said[0] == "start.not-now"
    assert isinstance(book.conversation.stage, Idle)


@pytest.mark.parametrize(
    "words",
    ["im going", "I'm going", "I am going now", "me voy", "¡Me voy!", "ya me voy", "Adiós, me voy"],
)
def test_somebody_who_goes_is_asked_whether_to_stop(words: str) -> None:
    """Leaving was asked about as a faint that is near."""
    assert hear(words) is None
    book = Playbook().stands().waits(minutes=3).types(words)
    assert book.said == ("stop.sure",)
    assert "stop.now" in book.waits(minutes=2).said
    before = Playbook().opens().types(words)
    assert "help.sure.near-faint" not in before.said


@pytest.mark.parametrize(
    "words",
    ["I'm going to faint", "im going down", "im going out", "me voy a desmayar", "me voy a caer",
     "me voy a ir", "siento que me voy", "me voy al suelo"],
)  # fmt: skip
def test_going_to_faint_is_no_leaving(words: str) -> None:
    """With what they are going to, the same words are a call for help."""
    heard = hear(words)
    assert heard is not None
    assert (heard.grade, heard.certain) == (Grade.NEAR_FAINT, True)


@pytest.mark.parametrize("words", ["feel like im going", "im gone", "oh im going", "ay me voy"])
def test_going_with_a_feeling_is_asked_about(words: str) -> None:
    """Words beside it that tell of a feeling keep it a faint that may be near."""
    heard = hear(words)
    assert heard is not None
    assert heard.grade is Grade.NEAR_FAINT
