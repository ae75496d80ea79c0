"""What is stored can be read back, and what cannot be understood is refused."""

import json
from datetime import UTC, datetime, timedelta

import pytest

from bot.engine.effects import Choice, Part, Say, Term
from bot.engine.state import AwaitingStopReason, Finished
from bot.errors import DatabaseError
from bot.protocol.record import Origin
from bot.store.codec import (
    SCHEMA,
    decode_conversation,
    decode_event,
    decode_outgoing,
    decode_record,
    encode_conversation,
    encode_outgoing,
    encode_record,
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


def test_a_record_stored_before_paper_is_of_a_watched_test() -> None:
    """A record that says nothing of its origin was watched; one from paper comes back as such."""
    watched = Playbook().stands().taps("stop").conversation.stage
    assert isinstance(watched, AwaitingStopReason)
    stored = encode_record(watched.record)
    assert "origin" not in stored
    assert decode_record(stored).origin is Origin.WATCHED
    book = Playbook().copies().types("124/80 99").types("headache 3").taps("nothing")
    assert isinstance(book.conversation.stage, Finished)
    record = book.conversation.stage.record
    assert decode_record(encode_record(record)) == record
    assert record.origin is Origin.PAPER


def test_event_of_no_known_kind_is_refused() -> None:
    """An event must name a class of the vocabulary."""
    body = {"is": "Exploded", "at": NOW.isoformat()}
    with pytest.raises(Exception, match="Exploded"):
        decode_event(json.dumps({"schema": SCHEMA, "body": body}))
