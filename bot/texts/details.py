"""Sentences of the second part of the summary, that comes when more is asked for; and of quality.

As the summary: short words, short sentences, no diagnosis, no comfort that the numbers cannot
carry.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

_QUALITY: Final[Mapping[str, Message]] = {
    "results.quality.good": N_("Test quality: good."),
    "results.quality.fair": N_("Test quality: fair."),
    "results.quality.poor": N_("Test quality: poor."),
    "results.shortfall.no-baseline": N_("There is no reading after 5 minutes lying down."),
    "results.shortfall.no-standing-reading": N_("There is no standing reading."),
    "results.shortfall.position-not-confirmed": N_("You did not say when you were in place."),
    "results.shortfall.illness": N_("You were ill that day."),
    "results.shortfall.ended-early": N_("It ended early."),
    "results.shortfall.not-ended": N_("It has not ended yet."),
    "results.shortfall.reading-missed": N_("A reading was missed."),
    "results.shortfall.number-missing": N_("A number is missing."),
    "results.shortfall.reading-late": N_("A reading came late."),
    "results.shortfall.rest-too-short": N_("A reading came too soon."),
    "results.shortfall.one-standing-reading": N_("There is just one standing reading."),
    "results.shortfall.stood-short": N_("There is no reading near 10 minutes of standing."),
    "results.shortfall.departure": N_("You did not get ready quite as planned."),
    "results.shortfall.wrist-cuff": N_("A wrist cuff is right only at heart height."),
    "results.shortfall.cuff-not-told": N_("We do not know which cuff you used."),
    "results.shortfall.rate-source-not-told": N_("We do not know how you read your heart rate."),
    "results.shortfall.preparation-not-told": N_("We do not know how you got ready."),
    "results.shortfall.medicines-not-told": N_("We did not ask about your medicines."),
    "results.shortfall.last-dose-not-told": N_("We do not know when you took your last dose."),
    "results.shortfall.times-not-watched": N_("Nobody watched the times."),
    "results.shortfall.first-3-minutes": N_("The first 3 minutes of standing were not measured."),
    "results.shortfall.medicine": N_("A medicine that you take can move the numbers."),
    "results.shortfall.poor-sleep": N_("You slept badly."),
}

_READINGS: Final[Mapping[str, Message]] = {
    "results.more.title": N_("Test {number}: the details"),
    "results.readings": N_("Your readings, top and bottom number, then heart rate:"),
    "results.reading": N_("- {where}: {pressures}, {heart_rate}"),
    "results.reading.again": N_("- again, {time} after the end: {pressures}, {heart_rate}"),
    "results.told.symptoms": N_("Symptoms you told of:"),
    "results.told.symptom": N_("- {symptom}, {where}"),
    "results.told.symptom-after": N_("- {symptom}, {time} from lying down"),
    "results.told.medicines": N_("Medicines: {list}."),
    "results.told.no-medicines": N_("Medicines that move the numbers: none."),
    "results.told.departures": N_("What was not as planned: {list}."),
    "results.told.prepared": N_("You got ready as planned."),
}

_EXPLAINED: Final[Mapping[str, Message]] = {
    "results.explained.rise-larger": N_("This can make a heart-rate rise larger: {list}."),
    "results.explained.rise-smaller": N_("This can hide a heart-rate rise: {list}."),
    "results.explained.fall-deeper": N_("This can make a drop in blood pressure larger: {list}."),
    "results.explained.fall-smaller": N_("This can hide a drop in blood pressure: {list}."),
    "results.explained.rate-higher": N_("This can make a heart rate higher: {list}."),
    "results.explained.rate-lower": N_("This can make a heart rate slower: {list}."),
    "results.explained.pressure-higher": N_("This can make blood pressure higher: {list}."),
    "results.cause.extra-fluids": N_("extra water"),
    "results.cause.extra-salt": N_("extra salt"),
    "results.cause.caffeine": N_("caffeine"),
    "results.cause.nicotine": N_("nicotine"),
    "results.cause.heavy-meal": N_("a big meal"),
    "results.cause.garments": N_("compression stockings"),
    "results.cause.poor-sleep": N_("a bad night"),
    "results.cause.illness": N_("being ill"),
    "results.cause.medicine": N_("a medicine that you take"),
    "results.cause.wrist": N_("a wrist cuff held low"),
}

_AFTER: Final[Mapping[str, Message]] = {
    "results.after": N_("After the test:"),
    "results.after.better": N_("- {time}: you felt better."),
    "results.after.same": N_("- {time}: you felt the same."),
    "results.after.worse": N_("- {time}: you felt worse."),
    "results.after.silent": N_("- {time}: no answer came."),
    "results.after.signs": N_("- {time}: you told of signs of danger."),
    "results.after.signs-silent": N_("- {time}: no answer about signs of danger."),
    "results.after.no-signs": N_("- {time}: you told of no signs of danger."),
    "results.after.companion-there": N_("- {time}: your companion said: I am with them."),
    "results.after.companion-not-there": N_("- {time}: your companion could not reach you."),
}

MESSAGES: Final[Mapping[str, Message]] = {**_QUALITY, **_READINGS, **_EXPLAINED, **_AFTER}
