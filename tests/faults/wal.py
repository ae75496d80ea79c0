"""Where the commits end in SQLite's write-ahead log.

The format is SQLite's own (sqlite.org/fileformat2.html, section 4, "The Write-Ahead Log"): a head
of 32 bytes, then frames of 24 bytes and a page; a frame whose size of the database is not 0 ends a
commit; frames whose salts are not those of the head are of an earlier round.
"""

import struct
from pathlib import Path
from typing import Final

_HEAD: Final = 32
_FRAME: Final = 24


def commits_in(path: Path) -> tuple[tuple[int, int], ...]:
    """Return where each commit begins and ends, in bytes, the oldest first."""
    content = path.read_bytes() if path.exists() else b""
    if len(content) < _HEAD:
        return ()
    (page,) = struct.unpack_from(">I", content, 8)
    salts = content[16:24]
    begins, at, found = _HEAD, _HEAD, []
    while at + _FRAME + page <= len(content) and content[at + 8 : at + 16] == salts:
        (size,) = struct.unpack_from(">I", content, at + 4)
        at += _FRAME + page
        if size:
            found.append((begins, at))
            begins = at
    return tuple(found)


def tear(path: Path, begins: int, ends: int, at: int, rest: bytes) -> None:
    """Let what was written last have reached the disk up to a point only.

    Args:
        path: The log.
        begins: Where the commit begins.
        ends: Where it ends.
        at: How much of it is on the disk, in bytes from `begins`.
        rest: What stands there instead; as long as what is missing.
    """
    content = bytearray(path.read_bytes())
    content[begins + at : ends] = rest
    path.write_bytes(content)
