"""A result from the person to the team and back: sent, seen in the inbox, opened, closed, told."""

from bot.care.items import FollowUp
from bot.care.triage import Cause, Priority
from bot.engine.effects import Form, Hand
from tests.care.clinic import Clinic


def test_a_result_is_sent_opened_and_closed_and_the_person_is_told(clinic: Clinic) -> None:
    """Send, inbox with priority and reason, summary and files, a follow-up, and plain words."""
    marta = clinic.member("Marta")
    ada = clinic.patient("ada")
    clinic.tests(ada, "96/60 88", "98/62 90")
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
