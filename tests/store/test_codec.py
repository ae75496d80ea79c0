"""What is stored can be read back, and what cannot be understood is refused."""

import json
from datetime import UTC, datetime, timedelta

import pytest

from bot.engine.effects import Choice, Part, Say, Term
from bot.errors import DatabaseError
from bot.store.codec import (
    SCHEMA,
    decode_conversation,
    decode_event,
    decode_outgoing,
    encode_conversation,
    encode_outgoing,
)
from bot.testing.playbook import Playbook

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def test_every_kind_of_placeholder_comes_back() -> None:
    """Numbers, words, lengths of time and terms survive, each as its own kind."""
    say = Say(
        number=3,
        parts=(Part("k", {"a": 1, "b": "1", "c": timedelta(seconds=90.5), "d": Term("t")}),),
        choices=((Choice("l", "t"),),),
        until=NOW,
    )
    assert decode_outgoing(encode_outgoing(say)) == say


def test_newer_schema_is_refused() -> None:
    """A text of a newer program is refused with words that help."""
    text = json.dumps({"schema": SCHEMA + 1, "body": {}})
    with pytest.raises(DatabaseError, match="newer program"):
        decode_conversation(text)


def test_unknown_field_is_refused() -> None:
    """A field that this program does not know is never dropped silently."""
    whole = json.loads(encode_conversation(Playbook().lies_down().conversation))
    whole["body"]["surprise"] = 1
    with pytest.raises(Exception, match="Conversation"):
        decode_conversation(json.dumps(whole))


def test_event_of_no_known_kind_is_refused() -> None:
    """An event must name a class of the vocabulary."""
    body = {"is": "Exploded", "at": NOW.isoformat()}
    with pytest.raises(Exception, match="Exploded"):
        decode_event(json.dumps({"schema": SCHEMA, "body": body}))
