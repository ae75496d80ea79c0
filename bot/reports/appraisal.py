"""How sure findings are, how good a test was and what could explain it, in a clinician's words."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final, assert_never

from bot.findings.certainty import (
    CLEAR_FROM,
    CLEARLY_NOT_UP_TO,
    Certainties,
    Certainty,
    ChangeCertainty,
)
from bot.findings.explanations import Cause, Effect, Explanation, explained_by
from bot.findings.figures import PUBLISHED, Fact
from bot.findings.lines import Known
from bot.findings.quality import Quality, QualityReason, Weight
from bot.findings.result import Finding, Findings, Line
from bot.protocol.circumstances import Cuff, Departure, Medicine
from bot.protocol.record import Measure, TestRecord
from bot.reports.formats import decimal, minutes, percent, signed, whole
from bot.texts import render

_REPEATABLE: Final = (Line.HEART_RATE_RISE, Line.CLASSICAL_FALL, Line.LATER_FALL)
"""Lines on a change that another day is said of."""


def certainty(finding: Finding, known: Certainties, locale: str) -> str:
    """Return how sure it is that a line is met; empty for one that is not on a change."""
    sure = known.on(finding.line)
    if sure is None:
        return ""
    band = render(f"files.band.{sure.band}", {}, locale)
    params = {"probability": percent(sure.probability, locale), "band": band}
    return render("files.certainty", params, locale)


def margin(finding: Finding, known: Certainties) -> float | None:
    """Return half the width of the 95 % interval of the change that decides a finding.

    `None` for a finding on no change, or one whose number is another than its certainty is of.
    """
    sure = known.on(finding.line)
    if sure is None or (sure.change.size, sure.change.measure) != (finding.size, finding.measure):
        return None
    return half(sure.change)


def half(change: ChangeCertainty) -> float:
    """Return half the width of the 95 % interval of a change."""
    return change.high - change.size


def certainty_notes(known: Certainties, locale: str) -> Iterator[str]:
    """Yield what a probability means, and what to mind about these."""
    if known.rise_hinges_on_fall:
        yield render("files.certainty.hinges", {}, locale)
    days = [_another_day(one, locale) for one in known.lines if one.line in _REPEATABLE]
    if days:
        yield render("files.certainty.another-day", {"list": "; ".join(days)}, locale)
    if any(one.change.measure is Measure.HEART_RATE and not one.sourced for one in known.lines):
        yield render("files.certainty.unsourced", {}, locale)
    if known.lines:
        bounds = {"clear": CLEAR_FROM, "not_there": CLEARLY_NOT_UP_TO}
        params = {name: whole(100 * bound, locale) for name, bound in bounds.items()}
        yield render("files.certainty.note", params, locale)


def _another_day(one: Certainty, locale: str) -> str:
    params = {
        "name": render(f"files.line.{one.line}", {}, locale),
        "low": signed(one.another_day.low, locale),
        "high": signed(one.another_day.high, locale),
    }
    return render("files.certainty.range", params, locale)


def quality_lines(judged: Quality, locale: str) -> Iterator[str]:
    """Yield the grade with what it rests on, then what to mind besides."""
    against = [one for one in judged.reasons if one.weight is not Weight.NOTE]
    notes = [one for one in judged.reasons if one.weight is Weight.NOTE]
    grade = render(f"files.quality.{judged.grade}", {}, locale)
    if against:
        params = {"grade": grade, "list": _shortfalls(against, locale)}
        yield render("files.quality.because", params, locale)
    else:
        yield render("files.quality.grade", {"grade": grade}, locale)
    if notes:
        yield render("files.quality.mind", {"list": _shortfalls(notes, locale)}, locale)


def quality_brief(judged: Quality, locale: str) -> str:
    """Return the grade, and all that it rests on or that is to be minded."""
    grade = render(f"files.quality.{judged.grade}", {}, locale)
    if not judged.reasons:
        return grade
    params = {"grade": grade, "list": _shortfalls(judged.reasons, locale)}
    return render("files.quality.brief", params, locale)


def _shortfalls(reasons: Iterable[QualityReason], locale: str) -> str:
    return "; ".join(render(f"files.shortfall.{one.shortfall}", {}, locale) for one in reasons)


def explanations(record: TestRecord, findings: Findings, locale: str) -> Iterator[str]:
    """Yield what could explain findings, a line for each thing that causes can do."""
    by_effect: dict[Effect, dict[Cause, Explanation]] = {}
    for finding in findings.findings:
        for one in explained_by(finding, record.circumstances):
            by_effect.setdefault(one.effect, {})[one.cause] = one
    for effect, found in by_effect.items():
        by_source: dict[str, list[str]] = {}
        for one in found.values():
            by_source.setdefault(_source(one, locale), []).append(_cause(one.cause, locale))
        named = "; ".join(
            render(
                "files.explained.causes", {"causes": ", ".join(causes), "source": source}, locale
            )
            for source, causes in by_source.items()
        )
        yield render(f"files.explained.{effect}", {"list": named}, locale)


def _of(causes: Sequence[str], source: str, locale: str) -> str:
    params = {"causes": ", ".join(causes), "source": source}
    return render("files.explained.causes", params, locale)


def _cause(cause: Cause, locale: str) -> str:
    match cause:
        case Departure():
            return render(f"files.departure.{cause}", {}, locale)
        case Medicine() | Cuff():
            return render(f"files.explained.{cause}", {}, locale)
        case _:
            assert_never(cause)


def _source(one: Explanation, locale: str) -> str:
    match one.source.known:
        case Known.FOUND | Known.SECOND_HAND:
            return one.source.text
        case Known.MEMORY:
            return render("files.explained.memory", {}, locale)
        case Known.PRACTICE | Known.DATA:
            return render("files.explained.practice", {}, locale)
        case _:
            assert_never(one.source.known)


def context(locale: str) -> Iterator[str]:
    """Yield what published work says of the lines, each with its source."""
    for key, shown, people in (
        (
            "line",
            {"sensitivity": Fact.RISE_LINE_SENSITIVITY, "specificity": Fact.RISE_LINE_SPECIFICITY},
            True,
        ),
        (
            "healthy",
            {
                "mean": Fact.HEALTHY_RISE_MEAN,
                "sd": Fact.HEALTHY_RISE_SD,
                "centile": Fact.HEALTHY_RISE_95TH_CENTILE,
            },
            True,
        ),
        ("short", {"five": Fact.MISSED_AT_5_MINUTES, "two": Fact.MISSED_AT_2_MINUTES}, False),
        (
            "hour",
            {"morning": Fact.MET_IN_THE_MORNING, "afternoon": Fact.MET_IN_THE_AFTERNOON},
            False,
        ),
        (
            "arm",
            {"systolic": Fact.HANGING_ARM_SYSTOLIC, "diastolic": Fact.HANGING_ARM_DIASTOLIC},
            False,
        ),
    ):
        figures = {name: PUBLISHED[fact] for name, fact in shown.items()}
        first = next(iter(figures.values()))
        params = {name: decimal(figure.value, locale) for name, figure in figures.items()}
        params["source"] = first.source.text
        if people and first.people is not None:
            params["people"] = whole(first.people, locale)
        yield render(f"files.context.{key}", params, locale)


def aftercare(record: TestRecord, locale: str, most: int) -> Iterator[str]:
    """Yield how the person was looked after since the end, the latest answers of many."""
    told = [
        render(
            "files.after.at",
            {
                "time": minutes(one.at - (record.ended_at or record.began_at), locale),
                "answer": render(f"files.after.{one.answer}", {}, locale),
            },
            locale,
        )
        for one in record.aftercare[-most:]
    ]
    if told:
        yield render("files.after", {"list": "; ".join(told)}, locale)
