"""Whoever steals the files of a database, but not its keys, learns about nobody."""

import hashlib
import stat
import time
from base64 import b64encode
from pathlib import Path
from typing import Final

import pytest

from bot.care.invitation import Invitation
from bot.errors import DatabaseError, SettingsError
from bot.store import open_store
from bot.store.keys import KEY_FILE, GivenKeys, KeyFile, new_key
from bot.store.sql import SqlStore
from bot.store.vault import Mark, Vault
from tests.store.chat import ENROLS, NOW, Chat
from tests.store.looking import dump
from tests.store.server import PostgresServer

CANARY: Final = "a yellow canary sings \ud800 \u0000 to 183/97"
"""Words, numbers, half a character and a NUL, all of which have to come back."""

TOLD: Final = ("canary", "183/97", "telegram:777123456", "777123456", "HS-77-canary", "c0de-77")
"""What tells of a person; the chat's number could be tried out, so its hashes count as well."""


def hashes(text: str) -> list[bytes]:
    """Return the hashes without a key that somebody could compare every number with."""
    found = []
    for name in ("md5", "sha1", "sha256", "sha512", "blake2b"):
        digest = hashlib.new(name, text.encode()).digest()[:12]
        found += [digest, digest.hex().encode(), b64encode(digest)]
    return found


def says(store: SqlStore) -> str:
    """Let a person be invited, say something, and get a test booked; returns whose it is."""
    store.invite(
        Invitation(
            code="c0de-77",
            reference="HS-77-canary",
            protocol=None,
            language=None,
            made_at=NOW,
            expires_at=NOW.replace(year=2027),
        )
    )
    chat = Chat(store)
    chat.opens("c0de-77")
    chat.types(*ENROLS, CANARY, "tomorrow 9", "yes")
    return chat.types("companion", "all")


def raw(store: SqlStore, server: PostgresServer | None, since: float) -> bytes:
    """Return all bytes of a database's files that were written since, its log included."""
    if server is not None:
        with store.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.exec_driver_sql("CHECKPOINT")
        folder, pattern = server.folder / "data", "**/*"
    else:
        assert store.engine.url.database is not None
        folder, pattern = Path(store.engine.url.database).parent, "*.sqlite3*"
    files = (f for f in folder.glob(pattern) if f.is_file() and f.stat().st_mtime >= since)
    return b"".join(file.read_bytes().replace(bytes(64), b"") for file in files)


def test_files_tell_of_nobody(sql_store: SqlStore, request: pytest.FixtureRequest) -> None:
    """No word, number, reference, code or chat is in the files, nor a hash to try numbers with.

    What was typed comes back all the same, half a character and a NUL included, which no database
    takes as text.
    """
    on_server = sql_store.engine.dialect.name == "postgresql"
    since = time.time() - 1
    name = says(sql_store)
    found = raw(sql_store, request.getfixturevalue("server") if on_server else None, since)
    assert name.encode() in found, "this looks into the right files"
    assert "canary" in dump(sql_store)
    assert "183/97" in dump(sql_store)
    assert [told for told in TOLD if told.encode() in found] == []
    secret = [digest for told in TOLD[2:] for digest in hashes(told)]
    assert [digest for digest in secret if digest in found] == []
    typed = [getattr(event, "text", None) for event in sql_store.history(name).events]
    assert CANARY in typed


def test_same_person_cannot_be_found_in_two_databases(tmp_path: Path) -> None:
    """With keys of their own, two databases have no mark and no sealed text in common."""
    seen: list[set[str]] = []
    for folder in ("one", "two"):
        (tmp_path / folder).mkdir()
        store = open_store(tmp_path / folder / "a.sqlite3")
        Chat(store).opens()
        with store.engine.begin() as connection:
            row = connection.exec_driver_sql("SELECT * FROM conversation").one()
        store.close()
        seen.append({value for value in row if isinstance(value, str) and len(value) > 20})
    assert len(seen[0]) == 4, "a mark, the address, how it began and how it stands"
    assert seen[0] & seen[1] == set()


def test_marks_of_different_kinds_are_different(tmp_path: Path) -> None:
    """A reference that looks like a code cannot be taken for it."""
    vault = Vault(KeyFile(tmp_path / KEY_FILE), make=True)
    vault.use_marks({kind: f"{number:064x}" for number, kind in enumerate(Mark)})
    assert len({vault.mark(kind, "HS-77") for kind in Mark}) == len(Mark)


def test_mark_is_a_keyed_digest() -> None:
    """A mark is the first half of HMAC-SHA256, by the second test case of RFC 4231."""
    vault = Vault(GivenKeys(new_key()))
    vault.use_marks({Mark.ADDRESS: b"Jefe".hex()})
    # RFC 4231, section 4.3 (from memory): HMAC-SHA-256 = 5bdcc146bf60754e6a042426089575c7...
    marked = vault.mark(Mark.ADDRESS, "what do ya want for nothing?")
    assert marked == "5bdcc146bf60754e6a042426089575c7"


# -- keys


def test_key_file_is_made_for_its_owner_alone(tmp_path: Path) -> None:
    """A new database gets a key file beside it that nobody else may read, and keeps it."""
    path = tmp_path / "a.sqlite3"
    open_store(path).close()
    keys = (tmp_path / KEY_FILE).read_bytes()
    assert stat.S_IMODE((tmp_path / KEY_FILE).stat().st_mode) == 0o600
    open_store(path).close()
    assert (tmp_path / KEY_FILE).read_bytes() == keys


@pytest.mark.parametrize("mode", [0o640, 0o604, 0o660, 0o644])
def test_key_file_that_others_may_read_is_refused(tmp_path: Path, mode: int) -> None:
    """The mode is named, and what to do about it."""
    open_store(tmp_path / "a.sqlite3").close()
    (tmp_path / KEY_FILE).chmod(mode)
    with pytest.raises(SettingsError, match=rf"mode 0{mode:o}.*chmod 600"):
        open_store(tmp_path / "a.sqlite3")


def test_lost_key_file_is_never_made_anew(tmp_path: Path) -> None:
    """For a database that is sealed, another key would be of no use: it is said what to do."""
    open_store(tmp_path / "a.sqlite3").close()
    (tmp_path / KEY_FILE).unlink()
    with pytest.raises(SettingsError, match="Put it back"):
        open_store(tmp_path / "a.sqlite3")
    assert not (tmp_path / KEY_FILE).exists()


def test_other_keys_are_refused(sql_store: SqlStore) -> None:
    """Keys that do not fit are refused when the database is opened, before anything is done."""
    url = sql_store.engine.url
    on_server = url.get_backend_name() == "postgresql"
    where = url.render_as_string() if on_server else Path(str(url.database))
    with pytest.raises(DatabaseError, match="sealed with other keys"):
        open_store(where, GivenKeys(new_key()))


@pytest.mark.parametrize(
    ("text", "words"),
    [("", "holds no key"), ("hunter2", "Key 1"), (f"{new_key()},hunter2", "Key 2")],
    ids=["none", "the first", "the second"],
)
def test_what_is_no_key_is_refused(text: str, words: str) -> None:
    """It is said which one is wrong, and never what it is."""
    with pytest.raises(SettingsError, match=words) as refused:
        GivenKeys(text).load(make=True)
    assert "hunter2" not in str(refused.value)
    assert text == "" or text not in repr(GivenKeys(text))


def test_older_key_still_opens(tmp_path: Path) -> None:
    """With a new key in front, what was sealed with the old one is read, and new text is not."""
    old, new = new_key(), new_key()
    before, between = Vault(GivenKeys(old)), Vault(GivenKeys(f" {new} , {old} "))
    assert between.unseal(before.seal("words")) == "words"
    with pytest.raises(DatabaseError, match="other keys"):
        before.unseal(between.seal("words"))
