"""How fast we may send. Pure: the time is handed in, as seconds of a clock that never runs back.

The platform takes about thirty messages a second of a bot, one a second in a chat and twenty a
minute in a group. What is less urgent leaves the last of the overall allowance to what is more
urgent: so with any number of reminders waiting a timed prompt still leaves at once, and what is
only nice to see is the first to stay behind.
"""

from collections import OrderedDict, deque
from dataclasses import dataclass, field
from typing import Final

from bot.engine.effects import Urgency


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """So many at once after a pause, and so many a second from then on."""

    burst: float
    rate: float


OVERALL: Final = Allowance(burst=12, rate=28)
"""Of all messages. The platform's "about 30 a second" (its FAQ for bots), with a little to spare;
the burst is what the more urgent keep for themselves (design choice)."""

CHAT: Final = Allowance(burst=3, rate=1)
"""Of one chat: one a second, "short bursts" tolerated (the same FAQ); how short is not said
(design choice)."""

GROUP: Final = Allowance(burst=5, rate=0.25)
"""Of a group: at most 20 in any minute (the same FAQ)."""

LEFT: Final = {
    Urgency.SAFETY: -OVERALL.burst,
    Urgency.TIMED: 0.0,
    Urgency.REPLY: 2.0,
    Urgency.REMINDER: 5.0,
    Urgency.BULK: 7.0,
}
"""What has to be left of the overall burst after a message of each urgency (design choice).
Words of safety overdraw it."""

ROOM: Final = {
    Urgency.SAFETY: 64,
    Urgency.TIMED: 32,
    Urgency.REPLY: 24,
    Urgency.REMINDER: 16,
    Urgency.BULK: 16,
}
"""How many may be under way at once for one more of each urgency to begin (design choice: at a
fifth of a second each, six keep up with the platform's rate)."""

FLOOD: Final = 2
"""After refusals in so many chats within a second all of them are meant (design choice: the
platform does not say which of its limits was reached)."""

_REMEMBERED: Final = 20_000
"""How many chats are remembered at most; one that has all its allowance again needs no memory."""


@dataclass(slots=True)
class Bucket:
    """A token bucket: what is left of an allowance, and when that was."""

    allowance: Allowance
    left: float
    at: float

    def look(self, now: float) -> float:
        """Return what is left now."""
        if now > self.at:
            gained = (now - self.at) * self.allowance.rate
            self.left = min(self.allowance.burst, self.left + gained)
            self.at = now
        return self.left

    def until(self, wanted: float, now: float) -> float:
        """Return in how many seconds so much will be left; 0 if it is."""
        return max(0.0, (wanted - self.look(now)) / self.allowance.rate)


@dataclass(slots=True, kw_only=True)
class Pace:
    """Knows who may be sent something now, and when next.

    Attributes:
        now: The time at which it begins.
    """

    now: float
    _overall: Bucket = field(init=False)
    _chats: OrderedDict[str, Bucket] = field(default_factory=OrderedDict)
    _resting: dict[str, float] = field(default_factory=dict)
    _all_rest_until: float = field(init=False)
    _refusals: deque[tuple[float, str]] = field(default_factory=deque)

    def __post_init__(self) -> None:
        """Begin with everything that is allowed."""
        self._overall = Bucket(OVERALL, OVERALL.burst, self.now)
        self._all_rest_until = self.now

    def least(self, now: float, under_way: int) -> Urgency | None:
        """Return the least urgency of which a message may leave now; `None` if none may.

        Args:
            now: The time.
            under_way: How many messages are being sent.
        """
        allowed = [u for u in Urgency if self._in(u, now) == 0 and under_way < ROOM[u]]
        return max(allowed, default=None)

    def opens_in(self, least: Urgency | None, now: float) -> float | None:
        """Return in how many seconds less urgent messages may leave than now; `None` if all may."""
        more = [u for u in Urgency if least is None or u > least]
        return min((self._in(u, now) for u in more), default=None)

    def _in(self, urgency: Urgency, now: float) -> float:
        wait = self._overall.until(LEFT[urgency] + 1, now)
        if urgency is Urgency.SAFETY:
            return wait
        return max(wait, self._all_rest_until - now)

    def chat_opens_in(self, chat: str, now: float, *, group: bool = False) -> float:
        """Return in how many seconds a chat may get its next message; 0 for now."""
        rest = max(0.0, self._resting.get(chat, now) - now)
        bucket = self._chats.get(chat)
        if bucket is None or group != (bucket.allowance is GROUP):
            return rest
        return max(rest, bucket.until(1, now))

    def take(self, chat: str, now: float, *, group: bool = False) -> None:
        """Count a message that leaves now. Words of safety may leave a chat overdrawn."""
        self._overall.look(now)
        self._overall.left -= 1
        allowance = GROUP if group else CHAT
        bucket = self._chats.get(chat)
        if bucket is None or bucket.allowance is not allowance:
            bucket = self._chats[chat] = Bucket(allowance, allowance.burst, now)
        self._chats.move_to_end(chat)
        bucket.left = max(bucket.look(now) - 1, -allowance.burst)
        self._forget(now)

    def refused(self, chat: str, wait: float, now: float) -> None:
        """Take in that the platform asks to wait; in several chats at once, everybody waits."""
        self._resting[chat] = now + wait
        while self._refusals and self._refusals[0][0] < now - 1:
            self._refusals.popleft()
        self._refusals.append((now, chat))
        if len({who for _, who in self._refusals}) >= FLOOD:
            self.rest(wait, now)

    def rest(self, wait: float, now: float) -> None:
        """Let nothing but words of safety leave for a while."""
        self._all_rest_until = max(self._all_rest_until, now + wait)

    def remembered(self) -> int:
        """Return how many chats are remembered."""
        return len(self._chats) + len(self._resting)

    def _forget(self, now: float) -> None:
        """Forget chats that have all their allowance again, and the oldest if there are many."""
        while self._chats:
            chat, bucket = next(iter(self._chats.items()))
            if bucket.look(now) < bucket.allowance.burst and len(self._chats) <= _REMEMBERED:
                break
            del self._chats[chat]
        if len(self._resting) > FLOOD:
            self._resting = {c: until for c, until in self._resting.items() if until > now}
