"""The audit log: every look and every change, nothing of readings or words, and nobody edits it."""

import json

import pytest
from sqlalchemy.exc import DatabaseError
from typer.testing import CliRunner, Result

from bot.care_cli import NOT_THERE
from bot.cli import app
from tests.care.clinic import Clinic


@pytest.fixture
def wallside(operated: None) -> CliRunner:
    """Return what runs commands on the clinic's own database."""
    del operated
    return CliRunner()


def run(wallside: CliRunner, words: str) -> Result:
    """Run a command of the program."""
    return wallside.invoke(app, words.split())


def test_every_look_and_change_is_logged_with_who_and_whom(clinic: Clinic) -> None:
    """Opening, taking and closing name the member, the person and the item."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes")
    marta.types("inbox", "open 1", "take 1", "open 1").taps("team:close:1")
    marta.taps("team:close:1:formal")
    person, me = ada.conversation.id, clinic.number_of("Marta")
    lines = [(a.who, a.did.value, a.person, a.item, a.detail) for a in clinic.log()]
    assert lines == [
        (0, "made-code", None, None, "coordinator"),
        (me, "joined", None, None, "coordinator"),
        (-1, "result-sent", person, 1, "soon"),
        (me, "saw-inbox", None, None, None),
        (me, "opened-result", person, 1, "1"),
        (me, "took-item", person, 1, None),
        (me, "opened-result", person, 1, "1"),
        (me, "closed-item", person, 1, "formal"),
    ]


def test_the_log_holds_no_reading_and_nobodys_words(clinic: Clinic) -> None:
    """Numbers that were measured and words that were typed stand nowhere in it."""
    marta = clinic.member("Marta")
    clinic.standing("ada").types("dizzy 4 zebra", "I am about to faint")
    marta.types("take 1").types("close 1").taps("other").types("Ask about giraffe")
    text = str(clinic.log())
    assert not any(word in text for word in ("120", "118", "76", "zebra", "giraffe", "dizzy"))


@pytest.mark.parametrize("statement", ["UPDATE audit SET who = 9", "DELETE FROM audit"])
def test_the_database_refuses_to_change_the_log(clinic: Clinic, statement: str) -> None:
    """Neither an update nor a deletion of the log is possible, by whatever program."""
    clinic.member("Marta")
    before = clinic.log()
    with (
        pytest.raises(DatabaseError, match="only ever added to"),
        clinic.store.engine.begin() as connection,
    ):
        connection.exec_driver_sql(statement)
    assert clinic.log() == before


def test_the_commands_add_list_and_remove(
    clinic: Clinic, wallside: CliRunner, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A code with link and picture, a table, JSON for scripts, telling exit codes."""
    monkeypatch.setattr("bot.care_cli._now", lambda _: clinic.now)
    made = run(wallside, "team add --role clinician --label Nora")
    assert made.exit_code == 0
    code = next(r.split()[1] for r in made.stdout.splitlines() if r.startswith("Code"))
    assert f"https://t.me/harbour_street_bot?start={code}" in made.stdout
    assert "█" in made.stdout
    clinic.person("Nora").opens(code)
    assert run(wallside, "team add --label nora").exit_code == 1
    (nora,) = json.loads(run(wallside, "team list --json").stdout)
    assert (nora["label"], nora["role"], nora["on_duty"]) == ("Nora", "clinician", False)
    assert "Nora" in run(wallside, "team list").stdout
    gone = run(wallside, "team remove Bea")
    assert (gone.exit_code, "Bea" in gone.stderr) == (NOT_THERE, True)
    assert run(wallside, "team remove Nora").exit_code == 0
    assert clinic.team() == ()
    assert run(wallside, "team list --json").stdout.strip() == "[]"
    (was,) = json.loads(run(wallside, "team list --all --json").stdout)
    assert was["removed_at"] == clinic.now.isoformat()
    assert run(wallside, "team add").exit_code == 2
    group = json.loads(run(wallside, "team add --room --label Room --json").stdout)
    assert f"?startgroup={group['code']}" in group["link"]


def test_the_audit_command_shows_and_filters(clinic: Clinic, wallside: CliRunner) -> None:
    """By person, by day, so many lines; reading it is logged too; unknown people are named."""
    clinic.member("Marta").types("inbox")
    ada = clinic.measured("ada", reference="HS-0042")
    clinic.knows(ada, "HS-0042")
    ada.taps("yes")
    lines = json.loads(run(wallside, "audit --person HS-0042 --json").stdout)
    assert [(line["did"], line["person"]) for line in lines] == [("result-sent", "HS-0042")]
    (newest,) = json.loads(run(wallside, "audit --last 1 --json").stdout)
    assert (newest["who"], newest["did"]) == ("operator", "read-audit")
    assert json.loads(run(wallside, "audit --since 2099-01-01 --json").stdout) == []
    shown = run(wallside, "audit").stdout
    assert "Marta" in shown
    assert "saw-inbox" in shown
    nobody = run(wallside, "audit --person HS-9")
    assert (nobody.exit_code, "HS-9" in nobody.stderr) == (NOT_THERE, True)


@pytest.mark.parametrize("command", ["team add", "team list", "team remove", "audit"])
def test_the_help_of_each_command_shows_an_example(wallside: CliRunner, command: str) -> None:
    """Somebody who asks for help sees a line that they can type."""
    shown = run(wallside, f"{command} --help").stdout
    assert f"Example: wallside {command}" in " ".join(shown.split())
