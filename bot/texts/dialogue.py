"""What is said while preparing, pacing and taking readings.

One idea a message, short words; a person may be dizzy and holding the phone in one hand.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    # opening
    "opening.hello": N_(
        "Hello, I am Wallside. I stay with you while you do a lie, sit and stand test at home. "
        "I tell you what to do and when, and I keep your numbers. "
        "I am a program, not a person, and I cannot see or hear you."
    ),
    "opening.age": N_("How old are you? One number I check depends on your age."),
    "opening.ready": NP_(
        "The test takes about {length} and has {count} reading.\n"
        "Get ready: a blood pressure cuff, your phone, a bed, a chair, a clear wall. "
        "Have someone nearby.\n"
        "Do not do it today if you have a fever, or if your care team said not to. "
        "Take your medicines as prescribed.\n"
        "You can stop at any time: tap Stop or type stop.\n"
        "Tap the button when you are next to the bed with the cuff on.",
        "The test takes about {length} and has {count} readings.\n"
        "Get ready: a blood pressure cuff, your phone, a bed, a chair, a clear wall. "
        "Have someone nearby.\n"
        "Do not do it today if you have a fever, or if your care team said not to. "
        "Take your medicines as prescribed.\n"
        "You can stop at any time: tap Stop or type stop.\n"
        "Tap the button when you are next to the bed with the cuff on.",
    ),
    "opening.stopped-today": N_(
        "You have stopped a test today. Please rest and do not repeat it today; "
        "another day is better."
    ),
    "opening.age-is": N_("Your age: {age}. If that is wrong, type your age."),
    "start.not-now": N_("All right, no test now."),
    "start.already": N_("A test is already under way."),
    # taking a position
    "go.supine": N_(
        "Step {step} of {steps}. Lie flat on your back. Rest your arms by your sides. "
        "Tap the button when you are lying down."
    ),
    "go.seated": N_(
        "Step {step} of {steps}. Sit up slowly, on the chair. "
        "Feet flat on the floor, legs not crossed. "
        "Tap the button when you are sitting."
    ),
    "go.standing": N_(
        "Step {step} of {steps}. Stand up slowly and lean your shoulder blades on the wall. "
        "Heels about 15 cm (6 inches) from the wall, hips off it. Have someone nearby.\n"
        "If you feel faint, lie down at once and tap Stop.\n"
        "Tap the button when you are standing."
    ),
    # the clock
    "clock.supine": N_(
        "Your {length} have started. Lie still and breathe normally. "
        "No need to talk or scroll. I will tell you when to measure."
    ),
    "clock.seated": N_(
        "Your {length} have started. Sit still, back supported, feet flat. "
        "I will tell you when to measure."
    ),
    "clock.standing": N_(
        "Your time standing has started. First reading in {length}. "
        "Stay still and lean on the wall; do not move your legs.\n"
        "When the cuff measures, rest the cuff arm on something at the height of your heart."
    ),
    "progress.supine": N_("Half way: {gone} done, {left} to your reading. Keep lying still."),
    "progress.seated": N_("Half way: {gone} done, {left} to your reading. Keep sitting still."),
    "progress.standing": N_(
        "{gone} standing so far, {left} to your next reading. Keep still. "
        "If you feel faint, lie down and tap Stop."
    ),
    "heads-up.supine": N_("{left} to go. Get the cuff ready and keep still."),
    "heads-up.seated": N_("{left} to go. Get the cuff ready and keep still."),
    "heads-up.standing": N_(
        "{left} to go. Get the cuff ready. Support that arm at heart height and keep still."
    ),
    # asking for a reading
    "reading.ask.supine": N_(
        "Measure now, still lying down. "
        "Then type the top number, the bottom number and the heart rate, like this: {example}"
    ),
    "reading.ask.seated": N_(
        "Measure now, still sitting. Then type all three numbers, like this: {example}"
    ),
    "reading.ask.standing": N_(
        "Measure now, still standing, arm supported at heart height. "
        "Then type all three numbers, like this: {example}"
    ),
    "reading.ask.again": N_(
        "Measure now, arm supported at heart height. "
        "Then type all three numbers, like this: {example}"
    ),
    "reading.want.heart-rate": N_(
        "I have {numbers}. What is your heart rate? Like this: {example}"
    ),
    "reading.want.pressures": N_(
        "I have heart rate {heart_rate}. What are the top and bottom numbers? Like this: {example}"
    ),
    "reading.want.rest": N_("I have {numbers}. What is still missing? Like this: {example}"),
    "reading.not-yet": N_(
        "It is not time for that reading yet, so I have not kept it. I will ask in {left}. "
        "To add one in between, type all three numbers together."
    ),
    "reading.kept": N_("Got it: {pressures}, heart rate {heart_rate}."),
    "reading.kept-late": N_(
        "Got it: {pressures}, heart rate {heart_rate}. It came late; I keep it and say so."
    ),
    "reading.kept-extra": N_("Got it as an extra reading: {pressures}, heart rate {heart_rate}."),
    "reading.no-position": N_(
        "I have not kept those numbers. I ask for the next reading once you are in place."
    ),
    "reading.after-the-end": N_("The test has ended. I keep {numbers} beside it."),
    "reading.half-kept": N_("I keep {numbers} from before as it is, without the rest."),
    "reading.large-fall": N_(
        "The top number has dropped a lot. If you feel dizzy, faint or weak, lie down now and "
        "tap Stop."
    ),
    "reading.fast": N_(
        "Your heart is beating fast. If you feel dizzy, faint or weak, lie down now and tap Stop."
    ),
    "reading.now-counts": N_("Now {numbers} counts; the other one stays as an extra."),
    "reading.same": N_("I have that reading already, so I count it once."),
    "next.supine": N_("Your planned reading is in {left}. Keep lying still."),
    "next.seated": N_("Your planned reading is in {left}. Keep sitting still."),
    "next.standing": N_("Next reading in {left}. Keep standing still, leaning on the wall."),
    # odd numbers
    "doubt.swapped": N_(
        "You typed {numbers}. The top number should be the bigger one. Did you mean {suggested}?"
    ),
    "doubt.not-bigger": N_(
        "You typed {numbers}. The top number should be the bigger one. Are they right?"
    ),
    "doubt.high-diastolic": N_(
        "You typed {numbers}. That is unusually high for a bottom number. Is it right?"
    ),
    "doubt.pulse-pressure": N_(
        "The top and bottom numbers of {numbers} are an unusual distance apart. Are they right?"
    ),
    "doubt.same-number": N_(
        "In {numbers} the heart rate is the same as a pressure number. Is that right?"
    ),
    "doubt.tens": N_("You typed {numbers}. Did you mean {suggested}?"),
    "doubt.jump": N_("{numbers} is far from your last reading. Is it right?"),
    "doubt.same-as-before": N_("Did you measure again, and is it {numbers} once more?"),
    "doubt.correction": N_("Is {numbers} right now?"),
    "doubt.several": N_(
        "I read more than one: {numbers}. I keep them all, and {suggested} counts. Is that right?"
    ),
    "doubt.again": N_("Is {numbers} right?"),
    "doubt.dropped": N_("I have not kept {numbers}, since you did not say whether it is right."),
    "doubt.not-kept": N_("I have not kept those numbers."),
    "doubt.denied": N_("All right, I have not kept that."),
    "problem.which-number": N_("I am not sure which number is which."),
    "problem.too-many": N_("Those are more numbers than one reading has. I kept none of them."),
    "problem.impossible": N_("I cannot make a reading out of that number."),
    "problem.impossible.systolic": N_("{number} cannot be a top number. Please look once more."),
    "problem.impossible.diastolic": N_(
        "{number} cannot be a bottom number. Please look once more."
    ),
    "problem.impossible.heart_rate": N_("{number} cannot be a heart rate. Please look once more."),
    # corrections
    "fix.ask.supine": N_(
        "Your lying reading is {numbers}. Type all three numbers again, like this: {example}"
    ),
    "fix.ask.seated": N_(
        "Your sitting reading is {numbers}. Type all three numbers again, like this: {example}"
    ),
    "fix.ask.standing": N_(
        "This standing reading is {numbers}. Type all three numbers again, like this: {example}"
    ),
    "fix.interrupted": N_("I have left your earlier reading as it was."),
    "place.ask": N_("Is {numbers} your reading from now, or the correction of the earlier one?"),
    "fix.done": N_("Corrected. It is now {numbers}."),
    "fix.nothing": N_("There is no reading to correct yet."),
    "fix.cleared": N_("All right, I have let go of those numbers."),
    "fix.edit-unclear": N_(
        "You changed a message that held numbers, and I could not read it. I kept the old ones."
    ),
    # symptoms
    "symptom.ask": N_("What do you feel? Tap one, or type it."),
    "symptom.strength": N_("{symptom}: how strong is it, from 0 to 10?"),
    "symptom.noted": N_("Noted: {symptom}, {strength} out of 10."),
    "symptom.noted-plain": N_("Noted: {symptom}."),
    "symptom.strong": N_(
        "That is strong. If you feel you may faint, lie down at once and tap Stop."
    ),
    "symptom.no-test": N_("I can note symptoms once the test has begun."),
    # where am I
    "where.idle": N_(
        "No test is under way. Tap the button to start one, or type help to see what else I do."
    ),
    "where.supine": N_("Step {step} of {steps}: lying down. {left} to your reading. Keep still."),
    "where.seated": N_("Step {step} of {steps}: sitting. {left} to your reading. Keep still."),
    "where.standing": N_(
        "Step {step} of {steps}: standing. {left} to your reading. "
        "If you feel faint, lie down and tap Stop."
    ),
    "where.finished": N_("Your last test has ended. You can see its results or start a new test."),
    # help, language, odd input
    "help": N_(
        "I guide you through the test and keep your numbers. You can type: start, results, files, "
        "language.\n"
        "In a test: stop, to end it; where, to hear your step and what to do again; fix, if a "
        "number was wrong; symptom, to say what you feel.\n"
        "In an emergency call your local emergency number; I cannot call anyone for you."
    ),
    "help.full": N_(
        "I guide you through the test and keep your numbers. You can type: start, book, move, "
        "cancel, bad day, results, files, paper, companion, pause, resume, time zone, language, "
        "my data, delete everything.\n"
        "In a test: stop, to end it; where, to hear your step and what to do again; fix, if a "
        "number was wrong; symptom, to say what you feel.\n"
        "In an emergency call your local emergency number; I cannot call anyone for you."
    ),
    "help.running": N_(
        "If you feel unwell, lie down and tap Stop. In an emergency call your local emergency "
        "number; I cannot call anyone for you.\n"
        "You can type: stop, to end the test; where, to hear your step and what to do again; fix, "
        "if a number was wrong; symptom, to say what you feel; language."
    ),
    "language.ask": N_("Which language?"),
    "language.set": N_("I will speak English from now on."),
    "take-your-time": N_("Take your time."),
    "not-understood": N_("I did not understand that."),
    "stale": N_("That button belongs to an earlier step."),
    "left": N_("All right, I left it as it was."),
    "thing.photo": N_("I cannot read pictures. Please type the numbers you see."),
    "thing.voice": N_("I cannot hear voice messages. Please type, or use your phone's dictation."),
    "thing.other": N_("I can only read words and numbers. Please type."),
    "results.not-yet": N_("There are no results yet."),
    # the end
    "finished.rest": N_("That was the last reading. Well done. Sit or lie down and rest now."),
    "finished.nothing": N_("Nothing was measured, so there are no results. You can start again."),
    "caption.chart": N_("Your heart rate and blood pressure, minute by minute."),
    "caption.pdf": N_("One page for your care team."),
    "caption.csv": N_("The numbers as a table, for your care team."),
    "caption.fhir": N_("The test for your care team's computer records (FHIR)."),
    "stop.thanks": N_("Thank you. I have noted that."),
    "stop.reason": N_("What made you stop? Tap one, or type it."),
    "stop.sure": N_("Do you want to stop the test?"),
    "stop.not-meant": N_("All right, we go on."),
    "stop.nothing": N_("No test is under way, so there is nothing to stop."),
    "silence.nudge": N_("I am still waiting for you."),
    "silence.good": N_("Good."),
}
