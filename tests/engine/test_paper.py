"""A test that was done on paper: dated, typed in, kept like any other, and marked."""

from datetime import UTC, datetime, timedelta

import pytest

from bot.booking.plan import ReminderKind
from bot.engine.context import Context, Opening
from bot.engine.effects import Keep, Say, Urgency
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.replay import replay
from bot.engine.state import AwaitingReading, Booked, Enrolling, Finished, Idle, Planning
from bot.protocol.circumstances import Cuff, DayKind, RateSource
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Origin, Symptom, TestRecord, Values
from bot.protocol.released import FOUR_READINGS
from bot.testing.playbook import START, Playbook

FULL = Context(opening=Opening.FULL)
YESTERDAY = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)  # 9:00 in Madrid, where the playbook's adult is


def dated() -> Playbook:
    """Return a booked person's book with day and hour of a paper test confirmed."""
    return Playbook(FULL).books().types("paper").types("yesterday 9:00").taps("yes")


def copying() -> Playbook:
    """Return one at the first reading."""
    return dated().taps("good")


def kept(book: Playbook) -> TestRecord:
    """Return what the last step kept."""
    return [effect.record for effect in book.effects if isinstance(effect, Keep)][-1]


def test_a_whole_test_is_kept_with_the_times_of_the_plan() -> None:
    """All readings are at their planned minutes from the hour told, and the record says why."""
    book = copying().types("120/76 70").types("118/76 74").types("116/78 98")
    record = kept(book.types("112/80 104").types("nothing else"))
    assert (record.origin, record.typed_in_at) == (Origin.PAPER, START)
    assert (record.began_at, record.number, record.protocol) == (YESTERDAY, 1, FOUR_READINGS.ref)
    minutes = [(r.given_at - YESTERDAY) / timedelta(minutes=1) for r in record.readings]
    assert minutes == [5, 10, 15, 20]
    assert [r.offset / timedelta(minutes=1) for r in record.readings] == [5, 5, 5, 10]
    assert [r.slot for r in record.readings] == [slot.id for slot in FOUR_READINGS.slots]
    assert record.readings[3].values == Values(systolic=112, diastolic=80, heart_rate=104)
    assert (record.ending, record.ended_at) == (
        Ending.COMPLETED, YESTERDAY + timedelta(minutes=20),
    )  # fmt: skip
    assert record.day is DayKind.GOOD
    told = record.circumstances
    assert told is not None
    assert (told.zone, told.cuff, told.rate_source, told.audited) == (
        "Europe/Madrid", Cuff.UPPER_ARM, RateSource.CUFF, False,
    )  # fmt: skip
    assert not any(reading.late for reading in record.readings)


def test_results_come_as_after_any_test_and_the_booking_stands() -> None:
    """Summary and files are sent, the second test is looked out for, the booking is not used up."""
    book = Playbook(FULL).books()
    booking = book.conversation.stage
    book.copies().types("124/80 99").taps("nothing")
    assert book.said == (
        "paper.done", "hand.summary", "hand.chart", "hand.pdf", "hand.csv", "question.watch",
    )  # fmt: skip
    assert book.conversation.stage == booking
    assert book.conversation.resumes is None
    assert book.conversation.profile.tests[-1].day is DayKind.GOOD
    book.types("results")
    assert "recall.summary" in book.said


def test_a_good_and_a_bad_day_on_paper_are_compared() -> None:
    """The second kind of day completes the pair, as after tests in the chat."""
    book = Playbook(FULL).enrols().copies().types("124/80 99").taps("nothing").taps("none")
    book.types("papel").types("2 days ago 9:00").taps("yes").taps("symptomatic")
    book.types("120/76 70").types("118/76 74").types("110/70 112").types("108/70 116")
    assert book.taps("nothing").said[-3:] == ("second.done", "compare", "compare.pdf")
    assert [t.number for t in book.conversation.profile.tests] == [1, 2]
    assert isinstance(book.conversation.stage, Finished)


def test_what_was_not_taken_stays_open_and_where_it_ended_is_asked() -> None:
    """Without the last reading it is asked how it ended, from the last position that was read."""
    book = copying().types("120/76 70").types("not taken").types("98/64 120 dizzy 6, sweaty 2")
    book.types("no la medí").types("nada más")
    assert book.said == ("paper.ended",)
    assert [book.token(choice) for choice in ("to-the-end", "standing")]
    with pytest.raises(AssertionError, match="seated"):
        book.token("w1.ended3:seated")
    record = kept(book.types("No, I stopped standing"))
    assert (record.ending, record.ended_at) == (Ending.STOPPED, YESTERDAY + timedelta(minutes=15))
    assert [r.slot for r in record.readings] == ["supine-5", "standing-5"]
    assert [(s.symptom, s.strength, s.position, s.offset) for s in record.symptoms] == [
        (Symptom.DIZZY, 6, Position.STANDING, timedelta(minutes=5)),
        (Symptom.SWEATING, 2, Position.STANDING, timedelta(minutes=5)),
    ]


def test_where_it_ended_closes_the_phases() -> None:
    """Stopped in the chair with nothing read there, it has no standing phase and ends on it."""
    book = copying().types("120/76 70").types("skip").types("skip").types("skip").taps("nothing")
    record = kept(book.taps("seated"))
    assert [phase.position for phase in record.phases] == [Position.SUPINE, Position.SEATED]
    assert record.ended_at == YESTERDAY + timedelta(minutes=5)


def test_other_symptoms_are_kept_without_a_time() -> None:
    """What is told apart from a reading belongs to none, known words or not."""
    book = Playbook(FULL).books().copies().types("124/80 99")
    book.types("headache 3").types("my legs buzz")
    assert book.said == ("symptom.noted-plain", "paper.symptoms")
    record = kept(book.types("nothing else"))
    assert [(s.symptom, s.strength, s.position, s.offset) for s in record.symptoms] == [
        (Symptom.HEADACHE, 3, None, None),
        (Symptom.OTHER, None, None, None),
    ]
    assert {s.told_at for s in record.symptoms} == {record.ended_at}
    assert not any(record.time_known(report) for report in record.symptoms)


def test_a_test_without_numbers_is_not_kept() -> None:
    """If nothing was taken, nothing is kept or counted."""
    book = copying().types("skip").types("skip").types("skip").types("skip").taps("nothing")
    assert book.said[0] == "paper.no-numbers"
    assert not any(isinstance(effect, Keep) for effect in book.effects)
    assert book.conversation.tests == 0
    assert isinstance(book.conversation.stage, Booked)


# -- when it began


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("tomorrow 9:00", ("paper.to-come", "paper.when")),
        ("today 23:00", ("paper.to-come", "paper.when")),
        ("2024-03-01 9:00", ("paper.too-old", "paper.when")),
        ("29 March 2025 2:30 am", ("plan.sure",)),
        ("30 March 2025 2:30 am", ("when.skipped", "paper.when")),
        ("26 October 2025 2:30 am", ("plan.sure",)),
        ("yesterday", ("paper.hour",)),
        ("9:00", ("when.which-day", "paper.when")),
        ("yesterday at 3", ("when.which-half", "paper.hour")),
        ("tomatoes", ("not-understood", "paper.when")),
    ],
)
def test_day_and_hour_are_asked_until_they_are_clear_and_past(
    text: str, said: tuple[str, ...]
) -> None:
    """What is to come, too old, never shown on the clock or half told is not taken."""
    assert Playbook(FULL).books().types("paper").types(text).said == said


def test_the_hour_may_come_before_the_day() -> None:
    """Both parts are kept in either order, and said back; no asks anew."""
    book = Playbook(FULL).books().types("paper").types("9:00").types("yesterday")
    assert book.said == ("plan.sure",)
    assert book.types("no").conversation.stage == DatingPaper()
    assert book.taps("2026-02-28").said == ("paper.hour",)
    book.types("9:00").types("yes")
    stage = book.conversation.stage
    assert isinstance(stage, CopyingPaper)
    assert stage.record.began_at == datetime(2026, 2, 28, 8, 0, tzinfo=UTC)


# -- numbers


def test_odd_numbers_are_asked_about_and_parts_are_put_together() -> None:
    """The same parser, plausibility and echo as in a test."""
    book = copying().types("76/120 70")
    assert book.said == ("doubt.swapped",)
    assert book.types("no").said[0] == "doubt.denied"
    assert book.types("300/20").said[0] == "problem.impossible.systolic"
    assert book.types("120/76").said == ("reading.want.heart-rate",)
    assert book.types("70").said == ("reading.kept", "paper.reading.seated")
    assert book.types("118/112 74").said == ("doubt.pulse-pressure",)
    assert book.types("where").said == ("doubt.again",)
    assert book.types("yes").said == ("reading.kept", "paper.reading.standing")
    stage = book.conversation.stage
    assert isinstance(stage, CopyingPaper)
    assert [r.values for r in stage.record.readings] == [
        Values(systolic=120, diastolic=76, heart_rate=70),
        Values(systolic=118, diastolic=112, heart_rate=74),
    ]


def test_a_part_can_be_all_there_is() -> None:
    """With a number missing on the paper, what there is is kept."""
    book = copying().types("120/76").types("not taken")
    assert book.said == ("paper.kept-part", "paper.reading.seated")
    stage = book.conversation.stage
    assert isinstance(stage, CopyingPaper)
    assert stage.record.readings[0].values == Values(systolic=120, diastolic=76)


@pytest.mark.parametrize(
    ("numbers", "care"),
    [
        (("184/100 80",), "high"),
        (("120/76 70", "150/122 80"), "high"),
        (("84/50 80",), "low"),
        (("120/76 70", "118/76 74", "86/60 99"), "low"),
        (("118/76 38",), "rate"),
        (("118/76 134",), "rate"),
        (("140/84 70", "140/84 74", "106/70 99 dizzy 4"), "fall"),
        (("140/84 70", "140/84 74", "116/70 60"), "fall"),
    ],
)
def test_numbers_past_a_stop_line_stop_nothing(numbers: tuple[str, ...], care: str) -> None:
    """They get the sentence about the care team, at no urgency, and the next question comes."""
    book = copying()
    for text in numbers:
        book.types(text)
        if book.said[0].startswith("doubt."):
            book.types("yes")
    assert f"paper.care.{care}" in book.said
    assert [e.urgency for e in book.effects if isinstance(e, Say)] == [Urgency.REPLY]
    assert isinstance(book.conversation.stage, CopyingPaper)
    assert book.conversation.recovery is None


def test_ordinary_numbers_get_no_sentence() -> None:
    """Nothing is said of numbers that cross no line."""
    assert copying().types("120/76 70").said == ("reading.kept", "paper.reading.seated")


@pytest.mark.parametrize(
    ("text", "first"),
    [("chest pain", "emergency.now"), ("I am about to faint", "faint.lie-down")],
)
def test_calls_for_help_are_heard_and_the_question_waits(text: str, first: str) -> None:
    """While a paper is copied, words of emergency come first as always; then it goes on."""
    book = copying().types("120/76 70").types(text)
    assert book.said[0] == first
    book.types("118/76 74")
    assert book.said == ("reading.kept", "paper.reading.standing")


def test_a_faint_on_the_paper_can_be_typed_in_all_the_same() -> None:
    """Words of a faint get the words of safety first, then how to type it if it is long past."""
    book = copying().types("120/76 70").types("118/76 74").types("98/64 120 felt faint")
    assert book.said == ("faint.lie-down", "paper.if-then", "paper.reading.standing")
    book.types("98/64 120 faint 4")
    assert book.said == ("reading.kept", "symptom.noted", "paper.reading.standing")


def test_fix_goes_back_one_step() -> None:
    """The parts of a reading are let go first, then the reading before, then day kind and hour."""
    book = copying().types("120/76 70 dizzy 3").types("118/76")
    assert book.types("fix").said == ("fix.cleared", "paper.reading.seated")
    assert book.types("fix").said == ("paper.reading.supine", "paper.reading.hint")
    stage = book.conversation.stage
    assert isinstance(stage, CopyingPaper)
    assert (stage.record.readings, stage.record.symptoms) == ((), ())
    assert book.types("corregir").said == ("paper.day-kind",)
    assert book.types("fix").said == ("paper.when",)


def test_an_edited_message_corrects_what_it_gave() -> None:
    """While it is copied, and afterwards as in any test; then no stop line makes anybody lie."""
    book = copying().types("120/76 70")
    source = int(book.events[-1].source)  # type: ignore[union-attr]
    assert book.edits(source, "122/76 70").said == ("fix.done", "paper.reading.seated")
    assert book.edits(source, "tomatoes").said == ("fix.edit-unclear", "paper.reading.seated")
    book.types("118/76 74").types("116/78 98").types("112/80 104").taps("nothing")
    assert book.edits(source, "82/50 70").said == (
        "fix.done", "paper.care.low", "hand.summary", "hand.chart", "hand.pdf", "hand.csv",
        "question.watch",
    )  # fmt: skip
    assert book.conversation.recovery is None
    assert kept(book).readings[0].values.systolic == 82
    assert (kept(book).origin, kept(book).revision) == (Origin.PAPER, 2)


# -- where it can be begun, and left


def test_it_is_not_begun_while_a_test_runs_or_before_enrolment() -> None:
    """Standing it has to wait, before consent the questions of the beginning come first."""
    running = Playbook().stands().waits(minutes=5)
    assert running.types("paper").said[0] == "after-the-test"
    assert isinstance(running.conversation.stage, AwaitingReading)
    new = Playbook(FULL).types("I did it on paper")
    assert isinstance(new.conversation.stage, Enrolling)
    assert new.taps("yes").types("paper").said[0] == "paper.later"


@pytest.mark.parametrize("word", ["cancel", "stop", "cancelar"])
def test_leaving_keeps_nothing_but_what_stood_before(word: str) -> None:
    """The booking stands as before; a plan to move it is forgotten, the booking is not."""
    book = Playbook(FULL).books().types("move")
    assert isinstance(book.conversation.stage, Planning)
    book.types("paper").types("yesterday 9:00").taps("yes").taps("good").types("120/76 70")
    assert book.types(word).said == ("paper.left", "where.booked")
    assert isinstance(book.conversation.stage, Booked)
    assert (book.conversation.tests, book.conversation.resumes) == (0, None)


def test_a_reminder_comes_and_the_question_is_put_again() -> None:
    """What was typed in is not lost to a reminder of the booking."""
    book = copying().types("120/76 70").waits(minutes=60 * 23)
    said = [p.key for e in book.heard if isinstance(e, Say) for p in e.parts]
    assert f"reminder.{ReminderKind.DAY_BEFORE}" in said or "reminder.hours-before" in said
    assert isinstance(book.conversation.stage, CopyingPaper)
    assert book.types("118/76 74").said == ("reading.kept", "paper.reading.standing")


def test_the_daily_question_takes_the_place_of_what_was_left_open() -> None:
    """After an hour without a word it gives way, and that is said."""
    book = Playbook(FULL).enrols().copies().types("124/80 99").taps("nothing")
    book.taps("daily").taps("18").taps("6")
    book.waits(minutes=60 * 8).types("paper").types("2 days ago 9:00").waits(minutes=60 * 26)
    assert "put-aside.paper" in book.said
    assert isinstance(book.conversation.stage, Finished)


def test_it_works_in_the_short_opening() -> None:
    """Trying out, there is no consent and no zone; the test is kept all the same."""
    book = Playbook().types("paper").types("yesterday 9:00").taps("yes").taps("unsure")
    book.types("120/76 70").types("118/76 74").types("116/78 98").types("112/80 104")
    record = kept(book.types("none"))
    assert (record.age_band, record.circumstances, record.day) == (None, None, DayKind.UNSURE)
    assert isinstance(book.conversation.stage, Finished)
    assert isinstance(Playbook().types("paper").types("cancel").conversation.stage, Idle)


def test_its_log_replays() -> None:
    """The events of a paper test give the same conversation again."""
    book = Playbook(FULL).books().copies().types("124/80 99").types("tired 2").taps("nothing")
    assert replay(book.context, book.beginning, book.events) == book.conversation
    assert book.conversation.tests == 1
