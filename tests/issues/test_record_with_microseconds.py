"""A test that ended between two whole seconds once could not be made into a PDF."""

from datetime import timedelta

from bot.engine.effects import Form
from bot.engine.state import Finished
from bot.reports import make
from bot.testing.playbook import START, Playbook


def test_page_is_made_whatever_the_fraction_of_the_second() -> None:
    """The end of a test may fall on any microsecond."""
    book = Playbook(start=START + timedelta(microseconds=123_457)).stands().waits(minutes=5)
    book.types("116/78 92").waits(minutes=5).types("114/78 96")
    stage = book.conversation.stage
    assert isinstance(stage, Finished)
    assert stage.record.ended_at is not None
    assert stage.record.ended_at.microsecond
    assert make(Form.PDF, stage.record, "en").content.startswith(b"%PDF")
