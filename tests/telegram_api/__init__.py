"""A small, faithful Telegram Bot API server to test against, and the people who write to it."""

from tests.telegram_api.chats import Button, ChatMessage, StoredFile, Toast, Version
from tests.telegram_api.faults import (
    FloodLimits,
    answer_lost_after_delivery,
    bad_request,
    connection_cut,
    forbidden,
    latency,
    server_error,
    too_many_requests,
)
from tests.telegram_api.person import Person
from tests.telegram_api.server import TOKEN, BotApiServer, BotApiServerThread, Call

__all__ = [
    "TOKEN",
    "BotApiServer",
    "BotApiServerThread",
    "Button",
    "Call",
    "ChatMessage",
    "FloodLimits",
    "Person",
    "StoredFile",
    "Toast",
    "Version",
    "answer_lost_after_delivery",
    "bad_request",
    "connection_cut",
    "forbidden",
    "latency",
    "server_error",
    "too_many_requests",
]
