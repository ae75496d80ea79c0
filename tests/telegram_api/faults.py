"""Trouble on demand: what can go wrong between a bot and the platform."""

import math
import threading
import time
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final, TypeAlias

from tests.telegram_api.account import BLOCKED
from tests.telegram_api.wire import ApiError, retry_after


@dataclass(frozen=True, slots=True)
class Refuse:
    """Answer with an error, without performing the method."""

    error: ApiError


@dataclass(frozen=True, slots=True)
class Cut:
    """Close the connection without an answer, before or after performing the method."""

    performed: bool


@dataclass(frozen=True, slots=True)
class Wait:
    """Perform the method only after so many seconds."""

    seconds: float


Fault: TypeAlias = Refuse | Cut | Wait


def too_many_requests(seconds: int) -> Refuse:
    """429, to be tried again in so many seconds."""
    return Refuse(retry_after(seconds))


def forbidden(description: str = BLOCKED) -> Refuse:
    """403: the person has blocked the bot, unless told otherwise."""
    return Refuse(ApiError(403, description))


def bad_request(description: str) -> Refuse:
    """400 with that whole description, which on the platform begins with `Bad Request: `."""
    return Refuse(ApiError(400, description))


def server_error(status: int = 502) -> Refuse:
    """5xx, as the platform's front answers when there is nobody behind it."""
    names = {500: "Internal Server Error", 502: "Bad Gateway", 504: "Gateway Timeout"}
    return Refuse(ApiError(status, names.get(status, "Service Unavailable")))


def answer_lost_after_delivery() -> Cut:
    """The method is performed, but the bot never learns of it."""
    return Cut(performed=True)


def connection_cut() -> Cut:
    """The connection breaks before anything happens."""
    return Cut(performed=False)


def latency(seconds: float) -> Wait:
    """The platform takes its time; combines with another fault."""
    return Wait(seconds)


@dataclass(slots=True, kw_only=True)
class _Planned:
    fault: Fault
    method: str | None
    chat_id: int | None
    left: int | None


class Faults:
    """The trouble still to come, used up call by call in the order it was added."""

    def __init__(self) -> None:
        self._planned: list[_Planned] = []
        self._lock = threading.Lock()

    def add(
        self,
        *,
        kind: Fault,
        method: str | None = None,
        times: int | None = 1,
        chat_id: int | None = None,
    ) -> None:
        """Plan a fault.

        Args:
            kind: What goes wrong.
            method: The method it befalls; `None` for any.
            times: How many calls it befalls; `None` for all, until `clear`.
            chat_id: The chat it befalls; `None` for any, and for methods without a chat.
        """
        with self._lock:
            self._planned.append(
                _Planned(fault=kind, method=method, chat_id=chat_id, left=times),
            )

    def clear(self) -> None:
        """Forget all trouble still to come."""
        with self._lock:
            self._planned.clear()

    @property
    def left(self) -> int:
        """How many planned faults have not been used up."""
        with self._lock:
            return len(self._planned)

    def take(self, method: str, chat_id: str) -> tuple[float, Refuse | Cut | None]:
        """Return how long a call has to wait, and what else befalls it."""
        seconds = 0.0
        trouble: Refuse | Cut | None = None
        with self._lock:
            for planned in list(self._planned):
                if planned.method not in {None, method}:
                    continue
                if planned.chat_id is not None and str(planned.chat_id) != chat_id:
                    continue
                if isinstance(planned.fault, Wait):
                    if seconds:
                        continue
                    seconds = planned.fault.seconds
                elif trouble is None:
                    trouble = planned.fault
                else:
                    continue
                self._use(planned)
        return seconds, trouble

    def _use(self, planned: _Planned) -> None:
        if planned.left is not None:
            planned.left -= 1
            if planned.left <= 0:
                self._planned.remove(planned)


LIMITED_METHODS: Final = frozenset(
    {
        "sendMessage",
        "sendPhoto",
        "sendDocument",
        "editMessageText",
        "editMessageCaption",
        "editMessageReplyMarkup",
    }
)
"""Whether edits count is not documented; here they do."""


@dataclass(slots=True)
class _Bucket:
    level: float
    filled_at: float


@dataclass(slots=True, kw_only=True)
class FloodLimits:
    """The platform's flood limits as leaky buckets; the true ones are not published exactly.

    Attributes:
        clock: Seconds that never run back.
        overall: Messages a second over all chats.
        per_chat: Messages a second in one chat.
        burst: Messages a chat may get at once after a pause.
    """

    clock: Callable[[], float] = time.monotonic
    overall: float = 30.0
    per_chat: float = 1.0
    burst: int = 3
    _buckets: dict[str, _Bucket] = field(default_factory=dict)
    refused: dict[str, int] = field(default_factory=lambda: defaultdict(int))

    def check(self, method: str, chat_id: str) -> None:
        """Count a call.

        Raises:
            ApiError: It comes too soon; 429, and it does not count.
        """
        if method not in LIMITED_METHODS:
            return
        lacking = max(
            self._lacking("", self.overall, self.overall),
            self._lacking(chat_id, self.per_chat, self.burst),
        )
        if lacking > 0:
            self.refused[chat_id] += 1
            raise retry_after(math.ceil(lacking))
        self._buckets[""].level -= 1
        self._buckets[chat_id].level -= 1

    def _lacking(self, key: str, rate: float, size: float) -> float:
        now = self.clock()
        bucket = self._buckets.setdefault(key, _Bucket(size, now))
        bucket.level = min(size, bucket.level + (now - bucket.filled_at) * rate)
        bucket.filled_at = now
        return (1 - bucket.level) / rate
