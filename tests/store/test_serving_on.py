"""A desk at work goes on when its database is restarted and when its keys are changed."""

import asyncio
from datetime import timedelta
from pathlib import Path

from bot.bootstrap import desk_for
from bot.engine.context import Context
from bot.engine.events import Opened, WordsGiven
from bot.runtime.clock import SystemClock
from bot.runtime.desk import Desk
from bot.runtime.ports import Inbound
from bot.store import open_store
from bot.store.bells import bell_of
from bot.store.keys import KEY_FILE, GivenKeys, KeyFile, new_key
from bot.store.leadership import ServerLeadership
from bot.store.rotation import rotate
from bot.testing.channel import KeepingChannel
from tests.store.server import PostgresServer


async def says(desk: Desk, number: int, text: str, address: str = "test:1") -> None:
    """Let somebody type something; the first time they open the chat."""
    at = SystemClock().now()
    event = WordsGiven(at=at, text=text, source="1") if number else Opened(at=at)
    await desk.take(Inbound(key=f"{address}:{number}", address=address, event=event))


async def sent(channel: KeepingChannel, part: str) -> None:
    """Wait until a message holding some words was sent."""
    async with asyncio.timeout(20):
        while not any(part in bubble.text for _, bubble in channel.sent):
            await asyncio.sleep(0.01)


async def test_database_restarted_in_the_middle(server: PostgresServer) -> None:
    """What arrives meanwhile is not acknowledged before it is durable, and nothing is lost.

    Its health says so meanwhile; afterwards the same desk leads again, and sends, each thing once.
    """
    with server.schema() as url:
        store, channel = open_store(url, GivenKeys(new_key())), KeepingChannel()
        lead = ServerLeadership(store.engine, "outbox", silence=timedelta(seconds=2))
        bell = bell_of(store.engine)
        desk = desk_for(store, channel, SystemClock(), Context(), leadership=lead, bell=bell)
        async with desk.at_work():
            await says(desk, 0, "")
            await sent(channel, "How old are you")
            await asyncio.to_thread(server.stop)
            taking = asyncio.create_task(says(desk, 1, "43"))
            assert any("store" in wrong for wrong in await desk.unwell())
            assert b"wallside_store_answers 0.0" in await desk.figures()
            assert not taking.done()
            await asyncio.to_thread(server.start)
            await asyncio.wait_for(taking, timeout=20)
            await sent(channel, "next to the bed")
            async with asyncio.timeout(20):
                while not desk.leading or await desk.unwell():
                    await asyncio.sleep(0.05)
        store.close()
    texts = [bubble.text for _, bubble in channel.sent]
    assert len(texts) == len(set(texts)), "each once"


async def test_keys_changed_while_it_serves(tmp_path: Path) -> None:
    """New keys for everything are noticed; who writes meanwhile notices nothing."""
    path, source = tmp_path / "a.sqlite3", KeyFile(tmp_path / KEY_FILE)
    store, channel = open_store(path, source), KeepingChannel()
    desk = desk_for(store, channel, SystemClock(), Context())
    async with desk.at_work():
        await says(desk, 0, "")
        (old,) = source.load(make=False)
        new = new_key()
        source.write((new, old))
        rotating = open_store(path, source)
        await asyncio.to_thread(rotate, rotating.engine)
        rotating.close()
        source.write((new,))
        await says(desk, 1, "43")
        await says(desk, 0, "", "test:2")
        await sent(channel, "next to the bed")
        assert await desk.unwell() == []
    assert len(list(store.conversations())) == 2
    store.close()
