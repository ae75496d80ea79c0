"""The operating characteristics as plain data, for JSON."""

from dataclasses import asdict
from typing import Any

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
from bot.cohort.tallies import Against, Forecast, Lasting, Subject, Tally
from bot.findings.certainty import Band
from bot.findings.quality import Grade


def exported(tally: Tally, seed: int) -> dict[str, Any]:
    """Return everything as plain data."""
    protocols = protocols_of(tally)
    return {
        "tests": tally.tests.total(),
        "seed": seed,
        "by_protocol_and_grade": [
            {"protocol": protocol, "grade": grade, "tests": tally.tests[protocol, grade]}
            for protocol in protocols
            for grade in Grade
        ],
        "findings": [
            _plain(rates(tally, subject, against, protocol, grade))
            for against in Against
            for protocol in protocols
            for grade in (None, *Grade)
            for subject in Subject
        ],
        "patterns": [
            {
                "protocol": protocol,
                "pattern": pattern,
                "subject": subject,
                **seen(tally, protocol, pattern, subject),
            }
            for protocol in protocols
            for pattern in Pattern
            for subject in Subject
        ],
        "endings": {pattern: ending_shares(tally, pattern) for pattern in Pattern},
        "early_falls": {lasting: early_falls(tally, lasting) for lasting in Lasting},
        "reliability": {
            forecast: [asdict(one) for one in reliability(tally, forecast)] for forecast in Forecast
        },
        "scores": [
            asdict(score(tally, forecast, line))
            for forecast in Forecast
            for line in (None, *forecast_lines(tally, forecast))
        ],
        "bands": [
            dict(
                zip(
                    ("line", "band", "given", "true"),
                    (line, chosen, *band(tally, chosen, line)),
                    strict=True,
                )
            )
            for line in (None, *forecast_lines(tally, Forecast.TRUE_CHANGE))
            for chosen in Band
        ],
        "typed": heard_shares(tally),
        "summaries": {
            language: {"made": count, "longest": tally.longest[language]}
            for language, count in sorted(tally.summaries.items())
        },
    }


def protocols_of(tally: Tally) -> list[str]:
    """Return the ids of the protocols that were taken."""
    return sorted({protocol for protocol, _ in tally.tests})


def _plain(found: Rates) -> dict[str, Any]:
    return {
        "subject": found.subject,
        "against": found.against,
        "protocol": found.protocol,
        "grade": found.grade,
        "true": found.true,
        "untrue": found.untrue,
        "sensitivity": found.sensitivity,
        "confirmed": found.confirmed,
        "specificity": found.specificity,
    }
