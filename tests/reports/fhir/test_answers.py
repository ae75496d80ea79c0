"""What the person told is there, in codes; of free words, only what the CSV has too."""

import xml.etree.ElementTree as ET
from dataclasses import replace
from zoneinfo import ZoneInfo

import pytest

from bot.reports.fhir import bundle
from tests.reports.examples import HOSTILE, NOTHING
from tests.reports.fhir.cases import AGAIN, FULL, RECORDS, case, document
from tests.reports.fhir.looking import items, leaves, of

XHTML = "{http://www.w3.org/1999/xhtml}"


def test_what_was_told_is_answered() -> None:
    """Day, medicines, last dose and departures are there as codes; so are course and symptoms."""
    found = document(FULL)
    assert items(found, "preparation") == {
        "age-band": ["20-and-over"],
        "day": ["symptomatic"],
        "medicines": ["diuretic", "pressure-raising"],
        "last-dose": ["within-12-hours"],
        "departures": ["caffeine", "poor-sleep"],
    }
    assert items(found, "course") == {
        "protocol": ["six-readings/2"],
        "number": [1],
        "revision": [1],
        "began": ["2026-03-02T05:44:00-03:30"],
        "supine-since": ["2026-03-02T05:45:00-03:30"],
        "seated-since": ["2026-03-02T05:51:20-03:30"],
        "standing-since": ["2026-03-02T05:57:40-03:30"],
        "ended": ["2026-03-02T06:02:00-03:30"],
        "ending": ["stopped"],
        "stop-reason": ["felt-faint"],
    }
    assert items(found, "symptoms") == {
        "symptom.kind": ["dizzy", "other"],
        "symptom.strength": [6],
        "symptom.told": ["2026-03-02T05:59:40-03:30", "2026-03-02T06:01:10-03:30"],
        "symptom.position": ["standing", "standing"],
        "symptom.words": ["grey | <b>buzz</b> in my legs"],
    }
    assert {r["status"] for r in of(found, "QuestionnaireResponse")} == {"completed"}


def test_how_somebody_was_looked_after_is_answered() -> None:
    """Every answer after the end is there as a code with its instant, silence too, in order."""
    (course,) = (
        one
        for one in of(document(AGAIN), "QuestionnaireResponse")
        if ":course|" in one["questionnaire"]
    )
    told = [
        [part["answer"][0] for part in item["item"]]
        for item in course["item"]
        if item["linkId"] == "aftercare"
    ]
    assert [(what["valueCoding"]["code"], when["valueDateTime"]) for what, when in told] == [
        (one.answer, one.at.astimezone(ZoneInfo("America/St_Johns")).isoformat())
        for one in AGAIN.aftercare
    ]


def test_none_is_said_only_when_it_was_asked() -> None:
    """`none` stands where it was asked and nothing was named; else the question is left out."""
    assert items(document(RECORDS["watch"]), "preparation") == {
        "age-band": ["20-and-over"],
        "day": ["good"],
        "medicines": ["none"],
        "departures": ["none"],
    }
    assert items(document(RECORDS["fingers"]), "preparation") == {"age-band": ["20-and-over"]}
    assert items(document(NOTHING), "preparation") == {}


def test_free_words_are_those_of_symptoms_alone() -> None:
    """Own words for a reading or for stopping stay out, as they stay out of the CSV."""
    spoken = [replace(r, words=("sys one seventy eight",)) for r in FULL.readings]
    content = bundle(case(replace(FULL, readings=tuple(spoken)))).decode()
    assert "one seventy eight" not in content
    assert "everything went grey" not in content
    assert "in my legs" in content


@pytest.mark.parametrize("locale", ["en", "es"])
@pytest.mark.parametrize("words", HOSTILE)
def test_narratives_hold_any_words(words: str, locale: str) -> None:
    """Every narrative is XML in the namespace of XHTML, of plain elements, whatever was typed."""
    told = replace(FULL.symptoms[1], words=words)
    record = replace(FULL, symptoms=(told,))
    (composition,) = of(document(record, locale), "Composition")
    texts = [composition["text"], *(section["text"] for section in composition["section"])]
    plain = {"div", "p", "table", "thead", "tbody", "tr", "th", "td"}
    for text in texts:
        div = ET.fromstring(text["div"])
        assert div.tag == f"{XHTML}div"
        assert "".join(div.itertext()).strip() != ""
        assert {element.tag for element in div.iter()} <= {f"{XHTML}{name}" for name in plain}
        assert {key for element in div.iter() for key in element.attrib} == {"lang"}


def test_codes_are_the_same_in_every_language() -> None:
    """Languages change titles, notes, conclusion and narratives; never a code or an id."""
    english, spanish = (leaves(document(FULL, locale)) for locale in ("en", "es"))
    assert english.keys() == spanish.keys()
    differing = {path.rpartition(".")[2].partition("[")[0] for path in english
                 if english[path] != spanish[path]}  # fmt: skip
    assert differing == {"conclusion", "div", "language", "text", "title"}
