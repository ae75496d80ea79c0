"""An invitation as files: the link as a square picture, and the handout that goes with it."""

import io
from typing import Final

import segno

from bot.engine.effects import HandHandout
from bot.protocol.released import released
from bot.reports.file import File
from bot.reports.handout import Handout, typeset

_DOT: Final = 12
"""Pixels of one square: a link of 90 letters makes some 500 pixels across, which a phone's camera
reads from a screen (design choice)."""


def picture(reference: str, content: str) -> File:
    """Return a link or code as a QR picture (ISO/IEC 18004, level M), as PNG."""
    out = io.BytesIO()
    segno.make(content, micro=False, error="m").save(out, kind="png", scale=_DOT, border=4)
    return File(name=f"wallside-{reference}.png", media_type="image/png", content=out.getvalue())


def paper(effect: HandHandout) -> File:
    """Return the handout of an invitation. It takes some 100 ms; call it off the event loop.

    Raises:
        TooLongError: The clinic's own words are too long for the pages.
        KeyError: There is no such protocol.
    """
    handout = Handout(
        protocol=released(effect.protocol),
        lines=effect.lines,
        contact=effect.contact,
        emergency_number=effect.emergency_number,
        medicine_plan=effect.medicine_plan,
        link=effect.link,
        until=effect.good_until if effect.link else None,
    )
    return File(
        name=f"wallside-{effect.reference}.pdf",
        media_type="application/pdf",
        content=typeset(handout, effect.language, effect.made_at),
    )
