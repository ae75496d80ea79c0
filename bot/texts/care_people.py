"""What is said to the care team about people: the board, a person's page, what was sent to them.

Numbers of a test stand here only side by side, as they were measured, and only of tests that the
person has sent.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message, fixed

MESSAGES: Final[Mapping[str, Message]] = {
    # the board
    "care.board": NP_("{count} person on the board:", "{count} people on the board:"),
    "care.board.line": N_("{place}: {here} now, {reached} so far"),
    "care.board.waits": N_("{place}: {here} now, {reached} so far. Longest wait {length}"),
    "care.place.invited": N_("Invited"),
    "care.place.opened": N_("Opened"),
    "care.place.consented": N_("Agreed"),
    "care.place.booked": N_("Booked"),
    "care.place.first-test": N_("First test"),
    "care.place.second-test": N_("Second test"),
    "care.place.sent": N_("Sent"),
    "care.place.seen": N_("Taken by the team"),
    "care.place.followed-up": N_("Followed up"),
    "care.place.done": N_("Closed"),
    "care.stuck": NP_("{place}: {count} person waits.", "{place}: {count} people wait."),
    "care.stuck.nobody": N_("{place}: nobody waits."),
    "care.stuck.invited": N_("They have not opened their invitation. I cannot write to them yet."),
    "care.stuck.opened": N_(
        "They have not agreed yet. I keep nothing before that, so I cannot remind them. "
        "Please call them."
    ),
    "care.stuck.consented": N_("They have no test booked."),
    "care.stuck.booked": N_("The time they booked is over, and they did no test."),
    "care.stuck.first-test": N_("Their second test is missing."),
    "care.stuck.second-test": N_("They have not sent their latest result."),
    "care.stuck.sent": N_("Nobody in the team has taken their result."),
    "care.stuck.seen": N_("Their result is taken. What follows is not chosen yet."),
    "care.stuck.followed-up": N_("Nothing is missing."),
    "care.stuck.done": N_("Nothing is missing."),
    "care.stuck.line.person": fixed("{reference} – {length}"),
    "care.stuck.line.paused": N_("{reference} – {length} (paused)"),
    "care.stuck.line.held": N_("{reference} – {length} (has to be cleared)"),
    "board.title": N_("Board, {day}, {time}"),
    "board.now": N_("now"),
    "board.so-far": N_("in all"),
    "board.longest": N_("wait"),
    "button.care.more": N_("More"),
    "button.care.board": N_("Board"),
    "button.care.picture": N_("As a picture"),
    "caption.board": N_("The board as a picture: references and results do not stand in it."),
    "label.care.person": fixed("{reference}"),
    "label.care.nudge": N_("Remind {reference}"),
    # nudges
    "care.nudge.now": N_("{reference} gets a kind reminder now."),
    "care.nudge.later": N_(
        "{reference} gets a kind reminder {day}, {time}. Now it would disturb them."
    ),
    "care.nudge.invited": N_(
        "I cannot remind {reference}. They have not opened their invitation. Please call them."
    ),
    "care.nudge.opened": N_(
        "I cannot remind {reference}. They have not agreed yet, and I keep nothing before that. "
        "Please call them."
    ),
    "care.nudge.not-agreed": N_(
        "I do not remind {reference}. They have not agreed to a care team yet."
    ),
    "care.nudge.done": N_("I do not remind {reference}. Their file is closed."),
    "care.nudge.paused": N_("I do not remind {reference}. They have paused reminders."),
    "care.nudge.busy": N_("I do not remind {reference} now. They are at a test."),
    "care.nudge.held": N_("I do not remind {reference}. A clinician has to clear them first."),
    "care.nudge.needless": N_("I do not remind {reference}. It is not missing any more."),
    "care.nudge.taken-back": N_(
        "I do not remind {reference}. They have taken their result back, and may want it so."
    ),
    "care.nudge.lately": N_("I do not remind {reference}. They had a reminder not long ago."),
    "care.nudge.alarm": N_(
        "I do not remind {reference}. Their alarm is still open. Close it first."
    ),
    # a person's page
    "care.person": N_("{reference} – {place}, for {length}"),
    "care.person.unopened": N_("This person has not agreed yet. I keep nothing before that."),
    "care.person.held": N_("Their checklist holds them back. A clinician has to clear them."),
    "care.person.paused": N_("They have paused reminders."),
    "care.person.booked": N_("Booked: {moment}"),
    "care.person.unsent": N_("Test {test}: not sent, so I show nothing of it."),
    "care.person.test": N_("Test {test}, {day}, {kind}. Quality: {grade}"),
    "care.person.lying": N_("Lying: {values}"),
    "care.person.rate-change": N_("Largest rise of the heart rate: {values}"),
    "care.person.pressure-change": N_("Lowest change of the systolic pressure: {values}"),
    "care.person.no-medicines": N_("No medicine that moves the numbers was named."),
    "care.person.medicine": N_("Takes: {medicine}"),
    "care.person.said": N_("What the team did:"),
    "care.person.said.line": N_("{day}, {time}, {member}: {what}"),
    "care.person.nothing-sent": N_("This person has sent no result."),
    "care.person.one-sent": N_("This takes two results that were sent."),
    "care.person.files": N_("{reference}, test {test}:"),
    "care.person.series": NP_(
        "{reference}, {count} test that was sent:", "{reference}, {count} tests that were sent:"
    ),
    "care.day.good": N_("good day"),
    "care.day.symptomatic": N_("bad day"),
    "care.day.unsure": N_("not sure what day"),
    "care.day.untold": N_("kind of day not told"),
    "care.grade.good": N_("good"),
    "care.grade.fair": N_("fair"),
    "care.grade.poor": N_("poor"),
    "care.trend.heart-rate.higher": NP_(
        "{count} test, {kind}: the rise of the heart rate grows.",
        "{count} tests, {kind}: the rise of the heart rate grows.",
    ),
    "care.trend.heart-rate.lower": NP_(
        "{count} test, {kind}: the rise of the heart rate gets less.",
        "{count} tests, {kind}: the rise of the heart rate gets less.",
    ),
    "care.trend.heart-rate.none-clear": NP_(
        "{count} test, {kind}: the rise of the heart rate goes no clear way.",
        "{count} tests, {kind}: the rise of the heart rate goes no clear way.",
    ),
    "care.trend.systolic.higher": NP_(
        "{count} test, {kind}: the systolic pressure falls less.",
        "{count} tests, {kind}: the systolic pressure falls less.",
    ),
    "care.trend.systolic.lower": NP_(
        "{count} test, {kind}: the systolic pressure falls more.",
        "{count} tests, {kind}: the systolic pressure falls more.",
    ),
    "care.trend.systolic.none-clear": NP_(
        "{count} test, {kind}: the systolic pressure goes no clear way.",
        "{count} tests, {kind}: the systolic pressure goes no clear way.",
    ),
    "care.said.followed-up": N_("told what follows"),
    "care.said.nudged": N_("sent a reminder"),
    "care.said.wrote": N_("sent a message"),
    "care.said.asked-repeat": N_("asked for a repeat"),
    "care.said.set-protocol": N_("set the test"),
    "care.said.set-plan": N_("set the medicine plan"),
    "care.said.cleared": N_("cleared for testing"),
    "care.said.closed": N_("closed"),
    "button.care.who.files": N_("Files of the latest test"),
    "button.care.who.series": N_("Compare the tests"),
    "button.care.who.nudge": N_("Remind"),
    "button.care.who.clear": N_("Clear for testing"),
    "button.care.who.repeat": N_("Ask for a repeat"),
    "button.care.who.write": N_("Send a message"),
    "button.care.who.test": N_("Set the test"),
    "button.care.who.plan": N_("Set the medicine plan"),
    "button.care.who.done": N_("Close their file"),
    "button.care.close-person": N_("Yes, close"),
    "button.care.own-words": N_("My own words"),
    "label.care.protocol": NP_("{count} reading", "{count} readings"),
    "label.care.named": fixed("{name}"),
    "care.listed": fixed("{name}: {text}"),
    "care.busy": N_("{reference} is at a test now. Please try again when it is over."),
    "care.protocol.ask": N_("Which test shall {reference} do? It holds from the next one."),
    "care.protocol.set": NP_(
        "From the next test on, {reference} does {count} reading. They are told.",
        "From the next test on, {reference} does {count} readings. They are told.",
    ),
    "care.plan.ask": N_("Which plan shall {reference} get? They see it as the clinic's own."),
    "care.plan.set": N_("{reference} gets the plan {name}. They are told."),
    "care.plan.none": N_("The clinic's file has no medicine plans to choose from."),
    "care.repeat.none": N_("{reference} has done no test yet."),
    "care.repeat.alarm": N_(
        "{reference} was not asked. Their alarm is still open. Please call them, and close it "
        "first."
    ),
    "care.repeat.held": N_("{reference} was not asked. A clinician has to clear them first."),
    "care.repeat.lately": N_("{reference} was not asked again. The team asked them not long ago."),
    "care.repeat.asked": N_("{reference} is asked for another test."),
    "care.write.ask": N_("Which message shall {reference} get? It comes in their language."),
    "care.write.none": N_("The clinic's file has no messages to choose from."),
    "care.write.words": N_("Type the message for {reference}. Or type: cancel"),
    "care.write.sent": N_("{reference} gets the message, but not at night or in a test."),
    "care.write.not-allowed": N_("The clinic does not let own words be sent."),
    "care.close.sure": N_(
        "Close the file of {reference}? They get a kind word and no more reminders. "
        "Their results stay."
    ),
    "care.close.done": N_("The file of {reference} is closed. They are told."),
    "care.close.already": N_("The file of {reference} is closed already."),
    "care.close.waiting": NP_(
        "{reference} has {count} item in the inbox. Close it first.",
        "{reference} has {count} items in the inbox. Close them first.",
    ),
    # the weekly digest
    "care.digest": NP_(
        "The week at the clinic. {count} person is on the board.",
        "The week at the clinic. {count} people are on the board.",
    ),
    "care.digest.fresh": N_(
        "New in 7 days: invited {invited}, agreed {agreed}, tests {tests}, results sent {sent}."
    ),
    "care.digest.inbox": NP_("{count} waits in the inbox.", "{count} wait in the inbox."),
    "care.digest.longest": N_("Waiting longest:"),
    "care.digest.waits": N_("{reference} – {place}, {length}"),
    "care.digest.second": NP_(
        "{count} second test is missing: {references}",
        "{count} second tests are missing: {references}",
    ),
    "care.digest.more": NP_("{count} more is not named.", "{count} more are not named."),
    "care.digest.end": N_("To get this no more, type: digest off"),
    "care.digest.none": N_("To get this on Monday mornings, type: digest on"),
    "care.digest.on": N_("The digest comes on Monday mornings. To stop it, type: digest off"),
    "care.digest.off": N_("The digest comes no more. To get it again, type: digest on"),
    # what a person is told
    "team.nudge.book": N_(
        "A kind reminder from your care team: you have no time for your test yet. "
        "There is no hurry. Choose a day that suits you."
    ),
    "team.nudge.go-on": N_(
        "A kind reminder from your care team: a few questions are still open before your test. "
        "There is no hurry. You can go on whenever you like."
    ),
    "team.nudge.second": N_(
        "A kind reminder from your care team: your second test is still to come. "
        "There is no hurry. A day on which you feel bad shows the most, if you can manage it."
    ),
    "team.nudge.send": N_(
        "A kind reminder from your care team: they do not have your latest result. "
        "It is up to you. If you want them to see it, tap the button."
    ),
    "team.protocol": NP_(
        "Your care team has chosen the test with {count} reading for you. "
        "It holds from your next test.",
        "Your care team has chosen the test with {count} readings for you. "
        "It holds from your next test.",
    ),
    "team.plan": N_("From your care team, about your medicines before a test: {plan}"),
    "team.plan.care": N_(
        "Do not stop or change a medicine by yourself. If you are not sure, ask your care team."
    ),
    "team.done": N_(
        "Your care team has all it needs from you for now. Thank you for your care and patience. "
        "You get no more reminders. Your results stay here for a while. For a copy, type my data. "
        "If you feel worse, or new signs come, call your care team."
    ),
    "button.send-result": N_("Send my result"),
}
