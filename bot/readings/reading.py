"""A message into an outcome: every way to take it, and the one that stands out."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.binding import Binding, bindings, too_much
from bot.readings.context import Weighed, weigh
from bot.readings.dissection import take_apart
from bot.readings.drafts import Draft, StuckError, values_of
from bot.readings.grammar import draft
from bot.readings.labels import Join
from bot.readings.outcome import Doubtful, Outcome, Problem, Understood, Unreadable
from bot.readings.pieces import Group
from bot.readings.plausibility import doubt, possible, possible_somewhere
from bot.readings.shapes import TOO_LONG
from bot.readings.tokens import Token, scan

_NOTHING: Final = Values()
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
        """Sorts the plain before the far-fetched, then what can be read before what cannot."""
        return self.binding.cost, self.rejected, isinstance(self.outcome, Doubtful)


def read(text: str, known: Values = _NOTHING) -> Outcome:
    """Read what a message says about pressure and heart rate.

    Args:
        text: The message, any text at all.
        known: The numbers of this reading (mmHg, /min) that earlier messages gave; bare numbers
            are taken for those still missing.

    Returns:
        What it comes to. Where a number could be meant in two ways, the answer is a question.
    """
    tokens = scan(text)
    pieces = take_apart(tokens)
    weighed = weigh(pieces.items)
    groups = [item for item in weighed.items if isinstance(item, Group) and not item.foreign]
    if not groups:
        return _NO_NUMBERS
    if too_much(weighed.items):
        return Unreadable(problem=Problem.TOO_MANY)
    if pieces.not_now:
        return Unreadable(problem=Problem.WHICH_NUMBER, number=_number(groups))
    takes = [_take(weighed, binding, known) for binding in bindings(weighed.items)]
    if not takes:
        return Unreadable(problem=Problem.WHICH_NUMBER, number=_number(groups))
    best = min(take.rank for take in takes)
    finest = [take for take in takes if take.rank == best]
    outcomes = [take.outcome for take in finest]
    if any(outcome != outcomes[0] for outcome in outcomes):
        return Unreadable(problem=Problem.WHICH_NUMBER, understood=_agreed(outcomes))
    match outcomes[0]:
        case Understood(values=values):
            rest = _rest(text, tokens, pieces.soft, weighed, finest[0])
            return Understood(values=values, rest=rest)
        case Doubtful(values=values, doubt=reason, suggested=suggested):
            rest = _rest(text, tokens, pieces.soft, weighed, finest[0])
            return Doubtful(values=values, doubt=reason, suggested=suggested, rest=rest)
        case Unreadable() as unreadable:
            return unreadable


def _take(weighed: Weighed, binding: Binding, known: Values) -> _Take:
    found = Draft()
    outcome: Outcome
    try:
        draft(weighed, binding, known, found)
        _settle_suspects(weighed, binding, found)
    except StuckError as stuck:
        outcome = _impossible(found, found.named) or Unreadable(
            problem=stuck.problem, number=stuck.number, understood=_understood(found)
        )
        rejected = not stuck.unclear
    else:
        outcome = _judged(found, known)
        rejected = isinstance(outcome, Unreadable) and outcome != _NO_NUMBERS
    return _Take(
        outcome=outcome,
        binding=binding,
        groups=frozenset(place for _, place in found.sources),
        rejected=rejected,
    )


def _judged(found: Draft, known: Values) -> Outcome:
    if (impossible := _impossible(found, found.numbers)) is not None:
        return impossible
    if not found.numbers:
        return _NO_NUMBERS
    odd = doubt(found.values, known)
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
        if not any(possible_somewhere(number) or number == TOO_LONG for number in numbers):
            continue
        spoilt = len(numbers) == 1 and (item.odd or place in weighed.hedged)
        if spoilt or found.bare or not found.numbers:
            raise StuckError(Problem.WHICH_NUMBER, lone, unclear=True)
        pressures = {Measure.SYSTOLIC, Measure.DIASTOLIC}
        if paired and pressures & found.numbers.keys() and not pressures <= found.named:
            raise StuckError(Problem.TOO_MANY)


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


def _agreed(outcomes: Sequence[Outcome]) -> Values:
    """Return the numbers that are the same however the message is taken."""
    each = [
        outcome.understood if isinstance(outcome, Unreadable) else outcome.values
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


def _rest(
    text: str, tokens: tuple[Token, ...], soft: frozenset[int], weighed: Weighed, take: _Take
) -> str:
    """Return the words that were not used, as typed, without what says nothing at their ends."""
    used: set[int] = set()
    for place in take.groups | take.binding.labels:
        item = weighed.items[place]
        used.update(range(item.first, item.last + 1))
    kept: list[str] = []
    run: list[int] = []
    for index in range(len(tokens) + 1):
        if index < len(tokens) and index not in used:
            run.append(index)
            continue
        hard = [position for position in run if position not in soft]
        if hard:
            kept.append(text[tokens[hard[0]].start : tokens[hard[-1]].end])
        run = []
    return " ".join(kept)
