"""The file is sound FHIR R4 by four judges, and the judges can tell."""

import copy

import pytest
from hypothesis import HealthCheck, given, settings

from bot.protocol.record import TestRecord
from tests.reports.examples import any_record
from tests.reports.fhir.cases import RECORDS, document
from tests.reports.fhir.faults import PLANTED, SEEN_BY
from tests.reports.fhir.judges import Judge, complaints

SOUND = document()


@pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS)
def test_every_example_is_sound(record: TestRecord) -> None:
    """No judge has anything against the file of any example."""
    found = document(record)
    assert {judge: complaints(judge, found) for judge in Judge} == {judge: [] for judge in Judge}


@pytest.mark.parametrize("judge", Judge)
def test_another_language_is_sound(judge: Judge) -> None:
    """No judge has anything against the file in Spanish."""
    assert complaints(judge, document(locale="es")) == []


@settings(max_examples=6, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(any_record())
def test_any_record_is_sound(record: TestRecord) -> None:
    """Readings missed, late, extra or half given and any words at all: no judge objects."""
    found = document(record)
    assert {judge: complaints(judge, found) for judge in Judge} == {judge: [] for judge in Judge}


@pytest.mark.parametrize("fault", PLANTED)
def test_each_fault_is_seen(fault: str) -> None:
    """A planted fault is seen by at least one judge, and by those that the table names."""
    found = copy.deepcopy(SOUND)
    PLANTED[fault](found)
    assert found != SOUND
    assert {judge for judge in Judge if complaints(judge, found)} == set(SEEN_BY[fault])


def test_every_judge_is_needed() -> None:
    """Every fault is seen, and each judge is the only one to see some."""
    assert PLANTED.keys() == SEEN_BY.keys()
    assert [fault for fault, judges in SEEN_BY.items() if not judges] == []
    alone = {judges[0] for judges in SEEN_BY.values() if len(judges) == 1}
    assert alone == set(Judge)
