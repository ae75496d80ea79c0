"""SIGKILL at many random points of a sped-up test loses nothing and asks nothing twice."""

import random
import threading
import time
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import select

from bot.engine.state import Finished
from bot.findings import find
from bot.protocol.record import Ending
from bot.store.statements import OUTBOX
from bot.testing.playbook import Playbook
from tests.channels.serving import Serving, walks_through
from tests.telegram_api.server import BotApiServerThread

SEED = 20260302
SPEED = 22
STARTS_IN = 2.0
"""Seconds in which the program starts on a machine that does nothing else."""


def slowness(folder: Path) -> float:
    """Return how much slower than that it starts here and now; at least 1.

    A machine that is busy gets a slower clock and rarer kills, so that the kills fall on the same
    points of a start and of a test.
    """
    with BotApiServerThread() as server, Serving(server, folder) as serving:
        began = time.monotonic()
        while not server.calls:
            assert time.monotonic() - began < 60, "it does not start"
            time.sleep(0.01)
        took = time.monotonic() - began
        assert serving.stop() == 0
    return max(1.0, took / STARTS_IN)


def test_killed_again_and_again_the_test_ends_the_same(tmp_path: Path) -> None:
    """The killed process, restarted each time, ends with the readings and findings of a quiet run.

    A message is sent a second time only when the process died between sending it and putting
    down that it was sent, so there are at most as many as there were kills.
    """
    chance = random.Random(SEED)
    over = threading.Event()
    kills = 0
    tried, folder = tmp_path / "tried", tmp_path / "killed"
    tried.mkdir()
    folder.mkdir()
    slow = slowness(tried)
    speed = SPEED / slow
    with BotApiServerThread() as server, Serving(server, folder, speed=speed) as serving:
        person = server.person()

        def kill_now_and_then() -> None:
            nonlocal kills
            while not over.wait(slow * chance.uniform(0.5, 5.0)):
                serving.kill()
                kills += 1
                serving.start()

        killer = threading.Thread(target=kill_now_and_then)
        killer.start()
        try:
            walks_through(person, timeout=120 * slow)
        finally:
            over.set()
            killer.join()
        person.writes("where")
        person.wait_for(lambda p: p.finds("Your last test has ended"), timeout=30 * slow)
        assert serving.stop() == 0
        sends = [c for c in server.calls if c.method.startswith("send") and c.status == 200]
        stage = serving.stored(person).conversation.stage
        store = serving.store()
        with store.engine.begin() as connection:
            rows = connection.execute(
                select(OUTBOX.c.fate, OUTBOX.c.attempts, OUTBOX.c.target)
            ).all()
        store.close()
    assert kills >= 8
    assert isinstance(stage, Finished)
    record = stage.record
    assert record.ending is Ending.COMPLETED
    quiet = Playbook(start=datetime(2026, 3, 2, tzinfo=UTC)).stands("112/70 66", "110/74 78")
    quiet.waits(minutes=5).types("108/76 104").waits(minutes=5).types("106/78 109")
    expected = quiet.conversation.stage
    assert isinstance(expected, Finished)
    assert [(r.slot, r.values) for r in record.readings] == [
        (r.slot, r.values) for r in expected.record.readings
    ]
    assert [(f.line, f.state) for f in find(record).findings] == [
        (f.line, f.state) for f in find(expected.record).findings
    ]
    assert {row.fate for row in rows} <= {"sent", "dropped"}
    messages = [row for row in rows if row.target is None and row.fate == "sent"]
    assert len(messages) <= len(sends) <= len(messages) + kills
    assert sum(row.attempts - 1 for row in rows) <= kills
