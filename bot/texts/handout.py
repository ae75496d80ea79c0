"""Words of the handout to print: the test on paper, for whoever has no phone at hand.

It says what the chat says, in as few words. What is filled in by hand has a heading and a line.
The signs to stop: Rowe 2017 (Front Pediatr 5:121) and public first-aid pages; very high pressure:
the American Heart Association's public page; the numbers are those of the stop lines.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    "handout.title": N_("The lie, sit and stand test at home"),
    "handout.about": N_(
        "On these two pages you can do the test with paper and a clock. It takes about {length}. "
        "It does not tell you what you have: your care team reads it."
    ),
    # who should ask first
    "handout.ask-first": N_("Ask your care team before you do it"),
    "handout.ask-first.who": N_(
        "Have someone with you. Ask your care team first if one of these fits you:"
    ),
    "handout.hazard.fainted-standing": N_("You have fainted while standing"),
    "handout.hazard.pregnant": N_("You are pregnant"),
    "handout.hazard.heart-attack-or-stroke": N_("You had a heart attack or a stroke lately"),
    "handout.hazard.heart-disease": N_("You have serious heart disease"),
    "handout.hazard.cannot-stand": N_("You cannot stand for 10 minutes"),
    "handout.hazard.ill": N_("You have a fever or are ill"),
    "handout.hazard.under-18-alone": N_("You are under 18 and no adult is with you"),
    "handout.hazard.pressure": N_("Your blood pressure is very high or very low"),
    # before
    "handout.before": N_("Before the test"),
    "handout.before.day": N_(
        "The day before: eat and drink as usual. Take no extra water and no extra salt."
    ),
    "handout.before.hours": N_(
        "For 3 hours before: no coffee, tea, energy drinks or nicotine, and no big meal."
    ),
    "handout.before.wear": N_(
        "Wear loose clothes, no shoes and no compression stockings. Have someone nearby."
    ),
    "handout.before.things": N_(
        "You need a blood pressure cuff, a clock, a bed, a chair, a clear wall and a pen."
    ),
    # the steps
    "handout.steps": N_("The test"),
    "handout.step.supine": N_(
        "Lie flat on your back for {length}. Lie still and do not talk. Then measure, still lying "
        "down."
    ),
    "handout.step.seated": N_(
        "Sit up slowly, on the chair, for {length}. Keep your feet flat on the floor. Then "
        "measure, still sitting."
    ),
    "handout.step.standing": N_(
        "Stand up slowly and lean your shoulder blades on the wall, heels 15 cm (6 inches) out. "
        "Stay still for {length}. Measure after {list}. Rest the cuff arm on something at the "
        "height of your heart."
    ),
    "handout.step.write": N_("Write the numbers down each time, and how you feel."),
    # when to stop
    "handout.stop": N_("When to stop"),
    "handout.stop.signs": N_(
        "Stop at once, lie down and raise your legs if you feel about to faint, if your sight "
        "goes dim, if you get a cold sweat or feel sick, or if you cannot stand any more."
    ),
    "handout.stop.standing": N_(
        "Stop and lie down as well if the top number is under {lowest} standing; if it has dropped "
        "by {change} or more and you feel unwell; or if it has dropped by {value} or more and your "
        "heart rate has dropped too."
    ),
    "handout.stop.racing": N_(
        "The same if your heart rate is {highest} or more standing, or {limit} or more and you "
        "feel unwell."
    ),
    "handout.stop.rest": N_(
        "Do not stand up for the test if the top number is under {lowest} lying or sitting, or if "
        "your heart rate lying down is under {limit}, or {highest} or more."
    ),
    "handout.stop.high": N_(
        "If the top number is {systolic} or more, or the bottom number {diastolic} or more: "
        "stop, rest, and measure again after a minute. Still so high? Call your care team."
    ),
    "handout.stop.call": N_(
        "Call the emergency number if you faint and do not feel well soon, or have chest pain, "
        "trouble breathing, back pain, numbness, weakness, a change in your sight or trouble "
        "speaking."
    ),
    "handout.stop.again": N_("If you have stopped, do not do the test again that day."),
    "handout.emergency": N_("Emergency number: {number}"),
    "handout.emergency.blank": N_("Emergency number:"),
    # the table
    "handout.table": N_("Your numbers"),
    "handout.table.how": N_(
        "Do the test once on a good day and once on a bad day, at about the same hour. "
        "For what you feel, write a word and a number from 0 (not at all) to 10 (worst)."
    ),
    "handout.table.good": N_("A good day"),
    "handout.table.symptomatic": N_("A bad day"),
    "handout.table.day": N_("Date and hour you began:"),
    "handout.table.medicines": N_("Medicines today, and when:"),
    "handout.table.ended": N_("If you stopped early: when, and why?"),
    "handout.head.when": N_("When"),
    "handout.head.time": N_("Time"),
    "handout.head.systolic": N_("Top"),
    "handout.head.diastolic": N_("Bottom"),
    "handout.head.heart-rate": N_("Heart rate"),
    "handout.head.symptoms": N_("What you feel, 0 to 10"),
    "handout.row.supine": N_("Lying, {time}"),
    "handout.row.seated": N_("Sitting, {time}"),
    "handout.row.standing": N_("Standing, {time}"),
    # afterwards
    "handout.after": N_("Afterwards"),
    "handout.after.contact": N_("Show these pages to your care team: {words}"),
    "handout.after.contact.blank": N_("Show these pages to your care team:"),
    "handout.after.link": N_(
        "Or type your numbers into the chat: point the camera of a phone at the square, or open "
        "this link. Then type paper."
    ),
    "handout.after.until": N_("This link is for you alone, and is good until {day}."),
    "handout.after.picture": N_("A square code that opens the chat: {link}"),
    "handout.made": N_("Wallside {software}, {protocol} version {version}"),
}
