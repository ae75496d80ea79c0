"""What is said about invitations: to the team, and the words that it passes on."""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    # made
    "care.invited": N_("Invitation for {reference}: {protocol}. It opens one chat, until {day}."),
    "care.invited.again": N_("The link from before opens nothing any more."),
    "care.invited.language": N_("The chat begins in this language: {language}."),
    "care.invited.code": N_("Code: {code}"),
    "care.invited.link": N_("Link: {link}"),
    "care.invited.pass-on": N_("Pass on the next message as it is, or print the paper after it."),
    "care.protocol.four-readings": N_("four readings"),
    "care.protocol.six-readings": N_("six readings"),
    "invitation.to-open": N_(
        "Your clinic invites you to a test at home: lying, sitting and standing, with a blood "
        "pressure cuff. To begin, open this link: {link}\n"
        "It works in one chat only, until {day}. Please keep it to yourself."
    ),
    "invitation.to-type": N_(
        "Your clinic invites you to a test at home: lying, sitting and standing, with a blood "
        "pressure cuff. To begin, type this code to Wallside: {code}\n"
        "It works in one chat only, until {day}. Please keep it to yourself."
    ),
    "caption.handout": N_("The test on paper, to print, for {reference}."),
    "care.handout.too-long": N_(
        "The paper for {reference} cannot be made: the clinic's own words are too long for two "
        "pages. Please tell whoever runs Wallside."
    ),
    # not made
    "care.reference.email": N_("That looks like an email address."),
    "care.reference.phone": N_("That looks like a phone number."),
    "care.reference.birthday": N_("That has a date in it."),
    "care.reference.name": N_("That may be a name."),
    "care.reference.signs": N_("That has signs that a reference cannot have."),
    "care.reference.long": N_("That is too long."),
    "care.reference.empty": N_("That is empty."),
    "care.reference.one-word": N_("A reference is one word. Please type: invite {reference}"),
    "care.reference.how": N_(
        "No invitation was made. A reference tells nobody who it is: letters and digits like "
        "HS-0042, with a digit, and no more than four letters in a row. "
        "Or type just invite, and I make one."
    ),
    "care.invite.unread": N_(
        'I do not know "{word}" here, so no invitation was made. '
        "Type: invite HS-0042 spanish six note: uses a stick"
    ),
    "care.invite.invited": N_("{reference} was invited before, on {day}."),
    "care.invite.protocol": N_("That test is not on offer here. No invitation was made."),
    "care.invite.language": N_("That language is not on offer here. No invitation was made."),
    "care.invite.note": N_(
        "The note is too long, so no invitation was made. 200 letters is the most."
    ),
    # who has not opened theirs
    "care.invitations": NP_(
        "{count} invitation is not opened:", "{count} invitations are not opened:"
    ),
    "care.invitations.none": N_("No invitation waits to be opened."),
    "care.invitations.more": NP_("{count} more is not shown.", "{count} more are not shown."),
    "care.invitation.today": N_("{reference}: sent today, good until {day}."),
    "care.invitation.since": NP_(
        "{reference}: sent {count} day ago, good until {day}.",
        "{reference}: sent {count} days ago, good until {day}.",
    ),
    "care.invitation.ran-out": N_("{reference}: never opened, and it ran out on {day}."),
    "care.invitation.opened": N_("{reference}: opened on {day}."),
    "care.invitation.emptied": N_(
        "{reference}: it was opened. Nothing is kept of that person any more."
    ),
    "care.invitation.is-revoked": N_("{reference}: revoked. Its link opens nothing."),
    "care.invitation.note": N_("Note: {note}"),
    "care.no-such-invitation": N_("There is no invitation with that reference. Type: invitations"),
    "care.invite.in-use": N_("The person is in the chat already. Nothing is changed."),
    "label.care.resend": N_("New link for {reference}"),
    "label.care.revoke": N_("Revoke {reference}"),
    "care.help.inviting": N_(
        "To invite somebody: invite HS-0042 spanish six note: uses a stick. Who has not opened "
        "theirs: invitations. A new link: resend HS-0042. To take one back: revoke HS-0042"
    ),
}
