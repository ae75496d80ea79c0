"""What keeps a clinic's database in order: backups, restoring, what has to go, new keys."""

from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from bot.bootstrap import clock_in, keys_of, place_of, purge_store, store_for
from bot.errors import SettingsError
from bot.settings import Settings
from bot.store import archive, rotation
from bot.store.archive import Contents
from bot.store.keys import KeyFile, new_key
from bot.store.retention import Purged

Progress = Callable[[int], None]
"""Told how many rows more are done."""


def back_up(settings: Settings, path: Path, progress: Progress) -> Contents:
    """Write a backup, while the bot runs or not.

    Raises:
        DatabaseError: It cannot be written, or the database cannot be used.
    """
    with closing(store_for(settings)) as store:
        return archive.back_up(store.engine, path, progress=progress)


def restore(settings: Settings, path: Path, progress: Progress) -> Contents:
    """Put a backup into the database of the settings, which has to be new.

    Raises:
        DatabaseError: The backup or its keys do not fit, or there is a database already.
        SettingsError: The folder cannot be made, or there are no keys.
    """
    where = place_of(settings)
    if isinstance(where, Path):
        try:
            where.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        except OSError as error:
            raise SettingsError(f"The folder {where.parent} cannot be made: {error}") from error
    return archive.restore(path, where, keys_of(settings), progress=progress)


def purge(settings: Settings, *, dry_run: bool, now: datetime | None = None) -> Purged:
    """Delete what has been kept as long as the settings say.

    Raises:
        DatabaseError: The database cannot be used.
    """
    with closing(store_for(settings)) as store:
        at = now or clock_in(settings.folder, settings.speed).now()
        return purge_store(store, settings, at, dry_run=dry_run)


def rows_to_seal(settings: Settings) -> int:
    """Return how many rows a rotation has to seal."""
    with closing(store_for(settings)) as store:
        return rotation.rows_to_seal(store.engine)


def rotate(settings: Settings, progress: Progress, *, drop_old: bool) -> int:
    """Seal everything with a new key; returns how many rows that was.

    With a key file a new key is made and put in front of the others, which are dropped once
    nothing needs them, if that is wished. Keys from the environment are the caller's to change:
    everything is sealed with the first.

    Raises:
        SettingsError: There is only one key in the environment, or the key file cannot be written.
        DatabaseError: The database cannot be used.
    """
    source = keys_of(settings)
    with closing(store_for(settings)):
        keys = source.load(make=False)
    if isinstance(source, KeyFile):
        fresh = new_key()
        source.write((fresh, *keys))
    elif len(keys) == 1:
        raise SettingsError(
            "Put a new key in front of the old one in WALLSIDE_KEYS, with a comma between them, "
            "for every process; then run this again. `wallside key` makes one."
        )
    else:
        fresh = keys[0]
    with closing(store_for(settings)) as store:
        done = rotation.rotate(store.engine, progress=progress)
    if drop_old and isinstance(source, KeyFile):
        source.write((fresh,))
    return done


def default_backup(now: datetime | None = None) -> Path:
    """Return a name for a backup that says when it was made."""
    return Path(f"wallside-{(now or datetime.now(UTC)):%Y%m%dT%H%M%SZ}.backup")
