"""Between two tests: questions that were lost, times in the night, words not understood."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.booking.plan import ReminderKind
from bot.engine.asides import Asking, Question
from bot.engine.context import Context, Opening
from bot.engine.effects import Compare, Form, HandCalendar, Keep
from bot.engine.events import Cleared
from bot.engine.state import Auditing, AwaitingReady, Booked, Enrolling, Finished, Idle, Planning
from bot.protocol.circumstances import DayKind, Hazard
from bot.testing.playbook import Playbook

FULL = Context(opening=Opening.FULL)


def after_a_test(day: str | None = None, book: Playbook | None = None) -> Playbook:
    """Return a playbook in which a whole test was done, and its kind of day told if given."""
    book = Playbook(FULL).books().types("start") if book is None else book.types("start")
    if isinstance(book.conversation.stage, Planning):
        book.types("now")
    assert isinstance(book.conversation.stage, Auditing)
    if book.conversation.stage.question is Question.SAME_KIT:
        book.taps("same")
    book.taps("done").taps("go").taps("there")
    for numbers in ("120/76 70", "118/76 74"):
        book.waits(minutes=5).types(numbers).taps("there")
    book.waits(minutes=5).types("116/76 90").waits(minutes=5).types("114/76 96")
    assert isinstance(book.conversation.stage, Finished)
    if day is not None:
        book.taps(day)
    return book


def asked(book: Playbook) -> Question | None:
    """Return the question between two tests that is open."""
    match book.conversation.aside:
        case Asking(question=question):
            return question
        case _:
            return None


@pytest.mark.parametrize(
    "steps",
    [
        ("types language", "taps es"),
        ("types fix", "types 114/76 98"),
        ("types delete everything", "taps no"),
        ("types book", "types cancel"),
        ("types book", "taps 2026-03-03", "types 9:00", "taps yes"),
        ("types español",),
    ],
)
def test_kind_of_day_is_asked_again_after_what_put_it_off(steps: tuple[str, ...]) -> None:
    """Anything asked meanwhile made the question vanish: the test was never compared."""
    book = after_a_test()
    for step in steps:
        verb, _, what = step.partition(" ")
        getattr(book, verb)(what)
    assert asked(book) is Question.DAY_KIND
    book.taps("good")
    assert book.conversation.profile.tests[-1].day is DayKind.GOOD
    kept = [effect.record.day for effect in book.effects if isinstance(effect, Keep)]
    assert kept == [DayKind.GOOD]


def test_bad_day_typed_for_todays_test_is_its_kind() -> None:
    """While the question was put off, "bad day" was taken as a wish to repeat."""
    book = after_a_test().types("book").types("bad day")
    assert book.conversation.profile.tests[-1].day is DayKind.SYMPTOMATIC


def test_watch_question_put_off_is_asked_again() -> None:
    """How to look out for the second test was asked once only, whatever came in between."""
    book = after_a_test("good").types("language").taps("en")
    assert asked(book) is Question.WATCH
    book.taps("daily").types("results").types("language").taps("en")
    assert asked(book) is Question.WATCH
    book.taps("none").types("language").taps("en")
    assert asked(book) is None


def test_nothing_is_asked_on_top_of_safety_words() -> None:
    """Once a question that was put off is still open, a call for help is answered alone."""
    book = after_a_test().types("book").types("I have chest pain")
    assert book.said == ("emergency.now",)


def test_kind_of_an_earlier_day_names_the_test() -> None:
    """Once the kind of "today" was asked of a test days ago."""
    book = after_a_test().types("book").waits(minutes=60 * 30).types("cancel")
    assert book.said[-1] == "question.day-kind.then"


def test_third_test_is_laid_beside_the_other_kind_of_day() -> None:
    """From the third test on the last two were compared, of one kind as they were."""
    book = after_a_test("good").taps("none")
    after_a_test("symptomatic", book)
    book.waits(minutes=60 * 24)
    after_a_test("symptomatic", book)
    pairs = [
        (e.first, e.second)
        for e in book.effects
        if isinstance(e, Compare) and e.form is Form.SUMMARY
    ]
    assert pairs == [(1, 3)]
    book.types("results").taps("compare")
    assert [
        (e.first, e.second)
        for e in book.effects
        if isinstance(e, Compare) and e.form is Form.SUMMARY
    ] == [(1, 3)]


def test_repeat_names_the_test_it_is_compared_with() -> None:
    """The hour of the latest test was said, although it was of the same kind."""
    book = after_a_test("good").taps("none").waits(minutes=60 * 24)
    book.types("bad day")
    first = book.conversation.profile.tests[0]
    moments = [
        part.params["moment"]
        for effect in book.heard[-1:]
        for part in getattr(effect, "parts", ())
        if part.key == "repeat.same-time"
    ]
    assert [getattr(moment, "at", None) for moment in moments] == [first.began_at]


def watched() -> Playbook:
    """Return a playbook with a daily question at 10:00 on a clock in Madrid."""
    return after_a_test("good").taps("daily").taps("10").taps("6")


@pytest.mark.parametrize("begun", ["book", "bad day now"])
def test_watch_goes_on_past_what_was_left_open(begun: str) -> None:
    """Planning or preparing a test that was left open silenced the daily question for good."""
    book = watched()
    book.types("book") if begun == "book" else book.types("bad day").taps("now")
    assert isinstance(book.conversation.stage, Planning | Auditing)
    book.waits(minutes=60 * 27)
    assert isinstance(book.conversation.stage, Idle)
    assert asked(book) is Question.DAY_SCORE


def test_daily_question_never_comes_in_the_night() -> None:
    """After a pause that ended at night the missed question came at once."""
    book = watched().types("pause").waits(minutes=60 * 24 * 3)
    book.now = book.now.replace(hour=22)
    book.types("resume").waits(minutes=60)
    assert asked(book) is None
    book.waits(minutes=60 * 12)
    assert asked(book) is Question.DAY_SCORE
    assert book.conversation.profile.watch is not None
    assert book.conversation.profile.watch.unanswered == 0


def test_answered_questions_are_not_counted_as_unanswered() -> None:
    """A day that was answered counted towards asking once a week only."""
    book = watched()
    for _ in range(4):
        book.waits(minutes=60 * 24)
        assert asked(book) is Question.DAY_SCORE
        book.taps("2")
    assert book.conversation.profile.watch is not None
    assert book.conversation.profile.watch.unanswered == 0


def test_repeat_is_not_booked_for_the_night() -> None:
    """Once "In an hour" at 22:00 was booked for 23:00."""
    book = after_a_test("good").taps("none")
    book.now = book.now.replace(hour=21, minute=30)
    book.types("bad day").taps("in-an-hour")
    assert isinstance(book.conversation.stage, Planning)
    assert book.said[0] == "objection.in-the-night"


def test_answers_about_the_preparation_grow_old() -> None:
    """A test begun days after the questions carried answers of another day."""
    book = after_a_test("good").taps("none").types("bad day").taps("now").taps("same").taps("done")
    assert isinstance(book.conversation.stage, AwaitingReady)
    book.waits(minutes=60 * 24).taps("go")
    assert isinstance(book.conversation.stage, Auditing)
    assert "audit.anew" in book.said
    book.waits(minutes=60 * 4).taps("same")
    assert "audit.anew" in book.said


def test_changed_consent_is_asked_of_who_has_booked() -> None:
    """A new consent text was never put to people with a booking; a no deleted all at once."""
    book = after_a_test("good").taps("none").types("book").taps_day(1).types("9:00").taps("yes")
    book.context = replace(FULL, consent_version=2)
    book.types("start")
    assert isinstance(book.conversation.stage, Enrolling)
    assert "consent.changed" in book.said
    book.types("no")
    assert isinstance(book.conversation.stage, Booked)
    assert asked(book) is Question.DELETE
    book.taps("no").types("start").taps("yes")
    assert isinstance(book.conversation.stage, Auditing)
    assert book.conversation.profile.consent_version == 2


def test_pause_is_not_contradicted() -> None:
    """While reminders were paused a new booking said that they would come."""
    book = after_a_test("good").taps("none").types("pause")
    book.types("book").taps_day(1).types("9:00").taps("yes")
    assert "paused.still" in book.said
    assert "booked.reminding" not in book.said


def test_where_after_the_time_says_that_it_has_passed() -> None:
    """Once "Where" called a booking next that was past."""
    book = Playbook(FULL).books()
    assert isinstance(book.conversation.stage, Booked)
    book.now = book.conversation.stage.booking.at + timedelta(minutes=5)
    assert book.types("where").said == ("where.booked.past",)


@pytest.mark.parametrize(
    ("words", "stage"),
    [("start now", Auditing), ("yes", Auditing), ("now", Auditing), ("empezar ahora", Auditing),
     ("15 min later", Booked), ("later", Booked), ("más tarde", Booked), ("no", Booked),
     ("saturday 9:00", Planning)],
)  # fmt: skip
def test_answers_to_a_reminder_can_be_typed(words: str, stage: type) -> None:
    """What the buttons under a reminder say was not understood when typed."""
    book = Playbook(FULL).books()
    assert isinstance(book.conversation.stage, Booked)
    at = book.conversation.stage.booking.at
    book.now = at - timedelta(minutes=10)
    book.types(words)
    assert isinstance(book.conversation.stage, stage)
    assert "not-understood" not in book.said


def test_later_on_the_follow_up_reminds_at_the_new_time() -> None:
    """Once "15 min later" after the time was answered at once by "get ready"."""
    book = Playbook(FULL).books()
    assert isinstance(book.conversation.stage, Booked)
    at = book.conversation.stage.booking.at
    book.waits(minutes=(at - book.now).total_seconds() / 60 + 31).taps("later")
    said = [book.said, book.waits(minutes=14).said, book.waits(minutes=2).said]
    assert said == [("reminder.later", "calendar"), (), ("reminder.soon",)]


def test_no_to_an_offer_is_taken_as_no() -> None:
    """Once "No" after the offer of another time opened the calendar."""
    book = Playbook(FULL).books()
    assert isinstance(book.conversation.stage, Booked)
    at = book.conversation.stage.booking.at
    book.waits(minutes=(at - book.now).total_seconds() / 60 + 60 * 4)
    assert isinstance(book.conversation.stage, Idle)
    book.types("no")
    assert isinstance(book.conversation.stage, Idle)


def test_day_typed_out_of_the_blue_is_proposed() -> None:
    """Once "Saturday 9:00" without a question was answered by asking for the day."""
    book = Playbook(FULL).books().types("cancel").types("saturday 9:00")
    assert book.said == ("plan.sure",)


@pytest.mark.parametrize("away", ["cancel", "no", "stop"])
def test_time_zone_question_can_be_left(away: str) -> None:
    """Once the zone was asked for anew, only a time or a place led out of it."""
    book = Playbook(FULL).books().types("time zone")
    assert isinstance(book.conversation.stage, Enrolling)
    book.types(away)
    assert isinstance(book.conversation.stage, Booked)


def test_time_zone_can_be_changed_while_planning_and_enrolling() -> None:
    """Once "Time zone" was not understood there; a booking being moved goes along."""
    book = Playbook(FULL).books().types("move").types("time zone").types("Lisbon")
    assert isinstance(book.conversation.stage, Planning)
    assert book.conversation.stage.moving is not None
    assert book.conversation.stage.moving.zone == "Europe/Lisbon"
    assert any(isinstance(effect, HandCalendar) for effect in book.effects)
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("Madrid")
    book.types("time zone").types("Lisbon")
    assert book.conversation.profile.zone == "Europe/Lisbon"
    assert isinstance(book.conversation.stage, Enrolling)
    assert book.conversation.stage.question is Question.HAZARDS


def test_reminder_during_a_move_keeps_what_was_chosen() -> None:
    """A reminder that came while a new time was being confirmed dropped that time."""
    book = Playbook(FULL).books()
    assert isinstance(book.conversation.stage, Booked)
    at = book.conversation.stage.booking.at
    book.waits(minutes=(at - book.now).total_seconds() / 60 - 16)
    book.types("saturday 9:00").waits(minutes=2)
    assert book.said == ("reminder.soon", "plan.sure")
    book.taps("yes")
    assert isinstance(book.conversation.stage, Booked)
    assert ReminderKind.SOON not in book.conversation.stage.sent


@pytest.mark.parametrize("by", ["edit", "button"])
def test_result_can_be_corrected_after_a_new_booking(by: str) -> None:
    """Once a new test was booked the last result could not be put right any more."""
    book = after_a_test("good").taps("none")
    last = book._typed
    book.types("book").taps_day(1).types("9:00").taps("yes")
    if by == "edit":
        book.edits(last, "114/76 99")
    else:
        book.types("fix").types("114/76 99")
    assert isinstance(book.conversation.stage, Booked)
    kept = [e.record for e in book.effects if isinstance(e, Keep)]
    assert [record.readings[-1].values.heart_rate for record in kept] == [99]
    assert "hand.summary" in book.said


def test_clearing_does_not_speak_into_a_test() -> None:
    """The word that somebody is cleared came while they stood in a test."""
    book = Playbook(FULL).books().types("start").taps("done").taps("go").taps("there")
    profile = replace(book.conversation.profile, hazards=(Hazard.PREGNANT,))
    book.conversation = replace(book.conversation, profile=profile)
    book.happens(Cleared(at=book.now, by="Dr Lind"))
    assert book.said == ()


def test_end_of_the_watch_leaves_its_mark() -> None:
    """That the second test is still missing was known to nobody but the person."""
    book = watched().waits(minutes=60 * 24 * 7 * 9)
    assert book.said[-1] == "watch.over"
    assert book.conversation.profile.second_missing_since is not None


def test_placing_is_answered_in_words() -> None:
    """Once "Now" and "earlier", which the buttons say, were not understood when typed."""
    book = Playbook().stands().waits(minutes=5).types("116/76 90").types("fix")
    book.waits(minutes=5).types("114/76 95")
    said = [book.said[0], book.types("the correction").said[0]]
    assert said == ["place.ask", "fix.done"]
