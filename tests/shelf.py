"""Stores for tests: made once, copied for each, behind one engine.

It is the engine that is slow to make, and that remembers how statements are compiled; and bringing
a new database to the newest revision takes longer than most tests.
"""

import shutil
from pathlib import Path

from sqlalchemy import event

from bot.bootstrap import DATABASE
from bot.store.database import open_engine, open_store
from bot.store.keys import KEY_FILE, KeyFile
from bot.store.sql import SqlStore


class Shelf:
    """A place for one store at a time.

    Attributes:
        folder: Where it is.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._empty = folder / "empty.sqlite3"
        keys = KeyFile(folder / KEY_FILE)
        open_store(self._empty, keys).close()
        shutil.copyfile(self._empty, folder / DATABASE)
        self._engine = open_engine(folder / DATABASE, keys)
        # What is lost with the power is no matter here, and a full sync is slow.
        event.listen(
            self._engine,
            "connect",
            lambda raw, _: raw.execute("PRAGMA synchronous=OFF").close(),
        )

    def fresh(self) -> SqlStore:
        """Return an empty store; the one before it is gone."""
        self._engine.dispose()
        for left in self.folder.glob(f"{DATABASE}*"):
            left.unlink()
        shutil.copyfile(self._empty, self.folder / DATABASE)
        return SqlStore(self._engine)
