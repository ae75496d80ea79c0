"""Text into tokens: any script's digits, any case, accents or none.

Every token remembers where it stood, so that unused words come back as they were typed.
Character properties are those of the Unicode database that Python ships.
"""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final


class Kind(StrEnum):
    """What a token is."""

    NUMBER = "number"
    ODD = "odd"  # digits that no number can be made of without guessing: 72½, ②, two scripts mixed
    WORD = "word"
    MARK = "mark"
    BREAK = "break"  # the end of a line or sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Token:
    """A piece of the text.

    Attributes:
        kind: What it is.
        key: The form to compare: ASCII digits, small letters without accents.
        start: Where it begins in the text.
        end: Where the next character begins.
        tight: Whether it follows the token before without a space.
    """

    kind: Kind
    key: str
    start: int
    end: int
    tight: bool


_ODD: Final = "\ue000"  # stands for a character that is a number but not a decimal digit

_ALIKE: Final = {
    **dict.fromkeys("‐‑‒–—―−﹘﹣－", "-"),
    **dict.fromkeys("⁄∕⧸\\＼﹨", "/"),
    **dict.fromkeys("’‘ʼ`´′", "'"),
    **dict.fromkeys("•・‧∙⋅･", "·"),
    **dict.fromkeys("،、﹑", ","),
    **dict.fromkeys("¦｜∣", "|"),
    "٫": ".",
    "٬": ",",
    "؛": ";",
    "؟": "?",
    "٪": "%",
    "∶": ":",
    "✕": "×",
    "✖": "×",
    "⨯": "×",
    _ODD: "\ufffd",
}
_LINE_ENDS: Final = frozenset("\n\r\v\f\x1c\x1d\x1e\x85\u2028\u2029")
_KEYCAP: Final = frozenset("\ufe0e\ufe0f\u20e3")

_TOKEN: Final = re.compile(
    rf"""
      (?P<odd>   [0-9]*{_ODD}[0-9{_ODD}]* )
    | (?P<number>[0-9]+ )
    | (?P<word>  (?<![^\W\d_])[a-z](?:\.[a-z])+(?![^\W_])\.?         # b.p. is bp
               | [^\W\d_{_ODD}]+(?:'[^\W\d_{_ODD}]+)* )
    | (?P<break> \n | [.](?=\s|\Z) | [!?¡¿。…] )
    | (?P<mark>  \S )
    """,
    re.VERBOSE,
)


_LETTERS: Final = re.compile(
    r"""
      (?<![^\W_])(?:
          [12][0-9]o | [12]o[0-9o]  # 12o, 1o8, 1oo
        | [4-9]o                    # 8o; but 2o may be "segundo"
      )(?![^\W_])
    """,
    re.VERBOSE,
)
"""Numbers in which the letter stands for the digit that it looks like; nothing else can be meant.

An l for a 1 is asked about: behind a digit it may be liters, before one the end of a word.
"""

_ASCII: Final = str.maketrans(
    {
        **{mark: like for mark, like in _ALIKE.items() if mark.isascii()},
        **dict.fromkeys((end for end in _LINE_ENDS if end.isascii()), "\n"),
    }
)


def scan(text: str) -> tuple[Token, ...]:
    """Return the tokens of a text, in order; the time taken grows with its length."""
    plain, origins, scripts = _plain(text)
    plain = _with_digits(plain, scripts)
    tokens: list[Token] = []
    end = 0
    for match in _TOKEN.finditer(plain):
        kind = Kind(match.lastgroup or Kind.MARK)
        key = match.group()
        if kind is Kind.NUMBER and len(set(scripts[match.start() : match.end()])) > 1:
            kind = Kind.ODD
        if kind is Kind.WORD:
            key = key.replace(".", "")
        if kind is Kind.ODD:
            typed = text[origins[match.start()] : origins[match.end()]]
            key = unicodedata.normalize("NFKC", typed)
        tokens.append(
            Token(
                kind=kind,
                key=key,
                start=origins[match.start()],
                end=origins[match.end()],
                tight=bool(tokens) and match.start() == end,
            )
        )
        end = match.end()
    return tuple(tokens)


def _plain(text: str) -> tuple[str, list[int], list[int]]:
    """Return the text to compare, where each of its characters came from, and its script's zero."""
    if text.isascii():
        return text.lower().translate(_ASCII), list(range(len(text) + 1)), [0] * len(text)
    plain: list[str] = []
    origins: list[int] = []
    scripts: list[int] = []
    for position, character in enumerate(text):
        digit = unicodedata.decimal(character, None)
        before = plain[-1] if plain else " "
        zero = 0 if digit is None else ord(character) - digit
        for piece in _folded(character, before) if digit is None else str(digit):
            plain.append(piece)
            origins.append(position)
            scripts.append(zero)
    return "".join(plain), [*origins, len(text)], scripts


def _with_digits(plain: str, scripts: list[int]) -> str:
    """Return the text with each letter O that stands for a zero as one, of the script around it."""

    def digits(found: re.Match[str]) -> str:
        script = max(scripts[found.start() : found.end()])
        scripts[found.start() : found.end()] = [script] * len(found[0])
        return found[0].replace("o", "0")

    return _LETTERS.sub(digits, plain)


def _folded(character: str, before: str) -> Iterator[str]:
    """Yield what a character that is no decimal digit stands for."""
    if character in _LINE_ENDS:
        yield "\n"
        return
    character = _ALIKE.get(character, character)
    category = unicodedata.category(character)
    if category.startswith("M"):
        # An accent is dropped; a stroke through a digit may have struck it out.
        if before.isdecimal() and character not in _KEYCAP:
            yield _ODD
        return
    if category == "Cf":
        return
    if category in {"No", "Nl"}:
        yield _ODD
        return
    spread = unicodedata.normalize("NFKD", character).casefold()
    if any(piece.isdecimal() for piece in spread):
        yield _ODD
        return
    for piece in spread:
        if not unicodedata.category(piece).startswith("M"):
            yield _ALIKE.get(piece, piece)
