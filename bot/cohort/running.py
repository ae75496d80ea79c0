"""The cohort through the chain by as many processes as there are cores.

Who is drawn depends on the seed and the block alone, and tallies hold whole numbers: the same seed
gives the same figures whatever the number of processes.
"""

import os
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from itertools import repeat
from multiprocessing import get_context

from bot.cohort.tallies import Tally
from bot.cohort.trials import BLOCK, run_block
from bot.protocol.definition import ProtocolRef


def run(
    tests: int,
    seed: int,
    protocols: Sequence[ProtocolRef],
    *,
    processes: int | None = None,
    done: Callable[[int], None] = lambda _: None,
) -> Tally:
    """Return the tally of a cohort.

    Args:
        tests: How many, at least; each person takes one by every protocol.
        seed: Of all chance.
        protocols: What each person takes.
        processes: How many share the work; the cores of the machine without a number.
        done: Told how many tests were added each time some are.
    """
    people = -(-tests // len(protocols))
    sizes = [min(BLOCK, people - start) for start in range(0, people, BLOCK)]
    blocks = range(len(sizes))
    total = Tally()
    if processes == 1:
        for block in blocks:
            _add(total, run_block(seed, block, sizes[block], protocols), done)
        return total
    # a fresh interpreter each: nothing of this one's threads goes along
    with ProcessPoolExecutor(processes or os.cpu_count(), mp_context=get_context("spawn")) as pool:
        each = pool.map(run_block, repeat(seed), blocks, sizes, repeat(tuple(protocols)))
        for tally in each:
            _add(total, tally, done)
    return total


def _add(total: Tally, tally: Tally, done: Callable[[int], None]) -> None:
    total.add(tally)
    done(tally.tests.total())
