"""Statements of the hot path: put together once for a database, then run straight on its driver.

SQLAlchemy's Core says what they are and how values go in and come out; going through its
`execute` each time costs several times what the database itself takes.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from weakref import WeakKeyDictionary

from sqlalchemy import Connection, Dialect
from sqlalchemy.exc import DBAPIError
from sqlalchemy.sql import ClauseElement

_Processor = Callable[[Any], Any]
Row = Mapping[str, Any]
"""A row by its columns' names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Compiled:
    """A statement as one database takes it.

    Attributes:
        sql: The words.
        binds: What goes in, in order: name, and what makes the driver's value of it.
        fixed: What is always the same, by name.
        by_place: Whether the driver wants the values in order, and not by name.
        columns: What comes out: name and what makes our value of it.
    """

    sql: str
    binds: tuple[tuple[str, _Processor | None], ...]
    fixed: Mapping[str, Any]
    by_place: bool
    columns: tuple[tuple[str, _Processor | None], ...]

    def bound(self, values: Mapping[str, Any]) -> Any:
        """Return what the driver is given."""
        if self.fixed:
            values = {**values, **self.fixed}
        if self.by_place:
            return [p(values[name]) if p else values[name] for name, p in self.binds]
        return {name: p(values[name]) if p else values[name] for name, p in self.binds}

    def row(self, found: Sequence[Any]) -> Row:
        """Return a row by its columns' names."""
        return {
            name: p(value) if p else value
            for (name, p), value in zip(self.columns, found, strict=True)
        }


class Prepared:
    """A Core statement, run on a connection inside the transaction that is open on it."""

    def __init__(self, statement: ClauseElement | Mapping[str, ClauseElement], *given: str) -> None:
        """Take a statement.

        Args:
            statement: The same for every database, or one for each, by the dialect's name.
            given: The columns of an `insert`, if not all of them are given.
        """
        self._statement = statement
        self._given = list(given) or None
        self._compiled: WeakKeyDictionary[Dialect, _Compiled] = WeakKeyDictionary()

    def change(self, db: Connection, values: Mapping[str, Any]) -> int:
        """Run it and return how many rows it changed."""
        compiled = self._for(db.dialect)
        count: int = self._run(db, compiled, compiled.bound(values)).rowcount
        return count

    def change_each(self, db: Connection, rows: Iterable[Mapping[str, Any]]) -> None:
        """Run it once for each of some rows of values."""
        compiled = self._for(db.dialect)
        for values in rows:
            self._run(db, compiled, compiled.bound(values))

    def first(self, db: Connection, values: Mapping[str, Any] | None = None) -> Row | None:
        """Run it and return the first row, if there is one."""
        compiled = self._for(db.dialect)
        found = self._run(db, compiled, compiled.bound(values or {})).fetchone()
        return None if found is None else compiled.row(found)

    def all(self, db: Connection, values: Mapping[str, Any] | None = None) -> list[Row]:
        """Run it and return all rows."""
        compiled = self._for(db.dialect)
        rows = self._run(db, compiled, compiled.bound(values or {})).fetchall()
        return [compiled.row(found) for found in rows]

    def run(self, db: Connection) -> None:
        """Run what takes nothing and gives nothing."""
        self._run(db, self._for(db.dialect), ())

    def _run(self, db: Connection, compiled: _Compiled, values: Any) -> Any:
        """Run it on the driver; its faults are told as SQLAlchemy tells them.

        Raises:
            DBAPIError: The database would not.
        """
        dialect = db.dialect
        cursor = db.connection.cursor()
        try:
            cursor.execute(compiled.sql, values)
        except dialect.loaded_dbapi.Error as error:
            gone = dialect.is_disconnect(error, db.connection.dbapi_connection, cursor)
            if gone:
                db.invalidate(error)
            raise DBAPIError.instance(
                compiled.sql,
                None,  # what was given may be somebody's words
                error,
                dialect.loaded_dbapi.Error,
                hide_parameters=True,
                connection_invalidated=gone,
                dialect=dialect,
            ) from error
        return cursor

    def _for(self, dialect: Dialect) -> _Compiled:
        compiled = self._compiled.get(dialect)
        if compiled is None:
            compiled = self._compiled[dialect] = self._compile(dialect)
        return compiled

    def _compile(self, dialect: Dialect) -> _Compiled:
        chosen = self._statement
        statement = chosen[dialect.name] if isinstance(chosen, Mapping) else chosen
        compiled: Any = statement.compile(dialect=dialect, column_keys=self._given)
        binds = {
            name: bind.type.dialect_impl(dialect).bind_processor(dialect)
            for name, bind in compiled.binds.items()
        }
        fixed = {name: bind.value for name, bind in compiled.binds.items() if not bind.required}
        order: Iterable[str] = (compiled.positiontup or ()) if compiled.positional else binds
        selected = getattr(statement, "selected_columns", ())
        return _Compiled(
            sql=str(compiled),
            binds=tuple((name, binds[name]) for name in order),
            fixed=fixed,
            by_place=compiled.positional,
            columns=tuple(
                (column.name, column.type.dialect_impl(dialect).result_processor(dialect, None))
                for column in selected
            ),
        )
