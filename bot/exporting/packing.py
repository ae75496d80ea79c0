"""One file of many: a zip that is the same each time, and is there whole or not at all."""

import hashlib
import tempfile
import zipfile
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Final

from bot.errors import ExportError
from bot.exporting.making import Entry

_THEN: Final = (1980, 1, 1, 0, 0, 0)
"""The time of every file within: the earliest that a zip can say. When it was made stands in the
audit log."""

_MINE: Final = 0o100600
"""A plain file that only its owner reads and writes."""

_UNIX: Final = 3
"""The system that gives file modes their meaning (APPNOTE 4.4.2, from memory)."""

_LEVEL: Final = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """What was written.

    Attributes:
        path: The file.
        files: How many are in it.
        size: Its length in bytes.
        sha256: Its digest, in hex.
    """

    path: Path
    files: int
    size: int
    sha256: str


def pack(
    path: Path, entries: Iterable[Entry], release: Callable[[], None], *, force: bool = False
) -> Packed:
    """Write a zip beside its place, have it released, and only then give it its name.

    Only the owner can read it. Whatever goes wrong, nothing of it is left.

    Args:
        path: Where it goes.
        entries: What goes into it, in this order.
        release: Called once all is written; what it raises ends it all.
        force: Whether a file of that name may go.

    Raises:
        ExportError: There is a file of that name, or it cannot be written.
    """
    _refuse(path, force=force)
    unfinished: Path | None = None
    try:
        with tempfile.NamedTemporaryFile(
            dir=path.parent, prefix=".wallside-", suffix=".part", delete=False
        ) as out:
            unfinished = Path(out.name)
            files = _write(out, entries)
        packed = _look(unfinished, path, files)
        _refuse(path, force=force)
        release()
        unfinished.replace(path)
    except OSError as error:
        raise ExportError(
            f"{path} cannot be written: {error.strerror}. Name another file with --out."
        ) from error
    finally:
        if unfinished is not None:
            unfinished.unlink(missing_ok=True)
    return packed


def _refuse(path: Path, *, force: bool) -> None:
    if path.exists() and not force:
        raise ExportError(f"{path} is there already. Name another file, or say --force.")


def _write(out: IO[bytes], entries: Iterable[Entry]) -> int:
    files = 0
    with zipfile.ZipFile(out, "w") as archive:
        for entry in entries:
            info = zipfile.ZipInfo(entry.name, date_time=_THEN)
            info.create_system = _UNIX
            info.external_attr = _MINE << 16
            archive.writestr(info, entry.content, zipfile.ZIP_DEFLATED, _LEVEL)
            files += 1
    return files


def _look(written: Path, path: Path, files: int) -> Packed:
    with written.open("rb") as file:
        digest = hashlib.file_digest(file, "sha256").hexdigest()
    return Packed(path=path, files=files, size=written.stat().st_size, sha256=digest)
