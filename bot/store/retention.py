"""What has been kept long enough goes: people no longer heard of, and what is old of all others."""

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import partial
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
    ITEM,
    LOCK,
    MEMBER,
    MEMBER_CODE,
    OUTBOX,
    RESULT,
    WAITING,
    WRONG_CODE,
)
from bot.store.transaction import transaction

Begin = Callable[[], AbstractContextManager[Connection]]
Replay = Callable[[Conversation, Sequence[Event]], Conversation]

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
        items: What the care team had closed long ago, or what was about such tests.
        codes: Codes for the team that ran out long ago, and wrong ones that were tried.
    """

    people: int
    events: int
    results: int
    messages: int
    arrivals: int
    invitations: int
    links: int
    items: int
    codes: int


def purge(
    engine: Engine,
    *,
    now: datetime,
    keep: timedelta,
    replay: Replay,
    dry_run: bool = False,
) -> Purged:
    """Delete what has been kept long enough, a little at a time, so that nobody waits for it.

    To count only, it is all done at once and undone; meanwhile others may have to wait.

    Args:
        engine: The database.
        now: What time it is.
        keep: How long things are kept.
        replay: Returns a conversation as it was after some events.
        dry_run: Whether to change nothing and only count.
    """
    if dry_run:
        with transaction(engine) as connection:
            purged = _purge(lambda: nullcontext(connection), now, now - keep, replay)
            connection.rollback()
            return purged
    purged = _purge(partial(transaction, engine), now, now - keep, replay)
    leave_no_trace(engine)
    return purged


def _purge(begin: Begin, now: datetime, before: datetime, replay: Replay) -> Purged:
    silent = _silent(begin, before)
    people = sum(_forget(begin, name, before) for name in silent)
    dropped = [_drop_results(begin, name, before) for name in _with_results(begin, before)]
    return Purged(
        people=people,
        events=sum(
            _shorten(begin, name, before, replay) for name in _with_old_events(begin, before)
        ),
        results=sum(results for results, _ in dropped),
        messages=_drop(
            begin,
            delete(OUTBOX).where(OUTBOX.c.fate != WAITING, OUTBOX.c.settled_at < now - SENT_KEPT),
        ),
        arrivals=_drop(begin, delete(INBOX).where(INBOX.c.taken_at < now - ARRIVALS_KEPT)),
        invitations=_drop(
            begin,
            delete(INVITATION).where(
                INVITATION.c.expires_at < before, INVITATION.c.conversation_id.is_(None)
            ),
        ),
        links=_drop(begin, delete(COMPANION_LINK).where(COMPANION_LINK.c.expires_at < now)),
        items=sum(items for _, items in dropped)
        + _drop(begin, delete(ITEM).where(ITEM.c.closed_at < before)),
        codes=_drop(begin, delete(MEMBER_CODE).where(MEMBER_CODE.c.expires_at < before))
        + _drop(begin, delete(WRONG_CODE).where(WRONG_CODE.c.at < now - ARRIVALS_KEPT)),
    )


def leave_no_trace(engine: Engine) -> None:
    """Let go of what the database still holds of rows that were deleted."""
    if engine.dialect.name == "sqlite":
        sqlite.leave_no_trace(engine)
    else:
        postgres.rewrite(engine)


def _silent(begin: Begin, before: datetime) -> frozenset[str]:
    """Return who has not been heard of since, nor anybody who is linked with them."""
    with begin() as connection:
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
    in_team = exists().where(
        MEMBER.c.conversation_id == CONVERSATION.c.id, MEMBER.c.removed_at.is_(None)
    )
    return select(CONVERSATION.c.id).where(
        CONVERSATION.c.began_at < before, ~since, ~waiting, ~in_team
    )


def _forget(begin: Begin, name: str, before: datetime) -> int:
    with begin() as connection:
        connection.execute(LOCK, {"ids": [name]})
        # They may have written just now.
        mine = _not_heard_of(before).where(CONVERSATION.c.id == name)
        if connection.execute(mine).first() is None:
            return 0
        erase(connection, name)
        return 1


def _with_old_events(begin: Begin, before: datetime) -> list[str]:
    with begin() as connection:
        old = select(EVENT.c.conversation_id).where(EVENT.c.at < before).distinct()
        return list(connection.execute(old).scalars())


def _shorten(
    begin: Begin,
    name: str,
    before: datetime,
    replay: Replay,
) -> int:
    """Let a history begin later, where its conversation stood then.

    One that this program cannot play any more begins anew where the conversation stands now.
    """
    with begin() as connection:
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


def _with_results(begin: Begin, before: datetime) -> list[str]:
    with begin() as connection:
        begun = (
            select(CONVERSATION.c.id)
            .where(CONVERSATION.c.began_at < before)
            .where(exists().where(RESULT.c.conversation_id == CONVERSATION.c.id))
        )
        return list(connection.execute(begun).scalars())


def _drop_results(begin: Begin, name: str, before: datetime) -> tuple[int, int]:
    """Delete a person's old tests, and what is in the team's inbox of them; returns how many."""
    with begin() as connection:
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
        items = connection.execute(delete(ITEM).where(ITEM.c.person == name, ITEM.c.test.in_(old)))
        return len(old), items.rowcount


def _drop(begin: Begin, statement: Delete) -> int:
    with begin() as connection:
        return connection.execute(statement).rowcount
