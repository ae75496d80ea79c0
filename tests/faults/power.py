"""The power goes: what SQLite's files hold at that instant is all that is left.

The process is stopped, so that the copy shows one instant. All that was acknowledged before has
to be in the copy. What was under way may be there in part: when the last commit is one that
nobody was told of, its bytes in the log are torn at a random point as well, and what follows is
noise, since nothing had yet been synced.
"""

import shutil
import time
from contextlib import closing
from pathlib import Path
from random import Random
from typing import Final

from bot.bootstrap import DATABASE
from tests.faults.journal import Seen, seen_in
from tests.faults.judge import Verdict, at_the_time, judge
from tests.faults.kills import PEOPLE, Campaign, campaign
from tests.faults.places import SQLITE, a_folder, opened
from tests.faults.wal import commits_in, tear

_LONGEST_S: Final = 0.12


def lose_power(rounds: int, seed: int, *, people: int = PEOPLE) -> tuple[Verdict, int]:
    """Copy the files at random moments, and look at each copy.

    Returns:
        What was wrong, and how many of the copies were torn.
    """
    chance = Random(f"power/{seed}")
    found, copies, torn, number = Verdict(), 0, 0, seed
    while copies < rounds:
        number += 1
        with campaign(SQLITE, None, number, people) as here:
            child = here.start()
            while copies < rounds and not child.ended():
                time.sleep(chance.uniform(0, _LONGEST_S))
                child.stop()
                if child.status is not None:
                    break
                verdict, cut = _copied(here, chance, f"store {number}, copy {copies + 1}")
                found, copies, torn = found + verdict, copies + 1, torn + cut
                child.go_on()
            child.kill()
    return found, torn


def _copied(here: Campaign, chance: Random, when: str) -> tuple[Verdict, int]:
    assert isinstance(here.where, Path)
    seen = seen_in(here.journal)
    with a_folder() as folder:
        whole = _copy(here.where, folder / "whole")
        verdict = at_the_time(_look(whole, here, seen), when)
        open_end = [what for what in seen.begun if what.startswith("take ")]
        if not open_end or not _has(whole, open_end[0], here):
            return verdict, 0
        # The last commit is of what nobody was told of: it may be on the disk in part only.
        part = _copy(here.where, folder / "part")
        log = part.with_name(f"{part.name}-wal")
        commits = commits_in(log)
        if not commits:
            return verdict, 0
        begins, ends = commits[-1]
        at = chance.randrange(ends - begins)
        tear(log, begins, ends, at, chance.randbytes(ends - begins - at))
        return verdict + at_the_time(_look(part, here, seen), f"{when}, torn"), 1


def _copy(database: Path, folder: Path) -> Path:
    """Copy a database and its log, but not the index of the log, which is memory's."""
    folder.mkdir()
    for ending in ("", "-wal"):
        file = database.with_name(f"{database.name}{ending}")
        if file.exists():
            shutil.copyfile(file, folder / f"{DATABASE}{ending}")
    return folder / DATABASE


def _look(database: Path, here: Campaign, seen: Seen) -> Verdict:
    with closing(opened(database)) as store:
        return judge(store, here.plan, here.quiet, seen)


def _has(database: Path, doing: str, here: Campaign) -> bool:
    """Whether what was under way is in a copy."""
    _, address, number = doing.split(" ")
    with closing(opened(database)) as store, store.unit() as unit:
        at = here.plan[address][int(number)].event.at
        return not unit.claim(f"{address} {number}", at)
