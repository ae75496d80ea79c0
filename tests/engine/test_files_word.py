"""The files for the care team come when they are asked for."""

import pytest

from bot.engine.effects import Form, Recall
from bot.testing.playbook import Playbook
from tests.engine.test_whole_test import whole_test


def recalled(book: Playbook) -> list[tuple[Form, int]]:
    """Return what the last step calls back: the form and the number of the test."""
    return [(e.form, e.test) for e in book.effects if isinstance(e, Recall)]


@pytest.mark.parametrize("word", ["files", "FHIR", "mis archivos"])
def test_the_files_come_when_they_are_asked_for(word: str) -> None:
    """PDF, table and the file for records systems of the latest test, and nothing changes."""
    book = whole_test()
    before = book.conversation.stage
    book.types(word)
    assert recalled(book) == [(Form.PDF, 1), (Form.CSV, 1), (Form.FHIR, 1)]
    assert book.conversation.stage == before


def test_without_a_result_there_are_no_files() -> None:
    """Before the first test, and while one runs, the word leads to no file."""
    for book in (Playbook().opens(), Playbook().stands()):
        book.types("files")
        assert recalled(book) == []
        assert book.said[0] == "results.not-yet"


def test_asked_for_instead_of_a_reason() -> None:
    """After a stop the word stands for "no reason"; what comes anyway does not come twice."""
    book = Playbook().stands().waits(minutes=5).types("116/76 90").taps("stop").types("files")
    assert book.said[:4] == ("hand.summary", "hand.chart", "hand.pdf", "hand.csv")
    assert recalled(book) == [(Form.FHIR, 1)]
