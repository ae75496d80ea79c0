"""python-telegram-bot's own: ConversationHandler, PicklePersistence, JobQueue."""

import json
import time
from collections import defaultdict
from itertools import count
from pathlib import Path
from typing import Any, Final

from telegram import Update as TelegramUpdate
from telegram.ext import (
    Application,
    ApplicationBuilder,
    ContextTypes,
    ConversationHandler,
    MessageHandler,
    PersistenceInput,
    PicklePersistence,
    filters,
)
from telegram.request import BaseRequest, RequestData

from tests.bench.peers.conversation import (
    FIRST_MIDWAY,
    MIDWAY,
    REST_S,
    STEPS,
    TIMED,
    TOKEN,
    Found,
    Kind,
    Update,
    answered,
)

_NAME: Final = "test"
_sent = count(1)


class Swallowing(BaseRequest):
    """A connection to nowhere: every message is sent at once."""

    async def initialize(self) -> None:
        """Nothing to open."""

    async def shutdown(self) -> None:
        """Nothing to close."""

    @property
    def read_timeout(self) -> float:
        """How long an answer would be waited for."""
        return 5.0

    async def do_request(
        self, url: str, method: str, request_data: RequestData | None = None, *_: Any, **__: Any
    ) -> tuple[int, bytes]:
        """Answer as Telegram does."""
        if url.endswith("getMe"):
            result: dict[str, Any] = {"id": 1, "is_bot": True, "first_name": "B", "username": "b"}
        else:
            chat = request_data.parameters["chat_id"] if request_data else 1
            result = {
                "message_id": next(_sent),
                "date": int(time.time()),
                "chat": {"id": chat, "type": "private"},
            }
        return 200, json.dumps({"ok": True, "result": result}).encode()


async def rang(context: ContextTypes.DEFAULT_TYPE) -> None:
    """Ask for a reading."""
    assert context.job is not None
    assert context.job.chat_id is not None
    await context.bot.send_message(context.job.chat_id, "Measure now.")


def handler_of(step: int) -> Any:
    """Return what answers a step: keeps what was said, sets the timer, leads on."""

    async def answer(update: TelegramUpdate, context: ContextTypes.DEFAULT_TYPE) -> int:
        message, chat = update.effective_message, update.effective_chat
        assert message is not None
        assert chat is not None
        assert context.user_data is not None
        context.user_data.setdefault("said", []).append((message.text, time.time()))
        await context.bot.send_message(chat.id, answered(step))
        if step in TIMED:
            assert context.job_queue is not None
            name = str(chat.id)
            context.job_queue.run_once(rang, REST_S, chat_id=chat.id, name=name)
        return step + 1 if step + 1 < len(STEPS) else ConversationHandler.END

    return answer


def conversation(*, persistent: bool) -> ConversationHandler[Any]:
    """Return the whole conversation."""
    return ConversationHandler(
        entry_points=[MessageHandler(filters.Regex(r"^/start$"), handler_of(0))],
        states={
            step: [MessageHandler(filters.TEXT, handler_of(step))] for step in range(1, len(STEPS))
        },
        fallbacks=[],
        name=_NAME,
        persistent=persistent,
    )


def kept(path: Path, *, on_flush: bool) -> PicklePersistence[Any, Any, Any]:
    """Return a persistence that keeps what is told of users, and where conversations stand."""
    return PicklePersistence(
        path,
        store_data=PersistenceInput(bot_data=False, chat_data=False, callback_data=False),
        on_flush=on_flush,
    )


def application(persistence: PicklePersistence[Any, Any, Any] | None) -> Any:
    """Return the program."""
    builder: Any = ApplicationBuilder().token(TOKEN)
    builder = builder.request(Swallowing()).get_updates_request(Swallowing())
    if persistence is not None:
        builder = builder.persistence(persistence)
    program: Application[Any, Any, Any, Any, Any, Any] = builder.build()
    program.add_handler(conversation(persistent=persistence is not None))
    return program


class Memory:
    """As it is without a persistence."""

    kind = Kind(name="python-telegram-bot, memory", durable=False, holds="nothing")
    _persistence: PicklePersistence[Any, Any, Any] | None = None

    async def open(self, folder: Path, midway: int) -> None:
        """Begin; whoever is in the middle of a test is put where a persistence has them."""
        self._app = application(self._persistence)
        await self._app.initialize()
        await self._app.start()
        handler = self._app.handlers[0][0]
        for chat in range(FIRST_MIDWAY, FIRST_MIDWAY + midway):
            handler._conversations[(chat, chat)] = MIDWAY
            self._app.user_data[chat]["said"] = [(words, 0.0) for words in STEPS[:MIDWAY]]
            self._app.job_queue.run_once(rang, 86_400, chat_id=chat, name=str(chat))

    async def pass_time(self, step: int, chats: range) -> None:
        """Nothing hangs on it."""

    async def take(self, updates: list[Update]) -> None:
        """Take a backlog, one after the other: a ConversationHandler allows nothing else."""
        for update in updates:
            await self._app.process_update(TelegramUpdate.de_json(dict(update), self._app.bot))

    async def found(self, chats: range, step: int) -> Found:
        """Look at where the conversations stand."""
        states, users = self._app.handlers[0][0]._conversations, self._app.user_data
        jobs = {job.name for job in self._app.job_queue.jobs()}
        return Found(
            states=sum(states.get((chat, chat)) == step + 1 for chat in chats),
            words=sum(len(users[chat].get("said", ())) for chat in chats if chat in users),
            timers=sum(str(chat) in jobs for chat in chats),
        )

    async def close(self) -> None:
        """End."""
        self._app.persistence = None
        await self._app.stop()
        await self._app.shutdown()


class Pickle(Memory):
    """With its own file, written before each backlog is acknowledged, as one whole."""

    kind = Kind(
        name="python-telegram-bot, pickle per backlog",
        durable=False,
        holds="states and words, no sync of the disk; no timers, no outbox",
    )

    async def open(self, folder: Path, midway: int) -> None:
        """Begin with a file that already holds those in the middle of a test."""
        file = folder / "ptb.pickle"
        if not file.exists():
            await self._fill(file, midway)
        self._persistence = kept(file, on_flush=True)
        await super().open(folder, 0)

    async def _fill(self, file: Path, midway: int) -> None:
        before = kept(file, on_flush=True)
        before.conversations = {
            _NAME: {(c, c): MIDWAY for c in range(FIRST_MIDWAY, FIRST_MIDWAY + midway)}
        }
        before.user_data = defaultdict(dict)
        for chat in range(FIRST_MIDWAY, FIRST_MIDWAY + midway):
            before.user_data[chat] = {"said": [(words, 0.0) for words in STEPS[:MIDWAY]]}
        before.chat_data, before.bot_data = defaultdict(dict), {}
        before.bot = None  # type: ignore[assignment]
        await before.flush()

    async def take(self, updates: list[Update]) -> None:
        """Take a backlog and have it written."""
        await super().take(updates)
        await self._app.update_persistence()
        assert self._persistence is not None
        await self._persistence.flush()


class PickleAsShipped(Memory):
    """With its own file as it ships: written once a minute."""

    kind = Kind(
        name="python-telegram-bot, pickle as shipped",
        durable=False,
        holds="states and words up to a minute ago; no timers, no outbox",
    )

    async def open(self, folder: Path, midway: int) -> None:
        """Begin with what the file holds."""
        self._persistence = kept(folder / "ptb.pickle", on_flush=False)
        await super().open(folder, midway)
