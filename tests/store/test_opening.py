"""What is remembered of what was opened: never old, never different, never too much."""

from dataclasses import fields, is_dataclass, replace
from datetime import datetime
from pathlib import Path

import pytest

from bot.engine.events import Opened
from bot.engine.state import Conversation
from bot.store import open_store
from bot.store.recent import Recent
from bot.store.sql import SqlStore
from bot.store.vault import Vault, vault_of
from tests.store.chat import ENROLS, Chat

ADDRESS = "telegram:777123456"
TEST = ("start", "yes", "none", "ready", "lying")


def vault_in(store: SqlStore) -> Vault:
    """Return the vault of a store."""
    return vault_of(store.engine.dialect)


def loaded(store: SqlStore) -> Conversation:
    """Return the conversation as the store gives it."""
    with store.unit() as unit:
        stored = unit.load(ADDRESS)
    assert stored is not None
    return stored.conversation


def laid_bare(one: object) -> object:
    """Return a value with its kind, and that of all in it; `==` would take 1 for true."""
    if is_dataclass(one):
        return type(one), [laid_bare(getattr(one, field.name)) for field in fields(one)]
    if isinstance(one, tuple | list):
        return type(one), [laid_bare(each) for each in one]
    if isinstance(one, frozenset):
        return type(one), sorted(map(repr, one))
    if isinstance(one, dict):
        return type(one), [(key, laid_bare(value)) for key, value in sorted(one.items())]
    if isinstance(one, datetime):
        return type(one), one.isoformat(), one.tzinfo
    return type(one), one


def test_what_is_remembered_is_what_is_stored(on_sqlite: SqlStore) -> None:
    """After every step the conversation remembered is, kind by kind, the one that is read anew."""
    chat = Chat(on_sqlite)
    chat.opens()
    for words in (*ENROLS, "tomorrow 9", "yes", *TEST, "where", "pause", "help", "stop"):
        chat.types(words)
        remembered = loaded(on_sqlite)
        vault_in(on_sqlite).forget()
        assert laid_bare(remembered) == laid_bare(loaded(on_sqlite)), words


def test_what_was_written_is_not_opened_again(
    on_sqlite: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between two steps of one process nothing of a conversation has to be unsealed."""
    chat = Chat(on_sqlite)
    chat.opens()
    unsealed: list[str] = []
    unseal = Vault.unseal

    def noted(vault: Vault, sealed: str) -> str:
        unsealed.append(sealed)
        return unseal(vault, sealed)

    monkeypatch.setattr(Vault, "unseal", noted)
    before = loaded(on_sqlite)
    assert [text for text in unsealed if len(text) > 256] == []
    assert loaded(on_sqlite) is before


def test_what_another_process_wrote_is_read(on_sqlite: SqlStore) -> None:
    """Two programs on one database, each with a memory of its own, never see an old state."""
    other = open_store(Path(str(on_sqlite.engine.url.database)))
    here = Chat(on_sqlite)
    here.opens()
    assert loaded(other) == loaded(on_sqlite)
    for words in ENROLS:
        here.types(words)
        there = loaded(other)
        assert there == loaded(on_sqlite)
        with other.unit() as unit:
            stored = unit.load(ADDRESS)
        assert stored is not None
        assert stored.conversation == there
    other.close()


def test_what_was_undone_is_not_remembered(on_sqlite: SqlStore) -> None:
    """A step that was taken back leaves the conversation as it was before."""
    chat = Chat(on_sqlite)
    chat.opens()
    before = loaded(on_sqlite)

    after = replace(before, said=before.said + 1)

    def takes_back() -> None:
        with on_sqlite.unit() as unit:
            stored = unit.load(ADDRESS)
            assert stored is not None
            unit.save(stored, after, event=Opened(at=chat.now), effects=(), wake_at=None)
            stored = unit.load(ADDRESS)
            assert stored is not None
            assert stored.conversation == after
            raise RuntimeError("undone")

    with pytest.raises(RuntimeError, match="undone"):
        takes_back()
    assert loaded(on_sqlite) == before


def test_nothing_is_remembered_of_who_had_all_deleted(on_sqlite: SqlStore) -> None:
    """When somebody has everything deleted, what this process remembers goes too."""
    chat = Chat(on_sqlite)
    chat.opens()
    chat.types(*ENROLS)
    held = [one.profile.consented_at for one in vault_in(on_sqlite).conversations.all()]
    assert chat.now in held
    chat.deletes_everything()
    left = [one.profile.consented_at for one in vault_in(on_sqlite).conversations.all()]
    assert left == [None] * len(left)


def test_no_more_is_remembered_than_was_said() -> None:
    """The number is bounded; what was asked for last stays, what was not asked for goes."""
    recent = Recent[int](3)
    for number in range(3):
        recent.put(f"sealed {number}", number)
    assert recent.get("sealed 0") == 0
    recent.put("sealed 3", 3)
    assert [recent.get(f"sealed {number}") for number in range(4)] == [0, None, 2, 3]
    assert len(recent) == 3


def test_what_stands_beside_a_sealed_text_is_told_apart() -> None:
    """The same text with another revision beside it is something else."""
    recent = Recent[str](3)
    recent.put("sealed", "first", 7, 1)
    assert recent.get("sealed", 7, 1) == "first"
    assert recent.get("sealed", 7, 2) is None
    assert recent.get("sealed") is None
