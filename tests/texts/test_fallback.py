"""Words of safety do not depend on a language being complete."""

from collections.abc import Mapping
from typing import Final

import pytest
from babel.messages.catalog import Catalog

from bot.engine.effects import Param
from bot.texts import rendering
from bot.texts.rendering import render
from bot.texts.safety import MESSAGES

PARAMS: Final[Mapping[str, Param]] = {
    "pressures": "84/52",
    "heart_rate": 98,
    "numbers": "84/52 98",
    "example": "124/76 72",
    "left": "3 min",
    "number": "112",
}


@pytest.fixture
def spoilt(monkeypatch: pytest.MonkeyPatch) -> Catalog:
    """Return a Spanish catalogue that can be spoilt, in use until the test ends."""
    catalog = Catalog(locale="es", domain=rendering.DOMAIN)
    for message in rendering.catalog("es"):
        if message.id:
            catalog.add(message.id, message.string, flags=message.flags)
    monkeypatch.setattr(rendering, "catalog", lambda locale: catalog)
    rendering.translations.cache_clear()
    monkeypatch.setattr(rendering, "translations", rendering.translations.__wrapped__)
    return catalog


def english(key: str) -> str:
    """Return the English sentence."""
    return render(key, PARAMS, "en")


@pytest.mark.parametrize("key", sorted(MESSAGES))
def test_missing_translation_is_said_in_english(key: str, spoilt: Catalog) -> None:
    """A sentence that a language lacks comes in English; the others stay as they are."""
    spoilt.delete(MESSAGES[key].one)
    assert render(key, PARAMS, "es") == english(key)
    assert render("stop.reason", {}, "es") != render("stop.reason", {}, "en")


def test_wrong_placeholder_is_said_in_english(spoilt: Catalog) -> None:
    """A translation with a placeholder that has no value comes in English, not as an error."""
    spoilt[MESSAGES["unsafe.low"].one].string = "{presion} es baja. {"
    assert render("unsafe.low", PARAMS, "es") == english("unsafe.low")


def test_language_that_is_gone_is_said_in_english() -> None:
    """A language that no longer ships leaves nobody without words."""
    assert render("emergency.now", {}, "xx") == english("emergency.now")
