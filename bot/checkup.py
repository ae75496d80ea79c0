"""Is everything in order? Settings, data folder, database revision, keys, texts, fonts."""

import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from bot import reports
from bot.bootstrap import clinic_of, keys_of, place_of, rules_from, told
from bot.clinic.file import NAME as CLINIC_FILE
from bot.clinic.weakening import weakened
from bot.errors import WallsideError
from bot.protocol.check import unsound
from bot.protocol.released import RELEASED
from bot.settings import Settings, load_bots, load_settings
from bot.store.keys import KeyFile
from bot.store.revisions import newest_revision, revision_of
from bot.texts.rendering import LANGUAGES, untranslated


@dataclass(frozen=True, slots=True)
class Finding:
    """What was looked at, whether it is in order, and what to know or do about it."""

    what: str
    good: bool
    says: str


_Look = tuple[str, Callable[[], str]]


def checkup() -> list[Finding]:
    """Look at everything; never raises for what it finds.

    Where the settings cannot be used, that is said once, and what they name is not looked at.
    With several bots each is looked at, with its name in front.
    """
    shipped: tuple[_Look, ...] = (("protocols", _protocols), ("texts", _texts), ("fonts", _fonts))
    try:
        settings = load_settings()
        bots = {"": settings} if settings.bots is None else load_bots(settings.bots)
    except WallsideError as error:
        return [Finding("settings", good=False, says=str(error)), *_look(shipped)]
    named = [look for name, bot in bots.items() for look in _of_one(name, bot)]
    return list(_look((*named, *shipped)))


def _of_one(name: str, settings: Settings) -> tuple[_Look, ...]:
    of = f"{name}, " if name else ""
    return (
        (f"{of}settings", lambda: _settings(settings)),
        (f"{of}clinic's file", lambda: _clinic(settings)),
        (f"{of}data folder", lambda: _folder(settings)),
        (f"{of}database", lambda: _database(settings)),
        (f"{of}keys", lambda: _keys(settings)),
    )


def _look(looks: tuple[_Look, ...]) -> Iterator[Finding]:
    for what, look in looks:
        try:
            yield Finding(what, good=True, says=look())
        except (WallsideError, OSError, ValueError, KeyError) as error:
            yield Finding(what, good=False, says=str(error))


def _settings(settings: Settings) -> str:
    told(settings)
    token = "set" if settings.token.get_secret_value() else "not set (needed for serve only)"
    name = "set" if settings.bot_name else "not set (needed for invitations)"
    return f"they can be used; WALLSIDE_TOKEN is {token}; WALLSIDE_BOT_NAME is {name}"


def _clinic(settings: Settings) -> str:
    clinic = clinic_of(settings).now()
    rules_from(settings)
    less_safe = " ".join(weakened(clinic))
    where = settings.clinic or settings.folder / CLINIC_FILE
    said = f"{where} is read" if where.exists() else "none; all as it ships"
    return (
        f"{said}. Less safe than it could be, so be sure that you mean it: {less_safe}"
        if less_safe
        else said
    )


def _folder(settings: Settings) -> str:
    folder = settings.folder
    nearest = next(path for path in (folder, *folder.parents) if path.exists())
    with tempfile.TemporaryFile(dir=nearest):
        pass
    return f"{folder} {'can be written to' if nearest == folder else 'will be made'}"


def _database(settings: Settings) -> str:
    where = place_of(settings)
    newest = newest_revision()
    if isinstance(where, Path) and not where.exists():
        return f"none yet; it will be made at revision {newest}"
    try:
        found = revision_of(where)
    except sqlite3.DatabaseError as error:
        raise ValueError(f"{where} is not a database of Wallside: {error}") from error
    kind = "SQLite" if isinstance(where, Path) else "PostgreSQL"
    if found == newest:
        return f"{kind}, at revision {found}, as it should be"
    return f"{kind}, at revision {found}; the next start brings it to {newest}"


def _keys(settings: Settings) -> str:
    source = keys_of(settings)
    if isinstance(source, KeyFile) and not source.path.exists():
        where = place_of(settings)
        if isinstance(where, Path) and not where.exists():
            return f"none yet; {source.path} will be made"
    count = len(source.load(make=False))
    return f"{count} of them" if count > 1 else "one, as it should be"


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
