"""Demo scripts: a whole conversation as text - time, who, what.

A script begins with settings, one a line, then a blank line, then the conversation:

    title: A clear rise in heart rate
    person: Ines
    language: en
    protocol: four-readings
    starts: 2026-03-02T09:00:00Z

    0:00:00  Ines      /start
    0:00:00  Wallside  Hello, ...
                       [I am ready]

The time counts from the start. What the person does is one of

    124/76 72                        words
    [I am ready]                     a tap on the newest button with that label
    (edits "142/76 72") 124/76 72    a change of the newest message that read so
    (photo)  (voice)  (sticker)      something that is not words
    (cleared by Dr Lind)             the care team clears them

Wallside's lines are what it is expected to say; a player need not read them. Lines that begin
with `#` are remarks.

Two people can talk with Wallside, each in their own chat. The other one is named by the setting
`companion`, and their language by `companion-language`; they open the link that was offered last
with `/start`. What Wallside says to them stands under `Wallside>` and their name.

A care team has a setting `team` for each of its people, with language and, for a clinician, role:

    team: Marta (en), clinician
    team: Luis (es)

Without a reference, the person opens with `/start` the invitation that the team made last. The
team's people join with `/start`, and what Wallside says to them stands under `Wallside>` as well.
What is done to them by the operator is

    (is removed)
"""

import re
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path
from typing import Final

from bot.care.roles import Role
from bot.engine.context import Opening
from bot.engine.events import Thing
from bot.errors import ScriptError
from bot.protocol.definition import ProtocolRef
from bot.protocol.released import latest

WALLSIDE: Final = "Wallside"
_LINE: Final = re.compile(r"(\d+):(\d\d):(\d\d)  (\S+)\s+(\S.*)")
_TAP: Final = re.compile(r"\[(.+)\]")
_EDIT: Final = re.compile(r'\(edits "(.+?)"\) (.+)')
_CLEARED: Final = re.compile(r"\(cleared by (.+)\)")
_THINGS: Final = {"(photo)": Thing.PHOTO, "(voice)": Thing.VOICE, "(sticker)": Thing.OTHER}
_SETTINGS: Final = ("title", "person", "language", "protocol", "starts")
_OPTIONAL: Final = ("opening", "reference", "companion", "companion-language", "team")
_MEMBER: Final = re.compile(r"(\S+) \((\S+)\)(?:, (clinician))?")


@dataclass(frozen=True, slots=True)
class Words:
    """The person types."""

    text: str


@dataclass(frozen=True, slots=True)
class Tap:
    """The person taps the newest button with that label."""

    label: str


@dataclass(frozen=True, slots=True)
class Edit:
    """The person changes the newest message that read `before`."""

    before: str
    text: str


@dataclass(frozen=True, slots=True)
class Sends:
    """The person sends something that is not words."""

    thing: Thing


@dataclass(frozen=True, slots=True)
class IsCleared:
    """The care team clears the person."""

    by: str


@dataclass(frozen=True, slots=True)
class IsRemoved:
    """The operator takes a member out of the team."""


Act = Words | Tap | Edit | Sends | IsCleared | IsRemoved


@dataclass(frozen=True, slots=True, kw_only=True)
class Teammate:
    """Somebody of the care team; an invented name."""

    name: str
    language: str
    role: Role


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One thing that somebody does, at a time from the start; `written` is how it stands."""

    after: timedelta
    who: str
    act: Act
    written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Script:
    """A demo script.

    Attributes:
        name: The file's name without its ending.
        remarks: The remarks at the top, as they stand.
        title: What it shows, in a few words.
        person: Who talks with Wallside; an invented name.
        language: The language of the person's client.
        protocol: The definition in use.
        starts: The instant of time 0:00:00.
        opening: How much is asked before a first test.
        reference: The clinic's reference, if the person comes by an invitation.
        companion: Who stands by for them in a chat of their own; an invented name.
        companion_language: The language of the companion's client.
        team: The care team.
        lines: What everybody does, in order.
    """

    name: str
    remarks: tuple[str, ...]
    title: str
    person: str
    language: str
    protocol: ProtocolRef
    starts: datetime
    opening: Opening
    reference: str | None
    companion: str | None
    companion_language: str
    team: tuple[Teammate, ...]
    lines: tuple[Line, ...]


def read_script(path: Path) -> Script:
    """Return the script in a file.

    Raises:
        ScriptError: It cannot be read; the message names the line.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        raise ScriptError(f"{path}: {error.strerror}") from error
    rows = list(enumerate(text.splitlines(), start=1))
    remarks = tuple(row for _, row in rows if row.startswith("#"))
    rows = [(number, row) for number, row in rows if not row.startswith("#")]
    settings, rest = _settings(path, rows)
    try:
        protocol = latest(settings["protocol"])
        starts = datetime.fromisoformat(settings["starts"])
        opening = Opening(settings.get("opening", Opening.SHORT))
    except (KeyError, ValueError) as error:
        raise ScriptError(f"{path}: the settings cannot be used: {error}") from error
    person, companion = settings["person"], settings.get("companion")
    team = tuple(_member(path, written) for written in settings.get("team", "").splitlines())
    people = (person, *(() if companion is None else (companion,)), *(m.name for m in team))
    lines = tuple(
        line for number, row in rest if (line := _line(path, number, row, people)) is not None
    )
    if any(later.after < earlier.after for earlier, later in pairwise(lines)):
        raise ScriptError(f"{path}: the times of {' and '.join(people)}'s lines go back")
    return Script(
        name=path.stem,
        remarks=remarks,
        title=settings["title"],
        person=person,
        language=settings["language"],
        protocol=protocol,
        starts=starts,
        opening=opening,
        reference=settings.get("reference"),
        companion=companion,
        companion_language=settings.get("companion-language", settings["language"]),
        team=team,
        lines=lines,
    )


def _member(path: Path, written: str) -> Teammate:
    match = _MEMBER.fullmatch(written)
    if match is None:
        raise ScriptError(f"{path}: expected a name and (a language) for the team: {written!r}")
    name, language, role = match.groups()
    return Teammate(name=name, language=language, role=Role(role or Role.COORDINATOR))


def _settings(
    path: Path, rows: list[tuple[int, str]]
) -> tuple[dict[str, str], list[tuple[int, str]]]:
    settings: dict[str, str] = {}
    for index, (number, row) in enumerate(rows):
        if not row.strip():
            if not settings:
                continue
            missing = [name for name in _SETTINGS if name not in settings]
            if missing:
                raise ScriptError(f"{path}:{number}: these settings are missing: {missing}")
            return settings, rows[index + 1 :]
        name, colon, value = row.partition(":")
        if not colon or name not in _SETTINGS + _OPTIONAL:
            raise ScriptError(f"{path}:{number}: expected one of {_SETTINGS}, then a colon")
        before = f"{settings[name]}\n" if name == "team" and name in settings else ""
        settings[name] = before + value.strip()
    raise ScriptError(f"{path}: there is no conversation after the settings")


def _line(path: Path, number: int, row: str, people: tuple[str, ...]) -> Line | None:
    if not row.strip() or row.startswith(" "):
        return None  # the words of Wallside go on
    match = _LINE.fullmatch(row.rstrip())
    if match is None:
        raise ScriptError(f"{path}:{number}: expected h:mm:ss, two spaces, who, and what")
    hours, minutes, seconds, who, what = match.groups()
    if who == WALLSIDE or who.startswith(f"{WALLSIDE}>"):
        return None
    if who not in people:
        known = " nor ".join((*people, WALLSIDE))
        raise ScriptError(f"{path}:{number}: {who!r} is neither {known}")
    after = timedelta(hours=int(hours), minutes=int(minutes), seconds=int(seconds))
    return Line(after=after, who=who, act=_act(what), written=what)


def _act(what: str) -> Act:
    if what in _THINGS:
        return Sends(_THINGS[what])
    if what == "(is removed)":
        return IsRemoved()
    if cleared := _CLEARED.fullmatch(what):
        return IsCleared(cleared[1])
    if edit := _EDIT.fullmatch(what):
        return Edit(*edit.groups())
    if tap := _TAP.fullmatch(what):
        return Tap(tap[1])
    return Words(what)
