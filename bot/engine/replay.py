"""A conversation from its history: the same events give the same state."""

from collections.abc import Iterable

from bot.engine.context import Context
from bot.engine.events import Event
from bot.engine.machine import advance
from bot.engine.state import Conversation


def replay(context: Context, beginning: Conversation, events: Iterable[Event]) -> Conversation:
    """Return the conversation after all events, without their effects."""
    conversation = beginning
    for event in events:
        conversation = advance(context, conversation, event).conversation
    return conversation
