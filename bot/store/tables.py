"""The tables. Rows are dumb: no validation, no relationships; the codec gives them meaning."""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    Dialect,
    Index,
    Integer,
    String,
    Text,
    false,
    text,
)
from sqlalchemy.types import TypeDecorator
from sqlmodel import Field, SQLModel

NAMES = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}
SQLModel.metadata.naming_convention = NAMES


class Instant(TypeDecorator[datetime]):
    """An aware instant, kept as whole microseconds since 1970 in UTC: exact, sorts everywhere."""

    impl = BigInteger
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> int | None:
        """Return the microseconds; refuses an instant without a zone."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("an instant without a zone cannot be stored")
        whole = value.astimezone(UTC) - datetime(1970, 1, 1, tzinfo=UTC)
        return (whole.days * 86400 + whole.seconds) * 1_000_000 + whole.microseconds

    def process_result_value(self, value: int | None, dialect: Dialect) -> datetime | None:
        """Return the aware instant."""
        if value is None:
            return None
        seconds, microseconds = divmod(value, 1_000_000)
        return datetime.fromtimestamp(seconds, UTC).replace(microsecond=microseconds)


def _instant(*, nullable: bool = False, index: bool = False) -> Any:
    return Field(sa_column=Column(Instant, nullable=nullable, index=index))


def _text() -> Any:
    return Field(sa_column=Column(Text, nullable=False))


class ConversationRow(SQLModel, table=True):
    """One person's conversation as it stands, and how it began."""

    __tablename__ = "conversation"

    id: str = Field(primary_key=True)
    address: str = Field(sa_column=Column(String, nullable=False, unique=True))
    began_at: datetime = _instant()
    beginning: str = _text()
    revision: int
    wake_at: datetime | None = _instant(nullable=True, index=True)
    state: str = _text()
    forgotten: bool = Field(
        default=False, sa_column=Column(Boolean, nullable=False, server_default=false())
    )


class InboxRow(SQLModel, table=True):
    """An arrival that was taken; the key makes it once only."""

    __tablename__ = "inbox"

    key: str = Field(primary_key=True)
    taken_at: datetime = _instant()


class EventRow(SQLModel, table=True):
    """One event of a conversation, in order."""

    __tablename__ = "event"

    conversation_id: str = Field(primary_key=True, foreign_key="conversation.id")
    position: int = Field(primary_key=True)
    at: datetime = _instant()
    event: str = _text()


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
    )

    id: int | None = Field(default=None, sa_column=Column(Integer, primary_key=True))
    conversation_id: str = Field(foreign_key="conversation.id")
    number: int
    urgency: int
    locale: str
    effect: str = _text()
    target: int | None = None
    until_at: datetime | None = _instant(nullable=True)
    fate: str
    attempts: int = 0
    not_before_at: datetime | None = _instant(nullable=True)
    leased_until_at: datetime | None = _instant(nullable=True)
    ref: str | None = None
    settled_at: datetime | None = _instant(nullable=True)


class InvitationRow(SQLModel, table=True):
    """An invitation of the clinic. The reference is opaque: never a name."""

    __tablename__ = "invitation"

    code: str = Field(primary_key=True)
    reference: str = Field(sa_column=Column(String, nullable=False, unique=True))
    protocol: str | None = None
    language: str | None = None
    made_at: datetime = _instant()
    expires_at: datetime = _instant()
    conversation_id: str | None = None


class CompanionLinkRow(SQLModel, table=True):
    """A link by which somebody can become a person's companion, once."""

    __tablename__ = "companion_link"

    code: str = Field(primary_key=True)
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
    record: str = _text()


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
    label: str
    joined_at: datetime = _instant()
    added_by: int | None = None
    room: bool = False
    on_duty: bool = False
    removed_at: datetime | None = _instant(nullable=True)
    asked: str | None = None


class MemberCodeRow(SQLModel, table=True):
    """What a code for the team stands for. Of the code itself only its digest is kept."""

    __tablename__ = "member_code"

    digest: str = Field(primary_key=True)
    role: str
    label: str
    made_at: datetime = _instant()
    made_by: int | None = None
    expires_at: datetime = _instant()
    used_at: datetime | None = _instant(nullable=True)


class WrongCodeRow(SQLModel, table=True):
    """A code that was no good, so that nobody can try many; kept for as long as that counts."""

    __tablename__ = "wrong_code"
    __table_args__ = (Index("ix_wrong_code_address", "address"),)

    id: int | None = Field(default=None, sa_column=Column(Integer, primary_key=True))
    address: str = Field(sa_column=Column(String, nullable=False))
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
    state: str = _text()


class AuditRow(SQLModel, table=True):
    """One line of the audit log. It is only ever added to: the database refuses all else."""

    __tablename__ = "audit"

    id: int | None = Field(default=None, sa_column=Column(Integer, primary_key=True))
    at: datetime = _instant()
    who: int
    did: str
    person: str | None = None
    item: int | None = None
    detail: str | None = None
