"""The envelope of the Bot API: arguments on the way in, an answer or an error on the way out."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final, TypeAlias

from aiohttp import BodyPartReader, web

Json: TypeAlias = dict[str, Any]

_STRUCTURED: Final = frozenset(
    {
        "allowed_updates",
        "caption_entities",
        "commands",
        "entities",
        "link_preview_options",
        "menu_button",
        "reply_markup",
        "reply_parameters",
        "scope",
    }
)
"""Parameters whose text is JSON; every other one is taken literally."""


class ApiError(Exception):
    """An answer that is not ok.

    Attributes:
        status: HTTP status, the same as `error_code`.
        description: The platform's English sentence.
        retry_after: Seconds to wait, for 429.
    """

    def __init__(self, status: int, description: str, *, retry_after: int | None = None) -> None:
        super().__init__(description)
        self.status = status
        self.description = description
        self.retry_after = retry_after

    @property
    def body(self) -> Json:
        body: Json = {"ok": False, "error_code": self.status, "description": self.description}
        if self.retry_after is not None:
            body["parameters"] = {"retry_after": self.retry_after}
        return body


def bad_request(reason: str) -> ApiError:
    """Return the 400 the platform gives for that reason."""
    return ApiError(400, f"Bad Request: {reason}")


def retry_after(seconds: int) -> ApiError:
    """Return the 429 that asks for a pause of so many seconds."""
    return ApiError(429, f"Too Many Requests: retry after {seconds}", retry_after=seconds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Upload:
    """A file that came with a request."""

    name: str
    mime: str
    content: bytes = field(repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arguments:
    """The parameters of one call: all of them text, as on the wire, and the uploaded files."""

    values: Mapping[str, str]
    uploads: Mapping[str, Upload]

    def text(self, name: str) -> str:
        """Return the parameter, or nothing."""
        return self.values.get(name, "")

    def flag(self, name: str) -> bool:
        """Return whether the parameter says yes."""
        return self.text(name).strip().lower() in {"true", "yes", "1"}

    def integer(self, name: str, default: int, lowest: int, highest: int) -> int:
        """Return the parameter drawn into its range, as the platform does without a word."""
        try:
            value = int(self.values[name])
        except (KeyError, ValueError):
            return default
        return max(lowest, min(value, highest))

    def structure(self, name: str, noun: str) -> Any:
        """Return what the JSON text of the parameter holds; `None` if it was not given."""
        if not self.text(name):
            return None
        try:
            return json.loads(self.text(name))
        except ValueError:
            raise bad_request(f"can't parse {noun} JSON object") from None

    def decoded(self) -> Json:
        """Return the parameters with the JSON ones decoded, for a typed client to validate."""
        return {
            name: json.loads(value) if name in _STRUCTURED and value else value
            for name, value in self.values.items()
        }


async def read_arguments(request: web.Request) -> Arguments:
    """Return the arguments of a call, from its query string and any of the four kinds of body.

    Raises:
        ApiError: The body is not what its content type says.
    """
    values: dict[str, str] = {}
    uploads: dict[str, Upload] = {}
    match request.content_type:
        case "application/json" if request.can_read_body:
            values |= _from_json(await request.text())
        case "application/x-www-form-urlencoded":
            for name, value in (await request.post()).items():
                values.setdefault(name, str(value))
        case "multipart/form-data":
            async for part in await request.multipart():
                await _read_part(part, values, uploads)
        case _:
            pass
    for name, value in request.query.items():
        values.setdefault(name, value)
    return Arguments(values=values, uploads=uploads)


def _from_json(text: str) -> dict[str, str]:
    try:
        given = json.loads(text)
    except ValueError:
        raise bad_request("can't parse parameters as JSON") from None
    if not isinstance(given, dict):
        raise bad_request("parameters must be a JSON object")
    return {
        name: value if isinstance(value, str) else json.dumps(value)
        for name, value in given.items()
        if value is not None
    }


async def _read_part(part: Any, values: dict[str, str], uploads: dict[str, Upload]) -> None:
    if not isinstance(part, BodyPartReader) or not part.name:
        raise bad_request("can't parse the multipart body")
    content = bytes(await part.read(decode=True))
    if part.filename is None:
        values.setdefault(part.name, content.decode())
    else:
        mime = part.headers.get("Content-Type", "application/octet-stream")
        uploads[part.name] = Upload(name=part.filename, mime=mime, content=content)
