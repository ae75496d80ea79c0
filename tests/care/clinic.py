"""Patients and a care team, each in their own chat, through the real conductor and store."""

from dataclasses import replace
from datetime import timedelta
from functools import cache

from sqlalchemy import func, select, update

from bot.care.invitation import Invitation
from bot.care.items import Item, in_order
from bot.care.member import Member
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.care.step import Audit
from bot.engine.context import Context, Opening
from bot.engine.deadlines import next_deadline
from bot.engine.effects import Outgoing
from bot.engine.events import ChoiceTapped, Failure, Opened
from bot.runtime.conductor import Conductor
from bot.store.codec import decode_outgoing
from bot.store.sql import SqlStore
from bot.store.statements import CONVERSATION, OUTBOX, SENT, WAITING
from bot.testing.playbook import Playbook
from bot.texts import language_for
from tests.companions.people import Person, Town


@cache
def enrolled(context: Context) -> Playbook:
    """Return somebody who has answered all that is asked before a first booking."""
    return Playbook(context).enrols()


@cache
def standing(context: Context) -> Playbook:
    """Return somebody who stands in their first test."""
    book = Playbook(context).enrols().taps("now").taps("done").taps("go").taps("there")
    book.waits(minutes=5).types("120/76 70").taps("there")
    return book.waits(minutes=5).types("118/76 74").taps("there").waits(minutes=1)


@cache
def nearly_done(context: Context) -> Playbook:
    """Return somebody whose last standing reading was just asked for."""
    book = Playbook(context).enrols().taps("now").taps("done").taps("go").taps("there")
    book.waits(minutes=5).types("120/76 70").taps("there")
    book.waits(minutes=5).types("118/76 74").taps("there")
    return book.waits(minutes=5).types("116/74 78").waits(minutes=5)


RULES = CareRules(answer_within=timedelta(minutes=5), reminders=1, free_text=True)


class Clinic(Town):
    """A town with a care team: the full opening, and results that can be sent.

    Attributes:
        rules: What the clinic has set for its team.
        context: What it has set for its patients.
    """

    def __init__(self, store: SqlStore, rules: CareRules = RULES, *, team: bool = True) -> None:
        super().__init__(store, Opening.FULL)
        self._held = False
        self.rules = rules
        self.asks(Context(opening=Opening.FULL, team=team))

    def asks(self, context: Context) -> None:
        """Let the clinic set something else."""
        self.context = context
        self.conductor = Conductor(
            self.store,
            context,
            new_id=lambda: f"c{next(self._names)}x{len(self.people)}",
            language_for=language_for,
            new_code=lambda: f"{next(self._codes):032}",
            rules=lambda: self.rules,
        )

    def allows(self, *, free_text: bool | None = None, team: bool = True) -> None:
        """Let the clinic set something else for its team."""
        if free_text is not None:
            self.rules = replace(self.rules, free_text=free_text)
        self.asks(replace(self.context, team=team))

    @property
    def _plain(self) -> Context:
        """What the clinic has set, without what it has written: that cannot be hashed."""
        return replace(self.context, medicine_plans=None)

    def code(self, role: Role = Role.COORDINATOR, label: str = "Marta") -> str:
        """Return a code that the operator has made."""
        return self.conductor.admit(role, label, self.now)

    def member(self, label: str, role: Role = Role.COORDINATOR, language: str = "en") -> Person:
        """Let somebody join the team."""
        person = self.person(label, language).opens(self.code(role, label))
        person.new()
        return person

    def patient(self, name: str, language: str = "en", **profile: object) -> Person:
        """Let somebody be here who has enrolled, agreed to the team, and books nothing yet."""
        return self._arrived(name, language, enrolled(self._plain), profile)

    def standing(self, name: str, language: str = "en", **profile: object) -> Person:
        """Let somebody be here who stands in their first test with the clock running."""
        return self._arrived(name, language, standing(self._plain), profile)

    def measured(
        self, name: str, last: str = "98/62 90", language: str = "en", **profile: object
    ) -> Person:
        """Let somebody finish their first test with a last standing reading."""
        book = nearly_done(self._plain)
        return self._arrived(name, language, book, profile).types(last)

    def _arrived(
        self, name: str, language: str, book: Playbook, profile: dict[str, object]
    ) -> Person:
        """Put somebody's conversation down as it stands, as if it had come so far here."""
        person = self.person(name, language)
        self.now = max(self.now, book.now)
        known = replace(book.conversation.profile, **profile)  # type: ignore[arg-type]
        here = replace(book.conversation, id=f"{name:0<12}", locale=language, profile=known)
        with self.store.unit() as unit:
            blank = unit.add(replace(book.beginning, id=here.id), person.address, self.now)
            unit.save(
                blank,
                here,
                event=Opened(at=self.now),
                effects=(),
                wake_at=next_deadline(self.context, here),
                logged=False,  # the history begins here
            )
        return person

    def repeats(self, person: Person, last: str = "98/62 120") -> Person:
        """Let somebody do a test once more, now, to its last reading."""
        person.types("start").taps("now").types("yes").taps("done").taps("go").taps("there")
        self.waits(5)
        person.types("120/76 70").taps("there")
        self.waits(5)
        person.types("118/76 74").taps("there")
        for minutes, numbers in ((3, "116/74 78"), (3, last)):
            self.waits(2)
            person.taps("fine")
            self.waits(minutes)
            person.types(numbers)
        return person

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

    # -- messages that wait

    def hold(self) -> None:
        """Let messages wait from now on, as if no network were there."""
        self._held = True

    def release(self) -> None:
        """Deliver what waits, and all that comes."""
        self._held = False
        self.deliver()

    def deliver(self) -> None:
        """Deliver all that waits, unless it is held.

        All in one transaction, since these tests are about what is said and not about how it is
        carried; what a blocked chat refuses is told to the conductor.
        """
        while not self._held and (rows := self._taken()):
            for address, conversation, effect in rows:
                person = self.people[address]
                if person.blocked:
                    self.conductor.delivery_failed(
                        conversation, effect.number, Failure.BLOCKED, self.now
                    )
                else:
                    person.got.append(effect)

    def _taken(self) -> list[tuple[str, str, Outgoing]]:
        """Return what waits, safety first, with whom it is for; it waits no more."""
        waits = OUTBOX.c.fate == WAITING
        wanted = (
            select(CONVERSATION.c.address, OUTBOX.c.conversation_id, OUTBOX.c.effect)
            .select_from(OUTBOX.join(CONVERSATION))
            .where(waits)
            .order_by(OUTBOX.c.urgency != 0, OUTBOX.c.id)
        )
        with self.store.engine.begin() as connection:
            rows = connection.execute(wanted).all()
            if rows:
                connection.execute(update(OUTBOX).where(waits).values(fate=SENT))
        return [(row[0], row[1], decode_outgoing(row[2])) for row in rows]

    def waiting_for(self, person: Person) -> int:
        """Return how many messages wait for somebody."""
        with self.store.engine.begin() as connection:
            return connection.execute(
                select(func.count())
                .select_from(OUTBOX.join(CONVERSATION))
                .where(CONVERSATION.c.address_mark == person.address, OUTBOX.c.fate == WAITING)
            ).scalar_one()

    def taps_unseen(self, person: Person, token: str) -> None:
        """Let somebody tap a button whose message they have on another device."""
        self.arrives(person.address, ChoiceTapped(at=self.now, token=token), "en")

    def invites(self, reference: str) -> Invitation:
        """Let the clinic invite somebody who has not come yet."""
        invitation = Invitation(
            code=f"code-{reference}",
            reference=reference,
            protocol=None,
            language=None,
            made_at=self.now,
            expires_at=self.now + timedelta(days=1),
        )
        self.store.invite(invitation)
        return invitation

    def invitations(self) -> tuple[Invitation, ...]:
        """Return all invitations."""
        with self.store.unit() as unit:
            return unit.care.invitations()

    def knows(self, person: Person, reference: str) -> None:
        """Let the clinic have a reference of its own for somebody."""
        invitation = self.invites(reference)
        with self.store.unit() as unit:
            unit.invitation(invitation.code, self.now, person.address)
