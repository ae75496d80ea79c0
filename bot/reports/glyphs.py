"""Which characters the shipped font can draw, and how wide they are.

A character without a glyph is an error in an accessible PDF, so a person's own words are
sifted here first. Reads two tables of the font files (OpenType: `cmap` format 4, `hmtx`).
"""

import struct
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Final

FONTS: Final = Path(__file__).parent / "fonts"
"""The folder of the font files, the only fonts in use."""

FAMILY: Final = "Noto Sans"
UNKNOWN: Final = "\N{REPLACEMENT CHARACTER}"
"""Stands for one or more characters that the font cannot draw."""

_WINDOWS_BMP: Final = (3, 1)


@dataclass(frozen=True, slots=True)
class Face:
    """One weight of the font.

    Attributes:
        advances: The width of each character it can draw, in fractions of the font size.
    """

    advances: Mapping[int, float]

    def width(self, text: str, size: float) -> float:
        """Return the width of a line of text, in the unit of `size`; kerning is left out."""
        unknown = self.advances[ord(UNKNOWN)]
        return size * sum(self.advances.get(ord(character), unknown) for character in text)


@lru_cache
def face(*, bold: bool = False) -> Face:
    """Return a weight of the shipped font.

    Raises:
        FileNotFoundError: The installation is incomplete.
    """
    font = (FONTS / f"NotoSans-{'Bold' if bold else 'Regular'}.ttf").read_bytes()
    (count,) = struct.unpack_from(">H", font, 4)
    tables = {}
    for number in range(count):
        tag, _, offset, _ = struct.unpack_from(">4sIII", font, 12 + 16 * number)
        tables[tag] = offset
    (em,) = struct.unpack_from(">H", font, tables[b"head"] + 18)
    (metrics,) = struct.unpack_from(">H", font, tables[b"hhea"] + 34)

    def advance(glyph: int) -> float:
        at = tables[b"hmtx"] + 4 * min(glyph, metrics - 1)
        width: int = struct.unpack_from(">H", font, at)[0]
        return width / int(em)

    glyphs = _glyphs(font, tables[b"cmap"])
    return Face({character: advance(glyph) for character, glyph in glyphs.items()})


def _glyphs(font: bytes, cmap: int) -> dict[int, int]:
    """Return the glyph number of each character of the basic plane."""
    (count,) = struct.unpack_from(">H", font, cmap + 2)
    entries = [struct.unpack_from(">HHI", font, cmap + 4 + 8 * number) for number in range(count)]
    table = cmap + next(offset for *kind, offset in entries if tuple(kind) == _WINDOWS_BMP)
    (twice,) = struct.unpack_from(">H", font, table + 6)
    segments = twice // 2
    ends = struct.unpack_from(f">{segments}H", font, table + 14)
    starts = struct.unpack_from(f">{segments}H", font, table + 16 + twice)
    deltas = struct.unpack_from(f">{segments}H", font, table + 16 + 2 * twice)
    ranges_at = table + 16 + 3 * twice
    ranges = struct.unpack_from(f">{segments}H", font, ranges_at)
    found: dict[int, int] = {}
    for number, (start, end, delta, distance) in enumerate(
        zip(starts, ends, deltas, ranges, strict=True)
    ):
        for character in range(start, end + 1):
            glyph = character
            if distance:
                at = ranges_at + 2 * number + distance + 2 * (character - start)
                (glyph,) = struct.unpack_from(">H", font, at)
                if not glyph:
                    continue
            glyph = (glyph + delta) & 0xFFFF
            if glyph:
                found[character] = glyph
    return found


def printable(text: str, limit: int | None = None) -> str:
    """Return the text on one line, in characters that can be drawn.

    Invisible controls (also those that turn the reading direction) are dropped, white space
    becomes single spaces, and each run of characters without a glyph becomes `UNKNOWN`.

    Args:
        text: Any text at all.
        limit: The greatest number of characters; what is cut off leaves an ellipsis.
    """
    kept: list[str] = []
    drawn = face().advances
    for character in unicodedata.normalize("NFC", text):
        category = unicodedata.category(character)
        if character.isspace() or category == "Cc":
            kept.append(" ")
        elif (
            category == "Cf"
            or character == "\N{COMBINING GRAPHEME JOINER}"
            or "\N{VARIATION SELECTOR-1}" <= character <= "\ufe0f"
        ):
            continue
        elif category.startswith("M") and kept[-1:] in ([], [" "], [UNKNOWN]):
            # It would hang on nothing, and the typesetter would put a circle under it.
            if kept[-1:] != [UNKNOWN]:
                kept.append(UNKNOWN)
        elif ord(character) in drawn and character != UNKNOWN:
            kept.append(character)
        elif kept[-1:] != [UNKNOWN]:
            kept.append(UNKNOWN)
    line = " ".join("".join(kept).split())
    if limit is not None and len(line) > limit:
        line = f"{line[: max(0, limit - 1)].rstrip()}…"
    return line
