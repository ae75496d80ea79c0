"""Units in a row, looked at by place. A place past the end holds nothing."""

from dataclasses import dataclass

from bot.booking.tokens import Form, Unit
from bot.booking.words import Role, Stretch


@dataclass(frozen=True, slots=True)
class Row:
    """The units of a text."""

    units: tuple[Unit, ...]

    def has(self, place: int, *roles: Role) -> bool:
        """Return whether a unit can be one of these."""
        return any(self.value(place, role) is not None for role in roles)

    def past(self, place: int, *roles: Role) -> int:
        """Return the place after a unit that can be one of these; the same place if it cannot."""
        return place + self.has(place, *roles)

    def value(self, place: int, role: Role) -> int | None:
        """Return the number of a unit in a role, if it can be that."""
        if not 0 <= place < len(self.units):
            return None
        for sense in self.units[place].senses:
            if sense.role is role:
                return sense.value
        return None

    def stretch(self, place: int, role: Role) -> Stretch | None:
        """Return the stretch of the day of a unit in a role, if it can be that."""
        if not 0 <= place < len(self.units):
            return None
        for sense in self.units[place].senses:
            if sense.role is role:
                return sense.stretch
        return None

    def form(self, place: int) -> Form | None:
        """Return how a unit was written."""
        return self.units[place].form if 0 <= place < len(self.units) else None

    def digits(self, place: int) -> tuple[str, ...]:
        """Return the digits of a unit, by runs; none for words."""
        return self.units[place].numbers if 0 <= place < len(self.units) else ()

    def tight(self, place: int) -> bool:
        """Return whether nothing stands between a unit and the one before."""
        return 0 <= place < len(self.units) and not self.units[place].apart

    def numeric(self, place: int) -> bool:
        """Return whether a unit is a number by itself, in digits or in words."""
        return self.has(place, Role.NUMBER, Role.ORDINAL)
