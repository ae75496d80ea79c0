"""Sentences of the plain-language summary.

Short words, short sentences: reading grade 6 or below. Patterns and next steps, never a
diagnosis, and no comfort that the numbers cannot carry. The top number is the systolic
pressure, the bottom number the diastolic one.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    "results.title": N_("Test {number}: what your numbers show"),
    "results.no-readings": N_("No readings were taken, so there is nothing to show."),
    # heart rate: the numbers
    "results.rate.rose": N_(
        "Heart rate: {lying} lying, up to {highest} standing. That is {change} more."
    ),
    "results.rate.fell": N_(
        "Heart rate: {lying} lying, at most {highest} standing. That is {change} less."
    ),
    "results.rate.same": N_("Heart rate: {lying} lying, and at most {highest} standing."),
    # heart rate: the line
    "results.rate.met": N_(
        "It rose by {limit} or more at two or more readings. This meets the heart-rate part of "
        "the screening line."
    ),
    "results.rate.met-once": N_("It rose by {limit} or more at one reading. It is not confirmed."),
    "results.rate.met-close": N_(
        "It rose by {limit} or more, but the readings were less than a minute apart. It is not "
        "confirmed."
    ),
    "results.rate.not-met": N_("This does not meet the screening line of {limit} more."),
    "results.rate.fall-not-excluded": N_(
        "A rise counts only if blood pressure does not drop too. That is not fully known here."
    ),
    "results.rate.slow-start": N_(
        "Your lying rate was under 60. Some care teams count a rise only from 60 up."
    ),
    "results.rate.short-stand": N_(
        "There was no reading near 10 minutes. A short stand can miss a rise."
    ),
    "results.rate.hinges": N_("Whether it counts turns on a drop that is near its own line."),
    # how sure that is
    "results.band.clear": N_("It is clearly past that line."),
    "results.band.near-the-line": N_("It is near that line: it could be on either side."),
    "results.band.clearly-not": N_("It is clearly short of that line."),
    "results.pressure.near-the-line": N_(
        "The largest drop came near the line: it could be on either side."
    ),
    "results.pressure.clearly-not": N_("What was measured is clearly short of the line."),
    # heart rate: why it cannot be judged
    "results.rate.under-12": N_("Under age 12 there is no agreed line, so we do not judge it."),
    "results.rate.age-not-told": N_(
        "The line depends on age. We do not know yours, so we cannot judge it."
    ),
    "results.rate.pressure-fell": N_(
        "Your blood pressure dropped too. So this rise cannot be judged on its own."
    ),
    "results.rate.supine-rate-high": N_(
        "It was over 100 lying down. That is another pattern, so the rise cannot be judged."
    ),
    "results.rate.one-standing-reading": N_(
        "There is one standing reading. It takes two to judge a rise."
    ),
    "results.rate.readings-too-close": N_(
        "The readings were less than a minute apart. That is too close to judge a rise."
    ),
    # heart rate: why it was not measured
    "results.rate.no-supine-reading": N_(
        "Heart rate: there is no reading after 5 minutes lying down. So a rise cannot be judged."
    ),
    "results.rate.supine-number-missing": N_(
        "Heart rate: the lying number is missing. So a rise cannot be judged."
    ),
    "results.rate.no-standing-reading": N_(
        "Heart rate: there is no standing reading. So a rise cannot be judged."
    ),
    "results.rate.standing-number-missing": N_(
        "Heart rate: the standing numbers are missing. So a rise cannot be judged."
    ),
    "results.rate.after-10-minutes": N_(
        "Heart rate: all standing readings came after 10 minutes. So a rise cannot be judged."
    ),
    # blood pressure: the numbers
    "results.pressure.numbers": N_(
        "Blood pressure, top number: {lying} lying, {lowest} at its lowest standing."
    ),
    # blood pressure: the lines
    "results.pressure.early-systolic": N_(
        "It fell by {change} in the first 3 minutes. This meets the line for a drop."
    ),
    "results.pressure.early-diastolic": N_(
        "The bottom number fell by {change} in the first 3 minutes. This meets the line for a drop."
    ),
    "results.pressure.later-systolic": N_(
        "It had fallen by {change} at {time} of standing. This meets the line for a drop."
    ),
    "results.pressure.later-diastolic": N_(
        "The bottom number had fallen by {change} at {time} of standing. This meets the line for "
        "a drop."
    ),
    "results.pressure.start-unknown": N_(
        "It may have begun sooner. The first 3 minutes were not all measured."
    ),
    "results.pressure.none-seen": N_(
        "Blood pressure: no drop big enough to count was seen at the times you measured."
    ),
    "results.pressure.none-early": N_(
        "Blood pressure: no drop big enough to count was seen in the first 3 minutes, at the "
        "times you measured. We cannot say if one came later."
    ),
    "results.pressure.one-early": N_(
        "With one reading in the first 3 minutes, a short drop can be missed."
    ),
    "results.pressure.early-unknown": N_(
        "Blood pressure: the first 3 minutes of standing were not measured. So an early drop "
        "cannot be shown or ruled out."
    ),
    "results.pressure.later-not-met": N_(
        "At the later readings it did not reach the line for a drop."
    ),
    "results.pressure.no-supine-reading": N_(
        "Blood pressure: there is no reading after 5 minutes lying down. So a drop cannot be "
        "shown or ruled out."
    ),
    "results.pressure.no-standing-reading": N_(
        "Blood pressure: there is no standing reading. So a drop cannot be shown or ruled out."
    ),
    "results.pressure.number-missing": N_(
        "Blood pressure: some numbers are missing. So a drop cannot be shown or ruled out."
    ),
    # other lines that are met
    "results.note.very-high-pressure": N_(
        "A blood pressure number of {value} is past the mark for very high."
    ),
    "results.very-high.again": N_(
        "Rest, then measure again. If it is still so high, call your care team soon."
    ),
    "results.very-high.still": N_(
        "You measured again: {numbers}. That is still very high. Call your care team soon."
    ),
    "results.very-high.lower": N_(
        "You measured again: {numbers}. That is below that mark. Tell your care team about both."
    ),
    "results.note.standing-systolic-low": N_(
        "Standing, the top number went down to {value}. That is low."
    ),
    "results.note.supine-rate-high": N_("Your lying heart rate of {value} is high at rest."),
    "results.note.bradycardia": N_("Your lying heart rate of {value} is slow."),
    "results.note.supine-hypertension": N_("Your lying blood pressure was high."),
    "results.note.pressure-rise": N_("Your blood pressure went up when you stood."),
    "results.note.pressor-response": N_("Your top number went up by {value} when you stood."),
    "results.note.large-fall": N_("The drop in blood pressure was large."),
    "results.note.neurogenic-pattern": N_(
        "Your heart sped up only a little for a drop of that size."
    ),
    "results.note.standing-rate-120": N_("Your standing heart rate got to {value}."),
    "results.note.narrow-pulse-pressure": N_(
        "Standing, your top and bottom numbers were close together."
    ),
    # what it may mean
    "results.meaning.pattern": N_(
        "Patterns like these can have many causes. Your care team can look for them."
    ),
    "results.meaning.partial": N_(
        "Parts of this test could not be judged. So it cannot show that all is well."
    ),
    "results.meaning.no-line": N_(
        "No main line was met this time. Another day can be different. If standing makes you "
        "feel ill, tell your care team."
    ),
    "results.screening": N_("This is a screening test. It is not a diagnosis."),
    # what was not measured
    "results.slot.supine": N_("lying at {time}"),
    "results.slot.seated": N_("sitting at {time}"),
    "results.slot.standing": N_("standing at {time}"),
    "results.missed": N_("Not taken: {list}."),
    "results.late": N_("Taken late: {list}."),
    "results.incomplete": N_("Some numbers are missing: {list}."),
    "results.ending.stopped": N_(
        "You stopped early. That is the right thing to do when you feel ill."
    ),
    "results.ending.interrupted": N_("The test broke off, since too much time had passed."),
    "results.ending.silent": N_("The test closed early, since no answer came."),
    "results.ending.emergency": N_(
        "The test ended early because of what you told us. If you have not had help yet, get it "
        "now."
    ),
    "results.signs": N_("You had signs of danger. If you have not had help yet, get it now."),
    "results.signs-silent": N_(
        "You did not say if you had signs of danger. If you have any, get help now."
    ),
    "results.ending.unsafe-reading": N_("The test ended early because of a reading."),
    # what to do next
    "results.next": N_("Next step: show the PDF to your care team."),
    "results.medicine": N_("Do not stop or change any medicine because of this test."),
    "results.danger": N_(
        "If you faint, have chest pain or find it hard to breathe, get help at once. Call your "
        "local emergency number."
    ),
    "results.danger.very-high": N_(
        "Get help at once if you faint, have pain in the chest or back, feel weak or numb, or find "
        "it hard to breathe, see or speak. Call your local emergency number."
    ),
}
