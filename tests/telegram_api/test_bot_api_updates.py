"""Updates stay until confirmed, come again until then, and arrive at once."""

from __future__ import annotations

import asyncio
import time
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

import pytest
import telegram

from tests.telegram_api import BotApiServer, BotApiServerThread, Person

if TYPE_CHECKING:
    import aiogram


async def test_an_update_comes_again_until_a_higher_offset_confirms_it(
    robin: Person, ptb: telegram.Bot, grams: aiogram.Bot
) -> None:
    """Fetching confirms nothing, whoever fetches; only asking beyond an update does."""
    for text in ("one", "two", "three"):
        robin.writes(text)
    first = await ptb.get_updates(timeout=0)
    again = await grams.get_updates(timeout=0)
    assert [u.update_id for u in first] == [u.update_id for u in again]
    first_id = first[0].update_id
    assert [u.update_id - first_id for u in first] == [0, 1, 2]
    second = await ptb.get_updates(offset=first[0].update_id + 1, timeout=0)
    assert [u.effective_message.text for u in second if u.effective_message] == ["two", "three"]
    assert len(await ptb.get_updates(timeout=0)) == 2
    assert await ptb.get_updates(offset=first[2].update_id + 1, timeout=0) == ()
    assert await ptb.get_updates(timeout=0) == ()


async def test_an_offset_far_ahead_confirms_nothing(robin: Person, ptb: telegram.Bot) -> None:
    """An offset from another numbering is taken as no offset at all."""
    robin.writes("one")
    (update,) = await ptb.get_updates(offset=2_000_000_000, timeout=0)
    assert (await ptb.get_updates(timeout=0))[0].update_id == update.update_id


async def test_a_negative_offset_forgets_all_but_the_last(robin: Person, ptb: telegram.Bot) -> None:
    """Offset -1 gives the newest update and drops the older ones for good."""
    for text in ("one", "two", "three"):
        robin.writes(text)
    (last,) = await ptb.get_updates(offset=-1, timeout=0)
    assert last.message is not None
    assert last.message.text == "three"
    assert len(await ptb.get_updates(timeout=0)) == 1


async def test_limit_bounds_a_batch(robin: Person, ptb: telegram.Bot) -> None:
    """No more updates come at once than were asked for."""
    for number in range(5):
        robin.writes(str(number))
    assert len(await ptb.get_updates(limit=2, timeout=0)) == 2


async def test_allowed_updates_choose_what_is_queued_from_then_on(
    robin: Person, ptb: telegram.Bot
) -> None:
    """The choice holds until changed, touches no earlier update, and an empty one resets it."""
    robin.blocks()
    robin.unblocks()
    assert len(await ptb.get_updates(allowed_updates=["message"], timeout=0)) == 2
    robin.blocks()
    robin.unblocks()
    assert len(await ptb.get_updates(timeout=0)) == 2
    await ptb.get_updates(allowed_updates=[], timeout=0)
    robin.blocks()
    assert len(await ptb.get_updates(timeout=0)) == 3


async def test_a_long_poll_wakes_as_soon_as_something_happens(
    robin: Person, grams: aiogram.Bot
) -> None:
    """A waiting poller has the update within a fraction of its timeout."""
    poll = asyncio.create_task(grams.get_updates(timeout=30))
    await asyncio.sleep(0.05)
    assert not poll.done()
    written_at = time.monotonic()
    robin.writes("118/76")
    (update,) = await poll
    assert time.monotonic() - written_at < 0.25
    assert update.message is not None
    assert update.message.text == "118/76"


async def test_a_long_poll_without_news_ends_empty(grams: aiogram.Bot) -> None:
    """When the timeout passes, the answer is an empty list, not before."""
    began_at = time.monotonic()
    assert await grams.get_updates(timeout=1) == []
    assert 0.9 < time.monotonic() - began_at < 2


async def test_a_second_poller_ends_the_first(
    robin: Person, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """The one that waited gets 409; the newcomer gets the updates."""
    from aiogram.exceptions import TelegramConflictError

    first = asyncio.create_task(grams.get_updates(timeout=30))
    await asyncio.sleep(0.05)
    second = asyncio.create_task(ptb.get_updates(timeout=30))
    with pytest.raises(TelegramConflictError, match="terminated by other getUpdates request"):
        await first
    robin.writes("hello")
    assert len(await second) == 1


async def test_an_update_can_be_delivered_twice(
    server: BotApiServer, robin: Person, ptb: telegram.Bot
) -> None:
    """A repeated update comes under its old number, confirmed though it was, and wakes a poll."""
    robin.writes("118/76")
    (update,) = await ptb.get_updates(timeout=0)
    poll = asyncio.create_task(ptb.get_updates(offset=update.update_id + 1, timeout=30))
    await asyncio.sleep(0.05)
    server.redeliver_last()
    (repeated,) = await poll
    assert repeated.to_dict() == update.to_dict()
    assert await ptb.get_updates(offset=update.update_id + 1, timeout=0) == ()


async def test_stopping_the_server_ends_a_long_poll() -> None:
    """A poller that waits when the server stops gets an answer, and stopping takes no time."""
    async with BotApiServer() as server:
        bot = telegram.Bot(server.token, base_url=server.base_url)
        await bot.initialize()
        poll = asyncio.create_task(bot.get_updates(timeout=30))
        await asyncio.sleep(0.05)
        stopped_at = time.monotonic()
    with pytest.raises(telegram.error.NetworkError, match="restart"):
        await poll
    assert time.monotonic() - stopped_at < 1
    await bot.shutdown()


def test_the_server_runs_on_a_thread_of_its_own() -> None:
    """A test without an event loop can play a person against a bot elsewhere, and wait for it."""

    async def answer_one(base_url: str, token: str) -> None:
        async with telegram.Bot(token, base_url=base_url) as bot:
            (update,) = await bot.get_updates(timeout=10)
            assert update.effective_chat is not None
            await bot.send_message(update.effective_chat.id, "Hello.")

    with BotApiServerThread() as server:
        robin = server.person()
        robin.writes("/start")
        asyncio.run(answer_one(server.base_url, server.token))
        assert robin.wait_for(lambda person: person.finds("Hello")).text == "Hello."
        with pytest.raises(AssertionError, match=r"not within 0.01 s(?s:.*)bot: Hello"):
            robin.wait_for(lambda person: person.finds("Goodbye"), timeout=0.01)


def test_a_waiting_thread_wakes_as_soon_as_the_person_sees_something() -> None:
    """Waiting ends with the message waited for, long before the timeout."""

    async def say(base_url: str, token: str, chat_id: int) -> float:
        async with telegram.Bot(token, base_url=base_url) as bot:
            await asyncio.sleep(0.1)
            await bot.send_message(chat_id, "Stand up.")
            return time.monotonic()

    with BotApiServerThread() as server, ThreadPoolExecutor(1) as thread:
        robin = server.person()
        robin.writes("/start")
        said = thread.submit(lambda: asyncio.run(say(server.base_url, server.token, robin.chat_id)))
        robin.wait_for(lambda person: person.finds("Stand up"), timeout=20)
        assert time.monotonic() - said.result() < 1


def test_people_on_many_threads_lose_no_update() -> None:
    """Whatever threads write at once, every update arrives once, numbered without a gap."""

    async def fetch_all(base_url: str, token: str, count: int) -> list[telegram.Update]:
        updates: list[telegram.Update] = []
        async with telegram.Bot(token, base_url=base_url) as bot:
            while len(updates) < count:
                offset = updates[-1].update_id + 1 if updates else None
                updates += await bot.get_updates(offset=offset, timeout=5)
        return updates

    with BotApiServerThread() as server, ThreadPoolExecutor(8) as threads:
        people = [server.person(6000 + number) for number in range(8)]

        def write_much(person: Person) -> None:
            for number in range(40):
                person.writes(str(number))

        writing = [threads.submit(write_much, person) for person in people]
        updates = asyncio.run(fetch_all(server.base_url, server.token, 320))
        for written in writing:
            written.result()
    first_id = updates[0].update_id
    assert [update.update_id - first_id for update in updates] == list(range(320))
    for person in people:
        texts = [
            u.message.text for u in updates if u.message and u.message.chat_id == person.chat_id
        ]
        assert texts == [str(number) for number in range(40)]


async def test_a_coroutine_waits_for_the_person_to_see_something(
    robin: Person, ptb: telegram.Bot
) -> None:
    """Waiting on the loop lets the bot answer; waiting by blocking it is refused."""
    waiting = asyncio.create_task(robin.until(lambda person: person.finds("Rest")))
    await asyncio.sleep(0)
    await ptb.send_message(robin.chat_id, "Rest for a minute.")
    assert (await waiting).text == "Rest for a minute."
    with pytest.raises(RuntimeError, match=r"await person\.until"):
        robin.wait_for(lambda person: person.finds("Rest"))
    with pytest.raises(AssertionError, match="not within"):
        await robin.until(lambda person: person.finds("Goodbye"), timeout=0.01)
