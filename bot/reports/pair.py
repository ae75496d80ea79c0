"""Two tests side by side on two pages: what changed between them, then both charts on one scale."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bot.findings import comparison, find
from bot.findings.comparison import (
    REPEATABILITY,
    WITHIN_PERSON_SD,
    Comparison,
    LinePair,
    Meeting,
    Pair,
)
from bot.findings.quality import quality
from bot.findings.result import Findings
from bot.protocol.record import Measure, TestRecord, Values
from bot.protocol.released import released
from bot.reports import appraisal, circumstances
from bot.reports.chart import draw, reach
from bot.reports.formats import NONE, decimal, minutes, pressures, signed, whole
from bot.reports.imprint import Imprint
from bot.reports.key import symptom_name
from bot.reports.rows import rows
from bot.reports.typesetting import TooLongError, typeset_page
from bot.texts import render

TEMPLATE: Final = "pair.typ"

_TEXT: Final = (9.5, 8.5, 7.5, 6.5, 6.0)
"""Sizes of text, tried in turn until all fits."""

_SYMPTOMS: Final = (99, 30, 14, 8, 5)
"""How many symptoms of each test are named at each of these sizes; the rest are counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Both:
    """What the pages are made of."""

    first: TestRecord
    second: TestRecord
    one: Findings
    other: Findings
    found: Comparison
    drawings: tuple[str, str]
    imprint: Imprint
    locale: str

    def each(self) -> Iterator[tuple[TestRecord, Findings]]:
        """Yield each test with what it shows."""
        yield self.first, self.one
        yield self.second, self.other

    def say(self, key: str, **params: str) -> str:
        """Return a sentence in the language of the pages."""
        return render(key, params, self.locale)

    def head(self, *names: str) -> list[str]:
        """Return the heads of a table."""
        return [self.say(f"files.head.{name}") for name in names]

    def numbered(self, key: str) -> list[str]:
        """Return a phrase for each test, with its number."""
        return [self.say(key, number=whole(test.number, self.locale)) for test, _ in self.each()]


def typeset(first: TestRecord, second: TestRecord, locale: str, imprint: Imprint) -> bytes:
    """Return the two pages as PDF/UA-1.

    Args:
        first: The test to begin with, as a rule the earlier one.
        second: The test to hold against it.
        locale: A shipped language.
        imprint: What the pages say of themselves.

    Raises:
        KeyError: The protocol of one was never released.
        TooLongError: Not even the least of it fits; a bug.
    """
    one, other = find(first), find(second)
    held = reach(first, one, locale).joined(reach(second, other, locale))
    both = _Both(
        first=first,
        second=second,
        one=one,
        other=other,
        found=comparison.compare(first, second),
        drawings=(draw(first, one, locale, held), draw(second, other, locale, held)),
        imprint=imprint,
        locale=locale,
    )
    at = imprint.generated or second.ended_at or second.began_at
    for text, symptoms in zip(_TEXT[:-1], _SYMPTOMS[:-1], strict=True):
        try:
            return typeset_page(TEMPLATE, _facts(both, text, symptoms), at)
        except TooLongError:
            continue
    return typeset_page(TEMPLATE, _facts(both, _TEXT[-1], _SYMPTOMS[-1]), at)


def _facts(both: _Both, text: float, symptoms: int) -> Mapping[str, object]:
    say, locale = both.say, both.locale
    numbers = {
        "first": whole(both.first.number, locale),
        "second": whole(both.second.number, locale),
    }
    spread = {
        "rate": decimal(WITHIN_PERSON_SD[Measure.HEART_RATE], locale),
        "systolic": decimal(WITHIN_PERSON_SD[Measure.SYSTOLIC], locale),
        "diastolic": decimal(WITHIN_PERSON_SD[Measure.DIASTOLIC], locale),
    }
    return {
        "language": locale,
        "text": text,
        "title": say("files.compare.title", **numbers),
        "about": [say("files.page.caution")],
        "changes": {
            "title": say("files.compare.changes"),
            "head": [
                *both.head("change"),
                *both.numbered("files.head.test"),
                *both.head("difference", "repeatability", "verdict"),
            ],
            "rows": [_change(pair, both) for pair in (*both.found.extremes, *both.found.slots)],
            "strong": len(both.found.extremes),
            "notes": [say("files.compare.note", **spread)],
        },
        "lines": {"title": say("files.compare.lines"), "lines": list(_lines(both))},
        "doubts": {"title": say("files.compare.doubts"), "lines": [_doubts(both)]},
        "tests": {
            "title": say("files.compare.tests"),
            "head": [*both.head("of"), *both.numbered("files.compare.test")],
            "rows": _rows(both, symptoms),
        },
        "charts": {
            "title": say("files.compare.charts"),
            "pictures": [
                {"drawing": drawing, "alternative": say("files.chart.alternative")}
                for drawing in both.drawings
            ],
        },
        "readings": {
            "title": say("files.page.readings"),
            "head": both.head(
                "position", "taken", "pressure", "rate", "pressure-change", "rate-change"
            ),
            "tables": [
                {"title": title, "rows": _readings(test, findings, locale)}
                for title, (test, findings) in zip(
                    both.numbered("files.compare.test"), both.each(), strict=True
                )
            ],
            "notes": [say("files.page.reading-times")],
        },
        "context": {
            "title": say("files.page.context"),
            "words": " ".join(appraisal.context(locale)),
        },
        "foot": " ".join(both.imprint.lines(locale)),
    }


def _change(pair: Pair, both: _Both) -> list[str]:
    locale = both.locale
    if pair.slot is None:
        name = both.say(f"files.compare.largest.{pair.measure}")
    else:
        due = released(both.first.protocol).slot(pair.slot).due
        name = both.say(f"files.compare.at.{pair.measure}", time=minutes(due, locale))
    limit = both.say("files.compare.plus-minus", value=whole(REPEATABILITY[pair.measure], locale))
    return [
        name,
        *(_signed(number, locale) for number in (pair.first, pair.second, pair.difference)),
        limit,
        both.say(f"files.variation.{pair.variation}"),
    ]


def _signed(number: int | None, locale: str) -> str:
    return NONE if number is None else signed(number, locale)


def _lines(both: _Both) -> Iterator[str]:
    if not both.found.lines:
        yield both.say("files.compare.none")
        return
    shared = [pair for pair in both.found.lines if pair.meeting is Meeting.BOTH]
    if shared:
        yield both.say("files.compare.both", list=_names(shared, both))
    for test, meeting in ((both.first, Meeting.FIRST), (both.second, Meeting.SECOND)):
        for key, judged in (("one", True), ("unknown", False)):
            alone = [
                pair
                for pair in both.found.lines
                if pair.meeting is meeting and pair.judged is judged
            ]
            if alone:
                number = whole(test.number, both.locale)
                names, kind = _names(alone, both), _day(test, both)
                yield both.say(f"files.compare.{key}", number=number, day=kind, list=names)


def _names(pairs: Sequence[LinePair], both: _Both) -> str:
    return "; ".join(both.say(f"files.line.{pair.line}") for pair in pairs)


def _day(test: TestRecord, both: _Both) -> str:
    return both.say("files.circumstances.not-told" if test.day is None else f"files.day.{test.day}")


def _doubts(both: _Both) -> str:
    if not both.found.doubts:
        return both.say("files.compare.no-doubts")
    doubts = "; ".join(both.say(f"files.doubt.{doubt}") for doubt in both.found.doubts)
    return both.say("files.compare.differ", list=doubts)


def _rows(both: _Both, symptoms: int) -> list[list[str]]:
    """Return what is known of each test, a row for each thing."""
    columns = [_column(test, findings, both, symptoms) for test, findings in both.each()]
    return [
        [both.say(f"files.compare.row.{name}"), *(column[name] for column in columns)]
        for name in columns[0]
    ]


def _column(test: TestRecord, findings: Findings, both: _Both, symptoms: int) -> dict[str, str]:
    locale = both.locale
    return {
        "begun": circumstances.beside_local(test.began_at, test, locale),
        "day": _day(test, both),
        "protocol": str(test.protocol),
        "ending": both.say(f"files.ending.{test.ending or 'under-way'}"),
        "quality": appraisal.quality_brief(quality(test, findings), locale),
        **circumstances.by_name(test, locale),
        "symptoms": _symptoms(test, locale, symptoms),
    }


def _symptoms(test: TestRecord, locale: str, most: int) -> str:
    told = sorted(test.symptoms, key=lambda report: report.told_at)
    names = [symptom_name(report, locale) for report in told[:most]]
    if len(told) > most:
        names.append(render("comparison.more", {"value": len(told) - most}, locale))
    return "; ".join(names) or render("files.page.no-symptoms", {}, locale)


def _readings(test: TestRecord, findings: Findings, locale: str) -> list[list[str]]:
    cells = []
    for row in rows(test, findings):
        change = row.change or Values()
        rate = row.values.heart_rate
        cells.append(
            [
                render(f"files.position.{row.position}", {}, locale),
                NONE if row.reading is None else minutes(row.reading.offset, locale),
                NONE if row.reading is None else pressures(row.values, locale),
                NONE if rate is None else whole(rate, locale),
                f"{_signed(change.systolic, locale)}/{_signed(change.diastolic, locale)}",
                _signed(change.heart_rate, locale),
            ]
        )
    return cells
