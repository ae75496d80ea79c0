"""Two people on Telegram: linked, alarmed and parted, with the process killed in between."""

from pathlib import Path

from tests.channels.serving import Serving
from tests.telegram_api.person import Person
from tests.telegram_api.server import BotApiServerThread


def reads(person: Person, words: str) -> str:
    """Wait for a message that holds some words, and return it."""
    return person.wait_for(lambda p: p.finds(words), timeout=30).text


def test_link_alarm_and_end_survive_being_killed(tmp_path: Path) -> None:
    """The deep link links, a stop reaches the companion, its answer the person; removed is gone."""
    with BotApiServerThread() as server, Serving(server, tmp_path, speed=1.0) as serving:
        person, companion = server.person(), server.person(5002, "Alex")
        person.writes("/start")
        reads(person, "How old are you")
        person.taps("20 or over")
        reads(person, "next to the bed")
        person.writes("companion")
        reads(person, "What shall I tell them?")
        person.taps("Only if something goes wrong")
        link = reads(person, "https://t.me/").split()[-1]
        code = link.partition("?start=")[2]
        assert code.startswith("with-")
        companion.writes(f"/start {code}")
        reads(companion, "Do you agree?")
        serving.kill()
        companion.taps("Yes, I stand by")
        serving.start()
        reads(companion, "Please keep the sound of this chat on")
        reads(person, "Your companion has agreed")
        person.writes("ready")
        reads(person, "when you are lying down")
        serving.kill()
        person.writes("stop")
        serving.start()
        reads(companion, "They have stopped their test")
        companion.taps("I cannot reach them")
        reads(companion, "Call the local emergency number where they are, now")
        reads(person, "Your companion cannot reach you")
        person.writes("companions")
        reads(person, "Tap a button to remove somebody")
        (button, *_) = [x for x in person.last.labels if x.startswith("Remove 1")]
        person.taps(button)
        reads(companion, "has ended it")
        reads(person, "Removed.")
        person.writes("start")
        reads(person, "not repeat it today")
        person.writes("ready")
        person.writes("i have chest pain")
        reads(person, "This may be an emergency")
        assert serving.stop() == 0
        assert companion.finds("Words of an emergency") is None
        assert len([m for m in companion.replies if "stopped their test" in m.text]) == 1
