"""The whole chain: the same figures from the same seed, whoever does the work."""

import json

import pytest
from rich.console import Console
from typer.testing import CliRunner

from bot.cli import app
from bot.cohort.figures import rates, score
from bot.cohort.population import Pattern
from bot.cohort.running import run
from bot.cohort.showing import tables
from bot.cohort.tallies import Against, Forecast, Said, Subject, Tally
from bot.cohort.trials import BLOCK
from bot.protocol.released import FOUR_READINGS, SIX_READINGS

BOTH = (FOUR_READINGS.ref, SIX_READINGS.ref)
SIZE = 2 * BLOCK + 10


@pytest.fixture(scope="module")
def tally() -> Tally:
    """A small cohort, done by this process alone: two blocks, the second not full."""
    return run(SIZE, 7, BOTH, processes=1)


def command(*options: str) -> str:
    """Return what `wallside characteristics` prints."""
    done = CliRunner().invoke(app, ["characteristics", *options], catch_exceptions=False)
    assert done.exit_code == 0
    return done.stdout


def test_processes_change_nothing(tally: Tally) -> None:
    """Two processes give the figures of one, and say how many tests they did."""
    done: list[int] = []
    assert run(SIZE, 7, BOTH, processes=2, done=done.append) == tally
    assert sum(done) == SIZE


def test_another_seed_draws_others(tally: Tally) -> None:
    """The chance is that of the seed."""
    assert run(6, 8, BOTH, processes=1) != run(6, 7, BOTH, processes=1)


def test_everybody_takes_both_protocols(tally: Tally) -> None:
    """As many tests by each, and as many verdicts as tests on every subject."""
    by_protocol = {
        protocol.id: sum(count for (id_, _), count in tally.tests.items() if id_ == protocol.id)
        for protocol in BOTH
    }
    assert by_protocol == {"four-readings": SIZE // 2, "six-readings": SIZE // 2}
    for subject in Subject:
        found = rates(tally, subject, Against.PERSON)
        assert sum(found.true.values()) + sum(found.untrue.values()) == SIZE


def test_four_readings_never_speak_of_an_early_fall(tally: Tally) -> None:
    """Nothing is read in the first 3 min, so nothing is found there, and nothing is denied."""
    found = rates(tally, Subject.CLASSICAL_FALL, Against.PERSON, "four-readings")
    assert {said for said in Said if found.true[said] or found.untrue[said]} == {Said.NOTHING}


def test_probabilities_beat_whoever_says_the_share_alone(tally: Tally) -> None:
    """The Brier score of the true changes is below that of always saying how many there are."""
    found = score(tally, Forecast.TRUE_CHANGE)
    assert found.brier is not None
    assert found.base is not None
    assert found.brier < found.base / 2


def test_tables_fit_a_narrow_terminal(tally: Tally) -> None:
    """At 80 columns no name or number is cut."""
    console = Console(width=80, record=True, file=None)
    with console.capture() as captured:
        for table in tables(tally):
            console.print(table)
    text = captured.get()
    assert "…" not in text
    assert all(len(line) <= 80 for line in text.splitlines())
    for word in ("supine-rate-below-60", "Brier", "clearly-not", "by six alone"):
        assert word in text


def test_json_holds_everything() -> None:
    """The command gives JSON with an entry for each protocol, grade and subject, each truth."""
    options = ("--tests", "12", "--seed", "3", "--processes", "1", "--json")
    told = json.loads(command(*options))
    assert (told["tests"], told["seed"]) == (12, 3)
    assert len(told["findings"]) == 2 * 2 * 4 * len(Subject)
    assert len(told["patterns"]) == 2 * len(Pattern) * len(Subject)
    ended = [sum(shares.values()) for shares in told["endings"].values() if shares]
    assert ended == pytest.approx([1] * len(ended))
    assert set(told["reliability"]) == set(Forecast)
    assert sum(told["typed"].values()) == pytest.approx(1)


def test_one_protocol_alone() -> None:
    """The command takes one protocol only when told, says so, and has no two to compare."""
    text = command("--tests", "4", "--processes", "1", "--protocol", "six-readings")
    assert "4 tests, seed 1" in text
    assert "six-readings, against" in text
    assert "four-readings" not in text
    assert "by six alone" not in text
