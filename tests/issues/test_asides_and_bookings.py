"""Answers that went to the wrong question, and bookings that were lost on the way."""

from datetime import timedelta

import pytest

from bot.engine.asides import Question
from bot.engine.context import Context, Opening
from bot.engine.effects import HandCalendar
from bot.engine.events import Cleared
from bot.engine.state import (
    AwaitingReading,
    AwaitingStopReason,
    Booked,
    Enrolling,
    Finished,
    Planning,
)
from bot.testing.playbook import Playbook

FULL = Context(opening=Opening.FULL)


@pytest.mark.parametrize("words", ["symptom", "dizzy", "language", "fix"])
def test_not_all_right_counts_whatever_else_is_open(words: str) -> None:
    """The button "I am not all right" was stale while another question was open."""
    book = Playbook().stands().waits(minutes=5).types(words).waits(minutes=2, seconds=5)
    book.taps("unwell")
    assert isinstance(book.conversation.stage, Finished)


def test_ok_to_all_right_answers_nothing_else() -> None:
    """Once "ok" answered a question about deletion that was open underneath."""
    book = Playbook().stands().waits(minutes=4, seconds=50).types("delete everything")
    assert book.said[0] == "after-the-test"
    book.waits(minutes=2, seconds=10).types("ok")
    assert book.said[0] == "silence.good"
    assert isinstance(book.conversation.stage, AwaitingReading)


@pytest.mark.parametrize("words", ["I feel unwell", "not ok", "no"])
def test_not_all_right_in_an_edit_is_heard(words: str) -> None:
    """An edited answer to "are you all right?" met silence."""
    book = Playbook().stands().waits(minutes=5).types("hmm").waits(minutes=2).edits(1, words)
    assert isinstance(book.conversation.stage, Finished)


@pytest.mark.parametrize(
    "words",
    ["no puedo mas 120/80 90", "para 120/80", "S T O P", "s.t.o.p", "let me lie down",
     "i sat down", "me tuve que sentar", "lying down now", "i want out"],
)  # fmt: skip
def test_stop_while_standing_that_was_missed(words: str) -> None:
    """These kept a person standing."""
    book = Playbook().stands().waits(minutes=5).types(words)
    assert isinstance(book.conversation.stage, AwaitingStopReason)


@pytest.mark.parametrize("words", ["i need help", "me he caido", "fell down"])
def test_emergency_while_standing_that_was_missed(words: str) -> None:
    """These were not understood."""
    assert Playbook().stands().types(words).said[0] == "emergency.now"


def test_help_while_standing_is_taken_seriously() -> None:
    """A bare "help" while standing may be a call; no answer means stop."""
    book = Playbook().stands().waits(minutes=1).types("ayuda")
    assert book.said == ("help.running", "stop.sure")
    book.waits(minutes=1)
    assert isinstance(book.conversation.stage, AwaitingStopReason)


@pytest.mark.parametrize("words", ["now", "go", "ready", "I am not pregnant"])
def test_checklist_is_not_passed_by_other_words(words: str) -> None:
    """Words for something else were taken as "none of these", or a denial as a yes."""
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("Madrid").types(words)
    stage = book.conversation.stage
    assert isinstance(stage, Enrolling)
    assert stage.question is Question.HAZARDS


def test_history_of_fainting_is_an_answer_to_the_checklist() -> None:
    """Once: "Fainted before" was answered as an emergency, and not recorded."""
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("Madrid")
    book.types("fainted before")
    assert book.said == ("held",)


def test_nobody_is_cleared_in_advance() -> None:
    """A clearance before the checklist let any later yes pass."""
    book = Playbook(FULL).opens().taps("yes")
    book.happens(Cleared(at=book.now, by="Dr Lind"))
    assert book.conversation.profile.cleared_at is None


def test_second_move_still_knows_the_booking() -> None:
    """Typing "move" twice lost the booking without a word."""
    book = Playbook(FULL).books().types("move").types("move")
    assert isinstance(book.conversation.stage, Planning)
    book.types("cancel")
    assert isinstance(book.conversation.stage, Booked)


@pytest.mark.parametrize("away", ["stop", "feel faint"])
def test_start_by_mistake_keeps_the_booking(away: str) -> None:
    """Beginning a day early and going back lost the booking; so did walking away."""
    book = Playbook(FULL).books().types("start").types(away)
    assert isinstance(book.conversation.stage, Booked)
    book = Playbook(FULL).books().types("start")
    book.now += timedelta(minutes=1)
    book.waits(minutes=60 * 25)
    assert "reminder.soon" in book.said


def test_test_that_began_leaves_no_booking_behind() -> None:
    """Once the test has begun no reminder of its booking comes, nor once it was measured."""
    book = Playbook(FULL).books().types("start").taps("done").taps("go").taps("there")
    book.waits(minutes=5).types("120/76 70").types("stop").taps("pain")
    assert book.conversation.resumes is None
    assert not any(key.startswith("reminder") for key in book.waits(minutes=60 * 48).said)


def test_booking_for_today_takes_the_old_one_out_of_the_calendar() -> None:
    """A repeat in an hour replaced a booking without taking it out of the calendar.

    The entry is the same one, changed, so that none is left at the old time.
    """
    book = Playbook(FULL).books().types("bad day").taps("in-an-hour")
    entries = [e for e in book.effects if isinstance(e, HandCalendar)]
    assert [(e.cancelled, e.booking.number, e.booking.sequence) for e in entries] == [(False, 1, 1)]


def test_cancel_of_a_deletion_cancels_only_that() -> None:
    """Once "cancel" under "delete everything?" cancelled the booking."""
    book = Playbook(FULL).books().types("delete everything").types("cancel")
    assert isinstance(book.conversation.stage, Booked)


def test_result_buttons_wait_for_the_end_of_a_test() -> None:
    """Old buttons sent files to a person lying still."""
    from bot.engine.events import ChoiceTapped

    book = Playbook().stands()
    for token in ("result:1", "compare"):
        book.happens(ChoiceTapped(at=book.now, token=token))
        assert book.said[0] == "after-the-test"
