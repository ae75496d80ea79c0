"""The PDF: one accessible page with all the facts."""

import os
import re
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from importlib.metadata import version
from itertools import cycle

import page as validator
import pypdfium2
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.engine.effects import Form
from bot.findings import Finding, Known, Line, Reason, State, find
from bot.protocol.circumstances import (
    Circumstances,
    Cuff,
    DayKind,
    Departure,
    LastDose,
    Medicine,
    RateSource,
)
from bot.protocol.record import (
    Aftercare,
    Answer,
    Ending,
    Measure,
    Repeat,
    Symptom,
    TestRecord,
    Values,
)
from bot.reports import Imprint, file, make, page, wording
from bot.reports.formats import signed
from bot.reports.glyphs import printable
from tests.reports.examples import (
    CLEAR_RISE,
    CORRECTED,
    CROWDED,
    EARLY_FALL,
    EXAMPLES,
    HOSTILE,
    LATER_FALL,
    NO_CHANGE,
    RISE_ONCE,
    STOPPED,
    VERY_HIGH,
    any_record,
    symptom,
)

FORMS = tuple(Form)
IMPRINT = Imprint(reference="HSC-0417", generated=datetime(2026, 3, 2, 10, tzinfo=UTC))

examples = pytest.mark.parametrize("record", EXAMPLES.values(), ids=EXAMPLES)


def squeezed(text: str) -> str:
    """Return text without white space: lines break where they will.

    The extractor turns a hyphen at the end of a line into a mark of its own.
    """
    return re.sub(r"\s+", "", text.replace("\ufffe", "-"))


def words_of(content: bytes) -> str:
    """Return the words of the only page, squeezed."""
    document = pypdfium2.PdfDocument(content)
    try:
        assert len(document) == 1
        return squeezed(document[0].get_textpage().get_text_range())
    finally:
        document.close()


@cache
def made(record: TestRecord) -> bytes:
    """Return the PDF."""
    return make(Form.PDF, record, "en").content


def assert_accessible(content: bytes) -> None:
    """PDF/UA-1 by an independent checker."""
    report = validator.validate_pdf_bytes(content, profile=validator.ValidationProfile.PDF_UA_1)
    assert [failure.message for failure in report.failures] == []
    assert report.is_compliant


@examples
def test_it_is_one_accessible_page(record: TestRecord) -> None:
    """Every example makes exactly one page that passes PDF/UA-1."""
    content = made(record)
    assert_accessible(content)
    assert words_of(content)


def assert_within_margins(content: bytes) -> None:
    """Every letter lies inside the margins of the page."""
    document = pypdfium2.PdfDocument(content)
    width, height = document[0].get_size()
    words = document[0].get_textpage()
    boxes = [words.get_charbox(number) for number in range(words.count_chars())]
    assert min(left for left, _, _, _ in boxes) >= 30
    assert max(right for _, _, right, _ in boxes) <= width - 30
    assert min(bottom for _, bottom, _, _ in boxes) >= 24
    assert max(top for _, _, _, top in boxes) <= height - 24
    document.close()


@examples
def test_nothing_is_cut_off(record: TestRecord) -> None:
    """No word runs into the margins or off the page."""
    assert_within_margins(made(record))


@examples
def test_a_longer_language_fits(record: TestRecord, longer_words: None) -> None:
    """With all sentences a third longer, as in other languages, it is still one whole page."""
    content = make(Form.PDF, record, "en").content
    assert words_of(content)
    assert_within_margins(content)


@pytest.mark.parametrize("ending", [None, *Ending])
def test_every_ending_has_words(ending: Ending | None) -> None:
    """However it ended, the page says so."""
    record = replace(STOPPED, ending=ending, ended_at=STOPPED.ended_at if ending else None)
    content = made(record)
    assert_accessible(content)
    assert "Howitended" in words_of(content)


@examples
def test_all_readings_are_on_it(record: TestRecord) -> None:
    """Each planned reading is there with its numbers and its changes from lying."""
    text = words_of(made(record))
    findings = find(record)
    changes = {change.reading.number: change for change in findings.changes}
    for reading in record.readings:
        if reading.slot is None:
            continue
        values = reading.values
        numbers = [str(n or "–") for n in (values.systolic, values.diastolic, values.heart_rate)]
        seconds = round(reading.offset.total_seconds())
        row = f"{seconds // 60}:{seconds % 60:02d}{''.join(numbers)}"
        if change := changes.get(reading.number):
            deltas = (change.systolic, change.diastolic, change.heart_rate)
            row += "".join("–" if delta is None else signed(delta, "en") for delta in deltas)
        assert row in text


@examples
def test_all_findings_are_on_it(record: TestRecord) -> None:
    """Each line is there with its state."""
    text = words_of(made(record))
    states = {State.MET: "Met", State.MET_ONCE: "Metonce,notconfirmed", State.NOT_MET: "Notmet",
              State.NOT_MEASURED: "Notmeasured", State.CANNOT_JUDGE: "Cannotbejudged"}  # fmt: skip
    for finding in find(record).findings:
        name = squeezed(wording.name(finding, "en"))
        assert name in text
        assert states[finding.state] in text


def test_findings_come_first_with_size_limit_and_source() -> None:
    """The rise is the first row: met, +38 at 10:20, the line, the sources."""
    text = words_of(made(CLEAR_RISE))
    assert "+30/mintwice,1minapart" in text
    row = "Heart-rateriseMet(apressurefallisnotruledout)+38±8/min,Standing10:20"
    assert row in text
    assert "Freeman2011;Sheldon2015;Vernino2021;Raj2022" in text
    assert text.index("Findings") < text.index(row) < text.index("Readings")


def test_met_lines_lead_and_very_high_pressure_leads_them() -> None:
    """Rows go from what was met to what was not; nothing stands above a very high pressure.

    A rise of the standing pressure is named as what was seen, not as a disease.
    """
    text = words_of(made(VERY_HIGH))
    places = [
        text.index(row)
        for row in ("VeryhighpressureMet", "RiseofstandingpressureMet", "Heart-rateriseCannot",
                    "Pressurefallwithin3minNotmet", "Slowlyingheartrate:104/min")
    ]  # fmt: skip
    assert places == sorted(places)


def test_the_deciding_reading_is_the_standing_one() -> None:
    """A size is never told as read lying down when it was read standing at the same offset."""
    assert RISE_ONCE.readings[0].offset == RISE_ONCE.readings[2].offset
    assert "+33±8/min,Standing5:20" in words_of(made(RISE_ONCE))
    assert "-26±11systolic,Standing10:20" in words_of(made(LATER_FALL))


def test_the_frame_is_on_it() -> None:
    """Protocol and version, age band, times in UTC, software, caution, how it ended and why."""
    text = words_of(made(STOPPED))
    for words in (
        "Home lie-sit-stand test 1",
        "Screening, not a diagnosis",
        "Begun Mar 2, 2026, 09:14 UTC, ended Mar 2, 2026, 09:32 UTC",
        "Protocol six-readings, version 2",
        "Age band: 20 or over",
        f"Made by Wallside {version('wallside')}",
        "The person stopped it early",
        "At the end: Standing 4:20",
        "Reason told: Felt faint",
        "“everything went grey”",
        "Not taken: Sitting 5:00, Standing 5:00, and Standing 10:00",
        "Numbers missing: Standing 3:00",
        "Standing 3:30 About to faint 9/10",
    ):
        assert squeezed(words) in text


def test_unmeasured_first_minutes_are_told() -> None:
    """Without a reading in the first 3 min the page says what that means; with one it does not."""
    said = squeezed("an early pressure fall can be neither shown nor ruled out")
    assert said in words_of(made(CLEAR_RISE))
    assert said not in words_of(made(NO_CHANGE))


def test_marks_of_readings() -> None:
    """Late, missed and corrected readings are marked; a correction shows what was there."""
    assert "late" in words_of(made(EARLY_FALL))
    assert "nottaken" in words_of(made(STOPPED))
    corrected = words_of(made(CORRECTED))
    assert squeezed("corrected, was 116/80, 101") in corrected
    assert "Resultrevision2" in corrected


def test_sources_say_how_they_are_known() -> None:
    """Lines known at second hand or from memory are marked as such."""
    assert "lean-testusage,notverified" in words_of(made(CROWDED))
    assert "Brignole2018,secondhand" in words_of(made(STOPPED))
    assert {Known.MEMORY, Known.SECOND_HAND} < set(Known)


def test_a_long_list_is_cut_and_counted() -> None:
    """The longest list of symptoms stays on the page; what is left out is counted."""
    text = words_of(made(CROWDED))
    listed = len(re.findall(r"Standing\d+:\d\d[A-Z][A-Za-z]*10/10", text))
    assert 4 <= listed < len(CROWDED.symptoms)
    assert f"And{len(CROWDED.symptoms) - listed}moresymptoms,intheCSVfile" in text


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words_stay_words(words: str) -> None:
    """Own words show up letter for letter, never as markup, and never break the page."""
    record = replace(
        CLEAR_RISE,
        symptoms=(symptom(Symptom.OTHER, 2, strength=5, words=words),),
        stop_words=words,
    )
    content = made(record)
    assert_accessible(content)
    shown = squeezed(printable(words, 24)).rstrip("…")
    # the extractor may leave out an unknown mark's neighbours, so letters are compared
    assert re.sub(r"[^\w#*()]", "", shown) in re.sub(r"[^\w#*()]", "", words_of(content))


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(record=any_record(), words=st.text(max_size=400))
def test_any_record_makes_one_page(record: TestRecord, words: str) -> None:
    """However odd the record and whatever the words, there is one page."""
    told = tuple(replace(report, words=words) for report in record.symptoms[:1])
    assert words_of(made(replace(record, symptoms=told + record.symptoms[1:])))


@pytest.mark.parametrize("state", State)
def test_every_state_and_reason_has_words(state: State) -> None:
    """Each line in each state, with each reason, is put in words on one page."""
    real = find(EARLY_FALL)
    at = EARLY_FALL.readings[2].offset
    changed = tuple(
        Finding(
            line=line, state=state, reasons=(reason,), size=-24.0, limit=30.0,
            measure=Measure.SYSTOLIC, at=at, evidence=(1, 3),
        )
        for line, reason in zip(cycle(Line), Reason, strict=False)
    )  # fmt: skip
    assert {finding.line for finding in changed} == set(Line)
    for start in range(0, len(changed), len(Line)):
        replaced = {finding.line: finding for finding in changed[start : start + len(Line)]}
        findings = replace(
            real, findings=tuple(replaced.get(finding.line, finding) for finding in real.findings)
        )
        text = words_of(page.typeset(EARLY_FALL, findings, "en"))
        for finding in replaced.values():
            said = wording.state(finding, "en")
            assert "{" not in said
            assert squeezed(said) in text


def test_document_title_and_language() -> None:
    """The file carries its title, its language, and no other instant than the test's end."""
    content = made(CLEAR_RISE)
    document = pypdfium2.PdfDocument(content)
    metadata = document.get_metadata_dict()
    document.close()
    assert metadata["Title"] == "Home lie-sit-stand test 1"
    assert metadata["CreationDate"].startswith("D:20260302093900")
    assert b"/Lang" in content


def test_same_record_same_bytes_on_many_threads() -> None:
    """All forms of a record are the same bytes again and again, on any thread."""
    jobs = [(form, record) for form in FORMS for record in (CLEAR_RISE, CROWDED)] * 3

    def once(job: tuple[Form, TestRecord]) -> tuple[Form, int, bytes]:
        form, record = job
        file._page.cache_clear()
        return form, record.number, make(form, record, "en", IMPRINT).content

    with ThreadPoolExecutor(4) as pool:
        results = list(pool.map(once, jobs))
    assert len({result[:2] for result in results}) == len(set(results)) == 2 * len(FORMS)


def test_same_record_same_bytes_in_another_process() -> None:
    """Another process with another hash seed makes the same bytes."""
    program = (
        "import hashlib\n"
        "from bot.engine.effects import Form\n"
        "from bot.reports import Imprint, make\n"
        "from tests.reports.examples import CROWDED\n"
        "for form in Form:\n"
        "    print(hashlib.sha256(make(form, CROWDED, 'en', Imprint(reference='HSC-1'))"
        ".content).hexdigest())\n"
    )

    def run(seed: str) -> str:
        return subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True, text=True, check=True,
        ).stdout  # fmt: skip

    first = run("1")
    assert len(set(first.split())) == len(FORMS)
    assert run("2") == first


@examples
def test_file_names_sort_and_name_nobody(record: TestRecord) -> None:
    """A name tells day, test and, after a correction, revision; and the kind by its ending."""
    names = [make(form, record, "en").name for form in (Form.SUMMARY, Form.CHART, Form.CSV)]
    revision = "" if record.revision == 1 else f"-revision-{record.revision}"
    stem = f"wallside-2026-03-02-test-{record.number}{revision}"
    assert names == [f"{stem}.summary.txt", f"{stem}.png", f"{stem}.csv"]


def test_what_was_measured_again_is_on_it() -> None:
    """A very high pressure that was measured once more stands with how the test ended."""
    assert VERY_HIGH.ended_at is not None
    later = VERY_HIGH.ended_at + timedelta(minutes=1)
    repeat = Repeat(values=Values(systolic=184, diastolic=122), given_at=later)
    content = made(replace(VERY_HIGH, repeats=(repeat,)))
    assert_accessible(content)
    assert "184/122" in words_of(content)


ASKED = Circumstances(
    zone="Europe/Madrid",
    cuff=Cuff.WRIST,
    rate_source=RateSource.OXIMETER,
    medicines=(Medicine.BETA_BLOCKER,),
    last_dose=LastDose.WITHIN_4_HOURS,
    departures=(Departure.CAFFEINE,),
    audited=True,
)


def test_how_sure_it_is_stands_beside_each_change() -> None:
    """Change, margin and probability with its band: by hand from an oximeter's SD of 3.

    The SD of a change is the root of 2 times 9 and 1/6 for rounding: 4.26; +38 and +33 are 1.88
    and 0.70 SD past 30. The probability that both are, with half of their error in common, is 0.75
    (scipy.stats.multivariate_normal).
    """
    text = words_of(made(replace(CLEAR_RISE, circumstances=ASKED)))
    assert "+38±8/min,Standing10:2075%,neartheline" in text
    assert squeezed("Another day, 95 percent interval by within-person variation") in text


def test_the_grade_stands_with_its_reasons() -> None:
    """The grade comes before the findings, with all that it rests on."""
    text = words_of(made(replace(CLEAR_RISE, circumstances=ASKED)))
    grade = squeezed(
        "Quality of the test: fair, because of: departures from the preparation; "
        "a wrist cuff, its height not recorded. To mind: the first 3 min of standing not "
        "measured; a medicine that moves the numbers."
    )
    assert text.index(grade) < text.index("Findings")


def test_what_could_explain_a_finding_is_on_it() -> None:
    """Caffeine and a rise; a beta-blocker and none; a cuff held low and no fall."""
    rise = words_of(made(replace(CLEAR_RISE, circumstances=ASKED)))
    assert squeezed("Can make the heart-rate rise larger: caffeine within 3 h") in rise
    none = words_of(made(replace(NO_CHANGE, circumstances=ASKED)))
    assert squeezed("Can hide a heart-rate rise: beta-blocker") in none
    assert squeezed("Can hide a pressure fall: wrist cuff held below heart height") in none


def test_the_context_has_its_figures() -> None:
    """Sensitivity, specificity, the healthy 95th centile and the time of day, with sources."""
    text = words_of(made(CLEAR_RISE))
    for words in (
        # Plash 2013, Iftekhar 2025, Roma 2018, Moon 2016, Liu 2024: found
        "sensitivity 87 percent, specificity 67 percent (15 people with the syndrome, 15 without",
        "95th centile about 23 (n = 112; Iftekhar 2025",
        "misses 27 percent of rises, one of 2 min 53 percent (Roma 2018",
        "82.6 percent met the line in the morning, 52.2 percent in the afternoon (Moon 2016",
        "6.5/4.4 mmHg higher and can hide a fall; how the arm was held is not recorded (Liu 2024",
    ):
        assert squeezed(words) in text


def test_the_page_says_what_it_is() -> None:
    """The reference and the instant are those it was given; without them nothing is made up."""
    content = make(Form.PDF, CLEAR_RISE, "en", IMPRINT).content
    assert "Reference:HSC-0417.GeneratedMar2,2026,10:00UTC." in words_of(content)
    bare = words_of(made(CLEAR_RISE))
    assert "Reference" not in bare
    assert "Generated" not in bare


def test_how_somebody_was_looked_after_is_on_it() -> None:
    """Checks, the companion's answer and a yes to signs of danger; the last above all else."""
    assert VERY_HIGH.ended_at is not None
    aftercare = tuple(
        Aftercare(answer=answer, at=VERY_HIGH.ended_at + timedelta(minutes=5 + n))
        for n, answer in enumerate((Answer.SAME, Answer.SIGNS, Answer.COMPANION_THERE))
    )
    content = made(replace(VERY_HIGH, aftercare=aftercare))
    assert_accessible(content)
    text = words_of(content)
    said = "5:00 the same; 6:00 yes to signs of danger; 7:00 a companion is with them."
    assert squeezed(said) in text
    alert = squeezed("Yes to signs of danger with a very high pressure.")
    assert text.index(alert) < text.index("Screening")


@pytest.mark.parametrize("locale", ["en", "es"])
def test_the_fullest_page_is_whole(locale: str) -> None:
    """With the longest lists of everything it is one accessible page with nothing cut off."""
    assert CROWDED.ended_at is not None
    full = replace(
        CROWDED,
        day=DayKind.UNSURE,
        circumstances=replace(
            ASKED,
            zone="America/Argentina/ComodRivadavia",
            medicines=tuple(Medicine),
            departures=tuple(Departure),
        ),
        repeats=(Repeat(values=Values(systolic=184, diastolic=122), given_at=CROWDED.ended_at),),
        aftercare=tuple(Aftercare(answer=answer, at=CROWDED.ended_at) for answer in Answer) * 3,
    )
    content = make(Form.PDF, full, locale, IMPRINT).content
    assert_accessible(content)
    assert_within_margins(content)
    assert words_of(content)
