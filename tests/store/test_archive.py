"""The drill: a backup made while the store is in use can be put back, here or elsewhere."""

import gzip
import json
import shutil
import threading
from collections.abc import Iterator
from contextlib import ExitStack
from datetime import timedelta
from pathlib import Path
from typing import Final

import pytest
from sqlalchemy import Engine, select
from sqlmodel import SQLModel

from bot.care.invitation import Invitation
from bot.engine.events import WordsGiven
from bot.errors import DatabaseError
from bot.runtime.ports import Inbound, Sent
from bot.store import open_store
from bot.store.archive import back_up, contents_of, restore
from bot.store.database import open_engine
from bot.store.keys import KEY_FILE, GivenKeys, KeyFile, new_key
from bot.store.revisions import newest_revision
from bot.store.sql import SqlStore
from tests.store import test_migrations
from tests.store.chat import NOW, Chat
from tests.store.server import PostgresServer
from tests.store.team import AUDIT, STRANGER, item, member, staffed

KEYS: Final = GivenKeys(new_key())
KINDS: Final = ("sqlite", "postgres")


@pytest.fixture(params=[(a, b) for a in KINDS for b in KINDS], ids="-to-".join)
def places(
    request: pytest.FixtureRequest, tmp_path: Path
) -> Iterator[tuple[Path | str, Path | str]]:
    """Return where a database is, and where another can be, for every pair of kinds."""
    with ExitStack() as parts:

        def place(kind: str, name: str) -> Path | str:
            if kind == "sqlite":
                return tmp_path / f"{name}.sqlite3"
            server: PostgresServer = request.getfixturevalue("server")
            return parts.enter_context(server.schema())

        yield place(request.param[0], "here"), place(request.param[1], "there")


def fill(store: SqlStore) -> str:
    """Let a person be invited, agree and say something, with a message left unsent; and a team."""
    staffed(store)
    invited = Invitation(
        code="c0de", reference="HS-77", protocol=None, language=None,
        made_at=NOW, expires_at=NOW + timedelta(days=1),
    )  # fmt: skip
    store.invite(invited)
    chat = Chat(store)
    chat.opens("c0de")
    chat.types("yes", "34", "a linnet sings", "124/76 72", "Madrid")
    words = WordsGiven(at=NOW, text="none", source="99")
    address = "telegram:777123456"
    step = chat.conductor.handle(Inbound(key="unsent", address=address, event=words))
    return step.conversation_id


def everything(engine: Engine) -> dict[str, list[tuple[object, ...]]]:
    """Return all rows of all tables, opened."""
    with engine.begin() as connection:
        return {
            table.name: sorted(tuple(row) for row in connection.execute(select(table)))
            for table in SQLModel.metadata.sorted_tables
        }


def test_restored_database_holds_the_same_and_goes_on(
    places: tuple[Path | str, Path | str], tmp_path: Path
) -> None:
    """Every row is the same; arrivals stay taken, what waited leaves, and it goes on."""
    here, there = places
    store = open_store(here, KEYS)
    name = fill(store)
    before = everything(store.engine)
    done: list[int] = []
    contents = back_up(store.engine, tmp_path / "a.backup", progress=done.append)
    store.close()
    assert contents_of(tmp_path / "a.backup") == contents
    assert (contents.rows, contents.revision) == (sum(map(len, before.values())), newest_revision())
    assert sum(done) == contents.rows
    restored: list[int] = []
    assert restore(tmp_path / "a.backup", there, KEYS, progress=restored.append) == contents
    assert sum(restored) == contents.rows
    store = open_store(there, KEYS)
    assert everything(store.engine) == before
    with store.unit() as unit:
        assert not unit.claim("telegram:777123456:1", NOW)
    parcel = store.claim_parcel(NOW, timedelta(minutes=1))
    assert parcel is not None
    assert parcel.conversation_id == name
    store.settle(parcel, Sent("r"), NOW)
    assert Chat(store, chat_id=2).opens() != name
    with store.unit() as unit:  # what is new has numbers of its own
        assert unit.care.add_member(member("nora")).number == 3
        assert unit.care.add_item(item("bea")).number == 3
        unit.care.note_wrong_code(STRANGER, NOW, NOW)
        assert unit.care.wrong_codes(STRANGER, NOW) == 2
        unit.care.note((AUDIT,), NOW)
        assert unit.care.log(last=1)[0].id == 3
    store.close()


def test_backup_shows_one_instant_and_holds_nobody_up(sql_store: SqlStore, tmp_path: Path) -> None:
    """What is written while the backup is made goes through, and is not in the backup."""
    fill(sql_store)
    before = sum(map(len, everything(sql_store.engine).values()))
    written: list[str] = []

    def write(_: int) -> None:
        if not written:  # in the middle of the backup, on another connection
            other = threading.Thread(
                target=lambda: written.append(Chat(sql_store, chat_id=3).opens())
            )
            other.start()
            other.join(5)
            assert not other.is_alive()

    contents = back_up(sql_store.engine, tmp_path / "a.backup", progress=write)
    assert len(written) == 1
    assert contents.rows == before
    assert sum(map(len, everything(sql_store.engine).values())) > before


@pytest.mark.parametrize("revision", ["0001", "0003"])
def test_backup_of_an_older_program_is_brought_up(tmp_path: Path, revision: str) -> None:
    """It is put back as it was, and then migrated like a database of that age."""
    engine = open_engine(tmp_path / "old.sqlite3", KEYS, to=revision)
    test_migrations.fill(engine, revision)
    back_up(engine, tmp_path / "a.backup")
    engine.dispose()
    assert restore(tmp_path / "a.backup", tmp_path / "new.sqlite3", KEYS).revision == revision
    store = open_store(tmp_path / "new.sqlite3", KEYS)
    with store.unit() as unit:
        stored = unit.load("telegram:555987654")
    store.close()
    assert stored is not None
    assert stored.conversation == test_migrations.BOOK.conversation


# -- what is refused


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with a database and a sound backup of it."""
    folder = tmp_path_factory.mktemp("sound")
    store = open_store(folder / "a.sqlite3", KEYS)
    fill(store)
    back_up(store.engine, folder / "a.backup")
    store.close()
    return folder


@pytest.fixture
def made(sound: Path, tmp_path: Path) -> Path:
    """Return a sound backup that may be spoilt; the database it was made of is beside it."""
    for file in sound.iterdir():
        shutil.copy(file, tmp_path)
    return tmp_path / "a.backup"


def test_backup_is_as_secret_as_the_database(made: Path) -> None:
    """Nobody else may read it, and whoever does finds no word, number, chat or key in it."""
    assert made.stat().st_mode & 0o777 == 0o600
    unpacked = gzip.decompress(made.read_bytes())
    assert b"conversation0" in unpacked
    secret = (b"linnet", b"124/76", b"777123456", b"HS-77", b"c0de", KEYS.text.encode())
    assert [word for word in secret if word in unpacked] == []


def test_damaged_backup_is_refused_before_anything_is_done(made: Path, tmp_path: Path) -> None:
    """Cut short anywhere, or changed in any byte of its rows, it is not restored."""
    whole = made.read_bytes()
    lines = gzip.decompress(whole).splitlines(keepends=True)
    lines[2] = lines[2].replace(b"1772", b"1773", 1)
    damaged = [
        *(whole[: len(whole) * part // 8] for part in range(8)),
        whole[:-1],
        whole[:200] + bytes([whole[200] ^ 1]) + whole[201:],
        gzip.compress(b"".join(lines)),
        gzip.compress(b"".join([*lines[:3], *lines[4:]])),
        gzip.compress(b"".join(lines[:-1])),
        gzip.compress(b"".join([*lines, lines[1]])),
        b"a letter to a friend",
    ]
    for number, content in enumerate(damaged):
        path = tmp_path / f"{number}.backup"
        path.write_bytes(content)
        with pytest.raises(DatabaseError, match=r"damaged|is no backup"):
            restore(path, tmp_path / "new.sqlite3", KEYS)
    assert not (tmp_path / "new.sqlite3").exists()


def test_other_keys_are_refused_before_anything_is_done(made: Path, tmp_path: Path) -> None:
    """Without the keys of the backup nothing is made, no key file either."""
    (tmp_path / "new").mkdir()
    with pytest.raises(DatabaseError, match="sealed with other keys"):
        restore(made, tmp_path / "new" / "a.sqlite3", GivenKeys(new_key()))
    with pytest.raises(Exception, match="is not there"):
        restore(made, tmp_path / "new" / "a.sqlite3", KeyFile(tmp_path / "new" / KEY_FILE))
    assert list((tmp_path / "new").iterdir()) == []


def test_database_in_use_is_never_written_over(made: Path, tmp_path: Path) -> None:
    """Where there is anything already, nothing is restored; nor is a file written over."""
    with pytest.raises(DatabaseError, match="There is a database already"):
        restore(made, tmp_path / "a.sqlite3", KEYS)
    engine = open_engine(tmp_path / "a.sqlite3", KEYS)
    with pytest.raises(DatabaseError, match="already; choose another name"):
        back_up(engine, made)
    engine.dispose()


def test_backup_of_a_newer_program_is_refused(made: Path, tmp_path: Path) -> None:
    """A revision or a format that this program does not know is refused with words that help."""
    heading, *rest = gzip.decompress(made.read_bytes()).splitlines(keepends=True)
    for name, value, words in (
        ("revision", "9999", "newer Wallside"),
        ("wallside-backup", 2, "newer Wallside"),
    ):
        changed = json.dumps({**json.loads(heading), name: value}).encode() + b"\n"
        made.write_bytes(gzip.compress(b"".join([changed, *rest])))
        with pytest.raises(DatabaseError, match=words):
            restore(made, tmp_path / "new.sqlite3", KEYS)
