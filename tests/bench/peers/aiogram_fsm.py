"""aiogram's FSM, on memory, on SQLite and on Redis; its timers are the event loop's own."""

import asyncio
import json
import os
import sqlite3
from collections.abc import AsyncGenerator, Mapping
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from typing import Any, Final

from aiogram import Bot, Dispatcher, Router
from aiogram.client.session.base import BaseSession
from aiogram.filters import StateFilter
from aiogram.fsm.context import FSMContext
from aiogram.fsm.state import State
from aiogram.fsm.storage.base import BaseStorage, StateType, StorageKey
from aiogram.fsm.storage.memory import MemoryStorage
from aiogram.methods import GetMe, SendMessage, TelegramMethod
from aiogram.types import Chat, Message, User
from aiogram.types import Update as AiogramUpdate

from tests.bench.peers.conversation import (
    FIRST_MIDWAY,
    MIDWAY,
    REST_S,
    STEPS,
    TIMED,
    TOKEN,
    Found,
    Kind,
    UnavailableError,
    Update,
    answered,
)
from tests.bench.peers.redis_server import RedisServer, storage_at

_sent = count(1)
TIMERS: Final[dict[int, asyncio.TimerHandle]] = {}
"""The timers that were set, by chat: all that there is of them."""

SOCKET: Final = "WALLSIDE_BENCH_REDIS"
"""The setting that names the socket of a Redis that runs already."""

_SAID: Final = {f"said{step}": STEPS[step] for step in range(MIDWAY)}


class Swallowing(BaseSession):
    """A connection to nowhere: every message is sent at once."""

    async def close(self) -> None:
        """Nothing to close."""

    async def make_request(self, bot: Bot, method: TelegramMethod[Any], *_: Any, **__: Any) -> Any:
        """Answer as Telegram does."""
        if isinstance(method, GetMe):
            return User(id=1, is_bot=True, first_name="B", username="b")
        assert isinstance(method, SendMessage)
        chat = Chat(id=int(method.chat_id), type="private")
        return Message(message_id=next(_sent), date=datetime.now(UTC), chat=chat)

    async def stream_content(self, *_: Any, **__: Any) -> AsyncGenerator[bytes, None]:
        """There is nothing to fetch."""
        yield b""


class Sqlite(BaseStorage):
    """A storage on SQLite, which aiogram does not ship: one row a chat, a commit a change.

    With the same promise as ours: write-ahead log and a full sync at each commit. It calls SQLite
    on the event loop, which is the fastest way there is: a thread in between costs more.
    """

    def __init__(self, file: Path) -> None:
        self.db = sqlite3.connect(file, isolation_level=None)
        self.db.execute("PRAGMA journal_mode=WAL")
        self.db.execute("PRAGMA synchronous=FULL")
        self.db.execute("CREATE TABLE IF NOT EXISTS fsm (key TEXT PRIMARY KEY, state, data)")

    async def set_state(self, key: StorageKey, state: StateType = None) -> None:
        """Put down a state."""
        name = state.state if isinstance(state, State) else state
        self.db.execute(
            "INSERT INTO fsm (key, state) VALUES (?, ?) "
            "ON CONFLICT (key) DO UPDATE SET state = excluded.state",
            (_named(key), name),
        )

    async def get_state(self, key: StorageKey) -> str | None:
        """Return a state."""
        row = self.db.execute("SELECT state FROM fsm WHERE key = ?", (_named(key),)).fetchone()
        return row[0] if row else None

    async def set_data(self, key: StorageKey, data: Mapping[str, Any]) -> None:
        """Put down what is known of a chat."""
        self.db.execute(
            "INSERT INTO fsm (key, data) VALUES (?, ?) "
            "ON CONFLICT (key) DO UPDATE SET data = excluded.data",
            (_named(key), json.dumps(data)),
        )

    async def get_data(self, key: StorageKey) -> dict[str, Any]:
        """Return what is known of a chat."""
        row = self.db.execute("SELECT data FROM fsm WHERE key = ?", (_named(key),)).fetchone()
        return json.loads(row[0]) if row and row[0] else {}

    async def close(self) -> None:
        """Let go of the file."""
        self.db.close()


def _named(key: StorageKey) -> str:
    return f"{key.bot_id}:{key.chat_id}:{key.user_id}"


STATES: Final = [State(f"step{step}", group_name="Doing") for step in range(len(STEPS))]


async def rang(bot: Bot, chat: int) -> None:
    """Ask for a reading."""
    await bot.send_message(chat, "Measure now.")


def router() -> Router:
    """Return the whole conversation."""
    routes = Router()
    for step in range(len(STEPS)):
        routes.message.register(
            _handler(step), StateFilter(None) if step == 0 else StateFilter(STATES[step])
        )
    return routes


def _handler(step: int) -> Any:
    async def answer(message: Message, state: FSMContext, bot: Bot) -> None:
        await state.update_data({f"said{step}": message.text})
        await bot.send_message(message.chat.id, answered(step))
        if step in TIMED:
            loop = asyncio.get_running_loop()
            TIMERS[message.chat.id] = loop.call_later(
                REST_S, lambda: loop.create_task(rang(bot, message.chat.id))
            )
        await state.set_state(STATES[step + 1] if step + 1 < len(STEPS) else None)

    return answer


class Memory:
    """On the storage that it ships for trying out."""

    kind = Kind(name="aiogram, memory", durable=False, holds="nothing")

    async def storage(self, folder: Path, midway: int) -> BaseStorage:
        """Return where it keeps things, with those in it who are in the middle of a test."""
        storage = MemoryStorage()
        for chat in range(FIRST_MIDWAY, FIRST_MIDWAY + midway):
            key = StorageKey(bot_id=123456789, chat_id=chat, user_id=chat)
            await storage.set_state(key, STATES[MIDWAY])
            await storage.set_data(key, _SAID)
        return storage

    async def open(self, folder: Path, midway: int) -> None:
        """Begin."""
        self._bot = Bot(TOKEN, session=Swallowing())
        self._dispatcher = Dispatcher(storage=await self.storage(folder, midway))
        self._dispatcher.include_router(router())

    async def pass_time(self, step: int, chats: range) -> None:
        """Nothing hangs on it."""

    async def take(self, updates: list[Update]) -> None:
        """Take a backlog, each update a task of its own, as its own poller does."""
        bot, feed = self._bot, self._dispatcher.feed_update
        await asyncio.gather(
            *(
                feed(bot, AiogramUpdate.model_validate(update, context={"bot": bot}))
                for update in updates
            )
        )

    async def found(self, chats: range, step: int) -> Found:
        """Look at what its storage holds, and at the timers of the event loop."""
        storage, states, words = self._dispatcher.storage, 0, 0
        for chat in chats:
            key = StorageKey(bot_id=self._bot.id, chat_id=chat, user_id=chat)
            states += await storage.get_state(key) == STATES[step + 1].state
            words += len(await storage.get_data(key))
        return Found(states=states, words=words, timers=len(TIMERS))

    async def close(self) -> None:
        """End."""
        await self._dispatcher.storage.close()


class OnSqlite(Memory):
    """On SQLite."""

    kind = Kind(name="aiogram, SQLite FULL", durable=True, holds="states and words; no timers")

    async def storage(self, folder: Path, midway: int) -> BaseStorage:
        """Return where it keeps things."""
        storage = Sqlite(folder / "fsm.sqlite3")
        said = json.dumps(_SAID)
        people = range(FIRST_MIDWAY, FIRST_MIDWAY + midway)
        storage.db.execute("BEGIN")
        storage.db.executemany(
            "INSERT INTO fsm VALUES (?, ?, ?)",
            ((f"123456789:{chat}:{chat}", STATES[MIDWAY].state, said) for chat in people),
        )
        storage.db.execute("COMMIT")
        return storage


class OnRedis(Memory):
    """On Redis, whose log is synced at each write."""

    kind = Kind(name="aiogram, Redis synced", durable=True, holds="states and words; no timers")
    sync = "always"
    _server: RedisServer | None

    async def storage(self, folder: Path, midway: int) -> BaseStorage:
        """Return where it keeps things.

        Raises:
            UnavailableError: There is no Redis here.
        """
        self._server = None
        if SOCKET in os.environ:
            shared: BaseStorage = storage_at(Path(os.environ[SOCKET]))
            return shared
        self._server = RedisServer(folder, sync=self.sync)
        try:
            storage: Any = storage_at(self._server.socket)
        except UnavailableError:
            self._server.close()  # nobody else would end it
            raise
        pipe = storage.redis.pipeline(transaction=False)
        for chat in range(FIRST_MIDWAY, FIRST_MIDWAY + midway):
            pipe.set(f"fsm:{chat}:{chat}:state", str(STATES[MIDWAY].state))
            pipe.set(f"fsm:{chat}:{chat}:data", json.dumps(_SAID))
        await pipe.execute()
        kept: BaseStorage = storage
        return kept

    async def close(self) -> None:
        """End, and its server."""
        await super().close()
        if self._server is not None:
            self._server.close()


class OnRedisEverySecond(OnRedis):
    """On Redis, whose log is synced once a second."""

    kind = Kind(
        name="aiogram, Redis synced each second",
        durable=False,
        holds="states and words up to a second ago; no timers",
    )
    sync = "everysec"
