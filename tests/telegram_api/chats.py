"""Private chats: their messages as the server keeps them and as a person sees them."""

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from tests.telegram_api.wire import Json

Author: TypeAlias = Literal["bot", "person"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredFile:
    """A file on the server, under an identifier that lasts."""

    file_id: str
    unique_id: str
    path: str
    name: str
    mime: str
    content: bytes = field(repr=False)

    @property
    def body(self) -> Json:
        return {
            "file_id": self.file_id,
            "file_unique_id": self.unique_id,
            "file_size": len(self.content),
        }


@dataclass(frozen=True, slots=True)
class Button:
    """A button under a message; `data` is empty if it opens a link instead."""

    label: str
    data: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """What a message said from an instant (Unix time) on."""

    at: float
    text: str
    buttons: tuple[tuple[Button, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Toast:
    """The answer to a tap, as it pops up; without text, the button just stops spinning."""

    query_id: str
    text: str
    alert: bool


@dataclass(slots=True, kw_only=True)
class Message:
    """A message of a chat, changeable as the platform allows.

    Attributes:
        content: The fields of its kind as the Bot API gives them (`text`, `photo`, …).
        rows: The inline keyboard as sent, rows of buttons.
        keyboard: Any other `reply_markup`: a reply keyboard, its removal, a forced reply.
        versions: What it said, the first and every one after an edit.
    """

    message_id: int
    author: Author
    date: int
    content: Json
    rows: list[list[Json]] = field(default_factory=list)
    keyboard: Json | None = None
    file: StoredFile | None = None
    reply_to: int | None = None
    protected: bool = False
    edit_date: int | None = None
    versions: list[Version] = field(default_factory=list)

    @property
    def text(self) -> str:
        return str(self.content.get("text") or self.content.get("caption") or "")

    @property
    def buttons(self) -> tuple[tuple[Button, ...], ...]:
        return tuple(
            tuple(Button(button["text"], button.get("callback_data", "")) for button in row)
            for row in self.rows
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ChatMessage:
    """A message as it stands in the chat now, for a test to look at.

    Attributes:
        date: Unix time in whole seconds.
        text: The text, or the caption of a photo or document.
        content: The fields of its kind as the Bot API gives them.
        versions: What it said, oldest first; more than one means it was edited.
    """

    message_id: int
    author: Author
    date: int
    text: str
    buttons: tuple[tuple[Button, ...], ...]
    keyboard: Json | None
    photo: StoredFile | None
    document: StoredFile | None
    reply_to: int | None
    protected: bool
    content: Json
    versions: tuple[Version, ...]

    @property
    def labels(self) -> tuple[str, ...]:
        return tuple(button.label for row in self.buttons for button in row)


@dataclass(slots=True, kw_only=True)
class Chat:
    """A private chat with one person, and the person in it.

    Attributes:
        started: The person has written; before that the bot cannot reach the chat.
    """

    chat_id: int
    first_name: str
    language_code: str | None
    started: bool = False
    blocked: bool = False
    messages: dict[int, Message] = field(default_factory=dict)
    toasts: list[Toast] = field(default_factory=list)
    actions: list[str] = field(default_factory=list)

    @property
    def user_body(self) -> Json:
        body: Json = {"id": self.chat_id, "is_bot": False, "first_name": self.first_name}
        if self.language_code:
            body["language_code"] = self.language_code
        return body

    @property
    def body(self) -> Json:
        return {"id": self.chat_id, "first_name": self.first_name, "type": "private"}

    def seen(self) -> tuple[ChatMessage, ...]:
        """Return the chat as the person sees it now."""
        return tuple(_seen(message) for message in self.messages.values())


def _seen(message: Message) -> ChatMessage:
    return ChatMessage(
        message_id=message.message_id,
        author=message.author,
        date=message.date,
        text=message.text,
        buttons=message.buttons,
        keyboard=message.keyboard,
        photo=message.file if "photo" in message.content else None,
        document=message.file if "document" in message.content else None,
        reply_to=message.reply_to,
        protected=message.protected,
        content=dict(message.content),
        versions=tuple(message.versions),
    )
