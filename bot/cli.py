"""The command line. Heavy parts are imported inside the commands, so that help comes at once."""

import asyncio
from pathlib import Path
from typing import Annotated

import typer

from bot.errors import WallsideError

app = typer.Typer(
    name="wallside",
    help="Stands by, in a chat, while someone does a home lie-sit-stand test.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)

RESULTS = Path("wallside-results")


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
    speed: Annotated[float, typer.Option(help="How fast the clock runs; 1 is real time.")] = 1.0,
    results: Annotated[Path, typer.Option(help="The folder for summary and files.")] = RESULTS,
    language: Annotated[str, typer.Option(help="The language to begin in: en or es.")] = "en",
) -> None:
    """Do the test yourself in the terminal. Leave with /leave; start again to go on.

    Example: wallside try --speed 30
    """
    from bot.bootstrap import try_out
    from bot.logs import configure_logs
    from bot.settings import load_settings

    configure_logs(quiet=True)
    settings = load_settings()
    settings = settings.model_copy(update={"speed": speed, "folder": settings.folder / "try"})
    typer.echo("Type as you would on a phone; a number chooses a button; /leave to leave.")
    asyncio.run(try_out(settings, results, language))
    typer.echo("Run the same command to go on where you were. The clock runs on.")


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
