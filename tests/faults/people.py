"""People who do a test at the same time, each by a plan of their own: when they write what."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Final

from bot.engine.events import Event, Opened, WordsEdited, WordsGiven

START: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)

_BEGINS: Final = ((0, None), (5, "34"), (12, "ready"), (20, "lying"))
_COURSES: Final[tuple[tuple[tuple[int, str], ...], ...]] = (
    (
        (330, "120/76 70"), (345, "sitting"), (650, "118/76 74"), (660, "standing"),
        (830, "I am all right"), (965, "116/78 98"), (1130, "I am all right"),
        (1265, "112/78 104"), (1400, "results"),
    ),
    (
        (330, "120/76"), (336, "pulse 70"), (345, "sitting"), (650, "118/76 74"),
        (660, "standing"), (700, "where"), (800, "dizzy"), (803, "4"), (840, "stop"),
        (845, "dizzy"), (2400, "where"),
    ),
    (
        (330, "120/76 70"), (333, "fix"), (338, "122/78 71"), (345, "sitting"),
        (400, "118/76 74"), (650, "119/77 75"), (660, "standing"),
    ),
    (
        (330, "120/76 70"), (345, "sitting"), (650, "118/76 74"), (660, "standing"),
        (700, "I am going to faint"), (720, "yes"), (900, "better"), (2000, "where"),
    ),
)  # fmt: skip
"""Seconds and words: a whole test, one that is stopped, one left in silence, a near-faint."""

_EDIT: Final = 1300
_EVERY: Final = 5
"""One person in so many changes a message that was long answered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """One thing that a person does.

    Attributes:
        address: Whose.
        number: Counts their arrivals from 0.
        event: What it is, with when.
    """

    address: str
    number: int
    event: Event

    @property
    def key(self) -> str:
        """What names the arrival, whenever it is given again."""
        return f"{self.address} {self.number}"


def arrivals(people: int, seed: int) -> dict[str, tuple[Arrival, ...]]:
    """Return all that some people do, by address; the same seed gives the same."""
    return {f"telegram:{1000 + n}": _of(n, Random(f"{seed}/{n}")) for n in range(people)}


def _of(person: int, chance: Random) -> tuple[Arrival, ...]:
    begun = START + timedelta(seconds=chance.choice((0, 0, 7, 20, 40)))
    written: list[tuple[int, str | None]] = [*_BEGINS, *_COURSES[person % len(_COURSES)]]
    late = [chance.choice((0, 0, 0, 1, 2)) for _ in written]
    events: list[Event] = []
    for (after, words), slip in zip(written, late, strict=True):
        at = begun + timedelta(seconds=after + slip)
        if words is None:
            events.append(Opened(at=at))
        else:
            events.append(WordsGiven(at=at, text=words, source=str(len(events))))
    if person % _EVERY == 0:
        at = begun + timedelta(seconds=_EDIT)
        events.append(WordsEdited(at=at, text="121/77 72", source="4"))
        events.sort(key=lambda event: event.at)
    address = f"telegram:{1000 + person}"
    return tuple(Arrival(address=address, number=n, event=e) for n, e in enumerate(events))
