"""Words of the files: the chart and the one-page PDF.

Written for a clinician. The shipped font has no arrows, no minus sign and no signs for
"at least" or "at most"; they are spelt out.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message

_SHARED: Final[Mapping[str, Message]] = {
    "files.moment": N_("{day}, {time} UTC"),
    "files.quoted": N_("“{words}”"),
    "files.strength": N_("{symptom} {strength}/10"),
    "files.position.supine": N_("Lying"),
    "files.position.seated": N_("Sitting"),
    "files.position.standing": N_("Standing"),
}

_CHART: Final[Mapping[str, Message]] = {
    "files.chart.title": N_("Test {number}, {day}"),
    "files.chart.heart-rate": N_("Heart rate, beats a minute"),
    "files.chart.pressure": N_("Blood pressure, mmHg"),
    "files.chart.systolic": N_("systolic"),
    "files.chart.diastolic": N_("diastolic"),
    "files.chart.minutes": N_("Minutes since lying down"),
    "files.chart.level": N_("lying {value}"),
    "files.chart.rise-line": N_("lying + {limit} = {value}"),
    "files.chart.fall-line": N_("lying – {limit} = {value}"),
    "files.chart.late": N_("taken late"),
    "files.chart.missed": N_("not taken"),
    "files.chart.ended": N_("ended early"),
    "files.chart.fold": N_("time skipped"),
    "files.chart.empty": N_("No readings here"),
    "files.chart.more": NP_(
        "and {count} more symptom, see the CSV file",
        "and {count} more symptoms, see the CSV file",
    ),
    "files.chart.alternative": N_(
        "Chart of heart rate, systolic and diastolic pressure against minutes since lying down, "
        "with the symptoms marked. All its numbers are in the table of readings."
    ),
}

_PAGE: Final[Mapping[str, Message]] = {
    "files.page.title": N_("Home lie-sit-stand test {number}"),
    "files.page.times": N_("Begun {start}, ended {end}."),
    "files.page.under-way": N_("Begun {start}, still under way."),
    "files.page.protocol": N_(
        "Protocol {protocol}, version {version}. Age band: {age}. Result revision {revision}."
    ),
    "files.page.age-not-told": N_("not told"),
    "files.page.caution": N_(
        "Screening, not a diagnosis. Measured at home with the person's own device; the numbers "
        "were typed in and have not been checked."
    ),
    "files.page.findings": N_("Findings"),
    "files.page.readings": N_("Readings"),
    "files.page.reading-times": N_(
        "Planned and taken: minutes and seconds since taking the position. Change: minus the "
        "lying reading."
    ),
    "files.page.chart": N_("Chart"),
    "files.page.symptoms": N_("Symptoms"),
    "files.page.no-symptoms": N_("None were told."),
    "files.page.unmeasured": N_("What was not measured"),
    "files.page.ending": N_("How it ended"),
    "files.page.more-symptoms": NP_(
        "And {count} more symptom, in the CSV file.", "And {count} more symptoms, in the CSV file."
    ),
    "files.page.more-readings": NP_(
        "And {count} more unplanned reading, in the CSV file.",
        "And {count} more unplanned readings, in the CSV file.",
    ),
    # heads of the tables
    "files.head.finding": N_("Finding"),
    "files.head.state": N_("State"),
    "files.head.measured": N_("Measured"),
    "files.head.limit": N_("Limit"),
    "files.head.source": N_("Source"),
    "files.head.position": N_("Position"),
    "files.head.planned": N_("Planned"),
    "files.head.taken": N_("Taken"),
    "files.head.systolic": N_("Systolic, mmHg"),
    "files.head.diastolic": N_("Diastolic, mmHg"),
    "files.head.heart-rate": N_("Heart rate, /min"),
    "files.head.systolic-change": N_("Systolic change"),
    "files.head.diastolic-change": N_("Diastolic change"),
    "files.head.heart-rate-change": N_("Heart rate change"),
    "files.head.notes": N_("Notes"),
    "files.head.when": N_("When"),
    "files.head.symptom": N_("Symptom"),
    "files.head.words": N_("Own words"),
    # notes on readings
    "files.note.late": N_("late"),
    "files.note.missed": N_("not taken"),
    "files.note.extra": N_("not planned"),
    "files.note.incomplete": N_("number missing"),
    "files.note.corrected": N_("corrected, was {before}"),
    "files.values": N_("{systolic}/{diastolic}, {heart_rate}"),
    # when
    "files.when": N_("{position} {time}"),
    "files.when.between": N_("{time} from lying down"),
    # what was not measured
    "files.unmeasured.nothing": N_("All planned readings were taken, with all their numbers."),
    "files.unmeasured.missed": N_("Not taken: {list}."),
    "files.unmeasured.incomplete": N_("Numbers missing: {list}."),
    "files.unmeasured.start": N_(
        "The first 3 minutes of standing were not measured: an early pressure fall can be "
        "neither shown nor ruled out."
    ),
    # how it ended
    "files.ending.completed": N_("Completed."),
    "files.ending.stopped": N_("The person stopped it early."),
    "files.ending.interrupted": N_("Broken off: too long without a step."),
    "files.ending.silent": N_("Closed early: prompts were not answered."),
    "files.ending.emergency": N_("Ended early: the person wrote words of an emergency."),
    "files.ending.unsafe-reading": N_("Ended early: a reading crossed a safety limit."),
    "files.ending.under-way": N_("It has not ended."),
    "files.ending.during": N_("At the end: {when}."),
    "files.ending.repeat": N_("Measured again {time} after the end: {numbers}."),
    "files.ending.reason": N_("Reason told: {reason}."),
    "files.ending.words": N_("In their own words: “{words}”"),
}

_FINDINGS: Final[Mapping[str, Message]] = {
    # states
    "files.state.met": N_("Met"),
    "files.state.met-once": N_("Met once, not confirmed"),
    "files.state.not-met": N_("Not met"),
    "files.state.not-measured": N_("Not measured"),
    "files.state.cannot-judge": N_("Cannot be judged"),
    "files.state.why": N_("{state} ({reasons})"),
    "files.group": N_("{state}: {lines}."),
    "files.brief": N_("{name}: {size} (limit: {limit})"),
    # lines
    "files.line.heart-rate-rise": N_("Heart-rate rise"),
    "files.line.classical-fall": N_("Pressure fall within 3 min"),
    "files.line.later-fall": N_("Pressure fall after 3 min"),
    "files.line.large-fall": N_("Large systolic fall"),
    "files.line.standing-systolic-low": N_("Low standing systolic"),
    "files.line.pressure-rise": N_("Rise of standing pressure"),
    "files.line.pressor-response": N_("Systolic rise"),
    "files.line.neurogenic-pattern": N_("Fall with little heart-rate rise"),
    "files.line.supine-hypertension": N_("High lying pressure"),
    "files.line.supine-rate-high": N_("High lying heart rate"),
    "files.line.supine-rate-below-60": N_("Lying heart rate under 60"),
    "files.line.bradycardia": N_("Slow lying heart rate"),
    "files.line.standing-rate-120": N_("Standing heart rate 120"),
    "files.line.narrow-pulse-pressure": N_("Narrow pulse pressure"),
    "files.line.very-high-pressure": N_("Very high pressure"),
    # limits
    "files.rule.heart-rate-rise": N_("+{limit} /min twice, 1 min apart, no fall"),
    "files.rule.heart-rate-rise-by-age": N_("+{adult} /min from age 20, +{young} from 12 to 19"),
    "files.rule.fall": N_("{systolic} systolic or {diastolic} diastolic down"),
    "files.rule.large-fall": N_("{systolic} systolic down"),
    "files.rule.standing-systolic-low": N_("systolic below {systolic}"),
    "files.rule.pressure-rise": N_("{rise} systolic up, to {systolic} or more"),
    "files.rule.pressor-response": N_("{rise} systolic up"),
    "files.rule.neurogenic-pattern": N_("rise over fall below {ratio}"),
    "files.rule.either-high": N_("from {systolic} systolic or {diastolic} diastolic"),
    "files.rule.rate-above": N_("above {limit} /min"),
    "files.rule.rate-below": N_("below {limit} /min"),
    "files.rule.rate-at-least": N_("from {limit} /min"),
    "files.rule.narrow-pulse-pressure": N_("below {share} percent of systolic"),
    # sizes
    "files.size.heart_rate": N_("{value} /min"),
    "files.size.systolic": N_("{value} systolic"),
    "files.size.diastolic": N_("{value} diastolic"),
    "files.size.ratio": N_("{value} /min per mmHg"),
    "files.size.pulse-pressure": N_("{value} mmHg"),
    "files.size.at": N_("{size}, {when}"),
    # reasons
    "files.reason.no-supine-reading": N_("no lying reading after 5 min of rest"),
    "files.reason.supine-number-missing": N_("a lying number is missing"),
    "files.reason.no-standing-reading": N_("no standing reading"),
    "files.reason.standing-number-missing": N_("a standing number is missing"),
    "files.reason.pressure-missing": N_("a pressure is missing"),
    "files.reason.nothing-within-3-minutes": N_("nothing read within 3 min of standing"),
    "files.reason.one-reading-within-3-minutes": N_(
        "one reading within 3 min, a brief fall may be missed"
    ),
    "files.reason.nothing-after-3-minutes": N_("nothing read after 3 min of standing"),
    "files.reason.fall-within-3-minutes": N_("the fall was there within 3 min"),
    "files.reason.after-10-minutes": N_("readings after 10 min do not count"),
    "files.reason.short-stand": N_("no reading near 10 min, a shorter stand can miss it"),
    "files.reason.one-standing-reading": N_("only one standing reading"),
    "files.reason.readings-too-close": N_("readings less than 1 min apart"),
    "files.reason.under-12": N_("no agreed line under 12"),
    "files.reason.age-not-told": N_("age not told"),
    "files.reason.pressure-fell": N_("pressure fell too: not the postural pattern"),
    "files.reason.fall-not-excluded": N_("a pressure fall is not ruled out"),
    "files.reason.supine-rate-high": N_("lying rate above 100: another pattern"),
    "files.reason.supine-rate-below-60": N_("lying rate below 60: some do not count it"),
    "files.reason.supine-pressure-high": N_(
        "lying pressure high: a fall of 30 may be the apter line"
    ),
    "files.reason.heart-rate-fell": N_("heart rate fell too: a reflex pattern"),
    "files.reason.systolic-fall-under-20": N_("systolic fall under 20"),
    "files.reason.slowing-medicine": N_("takes a medicine that slows the heart"),
    "files.reason.medicines-not-told": N_(
        "does not hold on a beta-blocker or with a pacemaker, medicines not recorded"
    ),
    "files.reason.persisting-or-later": N_("may have been there from the start"),
    "files.reason.late-reading": N_("rests on a late reading"),
    # sources
    "files.source.heart-rate-rise": N_("Freeman 2011; Sheldon 2015; Vernino 2021; Raj 2022"),
    "files.source.classical-fall": N_("Freeman 2011"),
    "files.source.later-fall": N_("Gibbons & Freeman 2006"),
    "files.source.large-fall": N_("Freeman 2011"),
    "files.source.standing-systolic-low": N_("Brignole 2018"),
    "files.source.pressure-rise": N_("Jordan 2022"),
    "files.source.pressor-response": N_("Jordan 2022"),
    "files.source.neurogenic-pattern": N_("Norcliffe-Kaufmann 2018"),
    "files.source.supine-hypertension": N_("Fanciulli 2018"),
    "files.source.supine-rate-high": N_("Sheldon 2015; Novak 2016"),
    "files.source.supine-rate-below-60": N_("Raj 2020, told in Raj 2022"),
    "files.source.bradycardia": N_("ACC/AHA/HRS 2018"),
    "files.source.standing-rate-120": N_("Miwa 2023"),
    "files.source.narrow-pulse-pressure": N_("lean-test usage"),
    "files.source.very-high-pressure": N_("American Heart Association, public page"),
    "files.known.second-hand": N_("{source}, second hand"),
    "files.known.memory": N_("{source}, not verified"),
}

MESSAGES: Final[Mapping[str, Message]] = {**_SHARED, **_CHART, **_PAGE, **_FINDINGS}
