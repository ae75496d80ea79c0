"""Numbers past a line that went by, and people who were left alone after a stop."""

from dataclasses import replace

import pytest

from bot.engine.asides import ConfirmingReading
from bot.engine.profile import Companion, Share
from bot.engine.recovery import LyingDown, Remeasuring
from bot.engine.state import AwaitingStopReason, Finished, Resting
from bot.protocol.record import Ending
from bot.testing.playbook import START, Playbook


def linked(book: Playbook) -> Playbook:
    """Link somebody, so that what they are told can be seen."""
    companion = Companion(id="other", share=Share.ALARMS, since=START)
    profile = replace(book.conversation.profile, companions=(companion,))
    book.conversation = replace(book.conversation, profile=profile)
    return book


def stands() -> Playbook:
    """Return a playbook in which somebody stands, with somebody linked."""
    return linked(Playbook().stands())


def high() -> Playbook:
    """Return a playbook in which a very high pressure is about to be measured again."""
    return stands().waits(minutes=5).types("190/100 90").waits(minutes=1)


@pytest.mark.parametrize("words", ["18/11", "19/12"])
def test_pressure_in_tens_is_not_lower(words: str) -> None:
    """18/11, which is 180/110, was called lower than before."""
    assert high().types(words).said == ("recovery.signs",)


@pytest.mark.parametrize("words", ["I dont know", "my heart was racing", "hmm", "book"])
def test_any_reason_but_the_cuff_keeps_them_looked_after(words: str) -> None:
    """Any free words about the reason ended the questions how they are."""
    book = stands().waits(minutes=3).types("stop").types(words)
    assert "recovery.how" in book.waits(minutes=3).said


@pytest.mark.parametrize("words", ["worse", "peor", "I feel terrible"])
@pytest.mark.parametrize("after", ["stop", "about to faint"])
def test_worse_is_understood_at_any_time_after_a_stop(words: str, after: str) -> None:
    """Worse before the first question, or after the last, was not understood, and nobody told."""
    early = stands().waits(minutes=3).types(after).waits(minutes=1).types(words)
    assert early.said[:2] == ("tell.worse", "recovery.worse")
    late = stands().waits(minutes=3).types(after).waits(minutes=2).types("better")
    assert late.waits(minutes=8).types(words).said[:2] == ("tell.worse", "recovery.worse")
    assert isinstance(late.conversation.recovery, LyingDown)


def test_worse_while_measuring_again_is_understood() -> None:
    """Worse was not understood while a very high pressure was to be measured again."""
    book = high().types("worse")
    assert book.said == ("tell.worse", "recovery.worse")
    assert book.types("184/100 90").said == ("recovery.signs",)


@pytest.mark.parametrize("numbers", ["50/85 120", "190/50 90", "18/11 90"])
def test_number_past_a_line_counts_while_stop_is_asked(numbers: str) -> None:
    """It was thrown away, and "no" went on with the test."""
    book = stands().waits(minutes=5).types("help").types(numbers)
    assert isinstance(book.conversation.stage, Finished)
    assert book.conversation.stage.record.ending is Ending.UNSAFE_READING


@pytest.mark.parametrize("words", ["190/100 110 and 118/70 90", "118/70 90 and then 190/100 110"])
def test_each_of_several_readings_is_held_against_the_lines(words: str) -> None:
    """Only the last of several was."""
    assert isinstance(stands().waits(minutes=5).types(words).conversation.stage, Finished)


@pytest.mark.parametrize("words", ["85/50", "190/100"])
def test_part_past_a_line_between_readings_ends_the_test(words: str) -> None:
    """Once "it is not time for that reading yet" was said to somebody at 85/50."""
    book = stands().waits(minutes=2).types(words)
    assert isinstance(book.conversation.stage, Finished)


@pytest.mark.parametrize(
    ("numbers", "recovery"), [("190/100 95", Remeasuring), ("85/50 95", LyingDown)]
)
def test_correction_past_a_line_after_the_end_is_looked_after(numbers: str, recovery: type) -> None:
    """It was said, and then nothing came, and nobody was told."""
    book = stands().waits(minutes=5).types("116/70 90").waits(minutes=5).types("114/70 95")
    book.types("fix").types(numbers)
    assert "tell.unsafe-reading" in book.said
    assert isinstance(book.conversation.recovery, recovery)


def test_low_the_second_time_is_not_called_lower() -> None:
    """80/50 after 190/100 was "lower than before; rest"."""
    book = high().types("80/50 120")
    assert book.said == ("unsafe.supine-low",)
    assert isinstance(book.conversation.recovery, LyingDown)


def test_half_of_a_high_pressure_is_enough() -> None:
    """190 alone, and then silence, came to "no second measurement"."""
    assert high().types("sys 190").said == ("recovery.signs",)


def test_numbers_after_no_second_measurement_still_count() -> None:
    """They were not understood, though it was said to measure once more."""
    book = high().waits(minutes=12).types("195/100 90")
    assert book.said == ("recovery.signs",)
    book.taps("no").types("200/120 90")
    assert book.said == ("recovery.signs",)


@pytest.mark.parametrize(
    ("words", "key"),
    [("no chest pain", "recovery.care-team"), ("none", "recovery.care-team"),
     ("ninguno", "recovery.care-team"), ("my vision is blurry", "emergency.now"),
     ("chest pain", "emergency.now")],
)  # fmt: skip
def test_signs_are_answered_in_words(words: str, key: str) -> None:
    """Words that plainly answer were asked about, or led to the emergency twice."""
    book = high().types("195/100 90").types(words)
    assert key in book.said
    assert book.waits(minutes=1, seconds=30).said == ()


@pytest.mark.parametrize(
    "words",
    ["sat down", "ive sat down", "sitting down now", "i lay down", "i give up", "that's enough",
     "im going to vomit", "i threw up", "no aguanto más", "ya no puedo", "tuve que sentarme",
     "me tumbé", "voy a vomitar"],
)  # fmt: skip
def test_no_longer_standing_is_understood(words: str) -> None:
    """These kept a person standing."""
    assert isinstance(stands().waits(minutes=3).types(words).conversation.stage, AwaitingStopReason)


def test_sat_down_while_sitting_is_no_stop() -> None:
    """Once "I sat down" ended the test of somebody who was told to sit."""
    book = Playbook().lies_down().waits(minutes=5).types("120/76 70").types("i sat down")
    assert not isinstance(book.conversation.stage, AwaitingStopReason)


def test_correction_of_what_came_before_says_lie_down() -> None:
    """Somebody standing was told to stay lying down."""
    assert "unsafe.corrected" in stands().waits(minutes=2).edits(1, "85/50 70").said


@pytest.mark.parametrize(("words", "key"), [("a bit better", "recovery.better"),
    ("mucho mejor", "recovery.better"), ("not better", "recovery.same"),
    ("no estoy mejor", "recovery.same"), ("still dizzy", "recovery.same"),
    ("a little worse", "recovery.worse")])  # fmt: skip
def test_plain_answers_to_how_are_you(words: str, key: str) -> None:
    """These were not understood."""
    book = stands().waits(minutes=3).types("about to faint").waits(minutes=2).types(words)
    assert key in book.said


@pytest.mark.parametrize("words", ["stop 195/125 120", "85/50 120 stop"])
def test_number_beside_stop_keeps_its_meaning(words: str) -> None:
    """The number was kept, and answered like any other stop."""
    book = stands().waits(minutes=5).types(words)
    assert "tell.unsafe-reading" in book.said


def test_top_is_a_label_beside_a_number() -> None:
    """Once "top 85" was heard as a misspelt stop."""
    book = stands().waits(minutes=5).types("top 115")
    assert book.conversation.aside is None
    assert not isinstance(book.conversation.stage, Resting)


@pytest.mark.parametrize("words", ["about to faint", "chest pain"])
def test_call_soon_after_the_test_is_looked_after(words: str) -> None:
    """Half a minute after the last reading nobody was told, and nothing was asked after."""
    book = stands().waits(minutes=5).types("116/70 90").waits(minutes=5).types("114/70 95")
    book.waits(seconds=30).types(words)
    assert book.said[0] in ("tell.felt-faint", "tell.emergency")
    assert "recovery.how" in book.waits(minutes=2).said


def test_new_test_ends_the_looking_after() -> None:
    """Once "how are you now, lying down?" came in the middle of a new test."""
    book = stands().waits(minutes=3).types("about to faint").types("start").taps("go")
    assert book.conversation.recovery is None


@pytest.mark.parametrize("words", ["chest pain", "I can't breathe"])
def test_certain_call_settles_the_question_about_help(words: str) -> None:
    """The question stayed open beneath the answer, and a minute later the answer came again."""
    book = stands().types("no chest pain").types(words)
    assert book.conversation.aside is None
    assert "emergency.now" not in book.waits(minutes=1, seconds=30).said


@pytest.mark.parametrize("words", ["yes", "Yes!", "sí"])
def test_bare_yes_does_not_mean_better(words: str) -> None:
    """Once a yes to "better, the same or worse?" was taken as better."""
    book = stands().waits(minutes=3).types("about to faint").waits(minutes=2).types(words)
    assert book.said == ("recovery.how",)
    assert isinstance(book.conversation.recovery, LyingDown)


@pytest.mark.parametrize("words", ["I felt unwell", "me sentí mal"])
def test_reason_in_the_past_is_no_worse(words: str) -> None:
    """The reason as it is offered, typed with "I", led to the emergency number."""
    book = stands().waits(minutes=3).types("stop").types(words)
    assert "recovery.worse" not in book.said
    assert isinstance(book.conversation.stage, Finished)
    assert "recovery.how" in book.waits(minutes=2).said


@pytest.mark.parametrize("reason", ["pain", "unwell", "felt-faint"])
def test_stop_for_how_they_feel_is_followed_up_sitting_too(reason: str) -> None:
    """Somebody who stopped for pain before standing was told to lie down, and never asked after."""
    book = Playbook().lies_down().waits(minutes=5).types("120/76 70").taps("stop").taps(reason)
    assert "recovery.how" in book.waits(minutes=2).said


@pytest.mark.parametrize("words", ["185/100 90", "185/100", "19/11", "sys 185 dia 100"])
def test_second_measurement_counts_while_a_fix_is_open(words: str) -> None:
    """Numbers typed after "measure again" went to the correction that had been opened before."""
    book = stands().waits(minutes=5).types("190/100 90").types("fix").waits(minutes=1)
    assert book.types(words).said == ("recovery.second", "recovery.signs")
    assert isinstance(book.conversation.stage, Finished)
    assert book.conversation.stage.record.readings[-1].values.systolic == 190
    assert len(book.conversation.stage.record.repeats) == 1


def test_second_measurement_counts_while_a_doubt_is_open() -> None:
    """The same with a doubt about a correction: the numbers were asked about instead."""
    book = stands().waits(minutes=5).types("190/100 90").types("fix").types("165/155 90")
    assert isinstance(book.conversation.aside, ConfirmingReading)
    assert book.waits(minutes=1).types("150/90 88").said == ("recovery.second", "recovery.lower")
    assert book.conversation.aside is None


@pytest.mark.parametrize("words", ["150/90 88", "85/50 120"])
def test_second_measurement_counts_while_another_question_is_open(words: str) -> None:
    """With a question about what is kept open, the numbers were not understood."""
    book = high().types("delete everything").types(words)
    assert book.said[0] == "recovery.second"


def test_words_that_correct_go_to_the_correction() -> None:
    """Whoever says that earlier numbers were wrong means those, after "measure again" as well."""
    book = stands().waits(minutes=5).types("190/100 90").types("fix").waits(minutes=1)
    assert "fix.done" in book.types("no, I meant 119/70 90").said


@pytest.mark.parametrize("how", ["edit", "fix"])
def test_reading_put_right_calls_off_the_second_measurement(how: str) -> None:
    """A very high pressure that was a slip was to be measured again all the same."""
    book = stands().waits(minutes=5).types("190/100 90")
    if how == "edit":
        book.edits(3, "119/70 90")
    else:
        book.types("fix").types("119/70 90")
    assert book.said[:2] == ("fix.done", "recovery.called-off")
    assert book.conversation.recovery is None
    assert book.waits(minutes=5).said == ()


def test_reading_that_stays_high_is_measured_again() -> None:
    """A correction to numbers still past the line, or of another reading, calls nothing off."""
    book = stands().waits(minutes=5).types("190/100 90").edits(2, "119/76 74")
    assert "recovery.called-off" not in book.said
    assert "recovery.measure" in book.waits(minutes=1).said


def test_second_measurement_still_high_is_not_called_off() -> None:
    """Once the second numbers are very high too, the first being a slip does not undo that."""
    book = high().types("195/110 90").taps("no").edits(3, "119/70 90")
    assert "recovery.called-off" not in book.said


def measured_again(words: str) -> Playbook:
    """Return somebody whose very high pressure was measured again."""
    book = Playbook().stands().waits(minutes=5).types("190/100 80").waits(minutes=2)
    return book.types(words)


def test_a_changed_second_measurement_is_read_anew() -> None:
    """The person was left with "that is lower" though they had put it right to 185/100."""
    book = measured_again("150/95 80")
    assert book.said == ("recovery.lower",)
    book.edits(book._typed, "185/100 80")
    assert book.said == ("recovery.signs",)
    stage = book.conversation.stage
    assert isinstance(stage, Finished)
    (repeat,) = stage.record.repeats
    assert (repeat.values.systolic, repeat.values.diastolic) == (185, 100)
    book.edits(book._typed, "155/95 80")
    assert book.said == ("recovery.lower",)


def test_a_second_measurement_changed_to_what_cannot_be_read_is_asked_for() -> None:
    """Nothing of it is lost, and it is never taken in silence; a word of help is still heard."""
    book = measured_again("150/95 80")
    assert book.edits(book._typed, "um").said == ("recovery.unclear",)
    assert book.edits(book._typed, "chest pain").said[0] == "emergency.now"


def test_an_emergency_is_not_called_off_by_a_changed_number() -> None:
    """Signs of danger were there: the words to get help stand, whatever the number was."""
    book = measured_again("185/100 80").taps("yes")
    assert book.said == ("emergency.now",)
    assert book.edits(book._typed, "150/95 80").said == ("reading.after-the-end",)


@pytest.mark.parametrize("words", ["wait", "hold on", "Espere un momento", "not yet", "ya voy"])
def test_somebody_who_needs_a_moment_is_given_it(words: str) -> None:
    """The answer was "I did not understand that", to somebody busy with a cuff."""
    book = Playbook().stands().waits(minutes=5)
    assert book.types(words).said == ("take-your-time", "reading.ask.standing")
    assert Playbook().opens().types(words).said[0] == "take-your-time"
