"""A Redis of our own for a while: Debian's server on a socket in a folder."""

import importlib
import shutil
import subprocess
import time
from pathlib import Path
from typing import Any

from tests.bench.peers.conversation import UnavailableError


class RedisServer:
    """Runs while it is needed; what it holds goes with its folder."""

    def __init__(self, folder: Path, *, sync: str) -> None:
        """Start it.

        Args:
            folder: Where its log and its socket are.
            sync: When the log is synced: `always` or `everysec`.

        Raises:
            UnavailableError: There is no server, or no client for it.
        """
        program = shutil.which("redis-server")
        if program is None:
            raise UnavailableError("no redis-server here: install Debian's package redis-server")
        self.socket = folder / "redis.sock"
        settings = {
            "port": "0",
            "unixsocket": str(self.socket),
            "dir": str(folder),
            "appendonly": "yes",
            "appendfsync": sync,
            "save": "",
            "daemonize": "no",
        }
        arguments = [word for name, value in settings.items() for word in (f"--{name}", value)]
        self._process = subprocess.Popen([program, *arguments], stdout=subprocess.DEVNULL)
        for _ in range(200):
            if self.socket.exists():
                return
            time.sleep(0.02)
        self.close()
        raise UnavailableError("redis-server does not start")

    def close(self) -> None:
        """End it."""
        self._process.terminate()
        self._process.wait(timeout=10)


def storage_at(socket: Path) -> Any:
    """Return aiogram's own storage on a Redis.

    Raises:
        UnavailableError: There is no client for it.
    """
    try:
        shipped = importlib.import_module("aiogram.fsm.storage.redis")
        return shipped.RedisStorage.from_url(f"unix://{socket}")
    except ModuleNotFoundError:
        raise UnavailableError("no client for Redis here: pip install -e '.[bench]'") from None
