"""Text into words: lower case, without accents, apostrophes, invisible and borrowed letters.

Letters that are split ("h e l p") are put together; what stood between words is remembered.
"""

import re
import unicodedata
from collections.abc import Iterator
from enum import IntEnum
from functools import lru_cache
from typing import Final, NamedTuple

LONGEST: Final = 4096
"""Characters that are listened to; no channel carries more in one message."""


class Gap(IntEnum):
    """What stands before a word."""

    NONE = 0
    SOFT = 1  # a comma, a dash
    STRONG = 2  # the end of a sentence
    LINE = 3


class Piece(NamedTuple):
    """A word as it is folded, and where it stands in the text (characters).

    `asked` tells whether its sentence ends with one question mark or opens with one, `opened`
    the latter; `drawn` that a letter was drawn out or that the letters stood apart; `tied` that a
    sign of a reading stands next to it. A named tuple, since thousands are made at once.
    """

    word: str
    start: int
    end: int
    gap: Gap
    asked: bool = False
    opened: bool = False
    drawn: bool = False
    tied: bool = False


_SIGNS: Final = {
    "\N{SQUARED SOS}": "sos", "\N{AMBULANCE}": "ambulance",
    "\N{POLICE CARS REVOLVING LIGHT}": "emojialarm", "\N{DIZZY FACE}": "emojidizzy",
}  # fmt: skip
"""Pictures that are words; what they mean is for the languages to say."""
_BORROWED: Final = dict(zip("асеорхуінкмтваορνικτ", "aceopxyihkmtbaopvikt", strict=True)) | {
    "ı": "i", "ł": "l", "ø": "o", "æ": "ae", "ð": "d", "ĸ": "k",
}  # fmt: skip
_LEET: Final = str.maketrans("013457", "oieast")
_INSIDE: Final = str.maketrans({"@": "a", "$": "s", **dict.fromkeys("'’`´ʼ‘‛′", "")})
_INVISIBLE: Final = frozenset({"Mn", "Me", "Cf"})
_LETTER: Final = (
    "[^\\W_]"
    "|[\\u24b6-\\u24e9\\U0001f150-\\U0001f189\\U0001f1e6-\\U0001f1ff]"
    "|['’`´ʼ‘‛′\\u00ad\\u034f\\u061c\\u200b-\\u200f\\u202a-\\u202e\\u2060-\\u206f\\ufe00-\\ufe0f\\ufeff]"
    "|[\\u0300-\\u036f\\u20d0-\\u20ff]|(?<=[^\\W\\d_])[@$](?=[^\\W\\d_])"
)
_WORDS: Final = re.compile(f"(?P<sign>[{''.join(_SIGNS)}])|(?:{_LETTER})+|[^\\w\\s]|_+|\\n+")
_SOFT: Final = frozenset(",!-–—()|，、！")
_STRONG: Final = frozenset(".?;:。？")
_WARD: Final = re.compile(r"\b[Aa]&[Ee]\b")
"""The emergency ward as it is written in the United Kingdom; else its letters would be parted."""
_RUN: Final = re.compile(r"(.)\1{2,}")
_FEWEST_SPLIT: Final = 3


def fold(text: str) -> tuple[Piece, ...]:
    """Return the words of the first 4096 characters."""
    text = _WARD.sub("ane", text[:LONGEST])
    pieces: list[Piece] = []
    marks, opened, sentence = "", False, 0
    for match in _WORDS.finditer(text):
        start, end = match.span()
        word = _SIGNS.get(match.group()) or _plain(match.group())
        if not word:
            if not match.group().translate(_INSIDE) or match.group()[0].isalnum():
                continue
            if not (marks == "" and start and _tight(text, start, end)) or match.group() in "!?\n":
                marks += match.group()
            continue
        gap = _gap(marks)
        if gap >= Gap.STRONG:
            if _asks(marks):
                pieces[sentence:] = [piece._replace(asked=True) for piece in pieces[sentence:]]
            opened, sentence = False, len(pieces)
        opened = opened or ("¿" in marks and "¡" not in marks)
        tied = word.isdecimal() and _tied(text, start, end)
        pieces.append(Piece(word, start, end, gap, opened, opened, drawn=False, tied=tied))
        marks = ""
    if _asks(marks):
        pieces[sentence:] = [piece._replace(asked=True) for piece in pieces[sentence:]]
    return tuple(_together(pieces))


@lru_cache(maxsize=4096)
def _plain(word: str) -> str:
    """Return a word in lower case without accents and signs, in Latin letters that look alike."""
    word = word.translate(_INSIDE)
    if word.isascii():
        return word.lower() if word.isalnum() else ""
    plain = unicodedata.normalize("NFKD", "".join(map(_unframed, word))).casefold()
    return "".join(
        _BORROWED.get(ch, ch)
        for ch in plain
        if ch.isalnum() and unicodedata.category(ch) not in _INVISIBLE
    )


def _unframed(ch: str) -> str:
    """Return the letter inside a circle or square."""
    for first in (0x1F150, 0x1F170, 0x1F1E6):
        if first <= ord(ch) < first + 26:
            return chr(ord("a") + ord(ch) - first)
    return ch


def _tight(text: str, start: int, end: int) -> bool:
    """Whether letters or digits stand right before and right after."""
    return text[start - 1 : start].isalnum() and text[end : end + 1].isalnum()


def _gap(marks: str) -> Gap:
    if not marks:
        return Gap.NONE
    if "\n" in marks:
        return Gap.LINE
    if _STRONG.intersection(marks) and ".." not in marks:
        return Gap.STRONG
    return Gap.SOFT if _SOFT.intersection(marks) else Gap.NONE


def _asks(marks: str) -> bool:
    return marks.count("?") == 1 and "!" not in marks


def _tied(text: str, start: int, end: int) -> bool:
    before, after = text[max(0, start - 2) : start].strip(), text[end : end + 2].strip()
    return before[-1:] in {"/", "+", "-"} or after[:1] in {"/", "-", "%"}


def _together(pieces: list[Piece]) -> Iterator[Piece]:
    """Join single letters that stand apart; take digits inside words for letters."""
    index = 0
    while index < len(pieces):
        end = index
        while end < len(pieces) and _one_letter(pieces[end].word):
            end += 1
        run = pieces[index:end]
        if len(run) >= _FEWEST_SPLIT and 2 * sum(p.word.isalpha() for p in run) > len(run):
            word = "".join(piece.word[0] for piece in run)
            yield _drawn(run[0]._replace(word=word, end=run[-1].end, drawn=True))
        else:
            end = max(end, index + 1)
            yield from map(_drawn, pieces[index:end])
        index = end


def _one_letter(word: str) -> bool:
    return len(word) == 1 or (len(set(word)) == 1 and word.isalpha())


def _drawn(piece: Piece) -> Piece:
    word = piece.word
    if word.isalpha():
        drawn = _RUN.search(word) is not None
        return piece._replace(drawn=True) if drawn and not piece.drawn else piece
    return piece if word.isdigit() else piece._replace(word=word.translate(_LEET))
