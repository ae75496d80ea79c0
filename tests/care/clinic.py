"""Patients and a care team, each in their own chat, through the real conductor and store."""

from datetime import timedelta

from bot.care.items import Item, in_order
from bot.care.member import Member
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.care.step import Audit
from bot.engine.context import Context, Opening
from bot.runtime.conductor import Conductor
from bot.store.sql import SqlStore
from bot.texts import language_for
from tests.companions.people import Person, Town

RULES = CareRules(answer_within=timedelta(minutes=5), reminders=1, free_text=True)


class Clinic(Town):
    """A town with a care team: the full opening, and results that can be sent.

    Attributes:
        rules: What the clinic has set.
    """

    def __init__(self, store: SqlStore, rules: CareRules = RULES, *, team: bool = True) -> None:
        super().__init__(store, Opening.FULL)
        self.rules = rules
        self.asks(Context(opening=Opening.FULL, team=team))

    def asks(self, context: Context) -> None:
        """Let the clinic set something else."""
        self.conductor = Conductor(
            self.store,
            context,
            new_id=lambda: f"c{next(self._names)}x{len(self.people)}",
            language_for=language_for,
            new_code=lambda: f"{next(self._codes):032}",
            rules=self.rules,
        )

    def code(self, role: Role = Role.COORDINATOR, label: str = "Marta") -> str:
        """Return a code that the operator has made."""
        return self.conductor.admit(role, label, self.now)

    def member(self, label: str, role: Role = Role.COORDINATOR, language: str = "en") -> Person:
        """Let somebody join the team."""
        person = self.person(label, language).opens(self.code(role, label))
        person.new()
        return person

    def patient(self, name: str, language: str = "en") -> Person:
        """Let somebody enrol and book nothing; they have agreed that the team hears alarms."""
        person = self.person(name, language).opens().taps("yes").taps("20-and-over")
        person.types("Madrid").taps("done").taps("done").taps("upper-arm").taps("cuff")
        person.types("124/76 72")
        person.new()
        return person

    def begins(self, person: Person) -> None:
        """Take a person from choosing a day to lying with the clock running."""
        person.taps("now").taps("done").taps("go").taps("there")

    def stands(self, person: Person) -> None:
        """Take a person on to standing with the clock running."""
        self.begins(person)
        self.waits(5)
        person.types("120/76 70").taps("there")
        self.waits(5)
        person.types("118/76 74").taps("there")

    def tests(self, person: Person, *standing: str) -> None:
        """Take a person through a whole first test of four readings."""
        self.stands(person)
        for reading in standing or ("118/76 76", "118/76 78"):
            self.waits(2)
            person.taps("fine")
            self.waits(3)
            person.types(reading)

    def inbox(self) -> tuple[Item, ...]:
        """Return what waits, in the order in which the team sees it."""
        with self.store.unit() as unit:
            return in_order(unit.care.open_items())

    def item(self, number: int = 1) -> Item:
        """Return an item, open or not."""
        with self.store.unit() as unit:
            found = unit.care.item(number)
        assert found is not None
        return found

    def team(self) -> tuple[Member, ...]:
        """Return the team as it stands."""
        with self.store.unit() as unit:
            return unit.care.members()

    def number_of(self, label: str) -> int:
        """Return the number of a member."""
        return next(m.number for m in self.team() if m.label == label)

    def log(self) -> list[Audit]:
        """Return the audit log."""
        with self.store.unit() as unit:
            return [line.audit for line in unit.care.log()]

    def did(self) -> list[str]:
        """Return what was done, as the audit log has it."""
        return [audit.did.value for audit in self.log()]
