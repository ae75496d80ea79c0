"""Two real `wallside serve` on one database: both take arrivals, one sends and keeps time."""

import json
import os
import re
import signal
import socket
import time
import urllib.request
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final
from urllib.error import URLError

from bot.store.keys import new_key
from tests.channels.serving import Serving
from tests.store.server import PostgresServer
from tests.telegram_api.account import Webhook
from tests.telegram_api.server import BotApiServerThread

SECRET: Final = "harbour-street-0123456789"
SECONDS: Final = 10.0
"""Within how many seconds a leader that hangs is followed here: 5 of silence, and what a busy
machine takes to start something."""


def free_port() -> int:
    """Return a port that nobody listens at."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port: int = found.getsockname()[1]
        return port


class Process(Serving):
    """One of them, with a webhook and a status address of its own."""

    def __init__(self, telegram: Any, folder: Path, database: str, key: str) -> None:
        self.hook, self.status = free_port(), free_port()
        super().__init__(
            telegram,
            folder,
            WALLSIDE_DATABASE=database,
            WALLSIDE_KEYS=key,
            WALLSIDE_WEBHOOK="https://wallside.example",
            WALLSIDE_WEBHOOK_SECRET=SECRET,
            WALLSIDE_WEBHOOK_LISTEN=f"127.0.0.1:{self.hook}",
            WALLSIDE_STATUS_LISTEN=f"127.0.0.1:{self.status}",
        )

    def signal(self, what: signal.Signals) -> None:
        """Send it a signal."""
        assert self._process is not None
        os.kill(self._process.pid, what)

    def role(self) -> str:
        """Return what it says of itself; nothing while it does not answer."""
        try:
            with urllib.request.urlopen(
                f"http://127.0.0.1:{self.status}/health", timeout=2
            ) as answer:
                said: str = json.load(answer)["role"]
                return said
        except (URLError, OSError):
            return ""

    def figures(self) -> str:
        """Return its figures."""
        address = f"http://127.0.0.1:{self.status}/metrics"
        with urllib.request.urlopen(address, timeout=5) as answer:
            read: bytes = answer.read()
        return read.decode()

    def sent(self) -> bool:
        """Whether it has tried to send anything."""
        return "wallside_deliveries_total{" in self.figures()

    def is_idle(self) -> bool:
        """Whether nothing waits to be sent or is being sent."""
        waiting = re.findall(r"^wallside_outbox_waiting.* (.*)$", self.figures(), re.MULTILINE)
        return {float(count) for count in waiting} == {0.0}

    def takes_arrivals(self, telegram: Any) -> None:
        """Have Telegram post to this one, as what spreads the load in front would."""
        with telegram.account.changes.made():
            telegram.account.webhook = Webhook(
                url=f"http://127.0.0.1:{self.hook}/telegram", secret=SECRET, max_connections=40
            )


def seconds_until(holds: Callable[[], bool], within: float) -> float:
    """Wait until something holds, and return how long that took."""
    began = time.monotonic()
    while not holds():
        assert time.monotonic() - began < within, f"not within {within} s"
        time.sleep(0.1)
    return time.monotonic() - began


def test_the_other_takes_over_and_nothing_is_lost_or_sent_twice(
    server: PostgresServer, tmp_path: Path
) -> None:
    """A standby's arrival is answered by the leader; one that hangs or dies is followed in seconds.

    The one that hung finds, when it wakes, that it leads no more, and sends nothing.
    """
    with server.schema() as database, BotApiServerThread() as telegram:
        key, person = new_key(), telegram.person()
        one, other = (Process(telegram, tmp_path, database, key) for _ in range(2))
        with one, other:
            seconds_until(lambda: {one.role(), other.role()} == {"leader", "standby"}, 60)
            if other.role() == "leader":
                one, other = other, one
            seconds_until(lambda: telegram.account.webhook is not None, 30)
            seconds_until(lambda: len(telegram.calls_of("setWebhook")) == 2, 30)
            other.takes_arrivals(telegram)
            person.writes("/start")
            person.wait_for(lambda p: p.finds("How old are you"), timeout=30)
            person.taps("20 or over")
            person.wait_for(lambda p: p.finds("next to the bed"), timeout=10)
            person.taps("I am ready")
            person.wait_for(lambda p: p.finds("when you are lying down"), timeout=10)
            assert not other.sent(), "only the leader sends"
            person.taps("I am lying down")
            person.wait_for(lambda p: p.finds("Lie still"), timeout=10)
            seconds_until(one.is_idle, 5)  # so that nobody can be in doubt whether it arrived
            one.signal(signal.SIGSTOP)
            took = seconds_until(lambda: other.role() == "leader", SECONDS)
            person.wait_for(lambda p: p.finds("Measure now, still lying"), timeout=10)
            assert other.sent()
            one.signal(signal.SIGCONT)
            seconds_until(lambda: one.role() == "standby", 5)
            other.kill()
            took_after_death = seconds_until(lambda: one.role() == "leader", SECONDS)
            one.takes_arrivals(telegram)
            person.writes("112/70 66")
            person.wait_for(lambda p: p.finds("when you are sitting"), timeout=10)
            assert one.stop() == 0
        texts = Counter(message.text for message in person.replies)
    assert took < SECONDS
    assert took_after_death < 5
    assert [text for text, times in texts.items() if times > 1] == []
