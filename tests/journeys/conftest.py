"""Where the demo scripts are, and how they are played."""

from pathlib import Path

import pytest

SCRIPTS = sorted((Path(__file__).parents[2] / "demo_scripts").glob("*.txt"))


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Give every demo script to the tests that ask for one."""
    if "script_path" in metafunc.fixturenames:
        metafunc.parametrize("script_path", SCRIPTS, ids=[path.stem for path in SCRIPTS])
