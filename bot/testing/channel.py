"""A channel that keeps what is sent, and fails on demand."""

from collections import deque
from dataclasses import dataclass, field

from bot.runtime.ports import Bubble, Delivery, Sent


@dataclass(slots=True)
class KeepingChannel:
    """Keeps every message; answers with the deliveries it was given, then with `Sent`.

    Attributes:
        sent: Address and message, in order; changed messages are kept too.
        answers: What to answer next, instead of `Sent`.
    """

    sent: list[tuple[str, Bubble]] = field(default_factory=list)
    revised: list[tuple[str, str, Bubble]] = field(default_factory=list)
    answers: deque[Delivery] = field(default_factory=deque)

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Keep a message."""
        if self.answers:
            return self.answers.popleft()
        self.sent.append((address, bubble))
        return Sent(f"m{len(self.sent)}")

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Keep a change."""
        if self.answers:
            return self.answers.popleft()
        self.revised.append((address, ref, bubble))
        return Sent(ref)
