"""The way to a booked test on Telegram, with the process killed on the way."""

import sqlite3
from contextlib import closing
from pathlib import Path

import icalendar

from bot.bootstrap import DATABASE
from bot.engine.state import Booked
from tests.channels.serving import Serving
from tests.telegram_api.server import BotApiServerThread


def test_enrolment_and_booking_survive_being_killed(tmp_path: Path) -> None:
    """Every answer survives a SIGKILL; ticks are shown by edits; the calendar file arrives.

    After "delete everything" the database holds nothing of the person.
    """
    with (
        BotApiServerThread() as server,
        Serving(server, tmp_path, speed=1.0, opening="full") as serving,
    ):
        person = server.person()
        person.writes("/start")
        person.wait_for(lambda p: p.finds("Do you agree?"), timeout=30)
        person.taps("I agree")
        person.wait_for(lambda p: p.finds("2 of 7"), timeout=30)
        serving.kill()
        person.taps("20 or over")
        serving.start()
        person.wait_for(lambda p: p.finds("3 of 7"), timeout=30)
        person.writes("Madrid")
        person.wait_for(lambda p: p.finds("4 of 7"), timeout=30)
        person.taps("None of these")
        person.wait_for(lambda p: p.finds("5 of 7"), timeout=30)
        person.taps("Beta-blocker")
        ticked = person.wait_for(lambda p: p.finds("5 of 7"), timeout=30)
        person.wait_for(
            lambda p: "✓ Beta-blocker" in (p.finds("5 of 7") or ticked).labels, timeout=30
        )
        serving.kill()
        person.taps("That is all")
        serving.start()
        person.wait_for(lambda p: p.finds("Never stop a beta-blocker"), timeout=30)
        person.wait_for(lambda p: p.finds("Which blood pressure cuff"), timeout=30)
        person.taps("Wrist")
        person.wait_for(lambda p: p.finds("read your heart rate"), timeout=30)
        person.taps("Watch")
        person.wait_for(lambda p: p.finds("7 of 7"), timeout=30)
        person.writes("124/76 72")
        person.wait_for(lambda p: p.finds("When would you like"), timeout=30)
        person.writes("in 3 days at 9:00")
        person.wait_for(lambda p: p.finds("Is that right?"), timeout=30)
        serving.kill()
        person.taps("Yes")
        serving.start()
        person.wait_for(lambda p: p.finds("Booked:"), timeout=30)
        person.wait_for(lambda p: p.finds("For your calendar."), timeout=30)
        document = next(m.document for m in person.replies if m.document)
        calendar = icalendar.Calendar.from_ical(document.content)
        assert len(calendar.walk("VEVENT")) == 1
        assert isinstance(serving.stored(person).conversation.stage, Booked)
        person.writes("delete everything")
        person.wait_for(lambda p: p.finds("gone for good"), timeout=30)
        person.taps("Yes, delete everything")
        person.wait_for(lambda p: p.finds("Everything is deleted"), timeout=30)
        assert serving.stop() == 0
    with closing(sqlite3.connect(tmp_path / DATABASE)) as database:
        for table in ("conversation", "event", "outbox", "result"):
            assert database.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)
