"""What is said between a person and those who stand by for them, near or far.

Alarms say what to do first, and no more than is known: nothing here diagnoses, and no alarm holds
a number of a reading.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    # linking somebody
    "button.companion": N_("Add a companion"),
    "question.share": N_(
        "A companion is somebody near or far who stands by for you. You send them a link, and they "
        "have to agree. You can end it at any time: type companions.\n"
        "Only if something goes wrong: I tell them when you stop, feel faint or do not answer, or "
        "when a reading is unsafe. They see no numbers.\n"
        "All: I also tell them when a test starts and ends. They can type your readings for you, "
        "and see the ones they type.\n"
        "What shall I tell them?"
    ),
    "share.alarms": N_("Only if something goes wrong"),
    "share.all": N_("All, and they can type too"),
    "share.no": N_("Not now"),
    "link.offered.alarms": N_(
        "Send the next message to your companion. The link works once, for 7 days. "
        "I tell you when they have agreed. They hear only if something goes wrong."
    ),
    "link.offered.all": N_(
        "Send the next message to your companion. The link works once, for 7 days. "
        "I tell you when they have agreed. They hear all, and can type your readings."
    ),
    "link.to-open": N_(
        "Will you stand by while I do a lie, sit and stand test at home? Please open this: {link}"
    ),
    "link.to-type": N_(
        "Will you stand by while I do a lie, sit and stand test at home? "
        "Please type this to Wallside: {link}"
    ),
    "link.unknown": N_(
        "I cannot use that link. A link works once, for 7 days, and for somebody else. "
        "Please ask the person who sent it for a new one."
    ),
    "companion.full": N_(
        "You have {limit} companions, and that is as many as I can tell. "
        "Remove one first, then type companion."
    ),
    "companion.joined.alarms": N_(
        "Your companion has agreed. I tell them if something goes wrong in a test. "
        "Type companions to see or remove them."
    ),
    "companion.joined.all": N_(
        "Your companion has agreed. I tell them how your tests go, and they can type your "
        "readings. Type companions to see or remove them."
    ),
    "companion.list": NP_(
        "You have {count} companion. Tap a button to remove somebody.",
        "You have {count} companions. Tap a button to remove somebody.",
    ),
    "label.companion.alarms": N_("Remove {number} ({day}, alarms)"),
    "label.companion.all": N_("Remove {number} ({day}, all)"),
    "companion.offers": NP_(
        "{count} link that you were given still waits to be used. Tap its button to withdraw it.",
        "{count} links that you were given still wait to be used. Tap a button to withdraw one.",
    ),
    "label.offer": N_("Withdraw link {number} ({day})"),
    "companion.withdrawn": N_("Withdrawn. That link does not work any more."),
    "companion.declined": N_(
        "Somebody opened your link, and does not want to be your companion. They see nothing of "
        "you. To withdraw the link, type companions."
    ),
    "companion.removed": N_("Removed. I tell them that it has ended, and nothing more."),
    "companion.left": N_(
        "Your companion has ended the link. I tell them nothing more. "
        "Please see that someone else is near when you do a test."
    ),
    "companion.with-you": N_("Your companion says that they are with you."),
    "companion.not-reached": N_(
        "Your companion cannot reach you. If you can, answer them now. "
        "If you need help, call your local emergency number."
    ),
    "companion.unreached": N_(
        "I could not reach your companion: their chat takes no messages from me. "
        "Call out to someone near you. If you need help, call your local emergency number."
    ),
    "companion.out-of-reach": N_(
        "I cannot reach your companion: their chat takes no messages from me. "
        "Please see that someone else is near before you stand up."
    ),
    # being asked to stand by
    "question.accompany.alarms": N_(
        "Someone asks you to stand by while they do a lie, sit and stand test at home. "
        "I am Wallside, a program that guides them.\n"
        "If you agree, I write to you when something goes wrong: they stop, feel faint or do not "
        "answer, or a reading is unsafe. Then call them or go there. You see no numbers.\n"
        "I am no emergency service. I keep that you are linked, and what you type here. "
        "You can end it at any time: type leave.\n"
        "Do you agree?"
    ),
    "question.accompany.all": N_(
        "Someone asks you to stand by while they do a lie, sit and stand test at home. "
        "I am Wallside, a program that guides them.\n"
        "If you agree, I write to you when a test starts and ends, and when something goes wrong. "
        "Then call them or go there. You can also type their readings here while the test runs.\n"
        "I am no emergency service. I keep that you are linked, and what you type here. "
        "You can end it at any time: type leave.\n"
        "Do you agree?"
    ),
    "accompany.yes": N_("Yes, I stand by"),
    "accompany.no": N_("No, thank you"),
    "accompany.later": N_("Someone asks you to stand by for them. I ask you after your test."),
    "accompany.declined": N_(
        "That is all right. I let the person who asked know, and keep nothing about you."
    ),
    "accompany.joined.alarms": N_(
        "Thank you. I write to you if something goes wrong in a test of the person who linked you. "
        "Please keep the sound of this chat on. Type leave to end it."
    ),
    "accompany.joined.all": N_(
        "Thank you. I write to you how the tests of the person who linked you go. While a test "
        "runs you can type their readings, like this: 124/76 72\n"
        "Please keep the sound of this chat on. Type leave to end it."
    ),
    "accompany.ended": N_(
        "The person who linked you has ended it. I tell you nothing more about them. Thank you."
    ),
    "accompany.left": N_("You have ended it. I tell you nothing more, and let them know."),
    "accompany.list": NP_(
        "You stand by for {count} person. Tap a button to end it.",
        "You stand by for {count} people. Tap a button to end it.",
    ),
    "label.accompanied": N_("Leave person {number} ({day})"),
    "where.companion": NP_(
        "You stand by for {count} person. I write when there is something to tell. "
        "Type companions to see or end it.",
        "You stand by for {count} people. I write when there is something to tell. "
        "Type companions to see or end it.",
    ),
    "consent.refused.companion": N_(
        "That is all right. I keep nothing of yours but that you stand by for someone else."
    ),
    # what has happened
    "notice.about": N_("About person {number}:"),
    "notice.started": N_(
        "The person who linked you has begun a test. It takes about half an hour."
    ),
    "notice.completed": N_("The person who linked you has finished their test as planned."),
    "notice.stopped": N_(
        "Call or go to the person who linked you. They have stopped their test. "
        "They should lie down and rest. If they faint, have chest pain or trouble breathing, call "
        "the local emergency number."
    ),
    "notice.felt-faint": N_(
        "Call or go to the person who linked you now. They may faint. They should lie down with "
        "their legs raised. The test has ended. If they faint, have chest pain or trouble "
        "breathing, call the local emergency number."
    ),
    "notice.emergency": N_(
        "Call or go to the person who linked you now. Words of an emergency were typed in their "
        "test. If they need help or you cannot reach them, call the local emergency number where "
        "they are."
    ),
    "notice.unsafe-reading": N_(
        "Call or go to the person who linked you. A reading crossed a safety line, and the test "
        "has ended. They should lie down or sit and rest. If they faint, have chest pain, trouble "
        "breathing or trouble speaking, call the local emergency number."
    ),
    "notice.silent": N_(
        "The person who linked you does not answer. Call them, or go there. If you cannot reach "
        "them, call the local emergency number where they are. The test has ended."
    ),
    "notice.still-silent": N_(
        "The person who linked you still does not answer after their test. Call them, or go there. "
        "If you cannot reach them, call the local emergency number where they are."
    ),
    "notice.worse": N_(
        "Call or go to the person who linked you now. They feel worse after their test. If they "
        "faint, have chest pain or trouble breathing, call the local emergency number."
    ),
    "notice.better": N_("The person who linked you says that they feel better now."),
    "notice.going.supine": N_("They were about to lie down."),
    "notice.going.seated": N_("They were about to sit up."),
    "notice.going.standing": N_("They were about to stand up."),
    "notice.been.supine": N_("They had been lying down for {gone}."),
    "notice.been.seated": N_("They had been sitting for {gone}."),
    "notice.been.standing": N_("They had been standing for {gone}."),
    "button.with-them": N_("I am with them"),
    "button.not-reached": N_("I cannot reach them"),
    "answer.with-them": N_(
        "Thank you. I tell them so. Keep them lying down until they feel well. If they do not wake "
        "or breathe normally, call the local emergency number now."
    ),
    "answer.not-reached": N_(
        "Call the local emergency number where they are, now. Say that someone does not answer "
        "after a test of blood pressure standing up. I cannot call for you. I tell them that you "
        "tried."
    ),
    # words about somebody's test
    "relay.grave": N_("Your companion has written that something is wrong."),
    "relay.typed": N_("From your companion: {words}"),
    "beside.passed-on": N_(
        "I pass that on now. If they faint, do not answer, or have trouble breathing, call the "
        "local emergency number."
    ),
    "beside.which": N_(
        "More than one person you stand by for does a test now. I cannot tell whose numbers those "
        "are, so I took none. They can type them."
    ),
    "beside.not-agreed": N_(
        "You hear from me only if something goes wrong, so I cannot take numbers from you. "
        "The person can send you another link that allows it."
    ),
    "beside.kept": N_("Noted for them: {numbers}."),
    "beside.part": N_("I have {numbers} so far. What is still missing?"),
    "beside.doubted": N_("I am not sure of {numbers}, so I asked them. You can answer yes or no."),
    "beside.noted": N_("Noted."),
    "beside.asked": N_(
        "I asked them whether they are all right. If no answer comes within a minute, I end the "
        "test."
    ),
    "beside.ended": N_("Their test has ended."),
    "beside.unclear": N_(
        "I could not take that. When a reading is due, type it like this: 124/76 72"
    ),
}
