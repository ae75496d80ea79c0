"""What the outside world saw: written in one go to a file, so that a killed process's stays."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Self

from bot.engine.effects import Urgency


class Journal:
    """Appends lines to a file; a line is there, whole, once the call has returned."""

    def __init__(self, path: Path) -> None:
        self._file = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        os.close(self._file)

    def note(self, line: str) -> None:
        """Put down a line."""
        os.write(self._file, f"{line}\n".encode())

    def time(self, now: datetime) -> None:
        """Put down what time it has become."""
        self.note(f"T {now.isoformat()}")

    @contextmanager
    def doing(self, what: str) -> Iterator[None]:
        """Put down that something is begun and, if it does not fail, that it is durable."""
        self.note(f"> {what}")
        yield
        self.note(f"< {what}")

    def on_the_wire(self, address: str, number: int, urgency: Urgency) -> None:
        """Put down that a person has got a message."""
        self.note(f"# {address} {number} {int(urgency)}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What a journal tells.

    Attributes:
        now: What time it had become.
        taken: Arrivals that were acknowledged, by key.
        begun: What was begun and never finished.
        wire: Messages as people got them: address, number, urgency.
        unsure: How often a message came again whose sending had not been put down.
        doubled: How often one came again though it had been put down as sent.
        over: Whether everything was done.
        lines: How many lines.
    """

    now: datetime | None = None
    taken: frozenset[str] = frozenset()
    begun: frozenset[str] = frozenset()
    wire: tuple[tuple[str, int, Urgency], ...] = ()
    unsure: int = 0
    doubled: int = 0
    over: bool = False
    lines: int = 0


@dataclass(slots=True)
class _Reading:
    now: datetime | None = None
    taken: set[str] = field(default_factory=set)
    begun: dict[str, int] = field(default_factory=dict)
    wire: list[tuple[str, int, Urgency]] = field(default_factory=list)
    sent: set[tuple[str, int]] = field(default_factory=set)
    got: set[tuple[str, int]] = field(default_factory=set)
    unsure: int = 0
    doubled: int = 0
    over: bool = False


def seen_in(path: Path) -> Seen:
    """Read a journal; a last line that was cut off has not happened."""
    whole, _, _ = path.read_bytes().decode().rpartition("\n")
    lines = whole.split("\n") if whole else []
    found = _Reading()
    for line in lines:
        _read(found, line)
    return Seen(
        now=found.now,
        taken=frozenset(found.taken),
        begun=frozenset(what for what, count in found.begun.items() if count),
        wire=tuple(found.wire),
        unsure=found.unsure,
        doubled=found.doubled,
        over=found.over,
        lines=len(lines),
    )


def _read(found: _Reading, line: str) -> None:
    match line.split(" "):
        case ["T", now]:
            found.now = datetime.fromisoformat(now)
        case [">", *what]:
            found.begun[" ".join(what)] = 1
        case ["<", "take", address, number]:
            found.begun[f"take {address} {number}"] = 0
            found.taken.add(f"{address} {number}")
        case ["<", "settle", address, number]:
            found.begun[f"settle {address} {number}"] = 0
            found.sent.add((address, int(number)))
        case ["<", *what]:
            found.begun[" ".join(what)] = 0
        case ["#", address, number, urgency]:
            message = (address, int(number))
            if message in found.sent:
                found.doubled += 1
            elif message in found.got:
                found.unsure += 1
            found.got.add(message)
            found.wire.append((*message, Urgency(int(urgency))))
        case ["over"]:
            found.over = True
        case _:
            raise ValueError(f"a journal has no such line: {line!r}")
