"""Slips of typing: what is taken is what stands there."""

import pytest

from bot.readings import read
from bot.readings.outcome import Understood
from tests.readings.noise import messages

EACH = 2_000


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_no_slip_makes_a_number_silently_wrong(seed: int) -> None:
    """Of 6,000 messages with slips, none gives a number other than the one typed in its place."""
    wrong: list[tuple[str, Understood]] = []
    understood = 0
    for message in messages(EACH, seed):
        outcome = read(message.text)
        if isinstance(outcome, Understood):
            understood += 1
            if message.wrong(outcome.values):
                wrong.append((message.text, outcome))
    assert wrong == []
    assert understood > EACH / 2
