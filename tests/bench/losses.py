"""What is lost when the process is killed, and how long it takes to come back.

`python -m tests.bench.losses`. Each kind runs as a process of its own, takes the first eight
messages of people, says so, and is killed with SIGKILL. Then it is started again and looked at:
who still stands where their last acknowledged message had led them, whose words are known, and for
whom a timer will ring. Redis itself is not killed, only the program that uses it.
"""

import asyncio
import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any, Final

from tests.bench.peers.conversation import Peer, UnavailableError, backlogs
from tests.bench.peers.redis_server import RedisServer, storage_at
from tests.bench.rows import Row, show

NAMES: Final = (
    "wallside", "aiogram-sqlite", "aiogram-redis", "aiogram-memory",
    "ptb-flushed", "ptb-shipped",
)  # fmt: skip
PEOPLE: Final = range(1, 101)
LAST: Final = 7
"""The step whose acknowledgement is the last: they stand, and a timer is set."""

PATIENCE_S: Final = 120


def peer_named(name: str) -> Peer:
    """Return a kind; only its own libraries are imported, so that coming back is its own time."""
    if name == "wallside":
        from bot import garbage

        garbage.look_seldom()  # as the program does when it starts
        from tests.bench.peers import wallside

        return wallside.Wallside()
    if name.startswith("aiogram"):
        from tests.bench.peers import aiogram_fsm

        kinds: Mapping[str, Callable[[], Peer]] = {
            "aiogram-sqlite": aiogram_fsm.OnSqlite,
            "aiogram-redis": aiogram_fsm.OnRedis,
            "aiogram-memory": aiogram_fsm.Memory,
        }
        return kinds[name]()
    from tests.bench.peers import ptb

    return ptb.Pickle() if name == "ptb-flushed" else ptb.PickleAsShipped()


async def child(name: str, folder: Path, *, looks: bool) -> None:
    """Work until killed, or say that it is ready and what is there."""
    peer = peer_named(name)
    await peer.open(folder, 0)
    if looks:
        _tell({"ready": True})
        _tell(asdict(await peer.found(PEOPLE, LAST)))
        return
    for step in range(LAST + 1):
        await peer.pass_time(step, PEOPLE)
        for updates in backlogs(PEOPLE, step):
            await peer.take(updates)
    _tell({"name": peer.kind.name})
    await asyncio.Event().wait()


def _tell(what: Mapping[str, Any]) -> None:
    sys.stdout.write(json.dumps(what) + "\n")
    sys.stdout.flush()


def _heard(process: subprocess.Popen[str]) -> dict[str, Any]:
    assert process.stdout is not None
    line = process.stdout.readline()
    if not line:
        raise RuntimeError("a process of the benchmark ended before its time")
    heard: dict[str, Any] = json.loads(line)
    return heard


def _started(name: str, folder: Path, how: str, more: Mapping[str, str]) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "tests.bench.losses", how, name, str(folder)],
        env={**os.environ, **more},
        stdout=subprocess.PIPE,
        text=True,
    )


def lost_by(name: str, folder: Path) -> Row:
    """Return what one kind loses.

    Raises:
        UnavailableError: It cannot be had here.
    """
    server, more = None, {}
    if name == "aiogram-redis":
        server = RedisServer(folder, sync="always")
        storage_at(server.socket)
        more = {"WALLSIDE_BENCH_REDIS": str(server.socket)}
    try:
        working = _started(name, folder, "work", more)
        title = _heard(working)["name"]
        working.kill()
        working.wait(timeout=PATIENCE_S)
        begun = time.perf_counter()
        looking = _started(name, folder, "look", more)
        _heard(looking)
        back = time.perf_counter() - begun
        found = _heard(looking)
        looking.wait(timeout=PATIENCE_S)
    finally:
        if server is not None:
            server.close()
    people, words = len(PEOPLE), len(PEOPLE) * (LAST + 1)
    lost = {
        "states": people - found["states"],
        "words": words - found["words"],
        "timers": people - found["timers"],
    }
    note = ", ".join(
        f"{what} lost: {n} of {of}"
        for (what, n), of in zip(lost.items(), (people, words, people), strict=True)
    )
    return Row(part="killed, and back", name=title, value=back, unit="s to be back", note=note)


def rows() -> list[Row]:
    """Return what each kind loses."""
    found = []
    for name in NAMES:
        with tempfile.TemporaryDirectory() as folder:
            try:
                found.append(lost_by(name, Path(folder)))
            except UnavailableError as error:
                found.append(Row(part="killed, and back", name=name, note=str(error)))
    return found


if __name__ == "__main__":
    if len(sys.argv) > 3:
        _, how, whose, where = sys.argv
        asyncio.run(child(whose, Path(where), looks=how == "look"))
    else:
        show(rows())
