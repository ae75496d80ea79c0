"""Units of work that wait together are committed together, and fail alone."""

import asyncio
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import event

from bot.errors import ConflictError
from bot.runtime.gathering import MOST, Gatherer
from bot.runtime.ports import UnitOfWork
from bot.runtime.worker import Worker
from bot.store import open_store
from bot.store.sql import SqlStore
from bot.store.statements import POST

AT = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def claims(key: str) -> Callable[[UnitOfWork], bool]:
    """Return work that claims an arrival."""
    return lambda unit: unit.claim(key, AT)


def claims_and_fails(key: str) -> Callable[[UnitOfWork], bool]:
    """Return work that claims an arrival and then meets a conflict."""

    def work(unit: UnitOfWork) -> bool:
        unit.claim(key, AT)
        raise ConflictError(key)

    return work


async def gathered(store: SqlStore, *works: Callable[[UnitOfWork], bool]) -> list[object]:
    """Return what each of some works came to, all handed over at once."""
    writer = Worker("writer")
    gatherer = Gatherer(store, writer)
    try:
        return list(await asyncio.gather(*(gatherer.run(w) for w in works), return_exceptions=True))
    finally:
        writer.close()


def commits_of(store: SqlStore) -> list[None]:
    """Return a list that grows by one at each commit."""
    seen: list[None] = []
    event.listen(store.engine, "commit", lambda _: seen.append(None))
    return seen


async def test_what_waits_together_is_one_commit(tmp_path: Path) -> None:
    """As many as go into one transaction are synced to the disk once, each with its own answer."""
    with closing(open_store(tmp_path / "a.sqlite3")) as store:
        commits = commits_of(store)
        answers = await gathered(store, *(claims(str(n % (MOST - 1))) for n in range(MOST)))
    assert len(commits) == 1
    assert answers == [True] * (MOST - 1) + [False]


async def test_one_that_fails_takes_nobody_along(tmp_path: Path) -> None:
    """A unit that ends by an exception is undone alone; those before and after it are kept."""
    with closing(open_store(tmp_path / "a.sqlite3")) as store:
        first, failed, last = await gathered(
            store, claims("first"), claims_and_fails("failed"), claims("last")
        )
        again = await gathered(store, claims("first"), claims("failed"), claims("last"))
    assert (first, type(failed), last) == (True, ConflictError, True)
    assert again == [False, True, False]


async def test_a_fault_of_the_database_undoes_all_and_each_is_tried_alone(tmp_path: Path) -> None:
    """Where the database itself refuses one, the others are committed by themselves."""

    def breaks(unit: UnitOfWork) -> bool:
        # a row of the outbox that belongs to no conversation: the database refuses it
        row = {
            "conversation_id": "nobody", "number": 1, "urgency": 1, "locale": "en",
            "effect": "", "target": None, "until_at": None, "fate": "waiting", "attempts": 0,
        }  # fmt: skip
        POST.change_each(unit._db, [row])  # type: ignore[attr-defined]
        return True

    with closing(open_store(tmp_path / "a.sqlite3")) as store:
        commits = commits_of(store)
        first, broken, last = await gathered(store, claims("first"), breaks, claims("last"))
        assert len(commits) == 2
        again = await gathered(store, claims("first"), claims("last"))
    assert (first, last) == (True, True)
    assert isinstance(broken, Exception)
    assert again == [False, False]


async def test_a_caller_who_is_cancelled_changes_nothing_for_others(tmp_path: Path) -> None:
    """What was handed over is done though its caller has gone, and the next is answered."""
    with closing(open_store(tmp_path / "a.sqlite3")) as store:
        writer = Worker("writer")
        gatherer = Gatherer(store, writer)
        gone = asyncio.create_task(gatherer.run(claims("gone")))
        await asyncio.sleep(0)
        gone.cancel()
        assert await gatherer.run(claims("here")) is True
        assert await gatherer.run(claims("gone")) is False
        writer.close()


async def test_nobody_waits_for_a_writer_that_is_closed(tmp_path: Path) -> None:
    """Whoever hands something over after the end is told so."""
    with closing(open_store(tmp_path / "a.sqlite3")) as store:
        writer = Worker("writer")
        writer.close()
        with pytest.raises(RuntimeError):
            await Gatherer(store, writer).run(claims("late"))
