"""Where in a TOML file a setting stands, so that a message can name the line.

The standard library's reader says where a file is no TOML, but not where a value came from.
"""

import re
from collections.abc import Sequence
from typing import Final

_TABLE: Final = re.compile(r"\s*\[(\[?)\s*([A-Za-z0-9_.\"'-]+?)\s*\]\]?\s*(?:#.*)?")
_KEY: Final = re.compile(r"\s*([A-Za-z0-9_\"'.-]+)\s*=")


def line_of(text: str, path: Sequence[str | int]) -> int | None:
    """Return the number of the line at which a setting, or the nearest table around it, begins.

    Args:
        text: The file.
        path: The names and positions that lead to the setting, as `("team", "duty", 0, "from")`.
    """
    wanted = [str(step) for step in path]
    found: int | None = None
    deepest = 0
    table: list[str] = []
    counts: dict[str, int] = {}
    for number, line in enumerate(text.splitlines(), start=1):
        here: list[str] | None = None
        if opened := _TABLE.fullmatch(line):
            name = _plain(opened[2])
            table = name.split(".")
            if opened[1]:
                table.append(str(counts.setdefault(name, 0)))
                counts[name] += 1
            here = table
        elif keyed := _KEY.match(line):
            here = [*table, *_plain(keyed[1]).split(".")]
        if here and here == wanted[: len(here)] and len(here) > deepest:
            found, deepest = number, len(here)
    return found


def _plain(name: str) -> str:
    return name.replace('"', "").replace("'", "").replace(" ", "")
