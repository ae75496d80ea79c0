"""The operator's commands for invitations: make them, list them, send again, revoke.

Exit codes: 0 it is done; 1 it cannot be done (settings, database, opened already); 2 the command
is not right; 3 there is no invitation of that reference; 4 a table has lines that are wrong, and
nothing was done.
"""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final

import typer
from typer.core import TyperGroup

from bot.care_cli import NOT_THERE, AsJson, print_json
from bot.progress import progress

if TYPE_CHECKING:
    from bot.care.invitation import Invitation
    from bot.invitations import Invitations, Made

LINES_WRONG: Final = 4
"""The exit code where a table has lines that are wrong."""

OUT: Final = Path("wallside-invitations.zip")

_NEW: Final = "new"


class _OneOrMore(TyperGroup):
    """Takes `wallside invite HS-0042` as `wallside invite new HS-0042`."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Put the command in where somebody left it out."""
        if args and args[0] not in (*self.commands, "--help"):
            args = [_NEW, *args]
        return super().parse_args(ctx, args)


invite = typer.Typer(
    name="invite",
    cls=_OneOrMore,
    help="Invite people: one, or many from a table; see who has not opened theirs.\n\n"
    "Example: wallside invite HS-0042 --language es --handout HS-0042.pdf\n\n"
    "Example: wallside invite --csv people.csv --out invitations.zip",
    no_args_is_help=True,
)


class Language(StrEnum):
    """The languages on offer."""

    ENGLISH = "en"
    SPANISH = "es"


Handout = Annotated[Path | None, typer.Option(help="Write the handout to print, with the link.")]


@invite.command(_NEW)
def new(
    reference: Annotated[
        str | None,
        typer.Argument(help="The clinic's own opaque reference, never a name; else one is made."),
    ] = None,
    *,
    protocol: Annotated[
        str | None, typer.Option(help="four-readings or six-readings; else the default.")
    ] = None,
    language: Annotated[
        Language | None, typer.Option(help="The chat begins in it, and the handout is in it.")
    ] = None,
    note: Annotated[str | None, typer.Option(help="For the team only.")] = None,
    days: Annotated[
        int | None, typer.Option(min=1, max=365, help="How long it is good; else 30, or as set.")
    ] = None,
    handout: Handout = None,
    table: Annotated[
        Path | None, typer.Option("--csv", help="Invite all in this table; see --template.")
    ] = None,
    out: Annotated[
        Path, typer.Option(help="Of a table: the file to write, .zip, or .csv for links alone.")
    ] = OUT,
    handouts: Annotated[bool, typer.Option(help="Of a table: handouts as well.")] = True,
    template: Annotated[
        bool, typer.Option("--template", help="Print a table to begin with.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Make an invitation: link, code, and the link as a QR picture. The word new can be left out.

    A table has the columns reference, language, protocol and note, in any order; none is required,
    and a row without a reference gets one. If one line is wrong, nobody is invited. The file holds
    links that let people in: only you can read it, so keep it safe and delete it soon.

    Example: wallside invite HS-0042 --protocol six-readings --handout HS-0042.pdf

    Example: wallside invite --template > people.csv
    """
    from datetime import timedelta

    from bot.care.invitation import InvitationWanted
    from bot.care.invite_rows import TEMPLATE
    from bot.care.naming import bare

    if template:
        typer.echo(TEMPLATE, nl=False)
        return
    invitations = _invitations()
    if table is not None:
        if any((reference, protocol, language, note, days, handout)):
            raise typer.BadParameter("With --csv only --out, --no-handouts and --json can be used.")
        _many(invitations, table, out, handouts=handouts, as_json=as_json)
        return
    wanted = InvitationWanted(
        reference=None if reference is None else bare(reference),
        protocol=protocol,
        language=None if language is None else language.value,
        note=None if note is None else " ".join(note.split()),
        lasts=None if days is None else timedelta(days=days),
    )
    _show(invitations.invite(wanted, handout), handout, as_json=as_json)


@invite.command("list")
def list_(
    unopened: Annotated[
        bool, typer.Option("--unopened", help="Only those that nobody has opened.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """List invitations: where each stands, how long ago it was sent, and until when it is good.

    Example: wallside invite list --unopened
    """
    from bot.care.invitation import Standing

    waits = (Standing.WAITS, Standing.RAN_OUT)
    found = [one for one in _invitations().every() if not unopened or one[1] in waits]
    if as_json:
        print_json(
            [{**_facts(i), "standing": stands.value, "days_ago": ago} for i, stands, ago in found]
        )
        return
    if not found:
        typer.echo("No invitation waits to be opened." if unopened else "Nobody was invited yet.")
        return
    from rich.console import Console
    from rich.markup import escape
    from rich.table import Column, Table

    names = ("reference", "stands", "sent", "good until", "language", "protocol", "note")
    columns = (Column(name, overflow="fold") for name in names)
    table = Table(*columns, title="Invitations", title_justify="left")
    for i, stands, ago in found:
        sent = "today" if ago < 1 else f"{ago} day{'s' * (ago > 1)} ago"
        until = f"{i.expires_at:%Y-%m-%d}"
        cells = (i.reference, stands.value, sent, until, i.language, i.protocol, i.note)
        table.add_row(*(escape(cell or "") for cell in cells))
    Console().print(table)


@invite.command()
def resend(
    reference: Annotated[str, typer.Argument(help="Of an invitation that nobody has opened.")],
    handout: Handout = None,
    as_json: AsJson = False,
) -> None:
    """Make another link for somebody. The old one opens nothing any more.

    Example: wallside invite resend HS-0042 --handout HS-0042.pdf
    """
    from bot.care.naming import bare

    made = _invitations().send_again(bare(reference), handout)
    if made is None:
        _not_there(reference)
    else:
        _show(made, handout, as_json=as_json)


@invite.command()
def revoke(
    reference: Annotated[str, typer.Argument(help="Of an invitation that nobody has opened.")],
    as_json: AsJson = False,
) -> None:
    """Let an invitation open nothing any more. `resend` makes another link.

    Example: wallside invite revoke HS-0042
    """
    from bot.care.naming import bare

    revoked = _invitations().revoke(bare(reference))
    if revoked is None:
        _not_there(reference)
    elif as_json:
        print_json(_facts(revoked))
    else:
        typer.echo(f"Revoked {revoked.reference}. Its link opens nothing any more.")


def _many(
    invitations: "Invitations", table: Path, out: Path, *, handouts: bool, as_json: bool
) -> None:
    from bot.errors import SettingsError
    from bot.invite_remedies import remedy

    try:
        content = table.read_bytes()
    except OSError as error:
        raise SettingsError(f"{table} cannot be read: {error.strerror}.") from None
    read = invitations.read(content)
    if read.wrong:
        for wrong in read.wrong:
            typer.secho(f"{table.name}, line {remedy(wrong)}", err=True, fg=typer.colors.RED)
        typer.secho("Nobody was invited.", err=True, fg=typer.colors.RED)
        raise typer.Exit(LINES_WRONG)
    with progress("Inviting", len(read.wanted)) as done:
        made = invitations.invite_all(read.wanted, out, handouts=handouts, progress=done)
    if as_json:
        print_json({"file": str(out), "invitations": [_made_facts(one) for one in made]})
        return
    typer.echo(f"Invited {len(made)}. Links and papers are in {out}: keep it safe.")


def _show(made: "Made", handout: Path | None, *, as_json: bool) -> None:
    import segno

    if as_json:
        print_json({**_made_facts(made), "handout": None if handout is None else str(handout)})
        return
    invitation = made.invitation
    typer.echo(f"Reference  {invitation.reference}")
    typer.echo(f"Code       {invitation.code}")
    typer.echo(f"Link       {made.link}")
    typer.echo(f"Good until {invitation.expires_at:%Y-%m-%d %H:%M} UTC, for one chat")
    segno.make(made.link, micro=False).terminal(out=sys.stdout, compact=True)
    if handout is not None:
        typer.echo(f"The handout is in {handout}")


def _made_facts(made: "Made") -> dict[str, Any]:
    return {**_facts(made.invitation), "code": made.invitation.code, "link": made.link}


def _facts(invitation: "Invitation") -> dict[str, Any]:
    """Return what is known of an invitation, without what opens it."""
    at = invitation.opened_at
    return {
        "reference": invitation.reference,
        "protocol": invitation.protocol,
        "language": invitation.language,
        "note": invitation.note,
        "made_at": invitation.made_at.isoformat(),
        "expires_at": invitation.expires_at.isoformat(),
        "opened_at": None if at is None else at.isoformat(),
    }


def _not_there(reference: str) -> None:
    says = f"Nobody was invited as {reference!r}. See: wallside invite list"
    typer.secho(says, err=True, fg=typer.colors.RED)
    raise typer.Exit(NOT_THERE)


def _invitations() -> "Invitations":
    from bot.invitations import Invitations
    from bot.settings import load_settings

    return Invitations(load_settings())
