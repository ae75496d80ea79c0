"""What has been kept long enough goes: people no longer heard of, and what is old of all others."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from sqlalchemy import (
    Connection,
    Delete,
    Engine,
    Select,
    delete,
    exists,
    func,
    select,
    update,
)

from bot.engine.events import Event
from bot.engine.post import related
from bot.engine.state import Conversation
from bot.store import postgres, sqlite
from bot.store.codec import (
    decode_conversation,
    decode_event,
    decode_record,
    encode_conversation,
)
from bot.store.forgetting import erase
from bot.store.statements import (
    COMPANION_LINK,
    CONVERSATION,
    EVENT,
    INBOX,
    INVITATION,
    LOCK,
    OUTBOX,
    RESULT,
    WAITING,
)
from bot.store.transaction import transaction

ARRIVALS_KEPT: Final = timedelta(days=7)
"""How long it is known what was taken, so that nothing is taken twice. The messenger keeps what
was not taken for 24 hours (Telegram's Bot API, "Getting updates"); the rest is a margin."""

SENT_KEPT: Final = timedelta(days=7)
"""How long a message is kept once it has left: only a change of it needs it (design choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Purged:
    """How much has gone, or would go.

    Attributes:
        people: Whole people, with all that was kept of them.
        events: What happened to others, long ago.
        results: Their tests of long ago.
        messages: Messages that left, or were dropped, a while ago.
        arrivals: Names of what arrived a while ago.
        invitations: Invitations that ran out long ago.
        links: Links between people that ran out.
    """

    people: int
    events: int
    results: int
    messages: int
    arrivals: int
    invitations: int
    links: int


def purge(
    engine: Engine,
    *,
    now: datetime,
    keep: timedelta,
    replay: Callable[[Conversation, Sequence[Event]], Conversation],
    dry_run: bool = False,
) -> Purged:
    """Delete what has been kept long enough, a little at a time, so that nobody waits for it.

    Args:
        engine: The database.
        now: What time it is.
        keep: How long things are kept.
        replay: Returns a conversation as it was after some events.
        dry_run: Whether to change nothing and only count.
    """
    before = now - keep
    silent = _silent(engine, before)
    purged = Purged(
        people=sum(_forget(engine, name, before, dry_run) for name in silent),
        events=sum(
            _shorten(engine, name, before, replay, dry_run)
            for name in _with_old_events(engine, before)
            if name not in silent
        ),
        results=sum(
            _drop_results(engine, name, before, dry_run)
            for name in _begun(engine, before)
            if name not in silent
        ),
        messages=_drop(
            engine,
            delete(OUTBOX).where(OUTBOX.c.fate != WAITING, OUTBOX.c.settled_at < now - SENT_KEPT),
            dry_run,
        ),
        arrivals=_drop(
            engine, delete(INBOX).where(INBOX.c.taken_at < now - ARRIVALS_KEPT), dry_run
        ),
        invitations=_drop(
            engine,
            delete(INVITATION).where(
                INVITATION.c.expires_at < before, INVITATION.c.conversation_id.is_(None)
            ),
            dry_run,
        ),
        links=_drop(
            engine, delete(COMPANION_LINK).where(COMPANION_LINK.c.expires_at < now), dry_run
        ),
    )
    if not dry_run:
        leave_no_trace(engine)
    return purged


def leave_no_trace(engine: Engine) -> None:
    """Let go of what the database still holds of rows that were deleted."""
    if engine.dialect.name == "sqlite":
        sqlite.leave_no_trace(engine)
    else:
        postgres.rewrite(engine)


def _silent(engine: Engine, before: datetime) -> frozenset[str]:
    """Return who has not been heard of since, nor anybody who is linked with them."""
    with transaction(engine) as connection:
        silent = set(connection.execute(_not_heard_of(before)).scalars())
        states = select(CONVERSATION.c.id, CONVERSATION.c.state)
        linked = {
            row.id: related(decode_conversation(row.state))
            for row in connection.execute(states.where(CONVERSATION.c.id.in_(silent)))
        }
        named = {name for names in linked.values() for name in names}
        there = select(CONVERSATION.c.id).where(CONVERSATION.c.id.in_(named))
        heard_of = set(connection.execute(there).scalars()) - silent
    while wait_for := {name for name, names in linked.items() if names & heard_of}:
        heard_of |= wait_for
        linked = {name: names for name, names in linked.items() if name not in wait_for}
    return frozenset(linked)


def _not_heard_of(before: datetime) -> Select[str]:
    since = exists().where(EVENT.c.conversation_id == CONVERSATION.c.id, EVENT.c.at >= before)
    waiting = exists().where(
        OUTBOX.c.conversation_id == CONVERSATION.c.id, OUTBOX.c.fate == WAITING
    )
    return select(CONVERSATION.c.id).where(CONVERSATION.c.began_at < before, ~since, ~waiting)


def _forget(engine: Engine, name: str, before: datetime, dry_run: bool) -> int:
    with _changing(engine, dry_run) as connection:
        connection.execute(LOCK, {"ids": [name]})
        # They may have written just now.
        mine = _not_heard_of(before).where(CONVERSATION.c.id == name)
        if connection.execute(mine).first() is None:
            return 0
        erase(connection, name)
        return 1


def _with_old_events(engine: Engine, before: datetime) -> list[str]:
    with transaction(engine) as connection:
        old = select(EVENT.c.conversation_id).where(EVENT.c.at < before).distinct()
        return list(connection.execute(old).scalars())


def _shorten(
    engine: Engine,
    name: str,
    before: datetime,
    replay: Callable[[Conversation, Sequence[Event]], Conversation],
    dry_run: bool,
) -> int:
    """Let a history begin later, where its conversation stood then.

    One that this program cannot play any more begins anew where the conversation stands now.
    """
    with _changing(engine, dry_run) as connection:
        connection.execute(LOCK, {"ids": [name]})
        mine = EVENT.c.conversation_id == name
        first_kept = connection.execute(
            select(func.min(EVENT.c.position)).where(mine, EVENT.c.at >= before)
        ).scalar()
        old = mine if first_kept is None else mine & (EVENT.c.position < first_kept)
        texts = connection.execute(select(EVENT.c.event).where(old).order_by(EVENT.c.position))
        events = [decode_event(text) for text in texts.scalars()]
        whole = select(CONVERSATION.c.beginning, CONVERSATION.c.state)
        row = connection.execute(whole.where(CONVERSATION.c.id == name)).first()
        if row is None or not events:
            return 0
        try:
            beginning = encode_conversation(replay(decode_conversation(row.beginning), events))
        except Exception:  # whatever it is: what is old has to go
            beginning, old = row.state, mine
        connection.execute(
            update(CONVERSATION).where(CONVERSATION.c.id == name).values(beginning=beginning)
        )
        connection.execute(delete(EVENT).where(old))
        return len(events)


def _begun(engine: Engine, before: datetime) -> list[str]:
    with transaction(engine) as connection:
        begun = (
            select(CONVERSATION.c.id)
            .where(CONVERSATION.c.began_at < before)
            .where(exists().where(RESULT.c.conversation_id == CONVERSATION.c.id))
        )
        return list(connection.execute(begun).scalars())


def _drop_results(engine: Engine, name: str, before: datetime, dry_run: bool) -> int:
    with _changing(engine, dry_run) as connection:
        connection.execute(LOCK, {"ids": [name]})
        kept = select(RESULT.c.test_number, RESULT.c.record).where(RESULT.c.conversation_id == name)
        old = [
            row.test_number
            for row in connection.execute(kept)
            if decode_record(row.record).began_at < before
        ]
        connection.execute(
            delete(RESULT).where(RESULT.c.conversation_id == name, RESULT.c.test_number.in_(old))
        )
        return len(old)


def _drop(engine: Engine, statement: Delete, dry_run: bool) -> int:
    with _changing(engine, dry_run) as connection:
        return connection.execute(statement).rowcount


@contextmanager
def _changing(engine: Engine, dry_run: bool) -> Iterator[Connection]:
    """Open a transaction whose changes are undone if they were only to be counted."""
    with transaction(engine) as connection:
        yield connection
        if dry_run:
            connection.rollback()
