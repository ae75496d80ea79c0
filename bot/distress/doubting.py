"""Whether a phrase is meant of the person and of now. What is not surely doubtful is certain."""

from collections.abc import Iterable, Sequence
from typing import Final

from bot.distress.folding import Gap
from bot.distress.heard import Doubt, Kind
from bot.distress.language import words
from bot.distress.languages import LANGUAGES
from bot.distress.patterns import NEGATIONS, PASTS, Find
from bot.distress.spelling import Token


def _all(words: Iterable[Iterable[str]]) -> frozenset[str]:
    return frozenset(word for listed in words for word in listed)


_BRIDGES: Final = _all(language.bridges for language in LANGUAGES)
_INTERJECTIONS: Final = _all(language.interjections for language in LANGUAGES)
_LISTS: Final = _all(language.lists for language in LANGUAGES)
_SUBJECTS: Final = _all(language.subjects for language in LANGUAGES)
_ENDS: Final = _all(language.ends for language in LANGUAGES)
_PRESENTS: Final = _all(language.presents for language in LANGUAGES)
_AGES: Final = _all(language.ages for language in LANGUAGES)
_HABITS: Final = _all(language.habits for language in LANGUAGES)
_OTHERS: Final = _all(language.others for language in LANGUAGES)
_KIN: Final = _all(language.kin for language in LANGUAGES)
_OTHERS_BEFORE: Final = _all(language.others_before for language in LANGUAGES)
_OTHERS_NOW: Final = _all(language.others_now for language in LANGUAGES)
_FIRSTS: Final = _all(language.firsts for language in LANGUAGES)
_CONDITIONS: Final = _all(language.conditions for language in LANGUAGES)
_PAIRS: Final = frozenset(pair for language in LANGUAGES for pair in language.questions)
_OPENERS: Final = _all(language.openers for language in LANGUAGES)
_PLEAS_ASKED: Final = _all(language.pleas_asked for language in LANGUAGES)
_REACH: Final = 8
_LIST_REACH: Final = 3
_FAR: Final = 24
"""Words before a phrase in which a denial is looked for, others than bridges that a list may put
between, and words to either side that are looked at in the same statement (design choice)."""
_TURNS: Final = frozenset({"but", "however", "pero", "aunque", "sino"})
_ANDS: Final = frozenset({"and", "y", "e"})
_TURNED: Final = words("now have am i im is my feel ahora tengo estoy me siento")
_NEVER_ENDING: Final = words(
    "stop stopping going quit getting only just solo para deja cesa better"
)
"""Words that turn a denial before them into more of it: "won't stop"."""
_IFS: Final = words("if si")
_INVERTED: Final = words("is are es son does do")
_WEIGHED: Final = words(
    "normal common expected usual dangerous something sign senal comun peligroso normales esperable"
)
_WEIGHED_WITHIN: Final = 3
"""Words that begin a question, words that weigh something up, and how soon (design choice)."""
_LATE: Final = frozenset({"before", "antes", "ever"})


class Statements:
    """The words of a message, and what was worked out once about its statements."""

    def __init__(self, tokens: Sequence[Token], taken: frozenset[int]) -> None:
        """Take the words, and those among them that any phrase was found in."""
        self.tokens = tokens
        self.taken = taken
        self._begins = [
            index for index, _ in enumerate(tokens) if index == 0 or _begins(tokens, index)
        ]
        self._of = self._numbered()
        self._pasts: dict[int, list[Find]] = {}
        for past in PASTS.found(tokens):
            if self._counts(past):
                self._pasts.setdefault(self._of[past.first], []).append(past)
        self._present = self._with(_PRESENTS)
        self._habit = self._with(_HABITS)

    def _numbered(self) -> list[int]:
        numbers: list[int] = []
        begins = frozenset(self._begins)
        for index, _ in enumerate(self.tokens):
            before = numbers[-1] if numbers else -1
            numbers.append(before + (index in begins))
        return numbers

    def _with(self, words: frozenset[str]) -> frozenset[int]:
        return frozenset(
            number for number, token in zip(self._of, self.tokens, strict=True) if _is(token, words)
        )

    def _counts(self, past: Find) -> bool:
        if past.first > 0 and _is(self.tokens[past.first - 1], _AGES):
            return False
        late = self.tokens[past.first].word in _LATE
        return not late or past.last == self.span(past.first)[1] - 1

    def span(self, index: int) -> tuple[int, int]:
        """Return where the statement that a word belongs to begins and ends."""
        number = self._of[index]
        begins = self._begins
        end = begins[number + 1] if number + 1 < len(begins) else len(self.tokens)
        return max(begins[number], index - _FAR), min(end, index + _FAR)

    def doubt(self, find: Find) -> Doubt | None:
        """Return why the phrase may not be meant, or `None` when it is certain.

        A denial carries over other phrases in a list.
        """
        for index in find.between:
            if _is(self.tokens[index], NEGATIONS) and not _is(self.tokens[index], _LISTS):
                following = self.tokens[index + 1]
                if not _is(following, _NEVER_ENDING):
                    return Doubt.DENIED
        if _is(self.tokens[find.first], _CONDITIONS):
            return Doubt.SUPPOSED
        if (led := _led(find, self.tokens, self.taken)) is not None:
            return led
        if _denied_after(find, self.tokens):
            return Doubt.DENIED
        present = self._of[find.first] in self._present
        if not present and self._past(find):
            return Doubt.PAST
        if not present and self._of[find.first] in self._habit:
            return Doubt.HABIT
        if _of_another(find, self.tokens, *self.span(find.first)):
            return Doubt.ABOUT_OTHER
        if _asked(find, self.tokens) or _weighed(find, self.tokens):
            return Doubt.QUESTION
        return self._only_asked(find)

    def _only_asked(self, find: Find) -> Doubt | None:
        """Return the doubt about what a question mark is enough to put in doubt."""
        if not self.tokens[find.first].asked:
            return None
        if find.phrase.kind is Kind.VERY_DIZZY:
            return Doubt.QUESTION
        after = self.tokens[find.last + 1 : self.span(find.last)[1]]
        planned = find.phrase.kind is Kind.PLEA and any(t.word in _IFS for t in after)
        return Doubt.SUPPOSED if planned else None

    def _past(self, find: Find) -> bool:
        """Whether the statement, or one before it that says no more, is of a past time."""
        number = self._of[find.first]
        pasts = self._pasts.get(number, ())
        if any(
            find.first - _FAR < past.first < find.last + _FAR
            and set(find.filled).isdisjoint(past.filled)
            for past in pasts[:_FAR]
        ):
            return True
        start = self._begins[number]
        if number == 0 or self.tokens[start].gap != Gap.SOFT or number - 1 in self._present:
            return False
        before = self._begins[number - 1]
        if start - before > _AROUND * 4 or not self.taken.isdisjoint(range(before, start)):
            return False
        return any(
            past.first - before <= _AROUND and start - past.last <= _AROUND * 2
            for past in self._pasts.get(number - 1, ())[:_FAR]
        )


_AROUND: Final = 2
"""Words around a past time that stands for itself, as in "last year, I fainted" (design choice)."""


def _begins(tokens: Sequence[Token], index: int) -> bool:
    """Whether a new statement begins at this word."""
    if tokens[index].gap >= Gap.SOFT or tokens[index].word in _TURNS:
        return True
    following = tokens[index + 1].word if index + 1 < len(tokens) else ""
    return tokens[index].word in _ANDS and following in _TURNED


def _is(token: Token, words: frozenset[str]) -> bool:
    """Whether the word is one of those, as it stands or drawn out: a slip casts no doubt."""
    return token.word in words or (token.drawn and not words.isdisjoint(token.means))


def _led(find: Find, tokens: Sequence[Token], taken: frozenset[int]) -> Doubt | None:
    """Walk back from the phrase over words that carry a denial, a condition or a question on."""
    listed, strangers, index = False, 0, find.first
    denying = False
    if any(_pair(*tokens[at : at + 2]) for at in (index - 1, index) if 0 <= at < len(tokens) - 1):
        return Doubt.QUESTION
    while index > 0 and find.first - index < _REACH + 2 * listed:
        gap = tokens[index].gap
        if gap >= Gap.STRONG or (gap >= Gap.SOFT and not listed):
            return None
        index -= 1
        token = tokens[index]
        if _is(token, _CONDITIONS):
            return Doubt.SUPPOSED
        if index > 0 and _pair(tokens[index - 1], token):
            return Doubt.QUESTION
        if _is(token, NEGATIONS) and not _is(token, _LISTS):
            return Doubt.DENIED if _denies(index, tokens) else None
        if _is(token, _LISTS):
            listed = True
            denying = denying or _is(token, NEGATIONS)
        elif index in taken and listed:
            continue
        elif not _is(token, _BRIDGES):
            strangers += 1
            if not listed or strangers > _LIST_REACH:
                break
    return Doubt.DENIED if denying else None


def _pair(first: Token, second: Token) -> bool:
    return second.gap is Gap.NONE and (first.word, second.word) in _PAIRS


def _denies(index: int, tokens: Sequence[Token]) -> bool:
    """Whether a negation denies what follows, rather than standing for itself."""
    token = tokens[index]
    if not _is(token, _INTERJECTIONS):
        return True
    doubled = index > 0 and token.gap is Gap.NONE and _is(tokens[index - 1], _INTERJECTIONS)
    return not doubled and not _is(tokens[index + 1], _SUBJECTS)


def _denied_after(find: Find, tokens: Sequence[Token]) -> bool:
    if find.last + 2 != len(tokens):
        return False
    return _is(tokens[-1], _ENDS) and tokens[-1].gap < Gap.LINE


def _of_another(find: Find, tokens: Sequence[Token], start: int, end: int) -> bool:
    if any(_is(tokens[index], _FIRSTS) for index in find.filled):
        return False
    for index in range(find.first - 1, start - 1, -1):
        token = tokens[index]
        owned = index > 0 and _is(tokens[index - 1], _OTHERS_BEFORE)
        if token.word in _OTHERS and owned:
            clause = [t for i, t in enumerate(tokens[start:end], start) if i >= index - 1]
            if token.word in _KIN:
                return any(t.word in ("had", "tuvo", "sufrio") for t in clause)
            return not any(t.word in _OTHERS_NOW for t in clause)
        if token.word in _FIRSTS and not (
            index + 1 < len(tokens) and tokens[index + 1].word in _OTHERS
        ):
            return False
    return False


def _weighed(find: Find, tokens: Sequence[Token]) -> bool:
    """Whether it is asked of the phrase what it means: "is a cold sweat something bad"."""
    after = tokens[find.last + 1 : find.last + 1 + _WEIGHED_WITHIN]
    if not any(token.word in _WEIGHED for token in after):
        return False
    opening = find.first
    while opening > 0 and tokens[opening].gap < Gap.STRONG and find.first - opening < _REACH:
        opening -= 1
    before = tokens[opening : find.first]
    if before and before[0].word in _INVERTED:
        return True
    return tokens[find.first].asked and not any(_is(token, _FIRSTS) for token in before)


def _asked(find: Find, tokens: Sequence[Token]) -> bool:
    """Whether the sentence is a question that opens before the phrase."""
    if not tokens[find.first].asked:
        return False
    opening = find.first
    while opening > 0 and tokens[opening].gap < Gap.STRONG:
        opening -= 1
        if find.first - opening > _FAR:
            return False
    between = tokens[opening : find.first]
    if tokens[opening].opened and tokens[opening].word != "porque":
        return all(_is(token, _BRIDGES) or _is(token, _OPENERS) for token in between)
    if not between or not _is(between[0], _OPENERS):
        return False
    follow = between[1:]
    if any(_is(token, _PLEAS_ASKED) for token in follow):
        return False
    return not any(_is(token, _FIRSTS) for token in follow[1:])
