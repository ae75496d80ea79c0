"""What is said while a test from paper is typed in, and how its results say that it was.

All is past: nothing is paced and nothing is stopped. Very high pressure: the American Heart
Association's public page.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    "paper.begin": N_("Good. I ask you for what is on your paper, one thing at a time."),
    "paper.later": N_("I can take a test from paper once we are through with this."),
    "paper.when": N_(
        "When did you begin that test? Tap a day, or type day and hour: yesterday 9:30. "
        "To leave this, type cancel."
    ),
    "paper.hour": N_("{day}: at what hour did you begin? Type it like this: 9:30"),
    "paper.to-come": N_("That time is still to come."),
    "paper.too-old": N_(
        "That is more than a year ago. Please show that paper to your care team instead."
    ),
    "paper.day-kind": N_("Was it a good day or a bad day for you?"),
    "paper.reading.supine": N_(
        "Reading {step} of {steps}: lying, after {time}. Type the three numbers on your paper, "
        "like this: {example}"
    ),
    "paper.reading.seated": N_(
        "Reading {step} of {steps}: sitting, after {time}. Type the three numbers, like this: "
        "{example}"
    ),
    "paper.reading.standing": N_(
        "Reading {step} of {steps}: standing, after {time}. Type the three numbers, like this: "
        "{example}"
    ),
    "paper.reading.hint": N_(
        "If you felt something then, add it: dizzy 4. If one was wrong, type fix."
    ),
    "paper.kept-part": N_("I keep what you have of it: {numbers}."),
    "paper.missed.noted": N_("All right, that one was not taken."),
    "paper.symptoms": N_(
        "Is there anything else on the paper that you felt? Type it with a number from 0 to 10, "
        "like this: headache 3"
    ),
    "paper.ended": N_("Did you do the test to its end?"),
    "paper.missed": N_("Not taken"),
    "paper.nothing": N_("Nothing else"),
    "paper.to-the-end": N_("Yes, to the end"),
    "paper.supine": N_("No, I stopped lying down"),
    "paper.seated": N_("No, I stopped sitting"),
    "paper.standing": N_("No, I stopped standing"),
    "paper.done": N_("That was all. I keep it as a test typed in from paper."),
    "paper.no-numbers": N_("There are no numbers of that test, so I kept nothing."),
    "paper.left": N_("I have let go of the test on paper. To begin again, type paper."),
    "put-aside.paper": N_("I have let go of the test on paper. To begin again, type paper."),
    # words of a faint, which may be those on the paper
    "paper.if-then": N_(
        "If that was during the test and you are well now, type the numbers alone. "
        "You can add it like this: faint 4"
    ),
    # numbers past a stop line, long after
    "paper.care.high": N_(
        "That was a very high pressure. Please tell your care team today. If you have chest pain, "
        "trouble breathing, back pain, numbness, weakness, a change in your sight or trouble "
        "speaking now, call your local emergency number."
    ),
    "paper.care.low": N_("That was a low pressure. Please tell your care team today."),
    "paper.care.rate": N_("That was an unusual heart rate. Please tell your care team today."),
    "paper.care.fall": N_("That was a large drop. Please tell your care team today."),
    # results
    "results.paper": N_("Typed in from paper: the times are those of the plan."),
    "files.page.paper": N_(
        "Typed in from paper {start}. Nobody watched the times: minutes and rests are those of "
        "the plan."
    ),
    "files.note.paper": N_("time by the plan, not watched"),
    "files.when.not-told": N_("time not told"),
    "files.origin.paper": N_("Typed in from paper"),
    "files.origin.watched": N_("In the chat, while it was done"),
}
