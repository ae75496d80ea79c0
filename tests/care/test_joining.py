"""Who gets into the team, who learns nothing, and what removal does."""

from datetime import datetime, timedelta

import pytest

from bot.care.invitation import Invitation
from bot.care.roles import Role
from bot.runtime.admission import digest_of
from tests.care.clinic import RULES, Clinic


def test_a_code_lets_one_person_in_once(clinic: Clinic) -> None:
    """The first to open it is in the team; the second is a stranger like any other."""
    code = clinic.code()
    marta = clinic.person("Marta").opens(code)
    assert marta.new() == ["care.joined", "care.help.coordinator"]
    clinic.person("Eve").opens(code)
    assert [m.label for m in clinic.team()] == ["Marta"]


def test_a_code_can_be_typed(clinic: Clinic) -> None:
    """Where a channel has no links, the code is typed."""
    clinic.person("Marta").types(f" {clinic.code()} ")
    assert [m.label for m in clinic.team()] == ["Marta"]


def test_a_stranger_learns_nothing(clinic: Clinic) -> None:
    """A used, a run-out and an invented code, and that of an item, get the very same answer."""
    used = clinic.code()
    clinic.person("Marta").opens(used)
    clinic.measured("ada").taps("yes")
    stale = clinic.code(label="Luis")
    clinic.now += RULES.code_lasts + timedelta(seconds=1)
    answers = {
        name: tuple(clinic.person(name).opens(code).read())
        for name, code in (
            ("used", used),
            ("stale", stale),
            ("invented", f"team-{'A' * 32}"),
            ("short", "team-"),
            ("item", "item-1"),
            ("invitation", "no-such-invitation-of-the-clinic"),
        )
    }
    assert len(set(answers.values())) == 1
    assert answers["used"][0] == "invitation.unknown"
    stranger = clinic.people["test:item"]
    for words in ("inbox", "open 1", "take 1", "team"):
        stranger.types(words)
    assert not any(key.startswith("care.") for key in stranger.read())
    assert "opened-result" not in clinic.did()


def test_many_wrong_codes_close_the_door_for_a_while(clinic: Clinic) -> None:
    """After five wrong codes even a good one is refused, with the same words; later it is good."""
    code = clinic.code()
    eve = clinic.person("Eve")
    for n in range(RULES.wrong_codes):
        eve.opens(f"team-x{n:031}")
    eve.new()
    eve.opens(code)
    assert eve.new()[0] == "invitation.unknown"
    assert clinic.team() == ()
    assert clinic.did().count("wrong-codes") == 1
    clinic.person("Marta").opens(clinic.code(label="Marta"))
    assert [m.label for m in clinic.team()] == ["Marta"], "one chat's errors close no other chat"
    clinic.now += RULES.wrong_codes_within + timedelta(seconds=1)
    eve.opens(code)
    assert len(clinic.team()) == 2


def test_wrong_invitations_and_links_close_the_same_door(clinic: Clinic) -> None:
    """Whatever kind of code is guessed, and whether opened or typed, the guesses are few."""
    clinic.knows(clinic.patient("ada"), "HS-0042")
    clinic.store.invite(invitation("a-good-invitation-of-the-clinic", clinic.now))
    eve = clinic.person("Eve")
    eve.opens("no-such-invitation").opens(f"with-{'A' * 32}").opens("item-1")
    eve.types("B" * 32, "C" * 32).new()
    eve.opens("a-good-invitation-of-the-clinic")
    assert eve.profile.reference is None
    clinic.now += RULES.wrong_codes_within + timedelta(seconds=1)
    eve.opens("a-good-invitation-of-the-clinic")
    assert eve.profile.reference == "HS-0099"


def invitation(code: str, now: datetime) -> Invitation:
    """Return an invitation of the clinic."""
    return Invitation(
        code=code,
        reference="HS-0099",
        protocol=None,
        language=None,
        made_at=now,
        expires_at=now + timedelta(days=1),
    )


def test_only_the_digest_of_a_code_is_kept(clinic: Clinic) -> None:
    """No table of the database holds the code; the one for codes holds its SHA-256."""
    code = clinic.code()
    clinic.person("Eve").types(f"{code}x", "hello")
    clinic.patient("ada").types(code)
    with clinic.store.engine.begin() as connection:
        dump = str(
            [
                tuple(row)
                for table in ("member_code", "event", "conversation", "outbox", "audit", "inbox")
                for row in connection.exec_driver_sql(f"SELECT * FROM {table}")
            ]
        )
    assert digest_of(code) in dump
    assert code not in dump


def test_a_chat_of_a_patient_does_not_become_the_teams(clinic: Clinic) -> None:
    """Whoever does tests in a chat is told to use another one, and the code stays good."""
    code = clinic.code()
    ada = clinic.patient("ada")
    ada.opens(code)
    assert ada.new() == ["team.code-not-here"]
    ada.opens(f"team-{'A' * 32}")
    assert ada.new() == ["team.code-not-here"]
    clinic.person("Marta").opens(code)
    assert [m.label for m in clinic.team()] == ["Marta"]


def test_a_removed_member_is_a_stranger_at_once(clinic: Clinic) -> None:
    """What waits for them is dropped, nothing more comes, their buttons are dead."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    ada = clinic.measured("ada").taps("yes")
    luis.taps("team:take:1")
    luis.got.clear()
    gone = clinic.number_of("Luis")
    waiting = clinic.people.pop(luis.address)
    clinic.hold()
    marta.types("inbox")
    clinic.standing("bea").types("stop")
    assert clinic.waiting_for(waiting) > 0
    clinic.conductor.remove(gone, clinic.now)
    assert clinic.waiting_for(waiting) == 0
    clinic.people[luis.address] = waiting
    clinic.release()
    for _ in range(4):
        clinic.waits(5)
    assert luis.got == []
    assert clinic.item(1).taken_by is None
    luis.types("open 1", "inbox")
    assert not any(key.startswith("care.") for key in luis.read())
    assert "team.seen" not in ada.read()
    audits = [(a.who, a.did.value, a.detail) for a in clinic.log() if a.did == "removed-member"]
    assert audits == [(0, "removed-member", str(gone))]


def test_a_clinician_adds_and_removes_and_a_coordinator_does_not(clinic: Clinic) -> None:
    """Who is in the team decides who sees results: that is a clinician's or the operator's."""
    nora = clinic.member("Nora", Role.CLINICIAN)
    marta = clinic.member("Marta")
    marta.types("add coordinator Eve")
    assert marta.new() == ["care.may-not"]
    nora.types("add coordinator Luis")
    code = next(
        p.params["link"]
        for e in reversed(nora.got)
        for p in getattr(e, "parts", ())
        if "link" in p.params
    )
    clinic.person("Luis").opens(str(code))
    assert [m.label for m in clinic.team()] == ["Nora", "Marta", "Luis"]
    nora.types("team").taps(f"team:remove:{clinic.number_of('Luis')}")
    assert [m.label for m in clinic.team()] == ["Nora", "Marta"]
    marta.types("team")
    with pytest.raises(AssertionError, match="no message had a button"):
        marta.token("remove")


def test_what_somebody_closed_keeps_their_name_when_they_have_gone(clinic: Clinic) -> None:
    """An item says who closed it, also after that member was removed."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    clinic.measured("ada").taps("yes")
    luis.types("take 1").types("close 1").taps("call")
    clinic.conductor.remove(clinic.number_of("Luis"), clinic.now)
    marta.types("open 1")
    shown = [p.params for e in marta.got for p in getattr(e, "parts", ()) if p.key == "care.closed"]
    assert shown[-1]["member"] == "Luis"


def test_leaving_gives_back_what_one_had(clinic: Clinic) -> None:
    """A member who goes is asked once, and what they had is free again."""
    marta = clinic.member("Marta")
    clinic.measured("ada").taps("yes")
    marta.taps("team:take:1").types("leave")
    assert clinic.item().taken_by is not None
    marta.taps("team:leave:yes")
    assert clinic.team() == ()
    assert clinic.item().taken_by is None
    assert marta.read()[-1] == "care.left"


def test_a_good_code_gives_a_member_another_role(clinic: Clinic) -> None:
    """Somebody who is in the team already takes the new role, and is in it once."""
    marta = clinic.member("Marta")
    marta.opens(clinic.code(Role.CLINICIAN, "Marta"))
    assert [(m.label, m.role) for m in clinic.team()] == [("Marta", Role.CLINICIAN)]


def test_a_clinician_clears_whom_the_checklist_held_back(clinic: Clinic) -> None:
    """The person is told, and the log says who did it."""
    from bot.protocol.circumstances import Hazard

    nora = clinic.member("Nora", Role.CLINICIAN)
    ada = clinic.patient("ada", hazards=(Hazard.HEART_DISEASE,))
    clinic.knows(ada, "HS-0042")
    nora.types("clear HS-0042")
    assert nora.new() == ["care.cleared"]
    assert ada.profile.cleared_by == "Nora"
    nora.types("clear HS-9999", "clear HS-0042")
    assert nora.new() == ["care.no-such-person", "care.clear.needless"]
