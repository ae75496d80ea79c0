"""Where people stand, once more: from the event log and the audit log alone.

Nothing of the board's own arithmetic is used, nor how a conversation stands: every history is
played again, and what it made the program do (kept tests, calendar files, results sent) is counted,
with what the audit log says of the team. Before they agree nothing of people is logged, so that
they were invited and have opened is taken from the invitations.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from bot.engine.context import Context
from bot.engine.effects import Effect, HandCalendar, Keep, Say
from bot.engine.events import Blocked, DeliveryFailed, Event
from bot.engine.machine import advance
from bot.engine.team import PersonClosed, RepeatAsked, Submit, TakeBack
from bot.runtime.care_ports import Logged
from bot.store.sql import SqlStore
from bot.store.statements import CONVERSATION, INVITATION, MEMBER

PLACES = (
    "invited", "opened", "consented", "booked", "first-test", "second-test", "sent", "seen",
    "followed-up",
)  # fmt: skip


_OVER = frozenset({"booking.missed", "reminder.offer"})
"""What is said when a booking is past and over."""


@dataclass(slots=True)
class Tally:
    """What one history has come to so far."""

    consented: datetime | None = None
    booked: datetime | None = None
    done: datetime | None = None
    tests: dict[int, datetime] | None = None
    submitted: tuple[int, ...] = ()
    shared: frozenset[int] = frozenset()


Steps = dict[str, datetime | None]

_THEIR_OWN = frozenset({
    "Opened", "Invited", "WordsGiven", "WordsEdited", "WordsBeside", "ChoiceTapped", "ThingSent",
    "LinkOpened", "Unblocked",
})  # fmt: skip
"""What only somebody does whose chat takes messages."""


def blocked(store: SqlStore) -> dict[str, datetime]:
    """Return who has blocked the bot and since when we know it, by conversation."""
    found: dict[str, datetime] = {}
    for conversation in store.conversations():
        since: datetime | None = None
        for event in store.history(conversation.id).events:
            refused = isinstance(event, DeliveryFailed) and event.failure == "blocked"
            if refused or isinstance(event, Blocked):
                since = since or event.at
            elif type(event).__name__ in _THEIR_OWN:
                since = None
        if since is not None:
            found[conversation.id] = since
    return found


def recounted(store: SqlStore, context: Context) -> dict[str, tuple[str, datetime]]:
    """Return where everybody stands and since when, by reference."""
    with store.engine.begin() as connection:
        invitations = connection.execute(
            select(
                INVITATION.c.reference,
                INVITATION.c.made_at,
                INVITATION.c.opened_at,
                INVITATION.c.conversation_id,
                INVITATION.c.revoked_at,
            )
        ).all()
        began = dict(connection.execute(select(CONVERSATION.c.id, CONVERSATION.c.began_at)).all())
        members = set(connection.execute(select(MEMBER.c.conversation_id)).scalars())
    with store.unit() as unit:
        log = unit.care.log()
    invited = {row.conversation_id: row for row in invitations if row.conversation_id}
    found = {
        row.reference: ("invited", row.made_at)
        for row in invitations
        if row.opened_at is None and row.revoked_at is None
    }
    for conversation in store.conversations():
        name = conversation.id
        invitation = invited.get(name)
        tally = _played(store, context, name)
        if name in members or (tally.consented is None and invitation is None):
            continue
        steps: Steps = {}
        if invitation is not None:
            steps["invited"] = invitation.made_at
        steps["opened"] = began[name]
        steps |= _steps(tally, [line for line in log if line.audit.person == name])
        reference = name[:8] if invitation is None else invitation.reference
        found[reference] = ("done", tally.done) if tally.done else _last(steps)
    return found


def _last(steps: Steps) -> tuple[str, datetime]:
    at: tuple[str, datetime] | None = None
    for place in PLACES:
        if place not in steps:
            continue
        since = steps[place]
        if since is None:
            break
        at = (place, since)
    assert at is not None
    return at


def _steps(tally: Tally, log: list[Logged]) -> Steps:
    tests = sorted((tally.tests or {}).items())
    first = tests[0][1] if tests else None
    steps: Steps = {
        "consented": tally.consented,
        "booked": tally.booked or first,
        "first-test": first,
        "second-test": tests[1][1] if len(tests) > 1 else None,
        "sent": None,
        "seen": None,
        "followed-up": None,
    }
    if not tests or tests[-1][0] not in tally.shared:
        return steps
    sent = [line.audit.item for line in log if line.audit.did == "result-sent"]
    number = sent[len(tally.submitted) - 1 - tally.submitted[::-1].index(tests[-1][0])]
    for line in log:
        if line.audit.item != number:
            continue
        match line.audit.did.value:
            case "result-sent" | "alarm-raised":
                steps["sent"] = steps["sent"] or line.at
            case "took-item" | "handed-over-item":
                steps["seen"] = line.at
            case "let-go-item":
                steps["seen"] = None
            case "closed-item":
                steps["seen"] = steps["seen"] or line.at
                steps["followed-up"] = line.at
            case _:
                pass
    return steps


def _played(store: SqlStore, context: Context, name: str) -> Tally:
    history = store.history(name)
    conversation = history.beginning
    profile = conversation.profile
    before = {test.number: test.began_at for test in profile.tests if test.measured}
    tally = Tally(consented=profile.consented_at, tests=before)
    for event in history.events:
        transition = advance(context, conversation, event)
        conversation = transition.conversation
        _count(tally, event, transition.effects)
    tally.consented = conversation.profile.consented_at  # of companions, later than it begins
    return tally


def _count(tally: Tally, event: Event, effects: tuple[Effect, ...]) -> None:
    if isinstance(event, RepeatAsked):
        tally.done = None
    for effect in effects:
        match effect:
            case HandCalendar(cancelled=True):
                tally.booked = None
            case HandCalendar(booking=booking):
                tally.booked, tally.done = booking.booked_at, None
            case Keep(record=record) if record.readings and tally.tests is not None:
                tally.tests[record.number] = record.began_at
                tally.booked = None
            case Submit(test=test):
                tally.submitted = (*tally.submitted, test)
                tally.shared |= {test}
            case TakeBack():
                tally.shared = frozenset()
            case Say() if not _OVER.isdisjoint(_keys(effect)):
                tally.booked = None
            case _:
                pass
    if isinstance(event, PersonClosed):
        tally.done, tally.booked = event.at, None


def _keys(said: Say) -> Iterator[str]:
    for paragraph in said.parts:
        yield paragraph.key
