"""The doors that hostile input comes through; each takes bytes, and raises when a law is broken."""

import asyncio
import json
import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from aiohttp import web
from aiohttp.test_utils import make_mocked_request
from telegram import Bot

from bot.booking.past import read_past
from bot.booking.phrases import read_time, read_times, read_when
from bot.booking.zones import place_zone, valid_zone
from bot.channels.telegram.inbound import inbound_from
from bot.channels.telegram.updates import update_from
from bot.channels.telegram.webhook import PATH, application
from bot.clinic.file import example, read_clinic
from bot.distress import hear, hear_all, unwell
from bot.engine.effects import Form
from bot.engine.events import ChoiceTapped, WordsGiven
from bot.errors import SettingsError
from bot.protocol.record import Symptom, Values
from bot.protocol.released import released
from bot.readings import read
from bot.reports import make, people_table
from bot.reports.handout import Handout, typeset
from bot.reports.imprint import Imprint
from bot.reports.typesetting import TooLongError
from bot.runtime.clock import StandingClock
from bot.runtime.ports import Inbound
from tests.fuzz.draw import Draw
from tests.fuzz.invited import invitation_table
from tests.fuzz.laws import hold_file, hold_table, hold_text
from tests.fuzz.people import NOW, Somebody, any_event, arrives
from tests.fuzz.texts import any_text
from tests.fuzz.updates import any_json, any_update
from tests.reports.examples import CLEAR_RISE, reading, symptom

Door = Callable[[bytes], None]

BOT: Final = Bot("1:a")
SECRET: Final = "harbour-street-0123456789"
_ASKS: Final = ("results", "my data", "tomorrow 9", "yes")
_HEADER: Final = "X-Telegram-Bot-Api-Secret-Token"
_KNOWN: Final = (Values(), Values(systolic=120), Values(systolic=120, diastolic=76))


def words(content: bytes) -> None:
    """Any text, through all that listens: readings, distress, bookings, places."""
    draw = Draw(content)
    text = any_text(draw)
    read(text, draw.pick(_KNOWN), draw.pick((None, *_KNOWN)))
    hear(text)
    hear_all(text)
    unwell(text)
    read_when(text, NOW)
    read_past(text, NOW)
    read_time(text)
    read_times(text)
    valid_zone(text)
    place_zone(text)


def machine(content: bytes) -> None:
    """Somebody who, in the middle of things, does anything at all."""
    draw = Draw(content)
    somebody = arrives(draw)
    for _ in range(1 + draw.below(10)):
        if draw.often(15):
            somebody.waits(draw.pick((1, 61, 301, 901, 90_000)))
        address = "telegram:2" if draw.often(15) else "telegram:1"
        somebody.does(any_event(draw, somebody), address, draw=draw)
    somebody.hold()


def files(content: bytes) -> None:
    """Any words in every file that is made of a test; and all tests of people in one table."""
    draw = Draw(content)
    told = tuple(
        symptom(draw.pick(tuple(Symptom)), draw.below(20), words=any_text(draw, 600))
        for _ in range(draw.below(6))
    )
    extra = tuple(
        reading(
            5 + n,
            CLEAR_RISE.readings[-1].position,
            timedelta(seconds=draw.below(20_000)),
            (30 + draw.below(270), 20 + draw.below(200), 20 + draw.below(250)),
        )
        for n in range(draw.below(4))
    )
    record = replace(
        CLEAR_RISE,
        symptoms=told,
        readings=(*CLEAR_RISE.readings, *extra),
        stop_words=any_text(draw, 600) if draw.often(50) else None,
    )
    locale = draw.pick(("en", "es"))
    for form in (Form.SUMMARY, Form.DETAILS, Form.CSV, Form.FHIR):
        _hold_made(form, make(form, record, locale, Imprint(reference="HS-0042")))
    if draw.often(15):
        for form in (Form.PDF, Form.CHART):
            reference = any_text(draw, 64)
            _hold_made(form, make(form, record, locale, Imprint(reference=reference)))
    hold_table(people_table({any_text(draw, 64): (record,)}).content)


def _hold_made(form: Form, file: Any) -> None:
    if form in {Form.SUMMARY, Form.DETAILS}:
        hold_text(file.content.decode())
    else:
        hold_file(file.name, file.content)


def own_files(content: bytes) -> None:
    """Somebody who says anything, and then asks for results, their data and their calendar."""
    draw = Draw(content)
    somebody = arrives(draw)
    for n in range(draw.below(4)):
        text = any_text(draw)
        somebody.does(WordsGiven(at=somebody.now, text=text, source=f"a{n}"))
        somebody.waits(draw.pick((1, 301, 90_000)))
    for text in _ASKS:
        somebody.does(WordsGiven(at=somebody.now, text=text, source=text), files=True)
        for token in somebody.tokens[-8:]:
            somebody.does(ChoiceTapped(at=somebody.now, token=token), files=True)


def update(content: bytes) -> None:
    """Any JSON as an update that was fetched, all the way through the machine."""
    draw = Draw(content)
    raw = any_json(draw, 3) if draw.often(10) else any_update(draw)
    _taken(raw)


def _taken(raw: Any) -> None:
    found = update_from(raw, BOT)
    inbound = None if found is None else inbound_from(found, StandingClock(NOW))
    if inbound is not None:
        somebody = Somebody()
        somebody.conductor().handle(inbound)
        somebody.gets(files=False)


def webhook(content: bytes) -> None:
    """Any body posted to the webhook's door, with the secret and without."""
    draw = Draw(content)
    somebody = Somebody()

    async def take(inbound: Inbound) -> None:
        somebody.conductor().handle(inbound)

    app = application(BOT, StandingClock(NOW), take, SECRET)
    if draw.often(70):
        body = json.dumps(any_update(draw)).encode()
    else:
        body = any_text(draw).encode("utf-8", "surrogatepass")
    if draw.often(30):
        place = draw.below(len(body) + 1)
        body = body[:place] + bytes([draw.below(256)]) + body[place + draw.below(3) :]
    shown = SECRET if draw.often(90) else draw.pick(("", "x", SECRET + "x", "é"))
    status = asyncio.run(_posted(app, body, shown))
    assert status in ({200} if shown == SECRET else {403}), f"the door answers {status}"


async def _posted(app: web.Application, body: bytes, shown: str) -> int:
    request = make_mocked_request("POST", PATH, headers={_HEADER: shown}, app=app)
    request._read_bytes = body
    (route,) = [r for r in app.router.routes() if r.method == "POST"]
    answer = await route.handler(request)
    return int(answer.status)


def settings(content: bytes) -> None:
    """Any clinic's file: it is taken or refused in words; what is taken can be said and printed."""
    draw = Draw(content)
    text = _any_toml(draw)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "clinic.toml"
        path.write_bytes(text.encode("utf-8", "surrogatepass"))
        try:
            clinic = read_clinic(path)
        except SettingsError as error:
            hold_text(str(error).encode(errors="replace").decode())
            return
    context = clinic.context()
    clinic.rules()
    if draw.often(10):
        handout = Handout(
            protocol=released(context.protocol),
            lines=context.stop_lines,
            contact=(context.contact or {}).get("en", ""),
            emergency_number=context.emergency_number or "",
            medicine_plan=(context.medicine_plan or {}).get("en", ""),
            link="https://t.me/a",
            until=None,
        )
        try:
            hold_file("handout.pdf", typeset(handout, "en", datetime(2026, 3, 2, tzinfo=UTC)))
        except TooLongError:
            return


def _any_toml(draw: Draw) -> str:
    lines = example().split("\n")
    for _ in range(draw.pick((1, 1, 1, 2, 6))):
        place = draw.below(len(lines))
        line = lines[place].removeprefix("# ")
        name, equals, _ = line.partition("=")
        match draw.below(6):
            case 0:
                lines[place] = any_text(draw, 200)
            case 1 | 2 if equals:
                lines[place] = f"{name}= {json.dumps(any_text(draw, 900))}"
            case 3 if equals:
                wrong = draw.pick(("-1", "0", "[]", "{}", "1e999", "true", "1979-05-27", "nan"))
                lines[place] = f"{name}= {wrong}"
            case 4:
                lines.insert(place, lines[draw.below(len(lines))])
            case _:
                cut = draw.below(len(line) + 1)
                lines[place] = (
                    line[:cut] + draw.pick(("\x00", "=", '"', "[", "\ud800")) + line[cut:]
                )
    return "\n".join(lines)


DOORS: Final[dict[str, tuple[Door, int]]] = {
    "words": (words, 1),
    "machine": (machine, 2),
    "update": (update, 1),
    "webhook": (webhook, 2),
    "settings": (settings, 2),
    "invitations": (invitation_table, 1),
    "files": (files, 4),
    "own files": (own_files, 10),
}
"""By name: the door, and the share of runs it gets, one in so many."""
