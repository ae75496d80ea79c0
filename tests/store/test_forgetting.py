"""What is kept before consent, after a refusal, and after "delete everything": nothing."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.care.invitation import Invitation
from bot.errors import DatabaseError
from bot.runtime.ports import Store
from tests.store.chat import NOW, Chat
from tests.store.looking import TABLES, dump, rows

CANARY = "a yellow canary sings"


def test_nothing_said_before_consent_is_kept(store: Store) -> None:
    """What is typed before consent is in no table, and the history begins with the consent."""
    chat = Chat(store)
    chat.opens()
    chat.types(CANARY)
    assert CANARY not in dump(store)
    name = chat.types("yes")
    assert store.history(name).events == ()
    chat.types("34")
    assert len(store.history(name).events) == 1


def test_refused_consent_leaves_no_row(store: Store) -> None:
    """Once the answer to a refusal is out, nothing is left, the chat's address included."""
    chat = Chat(store)
    chat.opens()
    chat.types("no")
    assert set(rows(store).values()) == {0}


def test_delete_everything_leaves_no_row(store: Store) -> None:
    """All that a person said and got is gone; the invitation stays the clinic's."""
    store.invite(
        Invitation(
            code="c0de", reference="HS-77", protocol=None, language=None,
            made_at=NOW, expires_at=NOW + timedelta(days=1),
        )
    )  # fmt: skip
    chat = Chat(store)
    chat.opens("c0de")
    chat.types("yes", "34", "Madrid", "none", "none", "wrist", "watch", "124/76 72", CANARY)
    chat.types("tomorrow 9", "yes")
    assert CANARY in dump(store)
    name = chat.deletes_everything()
    assert rows(store) == {
        name: int(name == "invitation") for name in TABLES
    }  # fmt: skip
    assert name not in dump(store)
    assert chat.opens("c0de") != name, "the link can be opened again"


def test_writing_again_after_deletion_begins_anew(store: Store) -> None:
    """Who comes back is a new person to us."""
    chat = Chat(store)
    chat.opens()
    chat.types("no")
    assert chat.opens() == "conversation1"


def test_invitation_is_good_once_and_for_a_time(store: Store) -> None:
    """A code opens for one chat only, which keeps it; a reference is invited once."""
    good = Invitation(
        code="good", reference="HS-1", protocol="six-readings", language=None,
        made_at=NOW, expires_at=NOW + timedelta(days=1),
    )  # fmt: skip
    store.invite(good)
    with pytest.raises(DatabaseError, match="HS-1"):
        store.invite(
            Invitation(**{f: getattr(good, f) for f in Invitation.__slots__} | {"code": "x"})
        )
    chat = Chat(store)
    name = chat.opens("good")
    assert store.find("HS-1") == name
    with store.unit() as unit:
        assert unit.invitation("good", NOW, "telegram:1") is None
        assert unit.invitation("nonsense", NOW, "telegram:1") is None
        opened = replace(good, opened_at=NOW, opened_by=name)
        assert unit.invitation("good", NOW, "telegram:777123456") == opened
        later = NOW + timedelta(days=2)
        assert unit.invitation("good", later, "telegram:777123456") == opened
        assert unit.invitation("good", later, "telegram:1") is None


def test_code_can_be_typed(store: Store) -> None:
    """Who has the code on paper types it."""
    store.invite(
        Invitation(
            code="c0de-on-paper", reference="HS-78", protocol=None, language=None,
            made_at=NOW, expires_at=NOW + timedelta(days=1),
        )
    )  # fmt: skip
    chat = Chat(store, invited_only=True)
    chat.opens()
    name = chat.types("c0de-on-paper", "yes")
    with store.unit() as unit:
        stored = unit.load_by_id(name)
    assert stored is not None
    assert stored.conversation.profile.reference == "HS-78"


def test_cleared_by_reference_or_by_the_number_they_were_told(store: Store) -> None:
    """The care team names a person by the reference, or by the number shown to them."""
    chat = Chat(store)
    chat.opens()
    name = chat.types("yes", "34", "Madrid", "i am pregnant")
    assert chat.conductor.clear("nobody", "Dr Lind", NOW) is None
    assert chat.conductor.clear(name[:8], "Dr Lind", NOW) is not None
    with store.unit() as unit:
        stored = unit.load_by_id(name)
    assert stored is not None
    assert stored.conversation.profile.cleared_by == "Dr Lind"
