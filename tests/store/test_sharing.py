"""Several processes share one PostgreSQL: each conversation is with one at a time."""

import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from datetime import timedelta
from typing import Final

import pytest

from bot.engine.effects import Part, Say, Urgency, Withdraw
from bot.engine.events import Opened, WordsGiven
from bot.engine.state import Conversation
from bot.errors import ConflictError, UnavailableError
from bot.runtime.ports import Inbound, Sent
from bot.store import open_store
from bot.store.keys import GivenKeys, new_key
from bot.store.sql import SqlStore
from tests.companions.people import Town, link
from tests.store.chat import NOW
from tests.store.looking import empty
from tests.store.server import PostgresServer, postgres_server

KEYS: Final = GivenKeys(new_key())
LEASE: Final = timedelta(minutes=1)
SOON: Final = 0.2
"""Seconds after which who still waits is taken to wait for a lock."""


@pytest.fixture(scope="module")
def both(server: PostgresServer) -> Iterator[tuple[SqlStore, SqlStore]]:
    """Open the same database twice, as two processes do."""
    with server.schema() as url:
        stores = open_store(url, KEYS), open_store(url, KEYS)
        yield stores
        for store in stores:
            store.close()


@pytest.fixture
def here(both: tuple[SqlStore, SqlStore]) -> Iterator[SqlStore]:
    """Return the store of one process; the database is emptied after."""
    yield both[0]
    empty(both[0])


@pytest.fixture
def there(both: tuple[SqlStore, SqlStore]) -> SqlStore:
    """Return the store of the other process."""
    return both[1]


@pytest.fixture
def elsewhere() -> Iterator[Callable[[Callable[[], object]], "Future[object]"]]:
    """Return what does something at the same time."""
    with ThreadPoolExecutor(max_workers=4) as pool:
        yield pool.submit


Elsewhere = Callable[[Callable[[], object]], "Future[object]"]


def say(number: int, urgency: Urgency = Urgency.REPLY) -> Say:
    """Return a message."""
    return Say(number=number, parts=(Part("help"),), urgency=urgency)


def put(store: SqlStore, name: str, *effects: Say | Withdraw) -> None:
    """Put effects down for a conversation, which is made if need be."""
    with store.unit() as unit:
        stored = unit.load(f"test:{name}") or unit.add(
            Conversation(id=name, locale="en"), f"test:{name}", NOW
        )
        unit.save(stored, stored.conversation, event=Opened(at=NOW), effects=effects, wake_at=None)


def waits(work: "Future[object]") -> bool:
    """Whether something has not come to its end yet."""
    try:
        work.result(SOON)
    except TimeoutError:
        return True
    return False


def test_arrival_is_taken_by_one(here: SqlStore, there: SqlStore, elsewhere: Elsewhere) -> None:
    """Who takes the same arrival at the same time waits, and learns that it was taken."""

    def claim() -> bool:
        with there.unit() as unit:
            return unit.claim("a", NOW)

    with here.unit() as unit:
        assert unit.claim("a", NOW)
        second = elsewhere(claim)
        assert waits(second)
    assert second.result(5) is False


def test_arrival_that_was_let_go_is_taken_by_the_other(
    here: SqlStore, there: SqlStore, elsewhere: Elsewhere
) -> None:
    """When the first fails, the one that waited takes the arrival."""

    def claim() -> bool:
        with there.unit() as unit:
            return unit.claim("a", NOW)

    with pytest.raises(ZeroDivisionError), here.unit() as unit:
        assert unit.claim("a", NOW)
        second = elsewhere(claim)
        assert waits(second)
        raise ZeroDivisionError
    assert second.result(5) is True


def test_conversation_is_with_one_at_a_time(
    here: SqlStore, there: SqlStore, elsewhere: Elsewhere
) -> None:
    """The second loads it only once the first has saved, and sees what the first has done."""
    put(here, "c")

    def step() -> int:
        with there.unit() as unit:
            stored = unit.load("test:c")
            assert stored is not None
            unit.save(stored, stored.conversation, event=Opened(at=NOW), effects=(), wake_at=None)
            return stored.revision

    with here.unit() as unit:
        stored = unit.load_by_id("c")
        assert stored is not None
        second = elsewhere(step)
        assert waits(second)
        unit.save(stored, stored.conversation, event=Opened(at=NOW), effects=(), wake_at=None)
    assert second.result(5) == stored.revision + 1
    assert len(here.history("c").events) == 3


def test_person_gets_one_conversation(
    here: SqlStore, there: SqlStore, elsewhere: Elsewhere
) -> None:
    """Who puts down a second conversation for a chat is told to try again, and finds the first."""

    def begin() -> None:
        with there.unit() as unit:
            assert unit.load("test:c") is None
            unit.add(Conversation(id="second", locale="en"), "test:c", NOW)

    with here.unit() as unit:
        unit.add(Conversation(id="first", locale="en"), "test:c", NOW)
        second = elsewhere(begin)
        assert waits(second)
    with pytest.raises(ConflictError):
        second.result(5)
    with there.unit() as unit:
        stored = unit.load("test:c")
    assert stored is not None
    assert stored.conversation.id == "first"


def test_parcel_is_claimed_by_one_and_order_is_kept(
    here: SqlStore, there: SqlStore, elsewhere: Elsewhere
) -> None:
    """Four senders at once send each parcel once, and each person's in their order."""
    people, each = 8, 5
    for person in range(people):
        put(here, f"p{person}", *(say(number) for number in range(1, each + 1)))
    left: list[tuple[str, int]] = []
    together = threading.Barrier(4)

    def send(store: SqlStore) -> None:
        together.wait()
        empty_handed = 0
        while empty_handed < 10:
            parcel = store.claim_parcel(NOW, LEASE)
            if parcel is None:
                empty_handed += 1
                continue
            left.append((parcel.conversation_id, parcel.effect.number))
            store.settle(parcel, Sent("r"), NOW)

    senders = [elsewhere(lambda s=s: send(s)) for s in (here, there, here, there)]  # type: ignore[misc]
    for sender in senders:
        sender.result(30)
    assert sorted(left) == [(f"p{p}", n) for p in range(people) for n in range(1, each + 1)]
    for person in range(people):
        assert [n for name, n in left if name == f"p{person}"] == list(range(1, each + 1))


def test_parcel_that_another_has_in_hand_is_passed_over(here: SqlStore, there: SqlStore) -> None:
    """A sender does not wait for one that is just taking the first parcel: it takes another."""
    put(here, "a", say(1, Urgency.TIMED), say(2, Urgency.TIMED))
    put(here, "b", say(1))
    with here.engine.begin() as connection:
        connection.exec_driver_sql("SELECT 1 FROM outbox WHERE conversation_id = 'a' FOR UPDATE")
        parcel = there.claim_parcel(NOW, LEASE)
    assert parcel is not None
    assert parcel.conversation_id == "b"


def test_sending_and_stopping_never_wait_for_each_other_in_a_ring(
    here: SqlStore, there: SqlStore, elsewhere: Elsewhere
) -> None:
    """Settling parcels while the same conversation withdraws them ends in no deadlock."""
    rounds = 15
    put(here, "c", *(say(number) for number in range(1, 4)))

    def settle() -> None:
        for _ in range(rounds):
            parcel = there.claim_parcel(NOW, LEASE)
            if parcel is not None:
                there.settle(parcel, Sent("r"), NOW)

    sender = elsewhere(settle)
    for number in range(rounds):
        put(here, "c", Withdraw(), say(10 + number), say(100 + number))
    sender.result(30)
    assert len(here.history("c").events) == rounds + 1


def test_linked_people_never_wait_for_each_other_in_a_ring(
    here: SqlStore, there: SqlStore, elsewhere: Elsewhere
) -> None:
    """Two who are linked type at once, in two processes: all is taken, nothing is lost."""
    town, beside = Town(here), Town(there)
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "all")
    rounds = 6
    before = [len(person.events()) for person in (ana, bea)]

    def type_as(of: Town, address: str) -> None:
        for number in range(rounds):
            words = WordsGiven(at=NOW, text=f"word {number}", source=f"{number}")
            key = f"{address} {number}"
            of.conductor.handle(Inbound(key=key, address=address, event=words))

    other = elsewhere(lambda: type_as(beside, bea.address))
    type_as(town, ana.address)
    other.result(30)
    after = [len(person.events()) for person in (ana, bea)]
    assert after == [count + rounds for count in before]


def test_database_that_is_gone_is_told_and_comes_back() -> None:
    """While the server is down every use says so; afterwards the same store goes on."""
    with postgres_server() as own:
        store = open_store(own.url(), KEYS)
        put(store, "c", say(1))
        own.stop()
        for _ in range(2):
            with pytest.raises(UnavailableError, match="cannot be used just now"):
                store.claim_parcel(NOW, LEASE)
        own.start()
        parcel = store.claim_parcel(NOW, LEASE)
        assert parcel is not None
        assert parcel.conversation_id == "c"
        store.close()
