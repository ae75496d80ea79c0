"""Every store keeps the same promises: once only, all or nothing, in order, safety first."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from bot.engine.effects import Amend, Keep, Part, Revise, Say, Urgency
from bot.engine.events import Event, Opened, WordsGiven
from bot.engine.state import Conversation
from bot.errors import ConflictError
from bot.protocol.circumstances import DayKind
from bot.protocol.record import TestRecord
from bot.protocol.released import DEFAULT
from bot.runtime.ports import Later, Parcel, Refused, Sent, Store, Unknown
from bot.store.statements import PAUSES

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
LEASE = timedelta(minutes=1)


def put(store: Store, name: str, *effects: Say | Revise | Keep | Amend) -> None:
    """Put effects down for a conversation, which is made if need be."""
    with store.unit() as unit:
        stored = unit.load(f"test:{name}") or unit.add(
            Conversation(id=name, locale="en"), f"test:{name}", NOW
        )
        unit.save(stored, stored.conversation, event=Opened(at=NOW), effects=effects, wake_at=None)


def say(number: int, urgency: Urgency = Urgency.REPLY, until: datetime | None = None) -> Say:
    """Return a message."""
    return Say(number=number, parts=(Part("help"),), urgency=urgency, until=until)


def next_parcel(store: Store, now: datetime = NOW) -> Parcel:
    """Claim the next parcel, which must be there."""
    parcel = store.claim_parcel(now, LEASE)
    assert parcel is not None
    return parcel


def order(store: Store) -> list[tuple[str, int]]:
    """Send everything and return whose messages left in which order."""
    left = []
    while (parcel := store.claim_parcel(NOW, LEASE)) is not None:
        left.append((parcel.conversation_id, parcel.effect.number))
        store.settle(parcel, Sent("r"), NOW)
    return left


def test_arrival_is_taken_once(store: Store) -> None:
    """A key is claimed once, in the same unit and in a later one."""
    with store.unit() as unit:
        assert unit.claim("a", NOW)
        assert not unit.claim("a", NOW)
    with store.unit() as unit:
        assert not unit.claim("a", NOW)
        assert unit.claim("b", NOW)


def test_unit_that_fails_leaves_nothing(store: Store) -> None:
    """An exception inside a unit of work undoes all of it, the claim included."""
    with pytest.raises(ZeroDivisionError), store.unit() as unit:
        unit.claim("a", NOW)
        unit.add(Conversation(id="c", locale="en"), "test:c", NOW)
        raise ZeroDivisionError
    with store.unit() as unit:
        assert unit.claim("a", NOW)
        assert unit.load("test:c") is None


def test_second_writer_is_refused(store: Store) -> None:
    """A conversation that has moved on since it was loaded cannot be saved over."""
    put(store, "c")
    with store.unit() as unit:
        stored = unit.load("test:c")
        assert stored is not None
    put(store, "c")
    with pytest.raises(ConflictError), store.unit() as unit:
        unit.save(stored, stored.conversation, event=Opened(at=NOW), effects=(), wake_at=None)


def test_wake_at_survives_to_the_microsecond(store: Store) -> None:
    """An instant comes back exactly as it was put down, whatever its zone."""
    wake_at = datetime(2026, 3, 29, 1, 59, 59, 999_999, tzinfo=UTC)
    with store.unit() as unit:
        stored = unit.add(Conversation(id="c", locale="en"), "test:c", NOW)
        unit.save(stored, stored.conversation, event=Opened(at=NOW), effects=(), wake_at=wake_at)
    assert store.sleepers(wake_at) == [("c", wake_at)]
    assert store.sleepers(wake_at - timedelta(microseconds=1)) == []


def test_instant_without_a_zone_is_refused(store: Store) -> None:
    """A naive time cannot be stored by mistake."""
    with pytest.raises(Exception, match="without a zone"), store.unit() as unit:
        unit.claim("a", datetime(2026, 3, 2, 9, 0))  # noqa: DTZ001 - the fault under test


def test_history_gives_back_what_happened(store: Store) -> None:
    """The event log holds the beginning and every event in order."""
    events: list[Event] = [Opened(at=NOW), WordsGiven(at=NOW, text="124/76 72 \u2066", source="1")]
    with store.unit() as unit:
        stored = unit.add(Conversation(id="c", locale="es"), "test:c", NOW)
    for event in events:
        with store.unit() as unit:
            loaded = unit.load("test:c")
            assert loaded is not None
            unit.save(loaded, loaded.conversation, event=event, effects=(), wake_at=None)
    history = store.history("c")
    assert history.beginning == stored.conversation
    assert list(history.events) == events


def test_one_persons_messages_leave_in_order(store: Store) -> None:
    """Within a conversation, order is kept whatever the urgency, but for safety."""
    put(store, "a", say(1, Urgency.BULK), say(2, Urgency.TIMED), say(3))
    assert order(store) == [("a", 1), ("a", 2), ("a", 3)]


def test_safety_overtakes_everything(store: Store) -> None:
    """A safety message leaves before all others, its own person's included."""
    put(store, "a", say(1), say(2))
    put(store, "b", say(1), say(2, Urgency.SAFETY))
    assert order(store)[0] == ("b", 2)


def test_urgent_message_lends_its_urgency_to_those_before_it(store: Store) -> None:
    """A timed prompt behind a bulk message of the same person is not held up by other people."""
    put(store, "a", say(1, Urgency.REMINDER), say(2, Urgency.REMINDER))
    put(store, "b", say(1, Urgency.BULK), say(2, Urgency.TIMED))
    assert order(store) == [("b", 1), ("b", 2), ("a", 1), ("a", 2)]


def test_claimed_parcel_is_not_claimed_twice(store: Store) -> None:
    """While a parcel is under way, neither it nor the next of the same person is taken."""
    put(store, "a", say(1), say(2))
    next_parcel(store)
    assert store.claim_parcel(NOW, LEASE) is None


def test_lease_that_ran_out_lets_go(store: Store) -> None:
    """A parcel whose sender never came back is sent again, and counted as a second try."""
    put(store, "a", say(1))
    assert next_parcel(store).attempt == 1
    again = next_parcel(store, NOW + LEASE + timedelta(seconds=1))
    assert again.attempt == 2


def test_release_lets_go_at_once(store: Store) -> None:
    """At start-up what was under way is sent again without waiting for the lease."""
    put(store, "a", say(1))
    next_parcel(store)
    assert store.release_parcels() == 1
    assert next_parcel(store).attempt == 2


def test_later_waits_and_keeps_the_order(store: Store) -> None:
    """A channel's wish to wait holds up that person only, and costs no try."""
    put(store, "a", say(1), say(2))
    put(store, "b", say(1))
    store.settle(next_parcel(store), Later(timedelta(seconds=5)), NOW)
    assert next_parcel(store).conversation_id == "b"
    assert store.claim_parcel(NOW, LEASE) is None
    assert store.next_parcel_at() == NOW + timedelta(seconds=5)
    assert next_parcel(store, NOW + timedelta(seconds=5)).attempt == 1


def test_unknown_is_tried_again_and_given_up_in_the_end(store: Store) -> None:
    """A message that may have arrived is tried a few times with growing pauses."""
    put(store, "a", say(1))
    now = NOW
    for pause in PAUSES:
        assert not store.settle(next_parcel(store, now), Unknown(), now)
        assert store.claim_parcel(now + pause - timedelta(seconds=1), LEASE) is None
        now += pause
    assert store.settle(next_parcel(store, now), Unknown(), now)
    assert store.claim_parcel(now + timedelta(days=1), LEASE) is None


def test_refused_is_given_up_at_once(store: Store) -> None:
    """What the channel will never take is not tried again, and the next one follows."""
    put(store, "a", say(1), say(2))
    assert store.settle(next_parcel(store), Refused(), NOW)
    assert next_parcel(store).effect.number == 2


def test_message_past_its_use_is_dropped(store: Store) -> None:
    """A heads-up that could not leave in time never leaves."""
    put(store, "a", say(1, until=NOW), say(2))
    assert next_parcel(store, NOW + timedelta(seconds=1)).effect.number == 2


def test_revision_knows_the_message_it_changes(store: Store) -> None:
    """A change is handed the channel's name of the message it changes."""
    put(store, "a", say(1), Revise(number=2, target=1, parts=(Part("help"),)))
    store.settle(next_parcel(store), Sent("message-77"), NOW)
    assert next_parcel(store).target == "message-77"


def test_result_is_kept_in_its_latest_form(store: Store) -> None:
    """A corrected test takes the place of the old one; another test stands beside it."""
    first = TestRecord(number=1, protocol=DEFAULT, age_band=None, began_at=NOW)
    second = TestRecord(number=2, protocol=DEFAULT, age_band=None, began_at=NOW)
    corrected = TestRecord(number=1, protocol=DEFAULT, age_band=None, began_at=NOW, revision=2)
    put(store, "a", Keep(record=first), Keep(record=second))
    put(store, "a", Keep(record=corrected))
    assert store.results("a") == (corrected, second)


def test_kind_of_day_is_put_into_an_earlier_result(store: Store) -> None:
    """Only the test that is named changes, and only its kind of day; others' tests stay as is."""
    first = TestRecord(number=1, protocol=DEFAULT, age_band=None, began_at=NOW)
    second = TestRecord(number=2, protocol=DEFAULT, age_band=None, began_at=NOW)
    put(store, "a", Keep(record=first), Keep(record=second))
    put(store, "b", Keep(record=first))
    put(store, "a", Amend(test=1, day=DayKind.GOOD), Amend(test=9, day=DayKind.GOOD))
    assert store.results("a") == (replace(first, day=DayKind.GOOD), second)
    assert store.results("b") == (first,)
