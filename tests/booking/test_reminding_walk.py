"""Booking, moving, calling off, travelling, and being away: which reminders arrive.

A small driver does what the program does: it sleeps until `next_at`, sends what is `due`, and
remembers which kinds went out. What should arrive is worked out apart from it.
"""

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, time, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.booking.plan import (
    Booking,
    Quiet,
    ReminderKind,
    ReminderTimes,
    carried,
    due,
    next_at,
    plan,
)
from tests.booking.changes import shown

TIMES = ReminderTimes()
QUIET = Quiet()
MINUTE = timedelta(minutes=1)
HOUR = timedelta(hours=1)
DAY = timedelta(days=1)
ORDER = list(ReminderKind)
ZONES = [
    "Europe/Madrid",
    "America/New_York",
    "America/Santiago",
    "Australia/Lord_Howe",
    "Pacific/Kiritimati",
    "Asia/Kolkata",
]


@dataclass(frozen=True, kw_only=True)
class Arrival:
    """A reminder that reached the person."""

    at: datetime
    kind: ReminderKind
    booking: Booking


@dataclass(kw_only=True)
class Epoch:
    """A time during which the booking stayed as it was.

    Attributes:
        booking: The booking.
        said: What had been said of the booking before, at whatever time it stood for.
        travelled: Whether only the zone is new.
        since: When it began.
        until: When it ended.
        always_up: Whether the program ran all through it.
    """

    booking: Booking
    said: frozenset[ReminderKind]
    travelled: bool
    since: datetime
    until: datetime
    always_up: bool = True


@dataclass(kw_only=True)
class Driver:
    """Sleeps until the next reminder, sends it, and sleeps again."""

    now: datetime
    booking: Booking | None = None
    sent: frozenset[ReminderKind] = frozenset()
    arrivals: list[Arrival] = field(default_factory=list)
    epochs: list[Epoch] = field(default_factory=list)

    def change(
        self, booking: Booking | None, sent: frozenset[ReminderKind], *, travelled: bool = False
    ) -> None:
        """Let another booking stand, or none."""
        said = self.sent
        self.booking, self.sent = booking, sent
        if booking is not None:
            self.epochs.append(
                Epoch(
                    booking=booking,
                    said=said,
                    travelled=travelled,
                    since=self.now,
                    until=self.now,
                )
            )
        self.wake()

    def wake(self) -> datetime | None:
        """Send what is due; return when to wake next."""
        if self.booking is None:
            return None
        reminders = plan(self.booking, TIMES, QUIET)
        reminder = due(reminders, self.sent, self.now)
        if reminder is not None:
            self.arrivals.append(Arrival(at=self.now, kind=reminder.kind, booking=self.booking))
            self.sent |= {reminder.kind}
        following = next_at(reminders, self.sent, self.now)
        assert following is None or following > self.now
        return following

    def run_until(self, then: datetime) -> None:
        """Let time pass with the program up."""
        following = self.wake()
        while following is not None and following <= then:
            self.now = following
            following = self.wake()
        self._at(then)

    def be_down_until(self, then: datetime) -> None:
        """Let time pass with the program down; it looks as soon as it is back."""
        if self.booking is not None:
            self.epochs[-1].always_up = False
        self._at(then)
        self.wake()

    def _at(self, then: datetime) -> None:
        self.now = then
        if self.booking is not None:
            self.epochs[-1].until = then


@st.composite
def steps(draw: st.DrawFn) -> tuple[str, timedelta, str]:
    """Draw something that happens, how long after the step before, and a zone."""
    what = draw(
        st.sampled_from(["book", "book", "move", "move", "cancel", "travel", "wait", "down"])
    )
    minutes = draw(st.one_of(st.integers(0, 300), st.integers(0, 60 * 24 * 4)))
    return what, minutes * MINUTE, draw(st.sampled_from(ZONES))


LEADS = st.one_of(st.integers(1, 300), st.integers(1, 60 * 24 * 6)).map(lambda m: m * MINUTE)


@settings(max_examples=200, deadline=None)
@given(
    st.lists(st.tuples(steps(), LEADS), min_size=1, max_size=12),
    st.sampled_from([datetime(2027, 3, 10, 8, tzinfo=UTC), datetime(2027, 10, 28, 20, tzinfo=UTC)]),
)
def test_exactly_the_due_reminders_arrive(
    walk: list[tuple[tuple[str, timedelta, str], timedelta]], start: datetime
) -> None:
    """Whatever happens: the due reminders, once each, none stale, none in quiet hours."""
    driver = Driver(now=start)
    number = 0
    for (what, wait, zone), lead in walk:
        booking = driver.booking
        if what == "down":
            driver.be_down_until(driver.now + wait)
            continue
        driver.run_until(driver.now + wait)
        if what == "cancel":
            driver.change(None, frozenset())
        elif what == "book" and booking is None:
            number += 1
            driver.change(
                Booking(number=number, at=driver.now + lead, zone=zone, booked_at=driver.now),
                frozenset(),
            )
        elif what == "move" and booking is not None:
            moved = replace(
                booking,
                at=driver.now + lead,
                booked_at=driver.now,
                sequence=booking.sequence + 1,
            )
            driver.change(moved, carried(plan(moved, TIMES, QUIET), driver.sent))
        elif what == "travel" and booking is not None:
            there = replace(booking, zone=zone, sequence=booking.sequence + 1)
            driver.change(there, driver.sent, travelled=True)
    driver.run_until(driver.now + 20 * DAY)

    for arrival in driver.arrivals:
        _check_fresh(arrival)
    for epoch in driver.epochs:
        _check_complete(epoch, [a for a in driver.arrivals if a.booking == epoch.booking])
    told = [(a.booking.number, a.booking.sequence, a.kind) for a in driver.arrivals]
    assert len(told) == len(set(told))


def _check_fresh(arrival: Arrival) -> None:
    """A reminder says what holds when it arrives, and does not disturb the night."""
    booking = arrival.booking
    to_go = booking.at - arrival.at
    match arrival.kind:
        case ReminderKind.DAY_BEFORE | ReminderKind.HOURS_BEFORE:
            assert to_go > 15 * MINUTE
        case ReminderKind.SOON:
            assert timedelta() < to_go <= 15 * MINUTE
        case ReminderKind.FOLLOW_UP:
            assert -3 * HOUR < to_go <= -30 * MINUTE
        case ReminderKind.OFFER:
            assert to_go <= -3 * HOUR
    clock = shown(arrival.at, booking.zone).time()
    quiet = clock >= time(21, 30) or clock < time(7, 30)
    answers = arrival.at == booking.booked_at
    assert not quiet or answers or arrival.kind is ReminderKind.SOON


def _check_complete(epoch: Epoch, arrivals: list[Arrival]) -> None:
    """With the program up, each reminder arrives at its instant, and nothing else does."""
    if not epoch.always_up:
        return
    reminders = plan(epoch.booking, TIMES, QUIET)
    arrived = [(arrival.kind, arrival.at) for arrival in arrivals]
    expected = [(r.kind, r.at) for r in reminders if epoch.since <= r.at <= epoch.until]
    if not epoch.travelled:
        # Nothing is said again at once, and all that has a time of its own comes at that time.
        again = [(r.kind, r.at) for r in reminders if r.at_once and r.kind in epoch.said]
        assert arrived == [one for one in expected if one not in again]
        return
    latest = max((ORDER.index(kind) for kind in epoch.said), default=-1)
    # On another clock, one may be due that was due earlier there.
    caught_up = [(kind, at) for kind, at in arrived if (kind, at) not in expected]
    assert [one for one in arrived if one not in caught_up] == [
        (kind, at) for kind, at in expected if ORDER.index(kind) > latest
    ]
    assert len(caught_up) <= 1
    for kind, _ in caught_up:
        assert any(r.kind is kind and r.at < epoch.since for r in reminders)
