"""Invitations in bulk: a table as spreadsheets write it, into what is wanted; or what is wrong."""

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from bot.care.invitation import Invitation, InvitationWanted, Unwanted, unwanted
from bot.care.invite_words import language_named, protocol_named
from bot.care.references import Fault, fault_of, same
from bot.care.rules import CareRules
from bot.engine.hearing import normalised

MOST: Final = 1000
"""Rows of one table (design choice): some minutes of making papers."""

LARGEST: Final = 2**20
"""Bytes of one table (design choice): twice what `MOST` rows with the longest notes come to. What
is larger was never a table of people, and would take long to read."""

TEMPLATE: Final = (
    "reference,language,protocol,note\n"
    "HS-0042,es,six-readings,walks with a stick\n"
    "HS-0043,en,four-readings,\n"
)
"""A table to begin with; what is invited is invented."""

_COLUMNS: Final = {
    "reference": "reference", "referencia": "reference",
    "language": "language", "idioma": "language", "lengua": "language",
    "protocol": "protocol", "protocolo": "protocol", "test": "protocol", "prueba": "protocol",
    "note": "note", "nota": "note", "notes": "note", "notas": "note",
}  # fmt: skip
_AS_TEXT: Final = re.compile(r'="(.*)"', re.DOTALL)
_SEPARATOR: Final = re.compile(r"sep=([;,\t|])\r?\n", re.IGNORECASE)


class Problem(StrEnum):
    """What is wrong with a line, beside a reference that cannot be used."""

    ENCODING = "encoding"
    EMPTY = "empty"
    COLUMN = "column"
    TWICE_COLUMN = "twice-column"
    CELLS = "cells"
    QUOTES = "quotes"
    CELL = "cell"
    LARGE = "large"
    TWICE = "twice"
    MANY = "many"


@dataclass(frozen=True, slots=True)
class Wrong:
    """A line that cannot be used, counted as a text editor counts it, and why."""

    line: int
    why: Problem | Unwanted | Fault


@dataclass(frozen=True, slots=True)
class Table:
    """What a table holds: what is wanted, if nothing is wrong."""

    wanted: tuple[InvitationWanted, ...]
    wrong: tuple[Wrong, ...]


class _CannotRead(Exception):  # noqa: N818 - it never leaves this module
    def __init__(self, line: int, why: Problem) -> None:
        super().__init__()
        self.wrong = Wrong(line, why)


def read_rows(content: bytes, rules: CareRules, taken: tuple[Invitation, ...]) -> Table:
    """Return what a table asks for; every line that is wrong is named.

    Commas, semicolons and tabs are taken, with a byte order mark or without, in UTF-8, UTF-16 or
    the Western code page of older spreadsheets. The first line names the columns, in any order:
    reference, language, protocol, note. None is required; a row without a reference gets one.

    Args:
        content: The file.
        rules: What the clinic has set for its team.
        taken: All invitations that there are.
    """
    wanted: list[InvitationWanted] = []
    wrong: list[Wrong] = []
    seen: set[str] = set()
    try:
        for line, cells in _rows(_text(content)):
            row, faults = _row(cells, rules, taken)
            if row.reference is not None:
                if row.reference.casefold() in seen:
                    faults = (*faults, Problem.TWICE)
                seen.add(row.reference.casefold())
            wanted.append(row)
            wrong += [Wrong(line, fault) for fault in faults]
            if len(wanted) > MOST:
                raise _CannotRead(line, Problem.MANY)  # noqa: TRY301 - as reading a line does
        if not wanted:
            raise _CannotRead(1, Problem.EMPTY)  # noqa: TRY301 - the same
    except _CannotRead as error:
        wrong.append(error.wrong)
    return Table((), tuple(wrong)) if wrong else Table(tuple(wanted), ())


def _row(
    cells: dict[str, str], rules: CareRules, taken: tuple[Invitation, ...]
) -> tuple[InvitationWanted, tuple[Problem | Unwanted | Fault, ...]]:
    reference, language, protocol, note = (
        cells.get(name) or None for name in ("reference", "language", "protocol", "note")
    )
    wanted = InvitationWanted(
        reference=reference,
        language=None if language is None else language_named(language) or language,
        protocol=None if protocol is None else protocol_named(protocol) or protocol,
        note=note,
    )
    fault = None if reference is None else fault_of(reference)
    invited = reference is not None and same(reference, taken) is not None
    faults = (fault, Unwanted.INVITED if invited else None, *unwanted(wanted, rules))
    return wanted, tuple(f for f in faults if f is not None)


def _text(content: bytes) -> str:
    if len(content) > LARGEST:
        raise _CannotRead(1, Problem.LARGE)
    marks = {b"\xef\xbb\xbf": "utf-8-sig", b"\xff\xfe": "utf-16", b"\xfe\xff": "utf-16"}
    named = next((name for mark, name in marks.items() if content.startswith(mark)), None)
    for encoding in (named,) if named else ("utf-8", "cp1252"):
        try:
            text = content.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\x00" not in text:
            return text
    raise _CannotRead(1, Problem.ENCODING)


def _rows(text: str) -> Iterator[tuple[int, dict[str, str]]]:
    """Yield each row that is not empty, by the names of its columns, with its line."""
    told = _SEPARATOR.match(text)
    above = 0 if told is None else 1
    body = text if told is None else text[told.end() :]
    first = body.split("\n", 1)[0]
    parted = told[1] if told else max(";\t,", key=first.count)
    reader = csv.reader(io.StringIO(body, newline=""), delimiter=parted, strict=True)
    names: list[str] | None = None
    line = above + 1
    try:
        for row in reader:
            cells = [_cell(cell) for cell in row]
            if any(cells) and names is None:
                names = _names(cells, line)
            elif any(cells) and names is not None:
                if any(cells[len(names) :]):
                    raise _CannotRead(line, Problem.CELLS)
                yield line, {n: c for n, c in zip(names, cells, strict=False) if n}
            line = above + reader.line_num + 1
    except csv.Error as error:
        too_long = "field larger" in str(error)
        raise _CannotRead(line, Problem.CELL if too_long else Problem.QUOTES) from None


def _names(cells: list[str], line: int) -> list[str]:
    while cells and not cells[-1]:
        cells = cells[:-1]
    names = [_COLUMNS.get(normalised(cell), "?") for cell in cells]
    if "?" in names:
        raise _CannotRead(line, Problem.COLUMN)
    if len(set(names)) < len(names):
        raise _CannotRead(line, Problem.TWICE_COLUMN)
    return names


def _cell(cell: str) -> str:
    """Return what somebody meant to write: spreadsheets guard texts by = and quotes, or by '."""
    bare = " ".join(cell.split())
    as_text = _AS_TEXT.fullmatch(bare)
    return (bare if as_text is None else as_text[1]).removeprefix("'").strip()
