"""How sure a change is and how good a test was, in codes of this project's own.

A certainty is a set of components of what it is about, so that nothing can be read without it. It
is no interpretation: that says high or low, not how sure. The grade is an observation of its own,
beside the findings and after them: it takes nothing from them.
"""

from collections.abc import Iterator
from typing import Final

from bot.findings.certainty import Band, Certainty, ChangeCertainty
from bot.findings.chances import Rule
from bot.findings.quality import Grade, Shortfall, Weight, quality
from bot.reports.fhir.case import Case
from bot.reports.fhir.codes import PERCENT, UNITS, Own, concept, own, quantity
from bot.reports.fhir.plain import Json

_BANDS: Final = {
    Band.CLEAR: "Clearly at or past the line",
    Band.NEAR_THE_LINE: "Near the line",
    Band.CLEARLY_NOT: "Clearly not at the line",
}
_RULES: Final = {
    Rule.ONE_CHANGE: "One change",
    Rule.TWO_CHANGES: "Two rises at least a minute apart",
    Rule.EITHER_PRESSURE: "One of the two pressures at least",
    Rule.RISE_AND_STANDING: "The rise, and the standing pressure",
}
_GRADES: Final = {
    Grade.GOOD: "Good: nothing known against the test",
    Grade.FAIR: "Fair: something limits the test",
    Grade.POOR: "Poor: something serious is against the test",
}
_WEIGHTS: Final = {
    Weight.SERIOUS: "Serious: makes the test poor",
    Weight.LIMITING: "Limiting: makes the test fair at best",
    Weight.NOTE: "Note: changes no grade",
}
_SHORTFALLS: Final = {
    Shortfall.NO_BASELINE: "No supine reading after enough rest",
    Shortfall.NO_STANDING_READING: "No standing reading",
    Shortfall.POSITION_NOT_CONFIRMED: "A position was not confirmed",
    Shortfall.ILLNESS: "Ill on the day",
    Shortfall.ENDED_EARLY: "Ended early",
    Shortfall.NOT_ENDED: "Not ended",
    Shortfall.READING_MISSED: "A planned reading was missed",
    Shortfall.NUMBER_MISSING: "A number of a reading is missing",
    Shortfall.READING_LATE: "A reading came after its window",
    Shortfall.REST_TOO_SHORT: "A reading came well before it was due",
    Shortfall.ONE_STANDING_READING: "One standing reading only",
    Shortfall.STOOD_SHORT: "No reading near 10 minutes of standing",
    Shortfall.DEPARTURE: "Departure from the preparation",
    Shortfall.WRIST_CUFF: "Wrist cuff; how high it was held is not recorded",
    Shortfall.CUFF_NOT_TOLD: "Where the cuff sat was not told",
    Shortfall.RATE_SOURCE_NOT_TOLD: "What the heart rate was read from was not told",
    Shortfall.PREPARATION_NOT_TOLD: "The preparation was not told",
    Shortfall.TIMES_NOT_WATCHED: "Typed in from paper: the times were not watched",
    Shortfall.MEDICINES_NOT_TOLD: "It is not known which medicines are taken",
    Shortfall.LAST_DOSE_NOT_TOLD: "The last dose was not told",
    Shortfall.FIRST_3_MINUTES: "The first 3 minutes of standing were not measured",
    Shortfall.MEDICINE: "A medicine that moves the numbers",
    Shortfall.POOR_SLEEP: "Slept poorly",
}


def on_change(known: ChangeCertainty) -> Iterator[Json]:
    """Yield the SD of a change's error, and the interval that holds the true change with 95 %."""
    unit = UNITS[known.measure]
    for code, name, value in (
        ("sd", "SD of its error", known.sd),
        ("low", "Lower end of the 95 % interval", known.low),
        ("high", "Upper end of the 95 % interval", known.high),
    ):
        yield _component(code, name, {"valueQuantity": quantity(round(value, 1), unit)})


def on_line(known: Certainty) -> Iterator[Json]:
    """Yield on which side of a line a change lies, in steps and as probabilities in percent."""
    band = own(Own.BAND, known.band, _BANDS[known.band])
    yield _component("band", "How sure it is", {"valueCodeableConcept": concept(band)})
    rule = own(Own.RULE, known.rule, _RULES[known.rule])
    yield _component(
        "rule", "What it is the probability of", {"valueCodeableConcept": concept(rule)}
    )
    for code, name, value in (
        ("probability", "That the true change is at or past the line", known.probability),
        ("at-least", "The same, at least", known.at_least),
        ("at-most", "The same for any of the readings, at most", known.at_most),
        ("another-day", "That another day would show it", known.another_day.probability),
    ):
        if value is not None:
            percent = quantity(round(100 * value, 1), PERCENT)
            yield _component(code, name, {"valueQuantity": percent})


def graded(case: Case) -> Json:
    """Return what is graded: code, grade, and the reasons for it with what each weighs."""
    found = quality(case.record, case.findings)
    reasons = [
        {
            "code": concept(own(Own.SHORTFALL, reason.shortfall, _SHORTFALLS[reason.shortfall])),
            "valueCodeableConcept": concept(
                own(Own.WEIGHT, reason.weight, _WEIGHTS[reason.weight])
            ),
        }
        for reason in found.reasons
    ]
    return {
        "code": concept(own(Own.QUALITY, "grade", "Quality of the test")),
        "effectiveDateTime": case.time(case.ended),
        "valueCodeableConcept": concept(own(Own.GRADE, found.grade, _GRADES[found.grade])),
        **({"component": reasons} if reasons else {}),
    }


def _component(code: str, name: str, value: Json) -> Json:
    return {"code": concept(own(Own.CERTAINTY, code, name)), **value}
