"""Text into units: words and phrases with what they can mean, and numbers as they were written."""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final

from bot.booking.lexicon import find, mend
from bot.booking.words import Role, Sense


class Form(StrEnum):
    """How a unit was written."""

    WORDS = "words"
    NUMBER = "number"
    ORDINAL = "ordinal"  # 7th
    CLOCK = "clock"  # 8:30
    PAIR = "pair"  # 7/3, 7-3
    TRIPLE = "triple"  # 7/3/2026
    ISO = "iso"  # 2026-03-07
    STRANGE = "strange"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A piece of the text.

    Attributes:
        form: How it was written.
        senses: What it can mean; empty for `STRANGE`, and for forms that are all numbers.
        numbers: The digits in it, in order, each run as it was written.
        dashed: Whether dashes part them.
        text: The piece as it was typed.
        apart: Whether something stands between it and the unit before.
        after_dash: Whether that is a dash.
    """

    form: Form
    senses: frozenset[Sense] = frozenset()
    numbers: tuple[str, ...] = ()
    dashed: bool = False
    text: str
    apart: bool = False
    after_dash: bool = False


_TOKEN: Final = re.compile(
    r"""
      (?P<iso>     [0-9]{4}(?P<i>[-/.])[0-9]{1,2}(?P=i)[0-9]{1,2}
                   (?![0-9]|[-/.:][0-9])(?:t(?=[0-9]))? )
    | (?P<triple>  [0-9]{1,2}(?P<s>[-/.])[0-9]{1,2}(?P=s)(?:[0-9]{4}|[0-9]{2})
                   (?![0-9]|[-/.:][0-9]) )
    | (?P<clock>   [0-9]{1,2}(?:\ ?[:h]\ ?|[.'])[0-9]{2}(?::[0-9]{2})? (?![0-9]|[:.'/][0-9]) )
    | (?P<pair>    [0-9]{1,2}[-/][0-9]{1,2} (?![0-9]|[-/.:][0-9]) )
    | (?P<ordinal> [0-9]{1,2}(?:st|nd|rd|th|o|ro|ero) (?!['\w]) )
    | (?P<number>  [0-9]+ )
    | (?P<half>    (?:[ap]\.\ ?m\.?|[ap]m\.?) (?!\w) )
    | (?P<word>    [^\W\d_]+(?:'[^\W\d_]+)* | @ )
    | (?P<mark>    \S )
    """,
    re.VERBOSE,
)
_HYPHEN: Final = re.compile(r"(?<=[^\W\d_])-(?=[^\W\d_])")  # twenty-five
_FORMS: Final = {form.value: form for form in Form}
_MARKS: Final = frozenset(",.;:!?()\"'-*_~…¡¿")  # parting words, they change nothing
_ALIKE: Final = {
    **dict.fromkeys("‐‑‒–—―−﹘﹣－", "-"),
    **dict.fromkeys("’‘ʼ`´′", "'"),
    **dict.fromkeys("“”„«»", '"'),
    "∶": ":",
    "⁄": "/",
}
_KEYCAP: Final = frozenset("\ufe0e\ufe0f\u20e3")
_STRANGE: Final = "\ufffd"


def take_apart(text: str) -> tuple[Unit, ...]:
    """Return the units of a text, in order, without words and marks that change nothing."""
    plain, origins = _plain(text)
    plain = _HYPHEN.sub(" ", plain)
    matches = list(_TOKEN.finditer(plain))
    units: list[Unit] = []
    position, apart, after_dash = 0, False, False
    while position < len(matches):
        match = matches[position]
        senses, length = frozenset[Sense](), 1
        if match.lastgroup in {"half", "word"}:
            senses, length = find(_words(matches, position))
            if not length:
                senses, length = mend(match.group()), 1
        last = matches[position + length - 1]
        position += length
        if (match.lastgroup == "mark" and match.group() in _MARKS) or _soft(senses):
            apart = True
            after_dash |= match.group() == "-"
            continue
        typed = text[origins[match.start()] : origins[last.end()]]
        unit = _unit(match, senses, typed.strip())
        units.append(replace(unit, apart=apart, after_dash=after_dash))
        apart = after_dash = False
    return tuple(units)


def _unit(match: re.Match[str], senses: frozenset[Sense], typed: str) -> Unit:
    numbers = tuple(re.findall("[0-9]+", match.group()))
    form = _FORMS.get(match.lastgroup or "", Form.WORDS if senses else Form.STRANGE)
    if form in {Form.NUMBER, Form.ORDINAL}:
        role = Role.NUMBER if form is Form.NUMBER else Role.ORDINAL
        # A number too long to matter would only cost time.
        senses = frozenset({Sense(role=role, value=int(numbers[0][:6]))})
    return Unit(
        form=form,
        senses=senses,
        numbers=numbers,
        dashed="-" in match.group(),
        text=typed,
    )


def _soft(senses: frozenset[Sense]) -> bool:
    return bool(senses) and all(sense.role is Role.SOFT for sense in senses)


def _words(matches: list[re.Match[str]], start: int) -> list[str]:
    """Return the words from here to the next number or mark, as far as a phrase may reach."""
    words: list[str] = []
    for match in matches[start : start + 6]:
        if match.lastgroup not in {"half", "word"}:
            break
        key = match.group()
        words.append(re.sub(r"[. ]", "", key) if match.lastgroup == "half" else key)
    return words


def _plain(text: str) -> tuple[str, list[int]]:
    """Return the text to compare, and where each of its characters came from."""
    plain: list[str] = []
    origins: list[int] = []
    for position, character in enumerate(text):
        before = plain[-1] if plain else " "
        for piece in _folded(character, before):
            plain.append(piece)
            origins.append(position)
    return "".join(plain), [*origins, len(text)]


def _folded(character: str, before: str) -> Iterator[str]:
    """Yield what a character stands for: ASCII digits, small letters, no accents."""
    digit = unicodedata.decimal(character, None)
    if digit is not None:
        yield str(digit)
        return
    category = unicodedata.category(character)
    if character.isspace():
        yield " "
    elif category.startswith("M"):
        # An accent is dropped; a stroke through a digit may have struck it out.
        if before.isdecimal() and character not in _KEYCAP:
            yield _STRANGE
    elif category in {"No", "Nl"}:
        yield _STRANGE  # ½ and the like
    elif category not in {"Cf", "So", "Sk"} or character in _ALIKE:
        for piece in unicodedata.normalize("NFKD", _ALIKE.get(character, character)).casefold():
            if piece.isdecimal():
                yield _STRANGE
            elif not unicodedata.category(piece).startswith("M"):
                yield _ALIKE.get(piece, piece)
