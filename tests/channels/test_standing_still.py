"""A program that stands still for ten minutes while somebody stands: what they typed counts."""

import time
from pathlib import Path
from typing import Final

from bot.engine.state import Finished
from bot.protocol.record import Ending, Values
from tests.channels.serving import STEPS, Serving
from tests.telegram_api.server import BotApiServerThread

SPEED: Final = 150.0
"""Five minutes of it are two seconds, and the messenger stamps whole ones."""

TEN_MINUTES: Final = 600 / SPEED

FAST: Final = """
from datetime import timedelta
from bot.channels.telegram import inbound
from bot.runtime import alarms
alarms.LATE, alarms.CATCHES_UP, inbound._QUEUED = (timedelta(seconds=s) for s in (1, 1, 1))
from bot.__main__ import run
run()
"""
"""The program, in which ten minutes of the fast clock are long: what it takes for a sign that it
stood still is half a minute of the machine's."""


def wait_for_the_second(fraction: float) -> None:
    """Wait until the machine's clock shows so much of a second."""
    time.sleep((fraction - time.time()) % 1.0)


def test_what_was_typed_while_the_program_stood_still_counts(tmp_path: Path) -> None:
    """Somebody stands, unprompted for ten minutes, and types in time: each reading is in its slot.

    The test is not closed as silent, though the alarms that would close it went by meanwhile.
    """
    with BotApiServerThread() as server:
        serving = Serving(server, tmp_path, speed=SPEED)
        serving.program = ("-c", FAST)
        person = server.person()
        with serving:
            person.writes("/start")
            for words, act in STEPS.items():
                person.wait_for(lambda p, words=words: p.finds(words), timeout=30)  # type: ignore[misc]
                if "standing" in words:
                    break
                act(person)
            wait_for_the_second(0.9)  # so that readings are due right before their stamps
            person.taps("I am standing")
            person.wait_for(lambda p: p.finds("Your time standing"), timeout=5)
            serving.stand_still()
            began = time.monotonic()
            for reading in ("108/76 104", "106/78 109"):
                time.sleep(1.5)
                wait_for_the_second(0.02)
                person.writes(reading)
            time.sleep(max(0.0, began + TEN_MINUTES - time.monotonic()))
            serving.go_on()
            person.wait_for(lambda p: p.finds("what your numbers show"), timeout=10)
            serving.kill()  # its files are another test's
        stage = serving.stored(person).conversation.stage
    assert isinstance(stage, Finished)
    assert stage.record.ending is Ending.COMPLETED
    kept = {reading.slot: reading.values for reading in stage.record.readings}
    assert kept["standing-5"] == Values(systolic=108, diastolic=76, heart_rate=104)
    assert kept["standing-10"] == Values(systolic=106, diastolic=78, heart_rate=109)
