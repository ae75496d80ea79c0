"""A second opinion on recorded calls: aiogram's typed methods and results."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel, TypeAdapter

from tests.telegram_api.server import Call

if TYPE_CHECKING:
    from aiogram.methods.base import TelegramMethod


def check_call(call: Call) -> TelegramMethod[Any]:
    """Return a recorded call as aiogram's typed method, having checked its result, too.

    Raises:
        AssertionError: There is no such method, or a parameter or a field of the result that the
            documented API does not know.
        pydantic.ValidationError: A parameter or the result is not of the documented type.
    """
    from aiogram import methods
    from aiogram.types import BufferedInputFile

    kind = getattr(methods, call.method[0].upper() + call.method[1:], None)
    assert kind is not None, f"no method {call.method}"
    uploads = {
        name: BufferedInputFile(upload.content, upload.name)
        for name, upload in call.files.items()
        if name in kind.model_fields
    }
    unknown = set(call.params) - set(kind.model_fields)
    assert not unknown, f"{call.method} has no {sorted(unknown)}"
    if call.body is not None and call.body["ok"]:
        result = TypeAdapter(kind.__returning__).validate_python(call.body["result"])
        strange = list(_unknown_fields(result))
        assert not strange, f"the result of {call.method} has {strange}"
    typed: TelegramMethod[Any] = kind.model_validate(call.params | uploads)
    return typed


def _unknown_fields(value: object) -> Iterator[str]:
    match value:
        case BaseModel():
            yield from (f"{type(value).__name__}.{name}" for name in value.model_extra or ())
            for name in type(value).model_fields:
                yield from _unknown_fields(getattr(value, name))
        case list():
            for item in value:
                yield from _unknown_fields(item)
        case _:
            pass
