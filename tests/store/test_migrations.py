"""A database of any released revision is brought to the present one with all that it holds."""

import sqlite3
import sys
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, column, insert, table, text
from sqlmodel import SQLModel

from bot.engine.effects import Part, Say
from bot.engine.events import WordsGiven
from bot.engine.profile import Share
from bot.errors import DatabaseError
from bot.protocol.record import TestRecord
from bot.protocol.released import DEFAULT
from bot.runtime.ports import Sent
from bot.store import open_store
from bot.store.codec import (
    encode_conversation,
    encode_event,
    encode_outgoing,
    encode_record,
)
from bot.store.database import open_engine
from bot.store.keys import GivenKeys, new_key
from bot.store.migrating import alembic_config
from bot.store.revisions import REVISIONS, newest_revision, revision_of
from bot.testing.playbook import Playbook

NOW: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
AT: Final = 1_772_442_000_000_000
"""The same in microseconds since 1970, as the first release kept it."""

LATER: Final = AT + 86_400_000_000

RELEASED: Final = ("0001", "0002", "0003", "0004", "0005", "0006", "0007", "0008", "0009")
KEYS: Final = GivenKeys(new_key())

BOOK: Final = Playbook().lies_down()
SAID: Final = Say(number=1, parts=(Part("help"),))
TYPED: Final = WordsGiven(at=NOW, text="the linnet sang twice", source="1")
TESTED: Final = TestRecord(number=1, protocol=DEFAULT, age_band=None, began_at=NOW)

PARCEL: Final = {
    "conversation_id": "c",
    "urgency": 2,
    "locale": "en",
    "effect": encode_outgoing(SAID),
}
BEFORE_SEALING: Final = (
    (
        "0001",
        "conversation",
        {
            "id": "c",
            "address": "telegram:555987654",
            "began_at": AT,
            "beginning": encode_conversation(BOOK.beginning),
            "revision": 1,
            "wake_at": AT,
            "state": encode_conversation(BOOK.conversation),
        },
    ),
    ("0001", "inbox", {"key": "telegram:5", "taken_at": AT}),
    (
        "0001",
        "event",
        {"conversation_id": "c", "position": 1, "at": AT, "event": encode_event(TYPED)},
    ),
    (
        "0001",
        "outbox",
        {**PARCEL, "number": 1, "fate": "sent", "attempts": 1, "ref": "message-77"},
    ),
    ("0001", "outbox", {**PARCEL, "number": 2, "fate": "waiting", "attempts": 0}),
    (
        "0001",
        "result",
        {"conversation_id": "c", "test_number": 1, "revision": 1, "record": encode_record(TESTED)},
    ),
    (
        "0002",
        "invitation",
        {
            "code": "c0de-linnet",
            "reference": "HS-linnet",
            "made_at": AT,
            "expires_at": LATER,
            "conversation_id": "c",
        },
    ),
    (
        "0003",
        "companion_link",
        {"code": "with-linnet", "of": "c", "share": "all", "made_at": AT, "expires_at": LATER},
    ),
)
"""What programs wrote before texts were sealed: since which revision, where, and what."""


def fill(engine: Engine, revision: str) -> None:
    """Put down what the program of a revision would have."""
    with engine.begin() as connection:
        for since, name, row in BEFORE_SEALING:
            if since <= revision:
                connection.execute(insert(table(name, *(column(c) for c in row))), row)


def litter(path: Path) -> None:
    """Leave in a file what programs did that deleted without overwriting."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA secure_delete=OFF")
        for number in range(50):
            row = (f"linnet {number} {'sings ' * 200}", number)
            connection.execute("INSERT INTO inbox (key, taken_at) VALUES (?, ?)", row)
        connection.commit()
        connection.execute("DELETE FROM inbox WHERE key LIKE 'linnet%'")
        connection.commit()
    assert b"linnet 7 sings" in path.read_bytes()


@pytest.mark.parametrize("revision", RELEASED[:3])
def test_all_that_was_kept_is_there_and_sealed(where: Path | str, revision: str) -> None:
    """Conversations, events, parcels, results, invitations and links survive, and none is open."""
    engine = open_engine(where, KEYS, to=revision)
    fill(engine, revision)
    engine.dispose()
    if isinstance(where, Path):
        litter(where)
    store = open_store(where, KEYS)
    with store.unit() as unit:
        stored = unit.load("telegram:555987654")
        assert stored is not None
        assert (stored.conversation, stored.wake_at) == (BOOK.conversation, NOW)
        assert not unit.claim("telegram:5", NOW)
        assert unit.claim("telegram:6", NOW)
        invitation = unit.invitation("c0de-linnet", NOW, "telegram:555987654")
        link = unit.open_link("with-linnet", NOW, "somebody")
    assert store.history("c").events == (TYPED,)
    assert store.history("c").beginning == BOOK.beginning
    assert store.results("c") == (TESTED,)
    assert (invitation and invitation.reference) == ("HS-linnet" if revision >= "0002" else None)
    assert (invitation and invitation.opened_at) == (NOW if revision >= "0002" else None)
    assert (link and link.share) == (Share.ALL if revision >= "0003" else None)
    parcel = store.claim_parcel(NOW, timedelta(minutes=1))
    assert parcel is not None
    assert (parcel.id, parcel.effect) == (2, SAID)
    assert not store.settle(parcel, Sent("message-78"), NOW)
    with store.engine.begin() as connection:
        columns = "SELECT address, state FROM conversation UNION SELECT ref, effect FROM outbox"
        everything = str(connection.execute(text(columns)).all())
    store.close()
    assert [w for w in ("555987654", "linnet", "message-7", "schema") if w in everything] == []
    if isinstance(where, Path):
        raw = b"".join(file.read_bytes() for file in where.parent.glob("wallside.sqlite3*"))
        assert [w for w in (b"555987654", b"linnet", b"HS-linnet", b"schema") if w in raw] == []


def test_migrations_make_the_tables_that_the_program_uses(where: Path | str) -> None:
    """After all migrations nothing is left to be migrated."""
    engine = open_engine(where, KEYS)
    with engine.begin() as connection:
        context = MigrationContext.configure(connection)
        differences = compare_metadata(context, SQLModel.metadata)
    engine.dispose()
    assert differences == []


def test_every_released_revision_is_tried() -> None:
    """The newest revision is among those that are tested here."""
    assert newest_revision() == RELEASED[-1]


def test_revisions_are_those_that_alembic_finds() -> None:
    """What is written out for a quick start is what the migrations themselves say."""
    found = ScriptDirectory.from_config(alembic_config()).walk_revisions()
    assert tuple(reversed([script.revision for script in found])) == REVISIONS


def test_present_database_is_opened_without_what_migrates(
    where: Path | str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A start on a database that is at the newest revision loads no migrations."""
    open_store(where, KEYS).close()
    monkeypatch.setitem(sys.modules, "bot.store.migrating", None)  # not to be imported
    open_store(where, KEYS).close()
    with pytest.raises(ImportError):
        import bot.store.migrating  # noqa: F401


def test_database_of_a_newer_program_is_refused(where: Path | str) -> None:
    """An unknown revision is refused with words that help, and nothing is changed."""
    store = open_store(where, KEYS)
    newer = "UPDATE alembic_version SET version_num = '9999'"
    with store.engine.begin() as connection:
        connection.execute(text(newer))
    store.close()
    for look in (open_store, revision_of):
        with pytest.raises(DatabaseError, match=r"9999.*newer Wallside.*restore a backup"):
            look(where)
