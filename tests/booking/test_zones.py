"""From what a clock says to a zone, and from a time there to an instant."""

from collections import defaultdict
from datetime import UTC, datetime, time, timedelta
from importlib.resources import files
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.booking.places import OLD_NAMES, SHARED, WELL_KNOWN
from bot.booking.zones import Doubled, Instant, Skipped, offsets, settle, valid_zone, zones_at
from tests.booking.changes import SINCE, UNTIL, changes, shown

MINUTE = timedelta(minutes=1)
DAY = timedelta(days=1)
NOWS = [
    datetime(2026, 12, 1, 8, 0, tzinfo=UTC),
    datetime(2027, 3, 15, 23, 59, 59, tzinfo=UTC),
    datetime(2027, 7, 1, 0, 0, tzinfo=UTC),
    datetime(2028, 2, 29, 12, 34, 56, tzinfo=UTC),
]


def listed_places() -> set[str]:
    """Return the places of the database's own list of zones by country."""
    text = (files("tzdata") / "zoneinfo" / "zone.tab").read_text(encoding="utf-8")
    return {line.split("\t")[2] for line in text.splitlines() if not line.startswith("#")}


# -- settle


def test_many_zones_change_their_clocks() -> None:
    """The tables below have something to hold: both ways, in both hemispheres."""
    assert len(changes()) > 100
    assert {"Europe/Madrid", "America/New_York", "Australia/Lord_Howe"} <= set(changes())
    assert all(len(instants) >= 1 for instants in changes().values())


def test_every_minute_around_every_change_settles() -> None:
    """Around every change of two years, each local minute settles as counting UTC minutes says."""
    seen = {Instant: 0, Skipped: 0, Doubled: 0}
    for zone, instants in changes().items():
        for change in instants:
            minutes = defaultdict(list)
            for ahead in range(-300, 301):
                at = change + ahead * MINUTE
                minutes[shown(at, zone)].append(at)
            middle = shown(change, zone)
            for ahead in range(-150, 151, 1 if zone == "Europe/Madrid" else 5):
                local = middle + ahead * MINUTE
                settled = settle(local, zone)
                seen[type(settled)] += 1
                match settled:
                    case Instant(at=at):
                        assert minutes[local] == [at]
                    case Doubled(first=first, second=second):
                        assert minutes[local] == [first, second]
                    case Skipped(before=before, after=after):
                        assert minutes[local] == []
                        assert before < change <= after
                        gap = shown(change, zone) - shown(change - MINUTE, zone) - MINUTE
                        assert shown(before, zone) == local - gap
                        assert shown(after, zone) == local + gap
    assert min(seen.values()) > 1000


@settings(deadline=None)
@given(
    st.datetimes(datetime(1990, 1, 1), datetime(2037, 12, 31)),  # noqa: DTZ001 - on a clock
    st.sampled_from(sorted(available_timezones() - {"localtime", "Factory"})),
)
def test_settled_time_is_what_the_clock_shows(local: datetime, zone: str) -> None:
    """Any instant it gives shows the time it was asked for, unless no clock ever did."""
    match settle(local, zone):
        case Instant(at=at):
            assert shown(at, zone) == local
            assert at.tzinfo is UTC
        case Doubled(first=first, second=second):
            assert first < second
            assert shown(first, zone) == shown(second, zone) == local
        case Skipped(before=before, after=after):
            assert before < after
            assert shown(before, zone) < local < shown(after, zone)


def test_settle_refuses_what_it_cannot_mean() -> None:
    """A local time with a zone of its own, or a zone that is not there, is an error."""
    with pytest.raises(ValueError, match="zone"):
        settle(datetime(2026, 3, 4, tzinfo=UTC), "Europe/Madrid")
    with pytest.raises(ZoneInfoNotFoundError):
        settle(datetime(2026, 3, 4), "Europe/Nowhere")  # noqa: DTZ001 - that is the point


# -- offsets and places


@pytest.mark.parametrize("now", NOWS)
def test_every_place_is_found_by_its_clock(now: datetime) -> None:
    """What the clock at a place shows, a few minutes off, leads to that place; nearest first."""
    places = defaultdict(set)
    for place in listed_places() & available_timezones():
        places[now.astimezone(ZoneInfo(place)).utcoffset()].add(place)
    assert len(places) > 30
    for offset, there in places.items():
        assert offset is not None
        assert set(zones_at(offset, now)) == there
        for off in (-7, -1, 0, 3, 7):
            said = (now + offset + off * MINUTE).time().replace(second=0, microsecond=0)
            found = offsets(said, now)
            assert offset in found
            if abs(off) < 7:
                assert (found[0] - offset) % DAY == timedelta()
            other = said.replace(hour=(said.hour + 12) % 24)
            assert set(offsets(said, now, either_half=True)) == {*found, *offsets(other, now)}


@settings(deadline=None)
@given(
    st.times(),
    st.integers(0, 60 * 24 * 1000).map(lambda minutes: SINCE + minutes * MINUTE),
)
def test_offsets_show_what_was_said(said: time, now: datetime) -> None:
    """Each offset is in use somewhere now, and makes about the time that was said."""
    for offset in offsets(said, now):
        then = now + offset
        away = abs(
            timedelta(hours=then.hour, minutes=then.minute, seconds=then.second)
            - timedelta(hours=said.hour, minutes=said.minute)
        )
        assert min(away, timedelta(days=1) - away) <= timedelta(minutes=8)
        assert zones_at(offset, now)


@pytest.mark.parametrize("now", NOWS)
def test_places_are_those_of_the_database(now: datetime) -> None:
    """All offsets together give each place of the database once, and no old name."""
    every = {now.astimezone(ZoneInfo(zone)).utcoffset() for zone in available_timezones()}
    found = [zone for offset in every if offset is not None for zone in zones_at(offset, now)]
    assert len(found) == len(set(found))
    assert set(found) == listed_places() & available_timezones()


def test_better_known_places_come_first() -> None:
    """The first places for an offset are ones that people know."""
    winter = datetime(2026, 12, 1, tzinfo=UTC)
    assert "Europe/Madrid" in zones_at(timedelta(hours=1), winter)[:8]
    assert zones_at(timedelta(hours=-5), winter)[0] == "America/New_York"
    assert zones_at(timedelta(hours=-6), winter)[:2] == ("America/Mexico_City", "America/Chicago")
    assert zones_at(timedelta(hours=14), winter) == ("Pacific/Kiritimati",)
    assert zones_at(timedelta(hours=1, minutes=7), winter) == ()


def test_names_are_of_the_database() -> None:
    """Every name in the hand-made lists is a zone, old ones and new ones apart."""
    places = listed_places()
    assert len(WELL_KNOWN) == len(set(WELL_KNOWN))
    assert set(WELL_KNOWN) <= places
    assert set(OLD_NAMES.values()) <= places
    assert not set(OLD_NAMES) & places
    cities = {name.rpartition("/")[2] for name in available_timezones()}
    assert {city.replace(" ", "_") for city in SHARED} <= {city.casefold() for city in cities}


@pytest.mark.parametrize(("old", "new"), sorted(OLD_NAMES.items()))
def test_old_names_keep_the_same_time(old: str, new: str) -> None:
    """An old name and the one it gives show the same time all through two years."""
    at = SINCE
    while at < UNTIL:
        assert shown(at, old) == shown(at, new)
        at += timedelta(days=7)


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("Europe/Madrid", "Europe/Madrid"),
        ("europe/madrid", "Europe/Madrid"),
        (" MADRID ", "Europe/Madrid"),
        ("New York", "America/New_York"),
        ("new_york", "America/New_York"),
        ("São Paulo", "America/Sao_Paulo"),
        ("Bogotá", "America/Bogota"),
        ("ciudad de méxico", None),
        ("Mexico City", "America/Mexico_City"),
        ("Buenos Aires", "America/Argentina/Buenos_Aires"),
        ("Calcutta", "Asia/Kolkata"),
        ("Asia/Calcutta", "Asia/Kolkata"),
        ("Kiev", "Europe/Kyiv"),
        ("US/Eastern", "America/New_York"),
        ("Port-au-Prince", "America/Port-au-Prince"),
        ("port au prince", "America/Port-au-Prince"),
        ("St. Johns", None),
        ("Córdoba", None),
        ("San Juan", None),
        ("Jersey", None),
        ("Europe/Jersey", "Europe/Jersey"),
        ("Eastern", None),
        ("EST", None),
        ("UTC", None),
        ("Etc/GMT+5", None),
        ("GMT", None),
        ("Spain", None),
        ("Europe", None),
        ("9:40", None),
        ("", None),
        ("/", None),
    ],
)
def test_zone_is_named_by_id_or_city(text: str, zone: str | None) -> None:
    """An id or the city in it names a zone; what could be two places, or is none, does not."""
    assert valid_zone(text) == zone


@settings(deadline=None)
@given(st.text(max_size=40))
def test_any_text_names_a_place_or_nothing(text: str) -> None:
    """No text is an error, and what is named is a place of the database."""
    assert valid_zone(text) in {None, *listed_places()}
