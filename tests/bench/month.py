"""A clinic's month at scale: `python -m tests.bench.month`.

500 people, 5 coordinators and 30 days in virtual time, through the real conductor and a real
SQLite store. At the end the board's numbers are held against the event log and the audit log
alone; it ends with 1 if they differ, or if the month took longer than it may.
"""

import sys
import tempfile
import time
from pathlib import Path
from typing import Final

import typer
from rich.console import Console
from rich.table import Table

from bot.care.board import counts
from tests.care.month import Month
from tests.care.recount import blocked, recounted
from tests.shelf import Shelf

MAY_TAKE_S: Final = 120.0
"""Seconds of one core for the month; what else the machine does takes no part in it."""


def main(people: int = 500, members: int = 5, days: int = 30, seed: int = 1) -> None:
    """Play the month and print what it came to."""
    with tempfile.TemporaryDirectory() as folder:
        month = Month(
            Shelf(Path(folder)).fresh(), people=people, members=members, days=days, seed=seed
        )
        began, began_wall = time.process_time(), time.monotonic()
        weeks = month.run()
        took, wall = time.process_time() - began, time.monotonic() - began_wall
        began = time.process_time()
        standings = month.standings()
        board_took = time.process_time() - began
        again, shut = recounted(month.store, month.context), blocked(month.store)
        month.store.close()
    found = counts(standings, month.now)
    table = Table("place", "now", "so far", title=f"{people} people, {days} days")
    for place, count in found.items():
        table.add_row(place, str(count.here), str(count.reached))
    console = Console()
    console.print(table)
    steps = weeks.events + weeks.alarms
    console.print(f"{weeks.events} events, {weeks.alarms} alarms, {weeks.messages} messages")
    console.print(
        f"{took:.1f} s of one core ({wall:.1f} s by the clock), {steps / took:.0f} steps/s"
    )
    console.print(f"the board of {len(standings)} people: {board_took * 1000:.0f} ms of one core")
    shown = {one.facts.reference: (one.place.value, one.since) for one in standings}
    differ = [name for name in again.keys() | shown.keys() if again.get(name) != shown.get(name)]
    console.print(f"the log alone says the same of all but {len(differ)}: {differ[:5]}")
    known = {str(o.facts.id): o.facts.blocked_at for o in standings if o.facts.blocked_at}
    console.print(f"{weeks.refused} messages refused; {len(known)} people have blocked the bot")
    differ += known.keys() ^ shut.keys()
    sys.exit(1 if differ or took > MAY_TAKE_S else 0)


if __name__ == "__main__":
    typer.run(main)
