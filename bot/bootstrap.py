"""The one place where the parts are put together."""

import asyncio
import json
import secrets
import signal
from collections.abc import Callable, Coroutine
from contextlib import closing, suppress
from dataclasses import asdict
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any, Final
from uuid import uuid4

import structlog
from pydantic import SecretStr
from rich.console import Console
from telegram import Bot

from bot.channels.telegram.outbound import TelegramChannel
from bot.channels.telegram.polling import introduce, poll, signed_in
from bot.channels.terminal.chat import TerminalChannel, converse
from bot.channels.terminal.screen import Screen
from bot.engine.context import Context, Opening
from bot.engine.replay import replay
from bot.errors import SettingsError, WallsideError
from bot.protocol.released import latest
from bot.reports.presenting import present
from bot.runtime.clock import FastClock, SystemClock
from bot.runtime.conductor import Conductor, bare_code
from bot.runtime.desk import Desk
from bot.runtime.ports import Channel, Clock, Invitation, Store
from bot.settings import Settings
from bot.store import open_store
from bot.store.keys import KEY_FILE, GivenKeys, KeyFile, KeySource
from bot.store.retention import Purged, purge
from bot.store.sql import SqlStore
from bot.texts import language_for

DATABASE = "wallside.sqlite3"

_SETTLED_S: Final = 60
"""Seconds from the start to the first look for what is too old: others are waiting then."""

_DAY_S: Final = 86_400

_log = structlog.get_logger("wallside.bootstrap")

_NOTHING: Final = SecretStr("")


def context_from(settings: Settings) -> Context:
    """Return what the engine is told of the settings.

    Raises:
        SettingsError: There is no such protocol.
    """
    try:
        return Context(
            protocol=latest(settings.protocol),
            opening=Opening(settings.opening),
            invited_only=settings.invited_only,
            medicine_plan=settings.medicine_plan or None,
            emergency_number=settings.emergency_number or None,
            consent_version=settings.consent_version,
        )
    except KeyError:
        raise SettingsError(
            f"WALLSIDE_PROTOCOL is {settings.protocol!r}; use four-readings or six-readings."
        ) from None


def store_in(folder: Path) -> Store:
    """Return the store in a data folder, sealed with a key file beside it. Both are made.

    Raises:
        SettingsError: The folder or the key file cannot be made or used.
        DatabaseError: The database cannot be used.
    """
    return store_for(Settings(folder=folder, database=_NOTHING, keys=_NOTHING, key_file=None))


def store_for(settings: Settings) -> SqlStore:
    """Return the store that the settings name, brought to the present revision.

    Raises:
        SettingsError: The folder or the keys cannot be made or used.
        DatabaseError: The database cannot be used.
    """
    folder = settings.folder
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise SettingsError(
            f"The data folder {folder} cannot be made: {error.strerror}. "
            "Set WALLSIDE_FOLDER to a folder that you may write to."
        ) from error
    return open_store(place_of(settings), keys_of(settings))


def place_of(settings: Settings) -> Path | str:
    """Return where the database is: a SQLite file, or the address of a PostgreSQL database."""
    return settings.database.get_secret_value() or settings.folder / DATABASE


def keys_of(settings: Settings) -> KeySource:
    """Return where the keys come from."""
    given = settings.keys.get_secret_value()
    return GivenKeys(given) if given else KeyFile(settings.key_file or settings.folder / KEY_FILE)


def purge_store(
    store: SqlStore, settings: Settings, now: datetime, *, dry_run: bool = False
) -> Purged:
    """Delete what has been kept as long as the settings say.

    Raises:
        DatabaseError: The database cannot be used just now.
        ConflictError: Somebody else was in the way.
    """
    context = context_from(settings)
    return purge(
        store.engine,
        now=now,
        keep=timedelta(days=settings.retention_days),
        replay=partial(replay, context),
        dry_run=dry_run,
    )


def clock_in(folder: Path, speed: float) -> Clock:
    """Return the clock of a data folder; one for trying out goes on where it would be by now.

    At speed 1 it is the machine's clock again, whatever was tried out before.
    """
    anchor_file = folder / "clock.json"
    if speed == 1.0:
        anchor_file.unlink(missing_ok=True)
        return SystemClock()
    now = datetime.now(UTC)
    shown = now
    if anchor_file.exists():
        before = json.loads(anchor_file.read_text(encoding="utf-8"))
        last = FastClock(
            anchor=datetime.fromisoformat(before["anchor"]),
            shown=datetime.fromisoformat(before["shown"]),
            speed=before["speed"],
        )
        shown = last.now()
    clock = FastClock(anchor=now, shown=shown, speed=speed)
    anchor_file.write_text(
        json.dumps({"anchor": now.isoformat(), "shown": shown.isoformat(), "speed": speed}),
        encoding="utf-8",
    )
    return clock


def desk_for(
    store: Store,
    channel: Channel,
    clock: Clock,
    context: Context,
    link_for: Callable[[str, str], str] = bare_code,
) -> Desk:
    """Return a desk with everything in place."""
    conductor = _conductor(store, context, link_for)
    return Desk(store=store, conductor=conductor, channel=channel, present=present, clock=clock)


def invite(settings: Settings, reference: str, protocol: str | None, days: int) -> Invitation:
    """Put down a new invitation and return it.

    Raises:
        SettingsError: There is no such protocol.
        DatabaseError: The reference was invited before.
    """
    if protocol is not None:
        context_from(settings.model_copy(update={"protocol": protocol}))
    now = datetime.now(UTC)
    invitation = Invitation(
        code=secrets.token_urlsafe(24),
        reference=reference,
        protocol=protocol,
        language=None,
        made_at=now,
        expires_at=now + timedelta(days=days),
    )
    with closing(store_for(settings)) as store:
        store.invite(invitation)
    return invitation


def clear(settings: Settings, reference: str, by: str) -> None:
    """Put down that the care team has cleared a person.

    Raises:
        SettingsError: Nobody has that reference.
    """
    with closing(store_for(settings)) as store:
        conductor = _conductor(store, context_from(settings))
        if conductor.clear(reference, by, clock_in(settings.folder, settings.speed).now()) is None:
            raise SettingsError(f"Nobody here has the reference {reference!r}.")


def missing(settings: Settings) -> list[tuple[str, datetime]]:
    """Return whose watch has ended without the second test, and when, the longest ago first.

    People are named by the clinic's reference, or else by the number that they are told.
    """
    with closing(store_for(settings)) as store:
        profiles = [(c.id, c.profile) for c in store.conversations()]
    found = [
        (profile.reference or conversation_id[:8], profile.second_missing_since)
        for conversation_id, profile in profiles
        if profile.second_missing_since is not None
    ]
    return sorted(found, key=lambda person: person[1])


def _conductor(
    store: Store, context: Context, link_for: Callable[[str, str], str] = bare_code
) -> Conductor:
    return Conductor(
        store,
        context,
        new_id=lambda: uuid4().hex,
        language_for=language_for,
        link_for=link_for,
    )


async def serve(settings: Settings) -> None:
    """Talk on Telegram until the process is asked to end.

    Raises:
        SettingsError: There is no token, or Telegram does not know it.
    """
    token = settings.token.get_secret_value()
    if not token:
        raise SettingsError("Set WALLSIDE_TOKEN to the token that BotFather gave you.")
    context = context_from(settings)
    store = await asyncio.to_thread(store_for, settings)
    clock = clock_in(settings.folder, settings.speed)
    base = settings.bot_api.rstrip("/")
    bot = Bot(token, base_url=f"{base}/bot") if base else Bot(token)

    def link_for(address: str, code: str) -> str:
        del address  # there is one bot
        return f"https://t.me/{settings.bot_name or bot.username}?start={code}"

    desk = desk_for(store, TelegramChannel(bot), clock, context, link_for)
    with closing(store):
        await _until_asked_to_end(
            _serve(bot, desk, clock, lambda: purge_store(store, settings, clock.now()))
        )


async def _serve(bot: Bot, desk: Desk, clock: Clock, tidy: Callable[[], Purged]) -> None:
    async with signed_in(bot), desk.at_work():
        tidying = asyncio.create_task(_daily(tidy))
        try:
            await introduce(bot)
            await poll(bot, clock, desk.take)
        finally:
            tidying.cancel()


async def _daily(tidy: Callable[[], Purged]) -> None:
    """Delete what has been kept long enough, soon after the start and then once a day."""
    await asyncio.sleep(_SETTLED_S)
    while True:
        try:
            purged = await asyncio.to_thread(tidy)
            _log.info("deleted what was kept long enough", **asdict(purged))
        except WallsideError as error:
            _log.warning("could not delete what is old", error=type(error).__name__)
        await asyncio.sleep(_DAY_S)


async def try_out(settings: Settings, results: Path, language: str | None) -> None:
    """Talk in the terminal until the person leaves."""
    context = context_from(settings)
    store = await asyncio.to_thread(store_for, settings)
    clock = clock_in(settings.folder, settings.speed)
    channel = TerminalChannel(Screen(Console()), clock, results)
    desk = desk_for(store, channel, clock, context)
    with closing(store):
        async with desk.at_work():
            await converse(channel, clock, desk.take, language)


async def _until_asked_to_end(work: Coroutine[Any, Any, None]) -> None:
    task = asyncio.ensure_future(work)
    loop = asyncio.get_running_loop()
    for asked in (signal.SIGTERM, signal.SIGINT):
        with suppress(NotImplementedError):  # not every system has them
            loop.add_signal_handler(asked, task.cancel)
    with suppress(asyncio.CancelledError):
        await task
