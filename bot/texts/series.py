"""Words of what is handed out on several tests of one person: the comparison and the trend.

The pages are for a clinician, the captions for the person.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message

_COMPARISON: Final[Mapping[str, Message]] = {
    "caption.comparison": N_("The two tests side by side, for your care team."),
    "files.compare.title": N_("Home lie-sit-stand tests {first} and {second}, side by side"),
    "files.compare.tests": N_("The tests"),
    "files.compare.changes": N_("Changes from lying to standing"),
    "files.compare.lines": N_("Lines met"),
    "files.compare.doubts": N_("Reasons not to compare"),
    "files.compare.differ": N_("Take care: {list}."),
    "files.compare.no-doubts": N_("None known: alike in all that was recorded."),
    "files.compare.charts": N_("Charts on the same scale"),
    "files.compare.test": N_("Test {number}"),
    "files.compare.both": N_("Both tests: {list}."),
    "files.compare.one": N_("Test {number} only ({day}): {list}."),
    "files.compare.unknown": N_("Test {number} ({day}), not known in the other: {list}."),
    "files.compare.none": N_("No line was met in either test."),
    "files.compare.note": N_(
        "Repeatability: 19 of 20 differences between two days of one person stay within it, by "
        "chance alone; 1.96 times the square root of 2 times the within-person SD ({rate} /min, "
        "{systolic} and {diastolic} mmHg; Miwa 2023, CDISC pilot study). A difference within it "
        "shows nothing; one past it may have other causes."
    ),
    "files.head.change": N_("Change"),
    "files.head.test": N_("Test {number}"),
    "files.head.difference": N_("Difference"),
    "files.head.repeatability": N_("Repeatability"),
    "files.head.verdict": N_("Verdict"),
    "files.head.of": N_("What"),
    "files.head.pressure": N_("Pressure, mmHg"),
    "files.head.rate": N_("Rate, /min"),
    "files.head.pressure-change": N_("Pressure change"),
    "files.head.rate-change": N_("Rate change"),
    "files.compare.row.begun": N_("Begun"),
    "files.compare.row.day": N_("Kind of day"),
    "files.compare.row.protocol": N_("Protocol"),
    "files.compare.row.ending": N_("How it ended"),
    "files.compare.row.quality": N_("Quality"),
    "files.compare.row.cuff": N_("Cuff"),
    "files.compare.row.rate-source": N_("Heart rate from"),
    "files.compare.row.medicines": N_("Medicines"),
    "files.compare.row.last-dose": N_("Last dose"),
    "files.compare.row.departures": N_("Departures from the preparation"),
    "files.compare.row.symptoms": N_("Symptoms told"),
    "files.compare.largest.heart_rate": N_("Heart rate, largest change, /min"),
    "files.compare.largest.systolic": N_("Systolic, lowest change, mmHg"),
    "files.compare.largest.diastolic": N_("Diastolic, lowest change, mmHg"),
    "files.compare.at.heart_rate": N_("Heart rate at {time} standing, /min"),
    "files.compare.at.systolic": N_("Systolic at {time} standing, mmHg"),
    "files.compare.at.diastolic": N_("Diastolic at {time} standing, mmHg"),
    "files.variation.larger": N_("larger than the ordinary difference"),
    "files.variation.within": N_("within the ordinary difference"),
    "files.variation.cannot-say": N_("a number is missing"),
    "files.compare.plus-minus": N_("± {value}"),
}

_DOUBTS: Final[Mapping[str, Message]] = {
    "files.doubt.protocol": N_("another plan of the test"),
    "files.doubt.ended-early": N_("a test ended early"),
    "files.doubt.readings": N_("not the same standing readings"),
    "files.doubt.from-paper": N_("typed in from paper: nobody watched the times"),
    "files.doubt.same-day": N_("both on one day: the second follows on the first"),
    "files.doubt.hour": N_("clock times more than 2 h apart"),
    "files.doubt.medicines": N_("other medicines"),
    "files.doubt.last-dose": N_("another time since the last dose"),
    "files.doubt.cuff": N_("another cuff"),
    "files.doubt.rate-source": N_("heart rate read from something else"),
    "files.doubt.departures": N_("other departures from the preparation"),
    "files.doubt.not-told": N_("something of these is not known of both"),
}

_TREND: Final[Mapping[str, Message]] = {
    "trend.title": NP_("Your {count} test over time", "Your {count} tests over time"),
    "trend.moves": N_("From test to test, by more than chance would do:"),
    "trend.symptomatic.heart_rate.higher": N_("On bad days your heart-rate rise got larger."),
    "trend.symptomatic.heart_rate.lower": N_("On bad days your heart-rate rise got smaller."),
    "trend.symptomatic.systolic.higher": N_("On bad days your top number fell less."),
    "trend.symptomatic.systolic.lower": N_("On bad days your top number fell more."),
    "trend.symptomatic.diastolic.higher": N_("On bad days your bottom number fell less."),
    "trend.symptomatic.diastolic.lower": N_("On bad days your bottom number fell more."),
    "trend.good.heart_rate.higher": N_("On good days your heart-rate rise got larger."),
    "trend.good.heart_rate.lower": N_("On good days your heart-rate rise got smaller."),
    "trend.good.systolic.higher": N_("On good days your top number fell less."),
    "trend.good.systolic.lower": N_("On good days your top number fell more."),
    "trend.good.diastolic.higher": N_("On good days your bottom number fell less."),
    "trend.good.diastolic.lower": N_("On good days your bottom number fell more."),
    "trend.still": N_(
        "No change goes clearly up or down from test to test. That cannot show that all is well, "
        "or that nothing has changed."
    ),
    "trend.meaning": N_("This does not say why, or if you are better or worse."),
    "trend.next": N_("Next step: send the page to your care team."),
    "caption.trend": N_("The same as a page with all the numbers, for your care team."),
    "files.trend.title": N_("Home lie-sit-stand tests over time"),
    "files.trend.chart": N_("Changes from lying to standing, test by test"),
    "files.trend.tests": N_("Number and day of the test"),
    "files.trend.line": N_("line {value}"),
    "files.trend.key.symptomatic": N_("bad day"),
    "files.trend.key.good": N_("good day"),
    "files.trend.key.unknown": N_("kind of day not known"),
    "files.trend.alternative": N_(
        "Chart of the largest heart-rate change and the lowest pressure changes of each test, by "
        "the kind of day. All its numbers are in the table."
    ),
    "files.trend.table": N_("The tests"),
    "files.trend.courses": N_("Where the changes go"),
    "files.trend.note": N_(
        "A direction is claimed only for tests on the same kind of day, alike in cuff, hour, "
        "medicines and preparation, and only past what chance alone moves in 99 of 100 such "
        "series. It says that the numbers move, not why, and not that anyone is better or worse."
    ),
    "files.head.number": N_("Test"),
    "files.head.begun": N_("Begun"),
    "files.head.day": N_("Kind of day"),
    "files.head.quality": N_("Quality"),
    "files.head.rise": N_("Heart rate change, /min"),
    "files.head.systolic-fall": N_("Systolic change, mmHg"),
    "files.head.diastolic-fall": N_("Diastolic change, mmHg"),
    "files.head.course": N_("Change"),
    "files.head.tests": N_("Tests"),
    "files.head.moved": N_("Moved"),
    "files.head.by-chance": N_("By chance, up to"),
    "files.head.direction": N_("Direction"),
    "files.head.medicines": N_("Medicines"),
    "files.trend.doubts": N_("What tells the tests apart, {day}: {list}."),
    "files.direction.higher": N_("higher"),
    "files.direction.lower": N_("lower"),
    "files.direction.none-clear": N_("none clear"),
    "files.direction.not-alike": N_("not alike enough"),
    "files.direction.too-few": N_("too few"),
}

MESSAGES: Final[Mapping[str, Message]] = {**_COMPARISON, **_DOUBTS, **_TREND}
