"""The whole way of a clinic's people: a table of references, and in the end a result in the file.

The operator types commands, people and a member talk, all on one store and one clock.
"""

import csv
import io
import json
import zipfile
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from typer.testing import CliRunner

from bot.cli import app
from bot.texts import render
from tests.care.clinic import Clinic
from tests.companions.people import Person

ENROLS = ("yes", "20-and-over")
AFTER_THE_PLACE = ("done", "done", "upper-arm", "cuff")


def runs(*arguments: str | Path) -> str:
    """Run a command, which has to work, and return what it printed."""
    done = CliRunner().invoke(app, [str(one) for one in arguments])
    assert (done.exit_code, done.exception) == (0, None), done.output
    return done.stdout


def enrols(person: Person, trial: str) -> None:
    """Answer all that is asked, from the consent to the trial reading."""
    for choice in ENROLS:
        person.taps(choice)
    person.types("Madrid")
    for choice in AFTER_THE_PLACE:
        person.taps(choice)
    person.types(trial)


def measures(clinic: Clinic, person: Person, *readings: str) -> None:
    """Do a test of four readings to its end, from the audit on."""
    for choice in ("done", "go", "there"):
        person.taps(choice)
    supine, seated, middle, last = readings
    clinic.waits(5)
    person.types(supine).taps("there")
    clinic.waits(5)
    person.types(seated).taps("there")
    for minutes, numbers in ((3, middle), (3, last)):
        clinic.waits(2)
        person.taps("fine")
        clinic.waits(minutes)
        person.types(numbers)


def board(*arguments: str) -> dict[str, int]:
    """Return how many people stand at each place where somebody does."""
    told: dict[str, Any] = json.loads(runs("board", "--json", *arguments))
    return {place: line["here"] for place, line in told["places"].items() if line["here"]}


@pytest.mark.usefixtures("operated")
def test_from_a_table_of_people_to_the_first_result_seen(
    clinic: Clinic, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each place on the way is on the board; one is seen, one is late, and one never comes."""
    monkeypatch.setattr("bot.invitations.Invitations._now", lambda _: clinic.now)
    monkeypatch.setattr("bot.board_cli._now", lambda _: clinic.now)
    marta = clinic.member("Marta")

    # Three references become three invitations in one file.
    table, out = tmp_path / "people.csv", tmp_path / "invitations.zip"
    table.write_text(
        "reference,language,protocol\nHS-0001,es,\nHS-0002,en,\nHS-0003,,\n", encoding="utf-8"
    )
    runs("invite", "--csv", table, "--out", out, "--no-handouts")
    with zipfile.ZipFile(out) as packed:
        rows = csv.DictReader(io.StringIO(packed.read("invitations.csv").decode("utf-8-sig")))
        code = {row["reference"]: row["code"] for row in rows}
    assert board() == {"invited": 3}

    # Two open theirs; a used code opens no second chat.
    luz = clinic.person("luz", "es").opens(code["HS-0001"])
    ben = clinic.person("ben").opens(code["HS-0002"])
    thief = clinic.person("thief").opens(code["HS-0001"])
    assert "HS-0001" not in str(thief.got)
    waiting = json.loads(runs("invite", "list", "--unopened", "--json"))
    assert [one["reference"] for one in waiting] == ["HS-0003"]
    assert luz.conversation.locale == "es"
    assert board() == {"invited": 1, "opened": 2}

    # Luz answers everything and books; Ben only answers.
    enrols(luz, "126 sobre 78 pulso 72")
    enrols(ben, "124/76 72")
    luz.types("mañana 9:00").taps("yes")
    assert board() == {"invited": 1, "consented": 1, "booked": 1}

    # The day has come; the test is done, and sent.
    clinic.waits(22 * 60)
    luz.new()
    clinic.waits(60)
    assert luz.profile.tests == ()
    luz.types("empezar")
    measures(clinic, luz, "120/76 70", "118 76 pulso 74", "116/74 78", "98 sobre 62 pulso 90")
    assert "care.item" not in marta.new()
    luz.taps("yes")
    assert marta.new() == ["care.result-sent", "care.item", "care.free"]
    luz.taps("good").taps("none")
    assert board() == {"invited": 1, "consented": 1, "first-test": 1}

    # The team sees it and says what follows; Luz reads it in her own language.
    marta.types("open").taps("team:open:1").types("take").taps("team:take:1")
    luz.new()
    marta.types("close").taps("team:close:1").taps("repeat")
    told = luz.new()
    assert told[0] == "team.seen"
    assert render(told[0], {"test": 1}, "es") == "Su equipo médico vio su prueba 1."

    # A second test, sent and seen: she has come the whole way. Ben is reminded, HS-0003 called.
    clinic.waits(7 * 24 * 60)
    luz.types("empezar").taps("now").taps("same")
    measures(clinic, luz, "122/78 72", "120/78 74", "118/76 80", "112/74 84")
    luz.taps("yes")
    marta.types("take 2").types("close 2").taps("nothing")
    assert board() == {"invited": 1, "consented": 1, "followed-up": 1}
    ben.new()
    marta.types("board").taps("consented").taps(f"team:who:{ben.conversation.id}:nudge:book")
    assert ben.new() == ["team.nudge.book", "plan.day"]
    marta.new()
    marta.types("hs-0003")
    assert marta.new() == ["care.person", "care.person.unopened"]

    # What was sent is in the operator's file, read by a program that is not ours.
    export = tmp_path / "all.zip"
    runs("export", "--all", "--form", "csv", "--out", export)
    with zipfile.ZipFile(export) as packed:
        read = pd.read_csv(io.BytesIO(packed.read("tests.csv")))
    assert list(read["person"].unique()) == ["HS-0001"]
    taken = read[read["status"] == "taken"]
    assert list(taken["systolic_mmHg"]) == [120, 118, 116, 98, 122, 120, 118, 112]
    assert list(taken.groupby("test")["heart_rate_per_min"].max()) == [90, 84]
    lines = json.loads(runs("audit", "--person", "hs-0003", "--json"))
    assert [line["did"] for line in lines] == ["invited"]
