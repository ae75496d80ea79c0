"""Rows of figures, and the one table in which all are shown."""

import json
import os
import platform
import sys
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import UTC, datetime

from rich.console import Console
from rich.table import Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One figure.

    Attributes:
        part: What is looked at.
        name: Whose figure, or which.
        value: The figure, if it is one by itself.
        unit: What it is in.
        ratio: Against the first row of the part, or what the name says.
        aim: What the value or the ratio is to be.
        note: What to know with it; why there is no figure.
    """

    part: str
    name: str
    value: float | None = None
    unit: str = ""
    ratio: float | None = None
    aim: str = ""
    note: str = ""


def machine() -> str:
    """Return what the figures were taken on: no name of a host."""
    cores = os.cpu_count()
    return f"{cores} cores, Python {platform.python_version()}, {datetime.now(UTC):%Y-%m-%d}"


def _figure(value: float | None) -> str:
    if value is None:
        return ""
    return f"{value:,.0f}" if abs(value) >= 100 else f"{value:.3g}"


def show(rows: Iterable[Row]) -> None:
    """Print rows as a table, as JSON with `--json`, or as Markdown with `--markdown`."""
    found = list(rows)
    if "--json" in sys.argv:
        body = {"machine": machine(), "rows": [asdict(row) for row in found]}
        sys.stdout.write(json.dumps(body, indent=1, ensure_ascii=False) + "\n")
        return
    if "--markdown" in sys.argv:
        sys.stdout.write("| | | figure | ratio | aim | |\n|---|---|---|---|---|---|\n")
        for row in found:
            cells = (row.part, row.name, f"{_figure(row.value)} {row.unit}".strip())
            more = (_figure(row.ratio), row.aim, row.note)
            sys.stdout.write("| " + " | ".join((*cells, *more)) + " |\n")
        return
    table = Table("part", "", "figure", "ratio", "aim", "note", title=machine())
    before = ""
    for row in found:
        if row.part != before and before:
            table.add_section()
        table.add_row(
            row.part if row.part != before else "",
            row.name,
            f"{_figure(row.value)} {row.unit}".strip(),
            _figure(row.ratio),
            row.aim,
            row.note,
        )
        before = row.part
    Console(width=150).print(table)
