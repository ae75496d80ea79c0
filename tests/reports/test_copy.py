"""The person's own copy: everything that is kept, in plain JSON."""

import json
import re
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time, timedelta
from typing import Any, Final, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.booking.plan import Booking, ReminderKind
from bot.engine.asides import Aside
from bot.engine.events import ChoiceTapped, Event, Opened, WordsGiven
from bot.engine.profile import Profile, Watch
from bot.engine.state import Booked, ChoosingPlace, Conversation, Finished, Stage
from bot.protocol.circumstances import (
    Circumstances,
    Cuff,
    DayKind,
    Departure,
    Hazard,
    Medicine,
    RateSource,
)
from bot.protocol.record import AgeBand
from bot.protocol.released import FOUR_READINGS
from bot.reports.copy import _kind, _plain, copy_of
from bot.runtime.ports import History, Kept
from tests.reports.examples import CLEAR_RISE, CORRECTED, HOSTILE, STOPPED

NOW: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
BOOKING: Final = Booking(
    number=2, at=NOW + timedelta(days=3), zone="Europe/Madrid", booked_at=NOW, sequence=1
)
PROFILE: Final = Profile(
    reference="ref-77",
    protocol=FOUR_READINGS.ref,
    consented_at=NOW,
    consent_version=1,
    zone="Europe/Madrid",
    hazards=(Hazard.PREGNANT,),
    cleared_by="the ward",
    cleared_at=NOW,
    medicines=(Medicine.BETA_BLOCKER,),
    cuff=Cuff.WRIST,
    rate_source=RateSource.WATCH,
    watch=Watch(since=NOW, looks_for=DayKind.SYMPTOMATIC, hour=time(9, 30)),
)
TALK: Final = Conversation(
    id="c-1",
    locale="en",
    age_band=AgeBand.FROM_20,
    stage=Booked(booking=BOOKING, sent=frozenset({ReminderKind.SOON, ReminderKind.DAY_BEFORE})),
    profile=PROFILE,
)
TEST: Final = replace(
    CLEAR_RISE,
    day=DayKind.GOOD,
    circumstances=Circumstances(zone="Europe/Madrid", departures=(Departure.CAFFEINE,)),
)
KEPT: Final = Kept(
    conversation=TALK,
    history=History(
        beginning=Conversation(id="c-1", locale="en"),
        events=(
            Opened(at=NOW, code="abc"),
            WordsGiven(at=NOW, text="mañana a las 9 «sí»", source="m1"),
            ChoiceTapped(at=NOW, token="q.yes"),
        ),
    ),
    results=(TEST, CORRECTED, STOPPED),
)


def read(kept: Kept = KEPT) -> dict[str, Any]:
    """Return the file, parsed."""
    parsed: dict[str, Any] = json.loads(copy_of(kept).content.decode())
    return parsed


def test_it_is_pretty_json_in_utf_8() -> None:
    """One file by a plain name, indented, with letters as they are; the same bytes each time."""
    file = copy_of(KEPT)
    assert file == copy_of(KEPT)
    assert (file.name, file.media_type) == ("wallside-my-data.json", "application/json")
    assert "mañana a las 9 «sí»" in file.content.decode()
    assert b'\n  "profile": {\n' in file.content
    assert file.content.endswith(b"}\n")


def test_the_profile_is_there() -> None:
    """Each fact about the person, under a plain name; instants are ISO 8601 in UTC."""
    profile = read()["profile"]
    assert profile["reference"] == "ref-77"
    assert profile["protocol"] == "four-readings/2"
    assert profile["consented_at"] == "2026-03-02T09:00:00+00:00"
    assert profile["hazards"] == ["pregnant"]
    assert profile["cleared_by"] == "the ward"
    assert profile["medicines"] == ["beta-blocker"]
    assert profile["watch"]["hour"] == "09:30:00"
    assert profile["cuff"] == "wrist"
    assert read()["conversation"]["age_band"] == "20-and-over"


def test_the_booking_is_there() -> None:
    """The booking that stands, with the reminders that went out."""
    whole = read()
    assert [booking["at"] for booking in whole["bookings"]] == ["2026-03-05T09:00:00+00:00"]
    assert whole["conversation"]["stage"]["what"] == "booked"
    assert whole["conversation"]["stage"]["sent"] == ["day-before", "soon"]
    none = replace(KEPT, conversation=replace(TALK, stage=ChoosingPlace(offsets=())))
    assert read(none)["bookings"] == []


def test_all_events_are_there_in_order_with_their_words() -> None:
    """What happened, as it happened, in plain words and the person's own."""
    events = read()["events"]
    assert [event["what"] for event in events] == ["opened", "words given", "choice tapped"]
    assert [event["at"] for event in events] == [NOW.isoformat()] * 3
    assert events[1]["text"] == "mañana a las 9 «sí»"
    assert read()["beginning"]["id"] == "c-1"


def test_all_results_are_there_whole() -> None:
    """Every reading, also as it was before a correction, every symptom and the own words."""
    tests = read()["tests"]
    assert len(tests) == 3
    assert len(tests[0]["readings"]) == 4
    assert tests[0]["readings"][0]["values"] == {
        "systolic": 118, "diastolic": 74, "heart_rate": 68,
    }  # fmt: skip
    assert tests[0]["readings"][0]["offset"] == {"seconds": 320.0}
    assert tests[0]["symptoms"][1]["words"] == "my legs buzz"
    assert tests[0]["day"] == "good"
    assert tests[0]["circumstances"]["departures"] == ["caffeine"]
    assert tests[1]["replaced"][0]["values"]["heart_rate"] == 101
    assert tests[2]["stop_words"] == "everything went grey"


@pytest.mark.parametrize("words", HOSTILE)
def test_words_come_back_letter_for_letter(words: str) -> None:
    """Whatever a person typed reads back as it was, even where it is no proper text."""
    history = replace(KEPT.history, events=(WordsGiven(at=NOW, text=words, source="m"),))
    assert read(replace(KEPT, history=history))["events"][0]["text"] == words


@settings(max_examples=100)
@given(text=st.text(alphabet=st.characters(), max_size=80))
def test_any_words_come_back(text: str) -> None:
    """Any string at all survives."""
    history = replace(KEPT.history, events=(WordsGiven(at=NOW, text=text, source="m"),))
    assert read(replace(KEPT, history=history))["events"][0]["text"] == text


def test_kinds_are_named_by_words() -> None:
    """Each event, stage and question is named by plain words of its own, not as it is within."""
    kinds = {*get_args(Event), *get_args(Stage), *get_args(Aside)}
    words = {_kind(kind.__new__(kind))["what"] for kind in kinds}
    assert len(words) == len(kinds)
    assert all(re.fullmatch(r"[a-z]+( [a-z]+)*", name) for name in words)


def test_a_stage_with_a_record_is_whole() -> None:
    """What a stage holds is not left out."""
    whole = read(replace(KEPT, conversation=replace(TALK, stage=Finished(record=STOPPED))))
    assert whole["conversation"]["stage"]["record"]["stop_words"] == "everything went grey"


def test_nothing_is_left_out_in_silence() -> None:
    """A value of a kind unknown here is an error, not a gap."""

    @dataclass(frozen=True)
    class Odd:
        inside: object

    with pytest.raises(TypeError, match="cannot be put in a copy: object"):
        _plain(Odd(inside=object()))
