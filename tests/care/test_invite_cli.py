"""Inviting from the command line: one, many, the list, another link, no more."""

import csv
import io
import json
import stat
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image
from typer.testing import CliRunner, Result

from bot.care.invitation import InvitationWanted
from bot.care.rules import CareRules
from bot.cli import app
from bot.errors import DatabaseError
from bot.invitations import Invitations
from bot.runtime.inviting import Inviting
from bot.settings import load_settings
from bot.store.sql import SqlStore
from tests.care.clinic import Clinic
from tests.companions.people import START

pytestmark = pytest.mark.usefixtures("operated")


def runs(*arguments: str | Path) -> Result:
    """Run a command about invitations."""
    return CliRunner().invoke(app, ["invite", *map(str, arguments)])


def references(store: SqlStore) -> list[str]:
    """Return who was invited."""
    with store.unit() as unit:
        return [i.reference for i in unit.care.invitations()]


def test_a_table_of_people_becomes_links_pictures_and_papers(
    store: SqlStore, tmp_path: Path
) -> None:
    """All are invited; the file has all that is needed to pass on, for its owner's eyes only."""
    table, out = tmp_path / "people.csv", tmp_path / "out.zip"
    table.write_bytes(b"\xef\xbb\xbfreference;language;note\r\nHS-1;es;siskin\r\n;;linnet\r\n")
    done = runs("--csv", table, "--out", out, "--json")
    assert done.exit_code == 0, done.output
    told = json.loads(done.stdout)["invitations"]
    assert sorted(references(store)) == sorted(one["reference"] for one in told)
    assert stat.S_IMODE(out.stat().st_mode) == 0o600
    with zipfile.ZipFile(out) as packed:
        text = packed.read("invitations.csv").decode("utf-8-sig")
        rows = list(csv.DictReader(io.StringIO(text)))
        assert [row["link"] for row in rows] == [one["link"] for one in told]
        assert "siskin" not in text
        by_reference = {row["reference"]: row["message"] for row in rows}
        assert by_reference["HS-1"].startswith("Su clínica")
        for row in rows:
            image = Image.open(io.BytesIO(packed.read(row["picture"])))
            assert (image.format, image.size[0] > 400) == ("PNG", True)
            assert packed.read(row["handout"]).startswith(b"%PDF")


def test_a_table_with_a_wrong_line_invites_nobody(store: SqlStore, tmp_path: Path) -> None:
    """Lines and remedies are named, what stood there is not; no file is left."""
    table, out = tmp_path / "people.csv", tmp_path / "out.zip"
    table.write_text("reference,protocol\nHS-1,\nAda Quinn,\nHS-3,nine\n", encoding="utf-8")
    done = runs("--csv", table, "--out", out)
    assert done.exit_code == 4
    assert "people.csv, line 3: this may be a name" in done.stderr
    assert "people.csv, line 4: the clinic does not offer this protocol" in done.stderr
    assert "Quinn" not in done.output
    assert (references(store), list(tmp_path.iterdir())) == ([], [table])


def test_a_file_that_is_there_is_left_alone(store: SqlStore, tmp_path: Path) -> None:
    """Nobody is invited if the file cannot be written."""
    table, out = tmp_path / "people.csv", tmp_path / "out.csv"
    table.write_text("reference\nHS-1\n", encoding="utf-8")
    out.write_text("mine", encoding="utf-8")
    done = runs("--csv", table, "--out", out)
    assert (done.exit_code, out.read_text(encoding="utf-8"), references(store)) == (1, "mine", [])
    done = runs("--csv", table, "--out", tmp_path / "no" / "out.csv")
    assert (done.exit_code, references(store)) == (1, [])


def test_all_are_invited_or_nobody(clinic: Clinic, tmp_path: Path) -> None:
    """If a reference was invited meanwhile, no other one is, and there is no file of links."""
    clinic.invites("HS-2")
    wanted = [InvitationWanted(reference=r) for r in ("HS-1", "HS-2")]
    with pytest.raises(DatabaseError, match="HS-2"):
        Invitations(load_settings()).invite_all(wanted, tmp_path / "out.csv")
    assert references(clinic.store) == ["HS-2"]
    assert list(tmp_path.iterdir()) == []


def test_the_list_shows_who_has_not_opened_theirs(clinic: Clinic) -> None:
    """An opened one is in the whole list only; no code stands in it."""
    clinic.invites("HS-1")
    clinic.knows(clinic.patient("ada"), "HS-2")
    waiting = json.loads(runs("list", "--unopened", "--json").stdout)
    everyone = json.loads(runs("list", "--json").stdout)
    assert [one["reference"] for one in waiting] == ["HS-1"]
    assert sorted(one["standing"] for one in everyone) == ["opened", "ran-out"]
    assert "code-HS-1" not in runs("list", "--json").stdout
    assert "HS-1" in runs("list").stdout


def test_another_link_and_none(clinic: Clinic) -> None:
    """Each says by its exit code whether there was such an invitation, and one to change."""
    clinic.invites("HS-1")
    clinic.knows(clinic.patient("ada"), "HS-2")
    again = json.loads(runs("resend", "hs-1", "--json").stdout)
    assert (again["reference"], again["code"] != "code-HS-1") == ("HS-1", True)
    revoked = json.loads(runs("revoke", "hs-1.", "--json").stdout)
    assert (revoked["reference"], "code" in revoked) == ("HS-1", False)
    for verb in ("resend", "revoke"):
        assert runs(verb, "HS-9").exit_code == 3
        opened = runs(verb, "HS-2")
        assert (opened.exit_code, type(opened.exception).__name__) == (1, "SettingsError")
    assert runs("HS-2").exit_code == 1
    assert runs("--csv", "people.csv", "HS-3").exit_code == 2
    assert clinic.did() == ["sent-invitation-again", "revoked-invitation"]


def test_the_template_can_be_printed() -> None:
    """It names the columns."""
    assert runs("--template").stdout.splitlines()[0] == "reference,language,protocol,note"


def test_no_code_begins_like_a_formula() -> None:
    """A table that guards its cells would otherwise spoil it."""
    codes: Iterator[str] = iter(("-a", "_b", "=c", "d"))
    (made,) = Inviting(CareRules, lambda: next(codes)).drawn(
        (InvitationWanted(reference="HS-1"),), (), at=START
    )
    assert made.code == "d"
