"""What waits in the team's inbox, and who has it. Nothing falls out of it until it is closed."""

from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from bot.care.triage import Cause, Priority, Triage


class FollowUp(StrEnum):
    """What follows, as the team chose it."""

    CALL = "call"
    REPEAT = "repeat"
    FORMAL = "formal"
    NOTHING = "nothing"
    OTHER = "other"


class Closing(StrEnum):
    """How an item left the inbox."""

    FOLLOWED_UP = "followed-up"
    TAKEN_BACK = "taken-back"  # the person no longer agrees that the team has it


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing in the inbox: a test of a person that was sent, that raised an alarm, or both.

    Attributes:
        number: Names it to the team; 0 before it is kept.
        person: The person's conversation.
        reference: What the team calls them: the clinic's reference, or a short number.
        test: The number of their test.
        priority: How urgent.
        cause: Why.
        opened_at: When it came.
        shared: Whether the person has sent the result; else there is an alarm and no more.
        taken_by: The number of the member who has it.
        taken_at: Since when.
        closed_at: When it was closed.
        closed_by: Who closed it; `None` while it is open, or for the person themselves.
        closing: How it left the inbox.
        follow_up: What follows.
        words: What follows in the team's own words.
        alarmed_at: When its last alarm was raised; `None` without one.
        rung: How far that alarm has gone.
        wake_at: When the alarm goes further, if nobody takes it.
        told: The newest message about it that each member was sent: member and message number.
        handed: Messages with files of it that were sent: member and message number.
        revision: Goes up with every change; guards against two who write at once.
    """

    number: int = 0
    person: str
    reference: str
    test: int
    priority: Priority
    cause: Cause
    opened_at: datetime
    shared: bool = False
    taken_by: int | None = None
    taken_at: datetime | None = None
    closed_at: datetime | None = None
    closed_by: int | None = None
    closing: Closing | None = None
    follow_up: FollowUp | None = None
    words: str | None = None
    alarmed_at: datetime | None = None
    rung: int = 0
    wake_at: datetime | None = None
    told: tuple[tuple[int, int], ...] = ()
    handed: tuple[tuple[int, int], ...] = ()
    revision: int = 0

    @property
    def is_open(self) -> bool:
        """Whether it is still in the inbox."""
        return self.closed_at is None

    @property
    def alarming(self) -> bool:
        """Whether it holds an alarm that nobody has taken."""
        return self.is_open and self.alarmed_at is not None and self.taken_by is None

    def told_to(self, member: int) -> int | None:
        """Return the number of the newest message about it that a member was sent."""
        return next((number for who, number in self.told if who == member), None)

    def untold(self, member: int) -> "Item":
        """Return it as it is once the newest message about it did not reach a member."""
        return replace(self, told=tuple(t for t in self.told if t[0] != member))


class Refusal(StrEnum):
    """Why something cannot be done with an item."""

    CLOSED = "closed"
    TAKEN = "taken"  # somebody else has it
    YOURS = "yours"  # already
    NOT_YOURS = "not-yours"


def in_order(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """Return the items that are open, by priority and then age, the oldest first."""
    waiting = [item for item in items if item.is_open]
    return tuple(sorted(waiting, key=lambda i: (i.priority, i.opened_at, i.number)))


def take(item: Item, member: int, at: datetime) -> Item | Refusal:
    """Let a member take an item that nobody has. Taking an alarm acknowledges it."""
    if not item.is_open:
        return Refusal.CLOSED
    if item.taken_by is not None:
        return Refusal.YOURS if item.taken_by == member else Refusal.TAKEN
    return replace(item, taken_by=member, taken_at=at, wake_at=None)


def let_go(item: Item, member: int) -> Item | Refusal:
    """Let a member give an item back; its alarm goes on where nobody had taken it."""
    held = _held(item, member)
    if isinstance(held, Refusal):
        return held
    return replace(item, taken_by=None, taken_at=None)


def hand_over(item: Item, member: int, to: int, at: datetime) -> Item | Refusal:
    """Let a member give an item to another one."""
    held = _held(item, member)
    if isinstance(held, Refusal):
        return held
    return held if to == member else replace(item, taken_by=to, taken_at=at)


def close(
    item: Item, member: int, follow_up: FollowUp, words: str | None, at: datetime
) -> Item | Refusal:
    """Let whoever has an item close it with what follows; an item of nobody's is taken first."""
    if item.is_open and item.taken_by is None:
        item = replace(item, taken_by=member, taken_at=at)
    held = _held(item, member)
    if isinstance(held, Refusal):
        return held
    return replace(
        item,
        closed_at=at,
        closed_by=member,
        closing=Closing.FOLLOWED_UP,
        follow_up=follow_up,
        words=words,
        wake_at=None,
    )


def take_back(item: Item, at: datetime) -> Item:
    """Return an item whose person no longer shares its result: without an alarm it is closed."""
    unshared = replace(item, shared=False)
    if not item.is_open or item.alarmed_at is not None:
        return unshared
    return replace(unshared, closed_at=at, closing=Closing.TAKEN_BACK, wake_at=None)


def graver(item: Item, triage: Triage) -> Item:
    """Return an item with the graver of two reasons."""
    now = Triage(priority=item.priority, cause=item.cause).or_graver(triage)
    return replace(item, priority=now.priority, cause=now.cause)


def _held(item: Item, member: int) -> Item | Refusal:
    if not item.is_open:
        return Refusal.CLOSED
    if item.taken_by == member:
        return item
    return Refusal.NOT_YOURS if item.taken_by is None else Refusal.TAKEN
