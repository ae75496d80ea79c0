"""Runs the program: as a process of its own, or faster in this one."""

import contextlib
import io
import os
import subprocess
import sys
from pathlib import Path
from unittest import mock

from bot.cli import main

ROOT = Path(__file__).parents[2]


def _environment(folder: Path, more: dict[str, str]) -> dict[str, str]:
    environment = {
        name: value for name, value in os.environ.items() if not name.startswith("WALLSIDE_")
    }
    return environment | {"WALLSIDE_FOLDER": str(folder), "COLUMNS": "120", **more}


def wallside(*arguments: str, folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """Run the program as a process of its own, with a data folder of its own."""
    return subprocess.run(
        [sys.executable, "-m", "bot", *arguments],
        capture_output=True,
        text=True,
        env=_environment(folder, more),
        cwd=folder if folder.exists() else ROOT,
        timeout=120,
        check=False,
    )


def wallside_here(*arguments: str, folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """Run a command in this process: for those that set up no logs and start nothing."""
    out, err, code = io.StringIO(), io.StringIO(), 0
    with (
        mock.patch.dict(os.environ, _environment(folder, more), clear=True),
        mock.patch.object(sys, "argv", ["wallside", *arguments]),
        contextlib.chdir(folder if folder.exists() else ROOT),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
    ):
        try:
            main()
        except SystemExit as ended:
            code = ended.code if isinstance(ended.code, int) else int(bool(ended.code))
    return subprocess.CompletedProcess(arguments, code, out.getvalue(), err.getvalue())
