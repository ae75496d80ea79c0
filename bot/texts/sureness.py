"""Words of the files on how sure findings are, how good a test was, and what could explain them.

Written for a clinician. Probabilities are of changes on the day of the test, never of a diagnosis.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

_CERTAINTY: Final[Mapping[str, Message]] = {
    "files.head.certainty": N_("Certainty"),
    "files.percent": N_("{value} %"),
    "files.percent.over": N_("over {value} %"),
    "files.percent.under": N_("under {value} %"),
    "files.band.clear": N_("clear"),
    "files.band.near-the-line": N_("near the line"),
    "files.band.clearly-not": N_("clearly not"),
    "files.certainty": N_("{probability}, {band}"),
    "files.margin": N_("{value} ± {margin}"),
    "files.certainty.note": N_(
        "Certainty: probability that the true change on this day is at or past the limit, by the "
        "error of the device alone; clear from {clear} percent, clearly not up to {not_there} "
        "percent. It is not the probability of a condition. ±: 1.96 SD of that error in a "
        "change; what is the same at every reading drops out."
    ),
    "files.certainty.unsourced": N_(
        "Heart rate: no error figure for what it was read from; the wider of the known ones is "
        "used."
    ),
    "files.certainty.hinges": N_(
        "Whether the rise counts hinges on a pressure fall that is near its own line."
    ),
    "files.certainty.another-day": N_(
        "Another day, 95 percent interval by within-person variation: {list}."
    ),
    "files.certainty.range": N_("{name}: {low} to {high}"),
}

_QUALITY: Final[Mapping[str, Message]] = {
    "files.quality.good": N_("good"),
    "files.quality.fair": N_("fair"),
    "files.quality.poor": N_("poor"),
    "files.quality.grade": N_("Quality of the test: {grade}."),
    "files.quality.because": N_("Quality of the test: {grade}, because of: {list}."),
    "files.quality.brief": N_("{grade}: {list}"),
    "files.quality.mind": N_("To mind: {list}."),
    "files.shortfall.no-baseline": N_("no lying reading after 5 min of rest"),
    "files.shortfall.no-standing-reading": N_("no standing reading"),
    "files.shortfall.position-not-confirmed": N_("a position not confirmed"),
    "files.shortfall.illness": N_("illness that day"),
    "files.shortfall.ended-early": N_("ended early"),
    "files.shortfall.not-ended": N_("not ended yet"),
    "files.shortfall.reading-missed": N_("a planned reading missed"),
    "files.shortfall.number-missing": N_("a number missing"),
    "files.shortfall.reading-late": N_("a reading late"),
    "files.shortfall.rest-too-short": N_("a reading well before its time"),
    "files.shortfall.one-standing-reading": N_("one standing reading only"),
    "files.shortfall.stood-short": N_("no reading near 10 min of standing"),
    "files.shortfall.departure": N_("departures from the preparation"),
    "files.shortfall.wrist-cuff": N_("a wrist cuff, its height not recorded"),
    "files.shortfall.cuff-not-told": N_("cuff not told"),
    "files.shortfall.rate-source-not-told": N_("source of the heart rate not told"),
    "files.shortfall.preparation-not-told": N_("preparation not told"),
    "files.shortfall.medicines-not-told": N_("medicines not asked about"),
    "files.shortfall.last-dose-not-told": N_("last dose not told"),
    "files.shortfall.times-not-watched": N_("typed in from paper, so no time was watched"),
    "files.shortfall.first-3-minutes": N_("the first 3 min of standing not measured"),
    "files.shortfall.medicine": N_("a medicine that moves the numbers"),
    "files.shortfall.poor-sleep": N_("poor sleep"),
}

_EXPLAINED: Final[Mapping[str, Message]] = {
    "files.explained.rise-larger": N_("Can make the heart-rate rise larger: {list}."),
    "files.explained.rise-smaller": N_("Can hide a heart-rate rise: {list}."),
    "files.explained.fall-deeper": N_("Can make the pressure fall deeper: {list}."),
    "files.explained.fall-smaller": N_("Can hide a pressure fall: {list}."),
    "files.explained.rate-higher": N_("Can raise the lying heart rate: {list}."),
    "files.explained.rate-lower": N_("Can slow the lying heart rate: {list}."),
    "files.explained.pressure-higher": N_("Can raise the pressure: {list}."),
    "files.explained.causes": N_("{causes} ({source})"),
    "files.explained.memory": N_("usual teaching, not verified"),
    "files.explained.practice": N_("common practice"),
    "files.explained.beta-blocker": N_("beta-blocker"),
    "files.explained.heart-slowing": N_("other heart-slowing medicine"),
    "files.explained.stimulant": N_("stimulant"),
    "files.explained.noradrenaline": N_("SNRI, NRI or amitriptyline"),
    "files.explained.diuretic": N_("diuretic"),
    "files.explained.pressure-lowering": N_("pressure-lowering medicine"),
    "files.explained.pressure-raising": N_("pressure-raising medicine"),
    "files.explained.upper-arm": N_("upper-arm cuff"),
    "files.explained.wrist": N_("wrist cuff held below heart height"),
}

_CONTEXT: Final[Mapping[str, Message]] = {
    "files.page.context": N_("Context"),
    "files.context.line": N_(
        "The line of 30 /min in a 10-min stand: sensitivity {sensitivity} percent, specificity "
        "{specificity} percent ({people} people with the syndrome, {people} without; {source})."
    ),
    "files.context.healthy": N_(
        "Healthy people, 10-min lean test: rise {mean} ± {sd} /min, 95th centile about {centile} "
        "(n = {people}; {source})."
    ),
    "files.context.short": N_(
        "A stand of 5 min misses {five} percent of rises, one of 2 min {two} percent ({source})."
    ),
    "files.context.hour": N_(
        "Of people with the syndrome {morning} percent met the line in the morning, {afternoon} "
        "percent in the afternoon ({source})."
    ),
    "files.context.arm": N_(
        "An arm hanging by the side reads {systolic}/{diastolic} mmHg higher and can hide a fall; "
        "how the arm was held is not recorded ({source})."
    ),
}

_AFTER: Final[Mapping[str, Message]] = {
    "files.alert.emergency": N_("Ended early: the person wrote words of an emergency."),
    "files.alert.signs": N_("Yes to signs of danger with a very high pressure."),
    "files.alert.signs-silent": N_(
        "No answer whether there were signs of danger with a very high pressure; taken as yes."
    ),
    "files.after": N_("Looked after since the end: {list}."),
    "files.after.at": N_("{time} {answer}"),
    "files.after.better": N_("better"),
    "files.after.same": N_("the same"),
    "files.after.worse": N_("worse"),
    "files.after.silent": N_("no answer"),
    "files.after.signs": N_("yes to signs of danger"),
    "files.after.signs-silent": N_("no answer about signs of danger, taken as yes"),
    "files.after.no-signs": N_("no signs of danger"),
    "files.after.companion-there": N_("a companion is with them"),
    "files.after.companion-not-there": N_("a companion cannot reach them"),
}

_FOOT: Final[Mapping[str, Message]] = {
    "files.foot.reference": N_("Reference: {reference}."),
    "files.foot.made": N_("Made by Wallside {software}."),
    "files.foot.generated": N_("Generated {moment}."),
}

MESSAGES: Final[Mapping[str, Message]] = {
    **_CERTAINTY,
    **_QUALITY,
    **_EXPLAINED,
    **_CONTEXT,
    **_AFTER,
    **_FOOT,
}
