"""Whether the ratios are still what they were: a report, never a failure.

`python -m tests.bench --check`, a few seconds. It measures fewer people and rounds than what was
recorded (`recorded.json`, renewed by `python -m tests.bench --record`), in the same way each time.
"""

import asyncio
import json
import sys
import time
from pathlib import Path
from statistics import median
from typing import Final

from tests.bench.peers import aiogram_fsm, ptb, wallside
from tests.bench.rows import machine
from tests.bench.updates import measured

RECORDED: Final = Path(__file__).with_name("recorded.json")
_FEW: Final = 10
_MIDWAY: Final = 50
_WORSE: Final = 0.7
"""Below this part of the recorded ratio it is called slower; other work on the machine moves a
ratio of so few by as much as a quarter."""


def ratios() -> dict[str, float]:
    """Return how many times the updates of others we make, by what they cost the processor.

    By the clock it would be what else the machine does at the moment, in CI much.
    """
    kinds = (wallside.Wallside, aiogram_fsm.OnSqlite, aiogram_fsm.Memory, ptb.Memory)
    found, _ = asyncio.run(measured(kinds, _MIDWAY, group=_FEW, rounds=1))
    ours = found.pop(wallside.Wallside.kind.name)
    return {name: median(each.cpu) / median(ours.cpu) for name, each in found.items()}


def check() -> None:
    """Print how the ratios stand against those that were recorded."""
    begun = time.perf_counter()
    before = json.loads(RECORDED.read_text(encoding="utf-8"))
    lines = []
    for name, ratio in ratios().items():
        was = before["ratios"].get(name)
        if was is None:
            lines.append(f"  {name}: {ratio:.2f}, nothing recorded")
            continue
        verdict = "SLOWER" if ratio < _WORSE * was else "as before"
        lines.append(f"  {name}: {ratio:.2f}, recorded {was:.2f}: {verdict}")
    took = time.perf_counter() - begun
    title = f"Wallside's updates in those of others, by the processor ({machine()}; {took:.1f} s)"
    sys.stdout.write("\n".join((title, *lines)) + "\n")


def record() -> None:
    """Write the ratios down: each the median of three runs."""
    runs = [ratios() for _ in range(3)]
    middle = {name: round(median(run[name] for run in runs), 3) for name in runs[0]}
    body = json.dumps({"machine": machine(), "ratios": middle}, indent=1, ensure_ascii=False)
    RECORDED.write_text(body + "\n", encoding="utf-8")
