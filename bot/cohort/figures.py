"""Counts into shares: sensitivity, specificity, reliability, Brier scores."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from bot.cohort.messages import Heard
from bot.cohort.population import Pattern
from bot.cohort.tallies import (
    BINS,
    MILLION,
    Against,
    Bin,
    Early,
    Forecast,
    Lasting,
    Said,
    Seen,
    Subject,
    Tally,
)
from bot.findings.certainty import Band
from bot.findings.quality import Grade
from bot.findings.result import Line
from bot.protocol.record import Ending

_ANY: Final = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """How often a subject is found where it is true, and where it is not.

    Attributes:
        subject: What is asked.
        against: Which truth.
        protocol: By which protocol; `None` for all.
        grade: With which grade; `None` for all.
        true: Tests in which it is true, by what is said.
        untrue: Tests in which it is not, by what is said.
    """

    subject: Subject
    against: Against
    protocol: str | None
    grade: Grade | None
    true: dict[Said, int]
    untrue: dict[Said, int]

    @property
    def sensitivity(self) -> float | None:
        """Share of the true ones that are found, once or confirmed."""
        return _share(self.true[Said.FOUND] + self.true[Said.ONCE], sum(self.true.values()))

    @property
    def confirmed(self) -> float | None:
        """Share of the true ones that are found and confirmed."""
        return self.of_true(Said.FOUND)

    @property
    def specificity(self) -> float | None:
        """Share of the untrue ones that are not found, not even once."""
        quiet = self.untrue[Said.NOT_MET] + self.untrue[Said.NOTHING]
        return _share(quiet, sum(self.untrue.values()))

    def of_true(self, said: Said) -> float | None:
        """Return the share of the true ones of which something is said."""
        return _share(self.true[said], sum(self.true.values()))

    def of_untrue(self, said: Said) -> float | None:
        """Return the share of the untrue ones of which something is said."""
        return _share(self.untrue[said], sum(self.untrue.values()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Reliability:
    """Probabilities of about one size.

    Attributes:
        low: The bin's lower end.
        high: Its upper end.
        given: How many.
        mean: Their mean; `None` where there are none.
        came_true: The share that came true; `None` likewise.
    """

    low: float
    high: float
    given: int
    mean: float | None
    came_true: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """How good the probabilities on one line are; `None` where there are none.

    Attributes:
        forecast: What they are of.
        line: The line; `None` for all lines together.
        given: How many.
        mean: Their mean.
        came_true: The share that came true.
        brier: Their mean squared error (Brier score).
        base: The same of whoever always says the share that came true.
        gap: The mean distance between probability and share over the bins, by their numbers.
    """

    forecast: Forecast
    line: Line | None
    given: int
    mean: float | None
    came_true: float | None
    brier: float | None
    base: float | None
    gap: float | None


def rates(
    tally: Tally,
    subject: Subject,
    against: Against,
    protocol: str | None = _ANY,
    grade: Grade | None = _ANY,
) -> Rates:
    """Return the rates of a subject, of all tests or those of a protocol or a grade."""
    counts = {truth: dict.fromkeys(Said, 0) for truth in (True, False)}
    for key, count in tally.verdicts.items():
        if (key.subject, key.against) != (subject, against):
            continue
        if protocol in {None, key.protocol} and grade in {None, key.grade}:
            counts[key.true][key.said] += count
    return Rates(
        subject=subject,
        against=against,
        protocol=protocol,
        grade=grade,
        true=counts[True],
        untrue=counts[False],
    )


def seen(tally: Tally, protocol: str, pattern: Pattern, subject: Subject) -> dict[Said, int]:
    """Return how many people of a group have what said of a subject."""
    return {said: tally.seen[Seen(protocol, pattern, subject, said)] for said in Said}


def reliability(
    tally: Tally, forecast: Forecast, line: Line | None = _ANY
) -> tuple[Reliability, ...]:
    """Return the reliability table of one forecast, on one line or all."""
    return tuple(_bin(tally, forecast, line, place) for place in range(BINS))


def score(tally: Tally, forecast: Forecast, line: Line | None = _ANY) -> Score:
    """Return how good the probabilities of one forecast are, on one line or all."""
    keys = list(_keys(tally, forecast, line))
    given = sum(tally.given[key] for key in keys)
    came_true = _share(sum(tally.came_true[key] for key in keys), given)
    distances = [
        abs(one.mean - one.came_true) * one.given
        for one in reliability(tally, forecast, line)
        if one.mean is not None and one.came_true is not None
    ]
    return Score(
        forecast=forecast,
        line=line,
        given=given,
        mean=_share(sum(tally.sums[key] for key in keys), given * MILLION),
        came_true=came_true,
        brier=_share(sum(tally.squares[key] for key in keys), given * MILLION),
        base=None if came_true is None else came_true * (1 - came_true),
        gap=sum(distances) / given if given else None,
    )


def forecast_lines(tally: Tally, forecast: Forecast) -> tuple[Line, ...]:
    """Return the lines that have probabilities."""
    found = {key.line for key in tally.given if key.forecast is forecast}
    return tuple(line for line in Line if line in found)


def band(tally: Tally, chosen: Band, line: Line | None = _ANY) -> tuple[int, float | None]:
    """Return how many changes lie in a band, and the share that is truly at or past its line."""
    counts = {
        truth: sum(
            count
            for (of, where, true), count in tally.bands.items()
            if line in {None, of} and where is chosen and true is truth
        )
        for truth in (True, False)
    }
    total = counts[True] + counts[False]
    return total, _share(counts[True], total)


def early_falls(tally: Tally, lasting: Lasting) -> dict[str, int]:
    """Return how early falls that last so are found, by name; `all` counts them."""
    names: dict[str, Callable[[Early], bool]] = {
        "all": lambda _: True,
        "four: as an early fall": lambda key: key.four is Line.CLASSICAL_FALL,
        "four: as a later fall": lambda key: key.four is Line.LATER_FALL,
        "six: as an early fall": lambda key: key.six is Line.CLASSICAL_FALL,
        "six: as a later fall": lambda key: key.six is Line.LATER_FALL,
        "by six alone": lambda key: key.six is not None and key.four is None,
        "by four alone": lambda key: key.four is not None and key.six is None,
        "by neither": lambda key: key.four is None and key.six is None,
    }
    return {
        name: sum(
            count for key, count in tally.early.items() if key.lasting is lasting and counts(key)
        )
        for name, counts in names.items()
    }


def ending_shares(tally: Tally, pattern: Pattern) -> dict[Ending, float | None]:
    """Return how the tests of a group end."""
    counts = {
        ending: sum(
            count
            for (_, of, how), count in tally.endings.items()
            if of is pattern and how is ending
        )
        for ending in Ending
    }
    total = sum(counts.values())
    return {ending: _share(count, total) for ending, count in counts.items() if count}


def heard_shares(tally: Tally) -> dict[Heard, float | None]:
    """Return what becomes of typed readings."""
    total = tally.heard.total()
    return {heard: _share(tally.heard[heard], total) for heard in Heard}


def _bin(tally: Tally, forecast: Forecast, line: Line | None, place: int) -> Reliability:
    keys = [key for key in _keys(tally, forecast, line) if key.place == place]
    given = sum(tally.given[key] for key in keys)
    return Reliability(
        low=place / BINS,
        high=(place + 1) / BINS,
        given=given,
        mean=_share(sum(tally.sums[key] for key in keys), given * MILLION),
        came_true=_share(sum(tally.came_true[key] for key in keys), given),
    )


def _keys(tally: Tally, forecast: Forecast, line: Line | None) -> Iterator[Bin]:
    for key in tally.given:
        if key.forecast is forecast and line in {None, key.line}:
            yield key


def _share(part: int, whole: int) -> float | None:
    return part / whole if whole else None
