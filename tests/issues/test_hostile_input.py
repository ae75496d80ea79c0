"""Input that was meant to break something, and once did."""

import json
import logging
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest
import structlog
from telegram.error import TelegramError

from bot.booking.zones import place_zone
from bot.care.invitation import made
from bot.care.invite_rows import LARGEST, Problem, read_rows
from bot.care.rules import CareRules
from bot.channels.telegram.updates import Sieve
from bot.engine.effects import Form
from bot.invite_remedies import remedy
from bot.logs import configure_logs
from bot.protocol.record import Symptom, TestRecord
from bot.readings import read
from bot.readings.outcome import Outcome
from bot.readings.taking import taken
from bot.reports import make, people_table
from bot.reports.glyphs import UNKNOWN, printable
from tests.reports.examples import CLEAR_RISE, symptom


def told(words: str) -> TestRecord:
    """Return a test with a symptom told in some words."""
    return replace(CLEAR_RISE, symptoms=(symptom(Symptom.OTHER, 2, words=words),))


@pytest.mark.parametrize("unit", ["no 5, ", "1 not 5, ", "not 5; ", "120 not 5/6, "])
def test_long_message_of_denials_is_read_in_bounded_steps(
    unit: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """4096 characters of "no 5, no 5, …" took 19 seconds of the one thread that writes.

    Every place that might part right from wrong was looked at, and the whole message for each.
    """
    looked = 0

    def counted(*given: Any) -> Outcome:
        nonlocal looked
        looked += 1
        return taken(*given)

    monkeypatch.setattr("bot.readings.instead.taken", counted)
    read((unit * 4096)[:4096])
    assert looked <= 12


def test_denied_numbers_are_still_read() -> None:
    """What the bound must not cost: numbers with those that they are not."""
    assert str(read("124/76 not 142/76").values) == str(read("124/76").values)  # type: ignore[union-attr]


def test_half_of_a_character_does_not_keep_the_table_back() -> None:
    """A name with a lone half of a surrogate pair made the table of many people fail."""
    content = people_table({"HS-\ud800": (CLEAR_RISE,)}).content
    assert "HS-?" in content.decode()


def test_accent_that_hangs_on_nothing_does_not_keep_the_page_back() -> None:
    """A combining mark with no letter before it made the accessible PDF fail: it never came."""
    for words in ("\u0131\u034f x", "\u0301\u2167 x", "a \u0301", "\u2167\u0301"):
        assert make(Form.PDF, told(words), "en").content.startswith(b"%PDF-")
    assert printable("\u0301x") == f"{UNKNOWN}x"
    assert printable("e\u0301") == "é"


def test_update_that_cannot_be_read_holds_up_no_other() -> None:
    """One update that the library could not read made it raise: the program ended, and again.

    It is left out, and confirmed by its number; those around it are taken.
    """
    sound = {
        "update_id": 1,
        "message": {"message_id": 1, "date": 1, "chat": {"id": 1, "type": "private"}},
    }
    broken = {"update_id": 2, "message": {"text": "no chat, and no number"}}
    message = {"message_id": 1, "date": 1, "chat": {"id": 1, "type": "private"}}
    odd = {"update_id": 3, "message": {**message, "text": ["no text"]}}
    answer = {"ok": True, "result": [sound, broken, "nonsense", odd]}
    found = Sieve.parse_json_payload(json.dumps(answer).encode())
    assert found["result"] == [sound, {"update_id": 2}, {"update_id": 3}]
    failed = {"ok": False, "description": "Conflict"}
    assert Sieve.parse_json_payload(json.dumps(failed).encode()) == failed
    with pytest.raises(TelegramError):
        Sieve.parse_json_payload(b"no JSON")


def test_librarys_own_outcry_is_not_logged(capsys: pytest.CaptureFixture[str]) -> None:
    """The library wrote a whole update that it could not read to the log, at the highest level."""
    configure_logs()
    logging.getLogger("telegram.Bot").critical("Received data was %r", "a yellow canary")
    structlog.reset_defaults()  # it was told of a stream that only this test has
    assert "canary" not in "".join(capsys.readouterr())


def test_place_of_a_thousand_commas_is_no_place() -> None:
    """A message of commas, given as a place, went deeper with each: the answer never came."""
    assert place_zone("a," * 2000) is None
    assert place_zone("Madrid, Spain") == "Europe/Madrid"


def test_note_of_a_table_cannot_turn_what_stands_behind_it() -> None:
    """A note with signs of direction and controls went into the team's chat as it was."""
    rows = "reference,note\nHS-1,uses \u202ea\x07 frame\u2066\n".encode()
    (wanted,) = read_rows(rows, CareRules(), ()).wanted
    at = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
    invitation = made(wanted, reference="HS-1", code="c", rules=CareRules(), at=at, by=None)
    assert invitation.note == "uses a frame"


@pytest.mark.parametrize(
    ("table", "why"),
    [
        (b"reference\n" + b"\n" * LARGEST, Problem.LARGE),
        (b"reference\n" + (b"1-" * 6000 + b"\n") * 200, Problem.LARGE),
        (b"note\n" + b"x" * 200_000, Problem.CELL),
        (b'note\n"' + b"x" * 200_000, Problem.CELL),
    ],
)
def test_table_that_is_no_table_is_refused_at_once(table: bytes, why: Problem) -> None:
    """Millions of empty lines took long; a long cell was called a quote that is not closed."""
    refused = read_rows(table, CareRules(), ())
    assert [wrong.why for wrong in refused.wrong] == [why]
    assert remedy(refused.wrong[0]).startswith(f"{refused.wrong[0].line}: ")
