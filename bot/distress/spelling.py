"""The words of a message as the known words that they may be."""

from collections.abc import Iterator
from functools import lru_cache
from typing import Final, NamedTuple

from bot.distress.folding import Gap, Piece, fold
from bot.distress.language import words
from bot.distress.languages import LANGUAGES
from bot.distress.lexicon import KNOWN, LEXICON, meanings, undrawn
from bot.distress.splitting import broken, parted

_REPEATED: Final = 2
_LONGEST_REPEATED: Final = 4
"""How often more in a row a word is listened to, and of how many words a row may be made (design
choice)."""
_SHORTEST_PART: Final = 5
"""Letters of a part of a glued word that means something by itself (design choice)."""
_JUST_READ: Final = 16
"""Messages that are remembered as read: one step asks many things of the same words."""
_STRAYS: Final = words("t m s d ve re ll")
"""What is left of a word after an apostrophe that became a space."""


class Token(NamedTuple):
    """A word, the known words that it may be, and where it stands (see `folding.Piece`).

    `longer` are known words made of this token and the next ones, with how many; `whole` is false
    for part of a word that is no known one. A named tuple, since thousands are made at once.
    """

    word: str
    means: frozenset[str]
    start: int
    end: int
    gap: Gap
    asked: bool
    opened: bool
    drawn: bool
    tied: bool
    whole: bool = True
    longer: tuple[tuple[int, frozenset[str]], ...] = ()


def _twins() -> dict[str, list[tuple[tuple[str, ...], str]]]:
    """Return the words that are one together, and that one, by the first of them."""
    found: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for language in LANGUAGES:
        for twin, joined in language.twins.items():
            found.setdefault(twin[0], []).append((twin, joined))
    return found


_TWINS: Final = _twins()


@lru_cache(maxsize=_JUST_READ)
def read(text: str) -> tuple[Token, ...]:
    """Return the words of a text."""
    tokens: list[Token] = []
    for piece in _unrepeated(_reattached(fold(text))):
        means = meanings(piece.word)
        parts = () if means or piece.word in KNOWN else _parts(piece)
        if not parts:
            tokens.append(_token(piece, piece.word, means))
            continue
        whole = all(part in KNOWN or meanings(part) for part in parts)
        for index, part in enumerate(parts):
            token = _token(piece, part, meanings(part))
            tokens.append(
                token._replace(
                    whole=whole and (len(part) >= _SHORTEST_PART or _apart(piece)),
                    gap=Gap.NONE if index else piece.gap,
                )
            )
    return tuple(_with_longer(_joined(tokens)))


def _apart(piece: Piece) -> bool:
    """Whether the letters stood apart."""
    return piece.end - piece.start > len(piece.word)


def _parts(piece: Piece) -> tuple[str, ...]:
    """Return the words that a glued one is made of, drawn out or not.

    A single letter beside split ones may be a word of its own, as in "s o s I fell".
    """
    word = piece.word
    apart = _apart(piece)
    if apart and word[:-1] in LEXICON:
        return word[:-1], word[-1]
    if apart and word[1:] in LEXICON:
        return word[0], word[1:]
    return next((parts for plain in undrawn(word) if (parts := parted(plain, split=apart))), ())


def _unrepeated(pieces: list[Piece]) -> Iterator[Piece]:
    """Leave out what only says the same word, or the same few, once more."""
    alike = [0] * (_LONGEST_REPEATED + 1)
    for index, piece in enumerate(pieces):
        said_before = False
        for period in range(1, min(index, _LONGEST_REPEATED) + 1):
            same = pieces[index - period].word == piece.word
            alike[period] = alike[period] + 1 if same else 0
            said_before = said_before or alike[period] > _REPEATED * period
        if not said_before:
            yield piece


def _token(piece: Piece, word: str, means: frozenset[str]) -> Token:
    return Token(word, means, *piece[1:])


def _whole(word: str, stray: str) -> str | None:
    return next((w + stray for w in undrawn(word) if w + stray in KNOWN), None)


def _reattached(pieces: tuple[Piece, ...]) -> list[Piece]:
    """Put what an apostrophe left behind back to its word: "can t" is "cant"."""
    kept: list[Piece] = []
    for piece in pieces:
        stray = undrawn(piece.word)[0]
        whole = _whole(kept[-1].word, stray) if kept and stray in _STRAYS else None
        if whole is None:
            kept.append(piece)
        else:
            kept[-1] = kept[-1]._replace(word=whole, end=piece.end)
    return kept


def _joined(tokens: list[Token]) -> list[Token]:
    """Put two words that are one together: "not able" is "unable"."""
    joined: list[Token] = []
    index = 0
    while index < len(tokens):
        count, word = _twin(tokens, index)
        token = tokens[index]
        if count:
            end = tokens[index + count - 1].end
            token = token._replace(word=word, means=frozenset({word}), end=end)
        joined.append(token)
        index += max(count, 1)
    return joined


def _twin(tokens: list[Token], index: int) -> tuple[int, str]:
    for means in tokens[index].means:
        for twin, joined in _TWINS.get(means, ()):
            found = tokens[index : index + len(twin)]
            if (
                len(found) == len(twin)
                and all(word in token.means for word, token in zip(twin, found, strict=True))
                and all(token.gap is Gap.NONE for token in found[1:])
            ):
                return len(twin), joined
    return 0, ""


def _with_longer(tokens: list[Token]) -> list[Token]:
    words = [token.word for token in tokens]
    return [
        token._replace(longer=tuple((n, frozenset({w})) for n, w in found))
        if (found := broken(words, index))
        else token
        for index, token in enumerate(tokens)
    ]
