"""What lies beside the files: what they are, and what each column of the table holds."""

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from bot.engine.effects import Form, Param
from bot.reports.columns import COLUMNS, PERSON
from bot.texts import render

_WIDE: Final = 78
"""Characters of a line: what a plain editor shows (common practice, no source)."""


_SAME: Final = "The same."
"""What the dictionary says of a column that holds what the one before it does."""

_FURTHER: Final = textwrap.TextWrapper(
    _WIDE, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False
)


def readme(
    forms: Sequence[Form], language: str, *, people: int, tests: int, research: bool
) -> bytes:
    """Return the words in UTF-8, lines of at most 78 characters.

    Args:
        forms: The forms that go into the export.
        language: A shipped language; what the columns hold is said in English.
        people: How many.
        tests: How many.
        research: Whether references and dates were changed.
    """
    counts = {"people": people, "tests": tests}
    blocks = [
        _heading("export.title", language, "="),
        _say("export.what", language),
        _say("export.counts", language, counts),
        _say("export.caution", language),
        _heading("export.files", language),
        *(_item(_say(f"export.file.{form}", language)) for form in forms),
        _item(_say("export.file.manifest", language)),
    ]
    if research:
        blocks.append(_heading("export.research", language))
        blocks += [
            _say(f"export.research.{what}", language)
            for what in ("references", "dates", "words", "caution")
        ]
    if Form.CSV in forms:
        blocks.append(_heading("export.opening", language))
        blocks += [_say(f"export.opening.{what}", language) for what in ("spreadsheet", "rows")]
        blocks += [_heading("export.columns", language), _say("export.columns.english", language)]
        blocks += _columns()
    together = "\n\n".join(_wrapped(block) for block in blocks)
    return f"{together}\n".encode()


def _columns() -> Iterator[str]:
    """Yield what every column holds; those that hold the same, of other lines, stand together."""
    alike: dict[str, list[str]] = {}
    for column in (PERSON, *COLUMNS):
        name, holds = column.name, column.holds
        alike.setdefault(name if holds == _SAME else holds, []).append(name)
    for holds, names in alike.items():
        said = _SAME if holds in names else holds
        plain = said.replace("` \\| `", '"|"').replace("`", "").replace("\\|", "|")
        yield "\n".join((*names, _FURTHER.fill(plain)))


def _say(key: str, language: str, params: Mapping[str, Param] | None = None) -> str:
    return render(key, params or {}, language)


def _heading(key: str, language: str, under: str = "-") -> str:
    words = _say(key, language)
    return f"{words}\n{under * len(words)}"


def _item(words: str) -> str:
    return textwrap.fill(f"- {words}", _WIDE, subsequent_indent="  ", break_on_hyphens=False)


def _wrapped(block: str) -> str:
    if "\n" in block:
        return block
    return textwrap.fill(block, _WIDE, break_on_hyphens=False)
