"""PostgreSQL stopped as if it had been killed, and started again, in the middle of the load."""

import time
from random import Random
from typing import Final

from tests.faults.judge import Verdict
from tests.faults.kills import campaign
from tests.faults.places import POSTGRES
from tests.store.server import PostgresServer

_LONGEST_S: Final = 0.3


def restart(server: PostgresServer, rounds: int, seed: int) -> Verdict:
    """Restart the server under load; the process goes on, and tries again what failed."""
    chance = Random(f"restart/{seed}")
    found, times, number = Verdict(), 0, seed
    while times < rounds:
        number += 1
        with campaign(POSTGRES, server, number) as here:
            child = here.start()
            while times < rounds and not child.ended():
                time.sleep(chance.uniform(0, _LONGEST_S))
                server.stop()
                time.sleep(chance.uniform(0, _LONGEST_S))
                server.start()
                times += 1
            child.wait()
            found += here.look(f"{POSTGRES}, store {number}, at the end")
    return found
