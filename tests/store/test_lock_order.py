"""Units that reach several people lock them in one order, so that none waits for another."""

from sqlalchemy import event as sql_event

from bot.store.sql import SqlStore
from tests.companions.people import Town, link
from tests.store.looking import empty


def test_locks_are_taken_in_the_order_of_ids(on_postgres: SqlStore) -> None:
    """A unit locks a person and all linked with them by their ids, whoever it is for.

    On PostgreSQL: SQLite locks the whole database, and needs no order.
    """
    store = on_postgres
    town = Town(store)
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "all")
    locked: list[list[str]] = []

    def seen(
        _c: object, _cursor: object, statement: str, parameters: dict[str, str], *_: object
    ) -> None:
        if "ORDER BY conversation.id" in statement:
            locked.append(list(parameters.values()))

    ids = sorted((ana.conversation.id, bea.conversation.id))
    sql_event.listen(store.engine, "before_cursor_execute", seen)
    try:
        with store.unit() as unit:
            for name in (ana.address, *reversed(ids), "nobody"):
                unit.hold(name)
    finally:
        sql_event.remove(store.engine, "before_cursor_execute", seen)
        empty(store)
    assert locked == [ids, ids, ids]
