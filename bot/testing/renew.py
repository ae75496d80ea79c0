"""Writes the demo scripts anew from what the program says today: `python -m bot.testing.renew`."""

import tempfile
from pathlib import Path

from bot.reports.presenting import present
from bot.resources import shipped
from bot.runtime.ports import Store
from bot.store import open_store
from bot.testing.player import Player
from bot.testing.script import read_script
from bot.testing.writing import write_script


def played(path: Path, store: Store) -> str:
    """Return the text of a script as it plays today.

    Args:
        path: The script.
        store: An empty one.

    Raises:
        ScriptError: It cannot be read, or asks for a button that is not there.
    """
    script = read_script(path)
    said = tuple(shown.said for shown in Player(script, store, present).play())
    return write_script(script, said)


def renew() -> None:
    """Write every shipped script anew."""
    for path in sorted(shipped("demo_scripts").glob("*.txt")):
        with tempfile.TemporaryDirectory() as folder:
            store = open_store(Path(folder) / "played.sqlite3")
            path.write_text(played(path, store), encoding="utf-8")
            store.close()


if __name__ == "__main__":
    renew()
