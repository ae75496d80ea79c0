"""Buttons, and the paragraphs they stand under, before they are put into a message."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from bot.engine.effects import (
    Choice,
    Param,
    Part,
)


@dataclass(frozen=True, slots=True)
class Answer:
    """A button that answers the open question, and is stale once that has passed.

    One `of_stage` answers the stage, whatever question is open in between.
    """

    label: str
    choice: str
    params: Mapping[str, Param] = field(default_factory=dict)
    ticked: bool = False
    of_stage: bool = False


@dataclass(frozen=True, slots=True)
class Always:
    """A button that means the same at any time."""

    label: str
    token: str
    params: Mapping[str, Param] = field(default_factory=dict)


Button = Answer | Always
Rows = tuple[tuple[Button, ...], ...]

STOP: Final = Always("button.stop", "stop")
SYMPTOM: Final = Always("button.symptom", "symptom")
WHERE: Final = Always("button.where", "where")
RESULTS: Final = Always("button.results", "results")
MORE: Final = "more"
"""How the token of the button begins that asks for what a summary leaves out."""

LANGUAGE: Final = Always("button.language", "language")
BOOK: Final = Always("button.book", "book")
NEW_TEST: Final = Always("button.new-test", "start")
COMPANION: Final = Always("button.companion", "companion")


def more(test: int) -> Always:
    """Return the button for what the summary of a test leaves out."""
    return Always("button.more", f"{MORE}:{test}")


def part(key: str, **params: Param) -> Part:
    """Return a paragraph of the catalogue with its values."""
    return Part(key, params)


def choice_of(button: Button, question: str | None) -> Choice:
    """Return a button as it goes out; an answer carries the name of its question."""
    match button:
        case Always():
            return Choice(button.label, button.token, button.params)
        case Answer():
            token = f"{question}:{button.choice}"
            return Choice(button.label, token, button.params, button.ticked)
