"""New keys, while the program runs: nothing is lost, and the old keys open nothing any more."""

from pathlib import Path
from typing import Final

import pytest
from sqlalchemy import text
from sqlmodel import SQLModel

from bot.errors import ConflictError, DatabaseError
from bot.store import open_store
from bot.store.keys import KEY_FILE, GivenKeys, KeyFile, new_key
from bot.store.rotation import rotate, rows_to_seal
from bot.store.sql import SqlStore
from tests.store.chat import NOW, Chat
from tests.store.looking import dump
from tests.store.team import STRANGER, TICKET
from tests.store.test_archive import everything, fill

OLD: Final = new_key()
NEW: Final = new_key()


def sealed_texts(store: SqlStore) -> set[str]:
    """Return every sealed text and mark as it stands."""
    with store.engine.begin() as connection:
        return {
            value
            for table in SQLModel.metadata.tables
            for row in connection.execute(text(f"SELECT * FROM {table}"))
            for value in row
            if isinstance(value, str) and len(value) >= 32
        }


def test_all_is_sealed_and_marked_anew_and_nothing_changes(where: Path | str) -> None:
    """Every text and mark is another, what they say is the same, and the new key alone opens it."""
    store = open_store(where, GivenKeys(OLD))
    name = fill(store)
    before, sealed = everything(store.engine), sealed_texts(store)
    store.close()
    store = open_store(where, GivenKeys(f"{NEW},{OLD}"))
    done: list[int] = []
    assert rotate(store.engine, progress=done.append) == rows_to_seal(store.engine) == sum(done)
    arrivals = {str(key) for key, _ in before["inbox"]}
    kept = {*arrivals, TICKET.digest}
    assert sealed_texts(store) & sealed == kept, "of these there is no text to mark anew"
    store.close()
    with pytest.raises(DatabaseError, match="other keys"):
        open_store(where, GivenKeys(OLD))
    store = open_store(where, GivenKeys(NEW))
    after = everything(store.engine)
    for table in ("event", "outbox", "result", "inbox", "member", "member_code", "item", "audit"):
        assert after[table] == before[table]
    assert "a linnet sings" in dump(store)
    with store.unit() as unit:
        stored = unit.load("telegram:777123456")
        assert unit.invitation("c0de", NOW, "telegram:777123456") is not None
        assert not unit.claim("telegram:777123456:1", NOW)
        assert unit.care.member("test:marta") is not None
        assert unit.care.person("HS-77") == name
        assert unit.care.wrong_codes(STRANGER, NOW) == 1
    assert stored is not None
    assert (stored.conversation.id, store.find("HS-77")) == (name, name)
    store.close()


def test_program_that_runs_meanwhile_goes_on(tmp_path: Path) -> None:
    """It reads the key file again when it has to, and nobody gets a second conversation."""
    path, source = tmp_path / "a.sqlite3", KeyFile(tmp_path / KEY_FILE)
    running = open_store(path, source)
    chat = Chat(running)
    name = chat.opens()
    chat.types("yes", "34")
    (old,) = source.load(make=False)
    source.write((NEW, old))
    rotating = open_store(path, source)
    between: list[str] = []
    rotate(rotating.engine, progress=lambda _: between.append(dump(running)[:1]))
    rotating.close()
    source.write((NEW,))
    assert between
    with pytest.raises(ConflictError, match="keys of the database were changed"):
        chat.types("a linnet sings")
    assert chat.types("a linnet sings") == name
    assert Chat(running, chat_id=2).opens() != name
    running.close()
    again = open_store(path, GivenKeys(NEW))
    assert dump(again).count("a linnet sings") == 1
    assert len(list(again.conversations())) == 2
    again.close()
