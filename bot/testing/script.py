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
"""

import re
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path
from typing import Final

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
_OPTIONAL: Final = ("opening", "reference", "companion", "companion-language")


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


Act = Words | Tap | Edit | Sends | IsCleared


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
        lines: What the person and the companion do, in order.
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
    people = (person,) if companion is None else (person, companion)
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
        lines=lines,
    )


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
        settings[name] = value.strip()
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
    if cleared := _CLEARED.fullmatch(what):
        return IsCleared(cleared[1])
    if edit := _EDIT.fullmatch(what):
        return Edit(*edit.groups())
    if tap := _TAP.fullmatch(what):
        return Tap(tap[1])
    return Words(what)


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """One message of a played conversation.

    Attributes:
        after: Time from the start.
        who: Who.
        text: The words; for Wallside, as they were rendered.
        labels: The buttons.
        file: The name of an attachment.
        changed: Whether it stands in place of an earlier message.
    """

    after: timedelta
    who: str
    text: str
    labels: tuple[str, ...] = ()
    file: str | None = None
    changed: bool = False


def write_script(script: Script, said: tuple[Said, ...]) -> str:
    """Return the text of a script with a conversation as it was played."""
    head = [
        *script.remarks,
        f"title: {script.title}",
        f"person: {script.person}",
        f"language: {script.language}",
        f"protocol: {script.protocol.id}",
        f"starts: {script.starts.isoformat().replace('+00:00', 'Z')}",
        *([f"opening: {script.opening}"] if script.opening is Opening.FULL else []),
        *([f"reference: {script.reference}"] if script.reference else []),
        *_companion_settings(script),
    ]
    width = max(len(who) for who in (WALLSIDE, script.person, *_companion_names(script)))
    body = [row for message in said for row in _rows(message, width)]
    return "\n".join([*head, "", *body]) + "\n"


def _companion_settings(script: Script) -> list[str]:
    if script.companion is None:
        return []
    settings = [f"companion: {script.companion}"]
    if script.companion_language != script.language:
        settings.append(f"companion-language: {script.companion_language}")
    return settings


def _companion_names(script: Script) -> tuple[str, ...]:
    return () if script.companion is None else (script.companion, to_companion(script.companion))


def to_companion(name: str) -> str:
    """Return what Wallside's lines to a companion stand under."""
    return f"{WALLSIDE}>{name}"


def _rows(message: Said, width: int) -> list[str]:
    seconds = int(message.after.total_seconds())
    clock = f"{seconds // 3600}:{seconds % 3600 // 60:02}:{seconds % 60:02}"
    texts = message.text.split("\n") if message.text else []
    if message.changed:
        texts[0] = f"(changed) {texts[0]}"
    if message.file is not None:
        texts.insert(0, f"(file {message.file})")
    if message.labels:
        texts.append("  ".join(f"[{label}]" for label in message.labels))
    first, *others = texts
    indent = " " * (len(clock) + 2 + width + 2)
    return [
        f"{clock}  {message.who:<{width}}  {first}",
        *((indent + text).rstrip() for text in others),
    ]
