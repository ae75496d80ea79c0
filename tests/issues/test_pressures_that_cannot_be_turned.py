"""Two pressures in the wrong order, too close to be turned: the question could not be put in words.

"96/100 72" was doubted with no better guess, but its question named one: the message could not be
made, and the person heard nothing. A lone diastolic pressure of 140 was taken without a question.
"""

import pytest

from bot.engine.effects import Say
from bot.protocol.record import Values
from bot.readings import read
from bot.readings.outcome import Doubt, Doubtful
from bot.reports.presenting import present
from bot.testing.playbook import Playbook


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("words", ["96/100 72", "100/100 72"])
def test_every_doubt_is_asked_in_words(words: str, language: str) -> None:
    """The question is sent, holds the numbers, and a yes keeps them as they were typed."""
    book = Playbook(locale=language).lies_down().waits(minutes=5).types(words)
    said = [effect for effect in book.effects if isinstance(effect, Say)]
    assert words.split(" ", maxsplit=1)[0] in present(said[-1], language).text
    book.taps("yes")
    assert book.said[0].startswith("reading.kept")


@pytest.mark.parametrize("words", ["la baja 140 pulso 70", "diastolic 130"])
def test_a_lone_high_diastolic_pressure_is_asked_about(words: str) -> None:
    """Without a systolic pressure to hold it against it is kept only after a yes."""
    outcome = read(words)
    assert isinstance(outcome, Doubtful)
    assert outcome.doubt is Doubt.HIGH_DIASTOLIC


def test_an_ordinary_one_or_one_beside_its_systolic_is_not() -> None:
    """From 130 only, and only when nothing is known to hold it against."""
    assert not isinstance(read("diastolic 129"), Doubtful)
    assert not isinstance(read("diastolic 130", Values(systolic=190)), Doubtful)


def test_a_lone_high_diastolic_pressure_still_ends_the_test() -> None:
    """Lying down comes before being exact: doubted or not, the stop line holds."""
    book = Playbook().lies_down().waits(minutes=5).types("diastolic 140")
    assert any(key.startswith("tell.") or "high" in key for key in book.said)
    assert book.conversation.recovery is not None
