"""What has been kept long enough goes, and what is deleted is nowhere in the files any more."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Final

import pytest
from sqlalchemy import text

from bot.care.invitation import Invitation
from bot.engine.effects import Keep
from bot.engine.events import Event, Opened, WordsGiven
from bot.engine.profile import Companion, Share
from bot.engine.replay import replay
from bot.engine.state import Conversation
from bot.protocol.record import TestRecord
from bot.protocol.released import DEFAULT
from bot.store.retention import ARRIVALS_KEPT, Purged, purge
from bot.store.sql import SqlStore
from tests.store.chat import ENROLS, NOW, Chat
from tests.store.looking import TABLES, dump, rows

YEAR: Final = timedelta(days=365)
LATER: Final = NOW + YEAR + timedelta(days=1)
NOTHING: Final = Purged(
    people=0,
    events=0,
    results=0,
    messages=0,
    arrivals=0,
    invitations=0,
    links=0,
    items=0,
    codes=0,
)


def clear(store: SqlStore, now: datetime, chat: Chat | None = None, **more: bool) -> Purged:
    """Delete what has been kept for a year."""
    playing = partial(replay, (chat or Chat(store)).context)
    return purge(store.engine, now=now, keep=YEAR, replay=playing, **more)


def put(store: SqlStore, conversation: Conversation, at: datetime, *effects: Keep) -> None:
    """Let something happen in a conversation, which is made if need be."""
    with store.unit() as unit:
        stored = unit.load(f"test:{conversation.id}") or unit.add(
            conversation, f"test:{conversation.id}", at
        )
        unit.save(stored, conversation, event=Opened(at=at), effects=effects, wake_at=None)


def test_who_is_no_longer_heard_of_is_forgotten(sql_store: SqlStore) -> None:
    """After the time that the clinic has set, no row of theirs is left; before it, all are."""
    chat = Chat(sql_store)
    chat.opens()
    name = chat.types("yes", "34", "a linnet sings")
    kept = dump(sql_store)
    assert clear(sql_store, NOW + YEAR, chat).people == 0
    for table in ("conversation", "event"):
        assert rows(sql_store)[table] > 0
    assert name in kept
    purged = clear(sql_store, NOW + YEAR + timedelta(seconds=1), chat)
    assert (purged.people, purged.events) == (1, 0)
    assert rows(sql_store) == dict.fromkeys(TABLES, 0)


def test_dry_run_counts_the_same_and_changes_nothing(sql_store: SqlStore) -> None:
    """What would go is what goes."""
    chat = Chat(sql_store)
    chat.opens()
    typed = ("yes", "34", "Madrid", "a linnet sings")
    chat.types(*typed)
    before = rows(sql_store)
    dry = clear(sql_store, LATER, chat, dry_run=True)
    assert rows(sql_store) == before
    assert clear(sql_store, LATER, chat) == dry
    assert dry.people == 1
    assert dry.arrivals == 1 + len(typed)
    assert clear(sql_store, LATER, chat) == NOTHING


def test_who_is_heard_of_loses_what_is_old_and_keeps_the_rest(sql_store: SqlStore) -> None:
    """Old words and tests go; the conversation, newer words and newer tests stay, and replay."""
    chat = Chat(sql_store)
    chat.opens()
    name = chat.types("yes", "34", "an old linnet sings")
    chat.now = LATER
    chat.types("where", "a new linnet sings")
    with sql_store.unit() as unit:
        stored = unit.load_by_id(name)
    assert stored is not None
    old = TestRecord(number=1, protocol=DEFAULT, age_band=None, began_at=NOW)
    new = replace(old, number=2, began_at=LATER)
    with sql_store.unit() as unit:
        unit.save(
            stored,
            stored.conversation,
            event=WordsGiven(at=LATER, text="where", source="9"),
            effects=(Keep(record=old), Keep(record=new)),
            wake_at=stored.wake_at,
        )
    purged = clear(sql_store, LATER, chat)
    assert (purged.people, purged.results) == (0, 1)
    assert sql_store.results(name) == (new,)
    history = sql_store.history(name)
    typed = [event.text for event in history.events if isinstance(event, WordsGiven)]
    assert typed == ["where", "a new linnet sings", "where"]
    assert "an old linnet" not in dump(sql_store)
    with sql_store.unit() as unit:
        after = unit.load_by_id(name)
    assert after is not None
    assert after.conversation == stored.conversation
    assert replay(chat.context, history.beginning, history.events[:-1]) == stored.conversation


def test_history_that_cannot_be_played_begins_anew(sql_store: SqlStore) -> None:
    """What is old goes even if this program cannot play it: it begins where it stands."""
    chat = Chat(sql_store)
    chat.opens()
    name = chat.types("yes", "34")
    chat.now = LATER
    chat.types("where")

    def broken(beginning: Conversation, events: Sequence[Event]) -> Conversation:
        raise ZeroDivisionError

    purge(sql_store.engine, now=LATER, keep=YEAR, replay=broken)
    history = sql_store.history(name)
    with sql_store.unit() as unit:
        stored = unit.load_by_id(name)
    assert stored is not None
    assert (history.beginning, history.events) == (stored.conversation, ())


def test_companions_go_together_or_not_at_all(sql_store: SqlStore) -> None:
    """Nobody is forgotten while somebody linked with them, near or far, is still heard of."""

    def linked(name: str, *others: str) -> Conversation:
        profile = Conversation(id=name, locale="en").profile
        companions = tuple(Companion(id=other, share=Share.ALL, since=NOW) for other in others)
        return Conversation(id=name, locale="en", profile=replace(profile, companions=companions))

    for name, others in {"a": "b", "b": "ac", "c": "b", "d": "e", "e": "d"}.items():
        put(sql_store, linked(name, *others), NOW)
    put(sql_store, linked("c", "b"), LATER)
    assert clear(sql_store, LATER).people == 2
    assert sorted(c.id for c in sql_store.conversations()) == ["a", "b", "c"]


def test_arrivals_messages_and_invitations_go_in_their_own_time(sql_store: SqlStore) -> None:
    """Names of arrivals and messages go after a week; an invitation when it is long out."""
    for code, ends in (("old", NOW), ("new", NOW + YEAR)):
        sql_store.invite(
            Invitation(
                code=code, reference=code, protocol=None, language=None,
                made_at=NOW, expires_at=ends,
            )
        )  # fmt: skip
    chat = Chat(sql_store)
    chat.opens()
    said = rows(sql_store)["outbox"]
    assert clear(sql_store, NOW + ARRIVALS_KEPT) == NOTHING
    soon = clear(sql_store, NOW + ARRIVALS_KEPT + timedelta(seconds=1))
    assert soon == replace(NOTHING, arrivals=1, messages=said)
    assert clear(sql_store, LATER) == replace(NOTHING, people=1, invitations=1)


# -- in the files


def pieces(store: SqlStore, name: str) -> set[bytes]:
    """Return pieces of every sealed text of a person as it stands, and their mark and id."""
    found = {name.encode()}
    with store.engine.begin() as connection:
        for table in TABLES[:4]:
            column = "id" if table == "conversation" else "conversation_id"
            theirs = text(f"SELECT * FROM {table} WHERE {column} = :name")
            for row in connection.execute(theirs, {"name": name}):
                for sealed in (v for v in row if isinstance(v, str) and len(v) >= 32):
                    # Not the head of a text, which holds the time, and is alike in many.
                    starts = range(8, len(sealed) - 24, 72)
                    found |= {sealed[at : at + 24].encode() for at in starts}
    return found


def left_in(folder: Path, wanted: set[bytes]) -> set[bytes]:
    """Return which of the pieces are still in the files of a database."""
    files = b"".join(file.read_bytes() for file in folder.glob("*.sqlite3*"))
    return {piece for piece in wanted if piece in files}


@pytest.mark.parametrize("how", ["by their wish", "by age"])
def test_deleted_person_is_nowhere_in_the_files(
    on_sqlite: SqlStore, tmp_path: Path, how: str
) -> None:
    """No piece of any sealed text of theirs, nor their mark or id, is in database or log.

    Somebody else's rows, written between theirs, stay as they are.
    """
    store = on_sqlite
    ana, bea = Chat(store), Chat(store, chat_id=2)
    gone, stays = ana.opens(), bea.opens()
    theirs: set[bytes] = set()
    earlier = theirs
    for words in (*ENROLS, *(f"linnet {n} sings" for n in range(4)), "tomorrow 9", "yes"):
        ana.types(words)
        bea.types(words)
        earlier, theirs = theirs, pieces(store, gone)
    assert len(theirs) > 100
    assert left_in(tmp_path, theirs) == theirs, "this looks into the right files"
    if how == "by their wish":
        ana.deletes_everything()
        assert left_in(tmp_path, theirs | earlier) == set(), "at once, without waiting"
    bea.now = LATER
    bea.types("where")
    purged = clear(store, LATER, bea)
    assert purged.people == (0 if how == "by their wish" else 1)
    assert left_in(tmp_path, theirs | earlier) == set(), "nor how it stood before"
    others = pieces(store, stays)
    assert left_in(tmp_path, others) == others
