"""The keys that the database is sealed with: from the environment, or from a file of their own.

A key is what `cryptography.fernet.Fernet.generate_key` makes. There may be several, the newest
first: new text is sealed with the first, and old text is opened with whichever fits.
"""

import os
import stat
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Protocol

from cryptography.fernet import Fernet

from bot.errors import SettingsError

KEY_FILE: Final = "wallside.keys"
"""The name of the key file, which stands beside the database."""

_HEADER: Final = (
    "# The keys of this Wallside, the newest first. Without them its database cannot be read.\n"
    "# Keep a copy, apart from the backups of the database.\n"
)


class KeySource(Protocol):
    """Where keys come from."""

    def load(self, *, make: bool) -> tuple[str, ...]:
        """Return the keys, newest first.

        Args:
            make: Whether a key may be made where there is none: for a new database only.

        Raises:
            SettingsError: There are none, or they cannot be used.
        """
        ...


def new_key() -> str:
    """Return a fresh key."""
    return Fernet.generate_key().decode("ascii")


def checked(keys: tuple[str, ...], where: str) -> tuple[str, ...]:
    """Return the keys if each of them is one.

    Raises:
        SettingsError: There is none, or one is no key. The message never holds a key.
    """
    if not keys:
        raise SettingsError(f"{where} holds no key; `wallside key` makes one.")
    for number, key in enumerate(keys, start=1):
        try:
            Fernet(key)
        except ValueError:
            raise SettingsError(
                f"Key {number} of {where} is no key: 44 characters, as `wallside key` makes them."
            ) from None
    return keys


@dataclass(frozen=True, slots=True)
class GivenKeys:
    """Keys from a setting, separated by commas, newest first."""

    text: str
    where: str = "WALLSIDE_KEYS"

    def load(self, *, make: bool) -> tuple[str, ...]:
        """Return the keys; none is ever made.

        Raises:
            SettingsError: One is no key.
        """
        del make
        keys = tuple(key.strip() for key in self.text.split(",") if key.strip())
        return checked(keys, self.where)

    def __repr__(self) -> str:
        return f"GivenKeys(where={self.where!r})"


@dataclass(frozen=True, slots=True)
class KeyFile:
    """Keys in a file that nobody but its owner may read, one a line, newest first."""

    path: Path

    def load(self, *, make: bool) -> tuple[str, ...]:
        """Return the keys; the file is made, with a fresh key, if it may be.

        Raises:
            SettingsError: It is not there, others may read it, or a line is no key.
        """
        try:
            mode = stat.S_IMODE(self.path.stat().st_mode)
        except FileNotFoundError:
            if not make:
                raise SettingsError(
                    f"The database is sealed, and the key file {self.path} is not there. Put it "
                    "back, set WALLSIDE_KEY_FILE to where it is, or set WALLSIDE_KEYS."
                ) from None
            return self._made()
        except OSError as error:
            raise SettingsError(
                f"The key file {self.path} cannot be read: {error.strerror}."
            ) from error
        if os.name == "posix" and mode & 0o077:
            raise SettingsError(
                f"Others may read the key file {self.path} (mode {mode:04o}). "
                f"Run: chmod 600 {self.path}"
            )
        return checked(self._read(), f"the key file {self.path}")

    def write(self, keys: tuple[str, ...]) -> None:
        """Put other keys into the file, all or nothing.

        Raises:
            SettingsError: It cannot be written.
        """
        beside = self.path.with_name(self.path.name + ".new")
        try:
            beside.unlink(missing_ok=True)
            _write_new(beside, keys)
            beside.replace(self.path)
        except OSError as error:
            raise SettingsError(
                f"The key file {self.path} cannot be written: {error.strerror}."
            ) from error

    def _made(self) -> tuple[str, ...]:
        keys = (new_key(),)
        try:
            _write_new(self.path, keys)
        except FileExistsError:  # another process was faster
            return self.load(make=False)
        except OSError as error:
            raise SettingsError(
                f"The key file {self.path} cannot be made: {error.strerror}. Set WALLSIDE_KEY_FILE "
                "to a place that you may write to, or WALLSIDE_KEYS."
            ) from error
        return keys

    def _read(self) -> tuple[str, ...]:
        lines = self.path.read_text(encoding="ascii", errors="replace").splitlines()
        return tuple(line.strip() for line in lines if line.strip() and not line.startswith("#"))


def _write_new(path: Path, keys: tuple[str, ...]) -> None:
    """Write a file that is not there yet and that only its owner may read; it is on disk after."""
    beside = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(beside, "w", encoding="ascii") as file:
        file.write(_HEADER + "".join(f"{key}\n" for key in keys))
        file.flush()
        os.fsync(file.fileno())
