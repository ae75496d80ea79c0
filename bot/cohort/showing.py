"""The operating characteristics as tables on a terminal, or as JSON."""

import json
import time
from collections.abc import Iterator, Sequence
from typing import Final

from rich.box import SIMPLE
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn
from rich.table import Table

from bot.cohort.export import exported, protocols_of
from bot.cohort.figures import (
    Rates,
    band,
    early_falls,
    ending_shares,
    forecast_lines,
    heard_shares,
    rates,
    reliability,
    score,
    seen,
)
from bot.cohort.population import Pattern
from bot.cohort.running import run
from bot.cohort.tallies import Against, Forecast, Lasting, Said, Subject, Tally
from bot.findings.certainty import Band
from bot.findings.quality import Grade
from bot.protocol.definition import ProtocolRef
from bot.protocol.record import Ending

_MAIN: Final = (Subject.HEART_RATE_RISE, Subject.CLASSICAL_FALL, Subject.ANY_FALL)
_TRUTHS: Final = {
    Against.PERSON: "the person's usual course, each minute, nothing in the way",
    Against.READINGS: "the true numbers of that day, at the readings taken",
}
_NOTE: Final = (
    "A synthetic cohort: invented people, in shares that are no prevalence. What these figures "
    "show is how the arithmetic and the protocol treat known truths, not how often anyone is ill."
)

_KEY: Final = (
    "true: tests in which it is true. sens.: share of these in which it is found, be it once. "
    "conf.: found and confirmed. silent: not measured, or not judged. denied: said not to be met. "
    "spec.: share of the others in which it is not found. Groups: the heart-rate rise, an early "
    "fall, any fall, the neurogenic pattern, a fast heart rate at rest, a pressure rise."
)


def show(
    tests: int,
    seed: int,
    protocols: Sequence[ProtocolRef],
    *,
    processes: int | None = None,
    as_json: bool = False,
) -> None:
    """Run the cohort with a progress bar, and print what comes of it.

    Args:
        tests: How many, at least.
        seed: Of all chance.
        protocols: What each person takes.
        processes: How many share the work; the cores of the machine without a number.
        as_json: Whether JSON is printed instead of tables.
    """
    begun = time.monotonic()
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, TimeRemainingColumn(), console=Console(stderr=True)) as bar:
        task = bar.add_task("tests", total=tests)
        tally = run(
            tests,
            seed,
            protocols,
            processes=processes,
            done=lambda count: bar.update(task, advance=count),
        )
    console = Console()
    if as_json:
        console.out(json.dumps(exported(tally, seed), indent=1), highlight=False)
        return
    speed = tally.tests.total() / (time.monotonic() - begun) * 60
    console.print(f"{tally.tests.total()} tests, seed {seed}, {speed:,.0f} a minute. {_NOTE}")
    console.print(_KEY)
    for table in tables(tally):
        console.print(table)


def tables(tally: Tally) -> Iterator[Table]:
    """Yield the tables."""
    protocols = protocols_of(tally)
    for against in Against:
        for protocol in protocols:
            yield _findings(tally, against, protocol)
    yield from (_by_grade(tally, protocol) for protocol in protocols)
    yield from (_by_pattern(tally, protocol) for protocol in protocols)
    yield _endings(tally)
    if tally.early:
        yield _early(tally)
    yield from (_reliability(tally, forecast) for forecast in Forecast)
    yield from (_scores(tally, forecast) for forecast in Forecast)
    yield _bands(tally)
    yield _typed(tally)


def _table(title: str, *headings: str) -> Table:
    table = Table(
        title=title, title_justify="left", title_style="bold", box=SIMPLE, collapse_padding=True
    )
    table.add_column(headings[0], min_width=_NAMES)
    for heading in headings[1:]:
        table.add_column(heading, justify="right")
    return table


def _percent(share: float | None) -> str:
    return "-" if share is None else f"{share:.1%}"


def _rates_row(name: str, found: Rates) -> tuple[str, ...]:
    return (
        name,
        str(sum(found.true.values())),
        _percent(found.sensitivity),
        _percent(found.confirmed),
        _percent(found.of_true(Said.NOTHING)),
        _percent(found.of_true(Said.NOT_MET)),
        _percent(found.specificity),
    )


_NAMES: Final = 21
"""Characters of the longest line's name: on 80 columns no name is cut."""

_RATES: Final = ("true", "sens.", "conf.", "silent", "denied", "spec.")


def _findings(tally: Tally, against: Against, protocol: str) -> Table:
    table = _table(f"{protocol}, against {_TRUTHS[against]}", "finding", *_RATES)
    for subject in Subject:
        table.add_row(*_rates_row(subject, rates(tally, subject, against, protocol)))
    return table


def _by_grade(tally: Tally, protocol: str) -> Table:
    title = f"{protocol}, by quality grade, against {_TRUTHS[Against.PERSON]}"
    table = _table(title, "grade, finding", "tests", *_RATES)
    for grade in Grade:
        for subject in _MAIN:
            found = rates(tally, subject, Against.PERSON, protocol, grade)
            name, *rest = _rates_row(f"{grade}: {subject}", found)
            table.add_row(name, str(tally.tests[protocol, grade]), *rest)
    return table


def _by_pattern(tally: Tally, protocol: str) -> Table:
    others = (Subject.NEUROGENIC_PATTERN, Subject.SUPINE_RATE_HIGH, Subject.PRESSURE_RISE)
    lines = (*_MAIN, *others)
    names = ("rise", "early", "any", "neuro.", "rest.", "p.rise")
    title = f"{protocol}: share of each group in which it is found"
    table = _table(title, "group", "tests", *names)
    for pattern in Pattern:
        counts = [seen(tally, protocol, pattern, subject) for subject in lines]
        total = sum(counts[0].values())
        shares = [
            _percent((one[Said.FOUND] + one[Said.ONCE]) / total if total else None)
            for one in counts
        ]
        table.add_row(pattern, str(total), *shares)
    return table


def _endings(tally: Tally) -> Table:
    endings = (Ending.COMPLETED, Ending.UNSAFE_READING, Ending.STOPPED)
    table = _table("How tests end", "group", *endings)
    for pattern in Pattern:
        shares = ending_shares(tally, pattern)
        table.add_row(pattern, *(_percent(shares.get(ending, 0.0)) for ending in endings))
    return table


def _early(tally: Tally) -> Table:
    title = "What the readings at 1 and 3 minutes buy: early falls of the person's own, same day"
    table = _table(title, "found", *Lasting)
    counts = {lasting: early_falls(tally, lasting) for lasting in Lasting}
    for name in next(iter(counts.values())):
        row = [
            f"{one[name]} ({_percent(one[name] / one['all'] if one['all'] else None)})"
            for one in counts.values()
        ]
        table.add_row(name, *row)
    return table


def _reliability(tally: Tally, forecast: Forecast) -> Table:
    table = _table(
        f"Reliability: {forecast}", "probability", "given", "mean probability", "came true"
    )
    for one in reliability(tally, forecast):
        name = f"{one.low:.1f} to {one.high:.1f}"
        table.add_row(name, str(one.given), _percent(one.mean), _percent(one.came_true))
    return table


def _scores(tally: Tally, forecast: Forecast) -> Table:
    headings = ("given", "mean", "came true", "Brier", "share alone", "gap")
    table = _table(f"Brier scores: {forecast}", "line", *headings)
    for line in (None, *forecast_lines(tally, forecast)):
        one = score(tally, forecast, line)
        table.add_row(
            line or "all lines",
            str(one.given),
            _percent(one.mean),
            _percent(one.came_true),
            "-" if one.brier is None else f"{one.brier:.4f}",
            "-" if one.base is None else f"{one.base:.4f}",
            _percent(one.gap),
        )
    return table


def _bands(tally: Tally) -> Table:
    table = _table("Bands: truly at or past the line", "line", *Band)
    for line in (None, *forecast_lines(tally, Forecast.TRUE_CHANGE)):
        row = [
            f"{_percent(share)} of {count}"
            for count, share in (band(tally, chosen, line) for chosen in Band)
        ]
        table.add_row(line or "all lines", *row)
    return table


def _typed(tally: Tally) -> Table:
    table = _table("Typed readings, and summaries", "what became of them", "share or number")
    for heard, share in heard_shares(tally).items():
        table.add_row(f"typed: {heard}", _percent(share))
    for language, count in sorted(tally.summaries.items()):
        longest = tally.longest[language]
        table.add_row(f"summaries made, {language}", f"{count}, longest {longest} characters")
    return table
