"""The command line."""

import os
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime, timedelta
from importlib.metadata import version
from pathlib import Path

from typer.core import TyperGroup
from typer.main import get_command
from typer.testing import CliRunner

from bot.bootstrap import missing, store_in
from bot.cli import ORDER, app
from bot.engine.profile import Profile
from bot.engine.state import Conversation
from bot.settings import Settings
from tests.cli.running import ROOT, wallside, wallside_here
from tests.reports.test_handout import words_of


def test_help_imports_nothing_heavy() -> None:
    """Asking for help loads no part that takes long to load."""
    heavy = ("sqlalchemy", "telegram", "apscheduler", "typst", "babel", "pydantic", "alembic")
    look = f"import sys, bot.cli; print([m for m in {heavy!r} if m in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-c", look], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "[]"


def test_serving_loads_only_what_it_needs_before_it_is_at_work() -> None:
    """What migrates, what is for the terminal, and what answers the web wait until asked for."""
    later = ("alembic", "prompt_toolkit", "aiohttp", "icalendar")
    look = f"import sys, bot.bootstrap; print([m for m in {later!r} if m in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-c", look], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "[]"


def test_help_names_every_command(tmp_path: Path) -> None:
    """The help lists what the program can do."""
    done = wallside_here("--help", folder=tmp_path)
    assert done.returncode == 0
    for command in ("play", "try", "serve", "check", "invite", "handout", "clear", "missing"):
        assert command in done.stdout


def test_play_leaves_summary_and_files(tmp_path: Path) -> None:
    """The main job runs without account, token or server and leaves its results in a folder."""
    done = wallside("play", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    folder = tmp_path / "wallside-results" / "clear-rise"
    kinds = sorted(path.suffix for path in folder.iterdir())
    assert kinds == [".csv", ".json", ".pdf", ".png", ".txt", ".txt"]
    assert "wallside-results/clear-rise" in done.stdout
    assert "Measure now" in done.stdout


def test_play_of_a_missing_script_says_so(tmp_path: Path) -> None:
    """A script that is not there is named, in one line."""
    done = wallside_here("play", "nowhere.txt", folder=tmp_path)
    assert done.returncode == 1
    assert "nowhere.txt" in done.stderr
    assert "Traceback" not in done.stderr


def test_serve_without_a_token_says_what_to_set(tmp_path: Path) -> None:
    """Serving without a token names the setting."""
    done = wallside("serve", folder=tmp_path)
    assert done.returncode == 1
    assert "WALLSIDE_TOKEN" in done.stderr


def test_invite_prints_link_code_and_picture(tmp_path: Path) -> None:
    """An invitation has a long code, the link that carries it, and the link as a QR picture.

    The handout has the same link, and a row for each reading of the protocol it names.
    """
    done = wallside_here(
        *("invite", "HS-7", "--protocol", "six-readings", "--handout", "HS-7.pdf"),
        folder=tmp_path,
        WALLSIDE_BOT_NAME="harbour_street_bot",
    )
    assert done.returncode == 0, done.stderr
    code = next(line.split()[1] for line in done.stdout.splitlines() if line.startswith("Code"))
    assert len(code) >= 32
    assert f"https://t.me/harbour_street_bot?start={code}" in done.stdout
    assert "█" in done.stdout or "▀" in done.stdout
    table = words_of((tmp_path / "HS-7.pdf").read_bytes())[1]
    assert f"https://t.me/harbour_street_bot?start={code}" in table
    assert "Standing,1min" in table
    again = wallside_here("invite", "HS-7", folder=tmp_path, WALLSIDE_BOT_NAME="harbour_street_bot")
    assert again.returncode == 1
    assert "HS-7" in again.stderr


def test_invite_without_the_bots_name_says_what_to_set(tmp_path: Path) -> None:
    """The link needs the bot's name."""
    done = wallside_here("invite", "HS-7", folder=tmp_path)
    assert done.returncode == 1
    assert "WALLSIDE_BOT_NAME" in done.stderr


def test_clear_of_nobody_says_so(tmp_path: Path) -> None:
    """A reference that nobody has is named."""
    done = wallside_here("clear", "HS-9", "--by", "Dr Lind", folder=tmp_path)
    assert done.returncode == 3
    assert "HS-9" in done.stderr


def test_missing_lists_whose_second_test_never_came(tmp_path: Path) -> None:
    """Only people whose watch ended without the second test are listed, by their reference."""
    settings = Settings(folder=tmp_path)
    assert missing(settings) == []
    over = datetime(2026, 4, 30, 10, tzinfo=UTC)
    people = {
        "one": Profile(reference="HS-0042", second_missing_since=over),
        "two": Profile(reference="HS-0043"),
        "abcdef0123456789": Profile(second_missing_since=over - timedelta(days=1)),
    }
    with closing(store_in(tmp_path)) as store:
        for name, profile in people.items():
            with store.unit() as unit:
                unit.add(Conversation(id=name, locale="en", profile=profile), name, over)
    assert missing(settings) == [("abcdef01", over - timedelta(days=1)), ("HS-0042", over)]


def test_wrong_setting_is_named(tmp_path: Path) -> None:
    """A setting that cannot be used is named, whatever the command."""
    for setting, value in (("WALLSIDE_PROTOCOL", "nine"), ("WALLSIDE_SPEED", "fast")):
        done = wallside_here("check", folder=tmp_path, **{setting: value})
        assert done.returncode == 1
        assert setting.lower().removeprefix("wallside_") in done.stdout.lower()


def test_check_says_all_is_in_order(tmp_path: Path) -> None:
    """On a fresh machine everything is in order, and the check writes nothing."""
    done = wallside_here("check", folder=tmp_path / "new")
    assert done.returncode == 0, done.stdout
    assert not (tmp_path / "new").exists()


def test_check_finds_a_database_of_a_newer_program(tmp_path: Path) -> None:
    """A database that does not fit is found before anything is started."""
    import sqlite3
    from contextlib import closing

    from bot.bootstrap import DATABASE
    from bot.store import open_store

    open_store(tmp_path / DATABASE).close()
    with closing(sqlite3.connect(tmp_path / DATABASE)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
    done = wallside_here("check", folder=tmp_path)
    assert done.returncode == 1
    assert "newer Wallside" in done.stdout


class Terminal:
    """A person at `wallside try`, who reads before they type."""

    def __init__(self, folder: Path) -> None:
        environment = {**os.environ, "WALLSIDE_FOLDER": str(folder), "COLUMNS": "120"}
        self._process = subprocess.Popen(
            [sys.executable, "-u", "-m", "bot", "try", "--speed", "2"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env=environment,
            cwd=folder,
        )
        self.seen = ""

    def reads(self, words: str) -> None:
        """Read until a line holds some words."""
        assert self._process.stdout is not None
        for line in self._process.stdout:
            self.seen += line
            if words in line:
                return
        raise AssertionError(f"{words!r} never came:\n{self.seen}")

    def types(self, line: str) -> None:
        """Type one line."""
        assert self._process.stdin is not None
        self._process.stdin.write(line + "\n")
        self._process.stdin.flush()

    def leaves(self) -> None:
        """Leave, and wait for the end."""
        out, _ = self._process.communicate("/leave\n", timeout=60)
        self.seen += out
        assert self._process.returncode == 0


def test_try_goes_on_where_it_was(tmp_path: Path) -> None:
    """Buttons are numbered; leaving and starting again finds the test at the same step."""
    first = Terminal(tmp_path)
    first.reads("[3 20 or over]")
    first.types("3")
    first.reads("[1 I am ready]")
    first.types("1")
    first.reads("[1 I am lying down]")
    first.types("i am lying down")
    first.reads("Your 5 min have started")
    first.leaves()
    second = Terminal(tmp_path)
    second.reads("Step 1 of 3: lying down.")
    second.leaves()
    assert "How old are you" not in second.seen


def test_play_keeps_the_results_of_a_spanish_script(tmp_path: Path) -> None:
    """A client's language with its country, as in es-MX, is no reason to lose the results."""
    done = wallside("play", str(ROOT / "demo_scripts" / "subida-clara.txt"), folder=tmp_path)
    assert done.returncode == 0, done.stderr
    assert list((tmp_path / "wallside-results" / "subida-clara").glob("*.pdf"))


def test_help_begins_with_seeing_it_and_running_it() -> None:
    """Every command stands in the order of use, and none is left out of it."""
    whole = get_command(app)
    assert isinstance(whole, TyperGroup)
    assert whole.list_commands(whole.make_context("wallside", [], resilient_parsing=True)) == [
        *ORDER
    ]


def test_it_says_which_version_it_is() -> None:
    """The number is that of the installed package."""
    said = CliRunner().invoke(app, ["--version"])
    assert (said.exit_code, said.stdout) == (0, f"wallside {version('wallside')}\n")
