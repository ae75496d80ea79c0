"""Reminders that a member sends: one tap, kind words, and never when the person is to have rest."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.engine.replay import replay
from bot.engine.team import Nudge
from bot.protocol.circumstances import Hazard
from tests.care.clinic import Clinic
from tests.companions.people import Person


def reminds(clinic: Clinic, marta: Person, person: Person, nudge: str) -> tuple[list[str], ...]:
    """Let a member tap the reminder; returns what they and the person read."""
    marta.new()
    person.new()
    clinic.taps_unseen(marta, f"team:who:{person.conversation.id}:nudge:{nudge}")
    return marta.new(), person.new()


def test_somebody_with_no_booking_is_reminded_and_asked_for_a_day(clinic: Clinic) -> None:
    """One tap; the person gets the clinic's kind words with the question that is open."""
    marta, ada = clinic.member("Marta"), clinic.patient("ada")
    clinic.waits(24 * 60)
    told, read = reminds(clinic, marta, ada, "book")
    assert (told, read) == (["care.nudge.now"], ["team.nudge.book", "plan.day"])
    assert clinic.did()[-1] == "nudged"


def test_a_second_test_and_a_result_are_asked_for_where_they_are_missing(clinic: Clinic) -> None:
    """After a first test the second; with a result not sent, that, with a button that sends it."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    bea = clinic.measured("bea").taps("no").taps("good").taps("none")
    assert reminds(clinic, marta, ada, "second")[1] == ["team.nudge.second"]
    assert reminds(clinic, marta, bea, "send")[1] == ["team.nudge.send"]
    bea.taps("sharing:latest").taps("yes")
    assert [item.person for item in clinic.inbox()] == [bea.conversation.id]
    clinic.waits(8 * 24 * 60)
    assert reminds(clinic, marta, bea, "send")[0] == ["care.nudge.needless"]


def test_nobody_is_reminded_who_is_to_have_rest(clinic: Clinic) -> None:
    """Paused, held back, closed, at a test, or with an alarm open: the member is told why."""
    marta = clinic.member("Marta")
    paused = clinic.patient("paused", paused=True)
    held = clinic.patient("held", hazards=(Hazard.PREGNANT,))
    closed = clinic.patient("closed", done_at=clinic.now)
    stands = clinic.standing("stands")
    assert reminds(clinic, marta, paused, "book") == (["care.nudge.paused"], [])
    assert reminds(clinic, marta, held, "book") == (["care.nudge.held"], [])
    assert reminds(clinic, marta, closed, "book") == (["care.nudge.done"], [])
    assert reminds(clinic, marta, stands, "second") == (["care.nudge.busy"], [])
    stands.types("chest pain")
    assert reminds(clinic, marta, stands, "second") == (["care.nudge.alarm"], [])
    assert "nudged" not in clinic.did()


def test_before_consent_nobody_can_be_reminded(clinic: Clinic) -> None:
    """Nothing is kept of whoever has only opened the chat, and the member is told just that."""
    marta = clinic.member("Marta")
    opens = clinic.person("opens").opens()
    clinic.knows(opens, "HS-6")
    assert reminds(clinic, marta, opens, "book") == (["care.nudge.opened"], [])


def test_one_reminder_in_so_many_days(clinic: Clinic) -> None:
    """The clinic's gap holds whoever sends it; after it another one may come."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    ada = clinic.patient("ada")
    clinic.asks(replace(clinic.context, nudge_gap=timedelta(days=3)))
    assert reminds(clinic, marta, ada, "book")[0] == ["care.nudge.later"]  # asked just now
    clinic.waits(24 * 60)
    assert reminds(clinic, luis, ada, "book")[0] == ["care.nudge.lately"]
    clinic.waits(3 * 24 * 60)
    assert reminds(clinic, luis, ada, "book")[0] == ["care.nudge.now"]


def test_at_night_it_waits_for_the_morning(clinic: Clinic) -> None:
    """In the person's quiet hours it is put off to their end, and dropped if it is needless then.

    Ada's is said at half past seven in Madrid; Bea has booked meanwhile, Cleo has paused.
    """
    marta = clinic.member("Marta")
    people = [clinic.patient(name) for name in ("ada", "bea", "cleo")]
    clinic.waits(12 * 60 + 30)  # half past ten in the evening in Madrid
    for person in people:
        assert reminds(clinic, marta, person, "book") == (["care.nudge.later"], [])
    ada, bea, cleo = people
    bea.types("saturday 9:00").taps("yes")
    cleo.types("pause")
    bea.new()
    cleo.new()
    clinic.waits(8 * 60 + 59)
    assert ada.new() == []
    clinic.waits(24 * 60)
    assert ada.new()[:1] == ["team.nudge.book"]
    assert not any(key.startswith("team.") for key in bea.new() + cleo.new())


def test_words_of_safety_put_an_end_to_a_reminder_that_waits(clinic: Clinic) -> None:
    """Whoever calls for help in the night is not told in the morning to book a test."""
    marta, ada = clinic.member("Marta"), clinic.patient("ada")
    clinic.waits(12 * 60 + 30)
    reminds(clinic, marta, ada, "book")
    ada.types("chest pain")
    ada.new()
    clinic.waits(24 * 60)
    assert "team.nudge.book" not in ada.new()


@pytest.mark.parametrize("nudge", list(Nudge))
def test_a_history_with_reminders_replays(clinic: Clinic, nudge: Nudge) -> None:
    """The engine decided, so the same events give the same conversation."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    reminds(clinic, marta, ada, nudge)
    clinic.waits(24 * 60)
    ada.types("where")
    history = clinic.store.history(ada.conversation.id)
    assert replay(clinic.context, history.beginning, history.events) == ada.conversation


def test_nobody_is_asked_for_a_result_that_they_took_back(clinic: Clinic) -> None:
    """Who never sent it may have forgotten; who took it back has said what they want."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes").taps("good").taps("none")
    assert reminds(clinic, marta, ada, "send")[0] == ["care.nudge.needless"]
    ada.types("sharing").taps("sharing:back")
    assert reminds(clinic, marta, ada, "send") == (["care.nudge.taken-back"], [])
    assert "nudged" not in clinic.did()
