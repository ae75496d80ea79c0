"""A unit of work that met a conflict is tried again; a store that is away is waited for."""

from collections.abc import Callable, Iterator
from contextlib import closing

import pytest

from bot.errors import ConflictError, UnavailableError
from bot.runtime.metrics import Metrics
from bot.runtime.patience import TRIES, PatientWorker
from bot.runtime.worker import Worker


def failing(*errors: Exception) -> Callable[[], str]:
    """Return work that fails so often before it succeeds."""
    left: Iterator[Exception] = iter(errors)

    def work() -> str:
        if (error := next(left, None)) is not None:
            raise error
        return "done"

    return work


class Sleeps(list[float]):
    """Sleeps not at all, and remembers how long it would have."""

    async def __call__(self, seconds: float) -> None:
        """Remember."""
        self.append(seconds)


async def test_conflicts_and_absences_are_got_over() -> None:
    """In any order; each pause is longer than the last, up to a bound, and of a random length."""
    slept = Sleeps()
    with closing(Worker("w")) as worker:
        patient = PatientWorker(worker, Metrics(), chance=lambda: 0.5, sleep=slept)
        errors = [ConflictError()] * 3 + [UnavailableError()] * 12 + [ConflictError()]
        assert await patient.run(failing(*errors)) == "done"
        assert not patient.away
    assert slept[:3] == pytest.approx([0.0075, 0.015, 0.03])
    assert slept[3:7] == pytest.approx([0.0375, 0.075, 0.15, 0.3])
    assert max(slept) == pytest.approx(0.75)


async def test_endless_conflict_is_told() -> None:
    """After so many tries the conflict comes back to the caller; nothing was changed."""
    slept = Sleeps()
    with closing(Worker("w")) as worker:
        patient = PatientWorker(worker, Metrics(), sleep=slept)
        with pytest.raises(ConflictError):
            await patient.run(failing(*[ConflictError()] * 100))
    assert len(slept) == TRIES - 1


async def test_who_cannot_wait_is_told() -> None:
    """A caller with a limit hears of the absence in the end; another error comes at once."""
    slept = Sleeps()
    with closing(Worker("w")) as worker:
        patient = PatientWorker(worker, Metrics(), sleep=slept)
        with pytest.raises(UnavailableError):
            await patient.run(failing(*[UnavailableError()] * 9), within=0.0)
        with pytest.raises(ZeroDivisionError):
            await patient.run(failing(ZeroDivisionError()))
