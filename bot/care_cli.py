"""The operator's commands for the care team: who is in it, and the log of what was done.

Exit codes: 0 it is done; 1 it cannot be done (settings, database); 2 the command is not right;
3 there is nobody, or nothing, of that name.
"""

from collections.abc import Sequence
from datetime import datetime
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated, Any, Final

import typer

from bot.typed_days import a_day

if TYPE_CHECKING:
    from bot.care.invitation import Invitation
    from bot.care.member import Member
    from bot.care.rules import CareRules
    from bot.runtime.care_ports import Logged
    from bot.runtime.ports import Store
    from bot.settings import Settings

NOT_THERE: Final = 3
"""The exit code where nobody, or nothing, has that name."""

team = typer.Typer(
    name="team",
    help="Who is in the care team: add somebody, list them, remove somebody.",
    no_args_is_help=True,
)


class TeamRole(StrEnum):
    """The roles of a team."""

    COORDINATOR = "coordinator"
    CLINICIAN = "clinician"


AsJson = Annotated[bool, typer.Option("--json", help="Print JSON, for scripts.")]


@team.command("add")
def add(
    label: Annotated[str, typer.Option(help="What the others in the team call them.")],
    role: Annotated[
        TeamRole, typer.Option(help="A clinician can also clear people and run the team.")
    ] = TeamRole.COORDINATOR,
    room: Annotated[bool, typer.Option("--room", help="The code is for a group's chat.")] = False,
    as_json: AsJson = False,
) -> None:
    """Make a code by which somebody joins the team: code, link and QR picture. It works once.

    Example: wallside team add --role coordinator --label Marta

    Example: wallside team add --room --label "Nurses' room"
    """
    import sys

    import segno

    from bot.bootstrap import conductor_for, context_from, rules_from
    from bot.care.roles import Role
    from bot.settings import load_settings

    settings, label = load_settings(), " ".join(label.split())
    rules, context, now = rules_from(settings), context_from(settings), _now(settings)
    with _open(settings) as store:
        with store.unit() as unit:
            taken = any(m.label.casefold() == label.casefold() for m in unit.care.members())
        if taken or not label:
            _fail(f"The team has a {label!r} already; choose another label.", 1)
        conductor = conductor_for(store, context, rules=rules)
        code = conductor.admit(Role(role.value), label, now)
    verb = "startgroup" if room else "start"
    link = f"https://t.me/{settings.bot_name}?{verb}={code}" if settings.bot_name else None
    until = now + rules().code_lasts
    if as_json:
        made = {"label": label, "role": role.value, "code": code, "link": link}
        print_json({**made, "expires_at": until.isoformat()})
        return
    typer.echo(f"For        {label}, {role.value}{', a group' if room else ''}")
    typer.echo(f"Code       {code}")
    typer.echo(f"Link       {link or 'set WALLSIDE_BOT_NAME to get one'}")
    typer.echo(f"Good until {until:%Y-%m-%d %H:%M} UTC, once")
    if link is not None:
        segno.make(link, micro=False).terminal(out=sys.stdout, compact=True)
    if not context().team:
        typer.echo(
            "People are asked about a team only when the clinic's file says `on = true` under "
            "[team], or WALLSIDE_TEAM is true.",
            err=True,
        )


@team.command("list")
def list_(
    everyone: Annotated[bool, typer.Option("--all", help="Those who have gone as well.")] = False,
    as_json: AsJson = False,
) -> None:
    """List the team: number, label, role, who is on duty, and since when they are in it.

    Example: wallside team list

    Example: wallside team list --all --json
    """
    from bot.bootstrap import rules_from
    from bot.settings import load_settings

    settings = load_settings()
    rules, now = rules_from(settings)(), _now(settings)
    with _open(settings) as store, store.unit() as unit:
        members = unit.care.everyone() if everyone else unit.care.members()
    on_duty = {m.number for m in members if m.removed_at is None and rules.on_duty(m, now)}
    if as_json:
        print_json([_member_facts(m, on_duty=m.number in on_duty) for m in members])
        return
    if not members:
        typer.echo("There is nobody in the team. Add somebody: wallside team add --label Marta")
        return
    columns = ("no.", "label", "role", "duty", "since", "gone")
    rows = [
        (
            str(m.number),
            m.label,
            f"{m.role}, group" if m.room else str(m.role),
            "on duty" if m.number in on_duty else "",
            _there(m.joined_at, rules),
            "" if m.removed_at is None else _there(m.removed_at, rules),
        )
        for m in members
    ]
    _print_table("Care team", columns if everyone else columns[:-1], rows)


@team.command("remove")
def remove(
    who: Annotated[str, typer.Argument(help="Their label, or their number in the list.")],
    as_json: AsJson = False,
) -> None:
    """Take somebody out of the team. It holds at once: nothing more is sent to them.

    What they had goes back to the inbox. They are not told; please tell them.

    Example: wallside team remove Marta
    """
    from bot.bootstrap import conductor_for, context_from, rules_from
    from bot.settings import load_settings

    settings = load_settings()
    with _open(settings) as store:
        with store.unit() as unit:
            members = unit.care.members()
        named = [m for m in members if who in (str(m.number), m.label)]
        if len(named) > 1:
            numbers = " or ".join(str(m.number) for m in named)
            _fail(f"{who!r} is more than one. Say the number: {numbers}.", 2)
        if not named:
            _fail(f"Nobody in the team is called {who!r}. See: wallside team list", NOT_THERE)
        conductor = conductor_for(store, context_from(settings), rules=rules_from(settings))
        conductor.remove(named[0].number, _now(settings))
    if as_json:
        print_json({"number": named[0].number, "label": named[0].label})
        return
    typer.echo(f"Removed {named[0].label}. What they had is in the inbox again.")


def audit(
    last: Annotated[int, typer.Option(min=1, help="So many lines, the newest.")] = 50,
    since: Annotated[
        datetime | None, typer.Option(parser=a_day, metavar="DAY", help="From this day on.")
    ] = None,
    person: Annotated[str | None, typer.Option(help="Only of one person's reference.")] = None,
    as_json: AsJson = False,
) -> None:
    """Show the audit log: who looked at what, and who changed what. Nobody can change it.

    No reading stands in it, and no words of anybody. To read it is logged as well.

    Example: wallside audit --since 2026-03-01 --person HS-0042

    Example: wallside audit --last 1000 --json
    """
    from zoneinfo import ZoneInfo

    from bot.bootstrap import rules_from
    from bot.care.naming import bare
    from bot.care.references import same
    from bot.care.step import OPERATOR, Audit, Did
    from bot.settings import load_settings

    settings = load_settings()
    rules = rules_from(settings)()
    begins = None if since is None else since.replace(tzinfo=ZoneInfo(rules.zone))
    with _open(settings) as store:
        wanted = invited = None
        if person is not None:
            with store.unit() as unit:
                wanted = unit.care.person(bare(person))
                invited = same(bare(person), unit.care.invitations())
        if person is not None and wanted is None and invited is None:
            _fail(f"Nobody here has the reference {person!r}.", NOT_THERE)
        with store.unit() as unit:
            lines = unit.care.log(begins, last if person is None else None)
            labels = {m.number: m.label for m in unit.care.everyone()}
            noted = Audit(who=OPERATOR, did=Did.READ_AUDIT, person=wanted)
            unit.care.note((noted,), _now(settings))
        references = {c.id: c.profile.reference for c in store.conversations()}
    shown = [line for line in lines if person is None or _concerns(line, wanted, invited)][-last:]
    facts = [_line_facts(line, labels, references, rules) for line in shown]
    if as_json:
        print_json(facts)
        return
    columns = ("when", "who", "did", "person", "item", "detail")
    _print_table("Audit log", columns, [tuple(str(f[c] or "") for c in columns) for f in facts])


def _concerns(line: "Logged", person: str | None, invited: "Invitation | None") -> bool:
    """Whether a line is about somebody: about their conversation, or about their invitation."""
    from bot.care.step import Did

    said = line.audit
    if said.person is not None:
        return said.person == person
    on_invitations = (Did.INVITED, Did.SENT_INVITATION_AGAIN, Did.REVOKED_INVITATION)
    return invited is not None and said.did in on_invitations and said.detail == invited.reference


def _line_facts(
    line: "Logged",
    labels: dict[int, str],
    references: dict[str, str | None],
    rules: "CareRules",
) -> dict[str, Any]:
    from bot.care.step import ITSELF, OPERATOR

    said = line.audit
    person = None if said.person is None else references.get(said.person) or said.person[:8]
    names = {OPERATOR: "operator", ITSELF: "Wallside"}
    return {
        "id": line.id,
        "at": line.at.isoformat(),
        "when": _there(line.at, rules),
        "who": names.get(said.who) or labels.get(said.who, str(said.who)),
        "did": said.did.value,
        "person": person,
        "item": said.item,
        "detail": said.detail,
    }


def _member_facts(member: "Member", *, on_duty: bool) -> dict[str, Any]:
    gone = member.removed_at
    return {
        "number": member.number,
        "label": member.label,
        "role": member.role.value,
        "room": member.room,
        "on_duty": on_duty,
        "joined_at": member.joined_at.isoformat(),
        "added_by": member.added_by,
        "removed_at": None if gone is None else gone.isoformat(),
    }


def _open(settings: "Settings") -> Any:
    from contextlib import closing

    from bot.bootstrap import store_for

    store: Store = store_for(settings)
    return closing(store)


def _now(settings: "Settings") -> datetime:
    from bot.bootstrap import clock_in

    return clock_in(settings.folder, settings.speed).now()


def _there(at: datetime, rules: "CareRules") -> str:
    """Return an instant on the clinic's clock."""
    from zoneinfo import ZoneInfo

    return f"{at.astimezone(ZoneInfo(rules.zone)):%Y-%m-%d %H:%M}"


def print_json(facts: Any) -> None:
    """Print facts as JSON, for scripts."""
    import json

    typer.echo(json.dumps(facts, ensure_ascii=False, indent=1))


def _print_table(title: str, columns: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> None:
    from rich.console import Console
    from rich.markup import escape
    from rich.table import Column, Table

    # Nothing is cut off where the screen is narrow, and what people typed is no markup.
    folded = (Column(name, overflow="fold") for name in columns)
    table = Table(*folded, title=escape(title), title_justify="left")
    for row in rows:
        table.add_row(*map(escape, row[: len(columns)]))
    Console().print(table)


def _fail(says: str, code: int) -> None:
    typer.secho(says, err=True, fg=typer.colors.RED)
    raise typer.Exit(code)
