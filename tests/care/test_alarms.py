"""An alarm goes to those on duty, to the next, to all, until somebody takes it."""

from bot.care.rules import CareRules
from bot.care.triage import Cause, Priority
from bot.engine.effects import Say, Urgency
from tests.care.clinic import RULES, Clinic
from tests.companions.people import Person


def alarms(person: Person) -> list[str]:
    """Return the first words of each alarm that reached somebody since this was last asked."""
    return [key for key in person.new() if key.startswith("care.alarm.")]


def test_an_alarm_that_nobody_takes_goes_to_the_next_and_then_to_all(clinic: Clinic) -> None:
    """Those on duty first; after the clinic's time the next; then all, as often as it is set."""
    marta, luis, nora = (clinic.member(name) for name in ("Marta", "Luis", "Nora"))
    nora.types("on duty").new()
    ada = clinic.standing("ada").types("stop").taps("equipment")
    told = [(alarms(marta), alarms(luis), alarms(nora))]
    for _ in range(5):
        clinic.waits(5)
        told.append((alarms(marta), alarms(luis), alarms(nora)))
    every, again = (["care.alarm.all"],) * 3, (["care.alarm.again"],) * 3
    assert told == [
        ([], [], ["care.alarm.duty"]),
        (["care.alarm.next"], [], []),
        every,
        again,
        ([], [], []),
        ([], [], []),
    ]
    assert [i.priority for i in clinic.inbox()] == [Priority.ALARM]
    steps = [a.detail for a in clinic.log() if a.did == "alarm-sent"]
    assert steps == [
        "duty: 3", "next: 1", "all: 1", "all: 2", "all: 3", "again: 1", "again: 2", "again: 3",
    ]  # fmt: skip
    assert clinic.did().count("alarm-unanswered") == RULES.reminders + 1
    assert "stop.now" in ada.read()


def test_with_nobody_on_duty_all_are_told_at_once(clinic: Clinic) -> None:
    """Nobody on duty is no reason to wait."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    clinic.standing("ada").types("stop")
    assert (alarms(marta), alarms(luis)) == (["care.alarm.all"], ["care.alarm.all"])


def test_whoever_takes_an_alarm_ends_the_ladder(clinic: Clinic) -> None:
    """Once it is taken no one else is told, and the others see who has it."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    marta.types("on duty").new()
    clinic.standing("ada").types("stop").taps("equipment")
    marta.taps("team:take:1")
    clinic.waits(60)
    assert alarms(luis) == []
    assert clinic.item(1).wake_at is None


def test_an_alarm_that_is_given_back_begins_anew(clinic: Clinic) -> None:
    """Letting go of an alarm sends it to the others at once."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    clinic.standing("ada").types("stop")
    marta.taps("team:take:1")
    luis.new()
    marta.taps("team:go:1")
    assert alarms(luis) == ["care.alarm.all"]


def test_an_alarm_that_does_not_arrive_goes_further_at_once(clinic: Clinic) -> None:
    """A chat that takes no messages costs no time: the next is told in the same minute."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    marta.types("on duty")
    marta.blocked = True
    clinic.standing("ada").types("stop")
    assert alarms(luis) == ["care.alarm.next"]
    assert "alarm-unreached" in clinic.did()


def test_an_alarm_holds_no_result_and_opens_none(clinic: Clinic) -> None:
    """The team hears why, never a number; the result opens only if the person sends it."""
    marta = clinic.member("Marta")
    clinic.standing("ada").types("stop")
    said = [e for e in marta.got if isinstance(e, Say)][-1]
    assert said.urgency is Urgency.SAFETY
    values = {str(v) for p in said.parts for v in p.params.values()}
    assert not any("120/76" in value or "70" in value for value in values)
    marta.types("open 1")
    assert marta.new()[-1] == "care.not-sent"
    assert not any(type(e).__name__ == "Hand" for e in marta.got)


def test_who_has_not_agreed_raises_no_alarm(clinic: Clinic) -> None:
    """A person who agreed before there was a team is told of by nobody before they agree anew."""
    marta = clinic.member("Marta")
    clinic.standing("ada", team_since=None).types("stop")
    assert marta.new() == []
    assert clinic.inbox() == ()


def test_a_reading_past_a_line_is_soon_and_has_no_ladder(clinic: Clinic) -> None:
    """It comes to all at once, as an item that nobody has."""
    marta = clinic.member("Marta")
    clinic.standing("ada").types("84/50 90")
    (item,) = clinic.inbox()
    assert (item.priority, item.cause) == (Priority.SOON, Cause.UNSAFE_READING)
    assert item.wake_at is None
    assert marta.new() == ["care.item", "care.free"]


def test_silence_raises_an_alarm_by_itself(clinic: Clinic) -> None:
    """Somebody who stands and does not answer is told of when the test closes."""
    clinic.member("Marta")
    clinic.standing("ada")
    clinic.waits(15)
    assert [(i.priority, i.cause) for i in clinic.inbox()] == [(Priority.ALARM, Cause.SILENCE)]


def test_an_alarm_and_the_result_of_a_test_are_one_item(clinic: Clinic) -> None:
    """Sending the result of a stopped test adds to the alarm, and lowers nothing."""
    marta = clinic.member("Marta")
    ada = clinic.standing("ada", sends_since=clinic.now).types("stop").taps("unwell")
    (item,) = clinic.inbox()
    assert item.shared
    assert item.priority is Priority.ALARM
    marta.types("open 1")
    assert any(type(e).__name__ == "Hand" for e in marta.got)
    assert "send.sent.always" in ada.read()


def test_whoever_has_an_item_hears_that_it_got_worse(clinic: Clinic) -> None:
    """Feeling worse after a stop reaches the one who has it and those on duty, and nobody else."""
    marta, luis, nora = (clinic.member(name) for name in ("Marta", "Luis", "Nora"))
    luis.types("on duty")
    ada = clinic.standing("ada").types("stop")
    luis.taps("team:take:1").taps("team:give:1").taps(f"team:give:1:{clinic.number_of('Marta')}")
    luis.new(), marta.new()
    ada.types("worse")
    assert alarms(marta) == ["care.alarm.more.worse"]
    assert alarms(luis) == ["care.alarm.more.worse"]
    assert alarms(nora) == []
    assert clinic.item(1).cause is Cause.WORSE
    assert clinic.item(1).taken_by == clinic.number_of("Marta")


def test_early_late_and_double_alarms_do_no_harm(clinic: Clinic) -> None:
    """A wake before its time changes nothing; one long after it goes one rung further."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    marta.types("on duty").new()
    clinic.standing("ada").types("stop")
    clinic.conductor.wake("item:1", clinic.now)
    clinic.deliver()
    assert alarms(luis) == []
    clinic.now += CareRules().answer_within * 10
    for _ in range(2):
        clinic.conductor.wake("item:1", clinic.now)
        clinic.deliver()
    assert alarms(luis) == ["care.alarm.next"]
    assert clinic.conductor.wake("item:99", clinic.now) is None
