"""What a member types or taps about people: the board, a person's page, what is sent to them."""

from dataclasses import dataclass
from typing import Final

from bot.care.board import Place
from bot.care.naming import naming
from bot.engine.hearing import normalised
from bot.engine.team import Nudge


@dataclass(frozen=True, slots=True)
class SeeBoard:
    """How many stand where? In words, or as a picture."""

    picture: bool = False


@dataclass(frozen=True, slots=True)
class SeeStuck:
    """Who waits at a place, and for how long? `page` counts from 0."""

    place: Place
    page: int = 0


@dataclass(frozen=True, slots=True)
class SeeDigest:
    """What would the weekly digest say now?"""


@dataclass(frozen=True, slots=True)
class SetDigest:
    """The weekly digest comes to me, or no more."""

    on: bool


@dataclass(frozen=True, slots=True)
class SeePerson:
    """Show the page of a person, named by reference or conversation."""

    who: str


@dataclass(frozen=True, slots=True)
class SeeFiles:
    """The files of their latest test that was sent."""

    who: str


@dataclass(frozen=True, slots=True)
class SeeSeries:
    """Their tests that were sent: the last two side by side, and from three on over time."""

    who: str


@dataclass(frozen=True, slots=True)
class NudgePerson:
    """Remind somebody kindly of what is missing."""

    who: str
    nudge: Nudge


@dataclass(frozen=True, slots=True)
class ClearThem:
    """Somebody whose page is open may do the test at home."""

    who: str


@dataclass(frozen=True, slots=True)
class SetProtocol:
    """Their next test follows this protocol; `protocol` is `None` to be asked which."""

    who: str
    protocol: str | None


@dataclass(frozen=True, slots=True)
class SetPlan:
    """A medicine plan is theirs; `plan` is its place in the clinic's list, `None` to be asked."""

    who: str
    plan: int | None


@dataclass(frozen=True, slots=True)
class AskRepeat:
    """Ask them for another test."""

    who: str


@dataclass(frozen=True, slots=True)
class Write:
    """Send them one of the clinic's messages; `template` is its place in the clinic's list."""

    who: str
    template: int | None


@dataclass(frozen=True, slots=True)
class WriteWords:
    """Send them a message in my own words, which are still to be typed."""

    who: str


@dataclass(frozen=True, slots=True)
class CloseThem:
    """We are done with them; `sure` once that was asked."""

    who: str
    sure: bool


ToPerson = (
    SeePerson
    | SeeFiles
    | SeeSeries
    | NudgePerson
    | ClearThem
    | SetProtocol
    | SetPlan
    | AskRepeat
    | Write
    | WriteWords
    | CloseThem
)
"""Commands that name one person."""

PeopleCommand = SeeBoard | SeeStuck | SeeDigest | SetDigest | ToPerson

_PLAIN: Final[dict[str, PeopleCommand]] = {
    "board": SeeBoard(), "tablero": SeeBoard(), "panel": SeeBoard(),
    "board picture": SeeBoard(picture=True), "picture": SeeBoard(picture=True),
    "imagen del tablero": SeeBoard(picture=True), "imagen": SeeBoard(picture=True),
    "digest": SeeDigest(), "weekly": SeeDigest(), "resumen": SeeDigest(),
    "digest on": SetDigest(True), "weekly on": SetDigest(True), "resumen si": SetDigest(True),
    "digest off": SetDigest(False), "weekly off": SetDigest(False),
    "resumen no": SetDigest(False),
}  # fmt: skip
_PERSON: Final = naming("person", "persona", "paciente")


def typed_about_people(text: str) -> PeopleCommand | None:
    """Return the command that words are; `None` if they are none of these."""
    plain = normalised(text)
    if plain in _PLAIN:
        return _PLAIN[plain]
    named = _PERSON.fullmatch(text)
    return None if named is None else SeePerson(named[1])


def tapped_about_people(verb: str, arguments: list[str]) -> PeopleCommand | None:
    """Return the command of a button; `None` for one that is none of these."""
    match verb, arguments:
        case "board", []:
            return SeeBoard()
        case "board", ["picture"]:
            return SeeBoard(picture=True)
        case "digest", ["on" | "off" as on]:
            return SetDigest(on == "on")
        case "stuck", [place] if place in tuple(Place):
            return SeeStuck(Place(place))
        case "stuck", [place, page] if place in tuple(Place) and _is_number(page):
            return SeeStuck(Place(place), int(page))
        case "who", [who, *rest]:
            return _of_person(who, rest)
        case _:
            return None


def _of_person(who: str, rest: list[str]) -> PeopleCommand | None:
    match rest:
        case []:
            return SeePerson(who)
        case ["files"]:
            return SeeFiles(who)
        case ["series"]:
            return SeeSeries(who)
        case ["nudge", nudge] if nudge in tuple(Nudge):
            return NudgePerson(who, Nudge(nudge))
        case ["clear"]:
            return ClearThem(who)
        case ["test"]:
            return SetProtocol(who, None)
        case ["test", protocol]:
            return SetProtocol(who, protocol)
        case ["plan"]:
            return SetPlan(who, None)
        case ["plan", number] if _is_number(number):
            return SetPlan(who, int(number))
        case ["repeat"]:
            return AskRepeat(who)
        case ["write"]:
            return Write(who, None)
        case ["write", "words"]:
            return WriteWords(who)
        case ["write", number] if _is_number(number):
            return Write(who, int(number))
        case ["done"]:
            return CloseThem(who, sure=False)
        case ["done", "yes"]:
            return CloseThem(who, sure=True)
        case _:
            return None


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 4
