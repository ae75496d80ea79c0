"""Starting and ending: asked to end at any moment, the program ends well."""

import json
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

import pytest

from bot.bootstrap import DATABASE, serve
from bot.errors import SettingsError
from bot.settings import Settings
from bot.store import open_store
from bot.store.leadership import leadership
from tests.channels.serving import Serving
from tests.channels.test_webhook import a_free_port
from tests.telegram_api.server import TOKEN


class Nowhere:
    """A Bot API at which nobody answers."""

    url = f"http://127.0.0.1:{a_free_port()}"


def health(port: int) -> dict[str, Any]:
    """Return what the program says of itself; nothing while it does not answer."""
    try:
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/health", timeout=5) as answer:
            said: dict[str, Any] = json.load(answer)
    except urllib.error.HTTPError as error:
        said = json.load(error)
    except OSError:
        said = {}
    return said


def test_asked_to_end_while_the_messenger_cannot_be_reached(tmp_path: Path) -> None:
    """It leads, keeps time, says what is wrong, and ends with 0 when it is asked to."""
    port = a_free_port()
    place = f"127.0.0.1:{port}"
    nowhere: Any = Nowhere()
    with Serving(nowhere, tmp_path, WALLSIDE_STATUS_LISTEN=place) as serving:
        until = time.monotonic() + 60
        while not (said := health(port)):
            assert time.monotonic() < until
            time.sleep(0.1)
        assert said == {
            "status": "unwell",
            "role": "leader",
            "wrong": ["Telegram does not answer"],
        }
        assert serving.stop() == 0


def test_asked_to_end_while_it_begins(tmp_path: Path) -> None:
    """As soon as any of our code runs, SIGTERM ends `serve` with 0: nothing has begun yet."""
    program = (
        "import os, signal, sys\n"
        "class Asked:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        "        if name == 'bot.bootstrap':\n"
        "            os.kill(os.getpid(), signal.SIGTERM)\n"
        "sys.meta_path.insert(0, Asked())\n"
        "sys.argv = ['wallside', 'serve']\n"
        "from bot.__main__ import run\n"
        "run()\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        env={"PATH": "", "WALLSIDE_TOKEN": TOKEN, "WALLSIDE_FOLDER": str(tmp_path)},
        cwd=Path(__file__).parents[2],
        timeout=60,
        check=False,
    )
    assert done.returncode == 0
    assert list(tmp_path.iterdir()) == []


async def test_a_second_one_on_the_same_file_is_refused_kindly(tmp_path: Path) -> None:
    """A SQLite file is for one process; who starts another is told what can be done instead."""
    store = open_store(tmp_path / DATABASE)
    lead = leadership(store.engine, "outbox")
    assert lead.acquire()
    with pytest.raises(SettingsError, match=r"at work on .*Stop it first.*PostgreSQL"):
        await serve(Settings(folder=tmp_path, token=TOKEN))  # type: ignore[arg-type]
    lead.release()
    store.close()
