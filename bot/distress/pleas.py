"""Pleas that are no phrases: a bare "HELP!!!", and the numbers of emergency services."""

from collections.abc import Iterator, Sequence
from typing import Final

from bot.distress.folding import Gap
from bot.distress.heard import Doubt
from bot.distress.language import words
from bot.distress.languages import LANGUAGES
from bot.distress.lexicon import group
from bot.distress.spelling import Token

_HELP: Final = frozenset({"help", "ayuda"})
_CALL: Final = frozenset(group(LANGUAGES[0], "call"))
_NO_READING: Final = frozenset({"911", "999", "000"})
_PERHAPS_READING: Final = frozenset({"112"})
"""Numbers of emergency services: those that no reading holds, and one that a heart rate may be."""
_OF_A_PLEA: Final = words(
    "porfavor porfa please pls plz now help ya favor por ayuda urgente ahora quick asap emergency"
)
_BESIDE: Final = words(
    "please pls plz help ayuda urgente emergency emergencia socorro porfavor porfa"
)
"""Words that make such a number a plea when all others are of a plea too, or when beside it."""
_TOLD_OF: Final = words("was were era eran")
"""Words after such a number that tell of it as of any other."""
_DIGITS: Final = 3


def pleas(tokens: Sequence[Token], text: str) -> Iterator[tuple[int, int, Doubt | None]]:
    """Yield each plea: its first and last token, and the doubt about it."""
    yield from _cries(tokens, text)
    yield from _numbers(tokens, cried="!!" in text)


def _cries(tokens: Sequence[Token], text: str) -> Iterator[tuple[int, int, Doubt | None]]:
    """Yield a help that is more than the word for instructions: cried, repeated, drawn out."""
    if not tokens or any(_HELP.isdisjoint(token.means) for token in tokens):
        return
    last = len(tokens) - 1
    cried = max(text.count(mark) for mark in "!¡！")
    capitals = text[tokens[0].start : tokens[0].end].isupper()
    if last or cried > 1 or tokens[0].drawn or (cried and capitals):
        yield 0, last, None
    elif cried or capitals:
        yield 0, last, Doubt.UNCLEAR


def _numbers(tokens: Sequence[Token], *, cried: bool) -> Iterator[tuple[int, int, Doubt | None]]:
    index = 0
    while index < len(tokens):
        end, digits = _digits(tokens, index)
        if end == index:
            index += 1
            continue
        if end - index > 1 or not tokens[index].tied:
            yield from _number(tokens, index, end, digits, cried=cried)
        index = end


def _digits(tokens: Sequence[Token], index: int) -> tuple[int, str]:
    """Return the end of a number that may stand digit by digit, and its digits."""
    end, digits = index, ""
    while end < len(tokens) and tokens[end].word.isdecimal() and len(digits) < _DIGITS:
        if digits and (len(tokens[end].word) > 1 or len(digits) > end - index):
            break
        digits += tokens[end].word
        end += 1
        if len(digits) == _DIGITS and end - index == 1:
            break
    return end, digits


def _number(
    tokens: Sequence[Token], start: int, end: int, digits: str, *, cried: bool
) -> Iterator[tuple[int, int, Doubt | None]]:
    if _called(tokens, start) and len(digits) == _DIGITS:
        yield start, end - 1, None
        return
    beside = [*tokens[max(0, start - 1) : start], *tokens[end : end + 1]]
    if digits in _NO_READING | _PERHAPS_READING and any(t.word in _BESIDE for t in beside):
        yield start, end - 1, None
        return
    if any(token.word.isdecimal() and token.word != digits for token in beside):
        return
    if end < len(tokens) and tokens[end].word in _TOLD_OF:
        return
    if digits in _NO_READING:
        yield start, end - 1, None
    elif digits in _PERHAPS_READING:
        others = [*tokens[:start], *tokens[end:]]
        if cried:
            yield start, end - 1, None
        elif not others:
            yield start, end - 1, Doubt.NUMBER
        elif all(token.word in _OF_A_PLEA or token.word == digits for token in others):
            yield start, end - 1, None


def _called(tokens: Sequence[Token], start: int) -> bool:
    """Whether a word for calling stands before the number, small words aside."""
    for token in reversed(tokens[max(0, start - 3) : start]):
        if not _CALL.isdisjoint(token.means):
            return True
        if (
            token.word not in ("al", "a", "el", "the", "please", "ya", "number")
            or token.gap > Gap.SOFT
        ):
            return False
    return False
