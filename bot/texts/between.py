"""What is said before a first test and between tests: questions, the watch, what is kept."""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message, fixed

MESSAGES: Final[Mapping[str, Message]] = {
    # getting in
    "invitation.needed": N_("To begin, please open the link that your clinic sent you."),
    "invitation.unknown": N_(
        "I do not know that invitation, or it has run out. Please ask your clinic for a new link."
    ),
    "question.step": N_("{step} of {steps}"),
    "question.consent": N_(
        "Before we begin: I keep your answers, your readings and what you type, so that the "
        "results can be made. They are kept on the computer of whoever runs me, until you delete "
        "them, or the clinic's time for keeping them is over. "
        "I ask for no name and no date of birth. Nobody gets your results unless you send "
        "them. The messenger carries our messages and can read them.\n"
        "At any time you can type my data for a copy, or delete everything.\n"
        "Do you agree?"
    ),
    "consent.again": N_(
        "I did not understand that. Please read what I keep, in my message above. "
        "Then tap: I agree, or: I do not agree."
    ),
    "consent.added": N_("Your clinic adds: {text}"),
    "care-team.contact": N_("Your care team: {contact}"),
    "consent.yes": N_("I agree"),
    "consent.no": N_("I do not agree"),
    "consent.changed": N_("What I keep, and for how long, has changed since you agreed."),
    "consent.not-renewed": N_(
        "That is all right. Without your agreement I cannot begin another test. "
        "What is here already stays as it is, unless you want it deleted."
    ),
    "consent.refused": N_("That is all right. I keep nothing. You can come back at any time."),
    "question.age": N_("How old are you? One number I check depends on your age."),
    "question.local-time": N_(
        "What time is it where you are now? Type it like this: 9:40. "
        "I need it to remind you at the right time."
    ),
    "question.place": N_("Which place has the same clock as you? You can also type a city."),
    "zone.unknown-place": N_(
        "I do not know that place. The time on your clock is enough, like this: 9:40"
    ),
    "zone.no-such-time": N_("No place has that time just now. Please look once more."),
    "zone.kept": N_("I use the clock of {place}. Type time zone to change it."),
    "label.place": N_("{place}"),
    "button.more-places": N_("Other places"),
    "question.hazards": N_("Does any of these fit you? Tap all that do, then tap the last button."),
    "hazard.fainted-standing": N_("Fainted while standing"),
    "hazard.pregnant": N_("I am pregnant"),
    "hazard.heart-attack-or-stroke": N_("Recent heart attack, stroke"),
    "hazard.heart-disease": N_("Serious heart disease"),
    "hazard.cannot-stand": N_("I cannot stand 10 minutes"),
    "hazard.ill": N_("Fever, or ill right now"),
    "hazard.under-18-alone": N_("Under 18 with no adult here"),
    "hazard.pressure": N_("Very high or low pressure"),
    "button.none": N_("None of these"),
    "button.done": N_("That is all"),
    "held": N_(
        "Then please talk to your care team first. I book no test until they tell me that you may "
        "do it at home. If they ask for it, your number here is {code}."
    ),
    "held.ill": N_(
        "Then please get well first; I book no test while you are ill. "
        "When you are well again, tap the button and I ask once more."
    ),
    "button.tapped-wrong": N_("I tapped the wrong one"),
    "button.well-again": N_("I am well again"),
    "cleared": N_("Your care team has cleared you for the test at home."),
    "question.medicines": N_(
        "Do you take any of these? Some medicines change the numbers. "
        "Tap all that fit, then tap the last button."
    ),
    "medicine.beta-blocker": N_("Beta-blocker"),
    "medicine.heart-slowing": N_("Ivabradine, diltiazem …"),
    "medicine.stimulant": N_("Stimulant"),
    "medicine.noradrenaline": N_("Venlafaxine, duloxetine …"),
    "medicine.diuretic": N_("Water tablets"),
    "medicine.pressure-lowering": N_("Blood pressure tablets"),
    "medicine.pressure-raising": N_("Midodrine, fludrocortisone"),
    "medicines.plan": N_("Your care team's plan for medicines: {plan}"),
    "medicines.as-prescribed": N_(
        "Take your medicines as prescribed, and ask your care team if you are not sure."
    ),
    "medicines.beta-blocker": N_(
        "Never stop a beta-blocker by yourself: stopping it suddenly can be dangerous."
    ),
    "question.cuff": N_(
        "Which blood pressure cuff do you have? Please use the same one on both days."
    ),
    "cuff.upper-arm": N_("Upper arm"),
    "cuff.wrist": N_("Wrist"),
    "question.rate-source": N_("Where will you read your heart rate?"),
    "rate-source.cuff": N_("On the cuff"),
    "rate-source.oximeter": N_("Finger clip (oximeter)"),
    "rate-source.watch": N_("Watch"),
    "rate-source.fingers": N_("I count it"),
    "question.trial": N_(
        "Let us try it once. Sit down, put the cuff on and measure. Then type the top number, "
        "the bottom number and the heart rate, like this: 124/76 72"
    ),
    "trial.good": N_("I read that as {numbers}. That works well. It does not count as a result."),
    "trial.doubt": N_(
        "I read that as {numbers}, which looks odd. Is it right? If not, please measure once more."
    ),
    "trial.odd": N_("I read that as {numbers}, which looks odd. Please measure once more."),
    "trial.high": N_(
        "That is very high. Rest for a minute, then measure again and type the numbers. "
        "If they stay this high, call your care team today and do no test before.\n"
        "If you have chest pain, trouble breathing, back pain, numbness, weakness, a change in "
        "your sight or trouble speaking, call your local emergency number now."
    ),
    "trial.low": N_(
        "The top number is low. Please talk to your care team before you do the test. "
        "If you feel faint, lie down now and raise your legs."
    ),
    "trial.slow": N_(
        "Your heart rate is slow. Please talk to your care team before you do the test."
    ),
    "trial.fast": N_(
        "Your heart rate is fast for sitting still. Please talk to your care team before you do "
        "the test."
    ),
    "trial.unclear": N_("I could not read those numbers."),
    "enrolled": N_(
        "That was all. For the test you need a bed, a chair, a clear wall and someone nearby. "
        "Now let us find a time."
    ),
    # on the day
    "question.same-kit": N_(
        "Do you use the same cuff as last time, and read the heart rate the same way?"
    ),
    "same-kit.same": N_("Yes, the same"),
    "same-kit.changed": N_("No, that has changed"),
    "question.last-dose": N_("When did you last take one of the medicines you named?"),
    "last-dose.within-4-hours": N_("Less than 4 hours ago"),
    "last-dose.within-12-hours": N_("4 to 12 hours ago"),
    "last-dose.within-24-hours": N_("12 to 24 hours ago"),
    "last-dose.longer-ago": N_("Longer ago"),
    "question.departures": N_(
        "Does any of these fit today? You can do the test all the same; I note it. "
        "Tap all that fit, then tap the last button."
    ),
    "departure.extra-fluids": N_("Drank extra water"),
    "departure.extra-salt": N_("Took extra salt"),
    "departure.caffeine": N_("Caffeine in the last 3 h"),
    "departure.nicotine": N_("Nicotine in the last 3 h"),
    "departure.heavy-meal": N_("Big meal just now"),
    "departure.garments": N_("Compression stockings"),
    "departure.poor-sleep": N_("Slept badly"),
    "departure.illness": N_("Fever or ill"),
    "audit.noted": N_("Noted. It goes with your result."),
    "question.ill-today": N_(
        "With a fever or when you are ill, the test says little, and it is better to rest. "
        "I advise you to move it."
    ),
    "ill-today.move": N_("Move it"),
    "ill-today.go-on": N_("Do it anyway"),
    "ill.rest-first": N_("Get well first."),
    "audit.anew": N_("Some time has passed, so I ask again."),
    # between the tests
    "question.day-kind": N_("What kind of day is today for you?"),
    "question.day-kind.then": N_("Your test began on {moment}. What kind of day was that for you?"),
    "day-kind.good": N_("A good day"),
    "day-kind.symptomatic": N_("A bad day"),
    "day-kind.unsure": N_("Not sure"),
    "question.watch": N_(
        "The test says most when it is done on a good day and on a bad day. Shall I ask you once "
        "a day how you are, so that we do not miss it? Or just type bad day when one comes."
    ),
    "watch.daily": N_("Ask me once a day"),
    "watch.word": N_("I will tell you"),
    "watch.none": N_("No second test"),
    "question.watch-hour": N_("At what hour shall I ask?"),
    **{f"watch-hour.{hour}": fixed(f"{hour}:00") for hour in (8, 10, 12, 18, 20)},
    "question.watch-line": N_(
        "I will ask for a number from 0 (as usual) to 10 (as bad as it gets). "
        "From which number on is it a bad day for you?"
    ),
    "watch.hour-range": N_("Please choose a whole or half hour between 6:00 and 21:00."),
    "watch.set": N_("I will ask each day at {time}. {line} or more counts as a bad day."),
    "watch.by-word.symptomatic": N_("All right. Type bad day when one comes."),
    "watch.by-word.good": N_("All right. Type good day when one comes."),
    "watch.declined": N_("All right. You can start a second test at any time."),
    "question.day-score": N_("How are you today, from 0 (as usual) to 10 (as bad as it gets)?"),
    "watch.noted": N_("Thank you, noted."),
    "watch.goes-on.symptomatic": N_("Thank you, noted. I still look out for a bad day."),
    "watch.goes-on.good": N_("Thank you, noted. I now look out for a good day."),
    "day.with-a-test": N_(
        "Thank you for telling me. I keep what kind of day it is only together with a test."
    ),
    "unwell.care": N_(
        "I am sorry that you feel bad. If it is worse than usual, call your care team. "
        "In an emergency call your local emergency number."
    ),
    "symptoms.later": N_(
        "I note symptoms during a test and shortly after it. If this is a bad day, type bad day."
    ),
    "fix.too-late": N_(
        "That is a reading of an earlier test, which I can no longer change. "
        "Please tell your care team if it was wrong."
    ),
    "watch.weekly": N_("I will ask only once a week from now on."),
    "watch.over": N_(
        "I stop asking about your days now. The second test is still missing; please tell your "
        "care team. You can do it at any time: type start."
    ),
    "question.repeat": N_("Would you like to do the second test? It is up to you."),
    "question.repeat.any": N_("Would you like to do a test today? It is up to you."),
    "repeat.when": N_("When? Tap one, or type a time."),
    "repeat.rest-first": N_(
        "A test was stopped today, so rest comes first. Please do not repeat it today; another "
        "day is better."
    ),
    "repeat.left": N_("All right. To do a test another day, type book."),
    "repeat.same-time": N_(
        "Your other test began on {moment}. The same time of day is better, since the numbers "
        "change over the day."
    ),
    "repeat.now": N_("Now"),
    "repeat.in-an-hour": N_("In an hour"),
    "repeat.afternoon": N_("This afternoon"),
    "repeat.not-today": N_("Not today"),
    "second.done": N_("Both tests are done. Here they are side by side."),
    # results, data
    "results.which": NP_("You have {count} test. Which one?", "You have {count} tests. Which one?"),
    "label.test": N_("Test {number}: {day}, {time}"),
    "label.test.good": N_("Test {number}: {day}, good day"),
    "label.test.symptomatic": N_("Test {number}: {day}, bad day"),
    "label.test.unsure": N_("Test {number}: {day}, {time}"),
    "button.compare": N_("Compare the last two"),
    "button.compare.days": N_("Compare a good and a bad day"),
    "button.trend": N_("All tests over time"),
    "caption.copy": N_("All that I keep of you."),
    "question.delete": N_(
        "Delete everything? Your answers, readings, results and reminders will be gone for good."
    ),
    "delete.yes": N_("Yes, delete everything"),
    "delete.no": N_("Keep it"),
    "deleted": N_("Everything is deleted. Write to me if you want to begin again."),
}
