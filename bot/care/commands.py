"""What a member types or taps, as commands. Every language is heard at once."""

import re
from dataclasses import dataclass
from typing import Final

from bot.care.invite_words import (
    InvitationCommand,
    tapped_of_invitations,
    typed_of_invitations,
)
from bot.care.items import FollowUp
from bot.care.naming import alone, naming
from bot.care.people_commands import PeopleCommand, tapped_about_people, typed_about_people
from bot.care.roles import Role
from bot.engine.hearing import normalised


@dataclass(frozen=True, slots=True)
class SeeInbox:
    """What waits?"""


@dataclass(frozen=True, slots=True)
class OpenItem:
    """Show an item with its result."""

    item: int


@dataclass(frozen=True, slots=True)
class TakeItem:
    """I take this."""

    item: int


@dataclass(frozen=True, slots=True)
class LetGo:
    """I give this back."""

    item: int


@dataclass(frozen=True, slots=True)
class HandOver:
    """Somebody else takes this; `to` is `None` to be asked who."""

    item: int
    to: int | None


@dataclass(frozen=True, slots=True)
class Close:
    """This is done, and that follows; `follow_up` is `None` to be asked what."""

    item: int
    follow_up: FollowUp | None


@dataclass(frozen=True, slots=True)
class AskItem:
    """Something is to be done with an item, and which one was not said."""

    verb: str


@dataclass(frozen=True, slots=True)
class SetDuty:
    """Alarms come to me first, or no more."""

    on: bool


@dataclass(frozen=True, slots=True)
class SeeTeam:
    """Who is in the team?"""


@dataclass(frozen=True, slots=True)
class AddMember:
    """A code for somebody new; `label` is `None` where it was not said."""

    role: Role
    label: str | None


@dataclass(frozen=True, slots=True)
class RemoveMember:
    """Somebody is no longer in the team."""

    number: int


@dataclass(frozen=True, slots=True)
class ClearPerson:
    """Somebody may do the test at home."""

    reference: str


@dataclass(frozen=True, slots=True)
class ExportPerson:
    """Send me the files of all that somebody has sent."""

    reference: str


@dataclass(frozen=True, slots=True)
class Speak:
    """Go on in another language; `locale` is `None` to be asked which."""

    locale: str | None


@dataclass(frozen=True, slots=True)
class GetHelp:
    """What can be typed?"""


@dataclass(frozen=True, slots=True)
class Leave:
    """I leave the team; `sure` once that was asked."""

    sure: bool


@dataclass(frozen=True, slots=True)
class Cancel:
    """Never mind what was asked."""


@dataclass(frozen=True, slots=True)
class Other:
    """Words that are no command: an answer, or nothing we know."""

    text: str


Command = (
    SeeInbox
    | OpenItem
    | TakeItem
    | LetGo
    | HandOver
    | Close
    | AskItem
    | SetDuty
    | SeeTeam
    | AddMember
    | RemoveMember
    | ClearPerson
    | ExportPerson
    | Speak
    | GetHelp
    | Leave
    | Cancel
    | InvitationCommand
    | PeopleCommand
    | Other
)

TEAM: Final = "team"
"""How the tokens of the team's buttons begin."""

LANGUAGES: Final = ("en", "es")
"""The languages that a member can choose."""

ITEM_LINK: Final = "item-"
"""How a link begins that opens an item in a member's own chat."""

_PLAIN: Final[dict[str, Command]] = {
    phrase: command
    for command, phrases in (
        (SeeInbox(), ("inbox", "list", "waiting", "start", "bandeja", "lista", "pendientes")),
        (SetDuty(True), ("on duty", "duty on", "duty", "de guardia", "en guardia", "guardia")),
        (SetDuty(False), ("off duty", "duty off", "not on duty", "fuera de guardia",
                          "sin guardia", "no de guardia")),
        (SeeTeam(), ("team", "members", "equipo", "miembros")),
        (Speak(None), ("language", "idioma")),
        (Speak("en"), ("english", "ingles", "in english", "en ingles")),
        (Speak("es"), ("espanol", "spanish", "en espanol", "in spanish")),
        (GetHelp(), ("help", "ayuda", "info", "commands")),
        (Leave(False), ("leave", "leave the team", "salir", "salir del equipo")),
        (Cancel(), ("cancel", "never mind", "cancelar", "dejarlo")),
    )
    for phrase in phrases
}  # fmt: skip

_OF_ITEM: Final[dict[str, str]] = {
    "open": "open", "abrir": "open", "show": "open", "ver": "open",
    "take": "take", "tomar": "take", "i take": "take", "lo tomo": "take",
    "let go": "go", "give back": "go", "soltar": "go", "devolver": "go",
    "hand over": "give", "pass": "give", "pasar": "give", "ceder": "give",
    "close": "close", "done": "close", "cerrar": "close", "listo": "close",
}  # fmt: skip
_ITEM: Final = re.compile(rf"({'|'.join(sorted(_OF_ITEM, key=len, reverse=True))}) (\d{{1,9}})")
_LINK: Final = re.compile(rf"{ITEM_LINK}(\d{{1,9}})")
_ADD: Final = re.compile(
    r"\s*(?:add|agregar|añadir|anadir)\s+(coordinator|clinician|coordinador|coordinadora|clinico|"
    r"clinica|clínico|clínica)(?:\s+(\S.{0,39}))?\s*",
    re.IGNORECASE,
)
_CLEAR: Final = naming("clear", "autorizar")
_EXPORT: Final = naming("export", "exportar")


def typed(text: str) -> Command:
    """Return the command that words are; `Other` if they are none."""
    plain = normalised(text)
    if plain in _PLAIN:
        return _PLAIN[plain]
    if (about := typed_about_people(text)) is not None:
        return about
    if plain in _OF_ITEM:
        return AskItem(_OF_ITEM[plain])
    # In one word it is no command but a reference: "take-3" is somebody.
    if (named := _ITEM.fullmatch(plain)) is not None and alone(text) is None:
        return _of_item(_OF_ITEM[named[1]], int(named[2]), ())
    if (added := _ADD.fullmatch(text)) is not None:
        clinician = normalised(added[1]).startswith("clinic")
        label = " ".join((added[2] or "").split()) or None
        return AddMember(Role.CLINICIAN if clinician else Role.COORDINATOR, label)
    if (cleared := _CLEAR.fullmatch(text)) is not None:
        return ClearPerson(cleared[1])
    if (exported := _EXPORT.fullmatch(text)) is not None:
        return ExportPerson(exported[1])
    return typed_of_invitations(text) or Other(text)


def opened(code: str | None) -> Command:
    """Return the command that a link carries; without one, or with another, the inbox."""
    named = None if code is None else _LINK.fullmatch(code)
    return SeeInbox() if named is None else OpenItem(int(named[1]))


def tapped(token: str) -> Command:
    """Return the command of a button; `Other` for what is no button of the team's."""
    head, *rest = token.split(":")
    if head != TEAM or not rest:
        return Other("")
    verb, *arguments = rest
    if (of_invitations := tapped_of_invitations(verb, arguments)) is not None:
        return of_invitations
    match verb, arguments:
        case "inbox", []:
            return SeeInbox()
        case "duty", [on]:
            return SetDuty(on == "on")
        case "members", []:
            return SeeTeam()
        case "speak", [locale] if locale in LANGUAGES:
            return Speak(locale)
        case "remove", [number] if _is_number(number):
            return RemoveMember(int(number))
        case "leave", ["yes"]:
            return Leave(True)
        case "cancel", []:
            return Cancel()
        case _ if (about := tapped_about_people(verb, arguments)) is not None:
            return about
        case _, [number, *more] if _is_number(number):
            return _of_item(verb, int(number), tuple(more))
        case _:
            return Other("")


def _of_item(verb: str, item: int, more: tuple[str, ...]) -> Command:
    match verb, more:
        case "open", ():
            return OpenItem(item)
        case "take", ():
            return TakeItem(item)
        case "go", ():
            return LetGo(item)
        case "give", ():
            return HandOver(item, None)
        case "give", (to,) if _is_number(to):
            return HandOver(item, int(to))
        case "close", ():
            return Close(item, None)
        case "close", (what,) if what in tuple(FollowUp):
            return Close(item, FollowUp(what))
        case _:
            return Other("")


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 10
