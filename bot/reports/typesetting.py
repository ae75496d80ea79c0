"""The typesetter: facts and a template in, PDF or PNG out, with the shipped font alone.

Each thread has its own compilers, one for each template, since one may not be used by two threads.
"""

import json
import threading
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


class _Compilers(threading.local):
    """The compilers of one thread, by template; a new one for each call would read all anew."""

    def __init__(self) -> None:
        self._known: dict[str, typst.Compiler] = {}

    def of(self, template: str) -> typst.Compiler:
        """Return the compiler of a template."""
        if template not in self._known:
            self._known[template] = typst.Compiler(
                _HERE / template, root=_HERE, font_paths=_fonts(), ignore_system_fonts=True
            )
        return self._known[template]


_compilers: Final = _Compilers()


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
        made = _compilers.of(template).compile(
            format="pdf",
            pdf_standards=["ua-1"],
            timestamp=at.astimezone(UTC).replace(microsecond=0),
            sys_inputs={"facts": json.dumps(facts)},
        )
    except typst.TypstError as error:
        if TOO_LONG in str(error):
            raise TooLongError from error
        raise
    return _one(made)


def typeset_picture(svg: str, pixels: int) -> bytes:
    """Return an SVG drawing of 360 units across as PNG, so many pixels across."""
    made = _compilers.of("picture.typ").compile(
        format="png", ppi=72 * pixels / _WIDTH, sys_inputs={"facts": svg}
    )
    return _one(made)


def _one(made: bytes | list[bytes] | None) -> bytes:
    """Return what was made: one file, in memory."""
    assert isinstance(made, bytes), "neither several files nor one on the disk was asked for"
    return made
