"""Trouble looks to both clients like the platform's own."""

from __future__ import annotations

import asyncio
import time
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
import telegram

from tests.telegram_api import (
    BotApiServer,
    FloodLimits,
    Person,
    answer_lost_after_delivery,
    bad_request,
    connection_cut,
    forbidden,
    latency,
    server_error,
    too_many_requests,
)
from tests.telegram_api.faults import Fault, Faults

if TYPE_CHECKING:
    import aiogram

FAULTS: list[tuple[Fault, type[Exception], str]] = [
    (too_many_requests(7), telegram.error.RetryAfter, "TelegramRetryAfter"),
    (forbidden(), telegram.error.Forbidden, "TelegramForbiddenError"),
    (
        bad_request("Bad Request: chat not found"),
        telegram.error.BadRequest,
        "TelegramBadRequest",
    ),
    (server_error(502), telegram.error.NetworkError, "TelegramServerError"),
    (connection_cut(), telegram.error.NetworkError, "TelegramNetworkError"),
    (answer_lost_after_delivery(), telegram.error.NetworkError, "TelegramNetworkError"),
]


@pytest.mark.parametrize(
    "planned", FAULTS, ids=["429", "403", "400", "502", "connection cut", "answer lost"]
)
async def test_each_client_raises_its_own_error_for_a_fault(
    server: BotApiServer,
    robin: Person,
    ptb: telegram.Bot,
    grams: aiogram.Bot,
    planned: tuple[Fault, type[Exception], str],
) -> None:
    """A fault befalls as many calls as planned, each client names it, and then all is well."""
    from aiogram import exceptions

    fault, ours, theirs = planned
    server.faults.add(method="sendMessage", kind=fault, times=2)
    with pytest.raises(ours) as raised:
        await ptb.send_message(robin.chat_id, "Hi")
    assert type(raised.value) is ours
    with pytest.raises(getattr(exceptions, theirs)):
        await grams.send_message(robin.chat_id, "Hi")
    assert server.faults.left == 0
    await ptb.send_message(robin.chat_id, "Hi")


async def test_a_pause_is_asked_for_in_seconds(
    server: BotApiServer, robin: Person, ptb: telegram.Bot, grams: aiogram.Bot
) -> None:
    """Both clients read the same `retry_after`."""
    from aiogram import exceptions

    server.faults.add(kind=too_many_requests(7), times=2)
    with pytest.raises(telegram.error.RetryAfter) as ours:
        await ptb.send_message(robin.chat_id, "Hi")
    with pytest.raises(exceptions.TelegramRetryAfter) as theirs:
        await grams.send_message(robin.chat_id, "Hi")
    assert ours.value.retry_after == timedelta(seconds=7)
    assert theirs.value.retry_after == 7


async def test_a_lost_answer_leaves_the_message_delivered(
    server: BotApiServer, robin: Person, ptb: telegram.Bot
) -> None:
    """The bot sees a broken connection, the person the message; a cut one delivers nothing."""
    server.faults.add(kind=answer_lost_after_delivery())
    with pytest.raises(telegram.error.NetworkError):
        await ptb.send_message(robin.chat_id, "Sit up.")
    assert [message.text for message in robin.replies] == ["Sit up."]
    lost = server.calls[-1]
    assert lost.status is None
    assert lost.body is not None
    assert lost.body["result"]["text"] == "Sit up."
    server.faults.add(kind=connection_cut())
    with pytest.raises(telegram.error.NetworkError):
        await ptb.send_message(robin.chat_id, "Stand up.")
    assert len(robin.replies) == 1
    assert server.calls[-1].body is None


async def test_a_lost_batch_of_updates_comes_again(
    server: BotApiServer, robin: Person, ptb: telegram.Bot
) -> None:
    """Updates whose answer was lost are still there."""
    robin.writes("118/76")
    server.faults.add(method="getUpdates", kind=answer_lost_after_delivery())
    with pytest.raises(telegram.error.NetworkError):
        await ptb.get_updates(timeout=0)
    assert len(await ptb.get_updates(timeout=0)) == 1


async def test_a_slow_answer_times_out_yet_the_message_arrives(
    server: BotApiServer, robin: Person, ptb: telegram.Bot
) -> None:
    """A client that stops waiting sees TimedOut; the platform goes on regardless."""
    server.faults.add(method="sendMessage", kind=latency(0.3))
    with pytest.raises(telegram.error.TimedOut):
        await ptb.send_message(robin.chat_id, "Hi", read_timeout=0.05)
    await robin.until(lambda person: person.finds("Hi"))


async def test_latency_combines_with_another_fault(
    server: BotApiServer, robin: Person, ptb: telegram.Bot
) -> None:
    """A call can be slow and then fail."""
    server.faults.add(kind=latency(0.15))
    server.faults.add(kind=server_error(500))
    began_at = time.monotonic()
    with pytest.raises(telegram.error.NetworkError, match="Internal Server Error"):
        await ptb.send_message(robin.chat_id, "Hi")
    assert time.monotonic() - began_at >= 0.15


async def test_a_fault_can_befall_one_chat_alone(
    server: BotApiServer, robin: Person, ptb: telegram.Bot
) -> None:
    """Other chats, and other methods, go on undisturbed."""
    other = server.person(5002, "Kim")
    other.writes("/start")
    server.faults.add(method="sendMessage", kind=forbidden(), times=None, chat_id=other.chat_id)
    await ptb.send_message(robin.chat_id, "Hi")
    assert await ptb.send_chat_action(other.chat_id, "typing")
    for _ in range(2):
        with pytest.raises(telegram.error.Forbidden):
            await ptb.send_message(other.chat_id, "Hi")
    server.faults.clear()
    await ptb.send_message(other.chat_id, "Hi")


def test_faults_are_used_up_in_the_order_they_were_added() -> None:
    """The first planned fault that fits a call is the one that befalls it."""
    faults = Faults()
    first, second = too_many_requests(1), server_error(504)
    faults.add(kind=first, method="sendMessage")
    faults.add(kind=second)
    assert faults.take("getMe", "") == (0.0, second)
    assert faults.take("sendMessage", "5") == (0.0, first)
    assert faults.take("sendMessage", "5") == (0.0, None)


async def test_someone_who_blocked_the_bot_is_out_of_reach(
    robin: Person, ptb: telegram.Bot
) -> None:
    """Sending gives 403 while blocked, and works again after."""
    robin.blocks()
    for attempt in (ptb.send_message, ptb.send_chat_action):
        with pytest.raises(telegram.error.Forbidden, match="bot was blocked by the user"):
            await attempt(robin.chat_id, "typing")
    robin.unblocks()
    await ptb.send_message(robin.chat_id, "Welcome back.")


class TestFloodLimits:
    async def test_a_chat_takes_a_short_burst_and_then_one_message_a_second(self) -> None:
        """Beyond the burst, 429 says how long to wait; waiting that long is enough."""
        now = 0.0
        limits = FloodLimits(clock=lambda: now, burst=3)
        async with BotApiServer(flood_limits=limits) as server:
            robin = server.person()
            robin.writes("/start")
            async with telegram.Bot(server.token, base_url=server.base_url) as bot:
                for number in range(3):
                    await bot.send_message(robin.chat_id, str(number))
                with pytest.raises(telegram.error.RetryAfter, match="Retry in 0:00:01"):
                    await bot.send_message(robin.chat_id, "too soon")
                await bot.get_me()
                now = 1.0
                await bot.send_message(robin.chat_id, "in time")
        assert [message.text for message in robin.replies] == ["0", "1", "2", "in time"]
        assert limits.refused == {str(robin.chat_id): 1}

    async def test_all_chats_together_take_thirty_a_second(self) -> None:
        """The thirty-first chat within a second has to wait, though it got nothing yet."""
        limits = FloodLimits(clock=lambda: 0.0)
        async with BotApiServer(flood_limits=limits) as server:
            people = [server.person(6000 + number) for number in range(31)]
            for person in people:
                person.writes("/start")
            async with telegram.Bot(server.token, base_url=server.base_url) as bot:
                sends = (bot.send_message(person.chat_id, "Hi") for person in people)
                results = await asyncio.gather(*sends, return_exceptions=True)
        refused = [r for r in results if isinstance(r, telegram.error.RetryAfter)]
        assert len(refused) == 1
        assert sum(len(person.replies) for person in people) == 30
