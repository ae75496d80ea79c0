"""After a test that was stopped, and while somebody stands between two readings."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.engine.asides import ConfirmingDistress
from bot.engine.context import Context
from bot.engine.effects import Effect, Keep, Say, Urgency
from bot.engine.letters import AlarmAnswer
from bot.engine.linked import CompanionAnswered
from bot.engine.notices import Tell
from bot.engine.profile import Companion, Share
from bot.engine.state import AwaitingStopReason, Finished, Resting
from bot.protocol.record import Answer, Ending, TestRecord
from bot.testing.playbook import START, Playbook


def record_of(book: Playbook) -> TestRecord:
    """Return the record that the stage holds."""
    record = getattr(book.conversation.stage, "record", None)
    assert isinstance(record, TestRecord)
    return record


def linked(book: Playbook) -> Playbook:
    """Link somebody, so that what they are told can be seen."""
    companion = Companion(id="other", share=Share.ALARMS, since=START)
    profile = replace(book.conversation.profile, companions=(companion,))
    book.conversation = replace(book.conversation, profile=profile)
    return book


def told(effects: tuple[Effect, ...]) -> list[str]:
    """Return what was told to whoever is linked."""
    return [effect.notice.value for effect in effects if isinstance(effect, Tell)]


# -- between two readings


def test_whoever_stands_is_asked_in_between() -> None:
    """At 2 and 7 min of standing it is asked whether all is well; the answer costs no message."""
    book = Playbook(attentive=False).stands().waits(minutes=2)
    assert book.said == ("check.standing",)
    book.taps("fine")
    assert book.said == ("check.good",)
    assert not any(isinstance(effect, Say) for effect in book.effects)
    book.waits(minutes=3).types("116/70 90").waits(minutes=2)
    assert book.said == ("check.standing",)


def test_no_answer_climbs_the_ladder() -> None:
    """A nudge, "are you all right?", then the test closes and whoever is linked is told."""
    book = linked(Playbook(attentive=False).stands()).waits(minutes=2)
    steps = [book.waits(seconds=s).said for s in (39, 1, 34, 1, 64)]
    assert steps == [(), ("check.again",), (), ("silence.check.standing",), ()]
    book.waits(seconds=1)
    assert book.said == ("tell.silent", "silence.closed")
    assert record_of(book).ending is Ending.SILENT


@pytest.mark.parametrize("words", ["ok", "fine", "yes", "estoy bien", "sí"])
def test_answer_can_be_typed(words: str) -> None:
    """A word will do, in any language, and is no reason to ask again."""
    book = Playbook(attentive=False).stands().waits(minutes=2).types(words)
    assert book.said == ("check.good",)
    assert book.waits(minutes=2).said == ()


def test_sign_of_life_shortly_before_answers_it() -> None:
    """Who has just written is not asked whether all is well."""
    book = Playbook(attentive=False).stands().waits(minutes=1, seconds=30).types("headache 3")
    assert book.waits(minutes=2).said == ()


def test_not_all_right_ends_the_test() -> None:
    """The answer no, while asked, ends the test lying down."""
    book = Playbook(attentive=False).stands().waits(minutes=2).types("no")
    assert book.said == ("faint.now",)


def test_late_answer_is_no_stale_tap() -> None:
    """The button of the question still says that all is well when a reading is due."""
    book = Playbook(attentive=False).stands().waits(minutes=2)
    button = book.token("fine")
    book.taps("fine").waits(minutes=3).taps(button)
    assert book.said == ("silence.good", "reading.ask.standing")


# -- in doubt


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("no chest pain", "help.sure.emergency"),
        ("I fainted last year", "help.sure.emergency"),
        ("sin dolor de pecho", "help.sure.emergency"),
        ("me desmayé el año pasado", "help.sure.emergency"),
        ("I don't feel like fainting", "help.sure.near-faint"),
    ],
)
@pytest.mark.parametrize("minutes", [0, 5])
def test_denied_or_past_is_asked_about(words: str, key: str, minutes: int) -> None:
    """Two buttons; no ends it, yes is acted on at once, and a minute of silence counts as yes."""
    emergency = key.endswith("emergency")
    acted = ("emergency.now", "emergency.test-over") if emergency else ("faint.now",)
    no = Playbook().stands().waits(minutes=minutes).types(words)
    assert no.said[-1] == key
    assert "help.not-meant" in no.taps("no").said
    assert isinstance(no.conversation.stage, Resting) == (minutes == 0)
    assert Playbook().stands().waits(minutes=minutes).types(words).taps("yes").said == acted
    silent = Playbook().stands().waits(minutes=minutes).types(words).waits(seconds=59)
    assert isinstance(silent.conversation.aside, ConfirmingDistress)
    assert set(acted) <= set(silent.waits(seconds=1).said)


def test_doubt_is_asked_before_any_test() -> None:
    """At every stage it is asked, also with no test under way, and silence counts as yes."""
    book = Playbook().types("I had a seizure as a child")
    assert book.said == ("help.sure.emergency",)
    assert book.waits(minutes=1).said == ("emergency.now",)


def test_reading_beside_a_doubt_is_kept() -> None:
    """A whole reading in the same message counts, whatever the answer is."""
    book = Playbook().stands().waits(minutes=5).types("116/70 90, no chest pain").taps("no")
    assert record_of(book).readings[-1].values.heart_rate == 90


def test_certain_call_is_heard_beside_a_denied_one() -> None:
    """What is denied does not cover what is not."""
    book = Playbook().stands().types("I did not faint but I have chest pain")
    assert book.said[0] == "emergency.now"


def test_very_dizzy_counts_while_standing_only() -> None:
    """Standing it ends the test; sitting or lying it is a symptom."""
    assert Playbook().stands().types("very dizzy").said == ("faint.now",)
    lying = Playbook().lies_down().types("very dizzy")
    assert isinstance(lying.conversation.stage, Resting)
    assert record_of(lying).symptoms


# -- lying down


STOPS = {
    "near-faint": "about to faint",
    "unwell": "unwell",
    "emergency": "chest pain",
    "stop": "stop",
}


def stopped(how: str) -> Playbook:
    """Return a playbook in which a test was stopped while standing."""
    book = linked(Playbook().stands().waits(minutes=3))
    return book.types("stop") if how == "stop" else book.types(STOPS[how])


@pytest.mark.parametrize("how", ["near-faint", "emergency", "stop"])
def test_how_they_are_is_asked_at_2_5_and_10_minutes(how: str) -> None:
    """Each time with three buttons, as words of safety."""
    book, said = stopped(how), []
    for minutes in (2, 3, 5):
        book.waits(minutes=minutes)
        asked = [e for e in book.effects if isinstance(e, Say) and e.parts[0].key == "recovery.how"]
        said += asked
        book.taps("same")
    assert len(said) == 3
    assert all(message.urgency is Urgency.SAFETY for message in said)
    assert "recovery.same.last" in book.said
    assert "recovery.how" not in book.waits(minutes=60).said


@pytest.mark.parametrize("words", ["better", "I'm fine", "ok", "mejor", "estoy bien"])
def test_better_ends_it_with_advice(words: str) -> None:
    """Rest and drink, and no repeat today; whoever is linked is told."""
    book = stopped("near-faint").waits(minutes=2).types(words)
    assert book.said == ("tell.better", "recovery.better")
    assert book.waits(minutes=60).said == ()


@pytest.mark.parametrize("words", ["worse", "peor", "I feel terrible", "not ok"])
def test_worse_goes_up_the_ladder(words: str) -> None:
    """The local emergency number, and whoever is linked is told; it is asked again."""
    book = stopped("near-faint").waits(minutes=2).types(words)
    assert book.said == ("tell.worse", "recovery.worse")
    assert book.waits(minutes=3).said == ("recovery.how",)


def test_silence_goes_up_the_ladder() -> None:
    """No answer is told the first time and the last, with words for whoever finds them."""
    book = stopped("near-faint").waits(minutes=15)
    assert told(book.effects) == ["still-silent", "still-silent"]
    assert book.said.count("recovery.silent") == 2
    assert book.waits(minutes=600).said == ()


def test_sign_of_life_is_no_silence() -> None:
    """Who writes something else is not told of as silent; the question stays open."""
    book = stopped("near-faint").waits(minutes=2, seconds=5).types("where")
    assert "recovery.silent" not in book.waits(minutes=2).said
    book.taps("better")
    assert "recovery.better" in book.said


def test_trouble_with_the_cuff_is_no_reason_to_ask() -> None:
    """Nobody is asked how they are who stopped for the cuff, or while lying."""
    book = Playbook().stands().taps("stop").taps("equipment")
    assert "recovery.how" not in book.waits(minutes=15).said
    lying = Playbook().lies_down().taps("stop").taps("other")
    assert "recovery.how" not in lying.waits(minutes=15).said


def test_stopped_test_is_a_result() -> None:
    """How long they stood, the readings, and the words that ended it are all kept."""
    book = Playbook().stands().waits(minutes=5).types("116/70 90").waits(minutes=1)
    record = record_of(book.types("everything is going black"))
    stood = record.phases[-1].started_at
    assert record.ended_at is not None
    assert record.ended_at - stood == timedelta(minutes=6)
    assert record.stop_words == "everything is going black"
    assert len(record.readings) == 3


def test_same_day_is_said_not_to_be_the_day() -> None:
    """Who starts again the day a test was stopped is told that another day is better."""
    book = stopped("near-faint").waits(minutes=2).types("better").types("start")
    assert "opening.stopped-today" in book.said


# -- a very high pressure


def high() -> Playbook:
    """Return a playbook in which a very high pressure was read lying down."""
    return linked(Playbook().lies_down().waits(minutes=5)).types("186/124 88")


def test_very_high_pressure_is_measured_again_after_a_minute() -> None:
    """Rest, measure again after a minute (American Heart Association public page)."""
    book = high()
    assert book.said == ("tell.unsafe-reading", "unsafe.high")
    assert book.waits(seconds=59).said == ()
    assert book.waits(seconds=1).said == ("recovery.measure",)


@pytest.mark.parametrize(
    ("answer", "key"), [("yes", "emergency.now"), ("no", "recovery.care-team")]
)
def test_still_high_branches_by_signs(answer: str, key: str) -> None:
    """Again high: with signs of danger the emergency number, without them the care team."""
    book = high().waits(minutes=1).types("184/122 86")
    assert book.said == ("recovery.signs",)
    assert key in book.taps(answer).said


def test_no_answer_about_signs_counts_as_yes() -> None:
    """A minute of silence on whether there are signs of danger is taken as yes."""
    book = high().waits(minutes=1).types("184/122 86").waits(minutes=1)
    assert book.said == ("tell.emergency", "emergency.now")


def test_lower_the_second_time_is_said() -> None:
    """Lower now: rest, tell the care team today, and the numbers stay beside the test."""
    book = high().waits(minutes=1).types("150/96 84")
    assert book.said == ("recovery.lower",)
    record = record_of(book)
    assert [repeat.values.systolic for repeat in record.repeats] == [150]
    assert len(record.readings) == 1


def test_second_measurement_may_come_in_parts_or_not_at_all() -> None:
    """What is missing is asked for; without any, the words on very high pressure come again."""
    book = high().waits(minutes=1).types("hr 84")
    assert book.said == ("recovery.unclear",)
    assert book.types("150/96").said == ("recovery.lower",)
    silent = high().waits(minutes=12)
    assert "recovery.not-measured" in silent.said


def test_signs_told_in_words_are_heard_first() -> None:
    """Chest pain told in words is an emergency at once."""
    book = high().waits(minutes=1).types("184/122 and chest pain")
    assert book.said[-1] == "emergency.now"


def test_reason_of_a_stop_is_still_taken_while_looked_after() -> None:
    """The reason is answered beside the questions how they are."""
    book = stopped("stop").waits(minutes=2)
    assert isinstance(book.conversation.stage, AwaitingStopReason)
    book.taps("felt-faint")
    assert isinstance(book.conversation.stage, Finished)
    assert "recovery.how" in book.waits(minutes=3).said


def test_clinic_can_set_the_times() -> None:
    """The clinic's own times are used."""
    context = Context()
    soon = replace(context.recovery, checks=(timedelta(minutes=1),))
    book = Playbook(replace(context, recovery=soon)).stands().types("about to faint")
    assert book.waits(minutes=1).said == ("recovery.how",)


def test_clinics_emergency_number_is_said_with_every_word_of_safety() -> None:
    """Where the clinic has set a number it is said; else the local emergency number is named."""
    book = Playbook(Context(emergency_number="112")).stands().types("about to faint")
    assert book.said == ("faint.now", "emergency.number")
    assert book.waits(minutes=2).said == ("recovery.how", "emergency.number")
    assert "emergency.number" not in Playbook().stands().types("about to faint").said


# -- what is kept of it


def answers(book: Playbook) -> list[Answer]:
    """Return what is kept of how the person was looked after."""
    return [told.answer for told in record_of(book).aftercare]


@pytest.mark.parametrize(("answer", "kept"), [("yes", Answer.SIGNS), ("no", Answer.NO_SIGNS)])
def test_the_answer_about_signs_is_kept(answer: str, kept: Answer) -> None:
    """A yes or no to signs of danger stands beside the test, and is no new revision of it."""
    book = high().waits(minutes=1).types("184/122")
    before = record_of(book).revision
    book.taps(answer)
    assert answers(book) == [kept]
    assert record_of(book).revision == before
    assert Keep(record=record_of(book)) in book.effects


def test_no_answer_about_signs_is_kept_as_none() -> None:
    """Silence counts as yes; what is kept says that it was silence."""
    book = high().waits(minutes=1).types("184/122").waits(minutes=1)
    assert answers(book) == [Answer.SIGNS_SILENT]


def test_how_they_were_is_kept() -> None:
    """The same, then worse: in order, each with its time."""
    book = Playbook().stands().waits(minutes=1).types("i feel faint")
    book.waits(minutes=2).types("the same").waits(minutes=1).types("worse")
    assert answers(book) == [Answer.SAME, Answer.WORSE]
    times = [told.at for told in record_of(book).aftercare]
    assert times == sorted(times)


@pytest.mark.parametrize(
    ("answer", "kept"),
    [
        (AlarmAnswer.WITH_THEM, Answer.COMPANION_THERE),
        (AlarmAnswer.NOT_REACHED, Answer.COMPANION_NOT_THERE),
    ],
)
def test_what_a_companion_answered_is_kept(answer: AlarmAnswer, kept: Answer) -> None:
    """The answer of a companion to an alarm stands beside the test that was stopped."""
    book = linked(Playbook()).stands().waits(minutes=1).types("i feel faint")
    book.happens(CompanionAnswered(at=book.now, id="other", answer=answer))
    assert answers(book) == [kept]


def test_a_whole_test_keeps_no_answer() -> None:
    """An answer about an earlier test is not put beside one that was completed since."""
    book = linked(Playbook()).stands()
    book.waits(minutes=5).types("116/76 90").waits(minutes=5).types("114/76 96")
    book.happens(CompanionAnswered(at=book.now, id="other", answer=AlarmAnswer.WITH_THEM))
    assert answers(book) == []
