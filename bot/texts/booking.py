"""What is said of bookings and reminders."""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    # booking
    "plan.day": N_(
        "When would you like to do the test? Mornings show the most. "
        "Tap a day, or type it: Saturday 8:30. To leave this, type cancel."
    ),
    "plan.time": N_("{day}: at what time? Tap one, or type it."),
    "plan.sure": N_("{moment}. Is that right?"),
    "label.day": N_("{day}"),
    "label.time": N_("{time}"),
    "button.do-it-now": N_("Do it now"),
    "term.moment": N_("{day}, {time} ({place} time)"),
    "when.unknown-word": N_(
        "I am not sure what you mean by that. Please type it like this: Saturday 8:30"
    ),
    "when.too-many": N_("I read more than one time in that. Please type just one."),
    "when.which-day": N_("Which day do you mean?"),
    "when.which-half": N_("Morning or evening? Please type it like this: 8:30 am"),
    "when.which-meaning": N_("That can mean two things. Please type it like this: Saturday 8:30"),
    "when.mismatch": N_("Those do not fit together. Please look at the day once more."),
    "when.impossible": N_("There is no such day or time."),
    "when.skipped": N_(
        "{day}, {time} does not exist: the clocks are put forward then. Please choose another time."
    ),
    "when.doubled": N_(
        "{day}, {time} comes twice: the clocks are put back then. Please choose another time."
    ),
    "objection.in-the-past": N_("That is in the past."),
    "objection.too-far": N_("That is too far away. Please choose a day in the next two months."),
    "objection.in-the-night": N_("That is in the night. Please choose a time in the day."),
    "objection.already-booked": N_("Your test is booked for that time already."),
    "booked": N_("Booked: {moment}."),
    "booked.reminding": N_("I will remind you."),
    "booked.instead": N_("The test of {moment} is off; the new one takes its place."),
    "booking.used": N_(
        "You have done a test now, so the one booked for {moment} is off. No reminder of it will "
        "come."
    ),
    "paused.still": N_("Reminders are paused. Type resume to get them."),
    "cancelled": N_("Cancelled: {moment}. No reminder of it will come."),
    "where.booked": N_("Your next test is booked: {moment}."),
    "where.booked.past": N_("Your test was planned for {moment}."),
    "caption.calendar": N_("For your calendar."),
    "caption.calendar.cancelled": N_("This takes it out of your calendar."),
    "travel.kept": N_("Your test is now on {moment}."),
    "travel.choose-anew": N_("On your new clock that time is past, so please choose again."),
    "travel.no-such-time": N_(
        "On your new clock the clocks change just then, so please choose again."
    ),
    "button.book": N_("Book a test"),
    "button.start-now": N_("Start now"),
    "button.later": N_("15 min later"),
    "button.move": N_("Move it"),
    "button.cancel": N_("Cancel it"),
    # reminders
    "reminder.day-before": N_(
        "Your test is on {moment}. Until then: eat and drink as usual, no extra water and no "
        "extra salt. On the day: wear loose clothes, have someone nearby, and wear no compression "
        "stockings."
    ),
    "reminder.hours-before": N_(
        "Your test is on {moment}. From now on no coffee, tea, energy drinks or nicotine, "
        "and no heavy meal."
    ),
    "reminder.soon": N_(
        "Your test is on {moment}. Get ready: cuff, phone, bed, chair, a clear wall, someone "
        "nearby. Shoes off."
    ),
    "reminder.follow-up": N_("Your test was planned for {moment}. Would you like to start now?"),
    "reminder.offer": N_("Your test of {moment} was not started. Shall we find another time?"),
    "booking.missed": N_("Your test of {moment} was not started."),
    "reminder.later": N_("All right, on {moment} then."),
    "put-aside.planning": N_("I booked nothing. To find a time later, type book."),
    "put-aside.preparing": N_("The test has not begun. To begin it later, type start."),
    "put-aside.question": N_("I kept your clock as it was. To change it later, type time zone."),
    "after-the-test": N_("I can do that once the test has ended."),
    "paused": N_("I send no more reminders and no daily questions. Type resume to go on."),
    "resumed": N_("Reminders and daily questions are on again."),
}
