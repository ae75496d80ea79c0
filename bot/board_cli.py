"""The operator's view of the board: how many people stand where, and who waits for how long.

Exit codes are those of `care_cli`: 0 it is done; 1 it cannot be done; 2 the command is not right.
"""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from bot.care_cli import AsJson, _fail, _now, _open, _print_table, print_json

if TYPE_CHECKING:
    from bot.care.board import Place, Standing

_REASONS = {
    "blocked": "has blocked the bot: call them",
    "paused": "paused",
    "held": "has to be cleared",
    "person": "",
}
"""Why somebody waits, as `reason_of` has it."""


def board(
    at: Annotated[
        str | None, typer.Option("--at", help="List who waits at this place, e.g. first-test.")
    ] = None,
    picture: Annotated[
        Path | None, typer.Option(help="Write the board as a picture into this PNG file.")
    ] = None,
    language: Annotated[str, typer.Option(help="Of the picture: en or es.")] = "en",
    as_json: AsJson = False,
) -> None:
    """Show the board: from invited to followed up, how many are there, and who waits longest.

    Places: invited, opened, consented, booked, first-test, second-test, sent, seen, followed-up,
    done. No result stands in it, and nothing that anybody typed.

    Example: wallside board

    Example: wallside board --at first-test --json

    Example: wallside board --picture board.png
    """
    from bot.bootstrap import rules_from
    from bot.care.board import Place, counts, out_of_reach, stand
    from bot.care.overview import length
    from bot.care.step import OPERATOR, Audit, Did
    from bot.settings import load_settings
    from bot.texts import LANGUAGES

    if at is not None and at not in tuple(Place):
        raise typer.BadParameter(f"there is no place {at!r}; use one of {', '.join(Place)}")
    if language not in LANGUAGES:
        raise typer.BadParameter(f"there is no language {language!r}; use en or es")
    settings = load_settings()
    rules, now = rules_from(settings)(), _now(settings)
    place = None if at is None else Place(at)
    with _open(settings) as store, store.unit() as unit:
        standings = tuple(stand(person) for person in unit.care.people())
        unit.care.note((Audit(who=OPERATOR, did=Did.SAW_BOARD, detail=at),), now)
    found = counts(standings, now)
    if picture is not None:
        from bot.reports.board import board_picture

        try:
            picture.write_bytes(board_picture(found, now, rules.zone, language))
        except OSError as error:
            _fail(f"{picture} cannot be written: {error.strerror}. Name another file.", 1)
        typer.echo(f"The picture is in {picture}", err=True)
    if place is not None:
        _show_waiting(standings, place, now, as_json=as_json)
        return
    if as_json:
        lines = {
            name.value: {
                "here": count.here,
                "reached": count.reached,
                "longest_s": None if count.longest is None else int(count.longest.total_seconds()),
            }
            for name, count in found.items()
        }
        blocked = len(out_of_reach(standings))
        facts = {"people": len(standings), "blocked": blocked, "places": lines}
        print_json({"at": now.isoformat(), **facts})
        return
    rows = [
        (
            name.value,
            str(count.here),
            str(count.reached),
            "" if count.longest is None else length(count.longest),
        )
        for name, count in found.items()
    ]
    people = "1 person" if len(standings) == 1 else f"{len(standings)} people"
    if blocked := len(out_of_reach(standings)):
        people += f", {blocked} {'has' if blocked == 1 else 'have'} blocked the bot"
    _print_table(f"Board, {people}", ("place", "now", "so far", "longest"), rows)


def _show_waiting(
    standings: "tuple[Standing, ...]", place: "Place", now: datetime, *, as_json: bool
) -> None:
    """Print who waits at one place, the longest first."""
    from bot.care.board import stuck
    from bot.care.overview import length, reason_of

    waiting = stuck(standings, place, now)
    if as_json:
        facts: list[dict[str, Any]] = [
            {
                "reference": one.facts.reference,
                "since": one.since.isoformat(),
                "waits_s": int(one.waited(now).total_seconds()),
                "paused": one.facts.paused,
                "held": one.facts.held,
                "blocked": one.facts.blocked_at is not None,
            }
            for one in waiting
        ]
        print_json(facts)
        return
    if not waiting:
        typer.echo(f"{place}: nobody waits.")
        return
    rows = [
        (
            one.facts.reference,
            length(one.waited(now)),
            _REASONS[reason_of(one)],
        )
        for one in waiting
    ]
    _print_table(
        f"{place}: {len(waiting)} {'waits' if len(waiting) == 1 else 'wait'}",
        ("reference", "for", "why"),
        rows,
    )
