"""A result from the person to the team and back: sent, seen in the inbox, opened, closed, told."""

from datetime import timedelta

import pytest

from bot.care.items import FollowUp
from bot.care.triage import Cause, Priority
from bot.engine.asides import Asking, Question
from bot.engine.effects import Form, Hand, Moment, Say
from tests.care.clinic import Clinic


def test_a_result_is_sent_opened_and_closed_and_the_person_is_told(clinic: Clinic) -> None:
    """Send, inbox with priority and reason, summary and files, a follow-up, and plain words."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada", "98/62 90")
    assert clinic.inbox() == ()
    ada.taps("yes")
    (item,) = clinic.inbox()
    assert (item.priority, item.cause) == (Priority.SOON, Cause.FALL)
    assert marta.new() == ["care.result-sent", "care.item", "care.free"]
    marta.taps(f"team:open:{item.number}")
    handed = [e.form for e in marta.got if isinstance(e, Hand)]
    assert handed == [Form.SUMMARY, Form.CHART, Form.PDF, Form.CSV]
    ada.new()
    marta.taps("team:take:1").taps("team:close:1").taps("team:close:1:call")
    assert clinic.inbox() == ()
    assert clinic.item(1).follow_up is FollowUp.CALL
    assert ada.new() == ["team.seen", "team.next.call"]
    assert clinic.did() == [
        "made-code", "joined", "result-sent", "opened-result", "took-item", "closed-item",
    ]  # fmt: skip


def test_nothing_is_sent_that_the_person_did_not_send(clinic: Clinic) -> None:
    """Without a yes the team hears nothing of a whole test; a later word still sends it."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no")
    assert clinic.inbox() == ()
    assert marta.new() == []
    ada.types("good", "no", "send my results").taps("yes")
    assert len(clinic.inbox()) == 1


def test_a_question_that_was_put_off_is_put_again(clinic: Clinic) -> None:
    """Somebody who asks something else first is still asked whether to send the result."""
    ada = clinic.measured("ada").types("where")
    aside = ada.conversation.aside
    assert isinstance(aside, Asking)
    assert aside.question is Question.SEND


@pytest.mark.parametrize("follow_up", list(FollowUp))
def test_every_follow_up_is_told_in_words(clinic: Clinic, follow_up: FollowUp) -> None:
    """Whatever is chosen, the person hears that it was seen and what comes next."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes")
    ada.new()
    marta.taps("team:take:1").taps("team:close:1").taps(f"team:close:1:{follow_up}")
    if follow_up is FollowUp.OTHER:
        assert clinic.inbox() != ()
        marta.types("Please come by on Monday")
    assert clinic.inbox() == ()
    next_words = "team.words" if follow_up is FollowUp.OTHER else f"team.next.{follow_up}"
    assert ada.new() == ["team.seen", next_words]


def test_typed_follow_up_goes_to_the_person_only_if_the_clinic_allows_it(clinic: Clinic) -> None:
    """Where free text is not allowed, the person hears only that something comes next."""
    clinic.allows(free_text=False)
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes")
    ada.new()
    marta.taps("team:take:1").taps("team:close:1").taps("other").types("Ask about salt")
    assert clinic.item(1).words == "Ask about salt"
    assert ada.new() == ["team.seen", "team.next.other"]


def test_the_team_does_not_speak_into_a_test_or_the_night(clinic: Clinic) -> None:
    """What follows is told when the test is over, or when the person's morning has come."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes").taps("good").taps("none")
    clinic.waits(13 * 60)  # it is 22:00 in UTC, 23:00 in Madrid
    ada.new()
    marta.types("take 1").types("close 1").taps("call")
    assert ada.new() == []
    clinic.waits(10 * 60)
    assert ada.new()[:2] == ["team.seen", "team.next.call"]


def test_words_wait_for_the_end_of_a_running_test(clinic: Clinic) -> None:
    """A person who stands in a test hears nothing of an earlier one."""
    marta = clinic.member("Marta")
    ada = clinic.standing("ada").types("stop").taps("equipment").taps("yes")
    ada.types("start").taps("now").taps("same").taps("done").taps("go").taps("there")
    ada.new()
    marta.types("take 1").types("close 1").taps("call")
    assert ada.new() == []
    ada.types("stop").taps("equipment")
    clinic.waits(1)
    assert "team.seen" in ada.new()


def test_the_inbox_is_in_order_of_urgency_and_then_age(clinic: Clinic) -> None:
    """Alarms first, then soon, review, routine; within each the oldest first."""
    marta = clinic.member("Marta")
    stops = clinic.standing("stops")
    people = {
        "routine1": clinic.measured("routine1", "118/76 78"),
        "fall": clinic.measured("fall", "98/62 90"),
        "rise": clinic.measured("rise", "118/76 106"),
        "routine2": clinic.measured("routine2", "118/76 78"),
    }
    for person in people.values():
        person.taps("yes")
        clinic.now += timedelta(seconds=1)
    stops.types("stop")
    assert [item.reference for item in clinic.inbox()] == [
        "stops000", "fall0000", "rise0000", "routine1", "routine2",
    ]  # fmt: skip
    marta.types("inbox")
    shown = [e for e in marta.got if isinstance(e, Say)][-1]
    references = [p.params["reference"] for p in shown.parts if p.key == "care.item"]
    assert references == [item.reference for item in clinic.inbox()]
    assert not any(isinstance(v, Moment) for p in shown.parts for v in p.params.values())


def test_without_a_team_nothing_of_it_is_asked_or_told(clinic: Clinic) -> None:
    """Where the clinic has no team, a test ends with the kind of day as ever."""
    clinic.allows(team=False)
    ada = clinic.measured("ada")
    assert ada.new()[-1] == "question.day-kind"
    ada.types("send my results", "sharing")
    assert not any(key.startswith(("send", "sharing")) for key in ada.new())
    assert clinic.inbox() == ()
