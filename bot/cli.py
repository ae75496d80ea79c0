"""The command line. Heavy parts are imported inside the commands, so that help comes at once."""

import asyncio
from dataclasses import asdict
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any, Final

import typer
from typer.core import TyperGroup

from bot import board_cli, care_cli, export_cli, garbage, invite_cli
from bot.errors import WallsideError
from bot.progress import progress

ORDER: Final = (
    "play", "try", "serve", "check", "clinic-file",
    "invite", "team", "clear", "board", "missing", "export", "audit", "handout",
    "backup", "restore", "purge", "rotate", "key", "characteristics",
)  # fmt: skip
"""The commands as help lists them: to see it, to run it, for a clinic's day, for its database."""


class _InOrder(TyperGroup):
    """Lists the commands by what they are for, rather than by the module they stand in."""

    def list_commands(self, ctx: Any) -> list[str]:
        """Return the names of all commands."""
        return sorted(super().list_commands(ctx), key=ORDER.index)


app = typer.Typer(
    name="wallside",
    cls=_InOrder,
    help="Stands by, in a chat, while someone does a home lie-sit-stand test.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)

app.add_typer(care_cli.team)
app.command()(care_cli.audit)
app.add_typer(invite_cli.invite)
app.command()(board_cli.board)
app.command()(export_cli.export)

RESULTS = Path("wallside-results")
HANDOUT = Path("wallside-handout.pdf")


class Language(StrEnum):
    """The languages on offer."""

    ENGLISH = "en"
    SPANISH = "es"


class Plan(StrEnum):
    """The protocols to take."""

    FOUR = "four-readings"
    SIX = "six-readings"
    BOTH = "both"


class Opening(StrEnum):
    """How much is asked before a first test."""

    SHORT = "short"
    FULL = "full"


def _tell_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        typer.echo(f"wallside {version('wallside')}")
        raise typer.Exit


@app.callback()
def whole(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_tell_version, is_eager=True, help="Say which it is."),
    ] = False,
) -> None:
    """Stand by, in a chat, while someone does a home lie-sit-stand test."""


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
    from bot.settings import load_settings
    from bot.testing.showing import show

    number = load_settings().emergency_number or None
    folder = show(script, results, pause=pause, emergency_number=number)
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
    from bot.logs import configure_logs
    from bot.settings import load_settings
    from bot.trying import try_out

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
def handout(
    protocol: Annotated[
        str | None, typer.Option(help="four-readings or six-readings; else the default.")
    ] = None,
    language: Annotated[Language, typer.Option(help="Its language.")] = Language.ENGLISH,
    out: Annotated[Path, typer.Option(help="The file to write.")] = HANDOUT,
    link: Annotated[
        str, typer.Option(help="What its QR picture opens; else the bot, if its name is set.")
    ] = "",
    contact: Annotated[
        str | None, typer.Option(help="How to reach the care team; else WALLSIDE_CONTACT.")
    ] = None,
) -> None:
    """Make a handout to print (PDF, two A4 pages): the steps, when to stop, a table to fill in.

    Example: wallside handout --language es --out prueba.pdf
    """
    from bot.bootstrap import write_handout
    from bot.settings import load_settings

    settings = load_settings()
    update = {"protocol": protocol, "contact": contact}
    settings = settings.model_copy(update={k: v for k, v in update.items() if v is not None})
    write_handout(settings, language.value, out, link)
    typer.echo(f"The handout is in {out}")


@app.command()
def clear(
    reference: Annotated[str, typer.Argument(help="The reference, or the number they were told.")],
    by: Annotated[str, typer.Option(help="Who of the care team clears them.")],
    as_json: care_cli.AsJson = False,
) -> None:
    """Clear a person for the test at home whom the checklist held back.

    Exit code 3 when nobody has that reference.

    Example: wallside clear HS-0042 --by "Dr Lind"
    """
    from bot.bootstrap import Clearing
    from bot.bootstrap import clear as clear_person
    from bot.care.naming import bare
    from bot.settings import load_settings

    reference = bare(reference)
    became = clear_person(load_settings(), reference, by)
    if as_json and became is not Clearing.NOBODY:
        cleared = became is not Clearing.NEEDLESS
        told = became is Clearing.DONE
        care_cli.print_json({"reference": reference, "cleared": cleared, "told": told})
        return
    if became is Clearing.NOBODY:
        typer.secho(
            f"Nobody here has the reference {reference!r}. Who was invited is here once they have "
            "opened their link.",
            err=True,
            fg=typer.colors.RED,
        )
        raise typer.Exit(care_cli.NOT_THERE)
    if became is Clearing.NEEDLESS:
        typer.echo(f"Nothing holds {reference} back.")
    elif became is Clearing.UNHEARD:
        typer.echo(
            f"Cleared {reference}. They have blocked the bot, so they do not hear of it. "
            "Please call them."
        )
    else:
        typer.echo(f"Cleared {reference}. They are told when the bot runs.")


@app.command()
def missing(as_json: care_cli.AsJson = False) -> None:
    """List whose second test never came, so that the care team can ask.

    Example: wallside missing

    Example: wallside missing --json
    """
    from bot.bootstrap import missing as missing_second
    from bot.settings import load_settings

    people = missing_second(load_settings())
    if as_json:
        care_cli.print_json(
            [{"reference": reference, "since": since.isoformat()} for reference, since in people]
        )
        return
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


@app.command("clinic-file")
def clinic_file() -> None:
    """Print a file of settings for a clinic, every field with what it means.

    Example: mkdir -p ~/.wallside && wallside clinic-file > ~/.wallside/clinic.toml
    """
    from bot.clinic.file import example

    typer.echo(example(), nl=False)


@app.command()
def check(as_json: care_cli.AsJson = False) -> None:
    """Say whether settings, data folder, database, texts and fonts are in order.

    Exit code 0 when they are, 1 when something has to be put right.

    Example: wallside check

    Example: wallside check --json
    """
    from bot.checkup import checkup

    findings = checkup()
    if as_json:
        care_cli.print_json([asdict(finding) for finding in findings])
    for finding in () if as_json else findings:
        typer.echo(f"{'ok ' if finding.good else 'NOT OK'}  {finding.what}: {finding.says}")
    if not all(finding.good for finding in findings):
        raise typer.Exit(1)


@app.command()
def characteristics(
    tests: Annotated[int, typer.Option(min=2, help="How many tests.")] = 10_000,
    seed: Annotated[int, typer.Option(help="The same seed gives the same figures.")] = 1,
    protocol: Annotated[
        Plan, typer.Option(help="both: each person takes both on one day.")
    ] = Plan.BOTH,
    processes: Annotated[
        int | None, typer.Option(min=1, help="How many share the work; else one a core.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Everything as JSON.")] = False,
) -> None:
    """Run invented people with a known course through the whole chain, and say how good it is.

    Example: wallside characteristics --tests 10000 --seed 1
    """
    from bot.cohort.showing import show
    from bot.protocol.released import latest

    ids = [Plan.FOUR, Plan.SIX] if protocol is Plan.BOTH else [protocol]
    refs = [latest(one.value) for one in ids]
    show(tests, seed, refs, processes=processes, as_json=json)


@app.command()
def backup(
    file: Annotated[
        Path | None, typer.Argument(help="The file to write; without one, named by the time.")
    ] = None,
    as_json: care_cli.AsJson = False,
) -> None:
    """Write a backup of the database, also while the bot runs.

    What tells of people stays sealed in it; the keys are not in it: keep them elsewhere.

    Example: wallside backup /safe/place/monday.backup
    """
    from bot.settings import load_settings
    from bot.upkeep import back_up, default_backup

    path = file or default_backup()
    with progress("Writing") as step:
        contents = back_up(load_settings(), path, step)
    if as_json:
        care_cli.print_json(
            {"file": str(path), "rows": contents.rows, "revision": contents.revision}
        )
        return
    typer.echo(f"{path}: {contents.rows} rows, revision {contents.revision}")


@app.command()
def restore(
    file: Annotated[Path, typer.Argument(help="A file that `wallside backup` wrote.")],
    as_json: care_cli.AsJson = False,
) -> None:
    """Put a backup into a new database. Needs the keys in use when it was made.

    Messages that waited then go out when the bot runs, if they are still of use.

    Example: WALLSIDE_FOLDER=/new/folder WALLSIDE_KEY_FILE=/safe/wallside.keys wallside restore
    monday.backup
    """
    from bot.settings import load_settings
    from bot.upkeep import restore as restore_backup

    with progress("Restoring") as step:
        contents = restore_backup(load_settings(), file, step)
    if as_json:
        care_cli.print_json({"rows": contents.rows, "made_at": contents.made_at.isoformat()})
        return
    typer.echo(f"Restored {contents.rows} rows, as of {contents.made_at:%Y-%m-%d %H:%M} UTC.")


@app.command()
def purge(
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Only say what would go.")] = False,
    as_json: care_cli.AsJson = False,
) -> None:
    """Delete what has been kept as long as the clinic's file says. The bot does so daily itself.

    Example: wallside purge --dry-run
    """
    from bot.settings import load_settings
    from bot.upkeep import purge as purge_old

    purged = purge_old(load_settings(), dry_run=dry_run)
    if as_json:
        care_cli.print_json({"dry_run": dry_run, **asdict(purged)})
        return
    counts = (f"{count} {what}" for what, count in asdict(purged).items())
    typer.echo(f"{'Would delete' if dry_run else 'Deleted'}: {', '.join(counts)}")


@app.command()
def rotate(
    drop_old: Annotated[
        bool,
        typer.Option(
            "--drop-old", help="Take the old keys out of the key file: older backups need them."
        ),
    ] = False,
    as_json: care_cli.AsJson = False,
) -> None:
    """Seal the whole database with a new key, also while the bot runs.

    With a key file the key is made. With WALLSIDE_KEYS put it in front of the old one yourself,
    and start every process again, before you run this; afterwards the old one may go.

    Example: wallside rotate
    """
    from bot.settings import load_settings
    from bot.upkeep import rotate as rotate_keys
    from bot.upkeep import rows_to_seal

    settings = load_settings()
    with progress("Sealing", rows_to_seal(settings)) as step:
        done = rotate_keys(settings, step, drop_old=drop_old)
    if as_json:
        care_cli.print_json({"rows": done})
        return
    typer.echo(f"{done} rows are sealed with the new key.")


@app.command()
def key() -> None:
    """Print a new key, for WALLSIDE_KEYS.

    Example: wallside key
    """
    from bot.store.keys import new_key

    typer.echo(new_key())


def main() -> None:
    """Run the command line; what can be put right is said in one line."""
    garbage.look_seldom()
    try:
        app()
    except WallsideError as error:
        typer.secho(str(error), err=True, fg=typer.colors.RED)
        raise SystemExit(1) from None
