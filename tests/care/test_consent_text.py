"""A consent text that the clinic changes in its file, while the program runs."""

from pathlib import Path

import pytest

from bot.bootstrap import conductor_for
from bot.clinic.file import ClinicFile
from bot.engine.asides import Asking, Question
from bot.engine.effects import Hand, Say
from bot.engine.profile import Profile
from bot.engine.state import Enrolling
from bot.exporting import Wanted, gather
from tests.care.clinic import Clinic
from tests.companions.people import Person

FILE = """
[clinic]
languages = ["en"]
[tests]
opening = "full"
[team]
on = true
[consent]
version = {version}
[consent.text]
en = "{text}"
"""


def writes(path: Path, version: int, text: str) -> None:
    """Let the clinic write its file."""
    path.write_text(FILE.format(version=version, text=text), encoding="utf-8")


@pytest.fixture
def asked_anew(clinic: Clinic, tmp_path: Path) -> Person:
    """Return somebody who has sent a test, and was then asked anew since the text has changed."""
    path = tmp_path / "clinic.toml"
    writes(path, 1, "We keep it for ten years.")
    file = ClinicFile(path)
    ada = clinic.measured("ada").taps("yes").taps("good").taps("none")
    clinic.conductor = conductor_for(
        clinic.store, lambda: file.now().context(), rules=lambda: clinic.rules
    )
    ada.types("sharing")
    assert "question.consent.team" not in ada.new()
    writes(path, 2, "We now keep it for twenty years.")
    ada.new()
    ada.types("start")
    return ada


def test_the_new_text_is_read_before_the_next_test(clinic: Clinic, asked_anew: Person) -> None:
    """The clinic's own words come with the question, and a yes goes on where it was."""
    assert asked_anew.new() == ["consent.changed", "consent.added", "question.consent.team"]
    added = [
        part.params["text"]
        for effect in asked_anew.got
        if isinstance(effect, Say)
        for part in effect.parts
        if part.key == "consent.added"
    ]
    assert added[-1] == "We now keep it for twenty years."
    asked_anew.taps("yes")
    assert asked_anew.profile.consent_version == 2
    asked_anew.types("start").taps("now")
    assert "question.consent.team" not in asked_anew.new()[1:]


def test_a_no_leaves_all_as_it_is_and_only_offers_to_delete(
    clinic: Clinic, asked_anew: Person
) -> None:
    """What was sent stays sent; the next test is asked about again; nothing is deleted by a no."""
    marta = clinic.member("Marta")
    asked_anew.new()
    asked_anew.taps("no")
    assert asked_anew.new()[0] == "consent.not-renewed"
    aside = asked_anew.conversation.aside
    assert isinstance(aside, Asking)
    assert aside.question is Question.DELETE
    asked_anew.taps("no")
    assert asked_anew.profile.consent_version == 1
    assert [sent.id for sent in gather(clinic.store, Wanted()).people] == ["ada000000000"]
    marta.types("open 1")
    assert any(isinstance(effect, Hand) for effect in marta.got)
    asked_anew.types("start")
    stage = asked_anew.conversation.stage
    assert isinstance(stage, Enrolling)
    assert stage.question is Question.CONSENT


def test_a_second_word_deletes_everything(clinic: Clinic, asked_anew: Person) -> None:
    """Only who then says that all is to go has it deleted, for the team and for exports too."""
    asked_anew.taps("no").taps("yes")
    assert gather(clinic.store, Wanted()).people == ()
    assert clinic.inbox() == ()
    with clinic.store.unit() as unit:
        kept = unit.load_by_id("ada000000000")
    assert kept is None or kept.conversation.profile == Profile()
