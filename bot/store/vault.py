"""The vault: seals and opens what is kept of people, and makes the marks by which it is found.

Sealing the same words twice gives two different texts, so sealed columns cannot be looked up.
What has to be found has a second column with a mark: a keyed digest (HMAC-SHA256), whose key is
itself kept sealed in the database. Without the keys nobody can tell whether a chat is in it.
"""

import hashlib
import hmac
import secrets
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from enum import StrEnum
from typing import Any, Final

from cryptography.fernet import Fernet, InvalidToken, MultiFernet
from sqlalchemy import Dialect, Engine

from bot.errors import DatabaseError
from bot.store.keys import KeySource
from bot.store.recent import CONVERSATIONS, FACTS, NAMES, Recent

_MARK_LENGTH: Final = 32
"""Characters of a mark: 128 bits (design choice: no two of 10^9 chats are ever confused)."""

_SHORT: Final = 256
"""Characters of a sealed text up to which what it holds is remembered: a name, not a story."""

_NO_KEY: Final = (
    "None of the keys opens what the database holds. It was sealed with other keys: put back the "
    "key file that belongs to it, or set WALLSIDE_KEYS to its keys."
)


class Mark(StrEnum):
    """What marks are made of, each kind with a key of its own."""

    ADDRESS = "address"
    REFERENCE = "reference"
    CODE = "code"
    ARRIVAL = "arrival"


def new_mark_keys() -> dict[Mark, str]:
    """Return fresh keys for marks, as hexadecimal digits."""
    return {kind: secrets.token_hex(32) for kind in Mark}


class Vault:
    """Seals, opens and marks with the keys of one database.

    What was opened last is remembered in this process, by its sealed text (`bot.store.recent`).

    Attributes:
        conversations: Those that were read or written last.
        facts: What the board needs of people.
        items: Items of the inbox.
    """

    def __init__(self, source: KeySource, *, make: bool = False) -> None:
        """Take the keys.

        Args:
            source: Where they come from; it is asked again when a text cannot be opened.
            make: Whether a first key may be made.

        Raises:
            SettingsError: There are no keys that can be used.
        """
        self._source = source
        self._keys = source.load(make=make)
        self._fernet = _fernet(self._keys)
        self._marks: Mapping[Mark, bytes] = {}
        self._names = Recent[str](NAMES)
        self.conversations = Recent[Any](CONVERSATIONS)
        self.facts = Recent[Any](FACTS)
        self.items = Recent[Any](FACTS)

    def forget(self) -> None:
        """Remember nothing of what was opened: somebody has had all of theirs deleted."""
        for recent in (self._names, self.conversations, self.facts, self.items):
            recent.clear()

    def seal(self, text: str) -> str:
        """Return a text sealed with the newest key; surrogates that stand alone are kept."""
        return self._fernet.encrypt(text.encode("utf-8", "surrogatepass")).decode("ascii")

    def unseal(self, sealed: str) -> str:
        """Return the text that was sealed.

        Raises:
            DatabaseError: None of the keys opens it.
        """
        short = len(sealed) <= _SHORT
        if short and (known := self._names.get(sealed)) is not None:
            return known
        token = sealed.encode("ascii", "replace")
        try:
            opened = self._fernet.decrypt(token)
        except InvalidToken:
            opened = self._with_newer_keys(token)
        text = opened.decode("utf-8", "surrogatepass")
        return self._names.put(sealed, text) if short else text

    def reseal(self, sealed: str) -> str:
        """Return the same text, sealed with the newest key.

        Raises:
            DatabaseError: None of the keys opens it.
        """
        return self.seal(self.unseal(sealed))

    def mark(self, kind: Mark, text: str) -> str:
        """Return the mark of a text."""
        whole = text.encode("utf-8", "surrogatepass")
        return hmac.digest(self._marks[kind], whole, hashlib.sha256).hex()[:_MARK_LENGTH]

    def use_marks(self, keys: Mapping[Mark, str]) -> bool:
        """Make marks with these keys from now on; True if they are others than before."""
        before = self._marks
        self._marks = {kind: bytes.fromhex(key) for kind, key in keys.items()}
        return self._marks != before

    @contextmanager
    def marking_with(self, keys: Mapping[Mark, str]) -> Iterator[None]:
        """Make marks with these keys for a while."""
        before = self._marks
        self.use_marks(keys)
        try:
            yield
        finally:
            self._marks = before

    def _with_newer_keys(self, token: bytes) -> bytes:
        """Open a text that was perhaps sealed with a key that came while the program ran."""
        keys = self._source.load(make=False)
        if keys == self._keys:
            raise DatabaseError(_NO_KEY)
        self._keys, self._fernet = keys, _fernet(keys)
        try:
            return self._fernet.decrypt(token)
        except InvalidToken:
            raise DatabaseError(_NO_KEY) from None


def _fernet(keys: tuple[str, ...]) -> MultiFernet:
    return MultiFernet([Fernet(key) for key in keys])


_VAULTS: Final = "_wallside_vault"


def fit(engine: Engine, vault: Vault) -> None:
    """Let the sealed columns of an engine use a vault. An engine has a dialect of its own."""
    setattr(engine.dialect, _VAULTS, vault)


def vault_of(dialect: Dialect) -> Vault:
    """Return the vault of an engine's dialect.

    Raises:
        AttributeError: No vault was fitted.
    """
    vault: Vault = getattr(dialect, _VAULTS)
    return vault
