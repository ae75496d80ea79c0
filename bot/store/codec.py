"""Between the engine's records and JSON text. Rows stay dumb; this is where shapes are checked.

Every stored text carries its schema number. A newer one than this program knows is refused.
"""

import json
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from typing import Any, Final

from cattrs import BaseConverter, Converter
from cattrs.strategies import configure_tagged_union

from bot.care.items import Item
from bot.engine.asides import Aside
from bot.engine.effects import (
    Choice,
    ClockTime,
    Day,
    Moment,
    Outgoing,
    Param,
    Part,
    Place,
    Term,
)
from bot.engine.events import Event
from bot.engine.recovery import Recovery
from bot.engine.state import Conversation, Stage
from bot.errors import DatabaseError
from bot.protocol.record import TestRecord

SCHEMA: Final = 1
_TAG: Final = "is"
_ENCODER: Final = json.JSONEncoder(
    ensure_ascii=False,
    separators=(",", ":"),
    check_circular=False,  # what the converter makes is a tree
)


def encode_conversation(conversation: Conversation) -> str:
    """Return a conversation as text."""
    return _dump(_converter().unstructure(conversation, Conversation))


def decode_conversation(text: str) -> Conversation:
    """Return the conversation that a text holds."""
    return _converter().structure(_load(text), Conversation)


def encode_event(event: Event) -> str:
    """Return an event as text."""
    return _dump(_converter().unstructure(event, Event))


def decode_event(text: str) -> Event:
    """Return the event that a text holds."""
    return _converter().structure(_load(text), Event)  # type: ignore[arg-type]


def encode_outgoing(effect: Outgoing) -> str:
    """Return an outgoing effect as text."""
    return _dump(_converter().unstructure(effect, Outgoing))


def decode_outgoing(text: str) -> Outgoing:
    """Return the outgoing effect that a text holds."""
    return _converter().structure(_load(text), Outgoing)  # type: ignore[arg-type]


def encode_record(record: TestRecord) -> str:
    """Return a test record as text."""
    return _dump(_converter().unstructure(record, TestRecord))


def decode_record(text: str) -> TestRecord:
    """Return the test record that a text holds."""
    return _converter().structure(_load(text), TestRecord)


def encode_item(item: Item) -> str:
    """Return an item of the inbox as text; its number and revision stand beside it."""
    return _dump(_converter().unstructure(replace(item, number=0, revision=0), Item))


def decode_item(text: str, *, number: int, revision: int) -> Item:
    """Return the item that a text holds."""
    item: Item = _converter().structure(_load(text), Item)
    return replace(item, number=number, revision=revision)


def _dump(body: Any) -> str:
    return _ENCODER.encode({"schema": SCHEMA, "body": body})


def _load(text: str) -> Any:
    whole = json.loads(text)
    if whole["schema"] > SCHEMA:
        raise DatabaseError(
            f"A stored record has schema {whole['schema']}, and this program knows up to {SCHEMA}. "
            "Use the newer program that wrote it."
        )
    return whole["body"]


@cache
def _converter() -> BaseConverter:
    converter = Converter(
        omit_if_default=True,
        forbid_extra_keys=True,
        unstruct_collection_overrides={frozenset: sorted},
    )
    converter.register_unstructure_hook(datetime, _instant_out)
    converter.register_structure_hook(datetime, lambda text, _: datetime.fromisoformat(text))
    converter.register_unstructure_hook(date, lambda day: day.isoformat())
    converter.register_structure_hook(date, lambda text, _: date.fromisoformat(text))
    converter.register_unstructure_hook(time, lambda moment: moment.isoformat())
    converter.register_structure_hook(time, lambda text, _: time.fromisoformat(text))
    converter.register_unstructure_hook(timedelta, lambda length: length.total_seconds())
    converter.register_structure_hook(timedelta, lambda seconds, _: timedelta(seconds=seconds))
    converter.register_unstructure_hook(Choice, _choice_out)
    converter.register_structure_hook(Choice, lambda body, _: _choice_in(body))
    converter.register_unstructure_hook(Part, _part_out)
    converter.register_structure_hook(Part, lambda body, _: _part_in(body))
    for union in (Stage, Aside, Recovery, Event, Outgoing):
        configure_tagged_union(union, converter, tag_name=_TAG)
    for union in (Stage, Aside, Recovery):
        _allow_none(converter, union)
    return converter


def _allow_none(converter: Converter, union: Any) -> None:
    """Let a field hold none of a union's members."""
    converter.register_unstructure_hook(
        union | None, lambda one: None if one is None else converter.unstructure(one, union)
    )
    converter.register_structure_hook(
        union | None, lambda body, _: None if body is None else converter.structure(body, union)
    )


def _instant_out(at: datetime) -> str:
    return (at if at.tzinfo is UTC else at.astimezone(UTC)).isoformat()


def _part_out(part: Part) -> list[Any]:
    return [part.key, _params_out(part.params)]


def _part_in(body: Any) -> Part:
    key, params = body
    return Part(key, _params_in(params))


def _choice_out(choice: Choice) -> list[Any]:
    return [choice.label, choice.token, _params_out(choice.params), choice.ticked]


def _choice_in(body: Any) -> Choice:
    label, token, params, ticked = body
    return Choice(label, token, _params_in(params), ticked)


def _params_out(params: Mapping[str, Param]) -> dict[str, Any]:
    return {name: _param_out(value) for name, value in params.items()}


def _params_in(body: Any) -> dict[str, Param]:
    return {name: _param_in(value) for name, value in body.items()}


def _param_out(value: Param) -> Any:
    match value:
        case timedelta():
            return {"seconds": value.total_seconds()}
        case Term(key):
            return {"term": key}
        case Day(day):
            return {"day": day.isoformat()}
        case ClockTime(moment):
            return {"time": moment.isoformat()}
        case Moment(at, zone):
            return {"at": at.astimezone(UTC).isoformat(), "zone": zone}
        case Place(zone):
            return {"place": zone}
        case _:
            return value


def _param_in(value: Any) -> Param:
    match value:
        case {"seconds": float() | int() as seconds}:
            return timedelta(seconds=seconds)
        case {"term": str(key)}:
            return Term(key)
        case {"day": str(day)}:
            return Day(date.fromisoformat(day))
        case {"time": str(moment)}:
            return ClockTime(time.fromisoformat(moment))
        case {"at": str(at), "zone": str(zone)}:
            return Moment(datetime.fromisoformat(at), zone)
        case {"place": str(zone)}:
            return Place(zone)
        case int() | str():
            return value
        case _:
            raise ValueError("a stored value is of no known kind")
