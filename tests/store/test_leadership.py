"""One process leads, and another follows when it leaves, dies or hangs."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from typing import Final

import pytest

from bot.runtime.ports import Leadership
from bot.store import postgres, sqlite
from bot.store.leadership import (
    HANGS,
    SILENCE,
    FileLeadership,
    ServerLeadership,
    leadership,
)
from tests.store.server import PostgresServer

SHORT: Final = timedelta(seconds=0.5)
ENOUGH: Final = 5.0
"""Seconds for another to follow, with `SHORT` of silence allowed."""

LEADS: Final = f"""
import sys, time
from datetime import timedelta
from pathlib import Path
from bot.store import postgres, sqlite
from bot.store.leadership import ServerLeadership, leadership

silence = timedelta(seconds={SHORT.total_seconds()})
leads = [
    ServerLeadership(postgres.connect(where), "a", silence=silence)
    if where.startswith("postgresql")
    else leadership(sqlite.connect(Path(where)), "a")
    for where in sys.argv[1:]
]
print(all([one.acquire() for one in leads]), flush=True)
while all([one.held() for one in leads]):
    time.sleep(0.05)
print("over", flush=True)
"""


@pytest.fixture(params=["sqlite", "postgres"])
def two(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[tuple[Leadership, Leadership]]:
    """Return two who want to lead the same bot, and the database of each kind in turn."""
    if request.param == "sqlite":
        engines = [sqlite.connect(tmp_path / "a.sqlite3") for _ in range(2)]
    else:
        server: PostgresServer = request.getfixturevalue("server")
        engines = [postgres.connect(server.url()) for _ in range(2)]
    one, other = (leadership(engine, "a") for engine in engines)
    yield one, other
    one.release()
    other.release()
    for engine in engines:
        engine.dispose()


def follows(other: Leadership) -> bool:
    """Whether somebody gets to lead before patience ends."""
    until = time.monotonic() + ENOUGH
    while not other.acquire():
        if time.monotonic() > until:
            return False
        time.sleep(0.05)
    return True


def test_one_leads_until_it_lets_go(two: tuple[Leadership, Leadership]) -> None:
    """The second does not get it while the first has it, and does once it is let go."""
    one, other = two
    assert one.acquire()
    assert one.acquire(), "who leads may ask again"
    assert (one.held(), other.acquire(), other.held()) == (True, False, False)
    one.release()
    assert (one.held(), other.acquire(), other.held()) == (False, True, True)


def test_bots_have_leaders_of_their_own(server: PostgresServer, tmp_path: Path) -> None:
    """Another bot, or another clinic's part of the database, is led on its own."""
    with server.schema() as part:
        shared, apart = postgres.connect(server.url()), postgres.connect(part)
        leads = [leadership(shared, "a"), leadership(shared, "b"), leadership(apart, "a")]
        assert [one.acquire() for one in leads] == [True] * 3
        for one in leads:
            one.release()
        shared.dispose()
        apart.dispose()
    engine = sqlite.connect(tmp_path / "a.sqlite3")
    files = [leadership(engine, "a"), leadership(engine, "b")]
    assert [type(one) for one in files] == [FileLeadership] * 2
    assert [one.acquire() for one in files] == [True] * 2
    for one in files:
        one.release()
    engine.dispose()


def test_leader_whose_connection_dies_knows_and_is_followed(server: PostgresServer) -> None:
    """When the server ends its connection, the leader hears of it at the next question."""
    engine = postgres.connect(server.url())
    now = 0.0
    one = ServerLeadership(engine, "a", tick=lambda: now)
    other = ServerLeadership(engine, "a")
    assert one.acquire()
    with engine.begin() as connection:
        connection.exec_driver_sql(
            "SELECT pg_terminate_backend(pid) FROM pg_locks WHERE locktype = 'advisory'"
        )
    now = 0.3 * SILENCE.total_seconds()
    assert not one.held()
    assert follows(other)
    other.release()
    engine.dispose()


def test_leader_that_has_been_silent_stops_by_itself(server: PostgresServer) -> None:
    """Past its trust a leader stops without asking: it may have been followed already."""
    engine = postgres.connect(server.url())
    now = 0.0
    one = ServerLeadership(engine, "a", tick=lambda: now)
    assert one.acquire()
    now = 0.59 * SILENCE.total_seconds()
    assert one.held()
    now += 0.61 * SILENCE.total_seconds()
    assert not one.held()
    assert one.acquire(), "it may lead again if nobody has followed"
    one.release()
    engine.dispose()


def test_leader_whose_writer_hangs_lets_another_lead_at_once(
    two: tuple[Leadership, Leadership], request: pytest.FixtureRequest
) -> None:
    """On PostgreSQL a hung writer costs the lead until it gets on; a file has nobody to follow."""
    one, other = two
    file = "sqlite" in request.node.callspec.id
    assert one.acquire()
    assert one.held(HANGS.total_seconds() - 0.5), "who is merely slow goes on leading"
    assert one.held(HANGS.total_seconds() + 0.5) is file
    assert one.trusted() is file
    assert one.acquire(HANGS.total_seconds() + 1) is file, "who hangs does not begin to lead"
    assert other.acquire() is not file
    other.release()
    assert one.acquire()


def test_a_wait_for_a_lock_is_over_before_it_seems_to_hang(server: PostgresServer) -> None:
    """The server ends what hangs in a transaction, then who waits for it; then comes our limit."""
    engine = postgres.connect(server.url())
    with engine.begin() as connection:
        shown = [
            connection.exec_driver_sql(f"SHOW {name}").scalar_one()
            for name in ("idle_in_transaction_session_timeout", "lock_timeout")
        ]
    engine.dispose()
    assert shown == ["5s", "6s"]
    assert timedelta(seconds=5) == SILENCE
    assert timedelta(seconds=6) < HANGS


def test_database_that_is_gone_has_no_leader() -> None:
    """Who cannot reach the database does not lead, and may try again."""
    engine = postgres.connect("postgresql://nobody@/none?host=/nowhere")
    assert not leadership(engine, "a").acquire()
    engine.dispose()


@contextmanager
def leader(*where: str) -> Iterator["subprocess.Popen[str]"]:
    """Run another process that leads for as long as it may."""
    process = subprocess.Popen(
        [sys.executable, "-c", LEADS, *where],
        stdout=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "True\n"
    try:
        yield process
    finally:
        process.kill()
        process.communicate()


def test_process_that_hangs_is_followed_and_stops_when_it_wakes(server: PostgresServer) -> None:
    """A stopped process is followed within seconds; woken up, it does nothing more."""
    engine = postgres.connect(server.url())
    other = ServerLeadership(engine, "a", silence=SHORT)
    with leader(server.url()) as process:
        assert not other.acquire()
        os.kill(process.pid, signal.SIGSTOP)
        assert follows(other)
        os.kill(process.pid, signal.SIGCONT)
        assert process.stdout is not None
        assert process.stdout.readline() == "over\n"
    assert other.held() or follows(other)
    other.release()
    engine.dispose()


def test_process_that_is_killed_is_followed(server: PostgresServer, tmp_path: Path) -> None:
    """Whoever led is followed at once when its process is killed, on either database."""
    path = tmp_path / "a.sqlite3"
    engines = [sqlite.connect(path), postgres.connect(server.url())]
    others = [leadership(engine, "a") for engine in engines]
    with leader(str(path), server.url()) as process:
        assert [other.acquire() for other in others] == [False, False]
        process.kill()
        assert [follows(other) for other in others] == [True, True]
    for other, engine in zip(others, engines, strict=True):
        other.release()
        engine.dispose()
