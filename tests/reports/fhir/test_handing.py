"""The document as it is handed to a person: from the effect to the file."""

import json
from base64 import b64decode
from dataclasses import replace

import pytest

from bot.engine.effects import Form, Recall
from bot.engine.profile import Profile
from bot.engine.state import Conversation
from bot.reports import Imprint, known_as, make
from bot.reports.presenting import present
from bot.runtime.ports import Attachment, History, Kept
from tests.reports.examples import CLEAR_RISE, CORRECTED
from tests.reports.fhir.cases import Json
from tests.reports.fhir.judges import Judge, complaints
from tests.reports.fhir.looking import of

IMPRINT = Imprint(reference="c1")

NOBODY = Conversation(id="c1", locale="en")


def handed(conversation: Conversation = NOBODY, locale: str = "en") -> Attachment:
    """Return the file that the person gets."""
    kept = Kept(
        conversation=conversation,
        history=History(beginning=conversation),
        results=(CLEAR_RISE, replace(CORRECTED, number=2)),
    )
    bubble = present(Recall(number=1, form=Form.FHIR, test=1), locale, kept)
    assert bubble.attachment is not None
    return bubble.attachment


def patient(file: Attachment) -> Json:
    """Return the person whom the file names."""
    (found,) = of(json.loads(file.content), "Patient")
    return found


@pytest.mark.parametrize("locale", ["en", "es"])
def test_the_file_holds_the_test_and_the_page(locale: str) -> None:
    """It is a sound document with the page of the same test inside, named by test and day."""
    file = handed(locale=locale)
    found = json.loads(file.content)
    (report,) = of(found, "DiagnosticReport")
    page = make(Form.PDF, CLEAR_RISE, locale, IMPRINT).content
    assert {judge: complaints(judge, found) for judge in Judge} == {judge: [] for judge in Judge}
    assert b64decode(report["presentedForm"][0]["data"]) == page
    assert file.name == "wallside-2026-03-02-test-1.fhir.json"
    assert file.media_type == "application/fhir+json"  # HL7 FHIR R4, section 2.6.1


def test_made_again_it_is_the_same_file() -> None:
    """No clock goes into it: asked for twice, the bytes are the same, dated when the test ended."""
    first, second = handed(), handed()
    ended = CLEAR_RISE.ended_at
    assert ended is not None
    assert first == second
    assert json.loads(first.content)["timestamp"] == ended.isoformat()


@pytest.mark.parametrize(
    ("reference", "known"),
    [("HS-0042", "HS-0042"), (" HS\n42", "HS 42"), ("\t", "c1"), (None, "c1")],
)
def test_the_person_is_known_by_the_clinics_reference(reference: str | None, known: str) -> None:
    """The file names the clinic's reference, or else the conversation; white space is no name."""
    conversation = replace(NOBODY, profile=Profile(reference=reference))
    assert known_as(conversation) == known
    assert patient(handed(conversation))["identifier"][0]["value"] == known


def test_without_a_person_there_is_no_file() -> None:
    """A document about nobody is refused, rather than mixing people up."""
    with pytest.raises(ValueError, match="reference"):
        make(Form.FHIR, CLEAR_RISE, "en")
