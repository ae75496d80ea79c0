"""Facts in, steps down: what a command needs from the store, and all that follows kept there."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from bot.care import admitting, inviting
from bot.care.commands import (
    AskItem,
    ClearPerson,
    Close,
    Command,
    ExportPerson,
    HandOver,
    Leave,
    LetGo,
    OpenItem,
    Other,
    RemoveMember,
    SeeInbox,
    SetDuty,
    TakeItem,
)
from bot.care.digest import armed
from bot.care.invitation import Invitation
from bot.care.invite_words import Invite, RevokeInvitation, SeeInvitations, SendAgain
from bot.care.items import Item
from bot.care.member import Member, asked_about, asked_whom
from bot.care.naming import alone
from bot.care.people_commands import PeopleCommand, SeeBoard, SeeDigest, SeeStuck, SetDigest
from bot.care.rules import CareRules
from bot.care.sent import sent_tests
from bot.care.step import CareStep, Facts, InvitationAsked
from bot.engine.context import Context
from bot.engine.events import Event
from bot.runtime.admission import Admission
from bot.runtime.care_ports import name_of_alarm, name_of_digest
from bot.runtime.inviting import Inviting
from bot.runtime.mailing import Mailing
from bot.runtime.ports import UnitOfWork


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamStep:
    """What a step on the team's side came to.

    Attributes:
        conversation_id: The member's, or the name of the alarm that rang.
        letters: What happens in the conversations of people, each by its id.
        wakes: Alarms that are to ring, by their names; `None` for one that rings no more.
    """

    conversation_id: str
    letters: tuple[tuple[str, Event], ...] = ()
    wakes: tuple[tuple[str, datetime | None], ...] = ()


class Ledger:
    """Loads and puts down within a unit of work."""

    def __init__(
        self,
        rules: Callable[[], CareRules],
        context: Callable[[], Context],
        admission: Admission,
        *,
        link_for: Callable[[str, str], str],
        inviting: Inviting,
    ) -> None:
        """Take what the clinic has set, the team's door, and what makes links and invitations."""
        self._rules = rules
        self._context = context
        self._admission = admission
        self._link_for = link_for
        self._inviting = inviting

    def team(self, unit: UnitOfWork, at: datetime) -> Facts:
        """Return the team as it stands."""
        everyone = unit.care.everyone()
        return Facts(
            rules=self._rules(),
            at=at,
            members=tuple(m for m in everyone if m.removed_at is None),
            names={m.number: m.label for m in everyone},
        )

    def facts(self, unit: UnitOfWork, member: Member, command: Command, at: datetime) -> Facts:
        """Load what a command needs, and no more."""
        care, facts = unit.care, self.team(unit, at)
        if isinstance(command, PeopleCommand):
            return self._of_people(unit, member, command, facts)
        match command:
            case SeeInbox() | AskItem() | RemoveMember() | Leave() | SetDuty():
                return self.inbox(unit, facts)
            case OpenItem(item=number):
                item = care.item(number)
                shared = item is not None and item.shared
                record = care.result(item.person, item.test) if item and shared else None
                return replace(self.about(unit, item, facts), record=record)
            case (
                TakeItem(item=number)
                | LetGo(item=number)
                | HandOver(item=number)
                | Close(item=number)
            ):
                return self.about(unit, care.item(number), facts)
            case ClearPerson(reference=reference):
                return self._of_person(unit, member, reference, facts)
            case Invite() | SeeInvitations() | SendAgain() | RevokeInvitation():
                return replace(facts, invitations=care.invitations())
            case Other() if (whom := asked_whom(member)) is not None:
                return self._of_person(unit, member, whom, facts)
            case ExportPerson(reference=reference):
                return self._all_sent(unit, reference, facts)
            case Other() if (asked := asked_about(member)) is not None:
                return self.about(unit, care.item(asked), facts)
            case Other(text=text) if (named := alone(text)) is not None and not member.room:
                return self._of_person(unit, member, named, facts)
            case _:
                return facts

    def about(self, unit: UnitOfWork, item: Item | None, facts: Facts) -> Facts:
        """Load what has to be known with an item: whether its person can be reached."""
        items = () if item is None else (item,)
        return replace(facts, item=item, blocked=_blocked(unit, items))

    def inbox(self, unit: UnitOfWork, facts: Facts) -> Facts:
        """Load all that is open, with whose chat is blocked."""
        items = unit.care.open_items()
        return replace(facts, items=items, blocked=_blocked(unit, items))

    def _of_people(
        self, unit: UnitOfWork, member: Member, command: PeopleCommand, facts: Facts
    ) -> Facts:
        """Load where people stand: everybody, or the one that a command names."""
        match command:
            case SetDigest():
                return facts
            case SeeBoard() | SeeStuck() | SeeDigest():
                return replace(facts, people=unit.care.people())
            case _:
                return self._of_person(unit, member, command.who, facts)

    def _of_person(self, unit: UnitOfWork, member: Member, who: str, facts: Facts) -> Facts:
        """Load all of one person, named by their conversation or by what the team calls them."""
        people = unit.care.people(who)
        if not people and (found := unit.care.person(who)) is not None:
            people = unit.care.people(found)
        if not people:
            unopened = (p for p in unit.care.people() if p.id is None)
            named = [p for p in unopened if p.reference.casefold() == who.casefold()]
            people = tuple(named[:1])
        me = unit.load_by_id(member.id)
        facts = replace(
            facts,
            people=people,
            context=self._context(),
            locale=facts.locale if me is None else me.conversation.locale,
        )
        if not people or people[0].id is None:
            return facts
        person = people[0].id
        stored = unit.load_by_id(person)
        return replace(
            facts,
            person=None if stored is None else stored.conversation,
            records=unit.care.results(person),
            done=tuple((line.at, line.audit) for line in unit.care.log_of(person)),
        )

    def _all_sent(self, unit: UnitOfWork, reference: str, facts: Facts) -> Facts:
        """Load what somebody has sent."""
        found = unit.care.person(reference)
        stored = None if found is None else unit.load_by_id(found)
        if stored is None:
            return facts
        person = stored.conversation
        records = (unit.care.result(person.id, test) for test in sent_tests(person))
        return replace(
            facts,
            person=person,
            records=tuple(record for record in records if record is not None),
            items=unit.care.items_of(person.id),
        )

    def put_down(
        self, unit: UnitOfWork, conversation_id: str, step: CareStep, at: datetime
    ) -> TeamStep:
        """Put down all that a step leads to.

        Raises:
            ConflictError: Another writer was faster.
        """
        mailing = Mailing(unit, unit.care.members(), self._link_for)
        members = tuple(armed(member, self._rules(), at) for member in step.members)
        for member in members:
            unit.care.save_member(member)
            if member.removed_at is not None:
                unit.care.silence(member.id, at)
        items = {item.number: item for item in step.items}
        for number in {m.item for m in step.messages if m.item is not None} - items.keys():
            found = unit.care.item(number)
            if found is not None:
                items[number] = found
        for wanted in step.tickets:
            code = self._admission.admit(unit, wanted.role, wanted.label, at=at, by=wanted.to)
            address = mailing.address(wanted.to) or ""
            mailing.post(admitting.code_made(wanted, self._link_for(address, code)), items)
        for asked in step.invitations_asked:
            self._invite(unit, mailing, asked, at)
        for invitation in step.invitations:
            unit.care.save_invitation(invitation)
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
            wakes=(
                *((name_of_alarm(item.number), item.wake_at) for item in items.values()),
                *((name_of_digest(m.number), m.digest_at) for m in members),
            ),
        )

    def _invite(
        self, unit: UnitOfWork, mailing: Mailing, asked: InvitationAsked, at: datetime
    ) -> None:
        """Make an invitation, or give one another code, and hand it to whoever asked."""
        again = isinstance(asked.what, Invitation)
        if isinstance(asked.what, Invitation):
            invitation = self._inviting.send_again(unit, asked.what, at, asked.to)
        else:
            taken = unit.care.invitations()
            (invitation,) = self._inviting.drawn((asked.what,), taken, at=at, by=asked.to)
            self._inviting.put_down(unit, (invitation,), at, asked.to)
        link = self._link_for(mailing.address(asked.to) or "", invitation.code)
        rules, context = self._rules(), self._context()
        handed = inviting.handed(
            invitation,
            asked.to,
            link,
            rules=rules,
            context=context,
            locale=mailing.locale(asked.to),
            again=again,
        )
        for given in handed:
            mailing.post(given, {})


def _blocked(unit: UnitOfWork, items: Iterable[Item]) -> frozenset[str]:
    """Return who of those whom items are about has blocked the bot."""
    stored = (unit.load_by_id(who) for who in {item.person for item in items})
    there = (one.conversation for one in stored if one is not None)
    return frozenset(person.id for person in there if person.blocked_at is not None)
