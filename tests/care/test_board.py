"""The board: where each person stands, since when, and the same from what happened alone."""

import json
from datetime import timedelta
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bot.care.board import MOVING, Place, counts, stand, stuck
from bot.care.invitation import Invitation
from bot.cli import app
from bot.engine.effects import HandBoard
from bot.engine.events import ChoiceTapped
from bot.reports.board import board_picture
from bot.reports.presenting import present
from bot.texts import render
from tests.care.clinic import Clinic
from tests.care.recount import recounted
from tests.care.test_room import room_of, says


def invited(clinic: Clinic, reference: str) -> None:
    """Let the clinic invite somebody who does not open it."""
    clinic.store.invite(
        Invitation(
            code=f"code-{reference}",
            reference=reference,
            protocol=None,
            language=None,
            made_at=clinic.now,
            expires_at=clinic.now + timedelta(days=30),
        )
    )


def stood(clinic: Clinic) -> dict[str, tuple[str, object]]:
    """Return where everybody stands and since when, as the board has it."""
    with clinic.store.unit() as unit:
        standings = [stand(one) for one in unit.care.people()]
    return {one.facts.reference: (one.place.value, one.since) for one in standings}


def places(clinic: Clinic) -> dict[str, str]:
    """Return where everybody stands, by the first letters of their reference."""
    return {reference.rstrip("0"): place for reference, (place, _) in stood(clinic).items()}


def peopled(clinic: Clinic) -> Clinic:
    """Return a clinic with somebody at each of the first places, and a stranger."""
    invited(clinic, "HS-5")
    opens = clinic.person("opens").opens()
    clinic.knows(opens, "HS-6")
    clinic.person("stranger").opens()
    clinic.patient("agrees")
    clinic.patient("books").types("tomorrow 8:00").taps("yes")
    clinic.measured("first").taps("no").taps("good").taps("none")
    return clinic


def test_people_stand_before_their_first_gap(clinic: Clinic) -> None:
    """Invited, opened, agreed, booked and tested people are told apart; strangers are left out."""
    clinic.member("Marta")
    assert places(peopled(clinic)) == {
        "HS-5": "invited",
        "HS-6": "opened",
        "agrees": "consented",
        "books": "booked",
        "first": "first-test",
    }
    assert recounted(clinic.store, clinic.context) == stood(clinic)


def test_a_result_goes_from_sent_to_seen_to_followed_up_to_closed(clinic: Clinic) -> None:
    """With two tests done, the place is what the latest result has come to in the team's hands."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    clinic.waits(24 * 60)
    clinic.repeats(ada).taps("no").taps("symptomatic")
    steps = [places(clinic)]
    ada.types("send my results").taps("yes")
    steps.append(places(clinic))
    for words in ("take 1", "let go 1", "take 1"):
        marta.types(words)
        steps.append(places(clinic))
        assert recounted(clinic.store, clinic.context) == stood(clinic)
    marta.types("close 1").taps("call")
    steps.append(places(clinic))
    marta.types(f"person {ada.conversation.id}").taps("done").taps("yes")
    steps.append(places(clinic))
    assert [step["ada"] for step in steps] == [
        "second-test", "sent", "seen", "sent", "seen", "followed-up", "done",
    ]  # fmt: skip
    assert recounted(clinic.store, clinic.context) == stood(clinic)


def test_a_booking_counts_while_it_stands(clinic: Clinic) -> None:
    """Cancelled, the person has just agreed again; missed, they wait from its time on."""
    clinic.member("Marta")
    ada = clinic.patient("ada").types("tomorrow 8:00").taps("yes")
    clinic.patient("bea").types("tomorrow 8:00").taps("yes")
    ada.types("cancel")
    assert places(clinic) == {"ada": "consented", "bea": "booked"}
    clinic.waits(24 * 60)
    with clinic.store.unit() as unit:
        late = [stand(one) for one in unit.care.people()]
    assert [one.facts.reference for one in stuck(late, Place.BOOKED, clinic.now)] == ["bea00000"]
    assert recounted(clinic.store, clinic.context) == stood(clinic)


def test_the_counts_part_all_people(clinic: Clinic) -> None:
    """Everybody stands at one place, and no place has more people than have come so far."""
    with peopled(clinic).store.unit() as unit:
        standings = [stand(one) for one in unit.care.people()]
    found = counts(standings, clinic.now)
    assert sum(count.here for count in found.values()) == len(standings) == 5
    assert all(count.here <= count.reached for count in found.values())
    assert [found[place].reached for place in MOVING[:5]] == [2, 4, 3, 2, 1]


def test_the_board_in_a_chat_leads_to_who_waits(clinic: Clinic) -> None:
    """One message of a line a place; its buttons list references and durations, and a reminder."""
    marta = clinic.member("Marta")
    peopled(clinic)
    clinic.waits(3 * 24 * 60)
    marta.types("board")
    assert marta.new()[:1] == ["care.board"]
    marta.taps("team:stuck:consented")
    assert marta.new() == [
        "care.stuck", "care.stuck.consented", "care.stuck.line.person", "care.stuck.line.person",
    ]  # fmt: skip
    assert marta.token("book").endswith(":nudge:book")
    assert clinic.did()[-2:] == ["saw-board", "saw-board"]


def test_a_group_sees_counts_and_references_and_no_page(clinic: Clinic) -> None:
    """Under a list in a group there is no button of a person."""
    room = room_of(clinic)
    peopled(clinic)
    says(clinic, room, ChoiceTapped(at=clinic.now, token="team:board"))
    says(clinic, room, ChoiceTapped(at=clinic.now, token="team:stuck:first-test"))
    assert room.new()[-2:] == ["care.stuck.first-test", "care.stuck.line.person"]
    with pytest.raises(AssertionError):
        room.token("who")
    person = clinic.people["test:first"].conversation.id
    says(clinic, room, ChoiceTapped(at=clinic.now, token=f"team:who:{person}"))
    assert room.new() == ["care.not-in-room"]


def test_the_operator_reads_the_board(clinic: Clinic, operated: None, tmp_path: Path) -> None:
    """As a table, as JSON for scripts, as a list of who waits, and as a picture."""
    del operated
    peopled(clinic)
    run = CliRunner().invoke
    assert "first-test" in run(app, ["board"]).stdout
    told = json.loads(run(app, ["board", "--json"]).stdout)
    assert (told["people"], told["places"]["first-test"]["here"]) == (5, 1)
    (first,) = json.loads(run(app, ["board", "--at", "first-test", "--json"]).stdout)
    assert first["reference"] == "first000"
    picture = tmp_path / "board.png"
    assert run(app, ["board", "--picture", str(picture)]).exit_code == 0
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert run(app, ["board", "--at", "nowhere"]).exit_code == 2
    assert run(app, ["board", "--picture", str(tmp_path / "no" / "board.png")]).exit_code == 1


def test_one_person_alone_is_told_as_among_all(clinic: Clinic) -> None:
    """What the database returns of one person is what it returns of them among all."""
    with peopled(clinic).store.unit() as unit:
        everybody = unit.care.people()
        for one in everybody:
            if one.id is not None:
                assert unit.care.people(one.id) == (one,)


def test_the_board_comes_into_the_chat_as_a_picture(clinic: Clinic) -> None:
    """It is what the command draws of the same board, in the member's language, in a group too."""
    marta, room = clinic.member("Marta", language="es"), room_of(clinic)
    peopled(clinic)
    marta.types("tablero").taps("picture")
    (sheet,) = [effect for effect in marta.got if isinstance(effect, HandBoard)]
    with clinic.store.unit() as unit:
        found = counts([stand(one) for one in unit.care.people()], clinic.now)
    bubble = present(sheet, "es")
    assert bubble.attachment is not None
    assert bubble.attachment.name == "wallside-board-2026-03-02.png"
    assert bubble.attachment.content == board_picture(found, clinic.now, "UTC", "es")
    assert bubble.text == render("caption.board", {}, "es")
    says(clinic, room, ChoiceTapped(at=clinic.now, token="team:board:picture"))
    assert [type(effect) for effect in room.got[-1:]] == [HandBoard]
    assert clinic.did()[-3:] == ["saw-board", "saw-board", "saw-board"]
