"""What holds for all tests: no setting of the machine reaches them; and what makes them cheap."""

from __future__ import annotations

import gc
import os
import sys
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import bot.channels.telegram  # noqa: F401 - asks the messenger's library for `timedelta` first

if TYPE_CHECKING:
    from tests.shelf import Shelf

for _name in [name for name in os.environ if name.startswith("WALLSIDE_")]:
    del os.environ[_name]


# The program is compiled once, and not by each process that a test starts.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# Nearly all garbage goes without the collector, which else looks through 10,000 tests each time.
gc.set_threshold(50_000, 50, 100)


def pytest_sessionstart(session: pytest.Session) -> None:
    """Have each worker compile its share of the tests first, and find the rest compiled.

    What cannot be imported is told when it is collected.
    """
    worker = getattr(session.config, "workerinput", None)
    if worker is None or session.config.option.file_or_dir:
        return
    root = Path(__file__).parents[1]
    modules = [
        ".".join(path.relative_to(root).with_suffix("").parts)
        for path in sorted(root.glob("tests/**/test_*.py"))
    ]
    first = int(worker["workerid"].removeprefix("gw"))
    for module in modules[first :: worker["workercount"]]:
        with suppress(Exception):
            import_module(module)


def pytest_collection_finish() -> None:
    """Keep the collector from looking again at what stays until the end."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True)
def _no_settings(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Keep tests away from a data folder that somebody uses."""
    monkeypatch.setenv("WALLSIDE_FOLDER", str(tmp_path_factory.getbasetemp() / "nobody"))


@pytest.fixture(scope="session")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    """Return a place for stores."""
    from tests.shelf import Shelf

    return Shelf(tmp_path_factory.mktemp("shelf"))
