"""The words of the files: all there, all drawable, and true to the lines."""

from string import Formatter

import pytest

from bot.findings import SOURCES, Line, Reason, State
from bot.protocol.definition import Position
from bot.protocol.record import Ending
from bot.reports.glyphs import face
from bot.reports.rows import Status
from bot.texts import files, results
from bot.texts.message import Message

MESSAGES = {**files.MESSAGES, **results.MESSAGES}


@pytest.mark.parametrize("key", MESSAGES)
def test_the_font_can_draw_every_message(key: str) -> None:
    """No sentence holds a character that the shipped font lacks."""
    message: Message = MESSAGES[key]
    text = message.one + (message.many or "")
    assert [character for character in text if ord(character) not in face().advances] == []


@pytest.mark.parametrize("key", MESSAGES)
def test_placeholders_are_named(key: str) -> None:
    """Placeholders have names, and singular and plural have the same ones."""
    message = MESSAGES[key]
    names = [
        {name for _, name, _, _ in Formatter().parse(text) if name is not None}
        for text in (message.one, message.many or message.one)
    ]
    assert names[0] == names[1]
    assert all(name.isidentifier() for name in names[0])
    assert message.many is None or "count" in names[0]


def test_every_value_has_its_words() -> None:
    """Each line, state, reason, ending, position and status has words in the files."""
    wanted = [
        *(f"files.line.{line}" for line in Line),
        *(f"files.source.{line}" for line in Line),
        *(f"files.state.{state}" for state in State),
        *(f"files.reason.{reason}" for reason in Reason),
        *(f"files.ending.{ending}" for ending in Ending),
        *(f"results.ending.{ending}" for ending in Ending if ending is not Ending.COMPLETED),
        *(f"files.position.{position}" for position in Position),
        *(f"results.slot.{position}" for position in Position),
        *(f"files.note.{status}" for status in Status if status is not Status.TAKEN),
    ]
    assert [key for key in wanted if key not in MESSAGES] == []


@pytest.mark.parametrize("line", Line)
def test_citations_are_those_of_the_lines(line: Line) -> None:
    """The source printed beside a line is the one that its constants carry."""
    assert files.MESSAGES[f"files.source.{line}"].one == SOURCES[line].text
