"""Every language that is listened for; all of them at all times."""

from typing import Final

from bot.distress.english import ENGLISH
from bot.distress.language import Language
from bot.distress.spanish import SPANISH

LANGUAGES: Final[tuple[Language, ...]] = (ENGLISH, SPANISH)
