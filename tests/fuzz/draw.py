"""Bytes as chance: whoever makes the bytes, a seed or a guide, makes the choices."""

from collections.abc import Sequence
from typing import Final, TypeVar

T = TypeVar("T")

ENOUGH: Final = 2048
"""Bytes for one run; past the last one every choice is the first."""


class Draw:
    """Makes choices from bytes, in order."""

    def __init__(self, content: bytes) -> None:
        self._content = content
        self._at = 0

    def below(self, most: int) -> int:
        """Return a number from 0 to below `most`."""
        size = 1 if most <= 256 else 3
        some = self._content[self._at : self._at + size]
        self._at += size
        return int.from_bytes(some, "big") % most

    def often(self, percent: int) -> bool:
        """Return whether, so many times in a hundred."""
        return self.below(100) < percent

    def pick(self, things: Sequence[T]) -> T:
        """Return one of some things."""
        return things[self.below(len(things))]
