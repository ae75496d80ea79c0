"""The operator's command: whose tests go out, which days, and what it says and leaves behind."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bot.cli import app
from bot.engine.effects import Form
from bot.errors import ExportError
from bot.exporting import Plan, Wanted, entries, gather, pack, release
from tests.care.clinic import Clinic
from tests.exporting.looking import export, exported

pytestmark = pytest.mark.usefixtures("operated")

TABLE = ("--form", "csv")


def sent(clinic: Clinic, *names: str) -> None:
    """Let people finish a test and send it."""
    for name in names:
        clinic.knows(clinic.measured(name, reference=f"HS-{name}").taps("yes"), f"HS-{name}")


def people(files: dict[str, bytes]) -> set[str]:
    """Return who is in an export."""
    return {one["person"] for one in json.loads(files["manifest.json"])["people"]}


def test_the_same_facts_give_the_same_bytes_that_only_the_owner_reads(
    clinic: Clinic, tmp_path: Path
) -> None:
    """Made twice, a file is the same to the byte, and its mode is 0600."""
    sent(clinic, "ada")
    first, second = tmp_path / "1.zip", tmp_path / "2.zip"
    exported(*TABLE, "--all", out=first)
    exported(*TABLE, "--all", out=second)
    assert first.read_bytes() == second.read_bytes()
    assert first.stat().st_mode & 0o777 == 0o600


def test_one_or_several_references_are_exported_and_nobody_else(
    clinic: Clinic, tmp_path: Path
) -> None:
    """Each reference that is named is in it, and the log has a line for each person."""
    sent(clinic, "ada", "bea", "cleo")
    files = exported(*TABLE, "--reference", "HS-ada", "--reference", "HS-cleo", out=tmp_path / "z")
    assert people(files) == {"HS-ada", "HS-cleo"}
    assert json.loads(files["manifest.json"])["asked_for"]["references"] == ["HS-ada", "HS-cleo"]
    lines = [audit for audit in clinic.log() if audit.did == "exported"]
    assert [(line.who, line.person, line.detail) for line in lines] == [
        (0, "ada000000000", "1"),
        (0, "cleo00000000", "1"),
    ]


def test_days_are_those_of_the_clinics_zone(
    clinic: Clinic, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A test that begins on 2 March at 9:00 in UTC began on 1 March in Niue, 11 hours behind."""
    sent(clinic, "ada")
    day = (*TABLE, "--from", "2026-03-01", "--to", "2026-03-01")
    assert export(*day, out=tmp_path / "utc").exit_code == 3
    monkeypatch.setenv("WALLSIDE_CLINIC_ZONE", "Pacific/Niue")
    assert people(exported(*day, out=tmp_path / "niue")) == {"HS-ada"}
    after = (*TABLE, "--from", "2026-03-02")
    assert export(*after, out=tmp_path / "after").exit_code == 3


def test_what_is_taken_back_is_in_no_export_and_opens_no_more(
    clinic: Clinic, tmp_path: Path
) -> None:
    """A person withdraws: the team still sees that there was something, and none of its numbers."""
    marta = clinic.member("Marta")
    sent(clinic, "ada", "bea")
    assert people(exported(*TABLE, "--all", out=tmp_path / "1")) == {"HS-ada", "HS-bea"}
    ada = clinic.people["test:ada"]
    ada.types("good", "none", "sharing")
    clinic.taps_unseen(ada, "sharing:back")
    assert people(exported(*TABLE, "--all", out=tmp_path / "2")) == {"HS-bea"}
    done = export(*TABLE, "--reference", "HS-ada", out=tmp_path / "3")
    assert (done.exit_code, (tmp_path / "3").exists()) == (3, False)
    marta.got.clear()
    marta.types("open 1", "export HS-ada")
    assert marta.read()[-2:] == ["care.taken-back", "care.export.nothing"]


def test_what_is_taken_back_while_the_files_are_made_does_not_go_out(
    clinic: Clinic, tmp_path: Path
) -> None:
    """Right before the file gets its name it is looked at once more; nothing of it is left."""
    sent(clinic, "ada")
    chosen = gather(clinic.store, Wanted())
    plan = Plan(forms=(Form.CSV,))

    def takes_back(_: int) -> None:
        clinic.taps_unseen(clinic.people["test:ada"], "sharing:back")

    with pytest.raises(ExportError, match="Run it again"):
        pack(
            tmp_path / "a.zip",
            entries(chosen.people, plan, takes_back),
            lambda: release(clinic.store, chosen.people, clinic.now, research=False),
        )
    assert list(tmp_path.iterdir()) == []
    assert "exported" not in clinic.did()


def test_a_file_is_written_over_only_by_force(clinic: Clinic, tmp_path: Path) -> None:
    """What is there stays as it is, unless that is said; nothing is logged that did not go out."""
    sent(clinic, "ada")
    out = tmp_path / "a.zip"
    out.write_text("mine")
    refused = export(*TABLE, "--all", out=out)
    assert isinstance(refused.exception, ExportError)
    assert (out.read_text(), clinic.did().count("exported")) == ("mine", 0)
    assert people(exported(*TABLE, "--all", "--force", out=out)) == {"HS-ada"}
    assert [path.name for path in tmp_path.iterdir()] == ["a.zip"]


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        ((), 2),
        (("--all", "--from", "2026-03-01"), 2),
        (("--from", "2026-03-02", "--to", "2026-03-01"), 2),
        (("--from", "yesterday"), 2),
        (("--all", "--key-file", "study.key"), 2),
        (("--all", "--research", "--key-file", "no-such.key"), 1),
    ],
)
def test_a_command_that_is_not_right_does_nothing(
    tmp_path: Path, arguments: tuple[str, ...], code: int
) -> None:
    """2 for a command that is not right, 1 for a file that is not there."""
    done = export(*arguments, out=tmp_path / "a.zip")
    assert (done.exit_code, done.stdout) == (code, "")
    assert list(tmp_path.iterdir()) == []


def test_nobody_and_nothing_to_go_out_have_an_exit_code_of_their_own(
    clinic: Clinic, tmp_path: Path
) -> None:
    """3 for a reference of nobody, one among others too, and where nothing was sent."""
    clinic.knows(clinic.measured("ada", reference="HS-ada").taps("no"), "HS-ada")
    for arguments in (
        ("--reference", "HS-9999"),
        ("--reference", "HS-ada", "--reference", "HS-9999"),
        ("--reference", "HS-ada"),
        ("--all",),
    ):
        done = export(*arguments, out=tmp_path / "a.zip")
        assert (done.exit_code, done.stdout) == (3, "")
    assert list(tmp_path.iterdir()) == []


def test_scripts_get_json_and_nothing_else(clinic: Clinic, tmp_path: Path) -> None:
    """With --json the summary is JSON; where nobody looks, no progress is shown."""
    sent(clinic, "ada")
    clinic.knows(clinic.measured("bea", reference="HS-bea").taps("no"), "HS-bea")
    out = tmp_path / "a.zip"
    asked = ("--reference", "HS-ada", "--reference", "HS-bea")
    done = export(*TABLE, *asked, "--json", out=out)
    said = json.loads(done.stdout)
    assert (said["people"], said["tests"], said["bytes"]) == (1, 1, out.stat().st_size)
    assert said["nothing_sent"] == ["HS-bea"]
    assert done.stderr == "HS-bea has sent no result, or has taken it back.\n"


def test_the_readme_is_in_the_clinics_language(clinic: Clinic, tmp_path: Path) -> None:
    """It is the first language of the clinic, or the one that is asked for."""
    sent(clinic, "ada")
    english = exported(*TABLE, "--all", out=tmp_path / "en")["README.txt"].decode()
    spanish = exported(*TABLE, "--all", "--language", "es", out=tmp_path / "es")
    assert english.splitlines()[0].startswith("Home lie–sit–stand tests")
    assert spanish["README.txt"].decode().splitlines()[0].startswith("Pruebas en casa")


def test_help_shows_an_example() -> None:
    """Whoever asks for help sees how it is typed."""
    done = CliRunner().invoke(app, ["export", "--help"], env={"COLUMNS": "200"})
    assert "Example: wallside export --reference HS-0042" in done.stdout
