"""A whole test on Telegram: the real program, its own process, over HTTP."""

import io
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image

from bot.engine.state import Finished
from bot.protocol.record import Ending
from tests.channels.serving import Serving, walks_through
from tests.telegram_api.faults import (
    answer_lost_after_delivery,
    forbidden,
    server_error,
    too_many_requests,
)
from tests.telegram_api.server import BotApiServer, BotApiServerThread
from tests.telegram_api.strict import check_call


@pytest.fixture
def server() -> Iterator[BotApiServer]:
    """Run the Bot API server on a thread of its own."""
    with BotApiServerThread() as running:
        yield running


def test_whole_test_with_buttons_edits_photo_and_documents(
    server: BotApiServer, tmp_path: Path
) -> None:
    """From /start to the files; an edited message corrects a reading; every call is well formed."""
    person = server.person(language_code="en")
    with Serving(server, tmp_path, speed=100) as serving:
        walks_through(person)
        files = {m.document.name: m.document for m in person.replies if m.document}
        assert [Path(name).suffix for name in files] == [".pdf", ".csv"]
        pdf = next(f for n, f in files.items() if n.endswith(".pdf"))
        assert pdf.content.startswith(b"%PDF")
        photo = next(m.photo for m in person.replies if m.photo)
        assert Image.open(io.BytesIO(photo.content)).width >= 720
        assert any(len(m.versions) > 1 for m in person.replies), "no progress was shown"
        wrong = next(m for m in person.chat if m.text == "106/78 109")
        person.edits(wrong.message_id, "106/78 99")
        person.wait_for(lambda p: p.finds("Corrected"), timeout=20)
        person.wait_for(lambda p: len([m for m in p.replies if m.document]) == 4, timeout=20)
        assert serving.stop() == 0
        stage = serving.stored(person).conversation.stage
    assert isinstance(stage, Finished)
    assert stage.record.ending is Ending.COMPLETED
    assert stage.record.readings[-1].values.heart_rate == 99
    sent = [c for c in server.calls if c.method.startswith("send")]
    assert len(sent) <= 25 + 5, "25 for the test, 5 for the correction"
    for call in server.calls:
        check_call(call)


def test_language_follows_the_client(server: BotApiServer, tmp_path: Path) -> None:
    """A Spanish client is spoken to in Spanish, and the commands are listed in both languages."""
    person = server.person(language_code="es-AR")
    with Serving(server, tmp_path):
        person.writes("/start")
        person.wait_for(lambda p: p.finds("¿Cuántos años tiene"), timeout=20)
        person.taps("20 o más")
        person.wait_for(lambda p: p.finds("lecturas"), timeout=20)
    languages = {c.params.get("language_code") for c in server.calls_of("setMyCommands")}
    assert languages == {None, "es"}


def test_update_that_was_not_durable_is_fetched_again(server: BotApiServer, tmp_path: Path) -> None:
    """An update is confirmed only after the commit; after a kill it is fetched and taken once."""
    person = server.person()
    with Serving(server, tmp_path) as serving:
        person.writes("/start")
        person.wait_for(lambda p: p.finds("How old are you"), timeout=20)
        serving.kill()
        person.taps("20 or over")
        server.redeliver_last()
        serving.start()
        person.wait_for(lambda p: p.finds("next to the bed"), timeout=20)
        person.writes("where")
        person.wait_for(lambda p: len([m for m in p.replies if "next to the bed" in m.text]) == 2)
        assert serving.stop() == 0


def test_faults_of_the_platform_lose_nothing(server: BotApiServer, tmp_path: Path) -> None:
    """Flood limits, server errors and lost answers delay messages; each still arrives, in order."""
    person = server.person()
    server.faults.add(kind=too_many_requests(1), method="sendMessage", times=2)
    server.faults.add(kind=server_error(502), method="sendMessage", times=1)
    server.faults.add(kind=server_error(500), method="getUpdates", times=1)
    server.faults.add(kind=answer_lost_after_delivery(), method="sendMessage", times=1)
    with Serving(server, tmp_path) as serving:
        person.writes("/start")
        person.wait_for(lambda p: p.finds("How old are you"), timeout=30)
        person.taps("20 or over")
        person.wait_for(lambda p: p.finds("next to the bed"), timeout=30)
        assert serving.stop() == 0
    texts = [m.text for m in person.replies]
    assert "How old are you" in texts[0]
    assert "next to the bed" in texts[-1]


def test_blocked_by_one_person_the_others_are_served(server: BotApiServer, tmp_path: Path) -> None:
    """A refusal for one chat holds up nobody else."""
    gone, here = server.person(chat_id=11), server.person(chat_id=12)
    server.faults.add(kind=forbidden(), chat_id=11, times=None)
    with Serving(server, tmp_path):
        gone.writes("/start")
        here.writes("/start")
        here.wait_for(lambda p: p.finds("How old are you"), timeout=20)
    assert gone.replies == ()


def test_what_is_not_words_gets_a_kind_answer(server: BotApiServer, tmp_path: Path) -> None:
    """Photos, voice messages and stickers are answered with what to do instead."""
    person = server.person()
    with Serving(server, tmp_path):
        person.writes("/start")
        person.wait_for(lambda p: p.finds("How old are you"), timeout=20)
        person.sends_photo()
        person.wait_for(lambda p: p.finds("cannot read pictures"), timeout=20)
        person.sends_voice()
        person.wait_for(lambda p: p.finds("cannot hear"), timeout=20)
        person.sends_sticker()
        person.wait_for(lambda p: p.finds("only read words"), timeout=20)
        person.forges_tap("nonsense")
        person.wait_for(lambda p: p.finds("earlier step"), timeout=20)


def test_log_holds_no_words_numbers_or_token(server: BotApiServer, tmp_path: Path) -> None:
    """Whatever happens, the log never holds what people write, their chat, or the token."""
    from tests.telegram_api.server import TOKEN

    person = server.person(chat_id=777_123_456)
    server.faults.add(kind=server_error(502), method="sendMessage", times=1)
    server.faults.add(kind=forbidden(), method="sendMessage", times=1)
    with Serving(server, tmp_path) as serving:
        person.writes("/start")
        person.writes("my canary is a yellow bird")
        person.wait_for(lambda p: p.finds("did not understand"), timeout=30)
        serving.kill()
        log = serving.log.read_text(encoding="utf-8")
    assert "refused" in log
    for secret in (TOKEN, TOKEN.split(":")[1], "777123456", "canary", "yellow"):
        assert secret not in log
