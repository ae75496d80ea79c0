"""What people wrote while the program stood still counts before the alarms that went by."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest

from bot.runtime import alarms as module
from bot.runtime.alarms import Alarms
from bot.runtime.clock import SystemClock
from bot.runtime.metrics import Metrics
from bot.runtime.patience import PatientWorker
from bot.runtime.worker import Worker
from bot.testing.memory import MemoryStore


@pytest.mark.parametrize(
    ("late", "first"), [(timedelta(minutes=10), "written"), (timedelta(seconds=1), "alarm")]
)
async def test_alarm_long_overdue_lets_what_waited_come_in_first(
    monkeypatch: pytest.MonkeyPatch, late: timedelta, first: str
) -> None:
    """After ten minutes of standing still the alarm closed a test as silent.

    The readings of that test were waiting at the messenger, typed in time. An alarm that is only a
    little late still rings at once.
    """
    monkeypatch.setattr(module, "CATCHES_UP", timedelta(seconds=0.2))
    order: list[str] = []

    async def ring(name: str, due: datetime) -> None:
        order.append("alarm")

    worker = Worker("writer")
    writer = PatientWorker(worker, Metrics())
    alarms = Alarms(store=MemoryStore(), clock=SystemClock(), writer=writer, ring=ring)
    await alarms.start()
    alarms.arm("ada", datetime.now(UTC) - late)
    await asyncio.sleep(0.1)
    order.append("written")
    for _ in range(100):
        if "alarm" in order:
            break
        await asyncio.sleep(0.02)
    alarms.stop()
    worker.close()
    assert sorted(order) == ["alarm", "written"]
    assert order[0] == first
