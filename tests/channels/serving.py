"""The real `wallside serve`, as its own process, against the Bot API server of these tests."""

import os
import signal
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from types import TracebackType
from typing import Final, Self

from bot.bootstrap import DATABASE
from bot.runtime.ports import Stored
from bot.store import open_store
from bot.store.sql import SqlStore
from tests.telegram_api.person import Person
from tests.telegram_api.server import TOKEN, BotApiServer


class Serving:
    """Starts, stops and kills the program; its data folder stays."""

    def __init__(
        self,
        server: BotApiServer,
        folder: Path,
        *,
        speed: float = 60,
        opening: str = "short",
        **more: str,
    ) -> None:
        self.program: tuple[str, ...] = ("-m", "bot")
        self.folder = folder
        self.log = folder / "serve.log"
        self._environment = {
            **{k: v for k, v in os.environ.items() if not k.startswith("WALLSIDE_")},
            "WALLSIDE_TOKEN": TOKEN,
            "WALLSIDE_BOT_API": server.url,
            "WALLSIDE_FOLDER": str(folder),
            "WALLSIDE_SPEED": str(speed),
            "WALLSIDE_OPENING": opening,
            **more,
        }
        self._process: subprocess.Popen[bytes] | None = None

    def add(self, setting: str, value: str) -> None:
        """Set something more, for the next start."""
        self._environment[setting] = value

    def start(self) -> None:
        """Start the program."""
        with self.log.open("ab") as log:
            self._process = subprocess.Popen(
                [sys.executable, *self.program, "serve"],
                env=self._environment,
                stdout=log,
                stderr=log,
            )

    def kill(self) -> None:
        """Kill it with SIGKILL: it cannot tidy anything up."""
        assert self._process is not None
        self._process.kill()
        self._process.wait(timeout=10)

    def stand_still(self) -> None:
        """Stop it with SIGSTOP: it does nothing, and knows nothing of it."""
        assert self._process is not None
        self._process.send_signal(signal.SIGSTOP)

    def go_on(self) -> None:
        """Let it go on."""
        assert self._process is not None
        self._process.send_signal(signal.SIGCONT)

    def stop(self) -> int:
        """Ask it to end, as a supervisor does, and return its exit code."""
        assert self._process is not None
        self._process.send_signal(signal.SIGTERM)
        return self._process.wait(timeout=30)

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        if self._process is not None and self._process.poll() is None:
            self._process.kill()
        if self._process is not None:
            self._process.wait(timeout=10)

    def store(self) -> SqlStore:
        """Open the store that the program left; close it after use."""
        return open_store(self.folder / DATABASE)

    def stored(self, person: Person) -> Stored:
        """Return the conversation of a person."""
        store = self.store()
        with store.unit() as unit:
            stored = unit.load(f"telegram:{person.chat_id}")
        store.close()
        assert stored is not None
        return stored


STEPS: Mapping[str, Callable[[Person], object]] = {
    "How old are you": lambda p: p.taps("20 or over"),
    "next to the bed with the cuff on": lambda p: p.taps("I am ready"),
    "when you are lying down": lambda p: p.taps("I am lying down"),
    "Measure now, still lying": lambda p: p.writes("112/70 66"),
    "when you are sitting": lambda p: p.taps("I am sitting"),
    "Measure now, still sitting": lambda p: p.writes("110/74 78"),
    "when you are standing": lambda p: p.taps("I am standing"),
    "Measure now, still standing": lambda p: p.writes("108/76 104"),
    "Measure now, arm supported": lambda p: p.writes("106/78 109"),
}
"""What the person does when they read some words, in the order of a whole test."""


WELL: Final = "Still all right, standing there?"
"""What somebody who stands is asked in between."""


def walks_through(person: Person, *, timeout: float = 60) -> None:
    """Do a whole test as a person would, answering each prompt once."""
    person.writes("/start")
    answered: set[int] = set()

    def asked(seen: Person) -> list[int]:
        return [
            m.message_id for m in seen.replies if WELL in m.text and m.message_id not in answered
        ]

    for words, act in STEPS.items():
        while True:
            person.wait_for(lambda p, words=words: p.finds(words) or asked(p), timeout=timeout)  # type: ignore[misc]
            if not (well := asked(person)):
                break
            answered.update(well)
            person.taps("I am all right")
        act(person)
    person.wait_for(lambda p: any(m.document for m in p.replies), timeout=timeout)
    person.wait_for(lambda p: p.finds("as a table"), timeout=timeout)
