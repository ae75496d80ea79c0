"""What was opened last, by exactly what it was opened from, so that it is not opened twice.

It is found by a digest of the sealed text as the database has it now. Whoever changes a row, this
process or another, seals it anew, and no two sealings are alike: so what is found is never old.
"""

import hashlib
from collections import OrderedDict
from threading import Lock
from typing import Any, Final, Generic, TypeVar

CONVERSATIONS: Final = 1024
"""Conversations that are remembered: some 10 MB, whatever the number of people (design choice)."""

FACTS: Final = 8192
"""People, and as many items, whose part of the board is remembered, under 1 kB each."""

NAMES: Final = 8192
"""Short texts that are remembered: addresses, references, names of members."""

T = TypeVar("T")


class Recent(Generic[T]):
    """A number of things, found by their sealed text; what was not asked for longest goes first."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._found: OrderedDict[Any, T] = OrderedDict()
        self._lock = Lock()

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self._found)

    def get(self, sealed: str, *beside: int) -> T | None:
        """Return what was made of a sealed text and of what stands open beside it, if known."""
        key = _key(sealed, beside)
        with self._lock:
            if key not in self._found:
                return None
            self._found.move_to_end(key)
            return self._found[key]

    def put(self, sealed: str, made: T, *beside: int) -> T:
        """Remember what was made of a sealed text, and return it."""
        with self._lock:
            self._found[_key(sealed, beside)] = made
            while len(self._found) > self._most:
                self._found.popitem(last=False)
        return made

    def all(self) -> list[T]:
        """Return all that is remembered."""
        with self._lock:
            return list(self._found.values())

    def clear(self) -> None:
        """Remember nothing."""
        with self._lock:
            self._found.clear()


def _key(sealed: str, beside: tuple[int, ...]) -> tuple[Any, ...]:
    return (
        hashlib.blake2b(sealed.encode("utf-8", "surrogatepass"), digest_size=16).digest(),
        *beside,
    )
