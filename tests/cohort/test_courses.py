"""What is true at each moment, by hand."""

from random import Random

import pytest

from bot.cohort.courses import NOTHING, Body, Course, Shape
from bot.cohort.people import spread
from bot.protocol.definition import Position

RAMP = Shape((0.0, 2.0, 4.0), (0.0, 1.0, 0.5))


@pytest.mark.parametrize(
    ("minute", "share"), [(0, 0), (1, 0.5), (2, 1), (3, 0.75), (4, 0.5), (60, 0.5)]
)
def test_a_shape_runs_straight_between_its_minutes(minute: float, share: float) -> None:
    """By hand; the last share holds from then on."""
    assert RAMP.at(minute) == share


@pytest.mark.parametrize(
    ("minutes", "shares"),
    [((0.0, 1.0), (0.0,)), ((1.0, 2.0), (0.0, 1.0)), ((0.0, 2.0, 1.0), (0.0, 1.0, 1.0))],
)
def test_a_shape_out_of_order_is_refused(
    minutes: tuple[float, ...], shares: tuple[float, ...]
) -> None:
    """Every minute has its share, from 0 on and in order."""
    with pytest.raises(ValueError, match=r"\("):
        Shape(minutes, shares)


def test_a_course_adds_up() -> None:
    """By hand: 70 120/80 lying, standing adds 20 -10/5 by its shapes, and the dip goes on top."""
    course = Course(
        lying=Body(70, 120, 80),
        change=Body(20, -10, 5),
        rate_shape=RAMP,
        pressure_shape=Shape((0.0, 1.0), (0.0, 1.0)),
        dip=Body(10, -40, -20),
        dip_shape=Shape((0.0, 0.5, 1.0), (0.0, 1.0, 0.0)),
        wander={Position.SUPINE: (Body(1, 2, 3), Body(4, 5, 6))},
    )
    assert course.at(Position.SUPINE, 0.9) == Body(71, 122, 83)
    assert course.at(Position.SUPINE, 5) == Body(74, 125, 86)
    assert course.at(Position.STANDING, 0.5) == Body(85, 75, 62.5)
    assert course.at(Position.STANDING, 2) == Body(90, 110, 85)
    assert course.at(Position.SEATED, 5) == Body(74, 116, 82)


def test_nobody_is_drawn_past_what_lives() -> None:
    """Numbers are kept at the least that can be, and the diastolic below the systolic."""
    assert NOTHING.possible() == Body(35, 55, 30)
    assert Body(200, 100, 120).possible() == Body(200, 100, 88)


def test_pressures_move_together_by_one_half() -> None:
    """Their correlation is 0.5, that with the heart rate 0: scipy.stats.pearsonr."""
    from scipy import stats  # type: ignore[import-untyped]

    chance = Random(20260313)
    drawn = [spread(Body(3, 4, 2), chance) for _ in range(2000)]
    both = stats.pearsonr([one.systolic for one in drawn], [one.diastolic for one in drawn])
    rate = stats.pearsonr([one.systolic for one in drawn], [one.rate for one in drawn])
    assert both.confidence_interval(0.9999).low < 0.5 < both.confidence_interval(0.9999).high
    assert rate.confidence_interval(0.9999).low < 0 < rate.confidence_interval(0.9999).high
