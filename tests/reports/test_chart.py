"""The chart: what is on it, and that it can be read."""

import io
import re
from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from PIL import Image

from bot.engine.effects import Form
from bot.findings import find
from bot.protocol.record import Symptom, TestRecord
from bot.reports import make
from bot.reports.canvas import FONT, Box
from bot.reports.chart import WIDTH, draw
from bot.reports.file import PIXELS
from bot.reports.glyphs import face, printable
from tests.reports.examples import (
    AGE_NOT_TOLD,
    AT_ONCE,
    CHILD,
    CLEAR_RISE,
    CROWDED,
    EARLY_FALL,
    EXAMPLES,
    HOSTILE,
    HOURS_LATE,
    NO_CHANGE,
    NO_LYING,
    NOTHING,
    ONLY_LYING,
    STOPPED,
    TEENAGER,
    any_record,
    symptom,
)

examples = pytest.mark.parametrize("record", EXAMPLES.values(), ids=EXAMPLES)
SVG = "{http://www.w3.org/2000/svg}"


def drawn(record: TestRecord) -> ET.Element:
    """Return the drawing, parsed."""
    return ET.fromstring(draw(record, find(record), "en"))


def texts(drawing: ET.Element) -> list[str]:
    """Return all words on it."""
    return [element.text or "" for element in drawing.iter(f"{SVG}text")]


def text_boxes(drawing: ET.Element) -> list[tuple[str, Box]]:
    """Return the words on it with the space that their letters take."""
    found = []
    for element in drawing.iter(f"{SVG}text"):
        words = element.text or ""
        left, y = float(element.attrib["x"]), float(element.attrib["y"])
        width = face(bold="font-weight" in element.attrib).width(words, FONT)
        box = Box(left=left, top=y - 0.7 * FONT, right=left + width, bottom=y + 0.1 * FONT)
        found.append((words, box))
    return found


@examples
def test_the_picture_suits_a_phone(record: TestRecord) -> None:
    """`PIXELS` across, upright, not much higher than a phone, with dark ink on white."""
    image = Image.open(io.BytesIO(make(Form.CHART, record, "en").content))
    assert image.format == "PNG"
    assert image.width == PIXELS
    assert PIXELS <= image.height <= 1.7 * PIXELS
    greys = image.convert("L").histogram()
    assert sum(greys[:40]) > 1000
    assert sum(greys[250:]) > 100_000


@examples
def test_words_are_large_and_keep_clear_of_one_another(record: TestRecord) -> None:
    """All words are 12 units high on a page 360 across, on the page, and none covers another."""
    drawing = drawn(record)
    height = float(drawing.attrib["height"])
    boxes = text_boxes(drawing)
    assert {e.attrib["font-size"] for e in drawing.iter(f"{SVG}text")} == {"12"}
    page = Box(left=0, top=0, right=WIDTH, bottom=height)
    assert [words for words, box in boxes if not box.within(page)] == []
    pairs = combinations(boxes, 2)
    assert [(a, b) for (a, one), (b, other) in pairs if one.meets(other)] == []


@examples
def test_a_longer_language_fits(record: TestRecord, longer_words: None) -> None:
    """With all words a third longer, as in other languages, they stay on the page and apart."""
    boxes = text_boxes(drawn(record))
    page = Box(left=0, top=0, right=WIDTH, bottom=600)
    assert [words for words, box in boxes if not box.within(page)] == []
    pairs = combinations(boxes, 2)
    assert [(a, b) for (a, one), (b, other) in pairs if one.meets(other)] == []


@settings(deadline=None, max_examples=80)
@given(record=any_record())
def test_any_record_can_be_drawn(record: TestRecord) -> None:
    """However odd the record, words stay on the page and apart, and the page stays bounded."""
    drawing = drawn(record)
    height = float(drawing.attrib["height"])
    page = Box(left=0, top=0, right=WIDTH, bottom=height)
    boxes = text_boxes(drawing)
    assert height <= 600
    assert [words for words, box in boxes if not box.within(page)] == []
    pairs = combinations(boxes, 2)
    assert [(a, b) for (a, one), (b, other) in pairs if one.meets(other)] == []


def test_every_number_of_a_usual_test_is_labelled() -> None:
    """Each point of a test of four or six readings has its value beside it."""
    for record in (CLEAR_RISE, NO_CHANGE, EARLY_FALL):
        shown = texts(drawn(record))
        for reading in record.readings:
            values = reading.values
            for number in (values.systolic, values.diastolic, values.heart_rate):
                assert str(number) in shown


@pytest.mark.parametrize(
    ("record", "line"),
    [(CLEAR_RISE, "lying + 30 = 98"), (TEENAGER, "lying + 40 = 108"), (CHILD, None),
     (AGE_NOT_TOLD, None), (NO_LYING, None), (ONLY_LYING, None)],
)  # fmt: skip
def test_the_line_of_the_rise_depends_on_age(record: TestRecord, line: str | None) -> None:
    """The rise is held against lying + 30, or + 40 from 12 to 19; else there is no line.

    Nor is there one for a test that ended while lying.
    """
    lines = [words for words in texts(drawn(record)) if words.startswith("lying +")]
    assert lines == ([] if line is None else [line])


def test_a_test_that_ended_lying_has_no_standing_lines() -> None:
    """Where nobody stood, the chart has the lying numbers and no line that standing is held to."""
    shown = texts(drawn(ONLY_LYING))
    assert "lying 68" in shown
    assert not [words for words in shown if words.startswith(("lying +", "lying –"))]


def test_levels_are_labelled() -> None:
    """The lying levels and the line of the fall are named on the chart."""
    assert {"lying 68", "lying 118", "lying – 20 = 98"} <= set(texts(drawn(CLEAR_RISE)))


def test_series_differ_by_shape() -> None:
    """Heart rate is round; systolic points up and diastolic down: colour is not needed."""
    drawing = drawn(CLEAR_RISE)
    assert len(list(drawing.iter(f"{SVG}circle"))) == 1 + 4
    tips = []
    for polygon in drawing.iter(f"{SVG}polygon"):
        ys = [float(pair.split(",")[1]) for pair in polygon.attrib["points"].split()]
        tips.append("up" if ys[0] < ys[1] else "down")
    assert tips.count("up") == tips.count("down") == 1 + 4


def test_bands_are_named_in_words() -> None:
    """The three positions are named, one beside the other, over bands of three greys."""
    places = {words: box.left for words, box in text_boxes(drawn(CLEAR_RISE))}
    assert places["Lying"] < places["Sitting"] < places["Standing"]
    fills = [e.attrib["fill"] for e in drawn(CLEAR_RISE).iter(f"{SVG}rect")]
    assert {"#ececec", "#fafafa", "#e0e0e0"} <= set(fills)


def test_late_readings_are_hollow_and_the_key_says_so() -> None:
    """A late reading is drawn hollow in all three series, others are filled."""
    drawing = drawn(EARLY_FALL)
    marks = [*drawing.iter(f"{SVG}circle"), *drawing.iter(f"{SVG}polygon")]
    assert sum(mark.attrib["fill"] == "#ffffff" for mark in marks) == 3 + 1  # one in the key
    assert "taken late" in texts(drawing)
    assert "taken late" not in texts(drawn(CLEAR_RISE))


def test_missed_readings_and_an_early_end_are_marked() -> None:
    """A test that ended early says so, and what was not taken has its mark."""
    assert {"not taken", "ended early"} <= set(texts(drawn(STOPPED)))
    assert not {"not taken", "ended early"} & set(texts(drawn(NO_CHANGE)))


def test_a_missed_reading_breaks_the_line() -> None:
    """Neighbours of a reading that was not taken are not joined."""
    without = replace(NO_CHANGE, readings=NO_CHANGE.readings[:3] + NO_CHANGE.readings[4:])

    def joined(record: TestRecord) -> int:
        return sum(line.get("stroke-width") == "2" for line in drawn(record).iter(f"{SVG}polyline"))

    assert joined(NO_CHANGE) == 3 * 5
    assert joined(without) == 3 * 3


def test_symptoms_are_numbered_in_time() -> None:
    """Symptoms stand on the time axis by number, with name, strength or own words below."""
    shown = texts(drawn(CLEAR_RISE))
    assert {"Dizzy 6/10", "“my legs buzz”"} <= set(shown)
    assert shown.count("1") == shown.count("2") == 2


def test_symptoms_at_one_time_share_a_number() -> None:
    """Many symptoms at one moment become one mark."""
    shown = texts(drawn(AT_ONCE))
    assert "1" in shown
    assert "2" not in shown


def test_many_symptoms_are_counted() -> None:
    """What finds no room is counted, so that nothing goes missing unsaid."""
    shown = texts(drawn(CROWDED))
    (more,) = [words for words in shown if words.startswith("and ")]
    named = sum("10/10" in words for words in shown)
    assert more == f"and {len(CROWDED.symptoms) - named} more symptoms, see the CSV file"


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words_stay_words(words: str) -> None:
    """Own words are text in the drawing, whatever they hold."""
    record = replace(CLEAR_RISE, symptoms=(symptom(Symptom.OTHER, 2, words=words),))
    shown = printable(words, 22)
    assert (f"“{shown}”" if shown else "Something else") in texts(drawn(record))


def test_long_empty_stretches_are_folded() -> None:
    """Hours without anything are drawn short, marked, and labelled with the real minutes."""
    shown = texts(drawn(HOURS_LATE))
    assert "time skipped" in shown
    assert str(round(12 + 40 / 60 + 300)) in shown
    assert "time skipped" not in texts(drawn(CLEAR_RISE))


def test_an_empty_test_says_so() -> None:
    """Without readings there are two empty plots with words in them, and no points."""
    drawing = drawn(NOTHING)
    assert texts(drawing).count("No readings here") == 2
    assert not re.search(r"lying [+–]", " ".join(texts(drawing)))
