"""What holds for all tests: no setting of the machine reaches them."""

import os

import pytest

import bot.channels.telegram  # noqa: F401 - asks the messenger's library for `timedelta` first

for _name in [name for name in os.environ if name.startswith("WALLSIDE_")]:
    del os.environ[_name]


@pytest.fixture(autouse=True)
def _no_settings(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Keep tests away from a data folder that somebody uses."""
    monkeypatch.setenv("WALLSIDE_FOLDER", str(tmp_path_factory.getbasetemp() / "nobody"))
