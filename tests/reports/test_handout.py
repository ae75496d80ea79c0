"""The handout to print: two accessible pages in grey, with all that a person needs without us."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, replace
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from typing import Any

import page as validator
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
import segno
from typer.testing import CliRunner

from bot.cli import app
from bot.engine.context import StopLines
from bot.errors import SettingsError
from bot.protocol.circumstances import Hazard
from bot.protocol.definition import Protocol
from bot.protocol.released import FOUR_READINGS, SIX_READINGS
from bot.reports.handout import Handout, typeset
from bot.reports.typesetting import TooLongError
from bot.texts import LANGUAGES, render

AT = datetime(2026, 3, 2, 9, tzinfo=UTC)
LINK = "https://t.me/harbour_street_bot?start=q7Xr2mVt0aJb5kLw9yZc3dEf6gHn-pQs"
PLAIN = Handout(protocol=FOUR_READINGS, lines=StopLines())
FULL = Handout(
    protocol=SIX_READINGS,
    lines=StopLines(),
    contact="Harbour Street Clinic, 12 Harbour Street, 555-0100, nurses@harbour-street.example",
    emergency_number="112",
    medicine_plan="Take all as usual. Midodrine: not in the four hours before.",
    link=LINK,
    until=date(2026, 4, 1),
)
BOTH = pytest.mark.parametrize("handout", [PLAIN, FULL], ids=["plain", "full"])
IN_EACH = pytest.mark.parametrize("locale", LANGUAGES)


@cache
def made(handout: Handout, locale: str) -> bytes:
    """Return the PDF."""
    return typeset(handout, locale, AT)


@contextmanager
def opened(content: bytes) -> Iterator[Any]:
    """Open a PDF for a while."""
    document = pypdfium2.PdfDocument(content)
    try:
        yield document
    finally:
        document.close()


def words_of(content: bytes) -> list[str]:
    """Return the words of each page, without white space and breaks of lines."""
    with opened(content) as document:
        return [squeezed(one.get_textpage().get_text_range()) for one in document]


def squeezed(text: str) -> str:
    """Return text without white space; the extractor marks a hyphen at the end of a line."""
    return re.sub(r"\s+", "", text.replace("\ufffe", "-"))


@BOTH
@IN_EACH
def test_it_is_two_accessible_pages(handout: Handout, locale: str) -> None:
    """Every handout has just two pages and passes PDF/UA-1 by an independent checker."""
    report = validator.validate_pdf_bytes(
        made(handout, locale), profile=validator.ValidationProfile.PDF_UA_1
    )
    assert [failure.message for failure in report.failures] == []
    assert report.is_compliant
    assert len(words_of(made(handout, locale))) == 2


@BOTH
@IN_EACH
def test_text_is_large_and_within_the_margins(handout: Handout, locale: str) -> None:
    """No letter is smaller than 12 points, and none comes near the edge of the paper."""
    with opened(made(handout, locale)) as document:
        for one in document:
            width, height = one.get_size()
            assert (round(width), round(height)) == (595, 842)  # A4 in points
            text = one.get_textpage()
            numbers = [n for n in range(text.count_chars()) if text.get_text_range(n, 1).strip()]
            sizes = [pdfium.FPDFText_GetFontSize(text.raw, number) for number in numbers]
            assert min(sizes) >= 12
            boxes = [text.get_charbox(number) for number in numbers]
            assert min(left for left, _, _, _ in boxes) >= 30
            assert max(right for _, _, right, _ in boxes) <= width - 30
            assert min(bottom for _, bottom, _, _ in boxes) >= 24


def test_it_is_grey() -> None:
    """The full handout has no colour, so that a grey print loses nothing."""
    with opened(made(FULL, "en")) as document:
        for one in document:
            red, green, blue = one.render(scale=0.7).to_pil().convert("RGB").split()
            assert red.tobytes() == green.tobytes() == blue.tobytes()


@pytest.mark.parametrize("protocol", [FOUR_READINGS, SIX_READINGS], ids=str)
@IN_EACH
def test_each_day_has_a_row_for_each_reading(protocol: Protocol, locale: str) -> None:
    """Both tables have just the readings of the protocol, in their order, and a heading each."""
    table = words_of(made(replace(PLAIN, protocol=protocol), locale))[1]
    rows = [
        render(f"handout.row.{phase.position}", {"time": slot.due}, locale)
        for phase in protocol.phases
        for slot in phase.slots
    ]
    good, bad = (table.index(squeezed(render(f"handout.table.{day}", {}, locale)))
                 for day in ("good", "symptomatic"))  # fmt: skip
    for part in (table[good:bad], table[bad:]):
        found = [part.index(squeezed(row)) for row in rows]
        assert found == sorted(found)
        assert all(part.count(squeezed(row)) == 1 for row in rows)
        assert squeezed(render("handout.head.symptoms", {}, locale)) in part


@IN_EACH
def test_who_should_ask_first_and_when_to_stop_are_said(locale: str) -> None:
    """Everyone of the checklist is named, and each stop line with the clinic's own number."""
    lines = StopLines(
        standing_systolic_below=91, systolic_from=181, diastolic_from=121, large_fall=31,
        fall_with_slowing=21, supine_systolic_below=88, seated_systolic_below=92,
        supine_rate_below=41, supine_rate_from=131,
        standing_heart_rate=161, standing_heart_rate_always=182,
    )  # fmt: skip
    steps = words_of(made(replace(PLAIN, lines=lines), locale))[0]
    for hazard in Hazard:
        assert squeezed(render(f"handout.hazard.{hazard}", {}, locale)) in steps
    said = steps[steps.index(squeezed(render("handout.stop", {}, locale))) :]
    numbers = re.findall(r"\d+", said)
    assert numbers == ["91", "31", "21", "182", "161", "92", "41", "131", "181", "121"]
    not_said = {"slowing", "supine_systolic_below"}  # any slowing; the higher of the two
    assert set(numbers) == {str(n) for name, n in asdict(lines).items() if name not in not_said}
    assert squeezed(render("medicines.as-prescribed", {}, locale)) in steps


@IN_EACH
def test_the_clinics_own_words_are_there(locale: str) -> None:
    """Contact, emergency number, plan for medicines and link stand as they were given."""
    steps, table = words_of(made(FULL, locale))
    assert squeezed(FULL.medicine_plan) in steps
    assert FULL.emergency_number in steps
    assert squeezed(FULL.contact) in table
    assert LINK in table
    assert "2026" in table


def test_what_the_clinic_has_not_set_leaves_a_line() -> None:
    """Without them there is a place to write them by hand, no link and no square."""
    steps, table = words_of(made(PLAIN, "en"))
    assert steps.endswith("Emergencynumber:")
    assert "Showthesepagestoyourcareteam:Wallside" in table
    assert "chat" not in table


def test_the_square_carries_the_link() -> None:
    """Every field of the square is as the QR code of the link has it."""
    wanted = [bytes(row) for row in segno.make(LINK, micro=False, error="m").matrix]
    with opened(made(FULL, "en")) as document:
        image = document[1].render(scale=4).to_pil().convert("L")
    width, height = image.size
    corner = image.crop((int(width * 0.77), int(height * 0.74), width, height))
    square = corner.crop(corner.point(lambda shade: 255 * (shade < 128)).getbbox())
    step = square.width / len(wanted)
    found = [
        bytes(
            square.getpixel((int((x + 0.5) * step), int((y + 0.5) * step))) < 128
            for x in range(len(wanted))
        )
        for y in range(len(wanted))
    ]
    assert found == wanted


def test_the_same_facts_give_the_same_bytes() -> None:
    """Made twice, it is the same file."""
    assert typeset(FULL, "es", AT) == made(FULL, "es")


def test_a_longer_language_fits(longer_words: None) -> None:
    """With all sentences a third longer, the plain handout is still two pages."""
    assert len(words_of(typeset(PLAIN, "en", AT))) == 2


def test_words_that_do_not_fit_are_refused() -> None:
    """A plan for medicines is never cut off: what is too long is refused."""
    with pytest.raises(TooLongError):
        typeset(replace(PLAIN, medicine_plan="Ask us about each of them. " * 90), "en", AT)


def test_the_command_writes_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`handout` writes one for anybody, with the bot's own link and the clinic's contact."""
    monkeypatch.setenv("WALLSIDE_BOT_NAME", "harbour_street_bot")
    monkeypatch.setenv("WALLSIDE_CONTACT", "Harbour Street Clinic")
    out = tmp_path / "plain.pdf"
    done = CliRunner().invoke(app, ["handout", "--language", "es", "--out", str(out)])
    assert done.exit_code == 0, done.output
    table = words_of(out.read_bytes())[1]
    assert "https://t.me/harbour_street_botWallside" in table
    assert "equipomédico:HarbourStreetClinic" in table


@pytest.mark.parametrize(
    ("arguments", "named"),
    [
        (["--protocol", "nine"], "nine"),
        (["--out", "nowhere/handout.pdf"], "nowhere/handout.pdf"),
        (["--contact", "word " * 2000], "contact"),
    ],
)
def test_what_cannot_be_done_is_said(
    arguments: list[str], named: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A wrong protocol, a file that cannot be written and words that do not fit are each named."""
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(app, ["handout", *arguments])
    assert isinstance(done.exception, SettingsError)
    assert named in str(done.exception)
