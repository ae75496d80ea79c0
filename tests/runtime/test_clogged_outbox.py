"""A call for help is answered at once, however much waits to be sent and whatever is stuck."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest

from bot.engine.context import Context
from bot.engine.effects import Part, Say, Urgency
from bot.engine.events import Event, Opened, WordsGiven
from bot.engine.state import Conversation
from bot.runtime.conductor import Conductor
from bot.runtime.ports import Inbound, Later, Parcel, Unknown
from bot.store.sql import SqlStore
from bot.texts import language_for
from tests.shelf import Shelf

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
LEASE = timedelta(minutes=1)


@pytest.fixture
def store(shelf: Shelf) -> Iterator[SqlStore]:
    """Open a store in which 100 people wait for reminders."""
    opened = shelf.fresh()
    for number in range(100):
        name = f"other{number}"
        reminder = Say(number=1, parts=(Part("help"),), urgency=Urgency.REMINDER)
        with opened.unit() as unit:
            stored = unit.add(Conversation(id=name, locale="en"), f"test:{name}", NOW)
            unit.save(
                stored,
                stored.conversation,
                event=Opened(at=NOW),
                effects=(reminder,),
                wake_at=None,
            )
    yield opened
    opened.close()


@pytest.fixture
def conductor(store: SqlStore) -> Conductor:
    """Return a conductor for one person more."""
    return Conductor(store, Context(), new_id=lambda: "me", language_for=language_for)


def arrives(conductor: Conductor, key: str, event: Event) -> None:
    """Let something arrive from that person."""
    conductor.handle(Inbound(key=key, address="test:me", event=event, language="en"))


def claim(store: SqlStore, now: datetime) -> Parcel:
    """Claim the next parcel, which must be there."""
    parcel = store.claim_parcel(now, LEASE)
    assert parcel is not None
    return parcel


def stand(conductor: Conductor) -> datetime:
    """Take the person to standing with the clock running; nothing is sent meanwhile."""
    at = NOW
    words = ("43", "ready", "lying", "120/76 70", "sitting", "118/76 74", "standing")
    arrives(conductor, "start", Opened(at=at))
    for number, text in enumerate(words):
        at += timedelta(minutes=6) if "/" in text else timedelta(seconds=5)
        if "/" in text:
            conductor.wake("me", at)
        arrives(conductor, str(number), WordsGiven(at=at, text=text, source=str(number)))
    return at


@pytest.mark.parametrize("fate", ["later", "unknown", "under way"])
def test_words_of_safety_leave_first(store: SqlStore, conductor: Conductor, fate: str) -> None:
    """They overtake everybody's messages, and those of the same person that are stuck."""
    at = stand(conductor)
    stuck = claim(store, at)
    assert stuck.conversation_id == "me"
    if fate == "later":
        store.settle(stuck, Later(timedelta(seconds=30)), at)
    elif fate == "unknown":
        store.settle(stuck, Unknown(), at)
    arrives(conductor, "help", WordsGiven(at=at, text="chest pain", source="h"))
    parcel = claim(store, at)
    assert isinstance(parcel.effect, Say)
    assert (parcel.conversation_id, parcel.effect.parts[0].key) == ("me", "emergency.now")


def test_words_of_safety_are_tried_until_they_arrive(store: SqlStore, conductor: Conductor) -> None:
    """Where it is not known whether they arrived they are sent again, without end."""
    at = stand(conductor)
    arrives(conductor, "help", WordsGiven(at=at, text="chest pain", source="h"))
    for attempt in range(1, 20):
        parcel = claim(store, at)
        assert isinstance(parcel.effect, Say)
        assert (parcel.effect.parts[0].key, parcel.attempt) == ("emergency.now", attempt)
        assert not store.settle(parcel, Unknown(), at)
        at += timedelta(minutes=1)
