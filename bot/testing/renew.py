"""Writes the demo scripts anew from what the program says today: `python -m bot.testing.renew`."""

import tempfile
from pathlib import Path

from bot.reports.presenting import present
from bot.resources import shipped
from bot.store import open_store
from bot.testing.player import Player
from bot.testing.script import read_script
from bot.testing.writing import write_script


def played(path: Path) -> str:
    """Return the text of a script as it plays today.

    Raises:
        ScriptError: It cannot be read, or asks for a button that is not there.
    """
    script = read_script(path)
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(Path(folder) / "played.sqlite3")
        said = tuple(shown.said for shown in Player(script, store, present).play())
        store.close()
    return write_script(script, said)


def renew() -> None:
    """Write every shipped script anew."""
    for path in sorted(shipped("demo_scripts").glob("*.txt")):
        path.write_text(played(path), encoding="utf-8")


if __name__ == "__main__":
    renew()
