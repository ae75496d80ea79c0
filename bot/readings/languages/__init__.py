"""The languages that are read, all of them at all times.

To add one, write a module of data beside the others and name it here. No phrase may have two
roles, in whatever language (a test looks).
"""

from typing import Final

from bot.readings.language import Language
from bot.readings.languages.english import ENGLISH
from bot.readings.languages.signs import SIGNS
from bot.readings.languages.spanish import SPANISH

LANGUAGES: Final[tuple[Language, ...]] = (ENGLISH, SPANISH, SIGNS)
