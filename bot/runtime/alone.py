"""Where one process has its store to itself: it always leads, and tells nobody."""

from collections.abc import Callable

from bot.runtime.ports import Woken


class Alone:
    """The lead of a process that has no other beside it."""

    def acquire(self, hung_for: float = 0.0) -> bool:
        """Lead."""
        del hung_for
        return True

    def held(self, hung_for: float = 0.0) -> bool:
        """Whether we lead: always; nobody else could."""
        del hung_for
        return True

    def trusted(self) -> bool:
        """Whether we may act on it: always."""
        return True

    def release(self) -> None:
        """Nobody else wants it."""


class NoBell:
    """Rings for nobody."""

    def ring(self, woken: Woken) -> None:
        """Nobody is there to be told."""

    def listen(self, heard: Callable[[Woken], None]) -> Callable[[], None]:
        """Nobody rings."""
        del heard
        return lambda: None
