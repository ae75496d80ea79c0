"""People who have blocked the bot: nothing is sent to them, and the team hears where it matters."""

import json
from dataclasses import replace
from datetime import timedelta

import pytest
from typer.testing import CliRunner

from bot.care.roles import Role
from bot.cli import app
from bot.engine.effects import Say
from bot.engine.events import Blocked, ChoiceTapped
from bot.engine.replay import replay
from tests.care.clinic import Clinic
from tests.care.test_board import places
from tests.care.test_reminding_people import reminds
from tests.care.test_room import room_of, says
from tests.companions.people import Person

NIGHT = 14 * 60
"""Minutes from the morning at which these tests begin into the quiet hours."""


def once_tested(clinic: Clinic, name: str = "ada") -> Person:
    """Return somebody whose first result was sent and whose second test is awaited."""
    return clinic.measured(name).taps("yes").taps("good").taps("none")


def types(clinic: Clinic, marta: Person, person: Person, what: str) -> list[str]:
    """Let a member tap something about a person; returns what they read."""
    marta.new()
    clinic.taps_unseen(marta, f"team:who:{person.conversation.id}:{what}")
    return marta.new()


@pytest.mark.parametrize("what", ["nudge:second", "repeat", "write:0", "write:words"])
def test_nothing_is_queued_for_somebody_who_has_blocked_the_bot(clinic: Clinic, what: str) -> None:
    """The member is told to call; the person gets nothing, then or later; the look is logged."""
    clinic.rules = replace(clinic.rules, templates=(("call", {"en": "Please call us."}),))
    marta, ada = clinic.member("Marta"), once_tested(clinic).blocks()
    events = ada.events()
    assert types(clinic, marta, ada, what) == ["care.blocked.cannot"]
    assert (clinic.waiting_for(ada), ada.events()) == (0, events)
    (seen,) = [a for a in clinic.log() if a.did == "saw-person"]
    assert (seen.person, seen.detail) == (ada.conversation.id, "blocked")
    ada.unblocks().new()
    clinic.waits(24 * 60)
    assert not [key for key in ada.new() if key.startswith("team.")]


def test_own_words_that_were_asked_for_before_the_block_are_not_sent(clinic: Clinic) -> None:
    """It is asked once more when they are typed."""
    marta, ada = clinic.member("Marta"), once_tested(clinic)
    assert types(clinic, marta, ada, "write:words") == ["care.write.words"]
    ada.blocks()
    marta.new()
    marta.types("Please come on Monday.")
    assert marta.new() == ["care.blocked.cannot"]
    assert "wrote" not in clinic.did()


def test_what_was_on_its_way_is_told_to_whoever_sent_it(clinic: Clinic) -> None:
    """That member alone; the page marks it as not arrived; the next reminder may come at once."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    ada = once_tested(clinic)
    luis.types("on duty").new()
    ada.blocked = True  # which nobody knows yet
    ada.new()
    told, read = reminds(clinic, marta, ada, "second")
    assert (told, read) == (["care.nudge.now", "care.blocked.lost"], [])
    assert luis.new() == []
    assert clinic.did()[-2:] == ["nudged", "not-reached"]
    said = [e for e in marta.got if isinstance(e, Say)][-1]
    assert said.parts[0].params["reference"] == ada.conversation.id[:8]
    marta.types(f"person {ada.conversation.id}")
    page = marta.new()
    assert {"care.person.blocked", "care.person.said.lost"} <= set(page)
    assert "care.person.said.line" not in page
    ada.unblocks()
    assert reminds(clinic, marta, ada, "second") == (["care.nudge.now"], ["team.nudge.second"])
    history = clinic.store.history(ada.conversation.id)
    assert replay(clinic.context, history.beginning, history.events) == ada.conversation


def test_what_waits_for_the_morning_is_lost_with_the_block(clinic: Clinic) -> None:
    """The sender is told at once, and the words do not come when the person is back."""
    marta, ada = clinic.member("Marta"), once_tested(clinic)
    clinic.waits(NIGHT)
    assert types(clinic, marta, ada, "repeat") == ["care.repeat.asked"]
    ada.blocks()
    assert marta.new() == ["care.blocked.lost"]
    ada.unblocks().new()
    clinic.waits(24 * 60)
    assert "team.repeat" not in ada.new()


def test_words_of_a_member_who_is_gone_are_told_to_the_others(clinic: Clinic) -> None:
    """Somebody hears of it."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis", Role.CLINICIAN)
    ada = once_tested(clinic)
    clinic.waits(NIGHT)
    assert types(clinic, marta, ada, "repeat") == ["care.repeat.asked"]
    marta.types("leave").taps("yes")
    luis.new()
    ada.blocks()
    assert luis.new() == ["care.blocked.lost"]


def test_a_result_is_closed_for_somebody_who_does_not_hear_of_it(clinic: Clinic) -> None:
    """Whoever opens or takes it reads that they have to call; the follow-up stands, unsaid."""
    marta, ada = clinic.member("Marta"), once_tested(clinic).blocks()
    marta.new()
    marta.types("take 1")
    assert marta.new()[-1] == "care.blocked.item"
    marta.types("close 1")
    assert marta.new()[-1] == "care.follow-up.ask.blocked"
    marta.taps("call")
    assert marta.new()[-1] == "care.blocked.not-told"
    assert clinic.inbox() == ()
    assert clinic.did()[-2:] == ["closed-item", "not-reached"]
    assert places(clinic)["ada"] == "first-test"
    ada.unblocks().new()
    clinic.waits(24 * 60)
    assert "team.seen" not in ada.new()


def test_a_follow_up_that_was_refused_is_told_to_whoever_closed_it(clinic: Clinic) -> None:
    """The block came between."""
    marta, ada = clinic.member("Marta"), once_tested(clinic)
    ada.blocked = True
    marta.types("take 1", "close 1").taps("call")
    assert "care.blocked.lost" in marta.new()


def test_what_the_team_sets_holds_and_is_not_said(clinic: Clinic) -> None:
    """A protocol is set all the same; the member reads that the person does not hear of it."""
    lind, ada = clinic.member("Lind", Role.CLINICIAN), once_tested(clinic).blocks()
    assert types(clinic, lind, ada, "test:six-readings") == [
        "care.protocol.set.untold", "care.blocked.not-told",
    ]  # fmt: skip
    assert ada.profile.protocol_by_team
    assert ada.profile.news == ()


def test_silence_of_a_blocked_chat_is_an_alarm_that_says_so(clinic: Clinic) -> None:
    """The prompts are still tried, once each; the room gets no reason beside the item's own."""
    marta, room = clinic.member("Marta"), room_of(clinic)
    ada = clinic.standing("ada")
    ada.blocked = True
    clinic.waits(30)
    alarm = [key for key in marta.new() if key.startswith("care.")]
    assert alarm[:4] == ["care.alarm.all", "care.item", "care.free", "care.blocked.item"]
    assert "care.alarm.all" in room.new()
    luis = clinic.member("Luis")
    luis.types("on duty")
    assert luis.new()[:4] == ["care.alarm.again", "care.item", "care.free", "care.blocked.item"]
    luis.types("inbox")
    assert luis.new() == ["care.inbox", "care.item", "care.free", "care.blocked.item"]
    says(clinic, room, ChoiceTapped(at=clinic.now, token="team:inbox"))
    assert "care.inbox" in room.read()
    assert "care.blocked.item" not in room.read()
    assert ada.events().count("DeliveryFailed") == 1, "one event, however many were refused"


def test_an_alarm_that_is_open_tells_of_the_block(clinic: Clinic) -> None:
    """Whoever has it hears at once that the chat no longer helps."""
    marta, ada = clinic.member("Marta"), clinic.standing("ada").types("stop")
    marta.taps("team:take:1")
    marta.new()
    ada.blocks()
    assert marta.new() == ["care.item", "care.yours", "care.blocked.item"]


def test_a_second_test_awaited_in_vain_is_told_once(clinic: Clinic) -> None:
    """However often they come and go in a week; not of whoever paused, or agreed to no team."""
    marta, ada = clinic.member("Marta"), once_tested(clinic)
    rests = clinic.measured("rests").taps("yes").taps("good").taps("none").types("pause")
    alone = once_tested(clinic, "alone")
    with clinic.store.unit() as unit:
        stored = unit.load(alone.address)
        assert stored is not None
        there = stored.conversation
        apart = replace(there, profile=replace(there.profile, team_since=None))
        event = Blocked(at=clinic.now)
        unit.save(stored, apart, event=event, effects=(), wake_at=None, logged=False)
    marta.new()
    for person in (ada, rests, alone):
        person.blocks().unblocks().blocks()
    assert marta.new() == ["care.blocked.second"]
    clinic.waits(8 * 24 * 60)
    marta.new()
    ada.unblocks().blocks()
    assert marta.new() == ["care.blocked.second"]


def test_the_board_says_who_has_blocked_the_bot_and_a_room_does_not(clinic: Clinic) -> None:
    """The reason stands beside who waits, with no reminder to tap; the digest names them."""
    marta, room = clinic.member("Marta"), room_of(clinic)
    ada = clinic.patient("ada", paused=True).blocks()
    clinic.waits(60)
    marta.new()
    marta.types("board")
    assert marta.new()[-1] == "care.blocked.people"
    marta.taps("team:stuck:consented")
    assert marta.new()[-1] == "care.stuck.line.blocked"
    last = [e for e in marta.got if isinstance(e, Say)][-1]
    assert not any("nudge" in button.token for row in last.choices for button in row)
    for token in ("team:board", "team:stuck:consented"):
        says(clinic, room, ChoiceTapped(at=clinic.now, token=token))
    assert "care.stuck.line.person" in room.read()
    assert not [key for key in room.read() if "blocked" in key]
    clinic.waits(7 * 24 * 60)
    assert "care.blocked.people" in marta.new()
    ada.blocked = False
    ada.types("where")
    marta.types("board")
    assert "care.blocked.people" not in marta.new()


def test_the_operator_reads_of_it(clinic: Clinic, operated: None) -> None:
    """In the table, in who waits, and for scripts."""
    clinic.patient("ada").blocks()
    run = CliRunner().invoke
    assert "1 has blocked the bot" in run(app, ["board"]).stdout
    assert json.loads(run(app, ["board", "--json"]).stdout)["blocked"] == 1
    waits = ["board", "--at", "consented"]
    assert "call them" in run(app, waits).stdout
    (first,) = json.loads(run(app, [*waits, "--json"]).stdout)
    assert first["blocked"] is True


def test_no_reminder_is_put_down_for_a_blocked_chat(clinic: Clinic) -> None:
    """Neither of a booking nor the question of the day after; once they write, they come again."""
    clinic.member("Marta")
    ada = clinic.patient("ada").types("tomorrow 15:00").taps("yes").blocks()
    ada.new()
    clinic.hold()
    clinic.waits(22 * 60)
    assert clinic.waiting_for(ada) == 0
    ada.blocked = False
    clinic.release()
    ada.types("where").new()
    clinic.waits(8 * 60)
    assert [key for key in ada.new() if key.startswith("reminder.")]


def test_a_member_who_blocks_the_bot_is_still_one(clinic: Clinic) -> None:
    """Nothing is said into a chat that is shut, and coming back asks for nothing."""
    marta = clinic.member("Marta")
    marta.blocks().unblocks()
    assert marta.new() == []
    assert len(clinic.team()) == 1


def test_a_stranger_who_blocks_the_bot_leaves_no_row(clinic: Clinic) -> None:
    """Nobody begins a conversation by that; before consent not even the block is kept."""
    assert not clinic.person("nobody").blocks().kept
    opens = clinic.person("opens").opens().blocks()
    assert opens.conversation.blocked_at is None
    assert opens.events() == []


def test_whose_rows_were_deleted_is_not_on_the_board(clinic: Clinic) -> None:
    """Their invitation was opened, so nobody calls about it; when, and by whom, is not kept."""
    marta, ada = clinic.member("Marta"), clinic.person("ada")
    invitation = clinic.invites("HS-7")
    clinic.waits(60)
    ada.opens(invitation.code).taps("yes").types("delete everything").taps("yes")
    assert places(clinic) == {}
    marta.new()
    marta.types("invitations")
    assert marta.new() == ["care.invitations.none"]
    marta.types("invite HS-7")
    assert "care.invitation.emptied" in marta.new()
    (kept,) = clinic.invitations()
    assert (kept.opened_at, kept.opened_by) == (kept.made_at, None)
    clinic.person("back").opens(invitation.code)
    assert places(clinic) == {"HS-7": "opened"}
    assert clinic.now - kept.made_at > timedelta(0)
