"""The queue of updates a bot has not confirmed yet."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any, Final

from tests.telegram_api.wire import Json

DEFAULT_KINDS: Final = frozenset(
    {
        "message",
        "edited_message",
        "callback_query",
        "my_chat_member",
        "inline_query",
        "chosen_inline_result",
        "channel_post",
        "edited_channel_post",
        "shipping_query",
        "pre_checkout_query",
        "poll",
        "poll_answer",
        "chat_join_request",
    }
)
"""What is queued unless asked otherwise; `chat_member` and reactions have to be asked for."""

_OPTIONAL_KINDS: Final = frozenset({"chat_member", "message_reaction", "message_reaction_count"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Update:
    """One thing that happened, numbered in sequence."""

    update_id: int
    chat_id: int
    kind: str
    payload: Json

    @property
    def body(self) -> Json:
        return {"update_id": self.update_id, self.kind: self.payload}


class UpdateQueue:
    """Updates in order: kept until a higher offset confirms them, whoever has seen them."""

    def __init__(self, first_id: int) -> None:
        self.kinds: frozenset[str] = DEFAULT_KINDS
        self._next_id = first_id
        self._pending: list[Update] = []
        self._again: list[Update] = []
        self._last_delivered: Update | None = None

    def __len__(self) -> int:
        return len(self._pending)

    @property
    def chosen(self) -> bool:
        """Whether other kinds than the default ones are queued."""
        return self.kinds != DEFAULT_KINDS

    def select(self, kinds: Any) -> None:
        """Choose the kinds queued from now on: none named means the default ones.

        Updates already queued stay, and a call that does not mention the kinds changes nothing.
        """
        if isinstance(kinds, list):
            chosen = frozenset(map(str, kinds)) & (DEFAULT_KINDS | _OPTIONAL_KINDS)
            self.kinds = chosen or DEFAULT_KINDS

    def push(self, kind: str, chat_id: int, payload: Json) -> None:
        """Queue an update, if the bot wants its kind."""
        if kind in self.kinds:
            update = Update(update_id=self._next_id, chat_id=chat_id, kind=kind, payload=payload)
            self._pending.append(update)
            self._next_id += 1

    def resolve(self, offset: int) -> int:
        """Return the update id an offset means; a negative one forgets all but the last few."""
        if offset < 0:
            self._pending = self._pending[offset:]
        if offset <= 0 or offset > self._next_id + 10:
            return self._pending[0].update_id if self._pending else self._next_id
        return offset

    def take(self, offset: int, limit: int) -> list[Update]:
        """Confirm what lies below the offset and return the first of the rest."""
        self._pending = [update for update in self._pending if update.update_id >= offset]
        repeats = [update for update in self._again if update not in self._pending]
        found = [*repeats, *self._pending][:limit]
        if found:
            self._again = []
            self._last_delivered = found[-1]
        return found

    def next_outside(self, busy: Collection[int]) -> Update | None:
        """Return the first update of a chat that is not busy, for delivery to a webhook."""
        for update in (*self._again, *self._pending):
            if update.chat_id not in busy:
                if update in self._again:
                    self._again.remove(update)
                self._last_delivered = update
                return update
        return None

    def forget(self, update: Update) -> None:
        """Drop an update a webhook has accepted."""
        self._pending = [other for other in self._pending if other is not update]

    def clear(self) -> None:
        """Drop everything that waits."""
        self._pending = []

    def repeat_last(self) -> None:
        """Deliver the update delivered last once more, confirmed or not.

        Raises:
            AssertionError: Nothing has been delivered yet.
        """
        assert self._last_delivered is not None, "no update has been delivered yet"
        self._again.append(self._last_delivered)
