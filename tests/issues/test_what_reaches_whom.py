"""Who is reached by what: members in chats that are shut, references, and what is said of both."""

import pytest
from typer.testing import CliRunner

from bot.care.commands import Other, TakeItem, typed
from bot.care.roles import Role
from bot.cli import app
from bot.engine.effects import Say, Urgency
from bot.protocol.circumstances import Hazard
from tests.care.clinic import Clinic
from tests.care.recount import recounted
from tests.care.test_blocked import NIGHT, once_tested, types
from tests.care.test_board import places
from tests.companions.people import Person, link


def looked_at(clinic: Clinic) -> str | None:
    """Return whose page was seen last, as the log has it."""
    return [a.person for a in clinic.log() if a.did == "saw-person"][-1]


# -- alarms, where a member's chat takes no messages


def test_an_alarm_that_one_member_misses_is_told_to_the_others_once(clinic: Clinic) -> None:
    """They were told twice in one minute, the second time as "still nobody has taken it".

    And the reminder after five minutes was used up by that: the alarm fell silent at once.
    """
    marta, luis, nora = (clinic.member(name) for name in ("Marta", "Luis", "Nora"))
    nora.blocked = True
    ada = clinic.standing("ada").types("stop").taps("equipment")
    told = ["care.alarm.all", "care.item", "care.free"]
    assert (marta.new(), luis.new()) == (told, told)
    clinic.waits(5)
    again = ["care.alarm.again", "care.item", "care.free"]
    assert (marta.new(), luis.new()) == (again, again)
    assert clinic.did().count("alarm-unreached") == 2
    assert "stop.now" in ada.read()


def test_an_alarm_goes_on_at_once_where_all_of_its_rung_are_missed(clinic: Clinic) -> None:
    """Two were on duty and both chats are shut: the third does not wait for the clinic's time."""
    marta, luis, nora = (clinic.member(name) for name in ("Marta", "Luis", "Nora"))
    for shut in (marta, luis):
        shut.types("on duty")
        shut.blocked = True
    clinic.standing("ada").types("stop")
    assert nora.new() == ["care.alarm.next", "care.item", "care.free"]


def test_an_alarm_handed_to_a_chat_that_is_shut_comes_back(clinic: Clinic) -> None:
    """It stayed with somebody who never heard of it, and its ladder was over: nobody was told."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    clinic.standing("ada").types("stop").taps("equipment")
    marta.types("take 1")
    luis.blocked = True
    marta.taps("team:give:1")
    marta.new()
    marta.taps(f"team:give:1:{clinic.number_of('Luis')}")
    assert marta.new() == ["care.item", "care.taken", "care.alarm.all", "care.item", "care.free"]
    assert clinic.item().taken_by is None
    assert clinic.log()[-2].detail == f"unreached: {clinic.number_of('Luis')}"
    marta.types("take 1")
    assert marta.new() == ["care.item", "care.yours"]


def test_worse_news_for_a_chat_that_is_shut_reach_the_others(clinic: Clinic) -> None:
    """Whoever had the item was told alone, and did not hear it; the others heard nothing."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    ada = clinic.standing("ada").types("stop")
    marta.types("take 1").blocks()
    luis.new()
    ada.types("worse")
    assert luis.new() == ["care.alarm.all", "care.item", "care.free"]


def test_a_result_handed_to_a_chat_that_is_shut_is_told_to_the_others(clinic: Clinic) -> None:
    """It was out of everybody's sight, in the hands of somebody who did not know."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    once_tested(clinic)
    marta.types("take 1")
    luis.blocked = True
    marta.taps("team:give:1")
    marta.new()
    marta.taps(f"team:give:1:{clinic.number_of('Luis')}")
    assert marta.new() == ["care.item", "care.taken", "care.out-of-hands", "care.item", "care.free"]


def test_a_member_who_lets_the_bot_back_hears_of_open_alarms(clinic: Clinic) -> None:
    """All chats were shut as it was raised, and coming back said nothing of it."""
    marta = clinic.member("Marta")
    marta.blocked = True
    clinic.standing("ada").types("stop")
    clinic.waits(60)
    marta.unblocks()
    assert marta.new() == ["care.alarm.again", "care.item", "care.free"]


def test_an_alarm_does_not_end_in_silence_when_its_person_goes(clinic: Clinic) -> None:
    """A message from before was changed, which no phone rings for; nobody was asked to call."""
    marta = clinic.member("Marta")
    ada = clinic.standing("ada").types("stop")
    clinic.waits(30)
    marta.new()
    ada.types("delete everything").taps("yes")
    assert marta.new() == ["care.alarm.forgotten", "care.item", "care.taken-back"]
    said = marta.got[-1]
    assert isinstance(said, Say)
    assert said.urgency is Urgency.SAFETY


# -- references


def test_one_reference_names_one_person_for_every_command(clinic: Clinic) -> None:
    """The clinic's reference for Eve is how Dan's conversation begins, whom nobody has named.

    The page of one was shown, and the other was cleared.
    """
    lind = clinic.member("Lind", Role.CLINICIAN)
    eve, dan = clinic.measured("eve", hazards=(Hazard.PREGNANT,)), clinic.measured("dan")
    clinic.knows(eve, "dan00000")
    for text in ("dan00000", "person DAN00000"):
        lind.types(text)
        assert looked_at(clinic) == eve.conversation.id
    lind.types("clear Dan00000")
    assert (eve.profile.cleared_by, dan.profile.cleared_by) == ("Lind", None)


def test_a_reference_that_nobody_has_opened_is_nobody_else(clinic: Clinic) -> None:
    """Dan's conversation begins like it, and Dan was cleared in the place of whoever is awaited."""
    lind = clinic.member("Lind", Role.CLINICIAN)
    dan = clinic.patient("dan", hazards=(Hazard.PREGNANT,))
    clinic.invites("dan00000")
    lind.new()
    lind.types("clear dan00000")
    assert lind.new() == ["care.person.unopened"]
    assert dan.profile.cleared_by is None
    assert clinic.store.find("dan00000") is None


@pytest.mark.parametrize("reference", ["take-1", "TAKE_1", "open-1", "42", "7"])
def test_a_reference_alone_opens_a_page_whatever_else_it_looks_like(
    clinic: Clinic, reference: str
) -> None:
    """The first took an item of somebody else, and a number was not known at all."""
    marta, ada = clinic.member("Marta"), once_tested(clinic)
    clinic.knows(ada, reference)
    marta.types(reference)
    assert looked_at(clinic) == ada.conversation.id
    assert clinic.item().taken_by is None


@pytest.mark.parametrize("text", ["take 1", "Take 1.", "/take 1", "/take_1", "take #1", "tomar 1"])
def test_a_verb_and_a_number_stay_a_command(text: str) -> None:
    """Only one word alone is a reference."""
    assert typed(text) == TakeItem(1)
    assert typed("take-1") == Other("take-1")


def test_the_page_of_somebody_who_has_not_agreed_says_so(clinic: Clinic) -> None:
    """One line stood there, and no word why there is no more, and no button."""
    marta = clinic.member("Marta")
    clinic.invites("HS-7")
    marta.types("hs-7")
    assert marta.new()[-2:] == ["care.person", "care.person.unopened"]


# -- questions that can be answered


def test_nobody_is_asked_for_words_about_what_is_closed(clinic: Clinic) -> None:
    """An old button asked what follows, and the words were thrown away afterwards."""
    marta = clinic.member("Marta")
    once_tested(clinic)
    marta.types("take 1", "close 1")
    words = marta.token("other")
    marta.taps("call")
    marta.new()
    clinic.taps_unseen(marta, words)
    assert marta.new() == ["care.refused.closed", "care.item", "care.closed"]


def test_words_about_what_was_deleted_are_answered(clinic: Clinic) -> None:
    """They were answered by "I do not know that", though they had been asked for."""
    marta, ada = clinic.member("Marta"), once_tested(clinic)
    marta.types("take 1", "close 1").taps("other")
    ada.types("delete everything").taps("yes")
    marta.new()
    marta.types("We ring at noon.")
    assert marta.new() == ["care.no-such-item"]


def test_words_that_were_asked_for_the_team_stay_with_it(clinic: Clinic) -> None:
    """The clinic's file let own words out meanwhile, and the person was sent them."""
    clinic.allows(free_text=False)
    marta, ada = clinic.member("Marta"), once_tested(clinic)
    marta.types("take 1", "close 1").taps("other")
    assert marta.new()[-1] == "care.follow-up.words.team"
    clinic.allows(free_text=True)
    marta.types("x" * 501, "She sounded worried.")
    assert ada.read()[-2:] == ["team.seen", "team.next.other"]
    assert clinic.item().words == "She sounded worried."


def test_words_asked_for_while_a_chat_was_blocked_stay_with_the_team(clinic: Clinic) -> None:
    """The member had read that the person is not told; they came back, and were."""
    marta, ada = clinic.member("Marta"), once_tested(clinic).blocks()
    marta.types("take 1", "close 1").taps("other")
    ada.unblocks().types("where").new()
    marta.types("She sounded worried.")
    assert ada.new() == ["team.seen", "team.next.other"]


def test_two_members_ask_for_a_test_once(clinic: Clinic) -> None:
    """In the morning the person read the same twice."""
    marta, luis, ada = clinic.member("Marta"), clinic.member("Luis"), once_tested(clinic)
    clinic.waits(NIGHT)
    assert types(clinic, marta, ada, "repeat") == ["care.repeat.asked"]
    assert types(clinic, luis, ada, "repeat") == ["care.repeat.lately"]
    ada.new()
    clinic.waits(24 * 60)
    assert ada.new().count("team.repeat") == 1
    assert clinic.did().count("asked-repeat") == 1


def test_what_never_arrived_can_be_asked_again(clinic: Clinic) -> None:
    """A request that was lost with a block stands in no other one's way."""
    marta, ada = clinic.member("Marta"), once_tested(clinic)
    ada.blocked = True
    assert types(clinic, marta, ada, "repeat") == ["care.repeat.asked", "care.blocked.lost"]
    ada.unblocks()
    assert types(clinic, marta, ada, "repeat") == ["care.repeat.asked"]
    assert ada.read()[-1] == "team.repeat"


# -- somebody cleared who has blocked the bot


def cleared(clinic: Clinic, marta: Person) -> Person:
    """Return somebody whom the checklist holds back, and what is said so far is read."""
    ada = clinic.patient("ada", hazards=(Hazard.PREGNANT,))
    marta.new()
    return ada


def test_that_somebody_was_not_told_they_are_cleared_is_told(clinic: Clinic) -> None:
    """It said "The person is told", and the refusal was told to nobody."""
    lind = clinic.member("Lind", Role.CLINICIAN)
    ada = cleared(clinic, lind)
    ada.blocked = True
    lind.types(f"clear {ada.conversation.id}")
    assert lind.new() == ["care.cleared", "care.blocked.lost"]
    assert clinic.did()[-2:] == ["cleared-person", "not-reached"]


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ("clear", ["care.cleared.untold", "care.blocked.not-told"]),
        ("done", ["care.close.sure.untold"]),
        ("done:yes", ["care.close.done.untold", "care.blocked.not-told"]),
    ],
)
def test_nobody_reads_both_that_a_person_is_told_and_that_not(
    clinic: Clinic, what: str, said: list[str]
) -> None:
    """It said "They are told" right before "they do not hear of this"."""
    lind = clinic.member("Lind", Role.CLINICIAN)
    ada = cleared(clinic, lind).blocks()
    assert types(clinic, lind, ada, what) == said


def test_the_operator_hears_that_a_cleared_person_is_not_told(
    clinic: Clinic, operated: None
) -> None:
    """It said that they are told when the bot runs; they never were, and the log had it as said."""
    del operated
    marta = clinic.member("Marta")
    ada = cleared(clinic, marta).blocks()
    done = CliRunner().invoke(app, ["clear", ada.conversation.id, "--by", "Dr Lind"])
    assert done.exit_code == 0
    assert "do not hear of it" in done.stdout
    assert clinic.did()[-2:] == ["cleared-person", "not-reached"]
    marta.types(f"person {ada.conversation.id}")
    assert "care.person.said.lost" in marta.new()


# -- the log


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ("nudge:second", "care.nudge.paused"),
        ("repeat", "care.repeat.held"),
        ("done", "care.close.waiting"),
        ("series", "care.person.one-sent"),
    ],
)
def test_an_answer_that_tells_of_somebody_is_logged_as_a_look(
    clinic: Clinic, what: str, said: str
) -> None:
    """A member could learn of who has paused or has to be cleared, and no line said so."""
    lind = clinic.member("Lind", Role.CLINICIAN)
    held = (Hazard.PREGNANT,)
    ada = clinic.measured("ada", paused=True, hazards=held).taps("yes")
    before = len(clinic.log())
    assert types(clinic, lind, ada, what) == [said]
    (line,) = clinic.log()[before:]
    assert (line.did, line.person) == ("saw-person", ada.conversation.id)
    assert (line.detail or "").startswith("answered: ")


def test_a_question_which_one_is_no_look(clinic: Clinic) -> None:
    """It says nothing of the person."""
    lind, ada = clinic.member("Lind", Role.CLINICIAN), once_tested(clinic)
    before = len(clinic.log())
    assert types(clinic, lind, ada, "test") == ["care.protocol.ask"]
    assert len(clinic.log()) == before


# -- the board


def test_who_was_revoked_is_on_no_board(clinic: Clinic) -> None:
    """Counted once more from the rows, and equal."""
    marta = clinic.member("Marta")
    for reference in ("HS-7", "HS-8"):
        clinic.invites(reference)
    marta.types("revoke hs-7")
    found = {name: place for name, (place, _) in recounted(clinic.store, clinic.context).items()}
    assert found == places(clinic) == {"HS-8": "invited"}


def test_a_companion_who_agrees_to_a_test_of_their_own_is_counted(clinic: Clinic) -> None:
    """Their log begins before they agree, and what is counted once more left them out."""
    ada, bo = clinic.patient("ada"), clinic.person("bo")
    link(ada, bo, "all")
    assert places(clinic) == {"ada": "consented"}
    bo.types("start").taps("yes")
    found = [place for place, _ in recounted(clinic.store, clinic.context).values()]
    assert found == list(places(clinic).values()) == ["consented", "consented"]


# -- what whoever runs the bot reads


def test_the_operator_reads_what_they_can_choose(clinic: Clinic, operated: None) -> None:
    """Languages stood among the protocols that may be used, and days nobody had named."""
    del clinic, operated
    run = CliRunner().invoke
    wrong = run(app, ["invite", "HS-7", "--protocol", "seven"])
    assert str(wrong.exception) == (
        "The clinic does not offer this protocol. Use four-readings or six-readings."
    )
    assert "no such result was sent" in run(app, ["export", "--all"]).stderr


def test_a_place_where_nobody_waits_has_no_empty_table(clinic: Clinic, operated: None) -> None:
    """The words "invited: 0 wait" stood above a table without a row."""
    del clinic, operated
    done = CliRunner().invoke(app, ["board", "--at", "invited"])
    assert (done.exit_code, done.stdout) == (0, "invited: nobody waits.\n")
