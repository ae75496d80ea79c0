"""Settings that were not used, said too often, or taken as they came."""

from pathlib import Path

import pytest
from pydantic import ValidationError
from typer.testing import CliRunner

from bot.care.invitation import InvitationWanted
from bot.cli import app
from bot.errors import SettingsError
from bot.invitations import Invitations
from bot.resources import shipped
from bot.settings import Settings, load_settings
from bot.testing.memory import MemoryStore
from bot.testing.renew import played

SILENT = shipped("demo_scripts") / "goes-silent.txt"


def test_play_says_the_clinics_emergency_number(tmp_path: Path) -> None:
    """Once `play` spoke of the local number only, whatever was set."""
    done = CliRunner().invoke(
        app,
        ["play", str(SILENT), "--results", str(tmp_path)],
        env={"WALLSIDE_EMERGENCY_NUMBER": "112"},
    )
    assert done.exit_code == 0
    assert "Emergency number: 112" in done.stdout


def test_demo_scripts_are_the_same_wherever_they_are_played(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What is set where the tests run has no say in the golden conversations."""
    monkeypatch.setenv("WALLSIDE_EMERGENCY_NUMBER", "112")
    assert played(SILENT, MemoryStore()) == SILENT.read_text(encoding="utf-8")


def test_bad_setting_is_said_once() -> None:
    """One bad setting showed three times, as if folder and database were broken as well."""
    done = CliRunner().invoke(app, ["check"], env={"WALLSIDE_SPEED": "fast"})
    assert done.exit_code == 1
    assert done.stdout.count("WALLSIDE_SPEED") == 1
    assert done.stdout.count("NOT OK") == 1


@pytest.mark.parametrize(
    "name", ["@harbour_street_bot", " @harbour_street_bot ", "harbour_street_bot"]
)
def test_at_sign_of_the_bots_name_is_dropped(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """With an @ the invitation led nowhere."""
    monkeypatch.setenv("WALLSIDE_BOT_NAME", name)
    assert Settings().bot_name == "harbour_street_bot"


@pytest.mark.parametrize(
    "reference", ["Ana Lopez", "Lopez", "HS 42", "HS-42 Ana", "", "a@b1.org", "Ñ1"]
)
def test_reference_that_may_be_a_name_is_refused(reference: str, tmp_path: Path) -> None:
    """A name was taken, and would have stood in links, files and lists."""
    with pytest.raises(SettingsError, match="never a name"):
        Invitations(Settings(folder=tmp_path, bot_name="harbour_street_bot")).invite(
            InvitationWanted(reference=reference)
        )
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("reference", ["HS-0042", "42", "p_7", "a1"])
def test_opaque_reference_is_taken(reference: str, tmp_path: Path) -> None:
    """What says nothing of the person is good."""
    assert (
        Invitations(Settings(folder=tmp_path, bot_name="harbour_street_bot"))
        .invite(InvitationWanted(reference=reference))
        .invitation.reference
        == reference
    )


@pytest.mark.parametrize("field", list(Settings.model_fields))
def test_setting_that_cannot_be_used_is_said_in_plain_words(
    field: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The library's words were shown: "String should match pattern '^$|…'"."""
    monkeypatch.setenv(f"WALLSIDE_{field.upper()}", "?!")
    try:
        Settings()
    except ValidationError:
        with pytest.raises(SettingsError, match=rf"WALLSIDE_{field.upper()} has to be [a-z]"):
            load_settings()
    else:
        assert load_settings() == Settings()


def test_check_looks_at_every_bot_of_several(tmp_path: Path) -> None:
    """With WALLSIDE_BOTS only the settings that all share were looked at."""
    for name in ("harbour", "hill"):
        lines = f"WALLSIDE_TOKEN={name}:a\nWALLSIDE_FOLDER={tmp_path / name}\n"
        (tmp_path / f"{name}.env").write_text(lines, encoding="utf-8")
    (tmp_path / "hill").mkdir()
    (tmp_path / "hill" / "clinic.toml").write_text("[clinic]\nnaem = 'Hill'\n", encoding="utf-8")
    done = CliRunner().invoke(app, ["check"], env={"WALLSIDE_BOTS": str(tmp_path)})
    bad = [line.split(":")[0] for line in done.stdout.splitlines() if line.startswith("NOT OK")]
    assert bad == ["NOT OK  hill, clinic's file"]
    assert "harbour, clinic's file" in done.stdout


def test_board_says_where_its_picture_is(tmp_path: Path) -> None:
    """It was written without a word."""
    picture = tmp_path / "board.png"
    done = CliRunner().invoke(
        app, ["board", "--picture", str(picture)], env={"WALLSIDE_FOLDER": str(tmp_path)}
    )
    assert picture.is_file()
    assert f"The picture is in {picture}" in done.stderr


def test_audit_log_cuts_nothing_off_on_a_narrow_screen(tmp_path: Path) -> None:
    """What was done showed as "revoked-invitat…" at 80 columns."""
    environment = {
        "WALLSIDE_FOLDER": str(tmp_path),
        "WALLSIDE_BOT_NAME": "harbour_street_bot",
        "COLUMNS": "60",
    }
    for command in (["invite", "HS-0042"], ["invite", "revoke", "HS-0042"]):
        CliRunner().invoke(app, command, env=environment)
    shown = CliRunner().invoke(app, ["audit"], env=environment).stdout
    assert "…" not in shown
    assert "operator" in shown
