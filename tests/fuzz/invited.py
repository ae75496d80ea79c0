"""The door of the invitations' table: any file an operator may be handed, and what comes of it."""

import csv
import io
import tempfile
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from pydantic import SecretStr

from bot.care.invitation import Invitation
from bot.care.invite_rows import TEMPLATE, read_rows
from bot.care.rules import CareRules
from bot.invitations import Invitations, _table
from bot.invite_remedies import remedy
from bot.runtime.conductor import new_code
from bot.runtime.inviting import Inviting
from bot.settings import Settings
from bot.texts import render
from tests.fuzz.draw import Draw
from tests.fuzz.laws import hold_table, hold_text
from tests.fuzz.texts import CANARY, MARKUP, any_text

_AT: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
_RULES: Final = CareRules()
_MOST: Final = 20
"""Invitations that are made of one table; more are like them."""

_HEADS: Final = (
    "reference,language,protocol,note", "Nota;Referencia;Idioma;Prueba", "reference", "note\tnote",
    "reference,note", "note,reference", '"reference","note"', "reference|note", "\ufeffreference",
)  # fmt: skip
_CELLS: Final = (
    "", "HS-1", "HS-0042", "hs-1", "=HS-1", '="HS-2"', "'HS-3", "+34600000001", "-1", "@A1",
    "Ana Lopez", "ana@clinic.example", "1979-05-27", "es", "en", "español", "fr", "six-readings",
    "6", "nine", "walks, slowly", "-", "_", "９", "HS-١", "HS‑1", "HS-1\u202e", "HS-1\u200b",
)  # fmt: skip
_ENCODINGS: Final = (
    "utf-8", "utf-8", "utf-8", "utf-8-sig", "utf-16", "cp1252", "utf-16-le", "utf-32", "utf-7",
)  # fmt: skip


def invitation_table(content: bytes) -> None:
    """Any bytes as a table of people to be invited: read, or each line refused in our words.

    What is taken is made into the table that is handed out, of which no cell runs.
    """
    draw = Draw(content)
    raw = _any_table(draw)
    found = read_rows(raw, _RULES, _TAKEN)
    assert bool(found.wanted) != bool(found.wrong), "a table is neither taken nor refused"
    lines = raw.count(b"\n") + raw.count(b"\r") + 1
    for wrong in found.wrong:
        assert 1 <= wrong.line <= lines, f"there is no line {wrong.line}"
        said = remedy(wrong)
        hold_text(said)
        assert CANARY not in said, "a remedy repeats what stands in the table"
    some = found.wanted[:_MOST]
    made = tuple(_INVITATIONS._made(i) for i in _INVITING.drawn(some, (), at=_AT))
    for one in made:
        hold_text(render("care.invitation.note", {"note": one.invitation.note or "-"}, "en"))
    table = _table(made)
    hold_table(table)
    rows = list(csv.reader(io.StringIO(table.decode("utf-8-sig"), newline="")))
    assert len(rows) == len(some) + 1, "somebody is not in the table"
    for row in rows:
        for cell in row:
            hold_text(cell)


def _any_table(draw: Draw) -> bytes:
    kind = draw.below(10)
    if kind == 0:
        return any_text(draw).encode("utf-8", "surrogatepass")
    if kind == 1:
        return TEMPLATE.replace("HS-", draw.pick((*MARKUP, "\x00", "\ud800"))).encode(
            draw.pick(_ENCODINGS), "replace"
        )
    head = draw.pick(_HEADS)
    parted = next((sign for sign in ";\t|" if sign in head), ",")
    width = head.count(parted) + 1
    rows = [head, *(_row(draw, parted, width, n) for n in range(draw.pick((1, 2, 5, 40))))]
    if draw.often(4):
        rows += [f"HS-9{n}{parted * (width - 1)}" for n in range(1500)]
    if draw.often(5):
        rows += [parted * 200_000, draw.pick(("x", "1-", '"')) * 150_000]
    if draw.often(2):
        rows += [draw.pick(("", "1-" * 6000)) for _ in range(300)]
    if draw.often(10):
        sign = draw.pick((";", ",", "|", '"', "", "\x00"))
        rows.insert(0, f"sep={sign}")
    body = draw.pick(("\n", "\r\n", "\r", "\n\n")).join(rows)
    raw = body.encode(draw.pick(_ENCODINGS), "replace")
    if draw.often(15):
        place = draw.below(len(raw) + 1)
        raw = raw[:place] + bytes([draw.below(256)]) + raw[place + draw.below(3) :]
    return raw


def _row(draw: Draw, parted: str, width: int, number: int) -> str:
    cells = [draw.pick(_CELLS) if draw.often(40) else "" for _ in range(width)]
    if draw.often(85):
        cells = [cell if draw.often(20) else "" for cell in cells]
        cells[0] = f"HS-{100 + number}"
    if draw.often(10):
        cells[draw.below(width)] = any_text(draw, 300)
    if draw.often(5):
        cells.append("more")
    if draw.often(70):
        cells = [f'"{cell.replace(chr(34), chr(34) * 2)}"' for cell in cells]
    return parted.join(cells)


_INVITING: Final = Inviting(lambda: _RULES, new_code)
_TAKEN: Final[tuple[Invitation, ...]] = ()
with tempfile.TemporaryDirectory() as _folder:
    _INVITATIONS: Final = Invitations(
        Settings(folder=Path(_folder), database=SecretStr(""), bot_name="harbour_bot")
    )
