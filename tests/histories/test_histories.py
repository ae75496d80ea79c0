"""Histories that were recorded once replay on today's program to the state they ended in.

A file here is never written anew: if a change of the program makes one diverge, people whose
tests are under way diverge too. Record a new one with `python -m tests.histories.record SCRIPT`.
"""

import json
from dataclasses import fields, replace
from pathlib import Path

import pytest

from bot.engine.context import Context, Opening
from bot.engine.replay import replay
from bot.engine.state import AwaitingStopReason, Conversation, Finished, Stage
from bot.protocol.definition import ProtocolRef
from bot.store.codec import decode_conversation, decode_event

RECORDED = sorted(Path(__file__).parent.glob("*.json"))


def test_there_are_recorded_histories() -> None:
    """At least one history of each protocol is on record."""
    protocols = {json.loads(path.read_text(encoding="utf-8"))["protocol"] for path in RECORDED}
    assert protocols == {"four-readings", "six-readings"}


def _bare(stage: Stage) -> Stage:
    """Return a stage whose record is as it was kept at first."""
    match stage:
        case Finished(record=record) | AwaitingStopReason(record=record):
            known = record.circumstances
            if known is not None:
                known = replace(known, medicines=known.medicines or ())
            repeats = tuple(replace(repeat, sources=()) for repeat in record.repeats)
            bare = replace(record, aftercare=(), circumstances=known, repeats=repeats)
            return replace(stage, record=bare)
        case _:
            return stage


def essence(conversation: Conversation) -> Conversation:
    """Return a conversation without what only counts messages, or watches over a person now.

    How many messages a program needs may change, what is noted of a link that was offered, and
    whether medicines that were not asked about are kept as none; so may what is kept of how
    somebody was looked after, and which message a second measurement came in. What was measured,
    told and decided may not.
    """
    stage = _bare(conversation.stage)
    counters = {"number", "progress_number", "check_number"} & {f.name for f in fields(stage)}
    return replace(
        conversation,
        stage=replace(stage, **dict.fromkeys(counters, 0)),  # type: ignore[arg-type]
        said=0,
        asides=0,
        answered=None,
        answered_at=None,
        active_at=None,
        recovery=None,
        pinned=None,
        profile=replace(conversation.profile, offers=()),
    )


@pytest.mark.parametrize("path", RECORDED, ids=[path.stem for path in RECORDED])
def test_recorded_history_replays_to_its_end(path: Path) -> None:
    """The events of the past lead to the same state today."""
    recorded = json.loads(path.read_text(encoding="utf-8"))
    protocol = ProtocolRef(id=recorded["protocol"], version=recorded["version"])
    context = Context(protocol=protocol, opening=Opening(recorded["opening"]))
    beginning = decode_conversation(json.dumps(recorded["beginning"]))
    events = [decode_event(json.dumps(event)) for event in recorded["events"]]
    end = decode_conversation(json.dumps(recorded["end"]))
    assert essence(replay(context, beginning, events)) == essence(end)
