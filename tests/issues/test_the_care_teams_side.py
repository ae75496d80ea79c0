"""What coordinators on a phone, and whoever runs the bot, met and should not have."""

import json
import re
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bot.care.commands import AddMember, ClearPerson, Command, ExportPerson, typed
from bot.care.invitation import InvitationWanted, Unwanted
from bot.care.invite_rows import read_rows
from bot.care.invite_words import Invite, RevokeInvitation, SendAgain
from bot.care.overview import length
from bot.care.people_commands import SeePerson
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.cli import app
from bot.clinic.file import read_clinic
from bot.clinic.form import Clinic as Form
from bot.clinic.weakening import weakened
from bot.engine.effects import Say
from bot.engine.events import ChoiceTapped, Opened, WordsEdited
from bot.errors import SettingsError
from bot.protocol.circumstances import Hazard
from bot.texts import LANGUAGES
from tests.care.clinic import Clinic
from tests.care.test_room import room_of, says
from tests.companions.people import Person


def about(person: Person, does: str) -> str:
    """Return the token of a button on somebody's page."""
    return f"team:who:{person.conversation.id}:{does}"


# -- nobody is asked for a test who needs help first


def test_nobody_is_asked_for_a_repeat_while_their_alarm_is_open(clinic: Clinic) -> None:
    """Somebody who does not answer hears of no new test, also an hour later."""
    marta, ada = clinic.member("Marta"), clinic.standing("ada")
    ada.types("I am going to faint")
    marta.new()
    clinic.taps_unseen(marta, about(ada, "repeat"))
    assert marta.new() == ["care.repeat.alarm"]
    clinic.waits(180)
    assert "team.repeat" not in ada.read()
    assert "asked-repeat" not in clinic.did()


def test_nobody_is_asked_for_a_repeat_who_has_to_be_cleared(clinic: Clinic) -> None:
    """The clinician comes first: no button to book is sent past the checklist."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada", hazards=(Hazard.PREGNANT,)).taps("no")
    marta.new()
    clinic.taps_unseen(marta, about(ada, "repeat"))
    assert marta.new() == ["care.repeat.held"]
    assert "team.repeat" not in ada.read()


def test_a_repeat_that_waited_is_not_asked_after_words_of_safety(clinic: Clinic) -> None:
    """It was asked for before the person nearly fainted, and said "no test today" to them."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    ada.types("start").taps("now").types("yes").taps("done").taps("go").taps("there")
    clinic.taps_unseen(marta, about(ada, "repeat"))
    assert [news.test for news in ada.profile.news] == [None]
    ada.types("I am going to faint")
    assert ada.profile.news == ()
    clinic.waits(600)
    assert "team.repeat" not in ada.read()


# -- an alarm that everybody has missed


def test_whoever_comes_on_duty_hears_of_alarms_that_nobody_has_taken(clinic: Clinic) -> None:
    """The night's alarm is said to the morning's shift without their asking."""
    marta, ada = clinic.member("Marta"), clinic.standing("ada")
    ada.types("I am going to faint")
    clinic.waits(600)
    marta.new()
    marta.types("on duty")
    assert marta.new() == ["care.alarm.again", "care.item", "care.free", "care.duty.on"]
    marta.types("take 1", "off duty")
    marta.new()
    marta.types("on duty")
    assert marta.new() == ["care.duty.on"]


def test_whoever_joins_hears_of_alarms_that_nobody_has_taken(clinic: Clinic) -> None:
    """Nobody was in the team as it was raised, so nobody was told; a group is told as well."""
    clinic.standing("ada").types("I am going to faint")
    clinic.waits(60)
    zoe = clinic.person("zoe").opens(clinic.code(label="Zoe"))
    assert "care.alarm.again" in zoe.new()
    assert "came: 1" in [audit.detail for audit in clinic.log()]
    room = clinic.person("room")
    says(clinic, room, Opened(at=clinic.now, code=clinic.code(label="Room")))
    assert "care.alarm.again" in room.new()


# -- whose numbers these are


def test_files_and_comparisons_say_first_whose_they_are(clinic: Clinic) -> None:
    """A member who opens two people's pages after each other cannot take one for the other."""
    marta, ada = clinic.member("Marta"), clinic.measured("ada").taps("always").taps("good")
    ada.taps("none")
    clinic.waits(24 * 60)
    clinic.repeats(ada)
    for does, said in (("files", "care.person.files"), ("series", "care.person.series")):
        marta.got.clear()
        clinic.taps_unseen(marta, about(ada, does))
        (head,) = [e for e in marta.got if isinstance(e, Say)]
        assert marta.got[0] == head
        assert [part.key for part in head.parts] == [said, "care.papers"]
        assert head.parts[0].params["reference"] == "ada00000"


# -- words are sent whole or not at all


def test_words_that_are_too_long_are_not_cut_off(clinic: Clinic) -> None:
    """Half a sentence may say the opposite; the member types it again, shorter."""
    marta, ada = clinic.member("Marta"), clinic.patient("ada")
    clinic.taps_unseen(marta, about(ada, "write:words"))
    marta.new()
    marta.types("Take all of them as ever " * 21)
    assert marta.new() == ["care.words.too-long"]
    marta.types("Take all of them as ever")
    assert marta.new() == ["care.write.sent"]
    assert [news.words for news in ada.profile.news] == ["Take all of them as ever"]


def test_a_follow_up_that_is_too_long_is_not_cut_off(clinic: Clinic) -> None:
    """Nothing is closed by it, and the question stays open."""
    marta = clinic.member("Marta")
    clinic.measured("ada").taps("yes")
    marta.types("take 1", "close 1").taps("other")
    marta.new()
    marta.types("x" * 501)
    assert (marta.new(), clinic.item().is_open) == (["care.words.too-long"], True)
    marta.types("x" * 500)
    assert clinic.item().words == "x" * 500


def test_a_member_hears_that_the_person_does_not_get_their_words(clinic: Clinic) -> None:
    """Where the clinic allows no own words, a follow-up in words is for the team."""
    clinic.allows(free_text=False)
    marta, ada = clinic.member("Marta"), clinic.measured("ada").taps("yes")
    marta.types("take 1", "close 1").taps("other")
    assert marta.new()[-1] == "care.follow-up.words.team"
    marta.types("Please ring at noon")
    assert ada.read()[-2:] == ["team.seen", "team.next.other"]


def test_a_changed_message_leaves_open_what_was_asked(clinic: Clinic) -> None:
    """It is said that it was not read; the words that come next are still sent."""
    marta, ada = clinic.member("Marta"), clinic.patient("ada")
    clinic.taps_unseen(marta, about(ada, "write:words"))
    marta.new()
    clinic.arrives(marta.address, WordsEdited(at=clinic.now, text="inbox", source="9"), "en")
    assert marta.new() == ["care.only-words"]
    marta.types("See you soon")
    assert marta.new() == ["care.write.sent"]
    assert [news.words for news in ada.profile.news] == ["See you soon"]


# -- references as phones write them


@pytest.mark.parametrize(
    ("text", "command"),
    [
        ("person HS-7.", SeePerson("HS-7")),
        ("/person HS-7", SeePerson("HS-7")),
        ("Persona: HS-7", SeePerson("HS-7")),
        ("Clear HS-7!", ClearPerson("HS-7")),
        ("exportar HS-7,", ExportPerson("HS-7")),
        ("resend HS-7.", SendAgain("HS-7")),
        ("add coordinator  Ann   Lee  ", AddMember(Role.COORDINATOR, "Ann Lee")),
        ("Anular HS-7...", RevokeInvitation("HS-7")),
        ("Invite HS-7.", Invite(InvitationWanted(reference="HS-7"))),
        ("Invite HS-7 spanish.", Invite(InvitationWanted(reference="HS-7", language="es"))),
    ],
)
def test_what_phones_put_behind_a_name_is_no_part_of_it(text: str, command: Command) -> None:
    """A full stop comes by itself behind two blanks; a slash is how a bot is spoken to."""
    assert typed(text) == command


def test_a_reference_is_known_however_it_is_written(clinic: Clinic) -> None:
    """To clear and to export, as to open a page: HS-7 and hs-7 are one."""
    marta = clinic.member("Marta", Role.CLINICIAN)
    ada = clinic.measured("ada").taps("yes")
    clinic.knows(ada, "HS-7")
    marta.new()
    marta.types("clear hs-7", "export Hs-7")
    assert marta.new() == ["care.clear.needless", "care.export"]
    assert clinic.store.find("hs-7") == ada.conversation.id


def test_a_line_of_a_table_with_several_faults_has_all_of_them_named() -> None:
    """Whoever mends one does not meet the next at the next try."""
    table = read_rows(b"reference,language,protocol\nHS-1,xx,7\n", CareRules(), ())
    assert [(wrong.line, wrong.why) for wrong in table.wrong] == [
        (2, Unwanted.PROTOCOL), (2, Unwanted.LANGUAGE),
    ]  # fmt: skip


# -- what a group may know


def test_a_group_does_not_hear_who_has_to_be_cleared_or_has_paused(clinic: Clinic) -> None:
    """Both tell of somebody's illness or rest; alone, a member sees them."""
    marta, room = clinic.member("Marta"), room_of(clinic)
    clinic.patient("ada", hazards=(Hazard.PREGNANT,))
    clinic.patient("bea", paused=True)
    clinic.waits(60)
    says(clinic, room, ChoiceTapped(at=clinic.now, token="team:stuck:consented"))
    assert room.new()[2:] == ["care.stuck.line.person"] * 2
    marta.new()
    clinic.taps_unseen(marta, "team:stuck:consented")
    assert marta.new()[2:] == ["care.stuck.line.held", "care.stuck.line.paused"]


# -- the team and its names


def test_two_members_never_have_one_name(clinic: Clinic) -> None:
    """Two codes for one name were made; else nobody knows who has an item."""
    codes = [clinic.code(label="Marta") for _ in range(3)]
    for name, code in zip("abc", codes, strict=True):
        clinic.person(name).opens(code)
    assert [m.label for m in clinic.team()] == ["Marta", "Marta 2", "Marta 3"]
    again = clinic.code(label="marta")
    clinic.people["test:c"].opens(again)
    assert [m.label for m in clinic.team()] == ["Marta", "Marta 2", "marta 3"]


@pytest.mark.parametrize(
    ("waited", "words"),
    [
        (timedelta(), "0 min"),
        (timedelta(minutes=59, seconds=59), "59 min"),
        (timedelta(hours=1), "1 h"),
        (timedelta(hours=23, minutes=59), "23 h"),
        (timedelta(days=2, hours=3), "2 d"),
    ],
)
def test_less_than_an_hour_is_told_in_minutes(waited: timedelta, words: str) -> None:
    """An alarm that has waited 50 minutes has not waited "0 h"."""
    assert length(waited) == words


# -- a clinic's own words


@pytest.mark.parametrize(
    "words",
    ["Please stop your tablets.", "Don’t take them today.", "Hold off the morning one.",
     "No se tome la pastilla.", "Interrumpa el tratamiento.", "Deje de tomarla."],
)  # fmt: skip
def test_a_message_that_tells_to_stop_a_medicine_is_called_out(words: str) -> None:
    """In a template as in a plan, however it is put."""
    written = dict.fromkeys(LANGUAGES, words)
    said = [line for line in weakened(Form(templates={"rest": written})) if "templates" in line]
    assert said == [
        "templates.rest seems to tell people to stop a medicine. Have a clinician sign that."
    ]


@pytest.mark.parametrize(
    "words",
    ["Do not stop your tablets.", "Never stop one by yourself.", "Don’t skip any.",
     "No deje de tomarlas.", "Please call us: 555 0142."],
)  # fmt: skip
def test_a_message_that_tells_not_to_stop_is_not_called_out(words: str) -> None:
    """It is what we say ourselves; a warning there would teach to pass over warnings."""
    written = dict.fromkeys(LANGUAGES, words)
    assert not [line for line in weakened(Form(templates={"rest": written})) if "medicine" in line]


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("[clinic]\nname = 5",
         'write words between quotation marks, such as "Harbour Street Clinic".'),
        ("[clinic]\nlanguages = 'en'", 'write a list in brackets, such as ["en", "es"].'),
        ("[consent]\nversion = 0", "the least is 1."),
        ("[consent]\nversion = 1.5", "write a whole number."),
        ("[team]\non = 'maybe'", "write true or false."),
        ("[team]\ndigest_at = '25:00'", "write a time of day like 08:30."),
        ("[team]\nnudge_gap = '1 hour'", "the least is 1 day."),
        ("[invitations]\ngood_for = '99 weeks'", "the most is 365 days."),
        ("[templates]\nrest = 'x'",
         'write a line for each language, such as en = "…", under its own heading.'),
    ],
)  # fmt: skip
def test_what_is_wrong_in_the_clinics_file_is_said_in_plain_words(
    written: str, said: str, tmp_path: Path
) -> None:
    """What to write, and never what the program calls it."""
    file = tmp_path / "clinic.toml"
    file.write_text(written, encoding="utf-8")
    with pytest.raises(SettingsError) as caught:
        read_clinic(file)
    assert str(caught.value).partition(": ")[2].partition(": ")[2] == said


def test_words_that_lack_a_language_of_the_clinics_are_called_out() -> None:
    """Somebody who chose Spanish would be sent English; nothing is said where all is there."""
    said = list(weakened(Form(templates={"rest": {"en": "Rest well."}})))
    assert [line for line in said if " es" in line] == [
        "templates.rest has no words in es; people with that language get them in another."
    ]
    whole = Form(templates={"rest": {"en": "Rest well.", "es": "Descanse bien."}})
    assert not [line for line in weakened(whole) if "templates" in line]


# -- the command line


@pytest.fixture
def wallside(operated: None) -> CliRunner:
    """Return the command line, on the clinic's database."""
    del operated
    return CliRunner()


def test_nobody_of_that_reference_is_exit_code_three(wallside: CliRunner) -> None:
    """As for every other command about somebody; one is for what has to be put right."""
    done = wallside.invoke(app, ["clear", "HS-9", "--by", "Dr Lind"])
    assert (done.exit_code, done.stdout) == (3, "")
    assert done.stderr.startswith("Nobody here has the reference 'HS-9'. ")


@pytest.mark.parametrize("command", ["check", "missing"])
def test_what_scripts_ask_for_regularly_comes_as_json(wallside: CliRunner, command: str) -> None:
    """Both answer with a list."""
    done = wallside.invoke(app, [command, "--json"])
    assert isinstance(json.loads(done.stdout), list)


def test_a_day_that_cannot_be_read_is_said_in_plain_words(wallside: CliRunner) -> None:
    """It is shown how a day is written, and not how the program reads one."""
    for command in (["audit", "--since", "03/01"], ["export", "--from", "x", "--to", "2026-03-01"]):
        done = wallside.invoke(app, command)
        assert done.exit_code == 2
        assert "write a day like 2026-03-01" in done.stderr
        assert "%Y" not in done.stderr


def test_somebody_whom_nothing_holds_back_is_not_cleared(
    clinic: Clinic, wallside: CliRunner
) -> None:
    """The operator hears so, as a member does; nothing is logged, and nobody is told."""
    ada = clinic.patient("ada")
    done = wallside.invoke(app, ["clear", ada.conversation.id, "--by", "Dr Lind"])
    assert (done.exit_code, done.stdout) == (0, f"Nothing holds {ada.conversation.id} back.\n")
    assert "cleared-person" not in clinic.did()


def test_a_note_that_is_too_long_is_named_as_that(wallside: CliRunner) -> None:
    """It is no matter of what the clinic offers."""
    done = wallside.invoke(app, ["invite", "HS-7", "--note", "x" * 201])
    assert str(done.exception) == "The note is too long. Say it in fewer words."


def test_a_name_that_two_have_is_asked_for_by_number(clinic: Clinic, wallside: CliRunner) -> None:
    """Labels of former times may be the same; nobody is removed by chance."""
    for name in ("Nora", "Elena"):
        clinic.member(name)
    team = clinic.team()
    with clinic.store.unit() as unit:
        for member in team:
            unit.care.save_member(replace(member, label="Nora"))
    done = wallside.invoke(app, ["team", "remove", "Nora"])
    assert (done.exit_code, done.stderr) == (
        2,
        "'Nora' is more than one. Say the number: 1 or 2.\n",
    )
    assert len(clinic.team()) == 2


def test_tables_show_what_was_typed_whole(
    clinic: Clinic, wallside: CliRunner, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Brackets are no markup, and a narrow screen cuts nothing off."""
    for label in ("Ann [nurse] [/x]", "a" * 40):
        clinic.member(label)
    monkeypatch.setenv("COLUMNS", "40")
    done = wallside.invoke(app, ["team", "list"])
    cells = [line.split("│")[2].strip() for line in done.stdout.splitlines() if "│" in line]
    assert "".join(cells).replace(" ", "") == "Ann[nurse][/x]" + "a" * 40


def test_work_that_nobody_watches_prints_no_bar(
    clinic: Clinic, wallside: CliRunner, tmp_path: Path
) -> None:
    """Piped, a backup says one line, and nothing on standard error."""
    del clinic
    done = wallside.invoke(app, ["backup", f"{tmp_path}/monday.backup"])
    assert (done.exit_code, done.stderr) == (0, "")


def test_every_command_shows_an_example() -> None:
    """Whoever asks for help sees what to type."""
    names = re.findall(r"│ ([a-z][a-z-]+) ", CliRunner().invoke(app, ["--help"]).stdout)
    assert "check" in names
    lacking = [
        name
        for name in names
        if name != "team" and "Example: " not in CliRunner().invoke(app, [name, "--help"]).stdout
    ]
    assert lacking == []


def test_one_person_is_one_person(clinic: Clinic, wallside: CliRunner) -> None:
    """The board's title counts as people do."""
    clinic.patient("ada")
    assert "Board, 1 person" in wallside.invoke(app, ["board"]).stdout
