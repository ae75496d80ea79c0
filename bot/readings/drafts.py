"""A reading as it is put together."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from bot.protocol.record import Measure, Values
from bot.readings.outcome import Problem
from bot.readings.shapes import TOO_LONG


class StuckError(Exception):
    """One way to take a message leads nowhere.

    Attributes:
        problem: Why.
        number: The number at fault, if one is.
        unclear: Whether the numbers do go together, and only what they are is not clear.
    """

    def __init__(
        self, problem: Problem, number: int | None = None, *, unclear: bool = False
    ) -> None:
        super().__init__(problem)
        self.problem = problem
        self.number = None if number == TOO_LONG else number
        self.unclear = unclear


@dataclass(slots=True, kw_only=True)
class Draft:
    """A reading as it is put together.

    Attributes:
        numbers: The numbers found.
        named: The measures that a label or a unit named.
        bare: Whether a number was taken for what it is by its place alone.
        sources: Which measure came from which group, by its place in the message.
    """

    numbers: dict[Measure, int] = field(default_factory=dict)
    named: set[Measure] = field(default_factory=set)
    bare: bool = False
    sources: set[tuple[Measure, int]] = field(default_factory=set)

    def put(self, measure: Measure, number: int, place: int) -> None:
        """Add a number; two different ones for one measure are too many."""
        if self.numbers.setdefault(measure, number) != number:
            del self.numbers[measure]
            raise StuckError(Problem.TOO_MANY)
        self.sources.add((measure, place))

    def of(self, place: int) -> set[Measure]:
        """Return the measures that a group gave."""
        return {measure for measure, source in self.sources if source == place}

    def drop(self, place: int) -> None:
        """Forget the numbers of a group that could not be understood."""
        for measure in self.of(place):
            self.numbers.pop(measure, None)

    @property
    def values(self) -> Values:
        """The numbers as they are handed on."""
        return values_of(self.numbers)


def values_of(numbers: Mapping[Measure, int]) -> Values:
    """Return numbers by measure as values."""
    return Values(
        systolic=numbers.get(Measure.SYSTOLIC),
        diastolic=numbers.get(Measure.DIASTOLIC),
        heart_rate=numbers.get(Measure.HEART_RATE),
    )
