"""Everything that a message says that cannot wait, the worst that is certain first."""

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import Final

from bot.distress.doubting import Statements
from bot.distress.heard import GRADES, Doubt, Grade, Heard, Kind
from bot.distress.languages import LANGUAGES
from bot.distress.lexicon import SMALL, guesses
from bot.distress.patterns import CALLS, HARMLESS, HAZY, UNWELL, Find, Phrases
from bot.distress.pleas import pleas
from bot.distress.spelling import Token, read

LEAVING: Final = frozenset[str]().union(*(language.leaving for language in LANGUAGES))
_FAREWELL: Final = max(len(message.split()) for message in LEAVING)
_JUST_HEARD: Final = 16
"""Messages that are remembered as heard: one step asks several times."""


def hear(text: str) -> Heard | None:
    """Return the call for help that a message holds, the worst that is certain before all others.

    Args:
        text: Anything at all; its first 4096 characters are listened to.
    """
    return next(iter(hear_all(text)), None)


@lru_cache(maxsize=_JUST_HEARD)
def hear_all(text: str) -> tuple[Heard, ...]:
    """Return every kind of call that a message holds, each once: certain first, worst first."""
    best: dict[Kind, Heard] = {}
    for heard in sorted(_heard(read(text), text), key=_rank):
        best.setdefault(heard.kind, heard)
    return tuple(best.values())


def unwell(text: str) -> bool:
    """Whether the message says that the person is not all right, in words that are no call."""
    return any(True for _ in UNWELL.found(read(text)))


def _rank(heard: Heard) -> tuple[bool, bool, bool]:
    return (
        not heard.certain,
        heard.grade is not Grade.EMERGENCY,
        heard.kind is Kind.VERY_DIZZY,
    )


def _heard(tokens: Sequence[Token], text: str) -> Iterator[Heard]:
    if len(tokens) <= _FAREWELL and " ".join(token.word for token in tokens) in LEAVING:
        return
    silent = True
    for first, last, why in pleas(tokens, text):
        silent = False
        yield _said(Kind.PLEA, why, _typed(tokens, first, last, text))
    for kind, why, find in _told(tokens, _standing(tokens, CALLS.found(tokens))):
        silent = False
        yield _said(kind, why, _typed(tokens, find.first, find.last, text))
    if silent:
        guessed = _guessed(tokens)
        for kind, why, find in _told(tokens, _standing(tokens, guessed)):
            yield _said(kind, why or Doubt.UNCLEAR, _typed(tokens, find.first, find.last, text))


def _guessed(tokens: Sequence[Token]) -> Iterator[Find]:
    """Yield phrases in which one word is another by a slip, and a telling one as it should be.

    So "cheat pain" is heard, though in doubt.
    """
    wider = [token._replace(means=token.means | guesses(token.word)) for token in tokens]
    for find in CALLS.found(wider):
        if find.phrase.whole or len(find.filled) != len(find.phrase.slots):
            continue
        sure = [index for index in find.filled if find.words_at(index, tokens)]
        told = any(tokens[index].means - SMALL for index in sure)
        if told and len(sure) == len(find.filled) - 1:
            yield find


def _told(
    tokens: Sequence[Token], finds: Sequence[Find]
) -> Iterator[tuple[Kind, Doubt | None, Find]]:
    """Yield what the phrases say: each kind until it is certain."""
    taken = frozenset(index for find in finds for index in find.filled)
    if not finds:
        return
    hazy = _tokens(HAZY, tokens)
    statements = Statements(tokens, taken)
    certain: set[Kind] = set()
    doubted: set[Kind] = set()
    for find in finds:
        kind = find.phrase.kind
        if kind is None or kind in certain or (find.phrase.unclear and kind in doubted):
            continue
        why = statements.doubt(find)
        if kind is Kind.VERY_DIZZY and why is Doubt.DENIED:
            continue
        if why is None and (find.phrase.unclear or not hazy.isdisjoint(find.filled)):
            why = Doubt.UNCLEAR
        (certain if why is None else doubted).add(kind)
        yield kind, why, find


def _standing(tokens: Sequence[Token], finds: Iterable[Find]) -> list[Find]:
    """Return the phrases that stand: none that is harmless, or only part of a longer one."""
    found = list(finds)
    if not found:
        return []
    harmless = _harmless(tokens, found)
    distinct: dict[tuple[tuple[int, ...], Kind | None, bool], Find] = {}
    for find in found:
        if harmless.isdisjoint(find.filled) and (not find.phrase.whole or _is_all(find, tokens)):
            distinct.setdefault((find.filled, find.phrase.kind, find.phrase.unclear), find)
    finds = list(distinct.values())
    sets = [frozenset(find.filled) for find in finds]
    holders: dict[int, list[tuple[frozenset[int], Find]]] = {}
    for find, filled in zip(finds, sets, strict=True):
        for index in filled:
            holders.setdefault(index, []).append((filled, find))
    return [
        find
        for find, filled in zip(finds, sets, strict=True)
        if not any(
            filled < other and _read_alike(find, by, tokens) for other, by in holders[find.first]
        )
    ]


def _harmless(tokens: Sequence[Token], calls: Sequence[Find]) -> frozenset[int]:
    """Return the words that harmless phrases take away: none of one that a longer call holds."""
    holders: dict[int, list[frozenset[int]]] = {}
    for find in calls:
        if not find.phrase.unclear:
            filled = frozenset(find.filled)
            for index in filled:
                holders.setdefault(index, []).append(filled)
    return frozenset(
        index
        for harmless in HARMLESS.found(tokens)
        if not any(held > set(harmless.filled) for held in holders.get(harmless.first, ()))
        for index in harmless.filled
    )


def _read_alike(part: Find, longer: Find, tokens: Sequence[Token]) -> bool:
    """Whether both phrases take each word that they share for the same known word."""
    return all(
        not (words & longer.words_at(index, tokens)).isdisjoint(tokens[index].means)
        for index in part.filled
        if (words := part.words_at(index, tokens))
    )


def _tokens(phrases: Phrases, tokens: Sequence[Token]) -> frozenset[int]:
    return frozenset(index for find in phrases.found(tokens) for index in find.filled)


def _is_all(find: Find, tokens: Sequence[Token]) -> bool:
    return all(
        index in find.filled or not SMALL.isdisjoint(token.means)
        for index, token in enumerate(tokens)
    )


def _said(kind: Kind, why: Doubt | None, words: str) -> Heard:
    return Heard(grade=GRADES[kind], kind=kind, doubt=why, words=words)


def _typed(tokens: Sequence[Token], first: int, last: int, text: str) -> str:
    return text[tokens[first].start : tokens[last].end]
