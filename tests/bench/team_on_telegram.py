"""A care team on Telegram, killed in between: `python -m tests.bench.team_on_telegram`.

It takes three starts of the program, which is too much for the tests that run with every change.
"""

import sys
import tempfile
from collections import Counter
from pathlib import Path

from bot.bootstrap import conductor_for
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.engine.context import Context
from bot.runtime.clock import SystemClock
from bot.store import open_store
from tests.channels.serving import Serving
from tests.channels.test_serve_companions import reads
from tests.telegram_api.server import BotApiServerThread

ENROLS = (
    ("Before we begin", "I agree"), ("How old are you", "34"), ("What time is it", "Madrid"),
    ("Does any of these fit", "none"), ("Do you take any", "none"),
    ("Which blood pressure cuff", "upper arm"), ("Where will you read", "on the cuff"),
    ("Let us try it once", "124/76 72"), ("When would you like", "do it now"),
    ("fit today?", "none"), ("next to the bed", "ready"),
    ("when you are lying down", "lying down"),
)  # fmt: skip


def main() -> None:
    """Join, raise an alarm, be killed, take it, be killed, close it; nothing is lost or doubled."""
    with tempfile.TemporaryDirectory() as name, BotApiServerThread() as server:
        folder = Path(name)
        store = open_store(folder / "wallside.sqlite3")
        conductor = conductor_for(store, Context(), rules=CareRules)
        code = conductor.admit(Role.COORDINATOR, "Marta", SystemClock().now())
        store.close()
        serving = Serving(server, folder, speed=1.0, opening="full")
        serving.add("WALLSIDE_TEAM", "true")
        with serving:
            person, marta = server.person(), server.person(5002, "Marta")
            marta.writes(f"/start {code}")
            reads(marta, "You are in the care team as coordinator")
            person.writes("/start")
            for words, answer in ENROLS:
                reads(person, words)
                person.writes(answer)
            reads(person, "have started")
            serving.kill()
            person.writes("stop")
            serving.start()
            reads(marta, "Alarm to the whole team")
            serving.kill()
            marta.taps("I take it")
            serving.start()
            reads(marta, "You have it since")
            marta.writes("/close 1")
            reads(marta, "What follows?")
            marta.taps("We call them")
            reads(marta, "Closed by Marta")
            assert serving.stop() == 0
        # A message may come twice when the process dies between sending and noting it; what
        # happened is put down once.
        store = open_store(folder / "wallside.sqlite3")
        with store.unit() as unit:
            did = Counter(line.audit.did.value for line in unit.care.log())
        store.close()
        once = ("alarm-raised", "alarm-sent", "took-item", "closed-item")
        assert [did[what] for what in once] == [1, 1, 1, 1], did
        sys.stdout.write("joined, alarmed, taken and closed, each once, over three starts\n")


if __name__ == "__main__":
    main()
