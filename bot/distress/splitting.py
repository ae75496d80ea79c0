"""Words that were glued together or broken apart, as the known words that they are made of."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from bot.distress.language import words
from bot.distress.lexicon import KNOWN, LEXICON, SMALL, meanings

_SHORTEST_GLUED: Final = 5
_SHORTEST_BROKEN: Final = 5
_BROKEN_INTO: Final = 3
_LONGEST_GLUED: Final = 400
_LONGEST_WORD: Final = 14
_STRANGE: Final = 4
_TINY: Final = words("i a me no se my im he la el de le es y is it in un to on ha ya mi al")
_TINIEST: Final = 2
_TELLING: Final = 3
_SCRAPS: Final = 4
"""Letters of a scrap and of a word that tells something; one letter in so many may be left over
(design choice)."""
_PARTS: Final = frozenset(w for w in KNOWN if 3 <= len(w) <= _LONGEST_WORD) | _TINY

_STARTS: Final = frozenset(w[:_TELLING] for w in LEXICON - SMALL if len(w) >= _TELLING)


@lru_cache(maxsize=1024)
def parted(word: str, *, split: bool = False) -> tuple[str, ...]:
    """Return the words that a glued one is made of, with the fewest letters left over.

    What is left over stands as a word of its own, since it may be misspelt. One word alone, or
    nothing that means anything, is no parting: then the tuple is empty. `split` tells that its
    letters stood apart, so that small words are believed as well.
    """
    if not _SHORTEST_GLUED <= len(word) <= _LONGEST_GLUED or not word.isalpha():
        return ()
    if not any(word[at : at + _TELLING] in _STARTS for at in range(len(word) - _TELLING + 1)):
        return ()
    size = len(word)
    # best[i]: (cost, where the last part of the first i letters begins, whether it is known)
    best: list[tuple[int, int, bool]] = [(0, 0, True)]
    for end in range(1, size + 1):
        cost, start, known = best[end - 1]
        begun = start if not known and end > 1 else end - 1
        found = (cost + _STRANGE, begun, False)
        for begin in range(max(0, end - _LONGEST_WORD), end):
            if best[begin][0] + 1 < found[0] and word[begin:end] in _PARTS:
                found = (best[begin][0] + 1, begin, True)
        best.append(found)
    parts: list[str] = []
    end = size
    while end:
        begin = best[end][1]
        parts.append(word[begin:end])
        end = begin
    parts.reverse()
    return tuple(parts) if _sound(parts, split=split) else ()


def _sound(parts: list[str], *, split: bool) -> bool:
    """Whether the parting is believable: mostly words that mean something, few scraps."""
    tiny = sum(len(part) <= _TINIEST for part in parts)
    told = [part for part in parts if part in _PARTS or meanings(part)]
    scraps = sum(len(part) for part in parts if part not in told)
    return (
        len(parts) > 1
        and any(len(part) >= _TELLING and part not in SMALL for part in told)
        and len(told) > 1
        and (split or tiny * 2 <= len(parts))
        and scraps * _SCRAPS <= sum(len(part) for part in parts)
    )


def broken(words: Sequence[str], index: int) -> tuple[tuple[int, str], ...]:
    """Return the known words that begin here and are broken over several, with how many."""
    found: list[tuple[int, str]] = []
    word = words[index]
    strange = word not in KNOWN
    for count in range(2, _BROKEN_INTO + 1):
        if index + count > len(words) or len(word) > _LONGEST_WORD:
            break
        following = words[index + count - 1]
        word += following
        strange = strange or following not in KNOWN
        if strange and len(word) >= _SHORTEST_BROKEN and word in LEXICON:
            found.append((count, word))
    return tuple(found)
