"""The same facts give the same bytes and names; other facts give other ones."""

import json
import re
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from bot.reports.fhir import bundle
from tests.reports.examples import CLEAR_RISE, CORRECTED
from tests.reports.fhir.cases import GENERATED, Json, case, document
from tests.reports.fhir.looking import coded, ids, leaves, of


def test_the_same_case_gives_the_same_bytes() -> None:
    """The bytes are canonical JSON, and the same each time."""
    content = bundle(case())
    again = json.dumps(
        json.loads(content), sort_keys=True, separators=(",", ":"), ensure_ascii=False
    )
    assert content == bundle(case())
    assert content == again.encode()


def test_only_three_times_are_of_the_making() -> None:
    """When it was put together stands in three places; all else is of the record."""
    later = GENERATED + timedelta(days=3)
    first, second = (leaves(json.loads(bundle(case(generated=at)))) for at in (GENERATED, later))
    assert {path for path in first if first[path] != second[path]} == {
        ".timestamp",
        ".entry[0].resource.date",
        ".entry[5].resource.issued",
    }


def test_sending_twice_does_not_make_two() -> None:
    """A correction speaks of the same things, in a document of its own that replaces the first."""
    before, after = document(CLEAR_RISE), document(CORRECTED)
    assert set(ids(after)) < set(ids(before))  # it has no pressures at 5 min, so fewer changes
    assert before["identifier"] != after["identifier"]
    (composition,) = of(after, "Composition")
    assert composition["relatesTo"] == [
        {"code": "replaces", "targetIdentifier": before["identifier"]}
    ]
    assert "relatesTo" not in of(before, "Composition")[0]
    assert [o["status"] for o in coded(after, "8867-4")] == ["final", "final", "corrected", "final"]


def test_other_tests_and_people_share_no_ids() -> None:
    """Another test has only person and software in common; another person only the software."""
    mine = ids(document(CLEAR_RISE))
    second = ids(document(replace(CLEAR_RISE, number=2)))
    other = ids(json.loads(bundle(case(CLEAR_RISE, person="HSC-0043"))))
    assert len(set(mine) & set(second)) == 2
    assert len(set(mine) & set(other)) == 1
    assert len(set(mine)) == len(mine)


def test_ids_are_made_by_name() -> None:
    """All ids are UUIDs of version 5, of the kind that RFC 4122 describes."""
    form = r"urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"
    assert [one for one in ids(document()) if not re.fullmatch(form, one)] == []


@pytest.mark.parametrize("person", ["", " ", " x", "two\nlines", "\ud800"])
def test_a_reference_has_to_be_one(person: str) -> None:
    """An empty or broken reference is refused, rather than mixing people up."""
    with pytest.raises(ValueError, match="reference"):
        case(person=person)


def test_a_time_without_zone_is_refused() -> None:
    """A time without a zone is no instant."""
    with pytest.raises(ValueError, match="zone"):
        case(generated=datetime(2026, 3, 2, tzinfo=UTC).replace(tzinfo=None))


class Receiver:
    """A records system that keeps one resource for each business identifier.

    As R4's conditional update has it (HL7 FHIR R4, section 3.1.0.4.3): none known is made, one
    known is changed, and several known are an error.
    """

    def __init__(self) -> None:
        self.kept: dict[str, Json] = {}

    def take(self, found: Json) -> None:
        """Take in a document and all that is in it."""
        for resource in (found, *(entry["resource"] for entry in found["entry"])):
            said = resource["identifier"]
            (one,) = said if isinstance(said, list) else [said]
            self.kept[f"{resource['resourceType']}?identifier={one['system']}|{one['value']}"] = (
                resource
            )


def test_a_receiver_holds_as_much_after_twice_as_after_once() -> None:
    """Kept by identifier, a file sent again adds nothing, and a correction its own document."""
    receiver = Receiver()
    first, again, corrected = (document(record) for record in (CLEAR_RISE, CLEAR_RISE, CORRECTED))
    receiver.take(first)
    once = dict(receiver.kept)
    assert len(once) == 1 + len(first["entry"])
    receiver.take(again)
    assert receiver.kept == once
    receiver.take(corrected)
    assert len(receiver.kept) == len(once) + 1
    assert {r["resourceType"] for key, r in receiver.kept.items() if key not in once} == {"Bundle"}
    receiver.take(document(replace(CLEAR_RISE, number=2)))
    kinds = [resource["resourceType"] for resource in receiver.kept.values()]
    assert (kinds.count("Patient"), kinds.count("DiagnosticReport")) == (1, 2)
