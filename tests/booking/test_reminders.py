"""When reminders are due: over every change of the clocks, in quiet hours, and booked late."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.booking.plan import (
    Booking,
    Quiet,
    Reminder,
    ReminderKind,
    ReminderTimes,
    carried,
    due,
    next_at,
    plan,
)
from tests.booking.changes import SINCE, UNTIL, changes, shown

TIMES = ReminderTimes()
QUIET = Quiet()
MINUTE = timedelta(minutes=1)
HOUR = timedelta(hours=1)
DAY = timedelta(days=1)
ORDER = list(ReminderKind)
DAY_BEFORE, HOURS_BEFORE, SOON, FOLLOW_UP, OFFER = ORDER


def quiet_by_clock(clock: time, quiet: Quiet = QUIET) -> bool:
    """Return whether a clock time is quiet, by looking at the clock alone."""
    if quiet.starts <= quiet.ends:
        return quiet.starts <= clock < quiet.ends
    return clock >= quiet.starts or clock < quiet.ends


def utc(text: str, zone: str = "Europe/Madrid") -> datetime:
    """Return the instant of a local time."""
    return datetime.fromisoformat(text).replace(tzinfo=ZoneInfo(zone)).astimezone(UTC)


def local_times(reminders: tuple[Reminder, ...], zone: str = "Europe/Madrid") -> dict[str, str]:
    """Return when reminders come, by kind, on the person's clock; "at once" for answers."""
    return {r.kind: "at once" if r.at_once else f"{shown(r.at, zone):%d %H:%M}" for r in reminders}


def planned(at: str, booked_at: str, quiet: Quiet = QUIET) -> dict[str, str]:
    """Return the plan for a test in Madrid, in local times."""
    booking = Booking(number=1, at=utc(at), zone="Europe/Madrid", booked_at=utc(booked_at))
    return local_times(plan(booking, TIMES, quiet))


# -- the table over every zone that changes its clocks


def bookings_around(zone: str, *, all_of_them: bool) -> Iterator[Booking]:
    """Yield bookings before, at and after each change of a zone, booked long ahead."""
    for change in changes()[zone]:
        ats = [change + shift for shift in (-HOUR, -MINUTE, timedelta(), HOUR)]
        today = shown(change, zone).date()
        for days in (-1, 0, 1) if all_of_them else (0,):
            for clock in (time(6, 40), time(9), time(14), time(21, 40)):
                local = datetime.combine(today + days * DAY, clock)
                ats.append(local.replace(tzinfo=ZoneInfo(zone)).astimezone(UTC))
        for at in ats if all_of_them else ats[-4:]:
            yield Booking(number=1, at=at, zone=zone, booked_at=at - 10 * DAY)


def last_evening(local: datetime) -> datetime:
    """Return the last minute before the quiet hours that a quiet local time is in."""
    evening = local.date() if local.time() >= QUIET.starts else local.date() - DAY
    return datetime.combine(evening, QUIET.starts) - MINUTE


def test_reminders_are_right_around_every_change() -> None:
    """For bookings around each change of each zone: right local times, in order, none quiet."""
    tables = 0
    seen: set[tuple[tuple[datetime, datetime], ...]] = set()
    for zone, instants in changes().items():
        # Zones that change at the same instants to the same clock need not all be tried in full.
        rules = tuple((change, shown(change, zone)) for change in instants)
        first_of_its_rules = rules not in seen
        seen.add(rules)
        for booking in bookings_around(zone, all_of_them=first_of_its_rules):
            reminders = plan(booking, TIMES, QUIET)
            by_kind = {r.kind: r.at for r in reminders}
            ats = [r.at for r in reminders]
            assert len(by_kind) == len(reminders)
            assert ats == sorted(set(ats))
            assert [ORDER.index(r.kind) for r in reminders] == sorted(map(ORDER.index, by_kind))
            for r in reminders:
                assert r.kind is SOON or not quiet_by_clock(shown(r.at, zone).time())
            local = shown(booking.at, zone)
            before = local - DAY
            expected = last_evening(before) if quiet_by_clock(before.time()) else before
            if _shown_once(before, zone):
                assert shown(by_kind[DAY_BEFORE], zone) == expected
            hours = shown(booking.at - 4 * HOUR, zone)
            expected = last_evening(hours) if quiet_by_clock(hours.time()) else hours
            assert shown(by_kind[HOURS_BEFORE], zone) == expected
            assert by_kind[SOON] == booking.at - 15 * MINUTE
            offer = shown(booking.at + 3 * HOUR, zone)
            assert shown(by_kind[OFFER], zone) == _morning(offer)
            after = shown(booking.at + 30 * MINUTE, zone)
            follow_up = _morning(after)
            if not _shown_once(after, zone):
                pass  # between two quiet minutes, it may be either
            elif follow_up == _morning(offer):
                assert FOLLOW_UP not in by_kind
            else:
                assert shown(by_kind[FOLLOW_UP], zone) == follow_up
            tables += 1
    assert tables > 2000
    assert len(seen) > 20


def _shown_once(local: datetime, zone: str) -> bool:
    offsets = {local.replace(tzinfo=ZoneInfo(zone), fold=fold).utcoffset() for fold in (0, 1)}
    return len(offsets) == 1


def _morning(local: datetime) -> datetime:
    """Return the end of the quiet hours that a local time is in, or that time."""
    if not quiet_by_clock(local.time()):
        return local
    following = local.date() + (DAY if local.time() >= QUIET.starts else timedelta())
    return datetime.combine(following, QUIET.ends)


CLOCKS = st.times().map(lambda t: t.replace(second=0, microsecond=0))


@st.composite
def quiets(draw: st.DrawFn) -> Quiet:
    """Draw quiet hours of up to twenty hours."""
    starts = datetime.combine(date(2027, 1, 1), draw(CLOCKS))
    return Quiet(starts=starts.time(), ends=(starts + draw(st.integers(0, 1200)) * MINUTE).time())


INSTANTS = st.integers(0, int((UNTIL - SINCE) / MINUTE)).map(lambda m: SINCE + m * MINUTE)


@settings(deadline=None)
@given(
    st.sampled_from(sorted(changes())),
    INSTANTS,
    quiets(),
    st.integers(-120, 60 * 24 * 4).map(lambda m: m * MINUTE),
)
def test_plan_keeps_its_laws(zone: str, at: datetime, quiet: Quiet, ahead: timedelta) -> None:
    """Any booking, quiet hours and lead: in order, once each, none past, none quiet, none lost."""
    booking = Booking(number=1, at=at, zone=zone, booked_at=at - ahead)
    reminders = plan(booking, TIMES, quiet)
    ats = [r.at for r in reminders]
    kinds = [ORDER.index(r.kind) for r in reminders]
    assert ats == sorted(set(ats))
    assert kinds == sorted(set(kinds))
    for r in reminders:
        assert r.at >= booking.booked_at
        assert r.at_once == (r.at == booking.booked_at)
        assert r.spans[0][0] == r.at
        for starts, ends in r.spans:
            assert starts < ends
        if r.kind is not SOON and not r.at_once:
            for starts, ends in r.spans:
                for moment in (starts, ends - MINUTE / 2):
                    assert not quiet_by_clock(shown(moment, zone).time(), quiet)
    everything = [span for r in reminders for span in r.spans]
    assert all(a[1] <= b[0] for a, b in pairwise(everything))
    assert OFFER in {r.kind for r in reminders} or at + 4 * DAY < booking.booked_at
    soon = [r for r in reminders if r.kind is SOON]
    assert [r.at for r in soon if not r.at_once] == [at - 15 * MINUTE] * (ahead > 15 * MINUTE)
    if ahead > timedelta():
        assert reminders[0].kind in {DAY_BEFORE, HOURS_BEFORE, SOON}


# -- plain cases


def test_booked_days_ahead() -> None:
    """A test at nine: the list at nine the day before, the hours-before one that evening."""
    assert planned("2027-02-10T09:00", "2027-02-05T12:00") == {
        DAY_BEFORE: "09 09:00",
        HOURS_BEFORE: "09 21:29",
        SOON: "10 08:45",
        FOLLOW_UP: "10 09:30",
        OFFER: "10 12:00",
    }


def test_afternoon_has_its_hours_before_in_the_day() -> None:
    """A test at four in the afternoon: the hours-before reminder is four hours before."""
    assert planned("2027-02-10T16:00", "2027-02-05T12:00")[HOURS_BEFORE] == "10 12:00"


def test_day_before_keeps_the_time_of_day() -> None:
    """Over a change of the clocks the day before is 23 or 25 hours before."""
    spring = Booking(
        number=1,
        at=utc("2027-03-28T09:00"),
        zone="Europe/Madrid",
        booked_at=utc("2027-03-20T09:00"),
    )
    assert spring.at - plan(spring, TIMES, QUIET)[0].at == 23 * HOUR
    autumn = Booking(
        number=1,
        at=utc("2027-10-31T09:00"),
        zone="Europe/Madrid",
        booked_at=utc("2027-10-20T09:00"),
    )
    assert autumn.at - plan(autumn, TIMES, QUIET)[0].at == 25 * HOUR


def test_late_in_the_evening_the_follow_up_gives_way() -> None:
    """A test at 21:40: after it, one message when the night is over."""
    assert planned("2027-02-10T21:40", "2027-02-05T12:00") == {
        DAY_BEFORE: "09 21:29",
        HOURS_BEFORE: "10 17:40",
        SOON: "10 21:25",
        OFFER: "11 07:30",
    }


def test_early_in_the_morning_the_follow_up_waits() -> None:
    """A test at 6:30: the follow-up comes when the quiet hours are over."""
    assert planned("2027-02-10T06:30", "2027-02-05T12:00") == {
        DAY_BEFORE: "08 21:29",
        HOURS_BEFORE: "09 21:29",
        SOON: "10 06:15",
        FOLLOW_UP: "10 07:30",
        OFFER: "10 09:30",
    }


@pytest.mark.parametrize(
    ("booked_at", "first", "others"),
    [
        ("2027-02-09T08:59", (DAY_BEFORE, "09 09:00"), [HOURS_BEFORE, SOON]),
        ("2027-02-09T09:00", (DAY_BEFORE, "at once"), [HOURS_BEFORE, SOON]),
        ("2027-02-09T20:00", (DAY_BEFORE, "at once"), [HOURS_BEFORE, SOON]),
        ("2027-02-09T21:29", (DAY_BEFORE, "at once"), [SOON]),
        ("2027-02-09T23:00", (DAY_BEFORE, "at once"), [SOON]),
        ("2027-02-10T04:59", (DAY_BEFORE, "at once"), [SOON]),
        ("2027-02-10T05:00", (HOURS_BEFORE, "at once"), [SOON]),
        ("2027-02-10T08:44", (HOURS_BEFORE, "at once"), [SOON]),
        ("2027-02-10T08:45", (SOON, "at once"), []),
        ("2027-02-10T08:59", (SOON, "at once"), []),
        ("2027-02-10T09:00", (FOLLOW_UP, "10 09:30"), []),
        ("2027-02-10T10:00", (OFFER, "10 12:00"), []),
    ],
)
def test_booked_late(booked_at: str, first: tuple[str, str], others: list[str]) -> None:
    """Of the reminders whose time is past, the one that helps most comes at once."""
    found = planned("2027-02-10T09:00", booked_at)
    assert next(iter(found.items())) == first
    before = [kind for kind in found if kind in {DAY_BEFORE, HOURS_BEFORE, SOON}]
    assert before[1:] == others


def test_without_quiet_hours_nothing_is_moved() -> None:
    """Quiet hours that end as they begin are none."""
    never = Quiet(starts=time(0), ends=time(0))
    assert planned("2027-02-10T06:30", "2027-02-05T12:00", never) == {
        DAY_BEFORE: "09 06:30",
        HOURS_BEFORE: "10 02:30",
        SOON: "10 06:15",
        FOLLOW_UP: "10 07:00",
        OFFER: "10 09:30",
    }


def test_where_two_fall_together_the_list_stands_for_both() -> None:
    """With quiet hours that push both into one minute, only the day-before list is left."""
    siesta = Quiet(starts=time(13), ends=time(9))
    found = planned("2027-02-10T08:30", "2027-02-05T12:00", siesta)
    assert found[DAY_BEFORE] == "08 12:59"
    assert found[HOURS_BEFORE] == "09 12:59"
    together = Booking(
        number=1,
        at=utc("2027-02-10T22:00"),
        zone="Europe/Madrid",
        booked_at=utc("2027-02-05T12:00"),
    )
    times = ReminderTimes(day_before=6 * HOUR)
    assert [r.kind for r in plan(together, times, siesta)][:2] == [DAY_BEFORE, SOON]


def test_reminder_times_keep_their_order() -> None:
    """A clinic cannot set times that would make one reminder come before another."""
    for wrong in (
        {"day_before": 3 * HOUR},
        {"hours_before": 10 * MINUTE},
        {"soon": timedelta()},
        {"follow_up": 4 * HOUR},
        {"follow_up": timedelta()},
    ):
        with pytest.raises(ValueError, match="order"):
            ReminderTimes(**wrong)


def test_booking_is_in_utc() -> None:
    """An instant without a zone, or in another one, is refused."""
    at = utc("2027-02-10T09:00")
    for wrong in (at.replace(tzinfo=None), at.astimezone(ZoneInfo("Europe/Madrid"))):
        with pytest.raises(ValueError, match="UTC"):
            Booking(number=1, at=wrong, zone="Europe/Madrid", booked_at=at)


# -- due


BOOKING = Booking(
    number=1, at=utc("2027-02-10T09:00"), zone="Europe/Madrid", booked_at=utc("2027-02-05T12:00")
)


@pytest.mark.parametrize(
    ("now", "sent", "kind", "following"),
    [
        ("2027-02-09T08:59", set(), None, "2027-02-09T09:00"),
        ("2027-02-09T09:00", set(), DAY_BEFORE, "2027-02-09T09:00"),
        ("2027-02-09T09:00", {DAY_BEFORE}, None, "2027-02-09T21:29"),
        ("2027-02-09T15:00", set(), DAY_BEFORE, "2027-02-09T15:00"),
        ("2027-02-09T21:29", set(), HOURS_BEFORE, "2027-02-09T21:29"),
        ("2027-02-09T22:00", set(), None, "2027-02-10T07:30"),
        ("2027-02-10T07:30", {DAY_BEFORE}, HOURS_BEFORE, "2027-02-10T07:30"),
        ("2027-02-10T07:30", {DAY_BEFORE, HOURS_BEFORE}, None, "2027-02-10T08:45"),
        ("2027-02-10T08:50", set(), SOON, "2027-02-10T08:50"),
        ("2027-02-10T09:10", set(), None, "2027-02-10T09:30"),
        ("2027-02-10T09:10", {SOON}, None, "2027-02-10T09:30"),
        ("2027-02-10T11:59", {SOON}, FOLLOW_UP, "2027-02-10T11:59"),
        ("2027-02-10T13:00", {SOON}, OFFER, "2027-02-10T13:00"),
        ("2027-02-10T22:00", {SOON}, None, "2027-02-11T07:30"),
        ("2027-02-10T13:00", {OFFER}, None, None),
        ("2027-02-20T13:00", set(), None, None),
    ],
)
def test_due_and_next(
    now: str, sent: set[ReminderKind], kind: ReminderKind | None, following: str | None
) -> None:
    """The reminder of this moment is due, never one whose time is over; then the next is named."""
    reminders = plan(BOOKING, TIMES, QUIET)
    found = due(reminders, sent, utc(now))
    assert (found and found.kind) == kind
    since = next_at(reminders, sent, utc(now))
    assert since == (None if following is None else utc(following))


def test_next_without_a_present_is_the_first_not_sent() -> None:
    """Without a present, the instant of the first reminder that was not sent is named."""
    reminders = plan(BOOKING, TIMES, QUIET)
    assert next_at(reminders, frozenset()) == utc("2027-02-09T09:00")
    assert next_at(reminders, {HOURS_BEFORE}) == utc("2027-02-10T08:45")
    assert next_at(reminders, {OFFER}) is None


def test_answer_at_night_comes_at_once_or_in_the_morning() -> None:
    """Who books at night is answered at night; an answer that was held up waits for the morning."""
    at_night = Booking(
        number=1,
        at=utc("2027-02-10T09:00"),
        zone="Europe/Madrid",
        booked_at=utc("2027-02-09T23:00"),
    )
    reminders = plan(at_night, TIMES, QUIET)
    found = due(reminders, frozenset(), at_night.booked_at)
    assert found is not None
    assert found.kind is DAY_BEFORE
    assert due(reminders, frozenset(), utc("2027-02-09T23:06")) is None
    assert next_at(reminders, frozenset(), utc("2027-02-09T23:06")) == utc("2027-02-10T07:30")


def test_move_repeats_only_what_has_a_time_of_its_own() -> None:
    """After a move, what would only be said again at once is carried over; the rest comes anew."""
    sent = frozenset({DAY_BEFORE, HOURS_BEFORE, SOON})
    hour_later = Booking(
        number=1,
        at=utc("2027-02-10T10:00"),
        zone="Europe/Madrid",
        booked_at=utc("2027-02-10T08:50"),
        sequence=1,
    )
    assert carried(plan(hour_later, TIMES, QUIET), sent) == {HOURS_BEFORE}
    next_week = Booking(
        number=1,
        at=utc("2027-02-17T10:00"),
        zone="Europe/Madrid",
        booked_at=utc("2027-02-10T08:50"),
        sequence=1,
    )
    assert carried(plan(next_week, TIMES, QUIET), sent) == frozenset()


def test_plan_is_the_same_whatever_the_day_is_called() -> None:
    """The date line does not matter: Kiritimati and Pago Pago, a day apart, have the same plan."""
    at = utc("2027-02-10T09:00", "Pacific/Kiritimati")
    east = Booking(number=1, at=at, zone="Pacific/Kiritimati", booked_at=at - 5 * DAY)
    west = Booking(number=1, at=at + 25 * HOUR, zone="Pacific/Pago_Pago", booked_at=at - 5 * DAY)
    assert shown(west.at, west.zone) == shown(east.at, east.zone)
    assert local_times(plan(east, TIMES, QUIET), east.zone) == local_times(
        plan(west, TIMES, QUIET), west.zone
    )
    assert shown(east.at, east.zone).date() == date(2027, 2, 10)
