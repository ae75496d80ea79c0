"""The one place where the parts are put together."""

import asyncio
import json
import re
import signal
from collections.abc import Callable, Coroutine, Mapping
from contextlib import AbstractAsyncContextManager, AsyncExitStack, closing, suppress
from dataclasses import asdict, replace
from datetime import UTC, date, datetime, timedelta
from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final
from uuid import uuid4
from zoneinfo import available_timezones

import structlog
from pydantic import SecretStr
from segno import DataOverflowError
from structlog.contextvars import bind_contextvars
from telegram import Bot

from bot import garbage
from bot.care.rules import CareRules
from bot.channels.telegram.inbound import is_group
from bot.channels.telegram.outbound import TelegramChannel
from bot.channels.telegram.polling import introduce, poll, sign_in, unhook
from bot.channels.telegram.updates import Sieve
from bot.clinic import ClinicFile
from bot.clinic.file import NAME as CLINIC_FILE
from bot.engine.context import Context, Opening, written
from bot.engine.replay import replay
from bot.errors import SettingsError, WallsideError
from bot.protocol.released import latest, released
from bot.reports.handout import Handout, typeset
from bot.reports.presenting import present
from bot.reports.typesetting import TooLongError
from bot.runtime.clock import FastClock, SystemClock
from bot.runtime.conductor import Conductor, bare_code
from bot.runtime.desk import Desk
from bot.runtime.door import Answer
from bot.runtime.metrics import Pulse
from bot.runtime.ports import Bell, Bubble, Channel, Clock, Leadership, Store
from bot.runtime.spreading import spread
from bot.settings import Settings, load_bots, place
from bot.store import open_store
from bot.store.bells import bell_of
from bot.store.keys import KEY_FILE, GivenKeys, KeyFile, KeySource
from bot.store.leadership import leadership
from bot.store.retention import Purged, purge
from bot.store.sql import SqlStore
from bot.texts import LANGUAGES, language_for, render

if TYPE_CHECKING:
    from bot.channels.telegram.webhook import Hook

DATABASE = "wallside.sqlite3"

_SETTLED_S: Final = 60
"""Seconds from the start to the first look for what is too old: others are waiting then."""

_DAY_S: Final = 86_400

_WAITS_S: Final = 20.0
"""Seconds for which something posted is held while the store is away; then Telegram repeats it."""

OUTBOX_LEAD: Final = "outbox"
"""Names what is led. Each bot has a database, or a part of one, of its own."""

_AGAIN_S: Final = 30.0
"""Seconds after which a bot that could not be served is tried again, where there are several."""

_SQLITE_TRIES: Final = 8
_SQLITE_PAUSE_S: Final = 0.25
"""One that is just ending is waited for."""

_log = structlog.get_logger("wallside.bootstrap")

_NOTHING: Final = SecretStr("")


def context_from(settings: Settings) -> Callable[[], Context]:
    """Return what says, at each event, what the clinic has set: in its file, or the environment.

    Raises:
        SettingsError: A setting cannot be used.
    """
    file = clinic_of(settings)
    said = told(settings)
    return lambda: replace(file.now().context(), **said)


def clinic_of(settings: Settings) -> ClinicFile:
    """Return the clinic's file.

    Raises:
        SettingsError: It cannot be used, or one was named that is not there.
    """
    if settings.clinic is not None and not settings.clinic.exists():
        raise SettingsError(f"WALLSIDE_CLINIC is {settings.clinic}, and there is no such file.")
    return ClinicFile(settings.clinic or settings.folder / CLINIC_FILE)


def told(settings: Settings) -> dict[str, Any]:
    """Return what the environment says of the clinic's settings; it counts before the file.

    Raises:
        SettingsError: There is no such protocol.
    """
    said = settings.model_fields_set
    found: dict[str, Any] = {
        "invited_only": settings.invited_only,
        "consent_version": settings.consent_version,
        "emergency_number": settings.emergency_number or None,
        "medicine_plan": {LANGUAGES[0]: settings.medicine_plan} if settings.medicine_plan else None,
        "contact": {LANGUAGES[0]: settings.contact} if settings.contact else None,
        "opening": Opening(settings.opening),
        "team": settings.team,
    }
    found = {name: value for name, value in found.items() if name in said}
    if "protocol" in said:
        try:
            found["protocol"] = latest(settings.protocol)
        except KeyError:
            raise SettingsError(
                f"WALLSIDE_PROTOCOL is {settings.protocol!r}; use four-readings or six-readings."
            ) from None
    return found


def rules_from(settings: Settings) -> Callable[[], CareRules]:
    """Return what says, at each event, what the clinic has set for its team.

    Raises:
        SettingsError: The clinic's file cannot be used, or there is no such time zone.
    """
    file = clinic_of(settings)
    if "clinic_zone" not in settings.model_fields_set:
        return lambda: file.now().rules()
    if settings.clinic_zone not in available_timezones():
        raise SettingsError(
            f"WALLSIDE_CLINIC_ZONE is {settings.clinic_zone!r}; use a name like Europe/Madrid."
        )
    return lambda: replace(file.now().rules(), zone=settings.clinic_zone)


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
    days = settings.retention_days
    kept = clinic_of(settings).now().retention.keep
    return purge(
        store.engine,
        now=now,
        keep=kept if days is None else timedelta(days=days),
        replay=partial(replay, context_from(settings)()),
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
    context: Context | Callable[[], Context],
    link_for: Callable[[str, str], str] = bare_code,
    *,
    rules: Callable[[], CareRules] = CareRules,
    leadership: Leadership | None = None,
    bell: Bell | None = None,
) -> Desk:
    """Return a desk with everything in place."""
    conductor = conductor_for(store, context, link_for, rules=rules)
    return Desk(
        store=store,
        conductor=conductor,
        channel=channel,
        present=present,
        clock=clock,
        leadership=leadership,
        bell=bell,
        is_group=is_group,
        turned_away=regret,
    )


def regret(why: Answer, tag: str | None) -> Bubble:
    """Return what is said to whoever was not heard, by the language tag of their client."""
    key = "door.busy" if why is Answer.BUSY else "door.slow"
    return Bubble(text=render(key, {}, language_for(tag)))


def write_handout(
    settings: Settings, language: str, path: Path, link: str, until: date | None = None
) -> None:
    """Write the handout to print.

    Args:
        settings: The clinic's; the protocol is that of new tests.
        language: A shipped language.
        path: Where to.
        link: What opens the chat; empty for the bot's own link, if its name is set.
        until: The last day on which the link is good, if it is an invitation.

    Raises:
        SettingsError: There is no such protocol, the clinic's own words are too long for the
            pages, or the file cannot be written.
    """
    context = context_from(settings)()
    if not link and settings.bot_name:
        link = f"https://t.me/{settings.bot_name}"
    handout = Handout(
        protocol=released(context.protocol),
        lines=context.stop_lines,
        contact=written(context.contact, language) or "",
        emergency_number=context.emergency_number or "",
        medicine_plan=written(context.medicine_plan, language) or "",
        link=link,
        until=until,
    )
    try:
        path.write_bytes(typeset(handout, language, datetime.now(UTC)))
    except (TooLongError, DataOverflowError):
        raise SettingsError(
            "That is too much for two pages. Make the clinic's contact, its medicine plan or the "
            "link shorter."
        ) from None
    except OSError as error:
        raise SettingsError(
            f"{path} cannot be written: {error.strerror}. Name another file with --out."
        ) from error


class Clearing(StrEnum):
    """What became of clearing somebody."""

    DONE = "done"
    UNHEARD = "unheard"  # done, and the person has blocked the bot
    NEEDLESS = "needless"  # nothing holds them back
    NOBODY = "nobody"  # has that reference


def clear(settings: Settings, reference: str, by: str) -> Clearing:
    """Put down that the care team has cleared a person whom the checklist holds back."""
    with closing(store_for(settings)) as store:
        conductor = conductor_for(store, context_from(settings), rules=rules_from(settings))
        found = store.find(reference)
        with store.unit() as unit:
            stored = None if found is None else unit.load_by_id(found)
        if stored is None:
            return Clearing.NOBODY
        profile = stored.conversation.profile
        if not profile.hazards or profile.suitable:
            return Clearing.NEEDLESS
        now = clock_in(settings.folder, settings.speed).now()
        step = conductor.clear(stored.conversation.id, by, now)
        if step is None:
            return Clearing.NOBODY
        return Clearing.DONE if stored.conversation.blocked_at is None else Clearing.UNHEARD


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


def conductor_for(
    store: Store,
    context: Context | Callable[[], Context],
    link_for: Callable[[str, str], str] = bare_code,
    *,
    rules: Callable[[], CareRules],
) -> Conductor:
    """Return a conductor with everything in place."""
    return Conductor(
        store,
        context,
        new_id=lambda: uuid4().hex,
        language_for=language_for,
        link_for=link_for,
        rules=rules,
        ease=spread,
    )


async def serve(settings: Settings) -> None:
    """Talk on Telegram until the process is asked to end.

    Raises:
        SettingsError: There is no token, Telegram does not know it, or another process has the
            SQLite file.
    """
    if settings.bots is None:
        await _until_asked_to_end(_serve_on_telegram(settings))
        return
    bots = load_bots(settings.bots)
    await _until_asked_to_end(_serve_all(bots))


async def _serve_all(bots: Mapping[str, Settings]) -> None:
    """Serve several bots, none of which is ended by what goes wrong with another."""
    async with asyncio.TaskGroup() as group:
        for name, settings in bots.items():
            group.create_task(_serve_again_and_again(name, settings))


async def _serve_again_and_again(name: str, settings: Settings) -> None:
    bind_contextvars(bot=name)
    while True:
        try:
            await _serve_on_telegram(settings)
        except WallsideError as error:
            # What the person running it can put right is said; it may be right the next time.
            said = str(error) if isinstance(error, SettingsError) else ""
            _log.error("this bot is not served", error=type(error).__name__, said=said)
        except Exception:  # a fault of ours, which is not to end the others
            _log.exception("this bot is not served")
        await asyncio.sleep(_AGAIN_S)


async def _serve_on_telegram(settings: Settings) -> None:
    token = settings.token.get_secret_value()
    if not token:
        raise SettingsError("Set WALLSIDE_TOKEN to the token that BotFather gave you.")
    context = context_from(settings)
    store = await asyncio.to_thread(store_for, settings)
    clock = clock_in(settings.folder, settings.speed)
    base = settings.bot_api.rstrip("/")
    sieve = Sieve()
    bot = (
        Bot(token, base_url=f"{base}/bot", get_updates_request=sieve)
        if base
        else Bot(token, get_updates_request=sieve)
    )

    def link_for(address: str, code: str) -> str:
        del address  # there is one bot
        return f"https://t.me/{settings.bot_name or bot.username}?start={code}"

    with closing(store):
        lead = await lead_of(store)
        desk = desk_for(
            store,
            TelegramChannel(bot),
            clock,
            context,
            link_for,
            rules=rules_from(settings),
            leadership=lead,
            bell=bell_of(store.engine),
        )
        await _serve(bot, desk, clock, settings, lambda: purge_store(store, settings, clock.now()))


async def lead_of(store: SqlStore) -> Leadership:
    """Return the lead of a store. A SQLite file is for one process, which has it from here on.

    Raises:
        SettingsError: Another process is at work on the file.
    """
    lead = leadership(store.engine, OUTBOX_LEAD)
    if store.engine.dialect.name == "postgresql":
        return lead
    for _ in range(_SQLITE_TRIES):
        if await asyncio.to_thread(lead.acquire):
            return lead
        await asyncio.sleep(_SQLITE_PAUSE_S)
    raise SettingsError(
        f"Another Wallside is at work on {store.engine.url.database}. Stop it first, or set "
        "WALLSIDE_FOLDER to another folder. Several can work together on PostgreSQL: see "
        "WALLSIDE_DATABASE."
    )


async def _serve(
    bot: Bot, desk: Desk, clock: Clock, settings: Settings, tidy: Callable[[], Purged]
) -> None:
    hook = _hook(settings)
    status = _status(settings)
    fetched = Pulse()
    signed = asyncio.Event()

    async def unwell() -> list[str]:
        silent = not signed.is_set() or (hook is None and desk.leading and not fetched.lately())
        return [*await desk.unwell(), *(["Telegram does not answer"] if silent else [])]

    async def fetch() -> None:
        """Fetch updates, as only the leader does."""
        await signed.wait()
        fetched.beat()
        await unhook(bot)
        await poll(bot, clock, desk.take, fetched.beat)

    async with AsyncExitStack() as open_ends:
        open_ends.push_async_callback(bot.shutdown)
        await open_ends.enter_async_context(desk.at_work(fetch if hook is None else None))
        garbage.spare_what_is_there()
        if status is not None:
            answering = status(unwell=unwell, figures=desk.figures, role=desk.role)
            await open_ends.enter_async_context(answering)
        tidying = asyncio.create_task(_daily(tidy, desk))
        open_ends.callback(tidying.cancel)
        # What is due goes on meanwhile, and leaves when Telegram can be reached.
        await sign_in(bot)
        signed.set()
        await introduce(bot)
        if hook is not None:
            from bot.channels.telegram.webhook import listening  # noqa: PLC0415 - there by now

            take = partial(desk.take, within=_WAITS_S)
            await open_ends.enter_async_context(listening(bot, clock, take, hook))
        await desk.ended()


async def _daily(tidy: Callable[[], Purged], desk: Desk) -> None:
    """Delete what has been kept long enough, soon after the start and then once a day."""
    await asyncio.sleep(_SETTLED_S)
    while True:
        if desk.leading:  # one of those that share a database is enough
            try:
                purged = await asyncio.to_thread(tidy)
                _log.info("deleted what was kept long enough", **asdict(purged))
            except WallsideError as error:
                _log.warning("could not delete what is old", error=type(error).__name__)
        await asyncio.sleep(_DAY_S if desk.leading else _SETTLED_S)


def _status(settings: Settings) -> Callable[..., AbstractAsyncContextManager[int]] | None:
    """Return what answers `/health` and `/metrics`, if anything does.

    A web server takes long to import, so it is left out where none is asked for.
    """
    if not settings.status_listen:
        return None
    from bot.channels.status import status_at  # noqa: PLC0415

    host, port = place(settings.status_listen)
    return partial(status_at, host, port)


def _hook(settings: Settings) -> "Hook | None":
    """Return how Telegram posts to us, if it does.

    Raises:
        SettingsError: There is no secret, or one that Telegram would not take.
    """
    if not settings.webhook:
        return None
    from bot.channels.telegram import webhook  # noqa: PLC0415 - as above

    secret = settings.webhook_secret.get_secret_value()
    if not re.fullmatch(r"[A-Za-z0-9_-]{16,256}", secret):
        raise SettingsError(
            "A webhook needs WALLSIDE_WEBHOOK_SECRET: 16 to 256 letters, digits, _ or -. "
            "Without it anybody could post messages as if they were a patient's."
        )
    host, port = place(settings.webhook_listen)
    return webhook.Hook(
        url=settings.webhook.rstrip("/") + webhook.PATH,
        secret=secret,
        host=host,
        port=port,
        certificate=settings.tls_certificate,
        key=settings.tls_key,
    )


async def _until_asked_to_end(work: Coroutine[Any, Any, None]) -> None:
    task = asyncio.ensure_future(work)
    loop = asyncio.get_running_loop()
    for asked in (signal.SIGTERM, signal.SIGINT):
        with suppress(NotImplementedError):  # not every system has them
            loop.add_signal_handler(asked, task.cancel)
    with suppress(asyncio.CancelledError):
        await task
