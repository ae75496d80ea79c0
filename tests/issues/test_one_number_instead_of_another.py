"""A slip told as "124 not 142" was asked about, though the 142 had just been given."""

import pytest

from bot.protocol.record import Values
from bot.readings import read
from bot.readings.outcome import Understood

GIVEN = Values(systolic=142, diastolic=80)


@pytest.mark.parametrize("words", ["sorry 124 not 142", "perdón, 124 no 142", "124 not 142"])
def test_a_number_takes_the_place_of_the_one_it_is_not(words: str) -> None:
    """The number that was given before says which one is meant."""
    assert read(words, GIVEN) == Understood(values=Values(systolic=124), correction=True)


@pytest.mark.parametrize(
    "words", ["124 not 150", "24 not 142", "79 not 142", "124 not 142 pulse 70"]
)
def test_what_does_not_fit_is_not_put_in_its_place(words: str) -> None:
    """An unknown number, an impossible or an odd one, or more beside it is not taken that way."""
    outcome = read(words, GIVEN)
    assert not (isinstance(outcome, Understood) and outcome.values == Values(systolic=124))
    assert not (isinstance(outcome, Understood) and outcome.values.systolic in {24, 79})
