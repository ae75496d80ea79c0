"""Whose tests, and which: those that were sent, of the people and days that were asked for."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from bot.care.sent import sent_tests
from bot.engine.state import Conversation
from bot.protocol.record import TestRecord
from bot.reports import known_as
from bot.runtime.ports import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is asked for.

    Attributes:
        references: Of people, or the short numbers by which the team knows them; empty for all.
        since: The first day on which a test may have begun; `None` for any.
        until: The last such day.
        zone: Where these days are, an IANA name.
    """

    references: tuple[str, ...] = ()
    since: date | None = None
    until: date | None = None
    zone: str = "UTC"

    def among(self, record: TestRecord) -> bool:
        """Whether a test began on one of the days."""
        day = record.began_at.astimezone(ZoneInfo(self.zone)).date()
        begun = self.since is None or self.since <= day
        return begun and (self.until is None or day <= self.until)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sent:
    """A person with what goes out of theirs.

    Attributes:
        id: The conversation.
        name: What the person is known as; opaque.
        records: Their tests, the oldest first; at least one.
    """

    id: str
    name: str
    records: tuple[TestRecord, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """What was found.

    Attributes:
        people: Those with something to go out, by what they are known as.
        unknown: References that nobody has.
        empty: References of people of whom nothing may go out, or nothing of those days.
    """

    people: tuple[Sent, ...]
    unknown: tuple[str, ...] = ()
    empty: tuple[str, ...] = ()


def gather(store: Store, wanted: Wanted) -> Chosen:
    """Return what may go out of what is asked for.

    Raises:
        DatabaseError: The database cannot be used.
    """
    asked = {reference: store.find(reference) for reference in wanted.references}
    ids = set(asked.values())
    people = tuple(
        sorted(
            _sent(store, wanted, (c for c in store.conversations() if not asked or c.id in ids)),
            key=lambda sent: (sent.name, sent.id),
        )
    )
    found = {sent.id for sent in people}
    return Chosen(
        people=people,
        unknown=tuple(r for r, person in asked.items() if person is None),
        empty=tuple(r for r, person in asked.items() if person not in {None, *found}),
    )


def _sent(store: Store, wanted: Wanted, people: Iterator[Conversation]) -> Iterator[Sent]:
    for person in people:
        sent = set(sent_tests(person))
        kept = store.results(person.id) if sent else ()
        records = tuple(r for r in kept if r.number in sent and wanted.among(r))
        if records:
            yield Sent(id=person.id, name=known_as(person), records=records)
