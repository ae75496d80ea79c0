"""Readings come back from the file as they are in the record, with time and device."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from bot.findings import find
from bot.protocol.definition import Position
from bot.protocol.record import TestRecord
from bot.protocol.released import released
from tests.reports.examples import NOTHING, STARTS
from tests.reports.fhir.cases import FULL, RECORDS, Json, document
from tests.reports.fhir.looking import coded, every_record, in_system, of, value


@every_record
def test_every_number_comes_back(record: TestRecord) -> None:
    """Every number of every reading is in the file at its instant, and no other number is."""
    found = document(record)
    pressures = {
        (datetime.fromisoformat(o["effectiveDateTime"]), *map(value, o["component"]))
        for o in coded(found, "85354-9")
        if any(value(part) is not None for part in o["component"])
    }
    rates = {
        (datetime.fromisoformat(o["effectiveDateTime"]), value(o))
        for o in coded(found, "8867-4")
        if value(o) is not None
    }
    given = [(r.given_at, r.values) for r in record.readings]
    given += [(r.given_at, r.values) for r in record.repeats]
    assert pressures == {
        (at, v.systolic, v.diastolic)
        for at, v in given
        if (v.systolic, v.diastolic) != (None, None)
    }
    assert rates == {(at, v.heart_rate) for at, v in given if v.heart_rate is not None}


@every_record
def test_a_planned_reading_that_was_missed_says_so(record: TestRecord) -> None:
    """Each planned reading has a pressure and a rate; where it was missed, that is the reason."""
    found = document(record)
    missed = find(record).missed
    slots = released(record.protocol).slots
    extras = [r.values for r in record.readings if r.slot is None]
    extras += [r.values for r in record.repeats]
    halves = [(v.systolic, v.diastolic) for v in extras]
    assert len(coded(found, "85354-9")) == len(slots) + sum(h != (None, None) for h in halves)
    absent = [
        o
        for o in coded(found, "8867-4")
        if "dataAbsentReason" in o and o["dataAbsentReason"]["coding"][0]["code"] == "not-performed"
    ]
    assert len(absent) == len(missed)
    assert {o["status"] for o in absent} <= {"final"}
    assert {"device" in o for o in absent} <= {False}


def test_a_missed_reading_stands_at_the_time_it_was_due() -> None:
    """It stands when it was due; where its position was never taken, the day is all there is."""
    started, never = document(FULL), document(NOTHING)
    seated = [o for o in coded(started, "8867-4") if o["code"]["text"].endswith("seated")]
    due = STARTS[Position.SEATED] + timedelta(minutes=5)
    assert [datetime.fromisoformat(o["effectiveDateTime"]) for o in seated] == [due]
    standing = [o for o in coded(never, "8867-4") if o["code"]["text"].endswith("standing")]
    assert {o["effectiveDateTime"] for o in standing} == {"2026-03-02"}


def test_a_number_that_was_not_given_is_unknown() -> None:
    """In a reading that was taken, a number that is not there is unknown, not skipped."""
    reasons = [
        [part["dataAbsentReason"]["coding"][0]["code"] if value(part) is None else value(part)
         for part in o["component"]]
        for o in coded(document(FULL), "85354-9")
    ]  # fmt: skip
    assert reasons == [
        [178, 87],
        ["not-performed", "not-performed"],
        [153, 68],
        [140, 60],
        [138, "unknown"],
        ["not-performed", "not-performed"],
        ["not-performed", "not-performed"],
    ]


@pytest.mark.parametrize(
    ("record", "kinds", "used"),
    [
        ("full", ["software", "upper-arm", "oximeter"], ("upper-arm", "oximeter")),
        ("wrist", ["software", "wrist"], ("wrist", "wrist")),
        ("watch", ["software", "watch"], (None, "watch")),
        ("cuff-unknown", ["software", "cuff"], ("cuff", "cuff")),
        ("fingers", ["software"], (None, "fingers")),
        ("clear-rise", ["software"], (None, None)),
    ],
)
def test_devices(record: str, kinds: list[str], used: tuple[str | None, str | None]) -> None:
    """The software, the cuff and the source of the rate are there, as far as they are known."""
    found = document(RECORDS[record])
    devices = {f"urn:uuid:{d['id']}": d["type"]["coding"][0]["code"] for d in of(found, "Device")}
    assert list(devices.values()) == kinds
    assert of(found, "Device")[0]["version"] == [{"value": "0.1.0"}]

    def source(o: Json) -> str | None:
        if "method" in o:
            return str(o["method"]["coding"][0]["code"])
        return devices[o["device"]["reference"]] if "device" in o else None

    assert (source(coded(found, "85354-9")[0]), source(coded(found, "8867-4")[0])) == used


def test_times_are_on_the_persons_clock() -> None:
    """Instants carry the offset of the person's zone that day, or else of UTC.

    St John's: -03:30 until 8 March 2026; Kathmandu +05:45 (both from the tz database).
    """
    offsets = {}
    for name in ("full", "fingers", "clear-rise"):
        found = document(RECORDS[name])
        offsets[name] = {o["effectiveDateTime"][19:] for o in in_system(found, "line")}
    assert offsets == {"full": {"-03:30"}, "fingers": {"+05:45"}, "clear-rise": {"+00:00"}}


def test_notes_say_what_became_of_a_reading() -> None:
    """Each reading says its position and time, and whether it was late, extra, half or changed."""
    noted = [o["note"][0]["text"] for o in coded(document(FULL), "85354-9")]
    assert noted == [
        "Lying 5:20",
        "Sitting 5:00; not taken",
        "Standing 1:20",
        "Standing 2:00; not planned; number missing",
        "Standing 5:00; late; number missing",
        "Standing 5:00; not taken",
        "Standing 10:00; not taken",
    ]
    corrected = coded(document(RECORDS["corrected"]), "8867-4")[2]
    assert corrected["note"][0]["text"] == (
        "Standing 5:20; number missing; corrected, was 116/80, 101"
    )


def test_what_was_measured_again_stands_in_no_position() -> None:
    """Measured again after the test, numbers have base codes alone, and nothing rests on them."""
    found = document(RECORDS["again"])
    at = (FULL.began_at + timedelta(minutes=40)).astimezone(ZoneInfo("America/St_Johns"))
    pressure, rate = (
        o for o in of(found, "Observation") if o["effectiveDateTime"] == at.isoformat()
    )
    assert [[c["code"] for c in part["code"]["coding"]] for part in pressure["component"]] == [
        ["8480-6"],
        ["8462-4"],
    ]
    assert [c["code"] for c in rate["code"]["coding"]] == ["8867-4"]
    assert list(map(value, pressure["component"])) == [184, None]
    assert pressure["component"][1]["dataAbsentReason"]["coding"][0]["code"] == "unknown"
    rested = {r["reference"] for o in of(found, "Observation") for r in o.get("derivedFrom", ())}
    assert {f"urn:uuid:{o['id']}" for o in (pressure, rate)} & rested == set()
    (composition,) = of(found, "Composition")
    assert "Measured again" in composition["section"][-1]["text"]["div"]
