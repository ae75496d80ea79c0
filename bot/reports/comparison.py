"""Two tests side by side in plain words: which sentences of the catalogue they come to."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC
from math import floor
from typing import Final
from zoneinfo import ZoneInfo

from bot.engine.effects import Day
from bot.findings import comparison
from bot.findings.alike import Doubt
from bot.findings.comparison import REPEATABILITY, Comparison, LinePair, Meeting, Pair, Variation
from bot.findings.result import Line
from bot.protocol.record import Measure, TestRecord
from bot.protocol.released import released
from bot.reports.formats import listing, signed, whole
from bot.reports.sentences import Paragraph, Sentence, written
from bot.texts import render

_WEIGHTY: Final = (
    Line.VERY_HIGH_PRESSURE,
    Line.HEART_RATE_RISE,
    Line.CLASSICAL_FALL,
    Line.LATER_FALL,
    Line.STANDING_SYSTOLIC_LOW,
)
"""Named first. The others follow in their own order, and are named only if both tests met them."""

_SAID_BY: Final[Mapping[Line, frozenset[Line]]] = {
    Line.LARGE_FALL: frozenset({Line.CLASSICAL_FALL, Line.LATER_FALL}),
    Line.PRESSOR_RESPONSE: frozenset({Line.PRESSURE_RISE}),
    Line.SUPINE_RATE_BELOW_60: frozenset({Line.BRADYCARDIA}),
    Line.SUPINE_HYPERTENSION: frozenset({Line.VERY_HIGH_PRESSURE}),
}
"""A line that is not named when one of the others is met; the PDFs hold them all."""

_NAMED: Final = 2
"""Lines of each group, and doubts, that are named; the rest are counted."""

_DAYS_APART: Final = 2
"""Sentences on what one test alone shows: the weightiest; the PDFs hold them all."""

_OF_COURSE: Final = frozenset({Doubt.PROTOCOL, Doubt.ENDED_EARLY})
"""With these it goes without saying that not the same readings were taken."""


def compare(first: TestRecord, second: TestRecord, locale: str) -> str:
    """Return two tests of one person side by side: short paragraphs, parted by blank lines.

    Args:
        first: The test to begin with, as a rule the earlier one.
        second: The test to hold against it.
        locale: A shipped language.

    Raises:
        KeyError: The protocol of one was never released.
    """
    return written(compose(first, second, locale), locale)


def compose(first: TestRecord, second: TestRecord, locale: str) -> tuple[Paragraph, ...]:
    """Return the sentences by paragraph; only numbers and lists are put in words already."""
    found = comparison.compare(first, second)
    numbers = {"first": whole(first.number, locale), "second": whole(second.number, locale)}
    return (
        (Sentence("comparison.title", numbers),),
        (_day(first, locale), _day(second, locale)),
        *_numbers(found, first, numbers, locale),
        tuple(_lines(found, first, second, locale)),
        tuple(_doubts(found, locale)),
        (
            Sentence("comparison.screening"),
            Sentence("comparison.next"),
            Sentence("results.medicine"),
        ),
    )


def _day(record: TestRecord, locale: str) -> Sentence:
    zone = record.circumstances.zone if record.circumstances else None
    date = record.began_at.astimezone(ZoneInfo(zone) if zone else UTC).date()
    kind = "" if record.day is None else f".{record.day}"
    return Sentence(
        f"comparison.day{kind}", {"number": whole(record.number, locale), "day": Day(date)}
    )


def _numbers(
    found: Comparison, first: TestRecord, numbers: dict[str, str], locale: str
) -> Iterator[Paragraph]:
    if all(pair.variation is Variation.CANNOT_SAY for pair in found.extremes):
        yield (Sentence("comparison.nothing"),)
        return
    yield (Sentence("comparison.intro", numbers),)
    for pair in found.extremes:
        slots = _slots(found, first, locale) if pair.measure is Measure.HEART_RATE else ()
        yield (*_pair(pair, locale), *slots)
    if any(pair.difference for pair in found.extremes):
        yield (Sentence("comparison.guide"),)


def _pair(pair: Pair, locale: str) -> Iterator[Sentence]:
    values = {"first": _number(pair.first, locale), "second": _number(pair.second, locale)}
    yield Sentence(f"comparison.{pair.measure}", values)
    if pair.difference is None:
        yield Sentence("comparison.cannot-say")
    elif pair.difference == 0:
        yield Sentence("comparison.same")
    else:
        apart = whole(abs(pair.difference), locale)
        limit = whole(floor(REPEATABILITY[pair.measure]), locale)
        yield Sentence(f"comparison.{pair.variation}", {"change": apart, "limit": limit})


def _number(change: int | None, locale: str) -> str:
    return render("comparison.no-number", {}, locale) if change is None else signed(change, locale)


def _slots(found: Comparison, first: TestRecord, locale: str) -> Iterator[Sentence]:
    protocol = released(first.protocol)
    said = [
        render(
            "comparison.slot",
            {
                "time": protocol.slot(pair.slot).due,
                "first": _number(pair.first, locale),
                "second": _number(pair.second, locale),
            },
            locale,
        )
        for pair in found.slots
        if pair.slot is not None
        and pair.measure is Measure.HEART_RATE
        and pair.difference is not None
    ]
    if said:
        yield Sentence("comparison.slots", {"list": "; ".join(said)})


def _lines(
    found: Comparison, first: TestRecord, second: TestRecord, locale: str
) -> Iterator[Sentence]:
    if not found.lines:
        yield Sentence("comparison.lines.none")
        return
    met = {pair.line for pair in found.lines}
    ordered = sorted(
        (pair for pair in found.lines if not _SAID_BY.get(pair.line, frozenset()) & met),
        key=lambda pair: _weight(pair.line),
    )
    both = [pair for pair in ordered if pair.meeting is Meeting.BOTH]
    if both:
        yield Sentence("comparison.lines.both", {"list": _names(both, locale)})
    groups = [
        (record, key, pairs)
        for record, meeting in ((first, Meeting.FIRST), (second, Meeting.SECOND))
        for key, judged in (("one", True), ("unknown", False))
        if (pairs := _on_one_day(ordered, meeting, judged=judged))
    ]
    named = sorted(groups, key=lambda group: _weight(group[2][0].line))[:_DAYS_APART]
    for record, key, pairs in groups:
        if (record, key, pairs) in named:
            params = {"number": whole(record.number, locale), "list": _names(pairs, locale)}
            yield Sentence(f"comparison.lines.{key}", params)
    if not all(pair.confirmed for pair in found.lines):
        yield Sentence("comparison.lines.not-confirmed")
    light = any(pair.meeting is not Meeting.BOTH and pair.line not in _WEIGHTY for pair in ordered)
    if light or len(named) < len(groups):
        yield Sentence("comparison.lines.more")


def _on_one_day(ordered: Sequence[LinePair], meeting: Meeting, *, judged: bool) -> list[LinePair]:
    return [
        pair
        for pair in ordered
        if pair.meeting is meeting and pair.line in _WEIGHTY and pair.judged is judged
    ]


def _weight(line: Line) -> int:
    return _WEIGHTY.index(line) if line in _WEIGHTY else len(_WEIGHTY)


def _names(pairs: Sequence[LinePair], locale: str) -> str:
    return _short([render(f"comparison.line.{pair.line}", {}, locale) for pair in pairs], locale)


def _doubts(found: Comparison, locale: str) -> Iterator[Sentence]:
    if not found.doubts:
        return
    names = [
        render(f"comparison.doubt.{doubt}", {}, locale)
        for doubt in found.doubts
        if doubt is not Doubt.READINGS or not _OF_COURSE & {*found.doubts}
    ]
    yield Sentence("comparison.doubts", {"list": _short(names, locale)})
    yield Sentence("comparison.doubts.meaning")
    if Doubt.HOUR in found.doubts:
        yield Sentence("comparison.doubts.hour")


def _short(names: list[str], locale: str) -> str:
    """Return a list in words; one too many is counted, never just one."""
    left_out = len(names) - _NAMED
    if left_out > 1:
        names = [*names[:_NAMED], render("comparison.more", {"value": left_out}, locale)]
    return listing(names, locale)
