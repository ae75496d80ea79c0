"""Whether the program is well, and its figures, over HTTP."""

import asyncio
import socket
import urllib.request
from pathlib import Path

import aiohttp
from prometheus_client.parser import text_string_to_metric_families

from bot.bootstrap import desk_for
from bot.channels.status import status_at
from bot.engine.context import Context
from bot.engine.events import Opened
from bot.runtime.clock import SystemClock
from bot.runtime.ports import Inbound
from bot.store import open_store
from bot.testing.channel import KeepingChannel
from tests.channels.serving import Serving
from tests.telegram_api.server import BotApiServerThread


async def test_health_and_figures_of_a_running_desk(tmp_path: Path) -> None:
    """At work it is well; the figures parse by Prometheus' own reader and count what happened."""
    store, clock = open_store(tmp_path / "wallside.sqlite3"), SystemClock()
    channel = KeepingChannel()
    desk = desk_for(store, channel, clock, Context())
    async with aiohttp.ClientSession() as web:
        async with (
            desk.at_work(),
            status_at(
                "127.0.0.1", 0, unwell=desk.unwell, figures=desk.figures, role=desk.role
            ) as port,
        ):
            at = f"http://127.0.0.1:{port}"
            async with web.get(f"{at}/health") as answer:
                assert (answer.status, await answer.json()) == (
                    200,
                    {"status": "well", "role": "leader", "wrong": []},
                )
            await desk.take(Inbound(key="k", address="test:1", event=Opened(at=clock.now())))
            async with asyncio.timeout(10):
                while not channel.sent:
                    await asyncio.sleep(0.01)
                async with web.get(f"{at}/metrics") as answer:
                    figures = await answer.text()
        assert "nothing is being sent" in await desk.unwell()
    samples = {
        (sample.name, *sorted(sample.labels.values())): sample.value
        for family in text_string_to_metric_families(figures)
        for sample in family.samples
    }
    assert samples["wallside_arrivals_total", "Opened"] == 1
    assert samples["wallside_outbox_waiting", "safety"] == 0
    assert "test:1" not in figures
    store.close()


async def test_an_unwell_program_says_what_is_wrong() -> None:
    """What is wrong is named, with a status that a supervisor understands."""

    async def unwell() -> list[str]:
        return ["the store does not answer"]

    async def figures() -> bytes:
        return b""

    async with (
        status_at("127.0.0.1", 0, unwell=unwell, figures=figures) as port,
        aiohttp.ClientSession() as web,
        web.get(f"http://127.0.0.1:{port}/health") as answer,
    ):
        assert answer.status == 503
        assert (await answer.json())["wrong"] == ["the store does not answer"]


def test_serve_answers_where_it_is_told_to(tmp_path: Path) -> None:
    """The real program says that it is well while Telegram answers, at the address that was set."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port = found.getsockname()[1]
    place = f"127.0.0.1:{port}"
    with (
        BotApiServerThread() as server,
        Serving(server, tmp_path, WALLSIDE_STATUS_LISTEN=place) as serving,
    ):
        person = server.person()
        person.writes("/start")
        person.wait_for(lambda p: p.replies, timeout=20)
        with urllib.request.urlopen(f"http://{place}/health", timeout=5) as answer:
            assert answer.status == 200
        with urllib.request.urlopen(f"http://{place}/metrics", timeout=5) as answer:
            figures = answer.read().decode()
        assert serving.stop() == 0
    assert 'wallside_arrivals_total{kind="Opened"} 1.0' in figures
    assert str(person.chat_id) not in figures
