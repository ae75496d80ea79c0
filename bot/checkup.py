"""Is everything in order? Settings, data folder, database revision, texts, fonts."""

import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from bot import reports
from bot.bootstrap import DATABASE, context_from, rules_from
from bot.errors import WallsideError
from bot.protocol.check import unsound
from bot.protocol.released import RELEASED
from bot.settings import load_settings
from bot.store.database import newest_revision, revision_of
from bot.texts.rendering import LANGUAGES, untranslated


@dataclass(frozen=True, slots=True)
class Finding:
    """What was looked at, whether it is in order, and what to know or do about it."""

    what: str
    good: bool
    says: str


def checkup() -> list[Finding]:
    """Look at everything; never raises for what it finds."""
    looks: tuple[tuple[str, Callable[[], str]], ...] = (
        ("settings", _settings),
        ("data folder", _folder),
        ("database", _database),
        ("protocols", _protocols),
        ("texts", _texts),
        ("fonts", _fonts),
    )
    return list(_look(looks))


def _look(looks: tuple[tuple[str, Callable[[], str]], ...]) -> Iterator[Finding]:
    for what, look in looks:
        try:
            yield Finding(what, good=True, says=look())
        except (WallsideError, OSError, ValueError, KeyError) as error:
            yield Finding(what, good=False, says=str(error))


def _settings() -> str:
    settings = load_settings()
    context_from(settings)
    rules_from(settings)
    token = "set" if settings.token.get_secret_value() else "not set (needed for serve only)"
    return f"protocol {settings.protocol}; WALLSIDE_TOKEN is {token}"


def _folder() -> str:
    folder = load_settings().folder
    nearest = next(path for path in (folder, *folder.parents) if path.exists())
    with tempfile.TemporaryFile(dir=nearest):
        pass
    return f"{folder} {'can be written to' if nearest == folder else 'will be made'}"


def _database() -> str:
    path = load_settings().folder / DATABASE
    newest = newest_revision()
    if not path.exists():
        return f"none yet; it will be made at revision {newest}"
    try:
        found = revision_of(path)
    except sqlite3.DatabaseError as error:
        raise ValueError(f"{path} is not a database of Wallside: {error}") from error
    if found == newest:
        return f"at revision {found}, as it should be"
    return f"at revision {found}; the next start brings it to {newest}"


def _protocols() -> str:
    faults = [f"{p.ref}: {fault}" for p in RELEASED.values() for fault in unsound(p)]
    if faults:
        raise ValueError("; ".join(faults))
    return ", ".join(str(ref) for ref in RELEASED)


def _texts() -> str:
    missing = {language: untranslated(language) for language in LANGUAGES}
    faults = [f"{language} lacks {len(keys)} texts" for language, keys in missing.items() if keys]
    if faults:
        raise ValueError("; ".join(faults))
    return f"complete in {', '.join(LANGUAGES)}"


def _fonts() -> str:
    fonts = sorted(Path(reports.__file__).parent.glob("fonts/*.ttf"))
    if len(fonts) < 2:
        raise ValueError("the fonts are missing; install Wallside again")
    return ", ".join(font.stem for font in fonts)
