"""Phrases, and where they stand in a message."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bot.distress.folding import Gap
from bot.distress.heard import Kind
from bot.distress.language import Language
from bot.distress.languages import LANGUAGES
from bot.distress.lexicon import SMALL, phrases_in, slots_of
from bot.distress.spelling import Token

_NEAR: Final = 3
_WIDE: Final = 6
_OTHERS: Final = 3
_BROKEN: Final = 2
"""Words between two slots: small ones, all, and others than small ones; parts of a broken word
after its first (design choice)."""
NEGATIONS: Final = frozenset[str]().union(*(language.negations for language in LANGUAGES))


@dataclass(frozen=True, slots=True, kw_only=True)
class Phrase:
    """Slots to be filled in order, and what it means when they are."""

    slots: tuple[tuple[frozenset[str], bool], ...]
    kind: Kind | None = None
    unclear: bool = False
    whole: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Find:
    """A phrase in a message: the tokens that fill its slots, and those in between."""

    phrase: Phrase
    filled: tuple[int, ...]
    between: tuple[int, ...]

    @property
    def first(self) -> int:
        """Return the first token that belongs to it."""
        return self.filled[0]

    def words_at(self, index: int, tokens: Sequence[Token]) -> frozenset[str]:
        """Return the known words that a token is taken for; none if it is broken or not filled."""
        if len(self.filled) != len(self.phrase.slots) or index not in self.filled:
            return frozenset()
        return self.phrase.slots[self.filled.index(index)][0] & tokens[index].means

    @property
    def last(self) -> int:
        """Return the last token that belongs to it."""
        return self.filled[-1]


class Phrases:
    """Phrases by the words that may begin them."""

    def __init__(self, phrases: Iterable[Phrase], *, misspelt: bool = True) -> None:
        self._misspelt = misspelt
        self._by_first: dict[str, list[Phrase]] = {}
        self.all = tuple(phrases)
        for phrase in self.all:
            for word in phrase.slots[0][0]:
                self._by_first.setdefault(word, []).append(phrase)

    def found(self, tokens: Sequence[Token]) -> Iterator[Find]:
        """Yield every phrase that stands in the message, at each place where it begins."""
        for index, token in enumerate(tokens):
            ahead: set[str] | None = None
            for count, means in ((1, token.means), *token.longer):
                for word in means:
                    for phrase in self._by_first.get(word, ()):
                        if len(phrase.slots) > 1:
                            ahead = ahead if ahead is not None else _ahead(tokens, index)
                            if phrase.slots[1][0].isdisjoint(ahead):
                                continue
                        filled = (*range(index, index + count),)
                        find = _follow(phrase, tokens, 1, filled, ())
                        if find is None or not (token.whole or len(phrase.slots) > 1):
                            continue
                        if self._misspelt or _exact(find, tokens):
                            yield find


def _ahead(tokens: Sequence[Token], index: int) -> set[str]:
    """Return all known words that may fill the slot after one that is filled here."""
    words: set[str] = set()
    for token in tokens[index + 1 : index + _WIDE + _BROKEN + 2]:
        words |= token.means
        for _, means in token.longer:
            words |= means
    return words


def _exact(find: Find, tokens: Sequence[Token]) -> bool:
    return all(
        tokens[index].word in options
        for index, (options, _) in zip(find.filled, find.phrase.slots, strict=False)
    )


def _follow(
    phrase: Phrase,
    tokens: Sequence[Token],
    slot: int,
    filled: tuple[int, ...],
    between: tuple[int, ...],
) -> Find | None:
    if slot == len(phrase.slots):
        return Find(phrase=phrase, filled=filled, between=between)
    options, wide = phrase.slots[slot]
    others, skipped = 0, between
    denying = not NEGATIONS.isdisjoint(tokens[filled[-1]].means)
    for index in range(
        filled[-1] + 1, min(len(tokens), filled[-1] + 2 + (_WIDE if wide else _NEAR))
    ):
        token = tokens[index]
        if token.gap >= Gap.SOFT and denying:
            return None
        if token.gap >= Gap.STRONG and index > filled[-1] + 1 + wide:
            return None
        for count, means in ((1, token.means), *token.longer):
            if not options.isdisjoint(means):
                more = (*filled, *range(index, index + count))
                if (find := _follow(phrase, tokens, slot + 1, more, skipped)) is not None:
                    return find
        small = not SMALL.isdisjoint(token.means)
        others += not small
        if (not small and not wide) or others > _OTHERS:
            return None
        skipped = (*skipped, index)
    return None


def phrases_of(language: Language) -> Iterator[Phrase]:
    """Yield what a language listens for."""
    for blocks, unclear, whole in (
        (language.phrases, False, False),
        (language.unclear, True, False),
        (language.whole, True, True),
    ):
        for kind, lines in blocks.items():
            for line in phrases_in(lines):
                yield Phrase(
                    slots=slots_of(language, line), kind=kind, unclear=unclear, whole=whole
                )


def _plain(blocks: Iterable[tuple[Language, str]], *, misspelt: bool = False) -> Phrases:
    phrases = (
        Phrase(slots=slots_of(language, line))
        for language, lines in blocks
        for line in phrases_in(lines)
    )
    return Phrases(phrases, misspelt=misspelt)


CALLS: Final = Phrases(p for language in LANGUAGES for p in phrases_of(language))
HARMLESS: Final = _plain((language, language.harmless) for language in LANGUAGES)
HAZY: Final = _plain((language, language.hazy) for language in LANGUAGES)
UNWELL: Final = _plain(((language, language.unwell) for language in LANGUAGES), misspelt=True)
PASTS: Final = _plain((language, language.pasts) for language in LANGUAGES)
