"""Every role tries every action, through the doors that people really have."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest
from typer.testing import CliRunner

from bot.care.roles import MAY, ROOM, Action, Role
from bot.cli import app
from bot.engine.effects import Hand, Recall
from bot.engine.events import WordsGiven
from bot.engine.profile import Accompanied, Companion, Share
from bot.protocol.circumstances import Hazard
from bot.runtime.ports import Inbound
from bot.testing.access import markdown
from tests.care.clinic import Clinic
from tests.companions.people import Person


class World:
    """A clinic with something of every kind in it, and one person of a role who tries it all.

    Attributes:
        clinic: The clinic.
        who: The person who tries; `None` for the operator, who has no chat.
        number: Their number in the team; another member's for whoever is not in it.
    """

    def __init__(self, clinic: Clinic, role: Role) -> None:
        self.clinic = clinic
        self.helper = clinic.member("Hedda")
        self.held = clinic.patient("held", hazards=(Hazard.HEART_DISEASE,))
        clinic.knows(self.held, "HS-7")
        clinic.invites("HS-6")
        self.waits = clinic.patient("waits")
        clinic.knows(self.waits, "HS-8")
        self.who = self._comes(role)
        in_team = [m.number for m in clinic.team() if m.label == "Who"]
        self.number = in_team[0] if in_team else clinic.number_of("Hedda")
        me = () if self.who is None else (self.who.conversation.id,)
        companions = tuple(Companion(id=i, share=Share.ALARMS, since=clinic.now) for i in me)
        for name in ("ada", "bea"):
            clinic.measured(name).taps("yes")
        clinic.standing("stops000", companions=companions).types("stop").taps("equipment")
        clinic.rules = replace(clinic.rules, templates=(("call-us", {"en": "Please call us."}),))
        clinic.asks(replace(clinic.context, medicine_plans={"usual": {"en": "As usual."}}))
        clinic.waits(2 * 60)

    def _comes(self, role: Role) -> Person | None:
        match role:
            case Role.OPERATOR:
                return None
            case Role.COORDINATOR | Role.CLINICIAN:
                return self.clinic.member("Who", role)
            case Role.PATIENT:
                return self.clinic.measured("who").taps("no").taps("good").taps("none")
            case Role.COMPANION:
                stands_by = Accompanied(
                    id="stops0000000", number=1, share=Share.ALARMS, since=self.clinic.now
                )
                return self.clinic.patient(
                    "who", accompanies=(stands_by,), consented_at=None, team_since=None
                )
            case Role.STRANGER:
                return self.clinic.person("who").opens()

    def taps(self, *token: object) -> None:
        """Tap a button, whether one was ever sent or not."""
        if self.who is not None:
            self.clinic.taps_unseen(self.who, ":".join(map(str, token)))

    def types(self, text: str) -> None:
        """Type something."""
        if self.who is not None:
            self.who.types(text)

    def runs(self, *arguments: str) -> str:
        """Run a command of the program, where whoever tries is the operator."""
        if self.who is not None:
            return ""
        done = CliRunner().invoke(app, arguments)
        return done.stdout if done.exit_code == 0 else ""

    def read(self, key: str) -> bool:
        """Whether a message with such a paragraph reached whoever tries."""
        return self.who is not None and any(k.startswith(key) for k in self.who.read())

    def got(self, kind: type) -> bool:
        """Whether a message of a kind reached whoever tries; what came before is forgotten."""
        if self.who is None:
            return False
        found = any(isinstance(e, kind) for e in self.who.got)
        self.who.got.clear()
        return found

    def holds(self, item: int) -> None:
        """Let whoever tries have an item, or another member if they are not in the team."""
        now = replace(self.clinic.item(item), taken_by=self.number, taken_at=self.clinic.now)
        with self.clinic.store.unit() as unit:
            unit.care.save_item(now)


def sees_own_results(world: World) -> bool:
    """Ask for one's results."""
    world.types("results")
    return world.got(Hand | Recall)  # type: ignore[arg-type]


def sends_result(world: World) -> bool:
    """Send one's own result."""
    before = len(world.clinic.inbox())
    world.types("send my results")
    if world.read("question.send") and world.who is not None:
        world.who.taps("yes")
    return len(world.clinic.inbox()) > before


def sets_sharing(world: World) -> bool:
    """Let every result be sent."""
    world.taps("sharing", "always")
    return world.who is not None and world.who.profile.sends_since is not None


def opens_result(world: World) -> bool:
    """Open the result of somebody else."""
    world.got(Hand)
    world.taps("team", "open", 1)
    return world.got(Hand)


def takes_item(world: World) -> bool:
    """Take an item."""
    world.taps("team", "take", 1)
    return world.clinic.item(1).taken_by is not None


def lets_go(world: World) -> bool:
    """Give back an item."""
    world.holds(1)
    world.taps("team", "go", 1)
    return world.clinic.item(1).taken_by is None


def hands_over(world: World) -> bool:
    """Give an item to another member."""
    world.holds(2)
    to = next((m.number for m in world.clinic.team() if m.number != world.number), 0)
    world.taps("team", "give", 2, to)
    return world.clinic.item(2).taken_by == to


def closes(world: World) -> bool:
    """Close an item."""
    world.holds(2)
    world.taps("team", "close", 2, "call")
    return not world.clinic.item(2).is_open


def sets_duty(world: World) -> bool:
    """Go on duty."""
    world.taps("team", "duty", "on")
    return any(m.on_duty for m in world.clinic.team())


def sees_team(world: World) -> bool:
    """See who is in the team."""
    world.taps("team", "members")
    return world.read("care.team") or "Hedda" in world.runs("team", "list")


def clears(world: World) -> bool:
    """Clear somebody whom the checklist held back."""
    world.types("clear HS-7")
    world.runs("clear", "HS-7", "--by", "whoever runs it")
    return world.held.profile.cleared_at is not None


def adds_member(world: World) -> bool:
    """Make a code for somebody new."""
    world.types("add coordinator New")
    made = world.runs("team", "add", "--label", "New")
    return world.read("care.code") or "team-" in made


def removes_member(world: World) -> bool:
    """Take somebody out of the team."""
    world.taps("team", "remove", world.clinic.number_of("Hedda"))
    world.runs("team", "remove", "Hedda")
    return not any(m.label == "Hedda" for m in world.clinic.team())


def reads_audit(world: World) -> bool:
    """Read the audit log."""
    world.types("audit")
    return world.read("care.audit") or "result-sent" in world.runs("audit", "--json")


def exports(world: World) -> bool:
    """Get the files of all that somebody has sent."""
    world.got(Hand)
    world.types("export ada00000")
    out = world.clinic.store.engine.url.database or ""
    return world.got(Hand) or "tests 2" in world.runs(
        "export", "--all", "--form", "csv", "--out", f"{out}.zip", "--force"
    )


def leaves(world: World) -> bool:
    """Leave the team."""
    world.taps("team", "leave", "yes")
    return world.read("care.left")


def sees_inbox(world: World) -> bool:
    """See what waits."""
    world.taps("team", "inbox")
    return world.read("care.inbox")


def invites(world: World) -> bool:
    """Invite somebody."""
    world.types("invite HS-9")
    return world.read("care.invited") or "HS-9" in world.runs("invite", "HS-9")


def sees_invitations(world: World) -> bool:
    """See who has not opened theirs."""
    world.types("invitations")
    return world.read("care.invitations") or "HS-6" in world.runs("invite", "list")


def revokes(world: World) -> bool:
    """Revoke an invitation that nobody has opened."""
    world.taps("team", "revoke", "HS-6")
    world.runs("invite", "revoke", "HS-6")
    return any(i.revoked_at for i in world.clinic.invitations())


def on_page(world: World, *what: object, whose: str = "waits") -> Person:
    """Tap a button of somebody's page: of one who has no test booked, if nobody else is named."""
    person = world.clinic.people[f"test:{whose}"]
    world.taps("team", "who", person.conversation.id, *what)
    return person


def sees_board(world: World) -> bool:
    """See how many people stand where."""
    world.taps("team", "board")
    return world.read("care.board") or "consented" in world.runs("board")


def sees_person(world: World) -> bool:
    """See somebody's page."""
    on_page(world)
    return world.read("care.person")


def nudges(world: World) -> bool:
    """Remind somebody of what is missing."""
    on_page(world, "nudge", "book")
    return world.waits.profile.nudged_at is not None


def writes(world: World) -> bool:
    """Send somebody one of the clinic's messages."""
    before = world.waits.read().count("team.words")
    on_page(world, "write", 0)
    return world.waits.read().count("team.words") > before


def asks_repeat(world: World) -> bool:
    """Ask somebody for another test."""
    before = world.clinic.people["test:bea"].read().count("team.repeat")
    return on_page(world, "repeat", whose="bea").read().count("team.repeat") > before


def sets_protocol(world: World) -> bool:
    """Set which test somebody does next."""
    on_page(world, "test", "six-readings")
    return world.waits.profile.protocol_by_team


def sets_plan(world: World) -> bool:
    """Set somebody's medicine plan."""
    on_page(world, "plan", 0)
    return world.waits.profile.plan is not None


def closes_person(world: World) -> bool:
    """Close somebody."""
    on_page(world, "done", "yes")
    return world.waits.profile.done_at is not None


def sets_digest(world: World) -> bool:
    """Choose to get the weekly digest."""
    world.taps("team", "digest", "on")
    return world.read("care.digest")


ATTEMPTS: MappingProxyType[Action, Callable[[World], bool]] = MappingProxyType({
    Action.HEAR_ALARMS_OF_LINKED: lambda world: world.read("notice."),
    Action.HEAR_TEAM_ALARMS: lambda world: world.read("care.alarm."),
    Action.SEE_INBOX: sees_inbox,
    Action.SEE_TEAM: sees_team,
    Action.ADD_MEMBER: adds_member,
    Action.SEE_OWN_RESULTS: sees_own_results,
    Action.SEND_RESULT: sends_result,
    Action.SET_SHARING: sets_sharing,
    Action.OPEN_RESULT: opens_result,
    Action.TAKE_ITEM: takes_item,
    Action.LET_GO_ITEM: lets_go,
    Action.HAND_OVER_ITEM: hands_over,
    Action.CLOSE_ITEM: closes,
    Action.SET_DUTY: sets_duty,
    Action.CLEAR_PERSON: clears,
    Action.READ_AUDIT: reads_audit,
    Action.SEE_BOARD: sees_board,
    Action.SET_DIGEST: sets_digest,
    Action.SEE_PERSON: sees_person,
    Action.NUDGE_PERSON: nudges,
    Action.WRITE_TO_PERSON: writes,
    Action.ASK_REPEAT: asks_repeat,
    Action.SET_PROTOCOL: sets_protocol,
    Action.SET_PLAN: sets_plan,
    Action.CLOSE_PERSON: closes_person,
    Action.EXPORT: exports,
    Action.REMOVE_MEMBER: removes_member,
    Action.INVITE: invites,
    Action.SEE_INVITATIONS: sees_invitations,
    Action.REVOKE_INVITATION: revokes,
    Action.LEAVE_TEAM: leaves,
})  # fmt: skip
"""How each action is tried, in an order in which none hinders a later one."""


pytestmark = pytest.mark.usefixtures("operated")


def test_every_action_is_tried() -> None:
    """No action of the table is left out."""
    assert set(ATTEMPTS) == set(Action)


@pytest.mark.parametrize("role", list(Role))
def test_a_role_can_do_what_the_table_says_and_nothing_else(clinic: Clinic, role: Role) -> None:
    """What really happens when a role tries every action is just what the table allows."""
    world = World(clinic, role)
    done = {action for action, attempt in ATTEMPTS.items() if attempt(world)}
    assert done == MAY[role]


def test_in_a_group_only_what_waits_is_shown(clinic: Clinic) -> None:
    """Of all that a room of the team tries, only hearing of alarms and the inbox works."""
    world = World(clinic, Role.OPERATOR)
    room = clinic.person("Who")
    clinic.conductor.handle(
        Inbound(
            key="joins",
            address=room.address,
            event=WordsGiven(at=clinic.now, text=clinic.code(Role.CLINICIAN, "Who"), source="1"),
            group=True,
        )
    )
    clinic.deliver()
    world.who, world.number = room, clinic.number_of("Who")
    clinic.standing("again").types("stop").taps("equipment")
    done = {action for action, attempt in ATTEMPTS.items() if attempt(world)}
    assert done == ROOM


def test_the_documents_print_the_table() -> None:
    """DEVELOPERS.md prints the table as it is."""
    page = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert markdown() in page
