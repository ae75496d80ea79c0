"""What is said to the care team, short enough for a phone. No reading stands here.

An item says who, how urgent and why, in words for a pattern and never for a disease.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message, fixed

MESSAGES: Final[Mapping[str, Message]] = {
    # an item
    "care.item": N_("{item}. {reference}, test {test}: {priority} – {cause}"),
    "care.priority.alarm": N_("ALARM"),
    "care.priority.soon": N_("soon"),
    "care.priority.review": N_("review"),
    "care.priority.routine": N_("routine"),
    "care.cause.emergency": N_("words of an emergency"),
    "care.cause.silence": N_("does not answer"),
    "care.cause.stop": N_("stopped the test"),
    "care.cause.near-faint": N_("felt close to fainting"),
    "care.cause.worse": N_("feels worse after the test"),
    "care.cause.unsafe-reading": N_("a reading crossed a safety line"),
    "care.cause.very-high": N_("very high pressure"),
    "care.cause.fall": N_("pressure fell on standing"),
    "care.cause.faintness": N_("told of faintness"),
    "care.cause.line-met": N_("a line is met"),
    "care.cause.unfinished": N_("not everything was measured"),
    "care.cause.no-line": N_("no line is met"),
    "care.free": N_("Nobody has it. It came {day}, {time}."),
    "care.yours": N_("You have it since {day}, {time}."),
    "care.taken": N_("{member} has it since {day}, {time}."),
    "care.closed": N_("Closed by {member}, {day}, {time}: {follow_up}."),
    "care.taken-back": N_("The person has taken it back. It can no longer be opened."),
    "care.not-sent": N_("The person has sent no result of this test."),
    "care.papers": N_("This is what the person was told. The files follow."),
    "care.result-sent": N_("A result was sent."),
    "button.care.open": N_("Open"),
    "button.care.open-privately": N_("Open in private"),
    "button.care.take": N_("I take it"),
    "button.care.let-go": N_("Let go"),
    "button.care.hand-over": N_("Hand over"),
    "button.care.close": N_("Close"),
    "button.care.leave": N_("Yes, I leave the team"),
    "label.care.item": N_("Open {item}"),
    "label.care.which": fixed("{item}: {reference}"),
    "label.care.member": fixed("{member}"),
    "label.care.remove": N_("Remove {member}"),
    # alarms
    "care.alarm.duty": N_("Alarm for you, on duty. Please call the person, then take it."),
    "care.alarm.next": N_(
        "Alarm: nobody on duty has taken it. You are next. Please call the person, then take it."
    ),
    "care.alarm.all": N_("Alarm to the whole team. Please call the person, then take it."),
    "care.alarm.again": N_(
        "Alarm: still nobody has taken it. Please call the person, then take it."
    ),
    "care.alarm.more.emergency": N_("Now there are words of an emergency. Please call the person."),
    "care.alarm.more.silence": N_("The person still does not answer. Please call them."),
    "care.alarm.more.stop": N_("The person has stopped another test. Please call them."),
    "care.alarm.more.near-faint": N_("The person now feels close to fainting. Please call them."),
    "care.alarm.more.worse": N_("The person now feels worse. Please call them."),
    "care.alarm.forgotten": N_(
        "The person has deleted all of theirs here, and this alarm with it. "
        "If nobody has reached them yet, please call them."
    ),
    "care.alarm.better": N_("The person says that they feel better now."),
    # the inbox
    "care.inbox": NP_("{count} waits for you:", "{count} wait for you:"),
    "care.inbox.empty": N_("Nothing waits in the inbox."),
    "care.inbox.more": NP_("{count} more is not shown.", "{count} more are not shown."),
    "care.which": N_("Which one?"),
    "care.which.none": N_("There is none in the inbox with which you can do that. Type: inbox"),
    "care.no-such-item": N_("There is no such item. Type: inbox"),
    "care.refused.closed": N_("It is closed already."),
    "care.refused.taken": N_("Somebody else was faster."),
    "care.refused.yours": N_("You have it already."),
    "care.refused.not-yours": N_("You do not have it. Take it first."),
    "care.hand-over.to-whom": N_("Who takes it?"),
    "care.hand-over.nobody": N_("There is nobody else in the team."),
    "care.given-to-you": N_("{member} hands this over to you."),
    "care.out-of-hands": N_(
        "My messages do not reach {member}. What they had is in the inbox again."
    ),
    # what follows
    "care.follow-up.ask": N_("What follows? The person is told in plain words."),
    "care.follow-up.call": N_("We call them"),
    "care.follow-up.repeat": N_("Repeat the test"),
    "care.follow-up.formal": N_("A test with us"),
    "care.follow-up.nothing": N_("Nothing further"),
    "care.follow-up.other": N_("Something else"),
    "care.follow-up.words": N_("Type what follows, in one message. Or type: cancel"),
    "care.follow-up.words.team": N_(
        "Type what follows, in one message. It is for the team only: the person hears that you "
        "have looked, and that you will tell them more. Or type: cancel"
    ),
    "care.words.too-long": N_(
        "That is too long, so it was not sent. Please type it in 500 letters or fewer. "
        "Or type: cancel"
    ),
    "care.cancelled": N_("All right, nothing is changed."),
    # the team
    "care.joined": N_("Welcome, {label}. You are in the care team as {role}."),
    "care.joined.room": N_(
        "This group now hears of what waits, without numbers and without names. "
        "Everything else opens in private."
    ),
    "care.role.coordinator": N_("coordinator"),
    "care.role.clinician": N_("clinician"),
    "care.duty.on": N_("You are on duty. Alarms come to you first. Type: off duty"),
    "care.duty.off": N_("You are off duty. Others are on duty."),
    "care.duty.off.nobody": N_(
        "You are off duty. Nobody is on duty now, so alarms go to the whole team at once."
    ),
    "care.duty.off.set": N_("By the clinic's plan you are on duty now. Alarms come to you first."),
    "care.on-duty": N_("on duty"),
    "care.off-duty": N_("off duty"),
    "care.team": NP_(
        "{count} person or group in the team:", "{count} people or groups in the team:"
    ),
    "care.team.member": N_("{label}, {role}, {duty}"),
    "care.team.room": N_("{label}, a group"),
    "care.add.label": N_("What shall the others call them? Type: add coordinator Marta"),
    "care.add.taken": N_("Somebody in the team is called that already. Choose another name."),
    "care.code": N_(
        "For {label}, as {role}: {link}\nIt works once, for a short time. Pass it on in private."
    ),
    "care.code.to-type": N_(
        "For {label}, as {role}, to be typed to Wallside: {link}\n"
        "It works once, for a short time. Pass it on in private."
    ),
    "care.removed": N_("{member} is no longer in the team, and gets nothing more."),
    "care.no-such-member": N_("There is no such member."),
    "care.leave.sure": N_("Leave the team? What you have goes back to the inbox."),
    "care.left": N_("You have left the team. You get nothing more."),
    "care.cleared": N_("Cleared. The person is told."),
    "care.clear.needless": N_("Nothing holds this person back."),
    "care.no-such-person": N_("Nobody here has that reference."),
    "care.may-not": N_("Your role does not allow that. Ask a clinician or whoever runs Wallside."),
    "care.not-in-room": N_("Not in a group. Please open your own chat with me."),
    "care.not-understood": N_("I do not know that. Type: help"),
    "care.only-words": N_(
        "I cannot use that here. Please type it as a new message. A message that is changed "
        "later is not read again."
    ),
    "care.call-for-help": N_(
        "If somebody needs help now, call the local emergency number. "
        "I pass nothing on from this chat."
    ),
    "care.help.coordinator": N_(
        "Type: inbox, open 3, take 3, let go 3, hand over 3, close 3, board, person HS-0042, "
        "digest, on duty, off duty, team, language, leave."
    ),
    "care.help.clinician": N_(
        "Type: inbox, open 3, take 3, let go 3, hand over 3, close 3, board, person HS-0042, "
        "digest, on duty, off duty, team, language, leave. "
        "To add somebody: add coordinator Marta. To clear a person for a test: clear HS-0042"
    ),
    "care.help.room": N_("Type: /inbox or /board. Everything else opens in private."),
}
