"""What a page says of itself: whom it is about, by an opaque reference, and when it was made."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from importlib.metadata import version
from typing import Final

from bot.reports.formats import moment
from bot.reports.glyphs import printable
from bot.texts import render

_LONGEST: Final = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Imprint:
    """What a page says of itself.

    Attributes:
        reference: What the person is known as; opaque, never a name. Empty when not known.
        generated: When it was asked for; `None` when that is not known.
    """

    reference: str = ""
    generated: datetime | None = None

    def lines(self, locale: str) -> Iterator[str]:
        """Yield what is known, sentence by sentence."""
        if reference := printable(self.reference, _LONGEST):
            yield render("files.foot.reference", {"reference": reference}, locale)
        if self.generated is not None:
            at = moment(self.generated, locale)
            yield render("files.foot.generated", {"moment": at}, locale)
        yield render("files.foot.made", {"software": software()}, locale)


@cache
def software() -> str:
    """Return the version of this program, which is read from the disk once."""
    return version("wallside")
