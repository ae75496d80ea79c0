"""The demo scripts are golden journeys: what is played is what is written, word for word.

After a change that is meant, `python -m bot.testing.renew` writes them anew; read the difference.
"""

from pathlib import Path

from bot.testing.renew import played
from tests.shelf import Shelf


def test_script_is_played_as_it_is_written(script_path: Path, shelf: Shelf) -> None:
    """Playing a script gives its own text, Wallside's lines and times included."""
    assert played(script_path, shelf.fresh()) == script_path.read_text(encoding="utf-8")
