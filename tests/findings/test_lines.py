"""The table of lines is whole, and limits are reached on the right side."""

import pytest

from bot.findings import SOURCES, Known, Line, Reason
from bot.findings.lines import Limit, Side, rise_limit
from bot.protocol.record import AgeBand


def test_every_line_has_a_source() -> None:
    """Each line names where it comes from and how it is known, in the order of the lines."""
    assert list(SOURCES) == list(Line)
    assert all(source.text for source in SOURCES.values())


def test_what_is_not_verified_says_so() -> None:
    """Just the numbers from memory and those told by another text are marked as such."""
    assert {line for line, source in SOURCES.items() if source.known is Known.MEMORY} == {
        Line.BRADYCARDIA,
        Line.NARROW_PULSE_PRESSURE,
    }
    assert {line for line, source in SOURCES.items() if source.known is Known.SECOND_HAND} == {
        Line.STANDING_SYSTOLIC_LOW,
        Line.SUPINE_RATE_BELOW_60,
    }


@pytest.mark.parametrize(
    ("side", "reached"),
    [
        (Side.AT_LEAST, (False, True, True)),
        (Side.ABOVE, (False, False, True)),
        (Side.AT_MOST, (True, True, False)),
        (Side.BELOW, (True, False, False)),
    ],
)
def test_a_limit_is_reached_on_its_side(side: Side, reached: tuple[bool, bool, bool]) -> None:
    """The limit itself counts just where its side includes it."""
    limit = Limit(side, 10)
    assert tuple(limit.reached(size) for size in (9, 10, 11)) == reached


@pytest.mark.parametrize(
    ("side", "past"),
    [(Side.AT_LEAST, 3), (Side.ABOVE, 3), (Side.AT_MOST, -3), (Side.BELOW, -3)],
)
def test_how_far_past_counts_towards_the_side(side: Side, past: int) -> None:
    """A number further on the limit's own side lies further past it."""
    assert Limit(side, 10).past(13) == past


def test_the_rise_line_depends_on_the_age_band() -> None:
    """It is 30 from 20 up and 40 from 12 to 19; under 12 and untold there is none."""
    assert rise_limit(AgeBand.FROM_20) == Limit(Side.AT_LEAST, 30)
    assert rise_limit(AgeBand.FROM_12_TO_19) == Limit(Side.AT_LEAST, 40)
    assert rise_limit(AgeBand.UNDER_12) is Reason.UNDER_12
    assert rise_limit(None) is Reason.AGE_NOT_TOLD
