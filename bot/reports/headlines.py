"""The headline findings in plain words: heart-rate rise, pressure fall, and how sure they are."""

from collections.abc import Iterator
from typing import Final, assert_never

from bot.findings.certainty import Band, Certainties
from bot.findings.result import Finding, Findings, Line, Reason, State
from bot.protocol.record import Measure
from bot.reports.formats import whole
from bot.reports.sentences import Sentence

_RATE_REASONS: Final = frozenset(
    {
        Reason.UNDER_12,
        Reason.AGE_NOT_TOLD,
        Reason.PRESSURE_FELL,
        Reason.SUPINE_RATE_HIGH,
        Reason.ONE_STANDING_READING,
        Reason.READINGS_TOO_CLOSE,
        Reason.NO_SUPINE_READING,
        Reason.SUPINE_NUMBER_MISSING,
        Reason.NO_STANDING_READING,
        Reason.STANDING_NUMBER_MISSING,
        Reason.AFTER_10_MINUTES,
    }
)
"""Reasons why a rise is not judged that have a sentence of their own."""


def rate(findings: Findings, known: Certainties, locale: str) -> Iterator[Sentence]:
    """Yield what the heart rate did, where that stands against its line, and how surely."""
    finding = findings.on(Line.HEART_RATE_RISE)
    yield from _rate_numbers(findings, locale)
    limit = {} if finding.limit is None else {"limit": whole(finding.limit, locale)}
    match finding.state:
        case State.MET:
            yield Sentence("results.rate.met", limit)
        case State.MET_ONCE:
            close = Reason.READINGS_TOO_CLOSE in finding.reasons
            yield Sentence(f"results.rate.met-{'close' if close else 'once'}", limit)
        case State.NOT_MET:
            yield Sentence("results.rate.not-met", limit)
        case State.CANNOT_JUDGE | State.NOT_MEASURED:
            yield from (
                Sentence(f"results.rate.{reason}")
                for reason in finding.reasons[:1]
                if reason in _RATE_REASONS
            )
        case _:
            assert_never(finding.state)
    if (sure := known.on(Line.HEART_RATE_RISE)) is not None:
        yield Sentence(f"results.band.{sure.band}")
    if known.rise_hinges_on_fall:
        yield Sentence("results.rate.hinges")


def rate_caveats(findings: Findings) -> Iterator[Sentence]:
    """Yield what to mind about the heart rate."""
    reasons = findings.on(Line.HEART_RATE_RISE).reasons
    for reason, key in (
        (Reason.FALL_NOT_EXCLUDED, "results.rate.fall-not-excluded"),
        (Reason.SUPINE_RATE_BELOW_60, "results.rate.slow-start"),
        (Reason.SHORT_STAND, "results.rate.short-stand"),
    ):
        if reason in reasons:
            yield Sentence(key)


def _rate_numbers(findings: Findings, locale: str) -> Iterator[Sentence]:
    lying = None if findings.baseline is None else findings.baseline.values.heart_rate
    changes = [c.heart_rate for c in findings.changes if c.heart_rate is not None]
    if lying is None or not changes:
        return
    change = max(changes)
    kind = "same" if change == 0 else "rose" if change > 0 else "fell"
    numbers = {"lying": whole(lying, locale), "highest": whole(lying + change, locale)}
    yield Sentence(f"results.rate.{kind}", {**numbers, "change": whole(abs(change), locale)})


def pressure(findings: Findings, known: Certainties, locale: str) -> Iterator[Sentence]:
    """Yield what the pressure did, where that stands against its lines, and how surely."""
    early, later = findings.on(Line.CLASSICAL_FALL), findings.on(Line.LATER_FALL)
    if State.MET in {early.state, later.state}:
        yield from _fall(findings, early, later, locale)
        line = Line.CLASSICAL_FALL if early.state is State.MET else Line.LATER_FALL
        if (sure := known.on(line)) is not None:
            yield Sentence(f"results.band.{sure.band}")
        return
    if early.state is State.NOT_MET:
        judged = later.state is State.NOT_MET
        yield Sentence(f"results.pressure.none-{'seen' if judged else 'early'}")
        if Reason.ONE_READING_WITHIN_3_MINUTES in early.reasons:
            yield Sentence("results.pressure.one-early")
    else:
        yield Sentence(f"results.pressure.{_why_unknown(early)}")
        if later.state is State.NOT_MET:
            yield Sentence("results.pressure.later-not-met")
    yield from _how_near(known)


def _how_near(known: Certainties) -> Iterator[Sentence]:
    """Yield how near to the line the readings came, where none of them met it."""
    bands = {
        sure.band
        for line in (Line.CLASSICAL_FALL, Line.LATER_FALL)
        if (sure := known.on(line)) is not None
    }
    if Band.NEAR_THE_LINE in bands:
        yield Sentence("results.pressure.near-the-line")
    elif bands:
        yield Sentence("results.pressure.clearly-not")


def _fall(findings: Findings, early: Finding, later: Finding, locale: str) -> Iterator[Sentence]:
    lying = None if findings.baseline is None else findings.baseline.values.systolic
    changes = [c.systolic for c in findings.changes if c.systolic is not None]
    if lying is not None and changes:
        lowest = whole(lying + min(changes), locale)
        params = {"lying": whole(lying, locale), "lowest": lowest}
        yield Sentence("results.pressure.numbers", params)
    finding, when = (early, "early") if early.state is State.MET else (later, "later")
    if finding.size is None or finding.at is None:
        raise ValueError(f"{finding.line} is met without a size or a time")
    side = "diastolic" if finding.measure is Measure.DIASTOLIC else "systolic"
    yield Sentence(
        f"results.pressure.{when}-{side}",
        {"change": whole(abs(finding.size), locale), "time": finding.at},
    )


def pressure_caveats(findings: Findings) -> Iterator[Sentence]:
    """Yield what to mind about a fall that is met."""
    later = findings.on(Line.LATER_FALL)
    if later.state is State.MET and Reason.PERSISTING_OR_LATER in later.reasons:
        yield Sentence("results.pressure.start-unknown")


def _why_unknown(early: Finding) -> str:
    match early.reasons[:1]:
        case (Reason.NOTHING_WITHIN_3_MINUTES,):
            return "early-unknown"
        case (Reason.NO_SUPINE_READING,):
            return "no-supine-reading"
        case (Reason.NO_STANDING_READING,):
            return "no-standing-reading"
        case _:
            return "number-missing"


def starts_high(findings: Findings) -> bool:
    """Whether the heart rate was high already lying, which its own sentence says."""
    return Reason.SUPINE_RATE_HIGH in findings.on(Line.HEART_RATE_RISE).reasons[:1]
