"""The one place where the parts are put together."""

import asyncio
import json
import secrets
import signal
from collections.abc import Callable, Coroutine
from contextlib import closing, suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import uuid4
from zoneinfo import available_timezones

from rich.console import Console
from telegram import Bot

from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.channels.telegram.outbound import TelegramChannel
from bot.channels.telegram.polling import introduce, poll, signed_in
from bot.channels.terminal.chat import TerminalChannel, converse
from bot.channels.terminal.screen import Screen
from bot.engine.context import Context, Opening
from bot.errors import SettingsError
from bot.protocol.released import latest
from bot.reports.presenting import present
from bot.runtime.clock import FastClock, SystemClock
from bot.runtime.conductor import Conductor, bare_code
from bot.runtime.desk import Desk
from bot.runtime.ports import Channel, Clock, Invitation, Store
from bot.settings import Settings
from bot.store import open_store
from bot.texts import language_for

DATABASE = "wallside.sqlite3"


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
            team=settings.team,
        )
    except KeyError:
        raise SettingsError(
            f"WALLSIDE_PROTOCOL is {settings.protocol!r}; use four-readings or six-readings."
        ) from None


def rules_from(settings: Settings) -> CareRules:
    """Return what the team's side is told of the settings.

    Raises:
        SettingsError: There is no such time zone.
    """
    if settings.clinic_zone not in available_timezones():
        raise SettingsError(
            f"WALLSIDE_CLINIC_ZONE is {settings.clinic_zone!r}; use a name like Europe/Madrid."
        )
    return CareRules(zone=settings.clinic_zone)


def store_in(folder: Path) -> Store:
    """Return the store in a data folder, which is made if need be.

    Raises:
        SettingsError: The folder cannot be made.
        DatabaseError: The database cannot be used.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise SettingsError(
            f"The data folder {folder} cannot be made: {error.strerror}. "
            "Set WALLSIDE_FOLDER to a folder that you may write to."
        ) from error
    return open_store(folder / DATABASE)


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
    *,
    rules: CareRules | None = None,
) -> Desk:
    """Return a desk with everything in place."""
    conductor = conductor_for(store, context, link_for, rules)
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
    with closing(store_in(settings.folder)) as store:
        store.invite(invitation)
    return invitation


def clear(settings: Settings, reference: str, by: str) -> None:
    """Put down that the care team has cleared a person.

    Raises:
        SettingsError: Nobody has that reference.
    """
    with closing(store_in(settings.folder)) as store:
        conductor = conductor_for(store, context_from(settings))
        if conductor.clear(reference, by, clock_in(settings.folder, settings.speed).now()) is None:
            raise SettingsError(f"Nobody here has the reference {reference!r}.")


def missing(settings: Settings) -> list[tuple[str, datetime]]:
    """Return whose watch has ended without the second test, and when, the longest ago first.

    People are named by the clinic's reference, or else by the number that they are told.
    """
    with closing(store_in(settings.folder)) as store:
        profiles = [(c.id, c.profile) for c in store.conversations()]
    found = [
        (profile.reference or conversation_id[:8], profile.second_missing_since)
        for conversation_id, profile in profiles
        if profile.second_missing_since is not None
    ]
    return sorted(found, key=lambda person: person[1])


def conductor_for(
    store: Store,
    context: Context,
    link_for: Callable[[str, str], str] = bare_code,
    rules: CareRules | None = None,
) -> Conductor:
    """Return a conductor with everything in place."""
    return Conductor(
        store,
        context,
        new_id=lambda: uuid4().hex,
        language_for=language_for,
        link_for=link_for,
        rules=rules,
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
    store = await asyncio.to_thread(store_in, settings.folder)
    clock = clock_in(settings.folder, settings.speed)
    base = settings.bot_api.rstrip("/")
    bot = Bot(token, base_url=f"{base}/bot") if base else Bot(token)

    def link_for(address: str, code: str) -> str:
        del address  # there is one bot
        return f"https://t.me/{settings.bot_name or bot.username}?start={code}"

    rules = rules_from(settings)
    desk = desk_for(store, TelegramChannel(bot), clock, context, link_for, rules=rules)
    with closing(store):
        await _until_asked_to_end(_serve(bot, desk, clock))


async def _serve(bot: Bot, desk: Desk, clock: Clock) -> None:
    async with signed_in(bot), desk.at_work():
        await introduce(bot)
        await poll(bot, clock, desk.take)


async def try_out(settings: Settings, results: Path, language: str | None) -> None:
    """Talk in the terminal until the person leaves; with a team, its first code is shown."""
    context, rules = context_from(settings), rules_from(settings)
    store = await asyncio.to_thread(store_in, settings.folder)
    clock = clock_in(settings.folder, settings.speed)
    screen = Screen(Console())
    channel = TerminalChannel(screen, clock, results)
    desk = desk_for(store, channel, clock, context, rules=rules)
    if settings.team:
        admit = conductor_for(store, context, rules=rules).admit
        code = await asyncio.to_thread(admit, Role.CLINICIAN, "Marta", clock.now())
        screen.note(f"To be Marta of the care team, type /as Marta and then {code}")
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
