"""What is said to a person about their care team: what it gets, and what it has to say.

Nothing here diagnoses, and nothing says more than that somebody of the team has looked.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    "question.consent.team": N_(
        "Before we begin: I keep your answers, your readings and what you type, so that the "
        "results can be made. They are kept on the computer of whoever runs me, until you delete "
        "them, or the clinic's time for keeping them is over. "
        "I ask for no name and no date of birth. Your care team gets your results only if "
        "you send them. If something goes wrong in a test, I tell them at once, without your "
        "numbers. The messenger carries our messages and can read them.\n"
        "At any time you can type my data for a copy, sharing to see or change what your care team "
        "gets, or delete everything.\n"
        "Do you agree?"
    ),
    # sending
    "question.send": N_("Shall I send this result to your care team?"),
    "send.yes": N_("Yes, send it"),
    "send.always": N_("Always send"),
    "send.no": N_("Do not send"),
    "send.sent": N_("I have sent it. I tell you when they have seen it."),
    "send.sent.always": N_(
        "I have sent it to your care team, as you asked me to do each time. "
        "I tell you when they have seen it."
    ),
    "send.not-sent": N_("I did not send it. If you want to send it later, type: send my results"),
    "send.nothing": N_("There is no result to send yet."),
    "send.already": N_("Your care team has your latest result. I tell you when they have seen it."),
    "send.not-agreed": N_(
        "I can send results only when you have agreed to it. I ask you before your next test."
    ),
    # what is shared
    "sharing.alarms": N_("If something goes wrong in a test, I tell your care team at once."),
    "sharing.each": N_("They get a result only if you say so each time."),
    "sharing.always": N_("They get every result, as you agreed on {day}."),
    "sharing.sent": NP_(
        "You have sent {count} result so far.", "You have sent {count} results so far."
    ),
    "sharing.always-now": N_("From now on I send every result to your care team."),
    "sharing.stopped": N_("From now on I ask you each time. What you have sent stays with them."),
    "sharing.taken-back": N_(
        "From now on your care team cannot open your results here. "
        "Files that they have saved stay with them. Ask them if you want those deleted too."
    ),
    "button.sharing.always": N_("Send every result"),
    "button.sharing.stop": N_("Stop sending every result"),
    "button.sharing.back": N_("Take back what I sent"),
    # what the team has to say
    "team.seen": N_("Your care team has looked at your test {test}."),
    "team.next.call": N_("They will call you about it."),
    "team.next.repeat": N_(
        "They ask you to do the test once more. Tap the button to choose a time."
    ),
    "team.next.formal": N_(
        "They would like you to have a test with them. They will arrange it with you."
    ),
    "team.next.nothing": N_(
        "They plan nothing more for now. If you feel worse, or new signs come, call them."
    ),
    "team.next.other": N_("They will tell you what comes next."),
    "team.repeat": N_(
        "Your care team asks you to do the test once more. Tap the button to choose a time."
    ),
    "team.code-not-here": N_(
        "I cannot use that code in this chat. A code for a care team works once, for a short time, "
        "in a chat that is used for nothing else."
    ),
    "team.words": N_("From your care team: {words}"),
}
