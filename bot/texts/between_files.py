"""Words of what is handed out around a test: comparison, calendar entry, circumstances in the PDF.

The comparison and the calendar entry are for the person: short words, short sentences, patterns
and next steps, never a diagnosis. The circumstances are for a clinician. The top number is the
systolic pressure, the bottom number the diastolic one.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

_COMPARISON: Final[Mapping[str, Message]] = {
    "comparison.title": N_("Tests {first} and {second}, side by side"),
    "comparison.day": N_("Test {number}: {day}."),
    "comparison.day.good": N_("Test {number}: {day}, a good day."),
    "comparison.day.symptomatic": N_("Test {number}: {day}, a day with symptoms."),
    "comparison.day.unsure": N_("Test {number}: {day}, not sure what kind of day."),
    # the numbers
    "comparison.intro": N_(
        "How your numbers moved when you stood: first in test {first}, then in test {second}."
    ),
    "comparison.heart_rate": N_("Heart rate: {first}, then {second}."),
    "comparison.systolic": N_("Blood pressure, top number: {first}, then {second}."),
    "comparison.diastolic": N_("Blood pressure, bottom number: {first}, then {second}."),
    "comparison.no-number": N_("not measured"),
    "comparison.same": N_("These are the same."),
    "comparison.larger": N_(
        "That is {change} apart. It is larger than the ordinary day-to-day difference, up to "
        "{limit}."
    ),
    "comparison.within": N_(
        "That is {change} apart. It is within the ordinary day-to-day difference, up to {limit}."
    ),
    "comparison.cannot-say": N_("A number is missing: no comparison."),
    "comparison.nothing": N_("Numbers are missing, so the two tests cannot be compared."),
    "comparison.slots": N_("By minute of standing: {list}."),
    "comparison.slot": N_("{time}: {first}, then {second}"),
    # the lines that were met
    "comparison.lines.both": N_("Seen in both tests: {list}."),
    "comparison.lines.one": N_("Seen in test {number} only: {list}."),
    "comparison.lines.unknown": N_("Seen in test {number}, not known in the other: {list}."),
    "comparison.lines.none": N_(
        "None of the lines we check was met in either test. That cannot show that all is well."
    ),
    "comparison.lines.not-confirmed": N_(
        "A heart-rate rise seen at one reading only is not confirmed."
    ),
    "comparison.lines.more": N_("The PDFs have more."),
    "comparison.more": N_("{value} more"),
    "comparison.line.heart-rate-rise": N_("a heart-rate rise"),
    "comparison.line.classical-fall": N_("an early drop in blood pressure"),
    "comparison.line.later-fall": N_("a later drop in blood pressure"),
    "comparison.line.large-fall": N_("a large drop"),
    "comparison.line.standing-systolic-low": N_("a low top number standing"),
    "comparison.line.pressure-rise": N_("a rise in blood pressure"),
    "comparison.line.pressor-response": N_("a rise in the top number"),
    "comparison.line.neurogenic-pattern": N_("a drop with little rise in heart rate"),
    "comparison.line.supine-hypertension": N_("a high blood pressure lying"),
    "comparison.line.supine-rate-high": N_("a high heart rate lying"),
    "comparison.line.supine-rate-below-60": N_("a lying heart rate under 60"),
    "comparison.line.bradycardia": N_("a slow heart rate lying"),
    "comparison.line.standing-rate-120": N_("a standing heart rate of 120 or more"),
    "comparison.line.narrow-pulse-pressure": N_("top and bottom numbers close together"),
    "comparison.line.very-high-pressure": N_("a very high blood pressure"),
    # why they may not be alike enough to compare
    "comparison.doubts": N_("Take care when you compare: {list}."),
    "comparison.doubts.meaning": N_("So a difference may have other causes."),
    "comparison.doubts.hour": N_("Many people have a bigger rise in the morning."),
    "comparison.doubt.protocol": N_("the plan of the test differed"),
    "comparison.doubt.ended-early": N_("a test ended early"),
    "comparison.doubt.readings": N_("the readings differed"),
    "comparison.doubt.from-paper": N_("a test came from paper"),
    "comparison.doubt.same-day": N_("both were on one day"),
    "comparison.doubt.hour": N_("the time of day differed"),
    "comparison.doubt.medicines": N_("your medicines differed"),
    "comparison.doubt.last-dose": N_("your last dose differed"),
    "comparison.doubt.cuff": N_("the cuff differed"),
    "comparison.doubt.rate-source": N_("how you read heart rate differed"),
    "comparison.doubt.departures": N_("how you got ready differed"),
    "comparison.doubt.not-told": N_("we do not know all about both days"),
    # what to do next
    "comparison.guide": N_("The ordinary difference comes from other people. It is only a guide."),
    "comparison.screening": N_("These are screening tests. They are not a diagnosis."),
    "comparison.next": N_("Next step: send both PDFs to your care team."),
}

_CALENDAR: Final[Mapping[str, Message]] = {
    "calendar.summary": N_("Lie, sit and stand test"),
    "calendar.cancelled": N_("Cancelled: Lie, sit and stand test"),
    "calendar.preparation": N_(
        "The day before: no extra water, no extra salt.\n"
        "For 3 hours before: no caffeine, no nicotine.\n"
        "Eat and drink as usual. No heavy meal just before.\n"
        "No compression garments. Shoes off.\n"
        "Medicines: as prescribed. Ask your care team if you are not sure.\n"
        "Have ready: bed, chair, wall, cuff, and someone near.\n"
        "Then open the chat and start there."
    ),
    "calendar.off": N_("This test will not take place. You can delete this entry."),
    "calendar.alarm.day-before": N_(
        "Lie, sit and stand test tomorrow. No extra water, no extra salt."
    ),
    "calendar.alarm.hours-before": N_(
        "Lie, sit and stand test soon. No caffeine and no nicotine in the 3 hours before."
    ),
    "calendar.alarm.soon": N_("Lie, sit and stand test in a few minutes. Open the chat."),
}

_CIRCUMSTANCES: Final[Mapping[str, Message]] = {
    "files.page.circumstances": N_("Circumstances"),
    "files.moment.local": N_("{moment} ({local} local time)"),
    "files.circumstances.day": N_("Kind of day: {value}."),
    "files.circumstances.cuff": N_("Cuff: {value}."),
    "files.circumstances.rate-source": N_("Heart rate read from: {value}."),
    "files.circumstances.zone": N_("Time zone: {value}."),
    "files.circumstances.medicines": N_("Medicines that move the numbers: {value}."),
    "files.circumstances.last-dose": N_("Last dose: {value}."),
    "files.circumstances.departures": N_("Departures from the preparation: {value}."),
    "files.circumstances.none-told": N_("none told"),
    "files.circumstances.not-told": N_("not told"),
    "files.circumstances.not-asked": N_("not asked about"),
    "files.day.good": N_("a good day"),
    "files.day.symptomatic": N_("a symptomatic day"),
    "files.day.unsure": N_("the person was not sure"),
    "files.cuff.upper-arm": N_("upper arm"),
    "files.cuff.wrist": N_("wrist"),
    "files.rate-source.cuff": N_("the cuff"),
    "files.rate-source.oximeter": N_("an oximeter"),
    "files.rate-source.watch": N_("a watch"),
    "files.rate-source.fingers": N_("the pulse, counted"),
    "files.medicine.beta-blocker": N_("beta-blocker"),
    "files.medicine.heart-slowing": N_(
        "other heart-slowing (ivabradine, verapamil, diltiazem, clonidine, pyridostigmine)"
    ),
    "files.medicine.stimulant": N_("stimulant"),
    "files.medicine.noradrenaline": N_("SNRI, NRI or amitriptyline"),
    "files.medicine.diuretic": N_("diuretic"),
    "files.medicine.pressure-lowering": N_(
        "pressure-lowering (antihypertensive, nitrate, alpha-blocker, levodopa)"
    ),
    "files.medicine.pressure-raising": N_(
        "pressure-raising (midodrine, fludrocortisone, droxidopa)"
    ),
    "files.last-dose.within-4-hours": N_("within 4 h before"),
    "files.last-dose.within-12-hours": N_("within 12 h before"),
    "files.last-dose.within-24-hours": N_("within 24 h before"),
    "files.last-dose.longer-ago": N_("more than 24 h before"),
    "files.departure.extra-fluids": N_("extra fluids"),
    "files.departure.extra-salt": N_("extra salt"),
    "files.departure.caffeine": N_("caffeine within 3 h"),
    "files.departure.nicotine": N_("nicotine within 3 h"),
    "files.departure.heavy-meal": N_("heavy meal just before"),
    "files.departure.garments": N_("compression garments"),
    "files.departure.poor-sleep": N_("poor sleep"),
    "files.departure.illness": N_("illness that day"),
}

MESSAGES: Final[Mapping[str, Message]] = {**_COMPARISON, **_CALENDAR, **_CIRCUMSTANCES}
