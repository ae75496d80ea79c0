"""The corpus: nothing silently wrong, and enough understood."""

from pathlib import Path

import pytest

from bot.readings import read
from tests.readings import corpus

FILES = corpus.files()
TUNED = [path for path in FILES if path.stem.startswith("tuned")]

LEAST_RECALL = 0.97
"""The aim for readings that nothing was tuned on."""


def named(path: Path) -> str:
    """Return the name of a set."""
    return path.stem


def test_each_language_has_its_set() -> None:
    """There are at least 270 messages in each language."""
    assert {path.stem for path in TUNED} == {"tuned_en", "tuned_es"}
    assert all(len(corpus.lines(path)) >= 270 for path in TUNED)


@pytest.mark.parametrize("path", FILES, ids=named)
def test_no_number_of_the_corpus_is_silently_wrong(path: Path) -> None:
    """No message gives a number that a careful person would not read from it."""
    wrong = [
        (line.number, line.message, line.expected)
        for line in corpus.lines(path)
        if corpus.verdict(line, read(line.message, line.known)) == "wrong"
    ]
    assert wrong == []


@pytest.mark.parametrize("path", FILES, ids=named)
def test_nearly_every_reading_of_the_corpus_is_understood(path: Path) -> None:
    """At least 97 in 100 readings are read without a question."""
    assert corpus.recall(path) >= LEAST_RECALL


@pytest.mark.parametrize("path", TUNED, ids=named)
def test_every_tuned_message_comes_to_just_what_it_should(path: Path) -> None:
    """Each message comes to the outcome beside it, down to which question is asked."""
    off = [
        (line.number, line.message, line.expected, verdict)
        for line in corpus.lines(path)
        if (verdict := corpus.verdict(line, read(line.message, line.known))) != "right"
    ]
    assert off == []
