"""What is kept of invitations: the same on every store, and sealed."""

from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import text

from bot.care.board import PersonFacts
from bot.care.invitation import Invitation, Standing, renewed
from bot.care.rules import CareRules
from bot.errors import ConflictError, DatabaseError
from bot.runtime.ports import Store
from bot.store.sql import SqlStore
from tests.store.chat import NOW, Chat

DAY = timedelta(days=1)
FIRST = Invitation(
    code="c0de-of-the-first",
    reference="HS-1",
    protocol="six-readings",
    language="es",
    made_at=NOW,
    expires_at=NOW + DAY,
    note="siskin",
    made_by=3,
)
SECOND = Invitation(
    code="c0de-of-the-second",
    reference="HS-2",
    protocol=None,
    language=None,
    made_at=NOW + timedelta(hours=1),
    expires_at=NOW + 2 * DAY,
)


def invited(store: Store) -> None:
    """Put down two invitations, the later one first."""
    with store.unit() as unit:
        unit.care.add_invitation(SECOND)
        unit.care.add_invitation(FIRST)


def test_invitations_come_back_whole_and_in_order(store: Store) -> None:
    """All that is put down is there, the oldest first, and a reference has one."""
    invited(store)
    with store.unit() as unit:
        assert unit.care.invitations() == (FIRST, SECOND)
    with pytest.raises(DatabaseError, match="HS-1"), store.unit() as unit:
        unit.care.add_invitation(replace(SECOND, code="c", reference="HS-3"))
        unit.care.add_invitation(replace(FIRST, code="another"))
    with store.unit() as unit:
        assert unit.care.invitations() == (FIRST, SECOND)


def test_another_code_takes_the_place_of_the_first(store: Store) -> None:
    """An invitation that was changed is found by its new code, and not by the old one."""
    invited(store)
    again = replace(FIRST, code="c0de-anew", made_at=NOW, expires_at=NOW + 3 * DAY)
    with store.unit() as unit:
        unit.care.save_invitation(again)
    chat = Chat(store)
    chat.opens(FIRST.code)
    assert store.find("HS-1") is None
    assert chat.opens(again.code) == store.find("HS-1")


def test_revoked_and_run_out_invitations_open_nothing(store: Store) -> None:
    """Neither does the store note that somebody tried."""
    invited(store)
    chat = Chat(store)
    chat.opens()
    with store.unit() as unit:
        unit.care.save_invitation(replace(FIRST, revoked_at=NOW))
        assert unit.invitation(FIRST.code, NOW, "telegram:777123456") is None
        assert unit.invitation(SECOND.code, NOW + 3 * DAY, "telegram:777123456") is None
        assert unit.care.invitations() == (replace(FIRST, revoked_at=NOW), SECOND)


def test_a_chat_opens_one_invitation(store: Store) -> None:
    """The other one stays good for another chat; once forgotten, the chat can open any."""
    invited(store)
    chat = Chat(store)
    name = chat.opens(FIRST.code)
    with store.unit() as unit:
        assert unit.invitation(SECOND.code, NOW, "telegram:777123456") is None
        opened = replace(FIRST, opened_by=name, opened_at=NOW)
        assert unit.care.invitations() == (opened, SECOND)


def test_who_opens_while_it_is_revoked_stays_in(store: Store) -> None:
    """What was decided on an invitation before somebody opened it is not put over that."""
    invited(store)
    name = Chat(store).opens(FIRST.code)
    with pytest.raises(ConflictError), store.unit() as unit:
        unit.care.save_invitation(replace(FIRST, revoked_at=NOW))
    assert store.find("HS-1") == name


def test_what_was_noted_of_a_person_goes_with_them(store: Store) -> None:
    """Once somebody has had all deleted, their invitation says that it was opened, and no more.

    It stays the clinic's, and whoever wants to begin again may open it.
    """
    invited(store)
    chat = Chat(store)
    chat.opens(FIRST.code)
    chat.types("yes", "delete everything", "yes")
    with store.unit() as unit:
        emptied = replace(FIRST, note=None, opened_at=FIRST.made_at)
        assert unit.care.invitations() == (emptied, SECOND)
        assert unit.care.people() == (PersonFacts(reference="HS-2", invited_at=SECOND.made_at),)
    assert emptied.standing(NOW) is Standing.EMPTIED
    again = renewed(emptied, code="other", rules=CareRules(), at=NOW)
    assert again.standing(NOW) is Standing.WAITS
    assert chat.opens(FIRST.code) == store.find("HS-1")


def test_reference_code_and_note_are_sealed(sql_store: SqlStore) -> None:
    """Nothing that tells of a person stands open in the table."""
    invited(sql_store)
    with sql_store.engine.begin() as connection:
        rows = str(connection.execute(text("SELECT * FROM invitation")).all())
    assert [w for w in ("HS-1", "c0de-of", "siskin") if w in rows] == []
