"""A person in a private chat with the bot, as a test plays them."""

import asyncio
import io
from collections.abc import Awaitable, Callable
from typing import Final, TypeVar

from PIL import Image

from tests.telegram_api.account import Account
from tests.telegram_api.chats import Chat, ChatMessage, Message, StoredFile, Toast
from tests.telegram_api.content import MAX_TEXT, find_commands
from tests.telegram_api.wire import Json, Upload

T = TypeVar("T")

_CHAT_INSTANCE: Final = "-4611686018427387904"


class Person:
    """Writes, taps and blocks; sees the chat. Every call may come from any thread."""

    def __init__(self, account: Account, chat: Chat) -> None:
        self._account = account
        self._chat = chat

    @property
    def chat_id(self) -> int:
        return self._chat.chat_id

    @property
    def chat(self) -> tuple[ChatMessage, ...]:
        """What the person sees now: edits applied, deleted messages gone."""
        with self._account.changes.held():
            return self._chat.seen()

    @property
    def replies(self) -> tuple[ChatMessage, ...]:
        """The messages of the bot in the chat."""
        return tuple(message for message in self.chat if message.author == "bot")

    @property
    def last(self) -> ChatMessage:
        """The latest message of the bot.

        Raises:
            AssertionError: It has not said anything.
        """
        replies = self.replies
        assert replies, f"the bot has said nothing to {self._chat.first_name}"
        return replies[-1]

    @property
    def toasts(self) -> tuple[Toast, ...]:
        """The answers to taps, in order."""
        with self._account.changes.held():
            return tuple(self._chat.toasts)

    @property
    def actions(self) -> tuple[str, ...]:
        """The chat actions seen (`typing`, …), in order."""
        with self._account.changes.held():
            return tuple(self._chat.actions)

    def finds(self, part: str) -> ChatMessage | None:
        """Return the latest message of the bot with these words in its text or caption."""
        found = [message for message in self.replies if part in message.text]
        return found[-1] if found else None

    def wait_for(self, predicate: Callable[["Person"], T | None], timeout: float = 5.0) -> T:
        """Block until the predicate holds of the person, and return its value.

        Raises:
            AssertionError: It does not within so many seconds; says what the chat holds.
            RuntimeError: Called on a thread with a running event loop; await `until` there.
        """
        if _on_a_loop():
            raise RuntimeError("this would block the event loop: await person.until(...)")
        return self._found(
            self._account.changes.wait_for(lambda: predicate(self), timeout), timeout
        )

    async def until(self, predicate: Callable[["Person"], T | None], timeout: float = 5.0) -> T:  # noqa: ASYNC109 - in step with `wait_for`
        """Wait until the predicate holds of the person, and return its value.

        Raises:
            AssertionError: It does not within so many seconds; says what the chat holds.
        """
        found: Awaitable[T | None] = self._account.changes.until(lambda: predicate(self), timeout)
        return self._found(await found, timeout)

    def _found(self, value: T | None, timeout: float) -> T:
        assert value, f"not within {timeout} s\n{self.describe()}"
        return value

    def describe(self) -> str:
        """Return the chat as text, for a failing test to show."""
        lines = [f"The chat of {self._chat.first_name} ({self.chat_id}):"]
        for message in self.chat:
            shown = message.text or ", ".join(message.content)
            lines.append(f"  {message.message_id} {message.author}: {shown}")
            if message.labels:
                lines.append(f"      buttons: {' | '.join(message.labels)}")
        return "\n".join(lines)

    def writes(self, text: str, *, reply_to: int | None = None) -> int:
        """Send a text and return its message id; the first one opens the chat."""
        return self._posts(_text_content(text), reply_to=reply_to)

    def edits(self, message_id: int, text: str) -> None:
        """Change a text sent before."""
        self._check_not_blocked()
        with self._account.changes.made():
            message = self._chat.messages[message_id]
            assert message.author == "person", "a person can only edit their own messages"
            message.content = _text_content(text)
            message.edit_date = int(self._account.clock())
            self._account.note_version(message)
            self._push("edited_message", self._account.message_body(self._chat, message))

    def deletes(self, message_id: int) -> None:
        """Take a message, the bot's or their own, out of the chat; the bot is not told."""
        with self._account.changes.made():
            del self._chat.messages[message_id]

    def taps(self, label_or_data: str) -> str:
        """Tap the button with that label, or that data, on the latest message that has one.

        Returns:
            The id of the callback query.

        Raises:
            AssertionError: No message has such a button; says which buttons there are.
        """
        with self._account.changes.held():
            for message in reversed(self._chat.messages.values()):
                for button in (button for row in message.buttons for button in row):
                    if button.data and label_or_data in {button.label, button.data}:
                        return self._taps(message, button.data)
        raise AssertionError(f"there is no button {label_or_data!r}\n{self.describe()}")

    def forges_tap(self, data: str, message_id: int = 1) -> str:
        """Send a tap with any data at all; on a message that is gone, an inaccessible one.

        Returns:
            The id of the callback query.
        """
        return self._taps(self._chat.messages.get(message_id) or message_id, data)

    def _taps(self, message: Message | int, data: str) -> str:
        self._check_not_blocked()
        with self._account.changes.made():
            query_id = self._account.open_query(self._chat)
            if isinstance(message, int):
                shown = {"chat": self._chat.body, "message_id": message, "date": 0}
            else:
                shown = self._account.message_body(self._chat, message)
            payload = {
                "id": query_id,
                "from": self._chat.user_body,
                "message": shown,
                "chat_instance": _CHAT_INSTANCE,
                "data": data,
            }
            self._push("callback_query", payload)
            return query_id

    def sends_photo(self, content: bytes | None = None, caption: str = "") -> int:
        """Send a photo, a plain grey one unless given."""
        with self._account.changes.made():
            upload = Upload(name="photo.jpg", mime="image/jpeg", content=content or _grey_photo())
            stored = self._account.store(upload, "photos")
            body: Json = {"photo": self._account.photo_sizes(stored)}
            return self._posts(body | ({"caption": caption} if caption else {}), file=stored)

    def sends_voice(self, seconds: int = 2) -> int:
        """Send a voice message."""
        with self._account.changes.made():
            upload = Upload(name="voice.oga", mime="audio/ogg", content=b"OggS" * 16)
            stored = self._account.store(upload, "voice")
            voice = {**stored.body, "duration": seconds, "mime_type": stored.mime}
            return self._posts({"voice": voice}, file=stored)

    def sends_sticker(self, emoji: str = "\N{THUMBS UP SIGN}") -> int:
        """Send a sticker."""
        with self._account.changes.made():
            upload = Upload(name="sticker.webp", mime="image/webp", content=b"RIFF" * 16)
            stored = self._account.store(upload, "stickers")
            form = {"type": "regular", "width": 512, "height": 512, "emoji": emoji}
            flags = {"is_animated": False, "is_video": False}
            return self._posts({"sticker": {**stored.body, **form, **flags}}, file=stored)

    def sends_location(self, latitude: float = 10.5, longitude: float = 20.25) -> int:
        """Send a place on the map."""
        return self._posts({"location": {"latitude": latitude, "longitude": longitude}})

    def sends_document(self, name: str, content: bytes, mime: str = "text/plain") -> int:
        """Send a document."""
        with self._account.changes.made():
            upload = Upload(name=name, mime=mime, content=content)
            stored = self._account.store(upload, "documents")
            document = {**stored.body, "file_name": name, "mime_type": mime}
            return self._posts({"document": document}, file=stored)

    def blocks(self) -> None:
        """Block the bot: it can no longer write."""
        self._changes_membership(blocked=True)

    def unblocks(self) -> None:
        """Let the bot write again."""
        self._changes_membership(blocked=False)

    def _changes_membership(self, *, blocked: bool) -> None:
        assert self._chat.blocked != blocked, "there is nothing to block or unblock"
        kicked = {"user": self._account.bot_body, "status": "kicked", "until_date": 0}
        member = {"user": self._account.bot_body, "status": "member"}
        with self._account.changes.made():
            self._chat.blocked = blocked
            payload = {
                "chat": self._chat.body,
                "from": self._chat.user_body,
                "date": int(self._account.clock()),
                "old_chat_member": member if blocked else kicked,
                "new_chat_member": kicked if blocked else member,
            }
            self._push("my_chat_member", payload)

    def _posts(
        self, content: Json, *, file: StoredFile | None = None, reply_to: int | None = None
    ) -> int:
        self._check_not_blocked()
        with self._account.changes.made():
            self._chat.started = True
            message = self._account.post(
                self._chat, "person", content, file=file, reply_to=reply_to
            )
            self._push("message", self._account.message_body(self._chat, message))
            return message.message_id

    def _push(self, kind: str, payload: Json) -> None:
        self._account.updates.push(kind, self.chat_id, payload)

    def _check_not_blocked(self) -> None:
        assert not self._chat.blocked, f"{self._chat.first_name} has blocked the bot"


def _text_content(text: str) -> Json:
    trimmed = text.strip()
    assert 1 <= len(trimmed) <= MAX_TEXT, "no client sends an empty text or one this long"
    entities = find_commands(trimmed)
    return {"text": trimmed, **({"entities": entities} if entities else {})}


def _grey_photo() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (640, 480), "grey").save(out, "JPEG")
    return out.getvalue()


def _on_a_loop() -> bool:
    try:
        asyncio.get_running_loop()
    except RuntimeError:
        return False
    return True
