"""What a message may hold: text and its entities, keyboards, photos and documents."""

import io
import re
from typing import Any, Final

from PIL import Image, UnidentifiedImageError

from tests.telegram_api.wire import ApiError, Arguments, Json, Upload, bad_request

MAX_TEXT: Final = 4096
MAX_CAPTION: Final = 1024
MAX_CALLBACK_DATA: Final = 64
MAX_BUTTONS: Final = 100
MAX_PHOTO_BYTES: Final = 10 * 1024 * 1024
MAX_UPLOAD_BYTES: Final = 50 * 1024 * 1024

_COMMAND: Final = re.compile(r"(?<![\w/<>])/\w{1,64}(?:@\w{3,32})?(?![\w/<>])", re.ASCII)


def read_text(arguments: Arguments, *, too_long: str = "message is too long") -> Json:
    """Return the content of a text message, trimmed as the platform trims it.

    Raises:
        ApiError: The text is missing, blank, too long, or to be parsed as markup, which this
            server does not do (501, so that it cannot be taken for the platform's word).
    """
    _refuse_markup(arguments)
    if not arguments.text("text"):
        raise bad_request("message text is empty")
    text = arguments.text("text").strip()
    if not text:
        raise bad_request("text must be non-empty")
    if len(text) > MAX_TEXT:
        raise bad_request(too_long)
    content: Json = {"text": text}
    entities = arguments.structure("entities", "entities") or find_commands(text)
    if entities:
        content["entities"] = entities
    preview = arguments.structure("link_preview_options", "link preview options")
    if preview:
        content["link_preview_options"] = preview
    return content


def read_caption(arguments: Arguments) -> Json:
    """Return the caption fields of a photo or document; none if there is no caption.

    Raises:
        ApiError: It is too long, or to be parsed as markup.
    """
    _refuse_markup(arguments)
    caption = arguments.text("caption").strip()
    if len(caption) > MAX_CAPTION:
        raise bad_request("message caption is too long")
    if not caption:
        return {}
    entities = arguments.structure("caption_entities", "entities") or find_commands(caption)
    return {"caption": caption, **({"caption_entities": entities} if entities else {})}


def find_commands(text: str) -> list[Json]:
    """Return an entity for each bot command, counted in UTF-16 code units."""
    return [
        {
            "type": "bot_command",
            "offset": _utf16_length(text[: match.start()]),
            "length": _utf16_length(match.group()),
        }
        for match in _COMMAND.finditer(text)
    ]


def _utf16_length(text: str) -> int:
    return len(text.encode("utf-16-le")) // 2


def _refuse_markup(arguments: Arguments) -> None:
    if arguments.text("parse_mode"):
        raise ApiError(501, "Not Implemented: this server parses no markup")


def read_keyboard(arguments: Arguments) -> tuple[list[list[Json]], Json | None]:
    """Return the inline keyboard, and any other kind of reply markup, of a call.

    Raises:
        ApiError: It is not built as the platform wants it.
    """
    markup = arguments.structure("reply_markup", "reply keyboard markup")
    if markup is None:
        return [], None
    if not isinstance(markup, dict):
        raise bad_request("object expected as reply markup")
    if "inline_keyboard" not in markup:
        return [], markup or None
    rows = markup["inline_keyboard"]
    if not isinstance(rows, list) or not all(isinstance(row, list) for row in rows):
        reason = 'field "inline_keyboard" of the InlineKeyboardMarkup must be an Array of Arrays'
        raise bad_request(reason)
    read = [[_read_button(button) for button in row] for row in rows if row]
    if sum(map(len, read)) > MAX_BUTTONS:
        raise bad_request("reply markup is too long")
    return read, None


def _read_button(button: Any) -> Json:
    prefix = "can't parse inline keyboard button: "
    if not isinstance(button, dict):
        raise bad_request(f"{prefix}InlineKeyboardButton must be an Object")
    if not isinstance(button.get("text"), str) or not button["text"]:
        raise bad_request(f'{prefix}Field "text" must be a non-empty String')
    if button.get("url"):
        return {"text": button["text"], "url": str(button["url"])}
    data = str(button.get("callback_data") or "")
    if not data:
        raise bad_request(f"{prefix}Text buttons are unallowed in the inline keyboard")
    if len(data.encode()) > MAX_CALLBACK_DATA:
        raise bad_request("BUTTON_DATA_INVALID")
    return {"text": button["text"], "callback_data": data}


def read_upload(arguments: Arguments, name: str) -> Upload | str:
    """Return the file sent under that name, or the identifier of one sent before.

    Raises:
        ApiError: There is neither, or the file is empty or too big.
    """
    given = arguments.text(name)
    upload = arguments.uploads.get(given.removeprefix("attach://") if given else name)
    if upload is None:
        if not given or given.startswith("attach://"):
            raise bad_request(f"there is no {name} in the request")
        return given
    if not upload.content:
        raise bad_request("file must be non-empty")
    if len(upload.content) > MAX_UPLOAD_BYTES:
        raise ApiError(413, "Request Entity Too Large")
    return upload


def measure_photo(content: bytes) -> tuple[int, int]:
    """Return width and height of a photo in pixels.

    Raises:
        ApiError: It is too big, no picture, or of a shape the platform does not take.
    """
    if len(content) > MAX_PHOTO_BYTES:
        reason = f"file of size {len(content)} bytes is too big for a photo"
        raise bad_request(f"{reason}; the maximum size is {MAX_PHOTO_BYTES} bytes")
    try:
        with Image.open(io.BytesIO(content)) as image:
            width, height = image.size
    except UnidentifiedImageError:
        raise bad_request("IMAGE_PROCESS_FAILED") from None
    if width + height > 10_000 or max(width, height) > 20 * min(width, height):
        raise bad_request("PHOTO_INVALID_DIMENSIONS")
    return width, height


def shrink_photo(content: bytes) -> tuple[bytes, tuple[int, int]]:
    """Return a photo as a thumbnail of at most 90 pixels, with its width and height."""
    with Image.open(io.BytesIO(content)) as image:
        image.thumbnail((90, 90))
        out = io.BytesIO()
        image.convert("RGB").save(out, "JPEG")
        return out.getvalue(), image.size
