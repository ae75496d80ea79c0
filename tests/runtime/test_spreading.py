"""Reminders of one minute are spread; nothing of a test under way ever is."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from bot.booking.plan import Booking, due, plan
from bot.engine.context import Context
from bot.engine.deadlines import next_deadline
from bot.engine.state import Booked, Conversation
from bot.runtime.spreading import SPREAD, share_of, spread
from bot.testing.playbook import Playbook

AT = datetime(2026, 3, 5, 9, 0, tzinfo=UTC)
BOOKING = Booking(number=1, at=AT, zone="UTC", booked_at=AT - timedelta(days=4))


def booked(name: str, booking: Booking = BOOKING) -> Conversation:
    """Return somebody who has booked."""
    return Conversation(id=name, locale="en", stage=Booked(booking=booking))


def test_reminders_of_many_are_spread_evenly_and_are_still_of_use() -> None:
    """Each quarter of the span gets about a quarter; who comes when is the same each time."""
    context = Context()
    wake_at = next_deadline(context, booked("one"))
    assert wake_at is not None
    reminders = plan(BOOKING, context.reminders, context.quiet)
    waits = []
    for number in range(400):
        later = spread(context, booked(f"c{number}"), wake_at)
        assert later == spread(context, booked(f"c{number}"), wake_at)
        assert due(reminders, frozenset(), later) == due(reminders, frozenset(), wake_at)
        waits.append(later - wake_at)
    quarters = [sum(SPREAD * q / 4 <= w < SPREAD * (q + 1) / 4 for w in waits) for q in range(4)]
    assert sum(quarters) == 400
    assert min(quarters) > 70


def test_what_was_put_off_comes_to_the_moment() -> None:
    """Who asked to be told again in 15 minutes is told then."""
    booking = Booking(number=1, at=AT, zone="UTC", booked_at=AT - timedelta(days=4), put_off=True)
    wake_at = next_deadline(Context(), booked("one", booking))
    assert wake_at is not None
    assert spread(Context(), booked("one", booking), wake_at) == wake_at


def test_no_prompt_of_a_test_is_moved() -> None:
    """From lying down to the end, and in what is looked after then, every deadline stays."""
    context = Context()
    book = Playbook(start=datetime(2026, 3, 2, 9, tzinfo=UTC)).stands("112/70 66", "110/74 78")
    assert share_of(book.conversation.id) > timedelta(0)
    looked_at = 0
    acts: list[Callable[[], object]] = [
        lambda: book.waits(minutes=2),
        lambda: book.waits(minutes=3),
        lambda: book.types("108/76 104"),
        lambda: book.types("stop"),
        lambda: book.types("dizzy"),
        lambda: book.waits(minutes=1),
    ]
    for act in acts:
        act()
        wake_at = next_deadline(context, book.conversation)
        if wake_at is not None:
            assert spread(context, book.conversation, wake_at) == wake_at
            looked_at += 1
    assert looked_at >= 5
