"""Everything the server knows about one bot: its chats, files, taps and settings."""

import itertools
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from tests.telegram_api.changes import Changes
from tests.telegram_api.chats import Author, Chat, Message, StoredFile, Toast, Version
from tests.telegram_api.content import measure_photo, shrink_photo
from tests.telegram_api.updates import UpdateQueue
from tests.telegram_api.wire import ApiError, Arguments, Json, Upload, bad_request

BLOCKED: Final = "Forbidden: bot was blocked by the user"


@dataclass(slots=True, kw_only=True)
class Webhook:
    """Where updates are posted to, and how the last attempts went."""

    url: str
    secret: str
    max_connections: int
    last_error: tuple[int, str] | None = None


@dataclass(slots=True)
class LongPoll:
    """The one `getUpdates` call that may wait: a later one, or a webhook, ends it.

    Attributes:
        turn: Counts the calls that waited; a call whose turn is over answers with `ended_by`.
    """

    turn: int = 0
    ended_by: ApiError | None = None

    def begin(self, ended_by: ApiError) -> int:
        """End the call that waits now, for that reason, and return the turn that follows."""
        self.turn += 1
        self.ended_by = ended_by
        return self.turn


class Account:
    """The state of one bot. Whoever touches it holds the lock of `changes`."""

    def __init__(
        self, *, token: str, username: str, clock: Callable[[], float], first_update_id: int
    ) -> None:
        self.token = token
        self.username = username
        self.clock = clock
        self.changes = Changes()
        self.updates = UpdateQueue(first_update_id)
        self.poll = LongPoll()
        self.webhook: Webhook | None = None
        self.chats: dict[int, Chat] = {}
        self.files: dict[str, StoredFile] = {}
        self.commands: dict[tuple[str, str], list[Json]] = {}
        self.profile: dict[tuple[str, str], str] = {}
        self._open_queries: dict[str, Chat] = {}
        self._message_ids = itertools.count(101)
        self._file_numbers = itertools.count(1)
        self._query_ids = itertools.count(4_000_000_000_000_001)

    @property
    def bot_body(self) -> Json:
        bot_id = int(self.token.partition(":")[0])
        return {"id": bot_id, "is_bot": True, "first_name": "Bot", "username": self.username}

    def chat(self, arguments: Arguments) -> Chat:
        """Return the chat a call is about.

        Raises:
            ApiError: No such chat, or its person has never written.
        """
        given = arguments.text("chat_id")
        if not given:
            raise bad_request("chat_id is empty")
        chat = self.chats.get(int(given)) if given.lstrip("-").isdecimal() else None
        if chat is None or not chat.started:
            raise bad_request("chat not found")
        return chat

    def message(self, chat: Chat, arguments: Arguments, noun: str) -> Message:
        """Return the message a call is about.

        Raises:
            ApiError: It never was in that chat, or is deleted.
        """
        message = chat.messages.get(arguments.integer("message_id", 0, 0, 2**31 - 1))
        if message is None:
            raise bad_request(f"{noun} not found")
        return message

    def post(
        self,
        chat: Chat,
        author: Author,
        content: Json,
        *,
        rows: list[list[Json]] | None = None,
        keyboard: Json | None = None,
        file: StoredFile | None = None,
        reply_to: int | None = None,
        protected: bool = False,
    ) -> Message:
        """Add a message to a chat."""
        message = Message(
            message_id=next(self._message_ids),
            author=author,
            date=int(self.clock()),
            content=content,
            rows=rows or [],
            keyboard=keyboard,
            file=file,
            reply_to=reply_to,
            protected=protected,
        )
        chat.messages[message.message_id] = message
        self.note_version(message)
        return message

    def note_version(self, message: Message) -> None:
        """Add what a message says now to its history."""
        version = Version(at=self.clock(), text=message.text, buttons=message.buttons)
        message.versions.append(version)

    def message_body(self, chat: Chat, message: Message, *, with_reply: bool = True) -> Json:
        """Return a message as the Bot API gives it."""
        body: Json = {
            "message_id": message.message_id,
            "from": self.bot_body if message.author == "bot" else chat.user_body,
            "chat": chat.body,
            "date": message.date,
        }
        if message.edit_date is not None:
            body["edit_date"] = message.edit_date
        replied = chat.messages.get(message.reply_to or 0)
        if replied is not None and with_reply:
            body["reply_to_message"] = self.message_body(chat, replied, with_reply=False)
        body |= message.content
        if message.protected:
            body["has_protected_content"] = True
        if message.rows:
            body["reply_markup"] = {"inline_keyboard": message.rows}
        return body

    def store(self, upload: Upload, folder: str) -> StoredFile:
        """Keep a file under a new identifier."""
        number = next(self._file_numbers)
        suffix = upload.name.rpartition(".")[2] if "." in upload.name else "bin"
        stored = StoredFile(
            file_id=f"BQACAgQAAxkBAAI{number:08d}",
            unique_id=f"AgAD{number:08d}",
            path=f"{folder}/file_{number}.{suffix}",
            name=upload.name,
            mime=upload.mime,
            content=upload.content,
        )
        self.files[stored.file_id] = stored
        return stored

    def find_file(self, file_id: str, otherwise: str) -> StoredFile:
        """Return a stored file.

        Raises:
            ApiError: There is none; the description is the one given.
        """
        stored = self.files.get(file_id)
        if stored is None:
            raise bad_request(otherwise)
        return stored

    def photo_sizes(self, photo: StoredFile) -> list[Json]:
        """Return the sizes of a photo, small to large, as the platform makes them.

        Raises:
            ApiError: It is no photo the platform takes.
        """
        width, height = measure_photo(photo.content)
        small, (small_width, small_height) = shrink_photo(photo.content)
        thumbnail = self.store(
            Upload(name="thumbnail.jpg", mime="image/jpeg", content=small), "thumbnails"
        )
        return [
            {**thumbnail.body, "width": small_width, "height": small_height},
            {**photo.body, "width": width, "height": height},
        ]

    def open_query(self, chat: Chat) -> str:
        """Return the identifier of a new tap, to be answered once."""
        query_id = str(next(self._query_ids))
        self._open_queries[query_id] = chat
        return query_id

    def close_query(self, query_id: str, text: str, *, alert: bool) -> None:
        """Answer a tap.

        Raises:
            ApiError: It was answered before, is too old, or never was.
        """
        chat = self._open_queries.pop(query_id, None)
        if chat is None:
            reason = "query is too old and response timeout expired or query ID is invalid"
            raise bad_request(reason)
        chat.toasts.append(Toast(query_id=query_id, text=text, alert=alert))

    def expire_queries(self) -> None:
        """Make every tap not answered yet too old to answer."""
        self._open_queries.clear()
