"""Every stage meets every event, and the printed table is the machine's own."""

from collections.abc import Sequence
from pathlib import Path
from typing import Final, get_args

import pytest

from bot.engine.asides import Aside
from bot.engine.deadlines import next_deadline
from bot.engine.effects import Hand, Outgoing, Revise, Say
from bot.engine.events import (
    Blocked,
    ChoiceTapped,
    Cleared,
    DeadlineReached,
    DeliveryFailed,
    Event,
    Unblocked,
    WordsEdited,
)
from bot.engine.linked import (
    CompanionAnswered,
    CompanionDeclined,
    CompanionLeft,
    CompanionUnreached,
    Notified,
    WordsRelayed,
    WordsTaken,
)
from bot.engine.machine import advance
from bot.engine.state import Conversation, Stage
from bot.engine.team import (
    Nudged,
    PersonClosed,
    PlanSet,
    ProtocolSet,
    RepeatAsked,
    ResultSeen,
    TeamWrote,
)
from bot.store.codec import (
    decode_conversation,
    decode_outgoing,
    encode_conversation,
    encode_outgoing,
)
from bot.testing.table import context_for, conversations, events_for, markdown

PAIRS = [
    pytest.param(conversation, events, id=f"{name}-{kind}")
    for name, conversation in conversations().items()
    for kind, events in events_for(conversation).items()
]
"""Every stage with each kind of event; there may be several events of a kind."""

OF_OTHERS: Final = (
    Notified,
    WordsTaken,
    WordsRelayed,
    CompanionAnswered,
    CompanionDeclined,
    CompanionLeft,
    CompanionUnreached,
    ResultSeen,
    TeamWrote,
    RepeatAsked,
    Nudged,
    ProtocolSet,
    PlanSet,
    PersonClosed,
)
QUIET: Final = (
    Cleared, DeadlineReached, DeliveryFailed, Blocked, Unblocked, WordsEdited, ChoiceTapped,
    *OF_OTHERS,
)  # fmt: skip
"""What may pass without an answer."""


def test_examples_cover_every_stage_aside_and_event() -> None:
    """The product that is walked leaves out no class of the vocabulary."""
    found = conversations().values()
    assert {type(c.stage) for c in found} == set(get_args(Stage))
    assert {type(c.aside) for c in found} - {type(None)} == set(get_args(Aside))
    kinds = {type(e) for c in found for es in events_for(c).values() for e in es}
    assert kinds == set(get_args(Event))


@pytest.mark.parametrize(("conversation", "events"), PAIRS)
def test_every_pair_is_decided(conversation: Conversation, events: Sequence[Event]) -> None:
    """No pair raises; a person who did something gets an answer; the outcome can be stored."""
    for event in events:
        decided(conversation, event)


def decided(conversation: Conversation, event: Event) -> None:
    """Check what one event leads to."""
    transition = advance(context_for(conversation), conversation, event)
    after = transition.conversation
    assert decode_conversation(encode_conversation(after)) == after
    if not isinstance(event, QUIET):
        assert transition.effects, event
    for effect in transition.effects:
        if isinstance(effect, Outgoing):
            assert decode_outgoing(encode_outgoing(effect)) == effect
        if isinstance(effect, Say | Revise | Hand):
            tokens = [choice.token for row in effect.choices for choice in row]
            assert all(token.isascii() and 1 <= len(token) <= 64 for token in tokens)


@pytest.mark.parametrize("name", list(conversations()))
def test_deadline_moves_on(name: str) -> None:
    """An alarm at its deadline changes the state and never leaves the same deadline behind."""
    conversation = conversations()[name]
    context = context_for(conversation)
    due = next_deadline(context, conversation)
    if due is None:
        assert advance(context, conversation, events_for(conversation)["deadline"][0]).effects == ()
        return
    after = advance(context, conversation, DeadlineReached(at=due)).conversation
    assert after != conversation
    following = next_deadline(context, after)
    assert following is None or following > due


def test_printed_table_is_true() -> None:
    """DEVELOPERS.md prints the table as the machine gives it."""
    page = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert markdown() in page
