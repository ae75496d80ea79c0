"""The number words of all languages: what each is worth, and which go together in one number.

The values of single words are text2num's. It refuses or splits what people say of pressures ("one
twenty-four", "one oh five"), so how words go together stands here.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from text_to_num import text2num  # type: ignore[import-untyped]

from bot.readings.language import Numerals
from bot.readings.languages import LANGUAGES

# One letter for each word: unit, teen, Ten, Deca (a ten that wants an "and"), Hundred, Lone
# hundred, zero, and, article.
_UNDER_100: Final = r"(?:u|t|D|T|Tu|[TD]&u)"
_PLAIN: Final = re.compile(rf"{_UNDER_100}|L|[ua]?H(?:&?{_UNDER_100})?|[ua]?Hzu")
CLOCK: Final = re.compile(r"u(?:t|D|Tu?|[TD]&u)|uzu")
_DIGITS: Final = re.compile(r"u[uz]*u")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lexicon:
    """The number words of a language with their letters and values."""

    numerals: Numerals
    letters: Mapping[str, str]
    values: Mapping[str, int]

    def letter(self, key: str) -> str:
        """Return the letter of a word; empty if it is no number word."""
        return self.letters.get(key, "")


def value_of(lexicon: Lexicon, keys: Sequence[str], letters: str, *, inside: bool) -> int | None:
    """Return the value of words that make one number, `inside` a run or at its beginning."""
    values = [lexicon.values.get(key, 0) for key in keys]
    if inside and letters[0] == "H" and lexicon.numerals.articles:
        return None  # "fiftyone hundred": a hundred needs its one or its "a"
    if letters[-2:] == "&u" and letters[-3:-2] in {"T", "D"} and not lexicon.numerals.glue[0]:
        return None  # "seventy and two" are two numbers
    if _PLAIN.fullmatch(letters):
        hundred = letters.find("H")
        if hundred < 1:
            return sum(values)
        return values[0] * values[1] + sum(values[2:])
    if CLOCK.fullmatch(letters) and keys[0] in lexicon.numerals.leads:
        return 100 * values[0] + sum(values[1:])
    if _DIGITS.fullmatch(letters) and len(letters) > 1:
        return int("".join(map(str, values)))
    return None


def _lexicon(numerals: Numerals) -> Lexicon:
    letters = {
        **dict.fromkeys(numerals.zeros, "z"),
        **dict.fromkeys(numerals.ands, "&"),
        **dict.fromkeys(numerals.articles, "a"),
        **dict.fromkeys(numerals.units, "u"),
        **dict.fromkeys(numerals.teens, "t"),
        **dict.fromkeys(numerals.tens, "T"),
        **dict.fromkeys(numerals.decas, "D"),
        **dict.fromkeys(numerals.hundreds, "H"),
        **dict.fromkeys(numerals.alone, "L"),
    }
    values = {
        word: text2num(numerals.spelled.get(word, word), numerals.code)
        for word, letter in letters.items()
        if letter in "utTDHL"
    }
    values |= dict.fromkeys(numerals.articles, 1)
    for ten in numerals.tens | numerals.decas:
        for unit in numerals.units:
            for glue in numerals.glue:
                letters.setdefault(ten + glue + unit, "t")
                values.setdefault(ten + glue + unit, values[ten] + values[unit])
    return Lexicon(numerals=numerals, letters=letters, values=values)


LEXICONS: Final = tuple(
    _lexicon(language.numerals) for language in LANGUAGES if language.numerals is not None
)

STARTERS: Final = frozenset(
    word for lexicon in LEXICONS for word, letter in lexicon.letters.items() if letter in "utTDHL"
)
