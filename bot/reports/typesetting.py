"""The typesetter: facts and a template in, PDF or PNG out, with the shipped font alone.

A call makes its own compiler, since one compiler may not be used by two threads.
"""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import Final

import typst

from bot.reports.glyphs import FONTS

TOO_LONG: Final = "longer than it may be"
"""What a template says when its facts do not fit; `TooLongError` is raised."""

_HERE: Final = Path(__file__).parent
_WIDTH: Final = 360


class TooLongError(Exception):
    """The facts do not fit on the pages."""


@lru_cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONTS)]
    )


def typeset_page(template: str, facts: Mapping[str, object], at: datetime) -> bytes:
    """Return an accessible PDF (PDF/UA-1).

    Args:
        template: The name of a template beside this module.
        facts: What it is given, as JSON: text stays text and is never read as markup.
        at: The instant written into the file.

    Raises:
        TooLongError: The facts do not fit on the pages that they may take.
    """
    try:
        return typst.compile(
            _HERE / template,
            root=_HERE,
            format="pdf",
            pdf_standards=["ua-1"],
            timestamp=at.astimezone(UTC).replace(microsecond=0),
            font_paths=_fonts(),
            ignore_system_fonts=True,
            sys_inputs={"facts": json.dumps(facts)},
        )
    except typst.TypstError as error:
        if TOO_LONG in str(error):
            raise TooLongError from error
        raise


def typeset_picture(svg: str, pixels: int) -> bytes:
    """Return an SVG drawing of 360 units across as PNG, so many pixels across."""
    return typst.compile(
        _HERE / "picture.typ",
        root=_HERE,
        format="png",
        ppi=72 * pixels / _WIDTH,
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"facts": svg},
    )
