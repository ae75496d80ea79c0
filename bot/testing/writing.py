"""A played conversation as the text of a script."""

from dataclasses import dataclass
from datetime import timedelta

from bot.care.roles import Role
from bot.engine.context import Opening
from bot.testing.script import WALLSIDE, Script


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
        *(
            f"team: {m.name} ({m.language})" + (f", {m.role}" if m.role is Role.CLINICIAN else "")
            for m in script.team
        ),
    ]
    others = (*_companion_names(script), *(to_companion(m.name) for m in script.team))
    width = max(len(who) for who in (WALLSIDE, script.person, *others))
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
    """Return what Wallside's lines to a companion, or to one of the team, stand under."""
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
