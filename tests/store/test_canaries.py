"""Canaries in the raw files: after "delete everything" and after the purge, nothing is left.

Once with nothing sealed, so that it is the deleting that is tested and not the sealing; once as it
ships, where no canary is ever in a file, of the database or of a backup.
"""

import gzip
from datetime import timedelta
from functools import partial
from pathlib import Path
from typing import Final

import pytest
from sqlalchemy import text

from bot.engine.replay import replay
from bot.store.archive import back_up
from bot.store.postgres import rewrite
from bot.store.retention import purge
from bot.store.sql import SqlStore
from bot.store.vault import Vault
from tests.store.chat import ENROLS, NOW, Chat
from tests.store.looking import empty, rows
from tests.store.server import PostgresServer

CHAT: Final = 777123456
WORDS: Final = "the wren of Harbour Street"
CANARIES: Final = (WORDS, str(CHAT))
OTHER_CHAT: Final = 73311557799
OTHERS: Final = "the dunnock of Harbour Street"
"""For the server, whose log keeps what was ever written open: no other test looks for these."""
YEAR: Final = timedelta(days=365)


class Open(Vault):
    """A vault that seals nothing from now on; what was sealed before is still opened."""

    def seal(self, text: str) -> str:
        """Return the text as it is."""
        return text

    def unseal(self, sealed: str) -> str:
        """Return the text as it is."""
        return super().unseal(sealed) if sealed.startswith("gAAAA") else sealed


def nothing_sealed(store: SqlStore) -> None:
    """Let a store seal nothing."""
    store.engine.dialect._wallside_vault.__class__ = Open  # type: ignore[attr-defined]


def says_much(store: SqlStore, chat: int = CHAT, said: str = WORDS) -> Chat:
    """Let somebody say much, get much, and have a test booked; and somebody else between."""
    ana, bea = Chat(store, chat_id=chat), Chat(store, chat_id=2)
    ana.opens()
    bea.opens()
    for words in (*ENROLS, *(f"{said} {n}" for n in range(3)), "tomorrow 9", "yes", said):
        ana.types(words)
        if words == "Madrid":
            bea.types("where")
    return ana


def found_in(
    folder: Path, pattern: str = "**/*", canaries: tuple[str, ...] = CANARIES
) -> list[str]:
    """Return which canaries are in the raw bytes of the files of a folder."""
    files = [file.read_bytes() for file in folder.glob(pattern) if file.is_file()]
    return [told for told in canaries if any(told.encode() in content for content in files)]


@pytest.mark.parametrize("how", ["by their wish", "by age"])
def test_nothing_is_left_in_the_files_though_nothing_was_sealed(
    on_sqlite: SqlStore, tmp_path: Path, how: str
) -> None:
    """Words, numbers and chat are nowhere: database, log, index of the log, any file beside them.

    SQLite overwrites what is deleted, and the log is emptied: so the sealing is not needed for it.
    """
    nothing_sealed(on_sqlite)
    ana = says_much(on_sqlite)
    assert found_in(tmp_path) == list(CANARIES), "this looks into the right files"
    if how == "by their wish":
        ana.deletes_everything()
    else:
        playing = partial(replay, ana.context)
        later = NOW + YEAR + timedelta(days=1)
        assert purge(on_sqlite.engine, now=later, keep=YEAR, replay=playing).people == 2
    assert found_in(tmp_path) == []


def test_no_canary_is_ever_in_a_file_as_it_ships(
    sql_store: SqlStore, request: pytest.FixtureRequest, tmp_path: Path
) -> None:
    """While people are at it, and after: not in the database's files, nor in a backup, unpacked."""
    folder = tmp_path
    if sql_store.engine.dialect.name == "postgresql":
        server: PostgresServer = request.getfixturevalue("server")
        folder = server.folder / "data"
    ana = says_much(sql_store)
    written(sql_store)
    assert rows(sql_store)["event"] > 8
    assert found_in(folder) == []
    back_up(sql_store.engine, tmp_path / "a.backup")
    (tmp_path / "unpacked").write_bytes(gzip.decompress((tmp_path / "a.backup").read_bytes()))
    assert b"gAAAA" in (tmp_path / "unpacked").read_bytes(), "sealed texts are in it"
    assert found_in(tmp_path) == []
    ana.deletes_everything()
    written(sql_store)
    assert found_in(folder) == []


def test_postgres_keeps_nothing_in_its_tables_files(
    on_postgres: SqlStore, server: PostgresServer
) -> None:
    """Though nothing was sealed: once its tables were written anew, no file of theirs has a canary.

    Its own write-ahead log is the server's, and is used again in its time: there it is only the
    sealing that protects.
    """
    vault = on_postgres.engine.dialect._wallside_vault  # type: ignore[attr-defined]
    kind = type(vault)
    files, told = (server.folder / "data", "base/**/*"), (OTHERS, f"telegram:{OTHER_CHAT}")
    try:
        nothing_sealed(on_postgres)
        ana = says_much(on_postgres, OTHER_CHAT, OTHERS)
        written(on_postgres)
        assert found_in(*files, told) == list(told), "this looks into the right files"
        ana.deletes_everything()
        rewrite(on_postgres.engine, whole=True)
        written(on_postgres)
        assert found_in(*files, told) == []
    finally:
        vault.__class__ = kind
        empty(on_postgres)


def written(store: SqlStore) -> None:
    """Let a server write to its files what it holds in memory; SQLite has, at each commit."""
    if store.engine.dialect.name == "sqlite":
        return
    with store.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
        connection.execute(text("CHECKPOINT"))
