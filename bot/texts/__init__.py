"""How it is said: the catalogue, the only place with prose, and its rendering in a language.

English stands in the section modules (`dialogue`, `safety`, `terms`, `results`, `files`), keyed;
other languages in `locales/<lang>/LC_MESSAGES/wallside.po`, by the English sentence.
"""

from bot.texts.rendering import LANGUAGES, language_for, render

__all__ = ["LANGUAGES", "language_for", "render"]
