"""Where the demo scripts are, and how they are played."""

from pathlib import Path

import pytest

from tests.shelf import Shelf

SCRIPTS = sorted((Path(__file__).parents[2] / "demo_scripts").glob("*.txt"))


@pytest.fixture(scope="session")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    """Return a place for stores."""
    return Shelf(tmp_path_factory.mktemp("journeys"))


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Give every demo script to the tests that ask for one."""
    if "script_path" in metafunc.fixturenames:
        metafunc.parametrize("script_path", SCRIPTS, ids=[path.stem for path in SCRIPTS])
