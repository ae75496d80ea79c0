"""The answer to "help": once it left out the very words that somebody in a test needs."""

import pytest

from bot.engine.asides import FixingReading, NamingSymptom
from bot.engine.state import AwaitingStopReason
from bot.testing.playbook import Playbook
from bot.texts.rendering import render

WORDS = {
    "en": ("stop", "where", "fix", "symptom"),
    "es": ("detener", "dónde", "corregir", "síntoma"),
}


@pytest.mark.parametrize("key", ["help", "help.full", "help.running"])
@pytest.mark.parametrize("locale", WORDS)
def test_help_names_what_is_needed_in_a_test(key: str, locale: str) -> None:
    """Stop, the step once more, a wrong number, a symptom: each word is named, and it is short."""
    text = render(key, {}, locale)
    assert [word for word in WORDS[locale] if word not in text] == []
    assert len(text) <= 600


@pytest.mark.parametrize("locale", WORDS)
def test_words_that_help_names_do_what_it_says(locale: str) -> None:
    """Each of them, as it is named, does what the answer says."""
    stop, where, fix, symptom = WORDS[locale]
    book = Playbook(locale=locale).stands().waits(minutes=1)
    assert book.types(where).said == ("where.standing",)
    assert isinstance(book.types(fix).conversation.aside, FixingReading)
    book.taps("no")
    assert isinstance(book.types(symptom).conversation.aside, NamingSymptom)
    assert isinstance(book.types(stop).conversation.stage, AwaitingStopReason)


@pytest.mark.parametrize(
    "words", ["say that again", "what do I do now?", "¿qué hago?", "repita eso"]
)
def test_step_is_said_again_when_asked_for(words: str) -> None:
    """Asking to hear it again was not understood."""
    assert Playbook().stands().waits(minutes=5).types(words).said == ("reading.ask.standing",)
