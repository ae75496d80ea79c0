"""The tables. Rows are dumb: no validation, no relationships; the codec gives them meaning.

Whatever tells of a person is sealed: their words, numbers, address and reference. What stands
open is what the program has to sort and search by: ids that chance made, instants, counts.
"""

from datetime import datetime
from typing import Any

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    Index,
    Integer,
    String,
    Text,
    UniqueConstraint,
    false,
    text,
)
from sqlmodel import Field, SQLModel

from bot.store.columns import Instant, Marked, Sealed, SealedName
from bot.store.vault import Mark

NAMES = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}
SQLModel.metadata.naming_convention = NAMES


def _instant(*, nullable: bool = False, index: bool = False) -> Any:
    return Field(sa_column=Column(Instant, nullable=nullable, index=index))


def _sealed(*, added: bool = False) -> Any:
    default = "" if added else None  # a column that came later needs one, for the rows before it
    return Field(sa_column=Column(Sealed, nullable=False, server_default=default))


def _sealed_name(*, nullable: bool = False) -> Any:
    if nullable:
        return Field(default=None, sa_column=Column(SealedName, nullable=True))
    return Field(sa_column=Column(SealedName, nullable=False))


def _marked(kind: Mark, *, primary_key: bool = False) -> Any:
    return Field(sa_column=Column(Marked(kind), nullable=False, primary_key=primary_key))


def _waiting(name: str, *columns: str, known: str = "") -> Index:
    """Return an index on the messages that wait, or on those of them where a column is known."""
    which = text("fate = 'waiting'" + (f" AND {known} IS NOT NULL" if known else ""))
    return Index(name, *columns, sqlite_where=which, postgresql_where=which)


class ConversationRow(SQLModel, table=True):
    """One person's conversation as it stands, and how it began."""

    __tablename__ = "conversation"
    __table_args__ = (UniqueConstraint("address_mark", name="uq_conversation_address"),)

    id: str = Field(primary_key=True)
    address_mark: str = _marked(Mark.ADDRESS)
    address: str = _sealed(added=True)
    began_at: datetime = _instant()
    beginning: str = _sealed()
    revision: int
    wake_at: datetime | None = _instant(nullable=True, index=True)
    state: str = _sealed()
    forgotten: bool = Field(
        default=False, sa_column=Column(Boolean, nullable=False, server_default=false())
    )


class InboxRow(SQLModel, table=True):
    """An arrival that was taken; the key makes it once only."""

    __tablename__ = "inbox"

    key: str = _marked(Mark.ARRIVAL, primary_key=True)
    taken_at: datetime = _instant()


class EventRow(SQLModel, table=True):
    """One event of a conversation, in order."""

    __tablename__ = "event"

    conversation_id: str = Field(primary_key=True, foreign_key="conversation.id")
    position: int = Field(primary_key=True)
    at: datetime = _instant()
    event: str = _sealed()


class OutboxRow(SQLModel, table=True):
    """One message to send, or sent."""

    __tablename__ = "outbox"
    __table_args__ = (
        Index("uq_outbox_conversation_number", "conversation_id", "number", unique=True),
        Index(
            "ix_outbox_waiting",
            "urgency",
            "id",
            sqlite_where=text("fate = 'waiting'"),
            postgresql_where=text("fate = 'waiting'"),
        ),
        _waiting("ix_outbox_heads", "conversation_id", "id"),
        _waiting("ix_outbox_until", "until_at", known="until_at"),
        _waiting("ix_outbox_later", "not_before_at", known="not_before_at"),
    )

    id: int | None = Field(default=None, sa_column=Column(Integer, primary_key=True))
    conversation_id: str = Field(foreign_key="conversation.id")
    number: int
    urgency: int
    locale: str
    effect: str = _sealed()
    target: int | None = None
    until_at: datetime | None = _instant(nullable=True)
    fate: str
    attempts: int = 0
    not_before_at: datetime | None = _instant(nullable=True)
    leased_until_at: datetime | None = _instant(nullable=True)
    ref: str | None = _sealed_name(nullable=True)
    settled_at: datetime | None = _instant(nullable=True)


class InvitationRow(SQLModel, table=True):
    """An invitation of the clinic. The reference is opaque: never a name."""

    __tablename__ = "invitation"
    __table_args__ = (UniqueConstraint("reference_mark", name="uq_invitation_reference"),)

    code_mark: str = _marked(Mark.CODE, primary_key=True)
    code: str = _sealed(added=True)
    reference_mark: str = _marked(Mark.REFERENCE)
    reference: str = _sealed(added=True)
    protocol: str | None = None
    language: str | None = None
    made_at: datetime = _instant()
    expires_at: datetime = _instant()
    conversation_id: str | None = None
    note: str | None = _sealed_name(nullable=True)
    made_by: int | None = None
    opened_at: datetime | None = _instant(nullable=True)
    revoked_at: datetime | None = _instant(nullable=True)


class CompanionLinkRow(SQLModel, table=True):
    """A link by which somebody can become a person's companion, once."""

    __tablename__ = "companion_link"

    code_mark: str = _marked(Mark.CODE, primary_key=True)
    code: str = _sealed(added=True)
    of: str = Field(sa_column=Column(String, nullable=False, index=True))
    share: str
    made_at: datetime = _instant()
    expires_at: datetime = _instant()
    opened_by: str | None = None
    taken_at: datetime | None = _instant(nullable=True)


class ResultRow(SQLModel, table=True):
    """A test that has ended, in its latest form."""

    __tablename__ = "result"

    conversation_id: str = Field(primary_key=True, foreign_key="conversation.id")
    test_number: int = Field(primary_key=True)
    revision: int
    record: str = _sealed()


class MemberRow(SQLModel, table=True):
    """Somebody of the care team, or a room of theirs; those who have gone stay for the log."""

    __tablename__ = "member"
    __table_args__ = (
        Index(
            "uq_member_present",
            "conversation_id",
            unique=True,
            sqlite_where=text("removed_at IS NULL"),
            postgresql_where=text("removed_at IS NULL"),
        ),
    )

    number: int | None = Field(default=None, sa_column=Column(Integer, primary_key=True))
    conversation_id: str = Field(sa_column=Column(String, nullable=False))
    role: str
    label: str = _sealed_name()
    joined_at: datetime = _instant()
    added_by: int | None = None
    room: bool = False
    on_duty: bool = False
    removed_at: datetime | None = _instant(nullable=True)
    asked: str | None = None
    digest: bool | None = None
    digest_at: datetime | None = _instant(nullable=True, index=True)


class MemberCodeRow(SQLModel, table=True):
    """What a code for the team stands for. Of the code itself only its digest is kept."""

    __tablename__ = "member_code"

    digest: str = Field(primary_key=True)
    role: str
    label: str = _sealed_name()
    made_at: datetime = _instant()
    made_by: int | None = None
    expires_at: datetime = _instant()
    used_at: datetime | None = _instant(nullable=True)


class WrongCodeRow(SQLModel, table=True):
    """A code that was no good, so that nobody can try many; kept for as long as that counts."""

    __tablename__ = "wrong_code"
    __table_args__ = (Index("ix_wrong_code_address", "address_mark"),)

    id: int | None = Field(default=None, sa_column=Column(Integer, primary_key=True))
    address_mark: str = _marked(Mark.ADDRESS)
    address: str = _sealed()
    at: datetime = _instant()


class ItemRow(SQLModel, table=True):
    """One thing in the team's inbox."""

    __tablename__ = "item"
    __table_args__ = (
        Index(
            "uq_item_open",
            "person",
            "test",
            unique=True,
            sqlite_where=text("closed_at IS NULL"),
            postgresql_where=text("closed_at IS NULL"),
        ),
    )

    number: int | None = Field(default=None, sa_column=Column(Integer, primary_key=True))
    person: str = Field(sa_column=Column(String, nullable=False, index=True))
    test: int
    revision: int
    taken_by: int | None = None
    closed_at: datetime | None = _instant(nullable=True)
    wake_at: datetime | None = _instant(nullable=True, index=True)
    state: str = _sealed()


class AuditRow(SQLModel, table=True):
    """One line of the audit log. It is only ever added to: the database refuses all else.

    Only its detail can be sealed anew, as new keys need it.
    """

    __tablename__ = "audit"

    id: int | None = Field(default=None, sa_column=Column(Integer, primary_key=True))
    at: datetime = _instant()
    who: int
    did: str
    person: str | None = Field(default=None, index=True)
    item: int | None = None
    detail: str | None = _sealed_name(nullable=True)


class MarkKeyRow(SQLModel, table=True):
    """A key that marks are made with, itself sealed."""

    __tablename__ = "mark_key"

    kind: str = Field(primary_key=True)
    key: str = Field(sa_column=Column(Text, nullable=False))


class LeadRow(SQLModel, table=True):
    """How often the lead was taken: who took it earlier claims nothing more."""

    __tablename__ = "lead"

    name: str = Field(primary_key=True)
    epoch: int = Field(sa_column=Column(BigInteger, nullable=False))
