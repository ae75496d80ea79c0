"""The process under load: a child of this one, which can be stopped and killed at any point."""

import os
import signal
import sys
import time
import traceback
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from pathlib import Path
from typing import Final

from tests.faults.journal import Journal, Seen, seen_in
from tests.faults.load import Load
from tests.faults.people import Arrival
from tests.faults.places import opened

READY: Final = b"ready\n"
_LATEST_S: Final = 60.0


class Child:
    """A process that puts a store under load, from wherever the journal says it stands."""

    def __init__(
        self,
        where: Path | str,
        plan: Mapping[str, Sequence[Arrival]],
        journal: Path,
        *,
        workers: int = 1,
    ) -> None:
        """Start it, and wait until it is at work.

        Args:
            where: The store.
            plan: What people do.
            journal: Where it stands, and where it is put down.
            workers: How many conversations are handled at once.
        """
        reading, writing = os.pipe()
        self.pid = os.fork()
        self.status: int | None = None
        if self.pid == 0:
            os.close(reading)
            _live(lambda: _work(where, plan, journal, workers, writing))
        os.close(writing)
        with os.fdopen(reading, "rb") as pipe:
            pipe.readline()

    def stop(self) -> None:
        """Let it stand still; returns once it does."""
        os.kill(self.pid, signal.SIGSTOP)
        _, status = os.waitpid(self.pid, os.WUNTRACED)
        if not os.WIFSTOPPED(status):
            self.status = status

    def go_on(self) -> None:
        """Let it go on."""
        if self.status is None:
            os.kill(self.pid, signal.SIGCONT)

    def kill(self) -> None:
        """Kill it with SIGKILL; it may have ended by itself."""
        if self.status is None:
            os.kill(self.pid, signal.SIGKILL)
            _, self.status = os.waitpid(self.pid, 0)

    def ended(self) -> bool:
        """Whether it has ended by itself.

        Raises:
            AssertionError: It has ended otherwise than well.
        """
        if self.status is None:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid == 0:
                return False
            self.status = status
        if os.WIFSIGNALED(self.status):
            return False
        assert os.WEXITSTATUS(self.status) == 0, "the process under load has failed"
        return True

    def wait(self, seconds: float = _LATEST_S) -> None:
        """Wait until it has ended by itself.

        Raises:
            AssertionError: It has not, in time.
        """
        until = time.monotonic() + seconds
        while not self.ended():
            assert time.monotonic() < until, "the process under load does not end"
            time.sleep(0.005)


def _live(work: Callable[[], None]) -> None:
    """Work, and end; nothing of the parent's is run on the way out."""
    try:
        work()
    except BaseException:
        traceback.print_exc(file=sys.stderr)
        os._exit(1)
    os._exit(0)


def _work(
    where: Path | str,
    plan: Mapping[str, Sequence[Arrival]],
    journal: Path,
    workers: int,
    ready: int,
) -> None:
    before = seen_in(journal) if journal.exists() else Seen()
    with closing(opened(where)) as store, Journal(journal) as writing:
        os.write(ready, READY)
        os.close(ready)
        Load(store=store, plan=plan, journal=writing, workers=workers).run(before)
