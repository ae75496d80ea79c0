"""What a member types or taps about invitations. Every language is heard at once."""

import re
from dataclasses import dataclass
from typing import Final

from bot.care.invitation import InvitationWanted
from bot.care.naming import END, naming
from bot.engine.hearing import normalised


@dataclass(frozen=True, slots=True)
class Invite:
    """Make an invitation; `unread` are words in it that mean nothing to us."""

    wanted: InvitationWanted
    unread: str | None = None


@dataclass(frozen=True, slots=True)
class SeeInvitations:
    """Who has not opened theirs?"""


@dataclass(frozen=True, slots=True)
class SendAgain:
    """Give an invitation another link."""

    reference: str


@dataclass(frozen=True, slots=True)
class RevokeInvitation:
    """Let an invitation open nothing any more."""

    reference: str


InvitationCommand = Invite | SeeInvitations | SendAgain | RevokeInvitation

_INVITE: Final = re.compile(
    r"\s*/?(?:invite|invitar)(?=[\s:,]|$)[\s:,]*(.*)", re.IGNORECASE | re.DOTALL
)
_NOTE: Final = re.compile(r"(?:^|[\s,;])(?:note|nota)\b[\s:,]*|\n", re.IGNORECASE)
_SEE: Final = frozenset({"invitations", "invited", "invitaciones", "invitados"})
_AGAIN: Final = naming("resend", "reenviar")
_REVOKE: Final = naming("revoke", "revocar", "anular")

_LANGUAGES: Final = {
    "english": "en", "ingles": "en", "spanish": "es", "espanol": "es", "castellano": "es",
}  # fmt: skip
_PROTOCOLS: Final = {
    "four": "four-readings", "cuatro": "four-readings", "four readings": "four-readings",
    "six": "six-readings", "seis": "six-readings", "six readings": "six-readings",
}  # fmt: skip
_BETWEEN: Final = frozenset({
    "in", "en", "with", "con", "for", "para", "and", "y", "test", "prueba", "readings", "lecturas",
})  # fmt: skip


def typed_of_invitations(text: str) -> InvitationCommand | None:
    """Return the command about invitations that words are; `None` if they are none."""
    if normalised(text) in _SEE:
        return SeeInvitations()
    if (again := _AGAIN.fullmatch(text)) is not None:
        return SendAgain(again[1])
    if (revoked := _REVOKE.fullmatch(text)) is not None:
        return RevokeInvitation(revoked[1])
    if (invited := _INVITE.fullmatch(text)) is not None:
        return _invite(invited[1])
    return None


def tapped_of_invitations(verb: str, arguments: list[str]) -> InvitationCommand | None:
    """Return the command about invitations of a button; `None` if it is of another kind."""
    match verb, arguments:
        case "invitations", []:
            return SeeInvitations()
        case "resend", [reference]:
            return SendAgain(reference)
        case "revoke", [reference]:
            return RevokeInvitation(reference)
        case _:
            return None


def language_named(word: str) -> str | None:
    """Return the language that a word names: its code, or its name in either language."""
    plain = normalised(word)
    return plain if plain in _LANGUAGES.values() else _LANGUAGES.get(plain)


def protocol_named(word: str) -> str | None:
    """Return the protocol that a word names: its id, or its number of readings."""
    plain = normalised(word)
    return {"4": "four-readings", "6": "six-readings"}.get(plain) or _PROTOCOLS.get(plain)


def _invite(said: str) -> Invite:
    """Read what follows the verb: reference, language and protocol in any order, then the note."""
    head, *rest = _NOTE.split(said, maxsplit=1)
    note = " ".join(rest[0].split()) if rest else ""
    reference = language = protocol = None
    unread: list[str] = []
    for written in re.split(r"[\s,;]+", head.strip()):
        word = written.rstrip(END)
        plain = normalised(word)
        if not plain or plain in _BETWEEN:
            continue
        if plain in _LANGUAGES and language is None:
            language = _LANGUAGES[plain]
        elif plain in _PROTOCOLS and protocol is None:
            protocol = _PROTOCOLS[plain]
        elif reference is None:
            reference = word
        else:
            unread.append(word)
    wanted = InvitationWanted(
        reference=reference, protocol=protocol, language=language, note=note or None
    )
    return Invite(wanted, unread[0] if unread else None)
