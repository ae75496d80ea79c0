"""Who takes the lead shuts out whoever led before, in every store."""

from contextlib import suppress
from datetime import timedelta

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from bot.engine.effects import Urgency
from bot.errors import SupersededError
from bot.runtime.ports import Sent, Store
from bot.store import lead
from bot.store.bells import read, written
from bot.store.sql import SqlStore
from tests.store.looking import empty
from tests.store.test_store_contract import LEASE, NOW, next_parcel, put, say


def test_who_led_before_claims_nothing_more(store: Store) -> None:
    """A leader that slept meanwhile is refused, and what it held is sent by the one that follows.

    What it still had to put down of a parcel that the other has sent changes nothing.
    """
    put(store, "a", say(1), say(2))
    before, _ = store.take_over()
    slept = store.claim_parcel(NOW, LEASE, epoch=before)
    assert slept is not None
    now, released = store.take_over()
    assert (now > before, released) == (True, 1)
    with pytest.raises(SupersededError):
        store.claim_parcel(NOW, LEASE, epoch=before)
    again = store.claim_parcel(NOW, LEASE, epoch=now)
    assert again is not None
    assert (again.id, again.attempt) == (slept.id, 2)
    store.settle(again, Sent("arrived"), NOW)
    store.settle(slept, Sent("too late"), NOW)
    assert next_parcel(store).effect.number == 2


def test_who_hangs_in_a_transaction_holds_nobody_up(on_postgres: SqlStore) -> None:
    """The lead can be taken although whoever led is stopped in the middle of claiming.

    The server ends that transaction after as long a silence as makes another follow.
    """
    before, _ = on_postgres.take_over()
    hangs = on_postgres.engine.connect()
    with hangs, suppress(DBAPIError):  # in the end the server has dropped it
        lead.check(hangs, before)
        now, _ = on_postgres.take_over()
        assert now > before
        hangs.execute(text("SELECT 1"))
        raise AssertionError("it was let live")
    empty(on_postgres)


def test_what_is_less_urgent_can_be_left(store: Store) -> None:
    """Only what is urgent enough is taken, with those before it of the same person."""
    put(store, "a", say(1, Urgency.REMINDER))
    put(store, "b", say(1, Urgency.BULK), say(2, Urgency.TIMED))
    assert store.claim_parcel(NOW, LEASE, least=Urgency.SAFETY) is None
    first = store.claim_parcel(NOW, LEASE, least=Urgency.TIMED)
    assert first is not None
    assert (first.conversation_id, first.effect.number) == ("b", 1)
    assert store.claim_parcel(NOW, LEASE, least=Urgency.REPLY) is None
    last = store.claim_parcel(NOW, LEASE, least=Urgency.REMINDER)
    assert last is not None
    assert last.conversation_id == "a"


def test_what_rings_can_be_read_again() -> None:
    """Names and instants come over as they were; too much of it becomes: look at everything."""
    woken = (("abc123", NOW + timedelta(microseconds=7)), ("item:7", None))
    assert read(written(woken)) == woken
    assert written(tuple((f"{n:032}", NOW) for n in range(1_000))) == ""
    assert read("") == ()
