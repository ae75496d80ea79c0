"""Durable updates a second: the same timed conversation, held in several ways, in one run.

`python -m tests.bench.updates` (`--full` with 5,000 and 20,000 people as well; `--sync-ms 1` on a
disk whose syncs take so much longer, see `slow_disk`). People in the
middle of a test are there already; others go through all twelve steps. Everything is in this
process, without a network: an update comes in as the JSON that Telegram sends, and the answer goes
to a connection that takes it at once. The rounds of all kinds take turns, so that whatever else
the machine does hits all alike; the figures are medians, and the ratios are what counts.

Python looks for garbage as often as it does with each kind by itself, but what is there before the
first round is left out: else a kind would pay for what all the others have imported.

Ours is measured until an update is durable with all that follows from it: inbox, event log,
state, timer, and the answer in the outbox. The peers send within an update, and keep no such row.
"""

import asyncio
import gc
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from statistics import median
from typing import Final

from bot import garbage
from tests.bench import slow_disk
from tests.bench.peers import aiogram_fsm, ptb, wallside
from tests.bench.peers.conversation import STEPS, Peer, UnavailableError, backlogs
from tests.bench.rows import Row, show

KINDS: Final[tuple[Callable[[], Peer], ...]] = (
    wallside.Wallside,
    aiogram_fsm.OnSqlite,
    aiogram_fsm.OnRedis,
    aiogram_fsm.OnRedisEverySecond,
    aiogram_fsm.Memory,
    ptb.Pickle,
    ptb.Memory,
)
GROUP: Final = 100
"""People who go through the conversation in one round."""

ROUNDS: Final = 3
SIZES: Final = (1000,)
FULL_SIZES: Final = (500, 1000, 5000, 20_000)


@dataclass(slots=True)
class Measured:
    """What the rounds of one kind took, an update."""

    clock: list[float] = field(default_factory=list)
    cpu: list[float] = field(default_factory=list)


async def go_through(peer: Peer, chats: range, found: Measured) -> None:
    """Let people go through the conversation, and note what an update took."""
    clock = cpu = 0.0
    done = 0
    for step in range(len(STEPS)):
        await peer.pass_time(step, chats)
        for updates in backlogs(chats, step):
            begun, spent = time.perf_counter(), time.process_time()
            await peer.take(updates)
            clock += time.perf_counter() - begun
            cpu += time.process_time() - spent
            done += len(updates)
    found.clock.append(clock / done)
    found.cpu.append(cpu / done)


async def measured(
    kinds: Sequence[Callable[[], Peer]], midway: int, *, group: int = GROUP, rounds: int = ROUNDS
) -> tuple[dict[str, Measured], dict[str, str]]:
    """Return what each kind takes, and why some could not be measured."""
    chats = count(1, group)
    missing: dict[str, str] = {}
    with tempfile.TemporaryDirectory() as name:
        peers: list[Peer] = []
        for number, kind in enumerate(kinds):
            peer, folder = kind(), Path(name) / str(number)
            folder.mkdir()
            try:
                await peer.open(folder, midway)
                peers.append(peer)
            except UnavailableError as error:
                missing[peer.kind.name] = str(error)
        found = {peer.kind.name: Measured() for peer in peers}
        garbage.spare_what_is_there()  # what one kind has imported is not to burden another
        for number in range(rounds + 1):
            for peer in peers:
                first = next(chats)
                warm = Measured() if number == 0 else found[peer.kind.name]
                gc.set_threshold(*peer.kind.garbage)
                await go_through(peer, range(first, first + group), warm)
        for peer in peers:
            await peer.close()
    return found, missing


def rows(sizes: Sequence[int] = SIZES, *, group: int = GROUP, rounds: int = ROUNDS) -> list[Row]:
    """Return the figures for each number of people in the middle of a test."""
    found: list[Row] = []
    for people in sizes:
        taken, missing = asyncio.run(measured(KINDS, people, group=group, rounds=rounds))
        kinds = {kind.kind.name: kind.kind for kind in KINDS}  # type: ignore[attr-defined]
        first = median(taken[wallside.Wallside.kind.name].clock)
        for name, each in taken.items():
            took = median(each.clock)
            kind = kinds[name]
            found.append(
                Row(
                    part=f"updates, {people:,} people{slow_disk.asked()}",
                    name=name,
                    value=1 / took,
                    unit="updates/s",
                    ratio=took / first,
                    note=f"{median(each.cpu) * 1000:.2f} ms CPU; "
                    + ("durable: " if kind.durable else "not durable: ")
                    + kind.holds,
                )
            )
        for name, why in missing.items():
            found.append(
                Row(part=f"updates, {people:,} people{slow_disk.asked()}", name=name, note=why)
            )
    return found


def growth(small: int = 500, large: int = 20_000, *, rounds: int = 5) -> list[Row]:
    """Return what an update costs with many people in the middle of a test, against few.

    Both stores are open at once and take turns.
    """

    async def both() -> tuple[Measured, Measured]:
        pair, found = (wallside.Wallside(), wallside.Wallside()), (Measured(), Measured())
        chats = count(1, GROUP)
        with tempfile.TemporaryDirectory() as name:
            for number, (peer, midway) in enumerate(zip(pair, (small, large), strict=True)):
                folder = Path(name) / str(number)
                folder.mkdir()
                await peer.open(folder, midway)
            for number in range(rounds + 1):
                for peer, each in zip(pair, found, strict=True):
                    first = next(chats)
                    kept = Measured() if number == 0 else each
                    await go_through(peer, range(first, first + GROUP), kept)
            for peer in pair:
                await peer.close()
        return found

    few, many = asyncio.run(both())
    by_clock = median(many.clock) / median(few.clock)
    by_cpu = median(many.cpu) / median(few.cpu)
    part = "cost of an update"
    return [
        Row(
            part=part,
            name=f"{large:,} people against {small:,}, by the clock",
            ratio=by_clock,
            aim="<= 1.25",
        ),
        Row(part=part, name="the same, of the processor", ratio=by_cpu, aim="<= 1.25"),
    ]


if __name__ == "__main__":
    slow_disk.begin_anew("tests.bench.updates")
    full = "--full" in sys.argv
    show([*rows(FULL_SIZES if full else SIZES), *(growth() if full else growth(500, 5000))])
