"""The methods of the Bot API, save `getUpdates`: arguments in, result out."""

from collections.abc import Callable, Mapping
from typing import Final

from tests.telegram_api import settings
from tests.telegram_api.account import BLOCKED, Account
from tests.telegram_api.chats import Chat, Message, StoredFile
from tests.telegram_api.content import read_caption, read_keyboard, read_text, read_upload
from tests.telegram_api.settings import Method
from tests.telegram_api.wire import ApiError, Arguments, Json, bad_request

_NOT_MODIFIED: Final = (
    "message is not modified: specified new message content and reply markup are exactly the same "
    "as a current content and reply markup of the message"
)
_ACTIONS: Final = frozenset(
    {
        "typing",
        "upload_photo",
        "record_video",
        "upload_video",
        "record_voice",
        "upload_voice",
        "upload_document",
        "choose_sticker",
        "find_location",
        "record_video_note",
        "upload_video_note",
    }
)
_MAX_DOWNLOAD_BYTES: Final = 20 * 1024 * 1024


def get_me(account: Account, _arguments: Arguments) -> Json:
    """Return the bot itself."""
    abilities = {
        "can_join_groups": False,
        "can_read_all_group_messages": False,
        "supports_inline_queries": False,
        "can_connect_to_business": False,
        "has_main_web_app": False,
    }
    return account.bot_body | abilities


def send_message(account: Account, arguments: Arguments) -> Json:
    """Send a text."""
    return _send(account, arguments, lambda: (read_text(arguments), None))


def send_photo(account: Account, arguments: Arguments) -> Json:
    """Send a photo, uploaded or known."""

    def read() -> tuple[Json, StoredFile]:
        stored = _read_file(account, arguments, "photo", "photos")
        return {"photo": account.photo_sizes(stored), **read_caption(arguments)}, stored

    return _send(account, arguments, read)


def send_document(account: Account, arguments: Arguments) -> Json:
    """Send a document, uploaded or known."""

    def read() -> tuple[Json, StoredFile]:
        stored = _read_file(account, arguments, "document", "documents")
        body = {**stored.body, "file_name": stored.name, "mime_type": stored.mime}
        return {"document": body, **read_caption(arguments)}, stored

    return _send(account, arguments, read)


def _read_file(account: Account, arguments: Arguments, name: str, folder: str) -> StoredFile:
    upload = read_upload(arguments, name)
    if isinstance(upload, str):
        return account.find_file(upload, "wrong file identifier/HTTP URL specified")
    return account.store(upload, folder)


def _send(
    account: Account, arguments: Arguments, read: Callable[[], tuple[Json, StoredFile | None]]
) -> Json:
    content, file = read()
    rows, keyboard = read_keyboard(arguments)
    chat = account.chat(arguments)
    reply_to = _read_reply(chat, arguments)
    if chat.blocked:
        raise ApiError(403, BLOCKED)
    message = account.post(
        chat,
        "bot",
        content,
        rows=rows,
        keyboard=keyboard,
        file=file,
        reply_to=reply_to,
        protected=arguments.flag("protect_content"),
    )
    return account.message_body(chat, message)


def _read_reply(chat: Chat, arguments: Arguments) -> int | None:
    reply = arguments.structure("reply_parameters", "reply parameters")
    if not reply:
        return None
    if not isinstance(reply, dict) or not isinstance(reply.get("message_id"), int):
        raise bad_request("object expected as reply parameters")
    if reply["message_id"] in chat.messages:
        return int(reply["message_id"])
    if not reply.get("allow_sending_without_reply"):
        raise bad_request("message to be replied not found")
    return None


def edit_message_text(account: Account, arguments: Arguments) -> Json:
    """Replace text and inline keyboard of a message; a keyboard not sent along goes away."""
    content = read_text(arguments, too_long="MESSAGE_TOO_LONG")
    rows, _ = read_keyboard(arguments)
    chat, message = _find_editable(account, arguments)
    if "text" not in message.content:
        raise bad_request("there is no text in the message to edit")
    return _edit(account, chat, message, content, rows)


def edit_message_caption(account: Account, arguments: Arguments) -> Json:
    """Replace caption and inline keyboard of a photo or document."""
    caption = read_caption(arguments)
    rows, _ = read_keyboard(arguments)
    chat, message = _find_editable(account, arguments)
    if message.file is None:
        raise bad_request("there is no caption in the message to edit")
    kept = {key: value for key, value in message.content.items() if "caption" not in key}
    return _edit(account, chat, message, kept | caption, rows)


def edit_message_reply_markup(account: Account, arguments: Arguments) -> Json:
    """Replace only the inline keyboard of a message."""
    rows, _ = read_keyboard(arguments)
    chat, message = _find_editable(account, arguments)
    return _edit(account, chat, message, message.content, rows)


def _find_editable(account: Account, arguments: Arguments) -> tuple[Chat, Message]:
    chat = account.chat(arguments)
    message = account.message(chat, arguments, "message to edit")
    if message.author != "bot":
        raise bad_request("message can't be edited")
    return chat, message


def _edit(
    account: Account, chat: Chat, message: Message, content: Json, rows: list[list[Json]]
) -> Json:
    if (message.content, message.rows) == (content, rows):
        raise bad_request(_NOT_MODIFIED)
    if message.content != content:
        message.edit_date = int(account.clock())
    message.content, message.rows = content, rows
    account.note_version(message)
    return account.message_body(chat, message)


def delete_message(account: Account, arguments: Arguments) -> bool:
    """Take a message out of a chat; in a private one that may be the person's, too."""
    chat = account.chat(arguments)
    message = account.message(chat, arguments, "message to delete")
    del chat.messages[message.message_id]
    return True


def send_chat_action(account: Account, arguments: Arguments) -> bool:
    """Show that the bot is typing, or the like."""
    action = arguments.text("action").lower()
    if action not in _ACTIONS:
        raise bad_request("wrong parameter action in request")
    chat = account.chat(arguments)
    if chat.blocked:
        raise ApiError(403, BLOCKED)
    chat.actions.append(action)
    return True


def answer_callback_query(account: Account, arguments: Arguments) -> bool:
    """Answer a tap."""
    text = arguments.text("text")
    if len(text) > 200:
        raise bad_request("MESSAGE_TOO_LONG")
    query_id = arguments.text("callback_query_id")
    account.close_query(query_id, text, alert=arguments.flag("show_alert"))
    return True


def get_file(account: Account, arguments: Arguments) -> Json:
    """Return a file with the path to download it from."""
    if not arguments.text("file_id"):
        raise bad_request("file_id not specified")
    stored = account.find_file(arguments.text("file_id"), "invalid file_id")
    if len(stored.content) > _MAX_DOWNLOAD_BYTES:
        raise bad_request("file is too big")
    return {**stored.body, "file_path": stored.path}


METHODS: Final[Mapping[str, Method]] = {
    "answerCallbackQuery": answer_callback_query,
    "deleteMessage": delete_message,
    "deleteMyCommands": settings.delete_my_commands,
    "deleteWebhook": settings.delete_webhook,
    "editMessageCaption": edit_message_caption,
    "editMessageReplyMarkup": edit_message_reply_markup,
    "editMessageText": edit_message_text,
    "getFile": get_file,
    "getMe": get_me,
    "getMyCommands": settings.get_my_commands,
    "getMyDescription": settings.profile_getter("description"),
    "getMyName": settings.profile_getter("name"),
    "getMyShortDescription": settings.profile_getter("short_description"),
    "getWebhookInfo": settings.get_webhook_info,
    "sendChatAction": send_chat_action,
    "sendDocument": send_document,
    "sendMessage": send_message,
    "sendPhoto": send_photo,
    "setMyCommands": settings.set_my_commands,
    "setMyDescription": settings.profile_setter("description", 512),
    "setMyName": settings.profile_setter("name", 64),
    "setMyShortDescription": settings.profile_setter("short_description", 120),
    "setWebhook": settings.set_webhook,
}
"""By name; the platform, and this server, ignore its case."""
