"""The tables. Rows are dumb: no validation, no relationships; the codec gives them meaning.

Whatever tells of a person is sealed: their words, numbers, address and reference. What stands
open is what the program has to sort and search by: ids that chance made, instants, counts.
"""

from typing import Any, Final

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
    false,
    text,
)

from bot.store.columns import Instant, Marked, Sealed, SealedName
from bot.store.vault import Mark

NAMES: Final = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}
METADATA: Final = MetaData(naming_convention=NAMES)


def _key(name: str, kind: Any, *more: Any) -> Column[Any]:
    return Column(name, kind, *more, primary_key=True, nullable=False)


def _must(name: str, kind: Any, *more: Any, **how: Any) -> Column[Any]:
    return Column(name, kind, *more, nullable=False, **how)


def _may(name: str, kind: Any, **how: Any) -> Column[Any]:
    return Column(name, kind, nullable=True, **how)


def _added(name: str, kind: Any) -> Column[Any]:
    """Return a sealed column that came later: it has a default, for the rows before it."""
    return Column(name, kind, nullable=False, server_default="")


def _part(name: str, *columns: str, which: str, unique: bool = False) -> Index:
    """Return an index on a part of the rows."""
    rows = text(which)
    return Index(name, *columns, unique=unique, sqlite_where=rows, postgresql_where=rows)


def _waiting(name: str, *columns: str, known: str = "") -> Index:
    """Return an index on the messages that wait, or on those of them where a column is known."""
    which = "fate = 'waiting'" + (f" AND {known} IS NOT NULL" if known else "")
    return _part(name, *columns, which=which)


CONVERSATION: Final = Table(
    "conversation",
    METADATA,
    _key("id", String),
    _must("address_mark", Marked(Mark.ADDRESS)),
    _added("address", Sealed),
    _must("began_at", Instant),
    _must("beginning", Sealed),
    _must("revision", Integer),
    _may("wake_at", Instant, index=True),
    _must("state", Sealed),
    _must("forgotten", Boolean, server_default=false()),
    UniqueConstraint("address_mark", name="uq_conversation_address"),
)
"""A person's conversation as it stands, and how it began."""

_OF_A_CONVERSATION: Final = "conversation.id"

INBOX: Final = Table(
    "inbox",
    METADATA,
    _key("key", Marked(Mark.ARRIVAL)),
    _must("taken_at", Instant),
)
"""Arrivals that were taken; the key makes each once only."""

EVENT: Final = Table(
    "event",
    METADATA,
    _key("conversation_id", String, ForeignKey(_OF_A_CONVERSATION)),
    _key("position", Integer),
    _must("at", Instant),
    _must("event", Sealed),
)
"""The events of a conversation, in order."""

OUTBOX: Final = Table(
    "outbox",
    METADATA,
    _key("id", Integer),
    _must("conversation_id", String, ForeignKey(_OF_A_CONVERSATION)),
    _must("number", Integer),
    _must("urgency", Integer),
    _must("locale", String),
    _must("effect", Sealed),
    _may("target", Integer),
    _may("until_at", Instant),
    _must("fate", String),
    _must("attempts", Integer, default=0),
    _may("not_before_at", Instant),
    _may("leased_until_at", Instant),
    _may("ref", SealedName),
    _may("settled_at", Instant),
    Index("uq_outbox_conversation_number", "conversation_id", "number", unique=True),
    _waiting("ix_outbox_waiting", "urgency", "id"),
    _waiting("ix_outbox_heads", "conversation_id", "id"),
    _waiting("ix_outbox_until", "until_at", known="until_at"),
    _waiting("ix_outbox_later", "not_before_at", known="not_before_at"),
)
"""Messages to send, or sent."""

INVITATION: Final = Table(
    "invitation",
    METADATA,
    _key("code_mark", Marked(Mark.CODE)),
    _added("code", Sealed),
    _must("reference_mark", Marked(Mark.REFERENCE)),
    _added("reference", Sealed),
    _may("protocol", String),
    _may("language", String),
    _must("made_at", Instant),
    _must("expires_at", Instant),
    _may("conversation_id", String),
    _may("note", SealedName),
    _may("made_by", Integer),
    _may("opened_at", Instant),
    _may("revoked_at", Instant),
    UniqueConstraint("reference_mark", name="uq_invitation_reference"),
)
"""Invitations of the clinic. The reference is opaque: never a name."""

COMPANION_LINK: Final = Table(
    "companion_link",
    METADATA,
    _key("code_mark", Marked(Mark.CODE)),
    _added("code", Sealed),
    _must("of", String, index=True),
    _must("share", String),
    _must("made_at", Instant),
    _must("expires_at", Instant),
    _may("opened_by", String),
    _may("taken_at", Instant),
)
"""Links by which somebody can become a person's companion, each once."""

RESULT: Final = Table(
    "result",
    METADATA,
    _key("conversation_id", String, ForeignKey(_OF_A_CONVERSATION)),
    _key("test_number", Integer),
    _must("revision", Integer),
    _must("record", Sealed),
)
"""Tests that have ended, each in its latest form."""

MEMBER: Final = Table(
    "member",
    METADATA,
    _key("number", Integer),
    _must("conversation_id", String),
    _must("role", String),
    _must("label", SealedName),
    _must("joined_at", Instant),
    _may("added_by", Integer),
    _must("room", Boolean, default=False),
    _must("on_duty", Boolean, default=False),
    _may("removed_at", Instant),
    _may("asked", String),
    _may("digest", Boolean),
    _may("digest_at", Instant, index=True),
    _part("uq_member_present", "conversation_id", which="removed_at IS NULL", unique=True),
)
"""Those of the care team, and rooms of theirs; those who have gone stay for the log."""

MEMBER_CODE: Final = Table(
    "member_code",
    METADATA,
    _key("digest", String),
    _must("role", String),
    _must("label", SealedName),
    _must("made_at", Instant),
    _may("made_by", Integer),
    _must("expires_at", Instant),
    _may("used_at", Instant),
)
"""What codes for the team stand for. Of a code itself only its digest is kept."""

WRONG_CODE: Final = Table(
    "wrong_code",
    METADATA,
    _key("id", Integer),
    _must("address_mark", Marked(Mark.ADDRESS)),
    _must("address", Sealed),
    _must("at", Instant),
    Index("ix_wrong_code_address", "address_mark"),
)
"""Codes that were no good, so that nobody can try many; kept for as long as that counts."""

ITEM: Final = Table(
    "item",
    METADATA,
    _key("number", Integer),
    _must("person", String, index=True),
    _must("test", Integer),
    _must("revision", Integer),
    _may("taken_by", Integer),
    _may("closed_at", Instant),
    _may("wake_at", Instant, index=True),
    _must("state", Sealed),
    _part("uq_item_open", "person", "test", which="closed_at IS NULL", unique=True),
)
"""What is in the team's inbox."""

AUDIT: Final = Table(
    "audit",
    METADATA,
    _key("id", Integer),
    _must("at", Instant),
    _must("who", Integer),
    _must("did", String),
    _may("person", String, index=True),
    _may("item", Integer),
    _may("detail", SealedName),
)
"""The audit log. It is only ever added to: the database refuses all else.

Only its detail can be sealed anew, as new keys need it.
"""

MARK_KEY: Final = Table(
    "mark_key",
    METADATA,
    _key("kind", String),
    _must("key", Text),
)
"""The keys that marks are made with, themselves sealed."""

LEAD: Final = Table(
    "lead",
    METADATA,
    _key("name", String),
    _must("epoch", BigInteger),
)
"""How often the lead was taken: who took it earlier claims nothing more."""
