"""The kinds of columns: instants, sealed text, and marks to find it by."""

from datetime import UTC, datetime, timedelta
from typing import Final

from sqlalchemy import BigInteger, Dialect, String, Text
from sqlalchemy.types import TypeDecorator

from bot.store.vault import Mark, vault_of

_BEGAN: Final = datetime(1970, 1, 1, tzinfo=UTC)


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
        whole = value - _BEGAN
        return (whole.days * 86400 + whole.seconds) * 1_000_000 + whole.microseconds

    def process_result_value(self, value: int | None, dialect: Dialect) -> datetime | None:
        """Return the aware instant."""
        return None if value is None else _BEGAN + timedelta(microseconds=value)


class _Sealing(TypeDecorator[str]):
    """A text that is sealed on its way in and opened on its way out. It cannot be looked up."""

    impl: type[String] = String
    cache_ok = True

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        """Return the sealed text."""
        return None if value is None else vault_of(dialect).seal(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> str | None:
        """Return the text.

        Raises:
            DatabaseError: None of the keys opens it.
        """
        return None if value is None else vault_of(dialect).unseal(value)


class Sealed(_Sealing):
    """A long text that is sealed."""

    impl = Text
    cache_ok = True


class SealedName(_Sealing):
    """A short text that is sealed."""

    impl = String
    cache_ok = True


class Marked(TypeDecorator[str]):
    """The mark of a text: what goes in is the text, what comes out is its mark."""

    impl = String
    cache_ok = True

    def __init__(self, kind: Mark) -> None:
        super().__init__()
        self.kind = kind

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        """Return the mark."""
        return None if value is None else vault_of(dialect).mark(self.kind, value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> str | None:
        """Return the mark as it stands."""
        return value
