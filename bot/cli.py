"""The command line. Heavy parts are imported inside the commands, so that help comes at once."""

import asyncio
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from bot import care_cli
from bot.errors import WallsideError

app = typer.Typer(
    name="wallside",
    help="Stands by, in a chat, while someone does a home lie-sit-stand test.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)

app.add_typer(care_cli.team)
app.command()(care_cli.audit)

RESULTS = Path("wallside-results")


class Language(StrEnum):
    """The languages on offer."""

    ENGLISH = "en"
    SPANISH = "es"


class Opening(StrEnum):
    """How much is asked before a first test."""

    SHORT = "short"
    FULL = "full"


@app.command()
def play(
    script: Annotated[
        Path | None, typer.Argument(help="A demo script; without one, the first that ships.")
    ] = None,
    results: Annotated[Path, typer.Option(help="The folder for summary and files.")] = RESULTS,
    pause: Annotated[float, typer.Option(help="Seconds to wait after each message.")] = 0.0,
) -> None:
    """Play a whole test from a demo script in virtual time, and keep its results.

    Example: wallside play demo_scripts/clear-rise.txt
    """
    from bot.testing.showing import show

    folder = show(script, results, pause=pause)
    typer.echo(f"\nThe results are in {folder}")


@app.command("try")
def try_(
    speed: Annotated[
        float, typer.Option(min=0.1, max=1000, help="How fast the clock runs; 1 is real time.")
    ] = 1.0,
    results: Annotated[Path, typer.Option(help="The folder for summary and files.")] = RESULTS,
    language: Annotated[
        Language, typer.Option(help="The language to begin in.")
    ] = Language.ENGLISH,
    opening: Annotated[
        Opening, typer.Option(help="short: the test at once; full: as a patient meets it.")
    ] = Opening.SHORT,
    team: Annotated[
        bool, typer.Option("--team", help="With a care team, which you can be as well.")
    ] = False,
) -> None:
    """Do the test yourself in the terminal. Leave with /leave; start again to go on.

    Example: wallside try --speed 30

    With a team, /as Marta goes on as Marta, and /as alone as the person again.

    Example: wallside try --opening full --team --speed 30
    """
    from bot.bootstrap import try_out
    from bot.logs import configure_logs
    from bot.settings import load_settings

    configure_logs(quiet=True)
    settings = load_settings()
    settings = settings.model_copy(
        update={
            "speed": speed,
            "folder": settings.folder / f"try-{opening.value}",
            "opening": opening.value,
            "team": team,
        }
    )
    typer.echo("Type as you would on a phone; a number chooses a button; /leave to leave.")
    asyncio.run(try_out(settings, results, language.value))
    typer.echo("Run the same command to go on where you were. The clock runs on.")


@app.command()
def invite(
    reference: Annotated[
        str, typer.Argument(help="The clinic's own opaque reference. Never a name.")
    ],
    protocol: Annotated[
        str | None, typer.Option(help="four-readings or six-readings; else the default.")
    ] = None,
    days: Annotated[int, typer.Option(min=1, max=365, help="How long it is good.")] = 30,
) -> None:
    """Make an invitation: a link, its code, and the link as a QR picture in the terminal.

    Example: wallside invite HS-0042 --protocol six-readings
    """
    import sys

    import segno

    from bot.bootstrap import invite as make_invitation
    from bot.errors import SettingsError
    from bot.settings import load_settings

    settings = load_settings()
    if not settings.bot_name:
        raise SettingsError("Set WALLSIDE_BOT_NAME to the bot's name on Telegram, without the @.")
    invitation = make_invitation(settings, reference, protocol, days)
    link = f"https://t.me/{settings.bot_name}?start={invitation.code}"
    typer.echo(f"Reference  {reference}")
    typer.echo(f"Code       {invitation.code}")
    typer.echo(f"Link       {link}")
    typer.echo(f"Good until {invitation.expires_at:%Y-%m-%d %H:%M} UTC, for one chat")
    segno.make(link, micro=False).terminal(out=sys.stdout, compact=True)


@app.command()
def clear(
    reference: Annotated[str, typer.Argument(help="The reference, or the number they were told.")],
    by: Annotated[str, typer.Option(help="Who of the care team clears them.")],
) -> None:
    """Clear a person for the test at home whom the checklist held back.

    Example: wallside clear HS-0042 --by "Dr Lind"
    """
    from bot.bootstrap import clear as clear_person
    from bot.settings import load_settings

    clear_person(load_settings(), reference, by)
    typer.echo(f"Cleared {reference}. They are told when the bot runs.")


@app.command()
def missing() -> None:
    """List whose second test never came, so that the care team can ask.

    Example: wallside missing
    """
    from bot.bootstrap import missing as missing_second
    from bot.settings import load_settings

    people = missing_second(load_settings())
    for reference, since in people:
        typer.echo(f"{reference}  since {since:%Y-%m-%d}")
    if not people:
        typer.echo("Nobody's second test is missing.")


@app.command()
def serve() -> None:
    """Talk on Telegram. Needs WALLSIDE_TOKEN in the environment.

    Example: WALLSIDE_TOKEN=123:abc wallside serve
    """
    from bot.bootstrap import serve as serve_telegram
    from bot.logs import configure_logs
    from bot.settings import load_settings

    configure_logs()
    asyncio.run(serve_telegram(load_settings()))


@app.command()
def check() -> None:
    """Say whether settings, data folder, database, texts and fonts are in order.

    Exit code 0 when they are, 1 when something has to be put right.
    """
    from bot.checkup import checkup

    findings = checkup()
    for finding in findings:
        typer.echo(f"{'ok ' if finding.good else 'NOT OK'}  {finding.what}: {finding.says}")
    if not all(finding.good for finding in findings):
        raise typer.Exit(1)


def main() -> None:
    """Run the command line; what can be put right is said in one line."""
    try:
        app()
    except WallsideError as error:
        typer.secho(str(error), err=True, fg=typer.colors.RED)
        raise SystemExit(1) from None
