"""From the first hello to the booked day, and on to the second test."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.booking.plan import ReminderKind
from bot.booking.quiet import quiet_span
from bot.engine.asides import Asking, Question
from bot.engine.context import Context, Opening
from bot.engine.deadlines import next_deadline
from bot.engine.effects import (
    Compare,
    Forget,
    HandCalendar,
    HandCopy,
    Moment,
    Part,
    Recall,
    Say,
)
from bot.engine.events import Cleared, Invited, Opened
from bot.engine.profile import Profile
from bot.engine.state import (
    Auditing,
    AwaitingReady,
    Booked,
    Enrolling,
    Held,
    Idle,
    Planning,
    Resting,
)
from bot.protocol.circumstances import (
    Cuff,
    DayKind,
    Departure,
    Hazard,
    LastDose,
    Medicine,
    RateSource,
)
from bot.protocol.record import TestRecord
from bot.protocol.released import SIX_READINGS
from bot.testing.playbook import Playbook

FULL = Context(opening=Opening.FULL)


def full(**more: object) -> Playbook:
    """Return a playbook in the full opening."""
    return Playbook(Context(opening=Opening.FULL, **more))  # type: ignore[arg-type]


def profile(book: Playbook) -> Profile:
    """Return what is known of the person."""
    return book.conversation.profile


def does_the_test(book: Playbook, standing: str = "112/76 92", day: str = "good") -> Playbook:
    """From the question whether they are ready to the kind of day."""
    book.taps("go").taps("there").waits(minutes=5).types("120/76 70").taps("there")
    book.waits(minutes=5).types("118/76 74").taps("there").waits(minutes=5).types(standing)
    return book.waits(minutes=5).types("110/75 94").taps(day)


def test_enrolment_asks_seven_things_in_order() -> None:
    """Consent, age, zone, checklist, medicines, kit, trial; then the day is asked."""
    book = full().opens()
    asked = []
    for answer in ("yes", "20-and-over", "Madrid", "done", "done", "upper-arm", "cuff"):
        stage = book.conversation.stage
        assert isinstance(stage, Enrolling)
        asked.append(stage.question)
        book.types(answer) if answer == "Madrid" else book.taps(answer)
    assert asked == [
        Question.CONSENT,
        Question.AGE,
        Question.LOCAL_TIME,
        Question.HAZARDS,
        Question.MEDICINES,
        Question.CUFF,
        Question.RATE_SOURCE,
    ]
    book.types("124/76 72")
    assert isinstance(book.conversation.stage, Planning)
    assert profile(book).enrolled


def test_everything_can_be_typed() -> None:
    """No question needs a button."""
    book = full().opens().types("yes").types("I am 34").types("madrid").types("none")
    book.types("propranolol and water tablets").types("wrist").types("finger clip")
    book.types("124 over 76").types("72").types("tomorrow 9").types("yes")
    assert isinstance(book.conversation.stage, Booked)
    assert profile(book).medicines == (Medicine.BETA_BLOCKER, Medicine.DIURETIC)


def test_refused_consent_keeps_nothing() -> None:
    """After a no, all is forgotten, and the next hello asks again."""
    book = full().opens().taps("no")
    assert any(isinstance(effect, Forget) for effect in book.effects)
    assert book.conversation.profile == Profile()
    assert book.opens().said[-1] == "question.consent"


def test_changed_consent_text_is_asked_again() -> None:
    """A new version of the text asks before the next test."""
    book = full().enrols().taps_day(0)
    book.context = Context(opening=Opening.FULL, consent_version=2)
    book.types("cancel").types("start")
    assert book.said[-1] == "question.consent"


def test_invitation_sets_reference_and_protocol() -> None:
    """The clinic's invitation names the reference and the protocol; no name is asked."""
    book = full(invited_only=True)
    assert book.opens().said == ("invitation.needed",)
    book.happens(Invited(at=book.now, reference="HS-1", protocol=SIX_READINGS.ref))
    assert profile(book).reference == "HS-1"
    book.taps("yes").taps("20-and-over").types("Madrid").taps("done").taps("done")
    book.taps("wrist").taps("watch").types("124/76 72").taps("now").taps("done").taps("go")
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    assert record.protocol == SIX_READINGS.ref


def test_unknown_code_says_so() -> None:
    """A code that is not good is told apart from none."""
    book = full()
    book.happens(Opened(at=book.now, code="nonsense"))
    assert book.said[0] == "invitation.unknown"


@pytest.mark.parametrize("hazard", list(Hazard))
def test_any_hazard_holds_the_test_back(hazard: Hazard) -> None:
    """Any yes of the checklist books no test, by any way, until the care team clears it."""
    book = full().opens().taps("yes").taps("20-and-over").types("Madrid")
    book.taps(hazard.value).taps("done")
    assert isinstance(book.conversation.stage, Held)
    for words in ("start", "book", "bad day", "tomorrow 9", "now", "results"):
        book.types(words)
        assert isinstance(book.conversation.stage, Held)
    book.happens(Cleared(at=book.now, by="Dr Lind"))
    assert profile(book).cleared_by == "Dr Lind"
    assert isinstance(book.conversation.stage, Enrolling)


def test_wrong_tap_can_be_put_right() -> None:
    """A tap beside the mark does not hold a person back for ever; the checklist is asked again."""
    book = full().opens().taps("yes").taps("20-and-over").types("Madrid")
    book.taps("pregnant").taps("done").taps("again").taps("done")
    assert profile(book).hazards == ()
    assert isinstance(book.conversation.stage, Enrolling)


def test_tick_can_be_taken_back() -> None:
    """A second tap takes a tick back, and the message shows it each time."""
    book = full().opens().taps("yes").taps("20-and-over").types("Madrid")
    book.taps("pregnant").taps("pregnant").taps("done")
    assert profile(book).hazards == ()


def test_beta_blocker_is_never_to_be_stopped() -> None:
    """The caution comes with the medicine; the clinic's plan stands if there is one."""
    book = full().opens().taps("yes").taps("20-and-over").types("Madrid").taps("done")
    book.taps("beta-blocker").taps("done")
    assert book.said[:2] == ("medicines.as-prescribed", "medicines.beta-blocker")
    book = full(medicine_plan={"en": "As always."}).opens().taps("yes").taps("20-and-over")
    book.types("Madrid").taps("done").taps("beta-blocker").taps("done")
    assert book.said[:2] == ("medicines.plan", "medicines.beta-blocker")


@pytest.mark.parametrize("clock", ["10:00", "10 am", "10"])
def test_zone_is_found_from_the_clock(clock: str) -> None:
    """The time on the wall gives the places; one of them gives the zone."""
    book = full().opens().taps("yes").taps("20-and-over").types(clock)
    book.taps_first()
    zone = profile(book).zone
    assert zone is not None
    assert book.now.astimezone(ZoneInfo(zone)).hour == 10


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("yesterday 9", "objection.in-the-past"),
        ("tomorrow 3 am", "objection.in-the-night"),
        ("30 february 9:00", "when.impossible"),
        ("in 90 days at 9", "objection.too-far"),
        ("today 8:00", "when.which-half"),
    ],
)
def test_bad_times_get_a_clear_answer(words: str, said: str) -> None:
    """Each time that will not do is answered with the reason, and asked again."""
    book = full().enrols().types(words)
    assert book.said[0].startswith(said)
    assert isinstance(book.conversation.stage, Planning)


def test_time_that_the_clock_change_skips() -> None:
    """2:30 on the night the clocks go forward does not exist in Madrid."""
    book = Playbook(FULL, start=datetime(2026, 3, 27, 9, tzinfo=UTC)).enrols()
    book.types("29 march 2:30 am")
    assert book.said[0] == "when.skipped"


def test_booking_is_said_back_before_it_counts() -> None:
    """Weekday, date, time and place are echoed; only a yes books, and sends the calendar file."""
    book = full().enrols().types("tomorrow 9")
    sure = next(p for e in book.effects if isinstance(e, Say) for p in e.parts)
    assert sure.key == "plan.sure"
    assert isinstance(sure.params["moment"], Moment)
    book.taps("no")
    assert isinstance(book.conversation.stage, Planning)
    book.types("tomorrow 9").taps("yes")
    stage = book.conversation.stage
    assert isinstance(stage, Booked)
    assert stage.booking.at == datetime(2026, 3, 3, 8, tzinfo=UTC)
    assert any(isinstance(effect, HandCalendar) for effect in book.effects)


def test_move_keeps_the_entry_and_raises_its_sequence() -> None:
    """A moved booking is the same entry, one sequence on; a cancelled one is taken out."""
    book = full().books().taps("move").types("friday 10:00").taps("yes")
    hand = next(e for e in book.effects if isinstance(e, HandCalendar))
    assert (hand.booking.number, hand.booking.sequence, hand.cancelled) == (1, 1, False)
    book.types("cancel")
    hand = next(e for e in book.effects if isinstance(e, HandCalendar))
    assert (hand.booking.number, hand.booking.sequence, hand.cancelled) == (1, 2, True)
    assert isinstance(book.conversation.stage, Idle)
    assert book.waits(minutes=60 * 24 * 30).effects == ()


def test_leaving_the_move_keeps_the_booking() -> None:
    """Who begins to move and then cancels that still has the old time, reminders and all."""
    book = full().books().taps("move").types("cancel")
    assert isinstance(book.conversation.stage, Booked)
    book.taps("move").waits(minutes=60 * 24)
    assert "reminder.soon" in book.said


def test_fifteen_minutes_later() -> None:
    """Fifteen "min later" moves the test a quarter of an hour on."""
    book = full().books()
    stage = book.conversation.stage
    assert isinstance(stage, Booked)
    before = stage.booking.at
    book.waits(minutes=(before - book.now).total_seconds() / 60 - 10).taps("later")
    stage = book.conversation.stage
    assert isinstance(stage, Booked)
    assert stage.booking.at == before + timedelta(minutes=15)


def test_pause_sends_nothing_until_resumed() -> None:
    """While paused no reminder and no question comes."""
    book = full().books().types("pause")
    assert book.waits(minutes=60 * 24 * 3).effects == ()
    assert next_deadline(book.context, book.conversation) is None


def test_audit_travels_with_the_result() -> None:
    """Medicines, last dose and departures from the preparation stand in the record."""
    book = full().opens().taps("yes").taps("20-and-over").types("Madrid").taps("done")
    book.taps("beta-blocker").taps("done").taps("wrist").taps("watch").types("124/76 72")
    book.taps("now").taps("within-4-hours").taps("caffeine").taps("done").taps("go")
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    known = record.circumstances
    assert known is not None
    assert known.medicines == (Medicine.BETA_BLOCKER,)
    assert known.last_dose is LastDose.WITHIN_4_HOURS
    assert known.departures == (Departure.CAFFEINE,)
    assert known.zone == "Europe/Madrid"


def test_illness_advises_to_move() -> None:
    """Fever or illness advises to move; the person may go on all the same."""
    book = full().enrols().taps("now").taps("illness").taps("done")
    stage = book.conversation.stage
    assert isinstance(stage, Auditing)
    assert stage.question is Question.ILL_TODAY
    book.taps("move")
    assert isinstance(book.conversation.stage, Planning)
    book = full().enrols().taps("now").taps("illness").taps("done").taps("go-on")
    assert isinstance(book.conversation.stage, AwaitingReady)


def second_watched() -> Playbook:
    """Play a first test on a good day and set the watch to 10:00, line 6."""
    book = does_the_test(full().enrols().taps("now").taps("done"))
    return book.taps("daily").taps("10").taps("6")


def test_watch_asks_once_a_day_and_backs_off() -> None:
    """One question a day; three unanswered make it weekly; the end says the test is missing."""
    book = second_watched()
    asked = []
    for _ in range(70):
        book.waits(minutes=60 * 24)
        asked += [book.now.date() for key in book.said if key == "question.day-score"]
        if "watch.over" in book.said:
            break
    gaps = [(b - a).days for a, b in pairwise(asked)]
    assert gaps[:3] == [1, 1, 1]
    assert set(gaps[3:]) == {7}
    assert profile(book).watch is None
    assert book.waits(minutes=60 * 24 * 30).effects == ()


def test_bad_day_offers_the_repeat() -> None:
    """At or over their own line the repeat is offered, naming the hour of the first test."""
    book = second_watched().waits(minutes=60 * 24).types("5")
    assert list(book.said) == ["watch.noted"]
    book.waits(minutes=60 * 24).types("6")
    assert list(book.said) == ["repeat.same-time", "question.repeat"]
    book.taps("not-today")
    assert book.conversation.aside is None


@pytest.mark.parametrize("words", ["bad day", "un mal día"])
def test_bad_day_can_be_said_at_any_time(words: str) -> None:
    """The words are enough, whether a question is open or not."""
    book = does_the_test(full().enrols().taps("now").taps("done")).taps("word").types(words)
    assert book.said[-1] == "question.repeat"
    book.taps("in-an-hour")
    stage = book.conversation.stage
    assert isinstance(stage, Booked)
    assert stage.booking.at == book.now + timedelta(hours=1)


def test_first_on_a_bad_day_looks_for_a_good_one() -> None:
    """If the first was the bad day, the watch looks for a good one."""
    book = does_the_test(full().enrols().taps("now").taps("done"), day="symptomatic")
    book.taps("daily").taps("10").taps("6")
    watch = profile(book).watch
    assert watch is not None
    assert watch.looks_for is DayKind.GOOD
    book.waits(minutes=60 * 24).types("2")
    assert book.said[-1] == "question.repeat"


def test_two_days_are_compared_and_listed() -> None:
    """After both kinds of day the two are laid side by side; each can be opened again."""
    book = second_watched().waits(minutes=60 * 24).types("8").taps("now").taps("same").taps("done")
    does_the_test(book, standing="108/76 112", day="symptomatic")
    compared = next(e for e in book.effects if isinstance(e, Compare))
    assert (compared.first, compared.second) == (1, 2)
    assert profile(book).watch is None
    book.types("results").taps("result:1")
    assert [e.test for e in book.effects if isinstance(e, Recall)] == [1, 1, 1, 1]
    assert {t.day for t in profile(book).tests} == {DayKind.GOOD, DayKind.SYMPTOMATIC}


def test_changed_kit_is_recorded() -> None:
    """Before a second test the kit is asked about; what has changed goes with the result."""
    book = second_watched().types("start").taps("now").taps("changed").taps("wrist").taps("watch")
    book.taps("done").taps("go")
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    assert record.circumstances is not None
    assert record.circumstances.cuff is Cuff.WRIST
    assert record.circumstances.rate_source is RateSource.WATCH


def test_language_can_be_changed_with_the_first_message() -> None:
    """The very first question has a button for the language."""
    book = full().opens().taps("language").taps("es")
    assert book.conversation.locale == "es"
    assert book.said == ("language.set", "question.step", "question.consent")


def test_my_data_and_delete_everything() -> None:
    """A copy comes on request; deletion is confirmed, then all is gone, reminders too."""
    book = full().books().types("my data")
    assert any(isinstance(effect, HandCopy) for effect in book.effects)
    book.types("delete everything")
    assert isinstance(book.conversation.aside, Asking)
    book.taps("no")
    assert isinstance(book.conversation.stage, Booked)
    book.types("delete everything").taps("yes")
    assert any(isinstance(effect, Forget) for effect in book.effects)
    assert book.conversation.profile == Profile()
    assert book.waits(minutes=60 * 24 * 30).effects == ()


def test_emergency_and_stop_are_heard_in_every_new_stage() -> None:
    """No stage between tests is deaf to a call for help."""
    for book in (
        full().opens(),
        full().enrols(),
        full().books(),
        full().enrols().taps("now"),
        second_watched(),
    ):
        book.types("chest pain")
        assert book.said[0] == "emergency.now"


def test_running_test_is_not_left_for_a_booking() -> None:
    """While a test runs, words about bookings do not lead away from it."""
    book = full().enrols().taps("now").taps("done").taps("go").taps("there")
    for words in ("book", "move", "bad day", "time zone", "pause"):
        book.types(words)
        assert isinstance(book.conversation.stage, Resting)


ACTS = st.lists(
    st.one_of(
        st.tuples(st.just("wait"), st.integers(1, 60 * 30)),
        st.tuples(
            st.just("move"), st.sampled_from(["tomorrow 9", "in 3 days at 15:00", "friday 8"])
        ),
        st.tuples(st.just("zone"), st.sampled_from(["London", "New York", "Tokyo", "Madrid"])),
        st.tuples(st.just("say"), st.sampled_from(["where", "help", "cancel", "tomatoes", "pause",
                                                   "resume", "book", "in 2 days at 10", "yes"])),
    ),
    max_size=12,
)  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(acts=ACTS)
def test_reminders_are_never_stale_doubled_or_at_night(acts: list[tuple[str, object]]) -> None:
    """Each reminder names the booking as it stands, comes once, and keeps the quiet hours.

    Over any booking, moving, travelling and waiting; only the test's own may come at night.
    """
    book = full().books()
    seen: set[tuple[int, int, str]] = set()

    def look(parts: list[tuple[datetime, Part]]) -> None:
        for at, said in parts:
            if not said.key.startswith("reminder.") or said.key == "reminder.later":
                continue
            moment = said.params["moment"]
            assert isinstance(moment, Moment)
            stage = book.conversation.stage
            kind = ReminderKind(said.key.removeprefix("reminder."))
            if kind is not ReminderKind.OFFER and isinstance(stage, Booked):
                assert (moment.at, moment.zone) == (stage.booking.at, stage.booking.zone)
                name = (stage.booking.number, stage.booking.sequence, kind.value)
                assert name not in seen
                seen.add(name)
            if kind in (ReminderKind.FOLLOW_UP, ReminderKind.OFFER):
                assert quiet_span(book.context.quiet, moment.zone, at) is None

    def parts_now() -> list[tuple[datetime, Part]]:
        return [(book.now, p) for e in book.effects if isinstance(e, Say) for p in e.parts]

    for act in acts:
        match act:
            case ("wait", int(minutes)):
                until = book.now + timedelta(minutes=minutes)
                while (
                    due := next_deadline(book.context, book.conversation)
                ) is not None and due <= until:
                    book.waits(seconds=max((due - book.now).total_seconds(), 0))
                    look(parts_now())
                book.now = max(until, book.now)
            case ("move", str(words)):
                book.types("move").types(words).types("yes")
                look(parts_now())
            case ("zone", str(place)):
                book.types("time zone").types(place)
                look(parts_now())
            case (_, str(words)):
                book.types(words)
                look(parts_now())
            case _:
                raise AssertionError(act)


def test_the_question_of_consent_is_not_told_whole_again() -> None:
    """Who typed what was not understood reads two lines; what they would agree to stands above."""
    book = Playbook(Context(opening=Opening.FULL)).opens()
    assert book.types("hmm").said == ("consent.again",)
    assert book.types("where").said[-1] == "question.consent"
    assert book.types("hmm").taps("yes").said[-1] == "question.age"
