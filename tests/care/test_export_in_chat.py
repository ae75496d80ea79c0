"""A member asks for the files of all that a person has sent."""

import json
from dataclasses import replace

from bot.care.roles import Role
from bot.care.sent import FORMS, MOST, sent_tests
from bot.engine.effects import Form, Hand, Keep, Say
from bot.engine.events import Opened
from bot.engine.profile import TestNote
from bot.protocol.record import Ending, TestRecord
from bot.protocol.released import FOUR_READINGS
from bot.reports.presenting import present
from tests.care.clinic import Clinic
from tests.companions.people import START, Person
from tests.reports.fhir.looking import of


def papers(person: Person) -> list[Hand]:
    """Return the files that reached somebody."""
    return [effect for effect in person.got if isinstance(effect, Hand)]


def more_tests(
    clinic: Clinic, person: Person, notes: tuple[TestNote, ...], record: TestRecord
) -> None:
    """Let a person have had more tests like one of theirs."""
    with clinic.store.unit() as unit:
        stored = unit.load(person.address)
        assert stored is not None
        profile = replace(stored.conversation.profile, tests=notes)
        unit.save(
            stored,
            replace(stored.conversation, profile=profile),
            event=Opened(at=clinic.now),
            effects=[Keep(record=replace(record, number=note.number)) for note in notes],
            wake_at=None,
        )


def test_a_member_gets_page_table_and_document_of_each_test(clinic: Clinic) -> None:
    """One word sends what a record system takes, about nobody but the reference, and is logged."""
    nora = clinic.member("Nora", Role.CLINICIAN)
    ada = clinic.measured("ada", reference="HS-0042").taps("yes")
    clinic.knows(ada, "HS-0042")
    nora.new()
    nora.types("export HS-0042")
    assert nora.new() == ["care.export"]
    assert [paper.form for paper in papers(nora)] == list(FORMS)
    document = next(paper for paper in papers(nora) if paper.form is Form.FHIR)
    file = present(document, "en").attachment
    assert file is not None
    (patient,) = of(json.loads(file.content), "Patient")
    assert patient["identifier"][0]["value"] == "HS-0042"
    line = clinic.log()[-1]
    assert (line.did, line.who, line.person, line.detail) == (
        "exported",
        clinic.number_of("Nora"),
        ada.conversation.id,
        "1",
    )


def test_a_coordinator_may_as_well_in_spanish_by_the_short_number(clinic: Clinic) -> None:
    """Whoever can open each result can have all of a person; a short number names them too."""
    marta = clinic.member("Marta", language="es")
    clinic.measured("ada").taps("yes")
    marta.types("exportar ada00000")
    assert len(papers(marta)) == len(FORMS)


def test_nobody_and_nothing_sent_get_the_same_answer(clinic: Clinic) -> None:
    """A reference of nobody, of somebody who sent nothing, and of the team itself tell nothing."""
    marta = clinic.member("Marta")
    clinic.measured("ada").taps("no")
    marta.new()
    for reference in ("HS-9999", "ada00000", marta.conversation.id):
        marta.types(f"export {reference}")
        assert marta.new() == ["care.export.nothing"]
    assert papers(marta) == []
    assert "exported" not in clinic.did()


def test_files_that_wait_are_dropped_when_the_result_is_taken_back(clinic: Clinic) -> None:
    """What was asked for and has not gone out yet does not go out after a person's no."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes").taps("good").taps("none").types("sharing")
    clinic.hold()
    marta.types("export ada00000")
    clinic.taps_unseen(ada, "sharing:back")
    clinic.release()
    assert papers(marta) == []


def test_the_newest_tests_come_and_the_rest_is_said(clinic: Clinic) -> None:
    """So many files as fit a chat; how many are left is said, with who can export them."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes").taps("good").taps("none")
    record = clinic.store.results(ada.conversation.id)[0]
    numbers = range(1, MOST + 3)
    notes = tuple(
        TestNote(
            number=number,
            began_at=START,
            ending=Ending.COMPLETED,
            measured=True,
            protocol=FOUR_READINGS.ref,
            shared=number != 1,
        )
        for number in numbers
    )
    more_tests(clinic, ada, notes, record)
    marta.new()
    marta.types("export ada00000")
    assert marta.new() == ["care.export", "care.export.more"]
    assert sorted({paper.record.number for paper in papers(marta)}) == list(numbers)[2:]
    (said,) = (e for e in marta.got if isinstance(e, Say) and e.parts[0].key == "care.export")
    assert [part.params["count"] for part in said.parts] == [MOST, 1]
    assert sent_tests(ada.conversation) == tuple(numbers)[1:]


def test_who_has_not_agreed_to_the_team_has_sent_nothing(clinic: Clinic) -> None:
    """Without an agreement to the team a mark on a test counts for nothing."""
    ada = clinic.measured("ada").taps("yes").conversation
    assert sent_tests(ada) == (1,)
    profile = replace(ada.profile, team_since=None)
    assert sent_tests(replace(ada, profile=profile)) == ()
