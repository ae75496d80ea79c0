"""Which supine reading counts, what a change is, and what was late or missed."""

from dataclasses import replace

import pytest

from bot.findings import Line, State, find
from bot.protocol.definition import ProtocolRef
from bot.protocol.released import FOUR_READINGS
from tests.findings.records import record


def baseline(*rows: str) -> int | None:
    """Return the number of the supine reading that counts."""
    found = find(record(*rows)).baseline
    return None if found is None else found.number


@pytest.mark.parametrize(
    ("rows", "number"),
    [
        (["supine-5@5:00 120/80 70"], 1),
        (["supine-5@9:00! 120/80 70"], 1),
        # The planned one counts before any given in between, earlier or later.
        (["supine@4:50 120/80 70", "supine-5@5:10 120/80 70", "supine@6:00 120/80 70"], 2),
        # Without it, the last one after enough rest serves.
        (["supine@4:29 120/80 70"], None),
        (["supine@4:30 120/80 70"], 1),
        (["supine@6:00 120/80 70", "supine@5:00 120/80 71"], 1),
        (["supine@5:00 120/80 70", "supine@6:00 120/80 71"], 2),
        # A planned reading that lacks a number gives way to a whole one, and to no other.
        (["supine-5@5:00 120/80 -", "supine@6:00 120/80 70"], 2),
        (["supine-5@5:00 120/80 -", "supine@6:00 -/- 70"], 1),
        (["supine-5@5:00 -/- -", "supine@6:00 120/- -"], 2),
        # Whatever its name, a reading before enough rest does not count.
        (["supine-5@4:00 120/80 70"], None),
        # The seated and standing ones never do.
        (["seated-5@5:00 120/80 70", "standing-5@5:00 120/80 90"], None),
        ([], None),
    ],
)
def test_the_baseline_is_a_rested_supine_reading(rows: list[str], number: int | None) -> None:
    """The planned supine reading counts, one given in between may serve, a seated one never."""
    assert baseline(*rows) == number


@pytest.mark.parametrize(("place", "number"), [("supine@16:00", None), ("supine-5@16:00!", 1)])
def test_lying_down_again_after_standing_is_no_baseline(place: str, number: int | None) -> None:
    """One given in between counts just before the standing began, at 16:00 in these records."""
    assert baseline(f"{place} 90/60 100") == number
    assert baseline("supine@15:59 90/60 100") == 1


def test_without_a_standing_phase_a_supine_reading_in_between_serves() -> None:
    """A test that never came to standing still has its baseline."""
    stopped = replace(record("supine@6:00 120/80 70"), phases=())
    found = find(stopped).baseline
    assert found is not None
    assert found.number == 1


def test_changes_never_come_from_the_seated_reading() -> None:
    """Standing is compared with lying, though a seated reading lies between."""
    found = find(
        record("supine-5@5:00 120/80 70", "seated-5@5:00 110/70 90", "standing-1@1:00 115/82 100")
    )
    (change,) = found.changes
    assert (change.systolic, change.diastolic, change.heart_rate) == (-5, 2, 30)
    assert change.reading.number == 3


def test_a_change_is_missing_when_either_number_is() -> None:
    """Each measure of a change stands alone."""
    found = find(record("supine-5@5:00 120/- 70", "standing@1:00 -/80 100"))
    (change,) = found.changes
    assert (change.systolic, change.diastolic, change.heart_rate) == (None, None, 30)


def test_changes_are_in_order_of_time() -> None:
    """A reading corrected or given out of turn takes its place by its offset."""
    found = find(
        record(
            "supine-5@5:00 120/80 70",
            "standing-10@10:00 120/80 80",
            "standing-5@5:00 120/80 80",
            "standing@2:00 120/80 80",
        )
    )
    assert [change.reading.number for change in found.changes] == [4, 3, 2]


def test_without_a_baseline_there_are_no_changes() -> None:
    """Standing readings alone give no change at all."""
    assert find(record("standing-5@5:00 120/80 90")).changes == ()


def test_an_empty_reading_counts_as_missed() -> None:
    """A planned reading with no number in it was not taken."""
    found = find(record("supine-5@5:00 120/80 70", "standing-5@5:00 -/- -"))
    assert found.missed == ("seated-5", "standing-1", "standing-3", "standing-5", "standing-10")
    assert len(found.changes) == 0


def test_what_was_late_or_missed_is_named() -> None:
    """Late readings go by number, missed ones by id in the order of the protocol."""
    found = find(
        record(
            "supine-5@9:00! 120/80 70",
            "seated-5@5:00 120/80 72",
            "standing@1:00 120/80 80",
            "standing-5@7:00! 120/80 80",
            protocol=FOUR_READINGS.ref,
        )
    )
    assert found.late == (1, 4)
    assert found.missed == ("standing-10",)


def test_a_protocol_that_was_never_released_is_an_error() -> None:
    """Nothing is found on a record whose protocol is not known."""
    with pytest.raises(KeyError):
        find(record(protocol=ProtocolRef(id="four-readings", version=99)))


def test_replaced_readings_are_not_judged() -> None:
    """A reading as it stood before its correction has no say."""
    before = record("supine-5@5:00 190/80 70")
    corrected = before.with_reading(record("supine-5@5:00 120/80 70").readings[0])
    assert corrected.replaced == before.readings
    assert find(corrected).on(Line.VERY_HIGH_PRESSURE).state is State.NOT_MET
