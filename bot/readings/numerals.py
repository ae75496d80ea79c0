"""Number words into numbers, also as people say pressures: "one twenty-four", "one oh five".

A run of number words is cut into as few numbers as can be. Where it can be cut in two ways that
are equally short, it comes back as a number that takes guessing.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from bot.readings.hearing import heard
from bot.readings.labels import JOINS, role_at
from bot.readings.language import Join, Role
from bot.readings.lexicon import CLOCK, LEXICONS, STARTERS, Lexicon, value_of
from bot.readings.plausibility import NEVER_A_READING, ordinary, possible_somewhere
from bot.readings.spelling import mended
from bot.readings.strangers import half_pairs, without_strangers
from bot.readings.tokens import Kind, Token

_MOST_WORDS: Final = 24
"""More number words than this in a row are no reading (design choice)."""

_WHOLE: Final = 3

_MOST_WAYS: Final = 12
"""More ways to cut the same words than this are not looked at (design choice)."""

_UNSURE: Final = -1
"""Stands for the value of words that can be cut in two ways."""


def spoken(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens of a message with its number words as numbers."""
    tokens = without_strangers(half_pairs(tokens))
    tokens = heard(mended(tokens))
    if not any(token.key in STARTERS for token in tokens):
        return tokens
    out: list[Token] = []
    place = 0
    while place < len(tokens):
        run = next((r for lexicon in LEXICONS if (r := _run(lexicon, tokens, place))), None)
        if run is None:
            out.append(tokens[place])
            place += 1
        else:
            out += run.numbers(after_number=bool(_number_before(out)))
            place = run.end
    return tuple(out)


def _number_before(out: Sequence[Token]) -> bool:
    """Return whether a number and a stroke between pressures stand right before."""
    return (
        len(out) > 1
        and out[-2].kind is Kind.NUMBER
        and (out[-1].kind is Kind.NUMBER or JOINS.get(out[-1].key) is Join.PAIR)
    )


def _run(lexicon: Lexicon, tokens: tuple[Token, ...], start: int) -> "_Run | None":
    """Return the number words that begin here; hyphens may stand between them."""
    at: list[int] = []
    place = start
    while place < len(tokens):
        token = tokens[place]
        hyphen = token.key == "-" and bool(at) and token.tight
        if hyphen and place + 1 < len(tokens) and lexicon.letter(tokens[place + 1].key):
            place += 1
            continue
        letter = lexicon.letter(token.key) if token.kind is Kind.WORD else ""
        following = lexicon.letter(tokens[place + 1].key) if place + 1 < len(tokens) else ""
        fits = letter in "utTDHL" if letter else False
        fits |= letter == "z" and bool(at)
        fits |= letter == "a" and following == "H"
        fits |= letter == "&" and bool(at) and following not in {"", "&", "z"}
        if not fits:
            break
        at.append(place)
        place += 1
    lone = len(at) == 1 and tokens[start].key in lexicon.numerals.beside
    if not at or lone or _percent(tokens, start):
        return None
    return _Run(lexicon=lexicon, tokens=tokens, at=tuple(at))


def _half_a_number(token: Token) -> bool:
    """Return whether a word is none of ours but begins with a number word."""
    return (
        token.kind is Kind.WORD
        and token.key not in STARTERS
        and _BEGINS_WITH_NUMBER.match(token.key) is not None
        and token.key not in JOINS
        and role_at((token,), 0) is None
    )


def _ends_in_a_number(token: Token) -> bool:
    """Return whether a word is one of ours and a number word without a space between."""
    if token.kind is not Kind.WORD or token.key in STARTERS or role_at((token,), 0) is not None:
        return False
    return any(
        token.key.endswith(word) and _is_ours(token.key.removesuffix(word)) for word in STARTERS
    )


def _is_ours(key: str) -> bool:
    word = Token(kind=Kind.WORD, key=key, start=0, end=0, tight=False)
    return key in JOINS or key in STARTERS or role_at((word,), 0) is not None


def _percent(tokens: tuple[Token, ...], place: int) -> bool:
    """Return whether a word belongs to one for percent, as in "97 por ciento"."""
    found = role_at(tokens, place - 1) if place > 0 else None
    return found == (Role.PERCENT, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """Number words in a row, by their places among the tokens."""

    lexicon: Lexicon
    tokens: tuple[Token, ...]
    at: tuple[int, ...]

    @property
    def end(self) -> int:
        """The place after the run, with what makes it unsure."""
        return self.at[-1] + 1 + self._tail()

    def numbers(self, *, after_number: bool) -> list[Token]:
        """Return the tokens that take the place of the run."""
        keys = [self.tokens[place].key for place in self.at]
        if self._tail() or self._begun():
            return [self._token(0, len(keys), _UNSURE)]
        parts = _cut(LEXICONS.index(self.lexicon), tuple(keys))
        if parts is None:
            return [self._token(0, len(keys), _UNSURE)]
        values = [value for _, _, value in parts if value is not None]
        if len(values) == 1 and values[0] in NEVER_A_READING and not (after_number or self._over()):
            return list(self.tokens[self.at[0] : self.end])
        if (hour := self._hour(keys, values)) is not None:
            return hour
        return [
            self.tokens[self.at[first]] if value is None else self._token(first, after, value)
            for first, after, value in parts
        ]

    def _token(self, first: int, after: int, value: int) -> Token:
        begin, end = self.tokens[self.at[first]], self.tokens[self.at[after - 1]]
        if value == _UNSURE:
            return replace(begin, kind=Kind.ODD, key="?", end=self.tokens[self.end - 1].end)
        return replace(begin, kind=Kind.NUMBER, key=str(value), end=end.end)

    def _next(self, step: int = 0) -> Token | None:
        place = self.at[-1] + 1 + step
        return self.tokens[place] if place < len(self.tokens) else None

    def _over(self, step: int = 0) -> bool:
        """Return whether a stroke between pressures and a number follow."""
        stroke, number = self._next(step), self._next(step + 1)
        if stroke is None or number is None or JOINS.get(stroke.key) is not Join.PAIR:
            return False
        return number.kind is Kind.NUMBER or self.lexicon.letter(number.key) in set("utTDHLa")

    def _tail(self) -> int:
        """Return how many tokens after the run make its last number unsure.

        "a hundred and 24" may be 124; "seventy to" may be what voice typing made of 72; and in
        "seventy-twopulse" a space is missing.
        """
        last = self.lexicon.letter(self.tokens[self.at[-1]].key)
        after, second = self._next(), self._next(1)
        if after is None:
            return 0
        gap = after.key == "-" or self.lexicon.letter(after.key) == "&"
        if (runs_on := second if gap else after) is not None and _half_a_number(runs_on):
            return 1 + gap
        if last in {"H", "L"}:
            joined = self.lexicon.letter(after.key) == "&"
            digits = second if joined else after
            short = digits is not None and digits.kind is Kind.NUMBER and len(digits.key) < 3
            return (1 + joined) if short else 0
        if last not in {"T", "H"} or after.key not in self.lexicon.numerals.sounds:
            return 0
        if second is None or self._over(1) or second.kind is not Kind.WORD:
            return 0 if second is not None and second.kind is Kind.NUMBER else 1
        if self.lexicon.letter(second.key) or after.key == "for":
            return 0
        return 1

    def _begun(self) -> bool:
        """Return whether the word before is one of ours with a number word run into it."""
        place = self.at[0] - 1
        if place > 0 and self.tokens[place].key == "-":
            place -= 1
        return place >= 0 and _ends_in_a_number(self.tokens[place])

    def _hour(self, keys: Sequence[str], values: Sequence[int]) -> list[Token] | None:
        """Return a time of day as it is written, if the run is one."""
        after = self.at[-1] + 1
        half_day = role_at(self.tokens, after) if after < len(self.tokens) else None
        said = half_day is not None and half_day[0] is Role.HALF_DAY
        before = tuple(token.key for token in self.tokens[: self.at[0]][-1:])
        if not said and (before not in self.lexicon.numerals.hours or self._over()):
            return None
        letters = "".join(map(self.lexicon.letter, keys))
        if len(values) == 1 and CLOCK.fullmatch(letters):
            hour, minute = divmod(values[0], 100)
        elif len(values) == 2:
            hour, minute = values
        else:
            return None
        if not (1 <= hour <= 12 and minute <= 59):
            return None
        whole = self._token(0, len(keys), hour)
        return [
            whole,
            replace(whole, kind=Kind.MARK, key=":", tight=True),
            replace(whole, key=f"{minute:02}", tight=True),
        ]


_Part = tuple[int, int, int | None]
"""Words from the first place up to the second, and their value; `None` for an "and" between."""


@lru_cache(maxsize=4096)
def _cut(language: int, keys: tuple[str, ...]) -> tuple[_Part, ...] | None:
    """Cut number words into as few numbers as can be; `None` if that can be done in two ways."""
    lexicon = LEXICONS[language]
    if len(keys) > _MOST_WORDS:
        return None
    letters = "".join(map(lexicon.letter, keys))
    best: list[list[tuple[_Part, ...]]] = [[()]]
    for after in range(1, len(keys) + 1):
        ways: list[tuple[_Part, ...]] = []
        for first in range(after):
            value: int | None = None
            if letters[first:after] != "&" or first == 0 or after == len(keys):
                value = value_of(lexicon, keys[first:after], letters[first:after], inside=first > 0)
                if value is None:
                    continue
            ways += [(*way, (first, after, value)) for way in best[first]]
        count = min((_count(way) for way in ways), default=0)
        best.append([way for way in ways if _count(way) == count][:_MOST_WAYS])
    if len(best[-1]) > 1 and _count(best[-1][0]) == _WHOLE:
        # What holds a number that no measure can be was not meant.
        best[-1] = [way for way in best[-1] if _all_possible(way)]
        if not all(_is_reading(way) for way in best[-1]):
            return None
    return best[-1][0] if len(best[-1]) == 1 else None


def _all_possible(way: Sequence[_Part]) -> bool:
    return all(value is None or possible_somewhere(value) for _, _, value in way)


def _is_reading(way: Sequence[_Part]) -> bool:
    """Return whether three numbers are an ordinary reading in their order."""
    systolic, diastolic, heart_rate = (value for _, _, value in way if value is not None)
    return ordinary(systolic, diastolic, heart_rate)


def _count(way: Sequence[_Part]) -> int:
    return sum(value is not None for _, _, value in way)


_BEGINS_WITH_NUMBER: Final = re.compile(
    "|".join(sorted((word for word in STARTERS if len(word) > 2), key=len, reverse=True))
)
