"""Settings that were not used, said too often, or taken as they came."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from bot.care.invitation import InvitationWanted
from bot.cli import app
from bot.errors import SettingsError
from bot.invitations import Invitations
from bot.resources import shipped
from bot.settings import Settings
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
