"""Shows a demo script being played on a terminal, and keeps its results in a folder."""

import tempfile
import time
from pathlib import Path

from rich.console import Console

from bot.channels.terminal.screen import Screen
from bot.engine.effects import Form
from bot.reports import Imprint, known_as, make
from bot.reports.presenting import present
from bot.resources import shipped
from bot.runtime.ports import Store
from bot.store import open_store
from bot.testing.player import Player, Shown
from bot.testing.script import Script, read_script
from bot.texts import language_for

FIRST = "clear-rise.txt"


def show(
    path: Path | None,
    results: Path,
    *,
    pause: float = 0.0,
    emergency_number: str | None = None,
) -> Path:
    """Play a script on the terminal and return the folder with its results.

    Args:
        path: The script; the first that ships without one.
        results: The folder in which a folder of the script's name is made.
        pause: Seconds to wait after each message.
        emergency_number: What is to be called, said with every word of safety.

    Raises:
        ScriptError: The script cannot be read.
    """
    script = read_script(path or shipped("demo_scripts") / FIRST)
    folder = results / script.name
    screen = Screen(Console())
    screen.note(script.title)
    with tempfile.TemporaryDirectory() as temporary:
        store = open_store(Path(temporary) / "played.sqlite3")
        player = Player(script, store, present, emergency_number=emergency_number)
        for shown in player.play():
            _show(screen, script, shown, folder)
            time.sleep(pause)
        _keep_results(store, player.conversation_id, language_for(script.language), folder)
        store.close()
    return folder


def _show(screen: Screen, script: Script, shown: Shown, folder: Path) -> None:
    said = shown.said
    file = None
    if shown.attachment is not None:
        folder.mkdir(parents=True, exist_ok=True)
        file = folder / shown.attachment.name
        file.write_bytes(shown.attachment.content)
    screen.line(
        at=script.starts + said.after,
        who=said.who,
        text=said.text,
        labels=said.labels,
        file=file,
        changed=said.changed,
    )


def _keep_results(store: Store, conversation_id: str, locale: str, folder: Path) -> None:
    """Write summary and files of every test of the script, sent or not."""
    folder.mkdir(parents=True, exist_ok=True)
    person = next(known_as(c) for c in store.conversations() if c.id == conversation_id)
    imprint = Imprint(reference=person)
    for record in store.results(conversation_id):
        for form in Form:
            file = make(form, record, locale, imprint)
            (folder / file.name).write_bytes(file.content)
