"""How a conversation looks in a terminal: the clock, who speaks, the words, numbered buttons."""

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import Final

from rich.console import Console
from rich.table import Table
from rich.text import Text

WALLSIDE: Final = "Wallside"
_STYLES: Final = {WALLSIDE: "cyan"}
_PERSON: Final = "green"


def numbered(labels: Sequence[str]) -> list[tuple[str, str]]:
    """Return what to type for each button, with its label.

    A button whose label is itself a number keeps it; the others count on from the highest.
    """
    taken = [int(label) for label in labels if label.isdecimal()]
    following = max(taken, default=0) + 1
    numbers = []
    for label in labels:
        if label.isdecimal():
            numbers.append((label, label))
        else:
            numbers.append((str(following), label))
            following += 1
    return numbers


class Screen:
    """Writes lines of a conversation to a console."""

    def __init__(self, console: Console) -> None:
        self._console = console

    def line(
        self,
        *,
        at: datetime,
        who: str,
        text: str,
        labels: Sequence[str] = (),
        file: Path | None = None,
        changed: bool = False,
        number_buttons: bool = False,
    ) -> None:
        """Write one message.

        Args:
            at: When, in UTC; shown in the terminal's own zone.
            who: Who speaks.
            text: The words, shown as they are.
            labels: The buttons under it.
            file: Where an attachment was saved.
            changed: Whether it stands in place of an earlier message.
            number_buttons: Whether buttons can be chosen by number.
        """
        style = _STYLES.get(who, _PERSON)
        words = Text(text, style="dim " + style if changed else style)
        if file is not None:
            words.append(("\n" if text else "") + f"[file] {file}", style="magenta")
        if labels:
            words.append("\n" if words.plain else "")
            words.append(_buttons(labels, numbers=number_buttons))
        grid = Table.grid(padding=(0, 2))
        grid.add_column(style="dim", no_wrap=True)
        grid.add_column(style=f"bold {style}", no_wrap=True, min_width=len(WALLSIDE))
        grid.add_column(overflow="fold")
        grid.add_row(f"{at.astimezone():%H:%M:%S}", "" if changed else who, words)
        self._console.print(grid)

    def note(self, text: str) -> None:
        """Write something that is not part of the conversation."""
        self._console.print(Text(text, style="bold yellow"))


def _buttons(labels: Sequence[str], *, numbers: bool) -> Text:
    shown = Text()
    for index, (number, label) in enumerate(numbered(labels)):
        if index:
            shown.append("  ")
        caption = f"{number} {label}" if numbers and number != label else label
        shown.append(f"[{caption}]", style="bold white on grey23")
    return shown
