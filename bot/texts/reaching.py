"""What the care team is told of people whom nothing reaches, since they have blocked the bot."""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    "care.stuck.line.blocked": N_("{reference} – {length} (has blocked the bot: call them)"),
    "care.blocked.people": NP_(
        "{count} person has blocked the bot, and hears nothing from me. Please call: {references}",
        "{count} people have blocked the bot, and hear nothing from me. Please call: {references}",
    ),
    "care.person.blocked": N_(
        "They have blocked the bot since {day}, {time}: nothing I send reaches them. "
        "Please call them. Once they send me a word, I can write to them again."
    ),
    "care.person.said.lost": N_("{day}, {time}, {member}: {what} (did not reach them)"),
    "care.blocked.cannot": N_(
        "I cannot write to {reference}. They have blocked the bot, so nothing was sent. "
        "Please call them."
    ),
    "care.blocked.not-told": N_(
        "They have blocked the bot, so they do not hear of this. Please call them."
    ),
    "care.cleared.untold": N_("Cleared."),
    "care.protocol.set.untold": NP_(
        "From the next test on, {reference} does {count} reading.",
        "From the next test on, {reference} does {count} readings.",
    ),
    "care.plan.set.untold": N_("{reference} gets the plan {name}."),
    "care.close.done.untold": N_("The file of {reference} is closed."),
    "care.close.sure.untold": N_(
        "Close the file of {reference}? They have blocked the bot, so they do not hear of it. "
        "Please call them. Their results stay."
    ),
    "care.blocked.item": N_("The person has blocked the bot: nothing reaches them. Call them."),
    "care.blocked.second": N_(
        "{reference} has blocked the bot. Their second test is still missing, and I cannot remind "
        "them. Please call them."
    ),
    "care.blocked.lost": N_(
        "This did not reach {reference}: {what} ({day}, {time}). They have blocked the bot. "
        "Please call them."
    ),
    "care.follow-up.ask.blocked": N_(
        "What follows? The person has blocked the bot and is not told: please call them."
    ),
}
