"""The team's conductor: who is a member, what the store knows, and all that follows put down.

What a command leads to is decided in `bot.care`; here facts are loaded, messages get their numbers,
and codes are made and held against their digests. Everything is in the unit of work of the event.
"""

import hashlib
import hmac
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from bot.care import admitting, arrivals
from bot.care.commands import (
    ClearPerson,
    Close,
    Command,
    HandOver,
    Leave,
    LetGo,
    OpenItem,
    Other,
    RemoveMember,
    SeeInbox,
    TakeItem,
    opened,
    tapped,
    typed,
)
from bot.care.desk import advance
from bot.care.items import Item
from bot.care.member import Member, Ticket, asked_about
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.care.step import ITSELF, OPERATOR, Audit, CareStep, Did, Facts
from bot.care.triage import of_notice, of_record
from bot.engine.effects import Effect, Forget, Notice, Tell
from bot.engine.events import ChoiceTapped, Event, Opened, WordsGiven
from bot.engine.profile import Profile
from bot.engine.state import Conversation
from bot.engine.team import Submit, TakeBack
from bot.runtime.care_ports import name_of_alarm
from bot.runtime.mailing import Mailing
from bot.runtime.ports import Inbound, Stored, UnitOfWork

CODE: Final = "team-"
"""How the code begins by which somebody joins the team."""

_LONGEST_CODE: Final = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamStep:
    """What a step on the team's side came to.

    Attributes:
        conversation_id: The member's.
        letters: What happens in the conversations of people, each by its id.
        wakes: Alarms that are to ring, by their names; `None` for one that rings no more.
    """

    conversation_id: str
    letters: tuple[tuple[str, Event], ...] = ()
    wakes: tuple[tuple[str, datetime | None], ...] = ()


def digest_of(code: str) -> str:
    """Return what is kept of a team code."""
    return hashlib.sha256(code.encode()).hexdigest()


def code_in(event: Event) -> str | None:
    """Return the team code that somebody's link carried or that they typed, if they did."""
    match event:
        case Opened(code=str(code)) if code.startswith(CODE):
            return code[:_LONGEST_CODE]
        case WordsGiven(text=text) if text.strip().startswith(CODE):
            return text.strip()[:_LONGEST_CODE]
        case _:
            return None


class TeamConductor:
    """Carries what members do, and what concerns them, within a unit of work."""

    def __init__(
        self,
        rules: CareRules,
        *,
        new_code: Callable[[], str],
        link_for: Callable[[str, str], str],
    ) -> None:
        """Take what the clinic has set, and what only chance or a channel can give.

        Args:
            rules: What the clinic has set.
            new_code: Makes the part of a code that cannot be guessed.
            link_for: Returns the link that carries a code, for the channel of an address.
        """
        self._rules = rules
        self._new_code = new_code
        self._link_for = link_for

    # -- what members do

    def handle(self, unit: UnitOfWork, inbound: Inbound) -> TeamStep | None:
        """Take what a member did; `None` where no member did it."""
        member = unit.care.member(inbound.address)
        if member is None:
            return None
        at = inbound.event.at
        code = code_in(inbound.event)
        if code is not None:
            return self._joins_anew(unit, member, inbound, code)
        command = _command(inbound.event)
        facts = self._facts(unit, member, command, at)
        return self._put_down(unit, member.id, advance(member, command, facts), at)

    def join(self, unit: UnitOfWork, inbound: Inbound, stored: Stored) -> TeamStep | None:
        """Let somebody into the team whose code is good; `None` for any other, whoever says it.

        A chat in which somebody does tests, or stands by for somebody, does not become the team's.
        """
        code, at = code_in(inbound.event), inbound.event.at
        if code is None:
            return None
        ticket = self._ticket(unit, inbound.address, code, at)
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
                label=ticket.label,
                joined_at=at,
                added_by=ticket.made_by,
                room=inbound.group,
            )
        )
        return self._put_down(unit, member.id, admitting.joined(member), at)

    def _joins_anew(
        self, unit: UnitOfWork, member: Member, inbound: Inbound, code: str
    ) -> TeamStep:
        """Let a member take another role by a good code; another one shows what waits."""
        at = inbound.event.at
        ticket = self._ticket(unit, inbound.address, code, at)
        if ticket is None:
            facts = self._facts(unit, member, SeeInbox(), at)
            step = advance(member, SeeInbox(), facts)
        else:
            unit.care.use_ticket(ticket.digest, at)
            member = replace(member, role=ticket.role, label=ticket.label, asked=None)
            step = replace(admitting.joined(member), members=(member,))
        return self._put_down(unit, member.id, step, at)

    def _ticket(self, unit: UnitOfWork, address: str, code: str, at: datetime) -> Ticket | None:
        """Return what a code stands for, compared in constant time; wrong ones are counted."""
        rules, care = self._rules, unit.care
        since = at - rules.wrong_codes_within
        wrong = care.wrong_codes(address, since)
        digest, found = digest_of(code), None
        for ticket in care.tickets(at):
            if hmac.compare_digest(ticket.digest, digest):
                found = ticket
        if wrong < rules.wrong_codes and found is not None:
            return found
        care.note_wrong_code(address, at, since)
        if wrong + 1 == rules.wrong_codes:
            care.note((Audit(who=ITSELF, did=Did.WRONG_CODES),), at)
        return None

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
        step = arrivals.submitted(item, triage, self._team(unit, at))
        return self._put_down(unit, person.id, step, at).wakes

    def _told(
        self, unit: UnitOfWork, person: Conversation, notice: Notice, at: datetime
    ) -> tuple[tuple[str, datetime | None], ...]:
        triage = of_notice(notice)
        if triage is None:
            return ()
        item = self._open(unit, person, person.tests) or unit.care.add_item(
            arrivals.new_item(person, person.tests, triage, at)
        )
        step = arrivals.alarmed(item, triage, self._team(unit, at))
        return self._put_down(unit, person.id, step, at).wakes

    def _open(self, unit: UnitOfWork, person: Conversation, test: int) -> Item | None:
        items = unit.care.items_of(person.id)
        return next((i for i in items if i.test == test and i.is_open), None)

    def _taken_back(
        self, unit: UnitOfWork, person: str, at: datetime
    ) -> tuple[tuple[str, datetime | None], ...]:
        facts, step = self._team(unit, at), CareStep()
        for item in unit.care.items_of(person):
            if item.shared:
                step = step.and_then(arrivals.taken_back(item, facts))
        return self._put_down(unit, person, step, at).wakes

    def _forgotten(
        self, unit: UnitOfWork, person: str, at: datetime
    ) -> tuple[tuple[str, datetime | None], ...]:
        """Somebody has had all of theirs deleted: nothing of it stays in the inbox."""
        facts, items = self._team(unit, at), unit.care.items_of(person)
        if not items:
            return ()
        step = CareStep()
        for item in items:
            bare = replace(item, alarmed_at=None)
            step = step.and_then(arrivals.taken_back(bare, facts))
        forgotten = Audit(who=ITSELF, did=Did.PERSON_FORGOTTEN, person=person)
        self._put_down(unit, person, replace(step, audits=(forgotten,)), at)
        unit.care.forget_items(person)
        return tuple((name_of_alarm(item.number), None) for item in items)

    def wake(self, unit: UnitOfWork, number: int, at: datetime) -> TeamStep | None:
        """Answer the alarm of an item. Early, late and double ones do no harm."""
        item = unit.care.item(number)
        if item is None:
            return None
        if not item.alarming or item.wake_at is None or at < item.wake_at:
            return TeamStep(
                conversation_id=item.person, wakes=((name_of_alarm(number), item.wake_at),)
            )
        step = arrivals.climbed(item, self._team(unit, at))
        return self._put_down(unit, item.person, step, at)

    def failed(
        self, unit: UnitOfWork, conversation_id: str, number: int, at: datetime
    ) -> TeamStep | None:
        """A message to a member did not arrive; `None` if it was to no member."""
        member = unit.care.member_of(conversation_id)
        if member is None:
            return None
        lost = [i for i in unit.care.open_items() if i.told_to(member.number) == number]
        step = CareStep()
        for item in lost:
            if item.alarming:
                facts = self._team(unit, at)
                step = step.and_then(arrivals.unreached(item, member, facts))
        return self._put_down(unit, conversation_id, step, at)

    # -- what the operator does

    def admit(
        self,
        unit: UnitOfWork,
        role: Role,
        label: str,
        *,
        at: datetime,
        by: int | None = None,
    ) -> str:
        """Make a code for somebody new and return it; only its digest is kept."""
        code = CODE + self._new_code()
        unit.care.add_ticket(
            admitting.ticket(digest_of(code), role, label, rules=self._rules, at=at, made_by=by)
        )
        if by is None:
            made = Audit(who=OPERATOR, did=Did.MADE_CODE, detail=str(role))
            unit.care.note((made,), at)
        return code

    def remove(self, unit: UnitOfWork, number: int, at: datetime) -> TeamStep | None:
        """Take somebody out of the team, as the operator; `None` if there is no such member."""
        facts = replace(self._team(unit, at), items=unit.care.open_items())
        gone = next((m for m in facts.members if m.number == number), None)
        if gone is None:
            return None
        step = admitting.going(gone, OPERATOR, Did.REMOVED_MEMBER, facts)
        return self._put_down(unit, gone.id, step, at)

    # -- facts in, steps down

    def _team(self, unit: UnitOfWork, at: datetime) -> Facts:
        return Facts(rules=self._rules, at=at, members=unit.care.members())

    def _facts(self, unit: UnitOfWork, member: Member, command: Command, at: datetime) -> Facts:
        """Load what a command needs, and no more."""
        care, facts = unit.care, self._team(unit, at)
        match command:
            case SeeInbox() | RemoveMember() | Leave():
                return replace(facts, items=care.open_items())
            case OpenItem(item=number):
                item = care.item(number)
                shared = item is not None and item.shared
                record = care.result(item.person, item.test) if item and shared else None
                return replace(facts, item=item, record=record)
            case (
                TakeItem(item=number)
                | LetGo(item=number)
                | HandOver(item=number)
                | Close(item=number)
            ):
                return replace(facts, item=care.item(number))
            case ClearPerson(reference=reference):
                found = care.person(reference)
                stored = None if found is None else unit.load_by_id(found)
                return replace(facts, person=None if stored is None else stored.conversation)
            case Other() if (asked := asked_about(member)) is not None:
                return replace(facts, item=care.item(asked))
            case _:
                return facts

    def _put_down(
        self, unit: UnitOfWork, conversation_id: str, step: CareStep, at: datetime
    ) -> TeamStep:
        """Put down all that a step leads to.

        Raises:
            ConflictError: Another writer was faster.
        """
        mailing = Mailing(unit, unit.care.members(), self._link_for)
        for member in step.members:
            unit.care.save_member(member)
            if member.removed_at is not None:
                unit.care.silence(member.id, at)
        items = {item.number: item for item in step.items}
        for number in {m.item for m in step.messages if m.item is not None} - items.keys():
            found = unit.care.item(number)
            if found is not None:
                items[number] = found
        for wanted in step.tickets:
            code = self.admit(unit, wanted.role, wanted.label, at=at, by=wanted.to)
            address = mailing.address(wanted.to) or ""
            mailing.post(admitting.code_made(wanted, self._link_for(address, code)), items)
        for spoken in step.spoken:
            mailing.speak(spoken)
        for item in step.withdrawn:
            mailing.take_back(item)
        for message in step.messages:
            mailing.post(message, items)
        mailing.put_down(at)
        for item in items.values():
            unit.care.save_item(item)
        unit.care.note(step.audits, at)
        return TeamStep(
            conversation_id=conversation_id,
            letters=step.letters,
            wakes=tuple((name_of_alarm(item.number), item.wake_at) for item in items.values()),
        )


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
