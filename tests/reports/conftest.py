"""A language with longer words."""

import re
from dataclasses import replace

import pytest

from bot.texts.catalogue import CATALOGUE
from bot.texts.message import Message


def _longer(text: str) -> str:
    """Return the text with each word a third longer; placeholders and numbers stay."""
    return re.sub(
        r"\{\w+\}|[A-Za-z]{3,}",
        lambda found: (
            found[0] if found[0].startswith("{") else found[0] + "o" * (len(found[0]) // 3)
        ),
        text,
    )


@pytest.fixture
def longer_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make every sentence of the catalogue a third longer."""
    longer: dict[str, Message] = {
        key: replace(
            message,
            one=_longer(message.one),
            many=None if message.many is None else _longer(message.many),
        )
        for key, message in CATALOGUE.items()
    }
    monkeypatch.setattr("bot.texts.rendering.CATALOGUE", longer)
