"""An invitation of the clinic: a fact, where it stands, and what is asked for to make one."""

import unicodedata
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum

from bot.care.rules import CareRules


class Standing(StrEnum):
    """Where an invitation stands."""

    WAITS = "waits"
    OPENED = "opened"
    EMPTIED = "emptied"  # opened; nothing is kept of that person any more
    RAN_OUT = "ran-out"
    REVOKED = "revoked"


@dataclass(frozen=True, slots=True, kw_only=True)
class Invitation:
    """An invitation of the clinic. A reference has one; to send it again gives it another code.

    Attributes:
        code: What the link carries; long and unguessable.
        reference: The clinic's opaque reference; never a name.
        protocol: The id of the protocol it names, if it names one.
        language: The language to begin in, if one is named.
        made_at: When this code was made.
        expires_at: After this instant it opens no new chat.
        note: For the team only.
        made_by: The number of the member who made it; `None` for the operator.
        opened_at: When somebody opened it; once nothing is kept of them, `made_at`, so that only
            that it was opened is known, and not when.
        opened_by: The conversation that did, while it is kept.
        revoked_at: When it was revoked.
    """

    code: str
    reference: str
    protocol: str | None
    language: str | None
    made_at: datetime
    expires_at: datetime
    note: str | None = None
    made_by: int | None = None
    opened_at: datetime | None = None
    opened_by: str | None = None
    revoked_at: datetime | None = None

    def standing(self, at: datetime) -> Standing:
        """Return where it stands at an instant."""
        if self.opened_by is not None:
            return Standing.OPENED
        if self.revoked_at is not None:
            return Standing.REVOKED
        if self.opened_at is not None:
            return Standing.EMPTIED
        return Standing.RAN_OUT if self.expires_at < at else Standing.WAITS

    def opens_for(self, conversation: str | None, at: datetime) -> bool:
        """Whether it lets a conversation in: the first one until it runs out, then only that one.

        Whoever opened it keeps it, since the link on their handout is the way back to the chat.
        One whose person had all of theirs deleted is as it was: they may want to begin again.
        """
        standing = self.standing(at)
        mine = standing is Standing.OPENED and self.opened_by == conversation
        again = standing is Standing.EMPTIED and at <= self.expires_at
        return standing is Standing.WAITS or mine or again


@dataclass(frozen=True, slots=True, kw_only=True)
class InvitationWanted:
    """What somebody asks for who invites.

    Attributes:
        reference: The clinic's own; `None` for one that is made.
        protocol: The id of a protocol; `None` for the clinic's usual one.
        language: The language to begin in; `None` for that of the person's phone.
        note: For the team only.
        lasts: How long the invitation is good; `None` for as long as the clinic has set.
    """

    reference: str | None = None
    protocol: str | None = None
    language: str | None = None
    note: str | None = None
    lasts: timedelta | None = None


class Unwanted(StrEnum):
    """Why an invitation is not made, beside a reference that cannot be used."""

    INVITED = "invited"
    PROTOCOL = "protocol"
    LANGUAGE = "language"
    NOTE = "note"


LONGEST_NOTE = 200
"""Characters of a note: some lines on a phone (design choice)."""


def unwanted(wanted: InvitationWanted, rules: CareRules) -> tuple[Unwanted, ...]:
    """Return all of a wish that is not on offer; nothing where all is."""
    lacks = (
        (Unwanted.PROTOCOL, wanted.protocol is not None and wanted.protocol not in rules.protocols),
        (Unwanted.LANGUAGE, wanted.language is not None and wanted.language not in rules.languages),
        (Unwanted.NOTE, wanted.note is not None and len(wanted.note) > LONGEST_NOTE),
    )
    return tuple(what for what, lacking in lacks if lacking)


def made(
    wanted: InvitationWanted,
    *,
    reference: str,
    code: str,
    rules: CareRules,
    at: datetime,
    by: int | None,
) -> Invitation:
    """Return the invitation that was wanted, with what chance has given it."""
    return Invitation(
        code=code,
        reference=reference,
        protocol=wanted.protocol,
        language=wanted.language,
        made_at=at,
        expires_at=at + (wanted.lasts or rules.invitation_lasts),
        note=legible(wanted.note or "") or None,
        made_by=by,
    )


def legible(text: str) -> str:
    """Return a text on one line, without what cannot be seen: it could turn what stands behind it.

    Those are controls, signs of direction and joining, and halves of characters.
    """
    seen = (c for c in text if c.isspace() or not unicodedata.category(c).startswith("C"))
    return " ".join("".join(seen).split())


def renewed(invitation: Invitation, *, code: str, rules: CareRules, at: datetime) -> Invitation:
    """Return an invitation with another code and time anew. The old code opens nothing any more.

    A link that has to be sent again went somewhere else the first time: whoever has it would
    measure under this reference.
    """
    return replace(
        invitation,
        code=code,
        made_at=at,
        expires_at=at + rules.invitation_lasts,
        opened_at=None,
        revoked_at=None,
    )
