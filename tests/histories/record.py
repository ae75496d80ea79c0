"""Records the history of a demo script: `python -m tests.histories.record SCRIPT ...`."""

import json
import sys
import tempfile
from pathlib import Path

from bot.reports.presenting import present
from bot.store import open_store
from bot.store.codec import encode_conversation, encode_event
from bot.testing.player import Player
from bot.testing.script import read_script


def record(path: Path) -> None:
    """Play a script and write its history beside this module, unless there is one."""
    script = read_script(path)
    target = Path(__file__).parent / f"{path.stem}-{script.protocol.version}.json"
    if target.exists():
        raise SystemExit(f"{target} is on record; a recorded history is never written anew")
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(Path(folder) / "played.sqlite3")
        player = Player(script, store, present)
        for _ in player.play():
            pass
        try:
            history = store.history(player.conversation_id)
        except KeyError:
            raise SystemExit(f"{path}: the person was forgotten; there is no history") from None
        with store.unit() as unit:
            stored = unit.load_by_id(player.conversation_id)
        store.close()
    assert stored is not None
    recorded = {
        "protocol": script.protocol.id,
        "version": script.protocol.version,
        "opening": script.opening.value,
        "beginning": json.loads(encode_conversation(history.beginning)),
        "events": [json.loads(encode_event(event)) for event in history.events],
        "end": json.loads(encode_conversation(stored.conversation)),
    }
    text = json.dumps(recorded, ensure_ascii=False, indent=1)
    target.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    for name in sys.argv[1:]:
        record(Path(name))
