"""One event, one unit of work."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest

from bot.engine.context import Context
from bot.engine.events import ChoiceTapped, Event, Opened, WordsGiven
from bot.engine.replay import replay
from bot.runtime.conductor import Conductor
from bot.runtime.ports import Inbound, Sent
from bot.store.sql import SqlStore
from bot.texts import language_for
from tests.shelf import Shelf

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


@pytest.fixture
def store(shelf: Shelf) -> Iterator[SqlStore]:
    """Open an empty store."""
    opened = shelf.fresh()
    yield opened
    opened.close()


@pytest.fixture
def conductor(store: SqlStore) -> Conductor:
    """Return a conductor that counts conversations."""
    names = iter(f"c{n}" for n in range(100))
    return Conductor(store, Context(), new_id=lambda: next(names), language_for=language_for)


def arrival(key: str, event: Event, language: str | None = None) -> Inbound:
    """Return something that arrived from one person."""
    return Inbound(key=key, address="test:1", event=event, language=language)


def test_same_arrival_is_taken_once(conductor: Conductor, store: SqlStore) -> None:
    """An update delivered twice moves the conversation once and answers once."""
    first = conductor.handle(arrival("k1", Opened(at=NOW)))
    again = conductor.handle(arrival("k1", Opened(at=NOW)))
    assert (first.fresh, again.fresh) == (True, False)
    assert len(store.history(first.conversation_id).events) == 1


def test_language_is_guessed_from_the_client(conductor: Conductor, store: SqlStore) -> None:
    """A new conversation speaks the client's language where it ships, else English."""
    step = conductor.handle(arrival("k1", Opened(at=NOW), language="es-MX"))
    assert store.history(step.conversation_id).beginning.locale == "es"


def test_alarm_is_a_hint(conductor: Conductor, store: SqlStore) -> None:
    """Early and double alarms change nothing; one in time does what is due, once."""
    conductor.handle(arrival("k1", Opened(at=NOW)))
    conductor.handle(arrival("k2", WordsGiven(at=NOW, text="43", source="1")))
    conductor.handle(arrival("k3", WordsGiven(at=NOW, text="ready", source="2")))
    step = conductor.handle(arrival("k4", WordsGiven(at=NOW, text="lying", source="3")))
    assert step.wake_at == NOW + timedelta(minutes=2.5)
    early = conductor.wake(step.conversation_id, NOW + timedelta(minutes=2))
    assert early is not None
    assert not early.fresh
    count = len(store.history(step.conversation_id).events)
    at = NOW + timedelta(minutes=5)
    assert conductor.wake(step.conversation_id, at)
    double = conductor.wake(step.conversation_id, at)
    assert double is not None
    assert not double.fresh
    assert len(store.history(step.conversation_id).events) == count + 1


def test_alarm_of_nobody_is_ignored(conductor: Conductor) -> None:
    """An alarm for a conversation that is gone does no harm."""
    assert conductor.wake("nobody", NOW) is None


def test_everything_is_stored_in_one_step(conductor: Conductor, store: SqlStore) -> None:
    """After one event the state, the log and the outbox agree with a replay."""
    conductor.handle(arrival("k1", Opened(at=NOW)))
    step = conductor.handle(arrival("k2", ChoiceTapped(at=NOW, token="age:20-and-over")))
    history = store.history(step.conversation_id)
    with store.unit() as unit:
        stored = unit.load_by_id(step.conversation_id)
    assert stored is not None
    assert replay(Context(), history.beginning, history.events) == stored.conversation
    numbers = []
    while (parcel := store.claim_parcel(NOW, timedelta(minutes=1))) is not None:
        numbers.append(parcel.effect.number)
        store.settle(parcel, Sent("r"), NOW)
    assert numbers == list(range(1, stored.conversation.said + 1))
