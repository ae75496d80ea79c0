"""One reading out of tokens: every way to take them, and the one that stands out."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.binding import Binding, bindings, too_much
from bot.readings.context import Weighed, leads_a_number, weigh
from bot.readings.dissection import take_apart
from bot.readings.drafts import Draft, StuckError, values_of
from bot.readings.grammar import draft
from bot.readings.idioms import is_idiom
from bot.readings.language import Join
from bot.readings.orphans import strayed
from bot.readings.outcome import Doubt, Doubtful, Outcome, Problem, Several, Understood, Unreadable
from bot.readings.pieces import Group, Pieces
from bot.readings.plausibility import ORDINARY, doubt, in_tens, possible, possible_somewhere
from bot.readings.shapes import TOO_LONG
from bot.readings.tokens import Token
from bot.readings.unused import unused

_NOTHING: Final = Values()
_H: Final = Measure.HEART_RATE
_MISMATCHED: Final = frozenset({Doubt.SWAPPED, Doubt.PULSE_PRESSURE})
_NO_NUMBERS: Final = Unreadable(problem=Problem.NO_NUMBERS)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Take:
    """One way to take the message, and what it comes to; `rejected` if nobody would mean it."""

    outcome: Outcome
    binding: Binding
    groups: frozenset[int]
    rejected: bool = False

    @property
    def rank(self) -> tuple[int, bool, bool]:
        """Sorts the plain before the far-fetched, then what can be read before what cannot.

        Pressures that do not go together are a sign that labels were taken the wrong way.
        """
        mismatched = isinstance(self.outcome, Doubtful) and self.outcome.doubt in _MISMATCHED
        return self.binding.cost, self.rejected, mismatched


def taken(
    text: str, tokens: tuple[Token, ...], known: Values, before: Values | None = None
) -> Outcome:
    """Return what tokens say if they are of one reading.

    Args:
        text: The text the tokens are of.
        tokens: All its tokens, or some in a row; number words are numbers already.
        known: The numbers of this reading that were given before.
        before: The numbers of the last reading, if there is one.
    """
    pieces = take_apart(tokens)
    weighed = weigh(pieces.items)
    outcome, take = _outcome(pieces, weighed, tokens, (known, before))
    if isinstance(outcome, Unreadable | Several) or take is None:
        return outcome
    used = (weighed.items[place] for place in take.groups | take.binding.labels)
    rest = unused(text, tokens, pieces.soft, used)
    return replace(outcome, rest=rest, correction=pieces.correction, again=pieces.again)


def _outcome(
    pieces: Pieces,
    weighed: Weighed,
    tokens: tuple[Token, ...],
    given: tuple[Values, Values | None],
) -> tuple[Outcome, _Take | None]:
    """Return what a message comes to, and the way to take it if it was read."""
    known, before = given
    groups = [item for item in weighed.items if isinstance(item, Group) and not item.foreign]
    if not groups or is_idiom(weighed.items, tokens, known):
        return _NO_NUMBERS, None
    if too_much(weighed.items):
        return Unreadable(problem=Problem.TOO_MANY), None
    if pieces.not_now or pieces.theirs:
        return Unreadable(problem=Problem.WHICH_NUMBER, number=_number(groups)), None
    # A correction says nothing of what is missing, so a bare number in it is not taken for that.
    missing = _NOTHING if pieces.correction else known
    takes = [
        _take(
            weighed,
            binding,
            _Given(known=known, missing=missing, before=before, absent=pieces.absent),
        )
        for binding in bindings(weighed.items)
    ]
    if not takes:
        return Unreadable(problem=Problem.WHICH_NUMBER, number=_number(groups)), None
    best = min(take.rank for take in takes)
    finest = [take for take in takes if take.rank == best]
    outcomes = [take.outcome for take in finest]
    if any(outcome != outcomes[0] for outcome in outcomes):
        return Unreadable(problem=Problem.WHICH_NUMBER, understood=_agreed(outcomes)), None
    return outcomes[0], finest[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Given:
    """What was known: of this reading, for bare numbers, of the last one; and what is missing."""

    known: Values
    missing: Values
    before: Values | None
    absent: frozenset[Measure]


def _take(weighed: Weighed, binding: Binding, given: _Given) -> _Take:
    found = Draft()
    outcome: Outcome
    rejected = False
    try:
        draft(weighed, binding, given.missing, found)
        _settle_suspects(weighed, binding, found)
        _settle_labels(weighed, binding, given, found)
    except StuckError as stuck:
        outcome = _impossible(found, found.named) or Unreadable(
            problem=stuck.problem, number=stuck.number, understood=_understood(found)
        )
        rejected = not stuck.unclear and stuck.problem is not Problem.TOO_MANY
    else:
        outcome = _judged(found, given)
    return _Take(
        outcome=outcome,
        binding=binding,
        groups=frozenset(place for _, place in found.sources),
        rejected=rejected,
    )


def _judged(found: Draft, given: _Given) -> Outcome:
    if in_tens(found.numbers):
        tens = {m: n if m is Measure.HEART_RATE else 10 * n for m, n in found.numbers.items()}
        return Doubtful(values=found.values, doubt=Doubt.TENS, suggested=values_of(tens))
    if (impossible := _impossible(found, found.numbers)) is not None:
        return impossible
    if not found.numbers:
        return _NO_NUMBERS
    odd = doubt(found.values, given.known, given.before)
    if odd is None:
        return Understood(values=found.values)
    return Doubtful(values=found.values, doubt=odd[0], suggested=odd[1])


def _impossible(found: Draft, measures: Collection[Measure]) -> Unreadable | None:
    """Return the first of some numbers that cannot be, as an outcome."""
    for measure in Measure:
        number = found.numbers.get(measure)
        if number is not None and measure in measures and not possible(measure, number):
            return Unreadable(
                problem=Problem.IMPOSSIBLE,
                number=None if number == TOO_LONG else number,
                measure=measure,
                understood=_possible(found),
            )
    return None


def _settle_suspects(weighed: Weighed, binding: Binding, found: Draft) -> None:
    """Ask about numbers that were left out but may have been meant.

    Raises:
        StuckError: One of them puts the reading in doubt.
    """
    for place, item in enumerate(weighed.items):
        if (
            not isinstance(item, Group)
            or item.foreign
            or not (item.odd or place in weighed.suspects)
        ):
            continue
        numbers = item.shape.numbers
        if any((place, cell) in binding.named for cell in range(len(numbers))):
            continue
        paired = Join.PAIR in item.shape.joins
        lone = numbers[0] if len(numbers) == 1 and not item.odd else None
        before = weighed.items[place - 1] if place > 0 else None
        stray = lone is not None and lone < 10 and not item.divided
        follows = stray and isinstance(before, Group) and not before.foreign
        if follows or leads_a_number(weighed.items, place):
            # "72 1 dizzy" may be a number with a space in it.
            raise StuckError(Problem.WHICH_NUMBER, unclear=True)
        if not any(possible_somewhere(number) or number == TOO_LONG for number in numbers):
            continue
        spoilt = len(numbers) == 1 and (item.odd or place in weighed.hedged)
        if spoilt or found.bare or not found.numbers:
            raise StuckError(Problem.WHICH_NUMBER, lone, unclear=True)
        if lone is not None and lone in ORDINARY[Measure.HEART_RATE] and set(found.numbers) == {_H}:
            # "pulse 72 lying, 104 standing" may be two of them.
            raise StuckError(Problem.WHICH_NUMBER, unclear=True)
        pressures = {Measure.SYSTOLIC, Measure.DIASTOLIC}
        if paired and pressures & found.numbers.keys() and not pressures <= found.named:
            raise StuckError(Problem.TOO_MANY)


def _settle_labels(weighed: Weighed, binding: Binding, given: _Given, found: Draft) -> None:
    """Ask where a number was taken for what is said to be missing, or strayed from its label.

    Raises:
        StuckError: It was.
    """
    if given.absent & found.numbers.keys() or strayed(weighed.items, binding, found.numbers):
        raise StuckError(Problem.WHICH_NUMBER, unclear=True)


def _number(groups: Sequence[Group]) -> int | None:
    """Return the number to ask about, if there is just one."""
    numbers = [number for group in groups for number in group.shape.numbers]
    plain = len(numbers) == 1 and not groups[0].odd and numbers[0] != TOO_LONG
    return numbers[0] if plain else None


def _possible(found: Draft) -> Values:
    return values_of(
        {measure: number for measure, number in found.numbers.items() if possible(measure, number)}
    )


def _understood(found: Draft) -> Values:
    """Return the numbers to say back when the rest was not understood."""
    values = _possible(found)
    halved = (values.systolic is None) != (values.diastolic is None)
    pair = {Measure.SYSTOLIC, Measure.DIASTOLIC}
    if halved and not pair & found.named:
        return Values(heart_rate=values.heart_rate)
    return values


def _said(outcome: Unreadable | Several) -> Values:
    return outcome.understood if isinstance(outcome, Unreadable) else _NOTHING


def _agreed(outcomes: Sequence[Outcome]) -> Values:
    """Return the numbers that are the same however the message is taken."""
    each = [
        outcome.values if isinstance(outcome, Understood | Doubtful) else _said(outcome)
        for outcome in outcomes
    ]
    first = each[0]
    return Values(
        systolic=first.systolic if all(v.systolic == first.systolic for v in each) else None,
        diastolic=first.diastolic if all(v.diastolic == first.diastolic for v in each) else None,
        heart_rate=(
            first.heart_rate if all(v.heart_rate == first.heart_rate for v in each) else None
        ),
    )
