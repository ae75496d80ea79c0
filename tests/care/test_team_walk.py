"""Random days of a team: whatever is typed in whatever order, nothing falls out of the inbox."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.care import arrivals, ladder
from bot.care.commands import (
    Cancel,
    Close,
    Command,
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
from bot.care.desk import advance
from bot.care.items import Closing, FollowUp, Item
from bot.care.member import Member
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.care.step import CareStep, Facts, Message
from bot.care.triage import Cause, Priority, Triage
from bot.engine.state import Conversation

RULES = CareRules(reminders=1)
BEGAN = datetime(2026, 3, 2, 9, tzinfo=UTC)
NUMBERS = st.integers(1, 4)
ITEMS = st.integers(1, 3)
COMMANDS: st.SearchStrategy[Command] = st.one_of(
    st.builds(TakeItem, ITEMS),
    st.builds(LetGo, ITEMS),
    st.builds(HandOver, ITEMS, st.one_of(st.none(), NUMBERS)),
    st.builds(Close, ITEMS, st.one_of(st.none(), st.sampled_from(FollowUp))),
    st.builds(OpenItem, ITEMS),
    st.builds(SetDuty, st.booleans()),
    st.builds(RemoveMember, NUMBERS),
    st.builds(Other, st.sampled_from(("please call", "chest pain", ""))),
    st.sampled_from((SeeInbox(), Cancel(), Leave(True), Leave(False))),
)
HAPPENINGS = st.one_of(
    st.tuples(st.just("command"), NUMBERS, COMMANDS),
    st.tuples(st.sampled_from(("alarm", "sent", "back", "wake")), ITEMS, st.none()),
)


class Team:
    """A team and its inbox, as the store would hold them."""

    def __init__(self) -> None:
        self.at = BEGAN
        self.members = {
            n: Member(
                number=n,
                id=f"m{n}",
                role=Role.CLINICIAN if n == 1 else Role.COORDINATOR,
                label=f"M{n}",
                joined_at=BEGAN,
                room=n == 4,
            )
            for n in range(1, 5)
        }
        self.items: dict[int, Item] = {}

    @property
    def facts(self) -> Facts:
        """What the store knows of the team and the inbox."""
        present = tuple(m for m in self.members.values() if m.removed_at is None)
        waiting = tuple(i for i in self.items.values() if i.is_open)
        return Facts(rules=RULES, at=self.at, members=present, items=waiting)

    def happens(self, kind: str, number: int, command: Command | None) -> CareStep:
        """Let something happen and put down what follows."""
        self.at += timedelta(minutes=1)
        step = self._step(kind, number, command)
        self.members |= {m.number: m for m in step.members}
        self.items |= {i.number: i for i in step.items}
        for message in step.messages:
            if isinstance(message, Message) and message.item in self.items and not message.changes:
                item = self.items[message.item]
                others = tuple(t for t in item.told if t[0] != message.to)
                told = (*others, (message.to, len(others)))
                self.items[item.number] = replace(item, told=told)
        return step

    def _step(self, kind: str, number: int, command: Command | None) -> CareStep:
        facts, item = self.facts, self.items.get(number)
        if command is not None:
            member = self.members[number]
            if member.removed_at is not None:
                return CareStep()
            named = getattr(command, "item", None)
            if member.asked is not None and isinstance(command, Other):
                named = int(member.asked.rpartition(":")[2])
            return advance(member, command, replace(facts, item=self.items.get(named or 0)))
        if kind == "back":
            return CareStep() if item is None else arrivals.taken_back(item, facts)
        if kind == "wake":
            due = item is not None and item.alarming and item.wake_at is not None
            return arrivals.climbed(item, facts) if item is not None and due else CareStep()
        if item is None or not item.is_open:
            person = Conversation(id=f"p{number}", locale="en")
            fresh = Triage(priority=Priority.REVIEW, cause=Cause.LINE_MET)
            item = replace(arrivals.new_item(person, 1, fresh, self.at), number=number)
        if kind == "alarm":
            silence = Triage(priority=Priority.ALARM, cause=Cause.SILENCE)
            return arrivals.alarmed(item, silence, facts)
        return arrivals.submitted(item, Triage(priority=Priority.SOON, cause=Cause.FALL), facts)


@settings(max_examples=60, deadline=None)
@given(st.lists(HAPPENINGS, min_size=5, max_size=25))
def test_nothing_falls_out_and_nobody_who_has_gone_is_told(
    happenings: list[tuple[str, int, Command | None]],
) -> None:
    """After every step each item is in the inbox or closed with a reason, and held by one present.

    An alarm that nobody has taken always has a next rung until all rungs have passed, and messages
    go only to those who were in the team before the step.
    """
    team = Team()
    for kind, number, command in happenings:
        present = {m.number for m in team.facts.members}
        before = dict(team.items)
        step = team.happens(kind, number, command)
        assert {message.to for message in step.messages} <= present
        assert before.keys() <= team.items.keys()
        here = {m.number for m in team.facts.members}
        for item in team.items.values():
            assert item.is_open == (item.closing is None)
            if item.closing is Closing.FOLLOWED_UP:
                assert item.follow_up is not None
            if item.is_open and item.taken_by is not None:
                assert item.taken_by in here
            if item.alarming and item.rung < 3 + RULES.reminders:
                assert item.wake_at is not None
        rooms = {m.number for m in team.facts.members if m.room}
        assert rooms.isdisjoint({i.taken_by for i in team.items.values()})


@given(st.sets(NUMBERS), st.integers(0, 3))
def test_the_ladder_ends_with_all_and_then_stops(duty: set[int], reminders: int) -> None:
    """Whoever is on duty, everybody has been told before it is over, and it does come to an end."""
    members = tuple(replace(m, on_duty=m.number in duty) for m in Team().members.values())
    rules = replace(RULES, reminders=reminders)
    person = Conversation(id="p", locale="en")
    alarm = Triage(priority=Priority.ALARM, cause=Cause.STOP)
    item = ladder.begin(arrivals.new_item(person, 1, alarm, BEGAN), Cause.STOP, BEGAN)
    told: list[set[int]] = []
    reach = ladder.Reach.DUTY
    while item.wake_at is not None:
        item, reach, reached = ladder.climb(item, members, rules, item.wake_at)
        told.append({m.number for m in reached})
    assert reach is ladder.Reach.OVER
    assert told[-1] == set()
    assert told[-2 - reminders] == {m.number for m in members}
    assert told.count({m.number for m in members}) >= 1 + reminders
    assert item.alarming
