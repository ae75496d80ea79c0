"""Sifting words for the font, and how wide they are."""

import io
import unicodedata

import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from bot.reports.glyphs import FAMILY, FONTS, UNKNOWN, face, printable
from tests.reports.examples import HOSTILE


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", ["Standing", "106", "lying + 30 = 98", "ñandú ¿Qué?", "ΔБж–…"])
def test_widths_are_those_of_the_typesetter(text: str, *, bold: bool) -> None:
    """A width read from the font file agrees with the page that the typesetter makes for it."""
    weight = "bold" if bold else "regular"
    source = (
        "#set page(width: auto, height: auto, margin: 0pt)\n"
        f'#set text(font: "{FAMILY}", size: 100pt, weight: "{weight}", kerning: false)\n'
        "#sys.inputs.words"
    )
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONTS)]
    )
    png = typst.compile(
        source.encode(), format="png", ppi=72, font_paths=fonts, ignore_system_fonts=True,
        sys_inputs={"words": text},
    )  # fmt: skip
    assert Image.open(io.BytesIO(png)).width == pytest.approx(
        face(bold=bold).width(text, 100), abs=1.5
    )


def test_both_weights_draw_the_same_characters() -> None:
    """Words that one weight can draw, the other can too."""
    assert face(bold=False).advances.keys() == face(bold=True).advances.keys()


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain words, ñ and é", "plain words, ñ and é"),
        ("  two\n\tlines  ", "two lines"),
        ("a\u202eb\u2066c\u200d", "abc"),
        ("ouch \U0001f635\U0001f4ab!", f"ouch {UNKNOWN}!"),
        ("عندي", UNKNOWN),
        ("e\u0301", "é"),
        ("x\x00\ud800y", f"x {UNKNOWN}y"),
        ("", ""),
    ],
)
def test_words_are_sifted(text: str, shown: str) -> None:
    """Controls go, what the font lacks becomes one mark, the rest stays."""
    assert printable(text) == shown


@pytest.mark.parametrize(("text", "shown"), [("abcdef", "abcd…"), ("abcde", "abcde"), ("", "")])
def test_long_words_are_cut_visibly(text: str, shown: str) -> None:
    """What is cut leaves an ellipsis, within the limit."""
    assert printable(text, 5) == shown


@given(text=st.text() | st.sampled_from(HOSTILE))
def test_any_text_becomes_printable(text: str) -> None:
    """Whatever the text: one line, every character with a glyph, no control among them."""
    shown = printable(text, 200)
    assert all(ord(character) in face().advances for character in shown)
    assert not {unicodedata.category(character) for character in shown} & {"Cc", "Cf", "Cs"}
    assert len(shown) <= 200
    assert printable(shown, 200) == shown
