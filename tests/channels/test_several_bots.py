"""Several bots in one process: each clinic's data apart, and no bot ended by another's trouble."""

import asyncio
import re
from contextlib import suppress
from pathlib import Path

import pytest

from bot.bootstrap import DATABASE, serve
from bot.errors import SettingsError
from bot.settings import Settings, load_bots
from bot.store import open_store
from tests.telegram_api.server import TOKEN, BotApiServer

OTHER_TOKEN = "987654321:AAEhBOweik6ad9r_QXMENQjcrGbqCr4K-bc"


def write(folder: Path, name: str, *lines: str) -> None:
    """Write the file of a bot."""
    text = "\n".join(f"WALLSIDE_{line}" for line in lines)
    (folder / f"{name}.env").write_text(text, encoding="utf-8")


async def test_each_bot_has_its_own_and_one_that_fails_ends_no_other(tmp_path: Path) -> None:
    """Two clinics are served side by side, beside a third whose token is unknown."""
    async with BotApiServer() as one, BotApiServer(token=OTHER_TOKEN) as other:
        for name, token, api in (
            ("harbour", TOKEN, one.url),
            ("hill", OTHER_TOKEN, other.url),
            ("closed", "1:AAEhBOweik6ad9r_QXMENQjcrGbqCr4K-bc", one.url),
        ):
            own = (f"TOKEN={token}", f"FOLDER={tmp_path / name}", f"BOT_API={api}")
            write(tmp_path, name, *own, "OPENING=short")
        here, there = one.person(chat_id=5001), other.person(chat_id=6001)
        serving = asyncio.create_task(serve(Settings(bots=tmp_path)))
        here.writes("/start")
        there.writes("/start")
        await here.until(lambda p: p.finds("How old are you"), timeout=30)
        await there.until(lambda p: p.finds("How old are you"), timeout=30)
        serving.cancel()
        with suppress(asyncio.CancelledError):
            await serving
    for name, chat in (("harbour", 5001), ("hill", 6001)):
        store = open_store(tmp_path / name / DATABASE)
        with store.unit() as unit:
            found = [unit.load(f"telegram:{c}") is not None for c in (5001, 6001)]
        assert found == [c == chat for c in (5001, 6001)]
        assert len(store.conversations()) == 1
        store.close()


@pytest.mark.parametrize(
    ("second", "says"),
    [
        (("FOLDER=b",), "b.env lacks WALLSIDE_TOKEN"),
        (("TOKEN=1:a", "FOLDER=b"), "a.env and b.env have the same WALLSIDE_TOKEN"),
        (("TOKEN=2:b", "FOLDER=a"), "a.env and b.env have the same WALLSIDE_FOLDER"),
        (("TOKEN=2:b", "FOLDER=b", "SPEED=0"), "b.env: A setting cannot be used. WALLSIDE_SPEED"),
        (
            ("TOKEN=2:b", "FOLDER=b", "DATABASE=postgresql://u@h/d"),
            "a.env and b.env have the same WALLSIDE_DATABASE",
        ),
    ],
)
def test_what_two_bots_may_not_share_is_named(
    tmp_path: Path, second: tuple[str, ...], says: str
) -> None:
    """The files and the setting are named, before anything is served."""
    write(tmp_path, "a", "TOKEN=1:a", "FOLDER=a", "DATABASE=postgresql://u@h/d")
    write(tmp_path, "b", *second)
    with pytest.raises(SettingsError, match=re.escape(says)):
        load_bots(tmp_path)


def test_a_folder_without_bots_is_named(tmp_path: Path) -> None:
    """Who names the wrong folder is told which."""
    with pytest.raises(SettingsError, match=r"no file NAME\.env is there"):
        load_bots(tmp_path)
