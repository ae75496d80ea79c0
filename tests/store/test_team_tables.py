"""What is kept of the care team: the same on every store, sealed, and gone when it has to be."""

import time
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import insert
from sqlalchemy.exc import DBAPIError

from bot.care.step import Audit, Did
from bot.engine.effects import Keep
from bot.engine.events import Opened
from bot.engine.state import Conversation
from bot.errors import ConflictError
from bot.protocol.record import TestRecord
from bot.protocol.released import DEFAULT
from bot.runtime.ports import Store
from bot.store import open_store
from bot.store.database import open_engine
from bot.store.keys import KEY_FILE, GivenKeys, KeyFile, new_key
from bot.store.retention import ARRIVALS_KEPT
from bot.store.rotation import rotate
from bot.store.sql import SqlStore
from bot.store.statements import CONVERSATION
from tests.store.chat import NOW, Chat
from tests.store.team import AUDIT, DAY, STRANGER, TICKET, item, member, staffed
from tests.store.test_archive import everything
from tests.store.test_retention import LATER, NOTHING, YEAR, clear, put
from tests.store.test_secrecy import hashes, raw

TEAM = ("member", "member_code", "wrong_code", "item", "audit")
KEYS = GivenKeys(new_key())


# -- the same on every store


def test_members_join_in_order_and_stay_known_when_gone(store: Store) -> None:
    """A member is found by chat and conversation until they go; who has gone is listed on."""
    staffed(store)
    with store.unit() as unit:
        care = unit.care
        (marta,) = care.members()
        assert [m.label for m in care.everyone()] == ["marta-siskin", "luis-siskin"]
        assert care.member("test:marta") == care.member_of("marta") == marta
        assert (care.member("test:luis"), care.member("test:nobody")) == (None, None)
        care.save_member(replace(marta, on_duty=True, asked="follow-up:1"))
        again = care.add_member(member("luis"))
        assert care.members() == (replace(marta, on_duty=True, asked="follow-up:1"), again)
        assert again.number > marta.number


def test_code_is_good_until_it_is_used_or_runs_out(store: Store) -> None:
    """What a code stands for comes back whole, and not after its time, nor once it is used."""
    staffed(store)
    with store.unit() as unit:
        assert unit.care.tickets(NOW + DAY) == (TICKET,)
        assert unit.care.tickets(NOW + DAY + timedelta(seconds=1)) == ()
        unit.care.use_ticket(TICKET.digest, NOW)
        assert unit.care.tickets(NOW) == ()


def test_wrong_codes_are_counted_by_chat_and_for_a_time(store: Store) -> None:
    """Those of others, and those of long ago, do not count; the latter are forgotten."""
    staffed(store)
    with store.unit() as unit:
        care = unit.care
        care.note_wrong_code(STRANGER, NOW + DAY, NOW)
        care.note_wrong_code("telegram:555000112", NOW + DAY, NOW)
        assert care.wrong_codes(STRANGER, NOW) == 2
        care.note_wrong_code(STRANGER, NOW + DAY, NOW + timedelta(seconds=1))
        assert care.wrong_codes(STRANGER, NOW) == 2


def test_two_cannot_change_one_item(store: Store) -> None:
    """An item that was changed since it was loaded is not overwritten."""
    staffed(store)
    with store.unit() as unit:
        first, second = unit.care.open_items()
        assert (first.test, first.cause, second.test) == (1, item("ada").cause, 2)
        unit.care.save_item(replace(first, taken_by=1, taken_at=NOW, wake_at=None))
    with pytest.raises(ConflictError), store.unit() as unit:
        unit.care.save_item(replace(first, taken_by=2))
    with store.unit() as unit:
        kept = unit.care.item(first.number)
        assert kept is not None
        assert (kept.taken_by, kept.taken_at, kept.revision) == (1, NOW, 1)
        unit.care.save_item(replace(kept, closed_at=NOW))
        assert [i.test for i in unit.care.open_items()] == [2]
        assert [i.test for i in unit.care.items_of("ada")] == [1, 2]
        unit.care.forget_items("ada")
        assert (unit.care.items_of("ada"), unit.care.item(first.number)) == ((), None)


def test_alarms_sleep_among_the_conversations(store: Store) -> None:
    """What wakes next is told in order, whether a conversation or an item's alarm."""
    rings = NOW + timedelta(minutes=1)
    with store.unit() as unit:
        number = unit.care.add_item(item("ada")).number
        stored = unit.add(Conversation(id="bea", locale="en"), "test:bea", NOW)
        unit.save(stored, stored.conversation, event=Opened(at=NOW), effects=(), wake_at=NOW + DAY)
    assert store.sleepers(NOW) == []
    assert store.sleepers(NOW + DAY) == [(f"item:{number}", rings), ("bea", NOW + DAY)]


def test_log_is_kept_in_order(store: Store) -> None:
    """Lines come back as they were noted; by day, and so many from the end."""
    staffed(store)
    with store.unit() as unit:
        unit.care.note((Audit(who=0, did=Did.READ_AUDIT),), NOW + DAY)
        assert [line.audit.detail for line in unit.care.log()] == ["near-faint", "clinician", None]
        first, second, third = unit.care.log()
        assert (first.audit, first.at) == (AUDIT, NOW)
        assert first.id < second.id < third.id
        assert unit.care.log(last=1) == unit.care.log(since=NOW + DAY) == (third,)


def test_a_unit_that_fails_leaves_the_team_as_it_was(store: Store) -> None:
    """All or nothing holds for the team as well."""
    with pytest.raises(ZeroDivisionError), store.unit() as unit:
        unit.care.add_member(member("marta"))
        unit.care.add_item(item("ada"))
        unit.care.note((AUDIT,), NOW)
        raise ZeroDivisionError
    with store.unit() as unit:
        assert (unit.care.everyone(), unit.care.open_items(), unit.care.log()) == ((), (), ())


# -- sealed


def test_files_tell_of_nobody_in_the_team_or_before_it(
    sql_store: SqlStore, request: pytest.FixtureRequest
) -> None:
    """No label, reference, chat, priority or reason is in the files, nor a hash of a chat."""
    on_server = sql_store.engine.dialect.name == "postgresql"
    since = time.time() - 1
    staffed(sql_store)
    found = raw(sql_store, request.getfixturevalue("server") if on_server else None, since)
    assert TICKET.digest.encode() in found, "this looks into the right files"
    told = ("siskin", "HS-77", "near-faint", "test:", "555000111")
    assert [words for words in told if words.encode() in found] == []
    assert [digest for digest in hashes(STRANGER) if digest in found] == []


def test_log_refuses_all_but_new_seals(sql_store: SqlStore) -> None:
    """The database itself refuses to change, delete or empty it; a seal may be put down anew."""
    staffed(sql_store)
    refused = ["UPDATE audit SET who = 9", "UPDATE audit SET person = 'b'", "DELETE FROM audit"]
    if sql_store.engine.dialect.name == "postgresql":
        refused.append("TRUNCATE audit")
    for statement in refused:
        with (
            pytest.raises(DBAPIError, match="only ever added to"),
            sql_store.engine.begin() as connection,
        ):
            connection.exec_driver_sql(statement)
    with sql_store.unit() as unit:
        assert unit.care.log()[0].audit == AUDIT


def test_program_with_an_old_key_seals_nothing_of_the_team_with_it(tmp_path: Path) -> None:
    """A code is made by a program that has opened nothing yet: it takes the new key for it."""
    path, source = tmp_path / "a.sqlite3", KeyFile(tmp_path / KEY_FILE)
    running = open_store(path, source)
    (old,), new = source.load(make=False), new_key()
    source.write((new, old))
    rotating = open_store(path, source)
    rotate(rotating.engine)
    rotating.close()
    source.write((new,))
    chat = Chat(running)
    with pytest.raises(ConflictError, match="keys of the database were changed"):
        chat.conductor.admit(TICKET.role, "Nora", NOW)
    chat.conductor.admit(TICKET.role, "Nora", NOW)
    running.close()
    again = open_store(path, GivenKeys(new))
    with again.unit() as unit:
        assert [ticket.label for ticket in unit.care.tickets(NOW)] == ["Nora"]
        assert [line.audit.detail for line in unit.care.log()] == ["clinician"]
    again.close()


# -- put back, brought up, and gone


def test_database_from_before_the_team_gets_its_tables(where: Path | str) -> None:
    """What the program before kept is there, and a team can be in it."""
    engine = open_engine(where, KEYS, to="0004")
    state = '{"a": "linnet"}'
    row = {
        "id": "c", "address_mark": "telegram:1", "address": "telegram:1", "began_at": NOW,
        "beginning": state, "revision": 1, "wake_at": NOW, "state": state,
    }  # fmt: skip
    with engine.begin() as connection:
        connection.execute(insert(CONVERSATION), row)
    engine.dispose()
    store = open_store(where, KEYS)
    with store.engine.begin() as connection:
        kept = connection.execute(CONVERSATION.select()).mappings().one()
    assert (kept["state"], kept["address"], kept["wake_at"]) == (state, "telegram:1", NOW)
    staffed(store)
    held = {name: len(found) for name, found in everything(store.engine).items()}
    assert [held[name] for name in TEAM] == [2, 1, 1, 2, 2]
    store.close()


def test_team_stays_and_what_waits_of_the_silent_goes(sql_store: SqlStore) -> None:
    """A member who reads only is not forgotten; a person, and who has left, are; the log stays."""
    staffed(sql_store)
    later = LATER + timedelta(seconds=1)
    dry = clear(sql_store, later, dry_run=True)
    assert clear(sql_store, later) == dry == replace(NOTHING, people=2, codes=2)
    assert [c.id for c in sql_store.conversations()] == ["marta"]
    with sql_store.unit() as unit:
        assert unit.care.items_of("ada") == ()
        assert len(unit.care.everyone()) == 2
        assert len(unit.care.log()) == 2


def test_items_go_with_their_test_or_when_long_closed(sql_store: SqlStore) -> None:
    """Of a person who is still heard of, items of old tests and those closed long ago go."""
    staffed(sql_store)
    with sql_store.unit() as unit:
        third = unit.care.add_item(item("ada", 3))
        unit.care.save_item(replace(third, closed_at=NOW, wake_at=None))
        unit.care.add_item(item("ada", 4))
        stored = unit.load_by_id("ada")
    assert stored is not None
    old = TestRecord(number=1, protocol=DEFAULT, age_band=None, began_at=NOW)
    put(
        sql_store, stored.conversation, LATER, Keep(record=old), Keep(record=replace(old, number=2))
    )
    purged = clear(sql_store, LATER)
    assert (purged.people, purged.results, purged.items) == (1, 2, 3)
    with sql_store.unit() as unit:
        assert [i.test for i in unit.care.items_of("ada")] == [4]


def test_wrong_codes_go_after_a_week(sql_store: SqlStore) -> None:
    """A chat that tried a code is not known for longer than arrivals are."""
    with sql_store.unit() as unit:
        unit.care.note_wrong_code(STRANGER, NOW, NOW)
    assert clear(sql_store, NOW + ARRIVALS_KEPT).codes == 0
    assert clear(sql_store, NOW + ARRIVALS_KEPT + timedelta(seconds=1)).codes == 1
    assert clear(sql_store, NOW + YEAR).codes == 0
