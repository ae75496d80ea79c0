"""Findings in a clinician's words: name, state, size, limit and source."""

from collections.abc import Mapping
from typing import Final, assert_never

from bot.findings import SOURCES, Finding, Known, Line, State
from bot.findings.lines import (
    BRADYCARDIA,
    DIASTOLIC_FALL,
    DIASTOLIC_VERY_HIGH,
    LARGE_SYSTOLIC_FALL,
    NARROW_SHARE,
    NEUROGENIC_RATIO,
    RISE_FROM_12_TO_19,
    RISE_FROM_20,
    STANDING_RATE_120,
    STANDING_SYSTOLIC_HIGH,
    STANDING_SYSTOLIC_LOW,
    SUPINE_DIASTOLIC_HIGH,
    SUPINE_RATE_BELOW_60,
    SUPINE_RATE_HIGH,
    SUPINE_SYSTOLIC_HIGH,
    SYSTOLIC_FALL,
    SYSTOLIC_RISE,
    SYSTOLIC_VERY_HIGH,
)
from bot.protocol.definition import Position
from bot.protocol.record import Reading, TestRecord
from bot.reports.formats import minutes, ratio, signed, whole
from bot.texts import render

_CHANGES: Final = frozenset(
    {
        Line.HEART_RATE_RISE,
        Line.CLASSICAL_FALL,
        Line.LATER_FALL,
        Line.LARGE_FALL,
        Line.PRESSURE_RISE,
        Line.PRESSOR_RESPONSE,
    }
)
"""Lines whose size is a change, written with its sign."""

_SUPINE: Final = frozenset(
    {
        Line.SUPINE_HYPERTENSION,
        Line.SUPINE_RATE_HIGH,
        Line.SUPINE_RATE_BELOW_60,
        Line.BRADYCARDIA,
    }
)
"""Lines that the supine reading alone decides."""

_FALL: Final = {"systolic": -SYSTOLIC_FALL.value, "diastolic": -DIASTOLIC_FALL.value}

_RULES: Final[Mapping[Line, tuple[str, Mapping[str, float]]]] = {
    Line.CLASSICAL_FALL: ("fall", _FALL),
    Line.LATER_FALL: ("fall", _FALL),
    Line.LARGE_FALL: ("large-fall", {"systolic": -LARGE_SYSTOLIC_FALL.value}),
    Line.STANDING_SYSTOLIC_LOW: (
        "standing-systolic-low",
        {"systolic": STANDING_SYSTOLIC_LOW.value},
    ),
    Line.PRESSURE_RISE: (
        "pressure-rise",
        {"rise": SYSTOLIC_RISE.value, "systolic": STANDING_SYSTOLIC_HIGH.value},
    ),
    Line.PRESSOR_RESPONSE: ("pressor-response", {"rise": SYSTOLIC_RISE.value}),
    Line.SUPINE_HYPERTENSION: (
        "either-high",
        {"systolic": SUPINE_SYSTOLIC_HIGH.value, "diastolic": SUPINE_DIASTOLIC_HIGH.value},
    ),
    Line.SUPINE_RATE_HIGH: ("rate-above", {"limit": SUPINE_RATE_HIGH.value}),
    Line.SUPINE_RATE_BELOW_60: ("rate-below", {"limit": SUPINE_RATE_BELOW_60.value}),
    Line.BRADYCARDIA: ("rate-below", {"limit": BRADYCARDIA.value}),
    Line.STANDING_RATE_120: ("rate-at-least", {"limit": STANDING_RATE_120.value}),
    Line.NARROW_PULSE_PRESSURE: ("narrow-pulse-pressure", {"share": 100 * NARROW_SHARE}),
    Line.VERY_HIGH_PRESSURE: (
        "either-high",
        {"systolic": SYSTOLIC_VERY_HIGH.value, "diastolic": DIASTOLIC_VERY_HIGH.value},
    ),
}


def name(finding: Finding, locale: str) -> str:
    """Return the name of its line."""
    return render(f"files.line.{finding.line}", {}, locale)


def state(finding: Finding, locale: str) -> str:
    """Return its state and the reasons for it or against it."""
    words = render(f"files.state.{finding.state}", {}, locale)
    if not finding.reasons:
        return words
    reasons = "; ".join(render(f"files.reason.{reason}", {}, locale) for reason in finding.reasons)
    return render("files.state.why", {"state": words, "reasons": reasons}, locale)


def rule(finding: Finding, locale: str) -> str:
    """Return the limit it is held against."""
    match finding.line:
        case Line.HEART_RATE_RISE if finding.limit is not None:
            params: Mapping[str, str] = {"limit": whole(finding.limit, locale)}
            return render("files.rule.heart-rate-rise", params, locale)
        case Line.HEART_RATE_RISE:
            limits = {"adult": RISE_FROM_20.value, "young": RISE_FROM_12_TO_19.value}
            params = {key: whole(value, locale) for key, value in limits.items()}
            return render("files.rule.heart-rate-rise-by-age", params, locale)
        case Line.NEUROGENIC_PATTERN:
            params = {"ratio": ratio(NEUROGENIC_RATIO.value, locale)}
            return render("files.rule.neurogenic-pattern", params, locale)
        case _:
            key, values = _RULES[finding.line]
            params = {name: whole(value, locale) for name, value in values.items()}
            return render(f"files.rule.{key}", params, locale)


def size(finding: Finding, record: TestRecord, locale: str, margin: float | None = None) -> str:
    """Return the number that decides, and when it was read; empty when there is none.

    Args:
        finding: Which finding.
        record: The test.
        locale: The language.
        margin: Half the width of the interval that holds the true number.
    """
    if finding.size is None:
        return ""
    if finding.measure is not None:
        key = str(finding.measure)
        standing_pressure = (
            finding.line is Line.PRESSURE_RISE and finding.limit == STANDING_SYSTOLIC_HIGH.value
        )
        changed = finding.line in _CHANGES and not standing_pressure
        value = (signed if changed else whole)(finding.size, locale)
    elif finding.line is Line.NEUROGENIC_PATTERN:
        key, value = "ratio", ratio(finding.size, locale)
    else:
        key, value = "pulse-pressure", whole(finding.size, locale)
    if margin is not None:
        params = {"value": value, "margin": whole(margin, locale)}
        value = render("files.margin", params, locale)
    words = render(f"files.size.{key}", {"value": value}, locale)
    deciding = _deciding(finding, record)
    if deciding is None:
        return words
    time = when(deciding.position, minutes(deciding.offset, locale), locale)
    return render("files.size.at", {"size": words, "when": time}, locale)


def _deciding(finding: Finding, record: TestRecord) -> Reading | None:
    """Return the reading that decided; the supine one may have the same offset in its phase."""
    return next(
        (
            reading
            for reading in record.readings
            if reading.number in finding.evidence
            and reading.offset == finding.at
            and _could_decide(finding, reading)
        ),
        None,
    )


def _could_decide(finding: Finding, reading: Reading) -> bool:
    if finding.line is Line.VERY_HIGH_PRESSURE:
        return finding.size in {reading.values.systolic, reading.values.diastolic}
    position = Position.SUPINE if finding.line in _SUPINE else Position.STANDING
    return reading.position is position


def when(position: Position, time: str, locale: str) -> str:
    """Return a position and a time in it: `Standing 5:40`."""
    where = render(f"files.position.{position}", {}, locale)
    return render("files.when", {"position": where, "time": time}, locale)


def brief(finding: Finding, record: TestRecord, locale: str) -> str:
    """Return a line that is not met in few words: its name, its number and its limit."""
    number = size(finding, record, locale)
    if not number:
        return name(finding, locale)
    params = {"name": name(finding, locale), "size": number, "limit": rule(finding, locale)}
    return render("files.brief", params, locale)


def source(finding: Finding, locale: str) -> str:
    """Return where its line comes from, and how well that is known."""
    citation = render(f"files.source.{finding.line}", {}, locale)
    known = SOURCES[finding.line].known
    match known:
        case Known.FOUND:
            return citation
        case Known.SECOND_HAND:
            return render("files.known.second-hand", {"source": citation}, locale)
        case Known.MEMORY:
            return render("files.known.memory", {"source": citation}, locale)
        case _:
            assert_never(known)


def ranked(findings: tuple[Finding, ...]) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """Return the findings worth a row of their own, the weightiest first, and all others.

    Lines that are met come first, a very high pressure before all; then the three main lines. Of
    the others those that have a number come first.
    """
    main = {Line.HEART_RATE_RISE, Line.CLASSICAL_FALL, Line.LATER_FALL}

    def rank(finding: Finding) -> int:
        if finding.state in {State.MET, State.MET_ONCE}:
            return 0 if finding.line is Line.VERY_HIGH_PRESSURE else 1
        if finding.line in main:
            return 2
        return 3 if finding.size is not None else 4

    ordered = sorted(findings, key=rank)
    return (
        tuple(finding for finding in ordered if rank(finding) < 3),
        tuple(finding for finding in ordered if rank(finding) >= 3),
    )
