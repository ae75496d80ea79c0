"""The team's conductor: who is a member, what the store knows, and all that follows put down.

What a command leads to is decided in `bot.care`; here facts are loaded, messages get their numbers,
and codes are made and held against their digests. Everything is in the unit of work of the event.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import datetime
from typing import Final

from bot.care import admitting, arrivals, digest
from bot.care.commands import (
    Command,
    Other,
    SeeInbox,
    opened,
    tapped,
    typed,
)
from bot.care.desk import advance
from bot.care.items import Item
from bot.care.member import Member
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.care.step import ITSELF, OPERATOR, Audit, CareStep, Did
from bot.care.triage import of_notice, of_record
from bot.engine.context import Context
from bot.engine.effects import Effect, Forget
from bot.engine.events import Blocked, ChoiceTapped, Event, Opened, Unblocked, WordsGiven
from bot.engine.notices import Notice, Tell
from bot.engine.profile import Profile
from bot.engine.state import Conversation
from bot.engine.team import LoseTouch, Submit, TakeBack, Unheard
from bot.runtime import touch
from bot.runtime.admission import Admission, team_code_in
from bot.runtime.care_ports import name_of_alarm, name_of_digest
from bot.runtime.inviting import Inviting
from bot.runtime.ledger import Ledger, TeamStep
from bot.runtime.ports import Inbound, Stored, UnitOfWork

_LONGEST_CODE: Final = 64


class TeamConductor:
    """Carries what members do, and what concerns them, within a unit of work."""

    def __init__(
        self,
        rules: Callable[[], CareRules],
        context: Callable[[], Context],
        admission: Admission,
        *,
        link_for: Callable[[str, str], str],
        inviting: Inviting,
    ) -> None:
        """Take what the clinic has set, and what only chance or a channel can give.

        Args:
            rules: Says, at each event, what the clinic has set.
            context: The same of what it has set for its patients.
            admission: The team's door.
            link_for: Returns the link that carries a code, for the channel of an address.
            inviting: Makes invitations.
        """
        self._admission = admission
        self._ledger = Ledger(rules, context, self._admission, link_for=link_for, inviting=inviting)

    # -- what members do

    def concerns(self, unit: UnitOfWork, inbound: Inbound) -> bool:
        """Whether what came from a group concerns us: a room of the team, or one that joins.

        Of any other group nothing is kept but that a code of it was wrong.
        """
        if unit.care.member(inbound.address) is not None:
            return True
        code = team_code_in(inbound.event)
        if code is None:
            return False
        return self._admission.ticket(unit, inbound.address, code, inbound.event.at) is not None

    def handle(self, unit: UnitOfWork, inbound: Inbound) -> TeamStep | None:
        """Take what a member did; `None` where no member did it."""
        member = unit.care.member(inbound.address)
        if member is None:
            return None
        at = inbound.event.at
        if isinstance(inbound.event, Blocked):
            return TeamStep(conversation_id=member.id)  # a message that fails says more
        if isinstance(inbound.event, Unblocked):  # alarms may have come to nobody meanwhile
            facts = self._ledger.inbox(unit, self._ledger.team(unit, at))
            step = arrivals.still_open(member, facts)
            return self._ledger.put_down(unit, member.id, step, at)
        code = team_code_in(inbound.event)
        if code is not None:
            return self._joins_anew(unit, member, inbound, code)
        command = _command(inbound.event)
        facts = self._ledger.facts(unit, member, command, at)
        step = advance(member, command, facts)
        if member.wants_digest and member.digest_at is None and not step.members:
            step = replace(step, members=(member,))  # in the team since before there were digests
        return self._ledger.put_down(unit, member.id, step, at)

    def join(self, unit: UnitOfWork, inbound: Inbound, stored: Stored) -> TeamStep | None:
        """Let somebody into the team whose code is good; `None` for any other, whoever says it.

        A chat in which somebody does tests, or stands by for somebody, does not become the team's.
        """
        code, at = team_code_in(inbound.event), inbound.event.at
        if code is None:
            return None
        ticket = self._admission.ticket(unit, inbound.address, code, at)
        if ticket is None or not _is_nobodys(stored.conversation):
            return None
        unit.care.use_ticket(ticket.digest, at)
        conversation = stored.conversation
        blank = Conversation(id=conversation.id, locale=conversation.locale, said=conversation.said)
        unit.save(stored, blank, event=inbound.event, effects=(), wake_at=None, logged=False)
        member = unit.care.add_member(
            Member(
                number=0,
                id=conversation.id,
                role=ticket.role,
                label=admitting.free_label(ticket.label, unit.care.members()),
                joined_at=at,
                added_by=ticket.made_by,
                room=inbound.group,
            )
        )
        facts = self._ledger.facts(unit, member, SeeInbox(), at)
        step = replace(admitting.joined(member, facts), members=(member,))
        return self._ledger.put_down(unit, member.id, step, at)

    def _joins_anew(
        self, unit: UnitOfWork, member: Member, inbound: Inbound, code: str
    ) -> TeamStep:
        """Let a member take another role by a good code; another one shows what waits."""
        at = inbound.event.at
        ticket = self._admission.ticket(unit, inbound.address, code, at)
        if ticket is None:
            facts = self._ledger.facts(unit, member, SeeInbox(), at)
            step = advance(member, SeeInbox(), facts)
        else:
            unit.care.use_ticket(ticket.digest, at)
            others = (m for m in unit.care.members() if m.number != member.number)
            label = admitting.free_label(ticket.label, others)
            member = replace(member, role=ticket.role, label=label, asked=None)
            facts = self._ledger.facts(unit, member, SeeInbox(), at)
            step = replace(admitting.joined(member, facts), members=(member,))
        return self._ledger.put_down(unit, member.id, step, at)

    # -- what concerns the team

    def follow(
        self, unit: UnitOfWork, sender: Conversation, effects: Iterable[Effect], at: datetime
    ) -> tuple[tuple[str, datetime | None], ...]:
        """Put down what a person's step leads to on the team's side; returns alarms to ring."""
        wakes: list[tuple[str, datetime | None]] = []
        for effect in effects:
            match effect:
                case Submit(test=test):
                    wakes += self._submitted(unit, sender, test, at)
                case Tell(notice=notice) if sender.profile.team_since is not None:
                    wakes += self._told(unit, sender, notice, at)
                case Unheard() | LoseTouch():
                    wakes += touch.lost(self._ledger, unit, sender, effect, at).wakes
                case TakeBack():
                    wakes += self._taken_back(unit, sender.id, at)
                case Forget():
                    wakes += self._forgotten(unit, sender.id, at)
                case _:
                    pass
        return tuple(wakes)

    def _submitted(
        self, unit: UnitOfWork, person: Conversation, test: int, at: datetime
    ) -> tuple[tuple[str, datetime | None], ...]:
        record = unit.care.result(person.id, test)
        if record is None:
            return ()
        triage = of_record(record)
        item = self._open(unit, person, test) or unit.care.add_item(
            arrivals.new_item(person, test, triage, at)
        )
        step = arrivals.submitted(item, triage, self._ledger.team(unit, at))
        return self._ledger.put_down(unit, person.id, step, at).wakes

    def _told(
        self, unit: UnitOfWork, person: Conversation, notice: Notice, at: datetime
    ) -> tuple[tuple[str, datetime | None], ...]:
        triage = of_notice(notice)
        item, facts = self._open(unit, person, person.tests), self._ledger.team(unit, at)
        facts = replace(facts, person=person)
        if notice is Notice.BETTER and item is not None and item.alarmed_at is not None:
            step = arrivals.eased(item, facts)
            return self._ledger.put_down(unit, person.id, step, at).wakes
        if triage is None:
            return ()
        item = item or unit.care.add_item(arrivals.new_item(person, person.tests, triage, at))
        step = arrivals.alarmed(item, triage, facts)
        return self._ledger.put_down(unit, person.id, step, at).wakes

    def _open(self, unit: UnitOfWork, person: Conversation, test: int) -> Item | None:
        items = unit.care.items_of(person.id)
        return next((i for i in items if i.test == test and i.is_open), None)

    def _taken_back(
        self, unit: UnitOfWork, person: str, at: datetime
    ) -> tuple[tuple[str, datetime | None], ...]:
        facts, step = self._ledger.team(unit, at), CareStep()
        for item in unit.care.items_of(person):
            if item.shared:
                step = step.and_then(arrivals.taken_back(item, facts))
        return self._ledger.put_down(unit, person, step, at).wakes

    def _forgotten(
        self, unit: UnitOfWork, person: str, at: datetime
    ) -> tuple[tuple[str, datetime | None], ...]:
        """Somebody has had all of theirs deleted: nothing of it stays in the inbox."""
        facts, items = self._ledger.team(unit, at), unit.care.items_of(person)
        if not items:
            return ()
        step = CareStep()
        for item in items:
            step = step.and_then(arrivals.forgotten(item, facts))
        forgotten = Audit(who=ITSELF, did=Did.PERSON_FORGOTTEN, person=person)
        self._ledger.put_down(unit, person, replace(step, audits=(forgotten,)), at)
        unit.care.forget_items(person)
        return tuple((name_of_alarm(item.number), None) for item in items)

    def wake(self, unit: UnitOfWork, number: int, at: datetime) -> TeamStep | None:
        """Answer the alarm of an item. Early, late and double ones do no harm."""
        item = unit.care.item(number)
        if item is None:
            return None
        name = name_of_alarm(number)
        if not item.alarming or item.wake_at is None or at < item.wake_at:
            return TeamStep(conversation_id=name, wakes=((name, item.wake_at),))
        facts = self._ledger.about(unit, item, self._ledger.team(unit, at))
        step = arrivals.climbed(item, facts)
        return self._ledger.put_down(unit, name, step, at)

    def wake_digest(self, unit: UnitOfWork, number: int, at: datetime) -> TeamStep | None:
        """Answer the alarm of a member's digest. Early, late and double ones do no harm."""
        facts = self._ledger.team(unit, at)
        member = next((m for m in facts.members if m.number == number), None)
        if member is None:
            return None
        name = name_of_digest(number)
        if member.digest_at is None or at < member.digest_at:
            return TeamStep(conversation_id=name, wakes=((name, member.digest_at),))
        step = digest.tell(member, replace(facts, people=unit.care.people()))
        return self._ledger.put_down(unit, name, step, at)

    def failed(
        self, unit: UnitOfWork, conversation_id: str, number: int, at: datetime
    ) -> TeamStep | None:
        """A message to a member did not arrive; `None` if it was to no member."""
        member = unit.care.member_of(conversation_id)
        if member is None:
            return None
        return touch.unheard(self._ledger, unit, member, number, at)

    # -- what the operator does

    def admit(self, unit: UnitOfWork, role: Role, label: str, at: datetime) -> str:
        """Make a code for somebody new and return it; only its digest is kept."""
        return self._admission.admit(unit, role, label, at=at)

    def remove(self, unit: UnitOfWork, number: int, at: datetime) -> TeamStep | None:
        """Take somebody out of the team, as the operator; `None` if there is no such member."""
        facts = self._ledger.inbox(unit, self._ledger.team(unit, at))
        gone = next((m for m in facts.members if m.number == number), None)
        if gone is None:
            return None
        step = admitting.going(gone, OPERATOR, Did.REMOVED_MEMBER, facts)
        return self._ledger.put_down(unit, gone.id, step, at)


def _command(event: Event) -> Command:
    match event:
        case Opened(code=code):
            return opened(code)
        case WordsGiven(text=text):
            return typed(text)
        case ChoiceTapped(token=token):
            return tapped(token)
        case _:
            return Other("")


def _is_nobodys(conversation: Conversation) -> bool:
    """Whether a chat is nobody's yet: no test, no consent, nobody linked."""
    nothing = conversation.profile == Profile() and conversation.age_band is None
    return nothing and conversation.tests == 0
