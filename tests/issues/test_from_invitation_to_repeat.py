"""From the invitation to the second test: care first, nothing lost, every answer heard."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, time, timedelta

import pytest

from bot.booking.plan import ReminderKind
from bot.booking.zones import place_zone
from bot.engine.asides import Asking, Question
from bot.engine.context import Context, Opening
from bot.engine.effects import Amend, Forget, HandCalendar, Keep, Say
from bot.engine.events import ChoiceTapped, Cleared
from bot.engine.profile import Profile
from bot.engine.scores import hour, score
from bot.engine.state import Auditing, Booked, ChoosingPlace, Enrolling, Held, Idle, Planning
from bot.protocol.circumstances import DayKind
from bot.protocol.record import Ending, Symptom
from bot.testing.playbook import Playbook
from tests.issues.test_between_two_tests import after_a_test, asked, watched

FULL = Context(opening=Opening.FULL)
DAY = 60 * 24


def begun(book: Playbook) -> Playbook:
    """Begin a test from wherever a person is between two tests, up to lying down."""
    book.types("start")
    if isinstance(book.conversation.stage, Planning):
        book.types("do it now")
    if isinstance(book.conversation.stage, Auditing):
        if book.conversation.stage.question is Question.SAME_KIT:
            book.taps("same")
        book.taps("done")
    return book.taps("go").taps("there")


def till(book: Playbook, at: datetime) -> Playbook:
    """Let time pass until an instant."""
    return book.waits(seconds=(at - book.now).total_seconds())


def booked_at(book: Playbook) -> datetime:
    """Return when the test is booked."""
    assert isinstance(book.conversation.stage, Booked)
    return book.conversation.stage.booking.at


def tokens(book: Playbook, choice: str) -> str:
    """Return the token of the newest button of that choice in what was said last."""
    return next(
        button.token
        for effect in reversed(book.effects)
        if isinstance(effect, Say)
        for row in effect.choices
        for button in row
        if button.token.endswith(f":{choice}")
    )


# -- a day on which a test was stopped for safety


def call_for_help() -> Playbook:
    """Return a playbook with the watch running, in which a test ended with a call for help."""
    book = watched()
    book.now = book.now.replace(hour=8, minute=50) + timedelta(days=1)
    begun(book).waits(minutes=2)
    return book.types("chest pain")


def test_watch_is_silent_after_a_call_for_help() -> None:
    """A minute after a call for help the daily question came, and offered the test again."""
    book = call_for_help()
    assert "question.day-score" not in book.waits(minutes=60 * 12).said
    assert asked(book) is None
    assert "question.day-score" in book.waits(minutes=DAY).said


@pytest.mark.parametrize("words", ["start", "bad day"])
def test_repeat_on_the_day_of_a_stop_is_not_begun_without_a_word(words: str) -> None:
    """Once a test was stopped for safety, another began the same day with no word of it."""
    book = call_for_help().waits(minutes=60).types(words)
    if words == "start":
        book.types("now")
    assert "repeat.rest-first" in book.said
    assert asked(book) is not Question.REPEAT


def test_no_daily_question_on_the_day_of_a_test() -> None:
    """It landed on "What kind of day is today?" of a test done that day, and took its place."""
    book = watched()
    book.now = book.now.replace(hour=8, minute=30) + timedelta(days=1)
    after_a_test(book=book)
    assert asked(book) is Question.DAY_KIND
    book.waits(minutes=60 * 10)
    assert asked(book) is Question.DAY_KIND


# -- the trial reading


def at_trial() -> Playbook:
    """Return a playbook at the trial reading."""
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("Madrid").taps("done")
    return book.taps("done").taps("upper-arm").taps("cuff")


@pytest.mark.parametrize(
    "numbers", ["230/130 90", "186/90 80", "150/122 80", "190/100 80 and 128/80 70"]
)
def test_very_high_trial_reading_is_answered_with_care(numbers: str) -> None:
    """Once 230/130 was answered by "That works well" and a button to do the test now."""
    book = at_trial().types(numbers)
    assert book.said == ("trial.high", "question.step", "question.trial")
    assert not book.conversation.profile.tried
    assert book.types("128/80 70").said[0] == "trial.good"
    assert isinstance(book.conversation.stage, Planning)


@pytest.mark.parametrize(
    ("numbers", "words"),
    [("86/50 70", "trial.low"), ("120/80 38", "trial.slow"), ("120/80 131", "trial.fast")],
)
def test_other_lines_are_named_in_a_trial(numbers: str, words: str) -> None:
    """Once numbers that would end a test went by without a word."""
    book = at_trial().types(numbers)
    if "trial.doubt" in book.said:
        book.types("yes")
    assert words in book.said
    assert book.conversation.profile.tried


def test_odd_but_true_trial_reading_can_be_confirmed() -> None:
    """Numbers that are odd and right could never be given: they were asked for again for ever."""
    book = at_trial().types("92/80 118")
    assert book.said == ("trial.doubt",)
    assert book.types("yes").said[0] == "trial.good"
    assert at_trial().types("92/80 118").taps("yes").said[0] == "trial.good"
    assert at_trial().types("92/80 118").taps("no").said[-1] == "question.trial"


# -- symptoms and words long after a test


def test_symptoms_told_days_later_do_not_change_a_result() -> None:
    """Once "dizzy 8" typed four days after a test was put into its result."""
    book = watched().waits(minutes=DAY * 4).types("dizzy 8")
    assert not any(isinstance(effect, Keep) for effect in book.effects)
    assert "symptoms.later" in book.said
    assert asked(book) is Question.DAY_SCORE
    assert book.said[-1] == "question.day-score"


def test_symptoms_told_right_after_a_test_are_its_own() -> None:
    """A symptom told soon after a test still belongs to it."""
    book = after_a_test().waits(minutes=20).types("dizzy 8")
    kept = [effect.record for effect in book.effects if isinstance(effect, Keep)]
    assert [s.symptom for record in kept for s in record.symptoms] == [Symptom.DIZZY]


@pytest.mark.parametrize("words", ["hmm so so", "dizzy", "I feel terrible today", "9:00", "yes"])
def test_open_question_is_put_again(words: str) -> None:
    """Whatever did not answer the daily question opened the booking of a test."""
    book = watched().types("book").types("cancel").waits(minutes=DAY)
    assert isinstance(book.conversation.stage, Idle)
    book.types(words)
    assert isinstance(book.conversation.stage, Idle)
    assert book.said[-1] == "question.day-score"


@pytest.mark.parametrize("words", ["yes", "thank you", "dizzy", "so so", "1.5"])
def test_words_out_of_the_blue_do_not_open_booking(words: str) -> None:
    """Once any words, while nothing was asked, opened the booking of a test."""
    book = Playbook(FULL).books().types("cancel").types(words)
    assert isinstance(book.conversation.stage, Idle)
    assert book.said[-1] == "where.idle"


def test_feeling_terrible_is_met_with_care() -> None:
    """Once "I feel terrible today" opened the booking of a test."""
    book = watched().types("book").types("cancel").types("I feel terrible today")
    assert book.said[0] == "unwell.care"
    assert asked(book) is Question.REPEAT
    book = Playbook(FULL).books().types("cancel").types("I feel terrible today")
    assert book.said == ("unwell.care",)
    book = watched().waits(minutes=DAY).types("I feel terrible today")
    assert book.said == ("unwell.care", "question.day-score")


def test_day_typed_after_a_test_is_proposed() -> None:
    """Once "saturday 9:00" was not understood as long as the last result was shown."""
    book = after_a_test("good").taps("none").types("saturday 9:00")
    assert book.said == ("plan.sure",)


@pytest.mark.parametrize(
    ("words", "value"),
    [("7/10", 7), ("7 de 10", 7), ("un 7", 7), ("siete", 7), ("about 7", 7), ("10", 10),
     ("it's a 3", 3), ("11", None), ("7 8", None), ("7.5", None), ("-7", None), ("good", None)],
)  # fmt: skip
def test_scores_are_read_as_people_write_them(words: str, value: int | None) -> None:
    """Only a bare digit was taken as an answer to "from 0 to 10"."""
    assert score(words) == value


# -- reminders and what is open


def test_reminder_does_not_throw_away_the_preparation() -> None:
    """A reminder that fell due took the audit away, with all that was ticked."""
    book = Playbook(FULL).books()
    till(book, booked_at(book) - timedelta(minutes=17)).types("start").taps("caffeine")
    book.waits(minutes=40)
    assert book.said == ()
    stage = book.conversation.stage
    assert isinstance(stage, Auditing)
    assert stage.ticked == ("caffeine",)
    assert "reminder.follow-up" in book.waits(minutes=40).said


def test_daily_question_waits_for_somebody_who_prepares() -> None:
    """The question came an hour after its time whatever the person was doing."""
    book = watched()
    book.now = book.now.replace(hour=8, minute=50) + timedelta(days=1)
    book.types("start").waits(minutes=65).types("now")
    assert isinstance(book.conversation.stage, Auditing)
    book.waits(minutes=30)
    assert isinstance(book.conversation.stage, Auditing)
    book.waits(minutes=35)
    assert book.said == ("put-aside.preparing", "question.day-score")


def test_time_not_confirmed_is_not_dropped_without_a_word() -> None:
    """The daily question took the place of a time that was read back, in silence."""
    book = watched()
    book.now = book.now.replace(hour=8, minute=50) + timedelta(days=1)
    book.types("book").types("saturday 9:00").waits(minutes=75)
    assert book.said == ("put-aside.planning", "question.day-score")


@pytest.mark.parametrize(
    ("choice", "stage"), [("start", Auditing), ("later", Booked), ("move", Planning)]
)
def test_buttons_under_a_reminder_work_with_a_question_open(choice: str, stage: type) -> None:
    """They carried the name of the question in between, and were dead from the start."""
    book = Playbook(FULL).books()
    at = booked_at(book)
    till(book, at - timedelta(minutes=16)).types("language").waits(minutes=2)
    assert "reminder.soon" in book.said
    book.happens(ChoiceTapped(at=book.now, token=tokens(book, choice)))
    assert isinstance(book.conversation.stage, stage)
    assert "stale" not in book.said


def test_kind_of_day_left_open_is_asked_again_after_the_offer() -> None:
    """The offer of another time dropped the question, and "a good day" was noted for nothing."""
    book = after_a_test().types("book").taps("2026-03-03").types("9:00").taps("yes")
    book.waits(minutes=DAY + 60 * 3)
    assert asked(book) is Question.DAY_KIND
    assert book.types("A good day").conversation.profile.tests[-1].day is DayKind.GOOD


def test_good_day_out_of_the_blue_is_not_noted_for_nothing() -> None:
    """Once "good day" was thanked for, and kept nowhere."""
    book = after_a_test().types("book").taps("2026-03-04").types("9:00").taps("yes")
    book.waits(minutes=DAY).types("language").taps("en")
    assert asked(book) is Question.DAY_KIND
    book = Playbook(FULL).books().types("good day")
    assert book.said == ("day.with-a-test",)


def test_kind_of_day_reaches_an_older_result() -> None:
    """Told after a later test it changed the profile only; the stored result never had it."""
    book = begun(after_a_test())
    book.waits(minutes=5).types("120/76 70").types("stop").taps("pain")
    assert book.conversation.profile.tests[-1].ending is Ending.STOPPED
    book.types("language").taps("en")
    assert isinstance(book.conversation.aside, Asking)
    assert book.conversation.aside.test == 1
    book.taps("good")
    assert [e for e in book.effects if isinstance(e, Amend)] == [Amend(test=1, day=DayKind.GOOD)]


def test_watch_looks_for_what_is_missing_among_whole_tests() -> None:
    """A test stopped after one reading counted as a day of unknown kind, and hid a missing one."""
    book = begun(Playbook(FULL).books())
    book.waits(minutes=5).types("120/76 70").types("stop").taps("pain")
    book.now += timedelta(days=1)
    after_a_test("symptomatic", book).taps("word")
    assert book.said == ("watch.by-word.good",)


def test_watch_that_runs_goes_on() -> None:
    """While the watch ran, how to look out was asked all over again after each test."""
    book = watched()
    book.now += timedelta(days=1)
    after_a_test("good", book)
    assert book.said == ("watch.goes-on.symptomatic",)
    assert book.conversation.profile.watch is not None


def test_booking_that_ended_in_a_pause_is_closed() -> None:
    """After the pause a past booking stood for ever, and kept the watch from asking."""
    book = watched().types("book").types("saturday 9:00").taps("yes").types("pause")
    book.waits(minutes=DAY * 20)
    book.now = book.now.replace(hour=10)
    book.types("resume")
    assert book.said == ("resumed", "reminder.offer")
    assert isinstance(book.conversation.stage, Idle)
    book.waits(minutes=DAY)
    assert asked(book) is Question.DAY_SCORE


def test_time_zone_question_outlasts_a_reminder() -> None:
    """A reminder took its place, and the clock's time typed for it moved the booking."""
    book = Playbook(FULL).books()
    at = booked_at(book)
    till(book, at - timedelta(minutes=16)).types("time zone").waits(minutes=2)
    assert book.said == ("reminder.soon", "question.local-time")
    book.types(f"{book.now.hour + 1}:{book.now.minute:02}")
    assert isinstance(book.conversation.stage, ChoosingPlace)


def test_consent_question_outlasts_a_reminder() -> None:
    """While a changed consent was asked about, the next reminder dropped it in silence."""
    book = Playbook(FULL).books()
    book.context = replace(FULL, consent_version=2)
    at = booked_at(book)
    till(book, at - timedelta(minutes=16)).types("start").waits(minutes=2)
    assert book.said == ("reminder.soon", "question.consent")
    book.taps("yes")
    assert isinstance(book.conversation.stage, Auditing)


@pytest.mark.parametrize("words", ["later", "15 min later", "in 15 minutes"])
def test_later_long_before_asks_when(words: str) -> None:
    """Typed days before the test, "later" moved it to a quarter of an hour after its time."""
    book = Playbook(FULL).books()
    at = booked_at(book)
    book.types(words)
    stage = book.conversation.stage
    assert isinstance(stage, Planning)
    assert stage.moving is not None
    assert stage.moving.at == at


def test_later_never_leads_into_the_night() -> None:
    """Put off again and again, a test ended up in the middle of the night."""
    book = Playbook(FULL).enrols().types("today 8:30 pm").taps("yes").waits(minutes=60 * 10 + 20)
    for _ in range(9):
        if isinstance(book.conversation.stage, Booked):
            book.types("later").waits(minutes=1)
    assert isinstance(book.conversation.stage, Planning)


def test_soon_comes_again_after_travel_to_the_west() -> None:
    """Its reminder was lost when the clock of the person went back; nor could it be moved."""
    book = Playbook(FULL).books()
    at = booked_at(book)
    till(book, at - timedelta(minutes=10)).types("time zone").types("Lisbon")
    assert "travel.kept" in book.said
    assert tokens(book, "move")
    assert ReminderKind.SOON.value in " ".join(book.waits(minutes=60).said)


# -- days, times and buttons


def test_day_and_time_buttons_mean_what_they_say() -> None:
    """They counted from the present, so that an old button meant another day."""
    book = Playbook(FULL).enrols()
    old = book.token("2026-03-05")
    book.waits(minutes=DAY).happens(ChoiceTapped(at=book.now, token=old))
    assert isinstance(book.conversation.stage, Planning)
    assert f"{book.conversation.stage.day}" == "2026-03-05"
    book = Playbook(FULL).enrols()
    book.waits(minutes=DAY * 5).happens(ChoiceTapped(at=book.now, token=old))
    assert book.said[0] == "objection.in-the-past"


def test_time_button_that_is_past_is_answered() -> None:
    """An old time button picked the next time of the list that was left."""
    book = Playbook(FULL).enrols().taps("2026-03-02")
    old = book.token("1100")
    book.waits(minutes=120).happens(ChoiceTapped(at=book.now, token=old))
    assert book.said[0] == "objection.in-the-past"


def test_test_begun_early_uses_its_booking_up_in_words() -> None:
    """The booking vanished without a word, and stood in the calendar for ever."""
    book = begun(Playbook(FULL).books())
    book.waits(minutes=5).types("120/76 70").types("stop").taps("pain")
    assert "booking.used" in book.said
    entries = [e for e in book.effects if isinstance(e, HandCalendar)]
    assert [(e.cancelled, e.booking.sequence) for e in entries] == [(True, 1)]


@pytest.mark.parametrize("away", ["stop", "chest pain"])
def test_booking_stands_when_nothing_was_measured(away: str) -> None:
    """A test begun by mistake lost the booking for good."""
    book = begun(Playbook(FULL).books()).types(away)
    if away == "stop":
        book.taps("other")
    assert isinstance(book.conversation.stage, Booked)
    assert "reminder.soon" in book.waits(minutes=60 * 23).said


# -- answers in words


@pytest.mark.parametrize("words", ["yes", "sí"])
def test_yes_to_the_repeat_asks_when(words: str) -> None:
    """Once a plain yes to the offer of a repeat was not understood."""
    book = Playbook(FULL).books().types("bad day").types(words)
    assert book.said[0] == "repeat.when"
    assert asked(book) is Question.REPEAT


def test_time_typed_for_the_repeat_is_today() -> None:
    """A time typed under "When?" was not understood."""
    book = Playbook(FULL).books().types("cancel").types("bad day").types("16:00")
    stage = book.conversation.stage
    assert isinstance(stage, Planning)
    assert stage.at is not None
    assert (stage.at.day, stage.at.hour) == (2, 15)  # in Madrid an hour later


@pytest.mark.parametrize("words", ["yes", "sí"])
def test_yes_to_the_watch_is_once_a_day(words: str) -> None:
    """Once a yes to "Shall I ask you once a day?" was not understood."""
    assert asked(after_a_test("good").types(words)) is Question.WATCH_HOUR


@pytest.mark.parametrize(
    ("words", "when"),
    [("9:00", time(9)), ("at 10", time(10)), ("10 am", time(10)), ("a las 10", time(10)),
     ("9", time(9)), ("20:00", time(20)), ("8 pm", time(20)), ("9:30", time(9, 30))],
)  # fmt: skip
def test_hour_of_the_daily_question_can_be_any(words: str, when: time) -> None:
    """Only the five hours on the buttons were taken, and a booking moved by the others."""
    book = after_a_test().types("book").taps("2026-03-06").types("9:00").taps("yes")
    book.taps("good").taps("daily").types(words)
    assert book.conversation.profile.watch is not None
    assert book.conversation.profile.watch.hour == when
    assert isinstance(book.conversation.stage, Booked)
    assert hour(words) == when


@pytest.mark.parametrize("words", ["23:00", "5:10 am", "9:10"])
def test_hours_at_night_are_not_taken(words: str) -> None:
    """An hour that will not do is answered with those that do."""
    book = after_a_test("good").taps("daily").types(words)
    assert book.said == ("watch.hour-range", "question.watch-hour")


@pytest.mark.parametrize("words", ["stop asking me", "basta", "no me pregunte más", "pause"])
def test_daily_question_can_be_told_to_stop(words: str) -> None:
    """Once "stop" to the daily question was answered by "no test is under way"."""
    book = watched().waits(minutes=DAY).types(words)
    assert book.said == ("paused",)
    assert asked(book) is None
    assert "question.day-score" not in book.waits(minutes=DAY * 3).said


def test_stop_asking_does_not_hide_a_call_for_help() -> None:
    """A call for help in the same message comes first."""
    assert watched().waits(minutes=DAY).types("stop, chest pain").said == ("emergency.now",)


def test_good_day_answers_the_daily_question() -> None:
    """It was noted, and the question counted as unanswered all the same."""
    book = watched().waits(minutes=DAY).types("good day")
    assert asked(book) is None
    assert book.conversation.profile.watch is not None
    assert book.conversation.profile.watch.answered
    assert book.types("where").said == ("where.finished",)


# -- the night


def test_end_of_the_watch_waits_for_the_morning() -> None:
    """It was said at the hour at which the watch had begun, be that midnight."""
    book = after_a_test("good")
    book.now = book.now.replace(hour=23)
    book.taps("word").waits(minutes=DAY * 56)
    assert book.said == ()
    assert book.waits(minutes=60 * 9).said == ("watch.over",)


def test_no_daily_question_in_the_evening_after_a_pause() -> None:
    """Reminders that were resumed in quiet hours brought the question at once."""
    book = after_a_test("good").taps("daily").taps("20").taps("6").types("pause")
    book.now = book.now.replace(hour=20, minute=45) + timedelta(days=1)  # 21:45 in Madrid
    assert "question.day-score" not in book.types("resume").waits(minutes=60).said
    assert "question.day-score" in book.waits(minutes=DAY).said


def test_clearance_at_night_waits_for_the_morning() -> None:
    """The word that somebody is cleared rang at 23:00."""
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("Madrid")
    book.taps("pregnant").taps("done")
    book.now = book.now.replace(hour=22)
    book.happens(Cleared(at=book.now, by="Dr Lind"))
    assert book.said == ()
    assert isinstance(book.conversation.stage, Held)
    assert book.waits(minutes=60 * 9).said[0] == "cleared"
    assert isinstance(book.conversation.stage, Enrolling)


# -- labels, places, results


@pytest.mark.parametrize("words", ["Do it now", "Hacerla ahora"])
def test_do_it_now_can_be_typed(words: str) -> None:
    """What the button says was read as a day that makes no sense."""
    book = Playbook(FULL).enrols().types(words)
    assert isinstance(book.conversation.stage, Auditing)


@pytest.mark.parametrize("words", ["I tapped the wrong one", "Toqué la que no era"])
def test_wrong_tap_can_be_typed(words: str) -> None:
    """What the button of somebody who waits says did nothing when typed."""
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("Madrid")
    book.taps("pregnant").taps("done").types(words)
    assert book.said[-1] == "question.hazards"


@pytest.mark.parametrize("words", ["Other places", "Otros lugares"])
def test_other_places_can_be_typed(words: str) -> None:
    """What the button says did nothing when typed."""
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("10:00").types(words)
    assert isinstance(book.conversation.stage, ChoosingPlace)
    assert book.conversation.stage.page == 1


def test_place_that_is_shown_can_be_typed() -> None:
    """A city with a namesake elsewhere was not understood even where it stood on a button."""
    book = Playbook(FULL, start=datetime.fromisoformat("2026-06-01T13:00:00+00:00"))
    book.opens().taps("yes").taps("20-and-over").types("9:00 am")
    for _ in range(9):
        if isinstance(book.conversation.stage, ChoosingPlace):
            shown = [
                b.token for e in book.effects if isinstance(e, Say) for r in e.choices for b in r
            ]
            if any(token.endswith("America/Santiago") for token in shown):
                break
            book.taps("more")
    book.types("Santiago")
    assert book.conversation.profile.zone == "America/Santiago"


def test_language_button_can_be_typed() -> None:
    """What the button of two languages says was not understood."""
    assert Playbook(FULL).opens().types("English / Español").said == ("language.ask",)


@pytest.mark.parametrize("words", ["Cancel it", "Cancelarla"])
def test_cancel_it_means_the_booking(words: str) -> None:
    """With a question open, the words of the button left that question instead."""
    book = after_a_test().types("book").taps("2026-03-05").types("9:00").taps("yes")
    assert asked(book) is Question.DAY_KIND
    assert book.types(words).said[0] == "cancelled"


@pytest.mark.parametrize(("words", "number"), [("1", 1), ("test 2", 2), ("prueba 1", 1)])
def test_result_can_be_named(words: str, number: int) -> None:
    """After "Which one?" a number opened the booking of a test."""
    book = after_a_test("good").taps("none")
    book.now += timedelta(days=1)
    after_a_test("good", book).taps("none").types("results")
    assert book.said == ("results.which",)
    book.types(words)
    assert "hand.summary" in book.said if number == 2 else "recall.summary" in book.said


@pytest.mark.parametrize(
    ("words", "zone"),
    [("Boston", "America/New_York"), ("Barcelona", "Europe/Madrid"),
     ("Ciudad de México", "America/Mexico_City"), ("Londres", "Europe/London"),
     ("Spain", "Europe/Madrid"), ("Madrid, Spain", "Europe/Madrid"),
     ("Nueva York", "America/New_York"), ("Teherán", "Asia/Tehran"), ("Argel", "Africa/Algiers"),
     ("Boston, USA", "America/New_York"), ("Valencia, Venezuela", "America/Caracas"),
     ("Birmingham, Alabama", None), ("Santiago", None), ("Springfield", None)],
)  # fmt: skip
def test_places_are_known_as_people_write_them(words: str, zone: str | None) -> None:
    """Only the cities that a time zone is named after were known, and in English alone."""
    assert place_zone(words) == zone
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types(words)
    said = "zone.kept" if zone is not None else "zone.unknown-place"
    assert book.said[0] == said
    assert book.conversation.profile.zone == zone


# -- consent and deletion


def test_nothing_is_kept_before_consent() -> None:
    """Once "time zone" typed before the consent kept a zone."""
    book = Playbook(FULL).types("time zone").types("Madrid")
    assert book.conversation.profile == Profile()
    assert book.said[-1] == "consent.again"


def test_changed_consent_is_told_to_who_has_no_booking() -> None:
    """Once it began with hello and "1 of 7", as if the person had never been there."""
    book = Playbook(FULL).books().types("cancel")
    book.context = replace(FULL, consent_version=2)
    assert book.types("start").said == ("consent.changed", "question.consent")
    assert book.taps("yes").said == ("plan.day",)


@pytest.mark.parametrize(
    ("words", "said", "stage"),
    [("cancel", "cancelled", Idle), ("move", "plan.day", Planning), ("stop", "left", Booked)],
)
def test_booking_can_be_changed_while_consent_is_asked(words: str, said: str, stage: type) -> None:
    """While a changed consent was asked about, the booking could not be touched."""
    book = Playbook(FULL).books()
    book.context = replace(FULL, consent_version=2)
    book.types("start").types(words)
    assert book.said[0] == said
    assert isinstance(book.conversation.stage, stage)


@pytest.mark.parametrize("words", ["delete everything", "borrar todo", "1"])
def test_deletion_is_not_confirmed_by_chance(words: str) -> None:
    """The command typed twice, or "1", erased everything."""
    book = Playbook(FULL).books().types("delete everything").types(words)
    assert not any(isinstance(effect, Forget) for effect in book.effects)
    assert asked(book) is Question.DELETE
    assert book.said[-1] == "question.delete"


@pytest.mark.parametrize("words", ["yes", "Yes, delete everything", "Sí, borrar todo"])
def test_deletion_takes_the_booking_out_of_the_calendar(words: str) -> None:
    """The entry of a standing booking stayed in the person's calendar."""
    book = Playbook(FULL).books().types("delete everything").types(words)
    assert book.said == ("calendar.off", "deleted")
    assert any(isinstance(effect, Forget) for effect in book.effects)


# -- typed, and not lost


@pytest.mark.parametrize(
    ("first", "second"), [("saturday 5", "5 pm"), ("5 pm", "saturday"), ("17:00", "saturday")]
)
def test_half_of_a_time_is_kept(first: str, second: str) -> None:
    """A day was forgotten when the half of the day was asked, and a time when its day was."""
    book = Playbook(FULL).books().types("cancel").types(first)
    assert book.said[-1] in ("plan.day", "plan.time")
    book.types(second)
    assert book.said == ("plan.sure",)
    stage = book.conversation.stage
    assert isinstance(stage, Planning)
    assert stage.at == datetime.fromisoformat("2026-03-07T16:00:00+00:00")  # 17:00 in Madrid


@pytest.mark.parametrize(
    "detour",
    [
        lambda b: b.types("language").taps("en"),
        lambda b: b.types("fix").types("no"),
        lambda b: b.types("delete everything").taps("no"),
    ],
)
@pytest.mark.parametrize("question", [Question.DAY_SCORE, Question.REPEAT])
def test_daily_and_repeat_question_outlast_a_detour(
    question: Question, detour: Callable[[Playbook], Playbook]
) -> None:
    """Anything asked meanwhile made them vanish for good."""
    book = watched().waits(minutes=DAY)
    if question is Question.REPEAT:
        book.types("8")
    assert asked(book) is question
    detour(book)
    assert asked(book) is question


def test_edit_of_an_older_test_is_answered() -> None:
    """A reading of an older test that was edited met with silence."""
    book = after_a_test("good").taps("none")
    edited = book._typed
    book.now += timedelta(days=1)
    after_a_test("good", book).taps("none").edits(edited, "115/76 97")
    assert book.said[0] == "fix.too-late"


def test_watch_goes_on_before_a_far_booking() -> None:
    """With a test booked in three weeks the daily question was silent until then."""
    book = watched().types("book").types("23 march 9:00").taps("yes").waits(minutes=DAY)
    assert asked(book) is Question.DAY_SCORE
    assert isinstance(book.conversation.stage, Booked)
    book.waits(minutes=DAY * 19 + 60 * 12)
    assert book.conversation.profile.watch is not None
    asked_at = book.conversation.profile.watch.asked_at
    assert asked_at is not None
    assert booked_at(book) - asked_at > timedelta(days=1)


# -- what is said


def test_repeat_is_called_second_only_where_it_is() -> None:
    """Before any test, and after both, the offer spoke of "the second test"."""
    assert Playbook(FULL).books().types("bad day").said[-1] == "question.repeat.any"
    assert after_a_test("good").taps("none").types("bad day").said[-1] == "question.repeat"


def test_not_today_is_answered() -> None:
    """The reply was the button's own words."""
    book = after_a_test("good").taps("none").types("bad day").taps("not-today")
    assert book.said == ("repeat.left",)


def test_afternoon_is_not_offered_in_the_evening() -> None:
    """Once "This afternoon" at 19:40 booked a test for 21:40."""
    book = after_a_test("good").taps("none")
    book.now = book.now.replace(hour=18, minute=40)
    book.types("bad day")
    shown = [b.token for e in book.effects if isinstance(e, Say) for r in e.choices for b in r]
    assert not any(token.endswith(":afternoon") for token in shown)
    assert book.types("this afternoon").said[0] == "objection.in-the-past"


def test_repeat_in_the_place_of_a_booking_says_so() -> None:
    """The booking that it replaced went without a word, and the new one had no buttons."""
    book = Playbook(FULL).books().types("bad day").taps("in-an-hour")
    assert book.said == ("booked.instead", "booked", "booked.reminding", "calendar")
    assert tokens(book, "cancel")


def test_ill_today_is_not_for_ever() -> None:
    """Who had a fever on the first day was held until cleared, well again or not."""
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("Madrid")
    book.taps("ill").taps("done")
    said = [book.said, book.waits(minutes=DAY * 3).taps("again").taps("done").said[-1]]
    assert said == [("held.ill",), "question.medicines"]


@pytest.mark.parametrize("words", ["no", "later", "not now", "stop", "ahora no"])
def test_planning_can_be_left(words: str) -> None:
    """Choosing a day had no way out but one word that nobody was told."""
    book = Playbook(FULL).books().types("move").types(words)
    assert isinstance(book.conversation.stage, Booked)
    assert book.said[0] == "left"


def test_question_is_put_again_after_a_scare_that_was_none() -> None:
    """After "I fainted last year" at the checklist the question was not put again."""
    book = Playbook(FULL).opens().taps("yes").taps("20-and-over").types("Madrid")
    book.types("I fainted last year").taps("no")
    assert book.said[-1] == "question.hazards"


def test_travel_into_a_gap_of_the_clocks_says_so() -> None:
    """A time that the new clock skips was called past."""
    book = Playbook(Context(opening=Opening.FULL)).enrols()
    # Madrid puts its clocks forward on 29 March 2026; New York on 8 March at 2:00 (tzdata).
    book.context = replace(
        book.context, quiet=replace(book.context.quiet, ends=time(3), starts=time(1))
    )
    book.types("8 march 2:30 am")
    if "plan.sure" in book.said:
        book.taps("yes").types("time zone").types("New York")
    assert book.said[0:2] == ("zone.kept", "travel.no-such-time")
