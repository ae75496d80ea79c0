"""The operator's command that hands out what people have sent to the team, in one file.

Exit codes: 0 it is done; 1 it cannot be done (settings, database, the file); 2 the command is not
right; 3 there is nobody of that name, or nothing that may go out.
"""

from contextlib import closing
from datetime import date, datetime
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final, NoReturn

import typer

from bot.progress import progress
from bot.typed_days import a_day

if TYPE_CHECKING:
    from bot.exporting import Chosen, Disguise, Packed

NOT_THERE: Final = 3
"""The exit code where nobody has that name, or nothing may go out."""


class Taken(StrEnum):
    """The forms on offer."""

    CSV = "csv"
    PDF = "pdf"
    FHIR = "fhir"


class Spoken(StrEnum):
    """The languages on offer."""

    ENGLISH = "en"
    SPANISH = "es"


def export(
    reference: Annotated[
        list[str] | None, typer.Option(help="Of a person; say it again for each further one.")
    ] = None,
    since: Annotated[
        datetime | None,
        typer.Option("--from", parser=a_day, metavar="DAY", help="Tests from this day on."),
    ] = None,
    until: Annotated[
        datetime | None,
        typer.Option(
            "--to", parser=a_day, metavar="DAY", help="Tests up to this day, which is included."
        ),
    ] = None,
    everyone: Annotated[bool, typer.Option("--all", help="Of all people and days.")] = False,
    form: Annotated[
        list[Taken] | None,
        typer.Option(help="Only this form; say it again for each further one. Else all three."),
    ] = None,
    out: Annotated[
        Path | None, typer.Option(help="The zip to write; without one, named by the time.")
    ] = None,
    language: Annotated[
        Spoken | None, typer.Option(help="Of README and pages; else the clinic's first.")
    ] = None,
    research: Annotated[
        bool,
        typer.Option(
            "--research", help="Other references, moved dates, nothing that people typed."
        ),
    ] = False,
    key_file: Annotated[
        Path | None,
        typer.Option(
            help="With --research: exports with the same key name people in the same way. "
            "Make one with: wallside key > study.key"
        ),
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Write over a file.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON, for scripts.")] = False,
) -> None:
    """Write what people have sent to the team into one zip: table, pages, FHIR documents.

    A test goes out when its person has agreed to the team, has sent it, by a word for it or by a
    standing one, and has not taken it back. Days are those of the clinic's zone. Only you can read
    the file, and the audit log says whose tests went out.

    Example: wallside export --reference HS-0042

    Example: wallside export --from 2026-03-01 --to 2026-03-31 --form csv --out march.zip

    Example: wallside export --all --research --key-file study.key
    """
    from bot.bootstrap import clinic_of, clock_in, rules_from, store_for
    from bot.care.naming import bare
    from bot.engine.effects import Form
    from bot.exporting import FORMS, Plan, Wanted, entries, gather, pack, release, steps
    from bot.settings import load_settings

    if not (reference or since or until or everyone):
        _fail("Say whose: --reference, or --from and --to, or --all.", 2)
    if everyone and (reference or since or until):
        _fail("--all goes with no --reference, --from or --to.", 2)
    if key_file is not None and not research:
        _fail("--key-file goes with --research.", 2)
    first, last = _day(since), _day(until)
    if first is not None and last is not None and last < first:
        _fail("--to is before --from.", 2)
    disguise = _disguise(key_file) if research else None
    settings = load_settings()
    wanted = Wanted(
        references=tuple(dict.fromkeys(map(bare, reference or ()))),
        since=first,
        until=last,
        zone=rules_from(settings)().zone,
    )
    plan = Plan(
        forms=tuple(f for f in FORMS if f in {Form(one) for one in form or tuple(Taken)}),
        language=language or clinic_of(settings).now().clinic.languages[0],
        wanted=wanted,
        disguise=disguise,
    )
    now = clock_in(settings.folder, settings.speed).now()
    path = out or Path(f"wallside-export-{now:%Y%m%dT%H%M%SZ}.zip")
    with closing(store_for(settings)) as store:
        chosen = gather(store, wanted)
        _say_who_is_missing(chosen)
        with progress("Exporting", steps(chosen.people, plan)) as done:
            packed = pack(
                path,
                entries(chosen.people, plan, done),
                lambda: release(store, chosen.people, now, research=research),
                force=force,
            )
    _say_what_is_done(packed, chosen, research=research, as_json=as_json)


def _day(at: datetime | None) -> date | None:
    return None if at is None else at.date()


def _disguise(key_file: Path | None) -> "Disguise":
    import secrets

    from bot.exporting import Disguise

    if key_file is None:
        return Disguise(secrets.token_bytes(32))
    try:
        key = key_file.read_bytes().strip()
        seen = key_file.stat().st_mode & 0o077
    except OSError as error:
        _fail(f"{key_file} cannot be read: {error.strerror}. Make it: wallside key > study.key", 1)
    if seen:
        typer.echo(f"Others can read the key. Please run: chmod 600 {key_file}", err=True)
    try:
        return Disguise(key)
    except ValueError:
        _fail(f"The key in {key_file} is too short. Make it: wallside key > study.key", 1)


def _say_who_is_missing(chosen: "Chosen") -> None:
    for reference in chosen.unknown:
        typer.secho(f"Nobody here has the reference {reference!r}.", err=True)
    if chosen.unknown:
        raise typer.Exit(NOT_THERE)
    for reference in chosen.empty:
        typer.echo(f"{reference} has sent no result, or has taken it back.", err=True)
    if not chosen.people:
        _fail("Nothing can go out: no such result was sent.", NOT_THERE)


def _say_what_is_done(packed: "Packed", chosen: "Chosen", *, research: bool, as_json: bool) -> None:
    import json

    tests = sum(len(person.records) for person in chosen.people)
    if as_json:
        facts: dict[str, Any] = {
            "file": str(packed.path),
            "people": len(chosen.people),
            "tests": tests,
            "files": packed.files,
            "bytes": packed.size,
            "sha256": packed.sha256,
            "research": research,
            "nothing_sent": list(chosen.empty),
        }
        typer.echo(json.dumps(facts, ensure_ascii=False, indent=1))
        return
    typer.echo(f"{packed.path}: people {len(chosen.people)}, tests {tests}, files {packed.files}")


def _fail(says: str, code: int) -> NoReturn:
    typer.secho(says, err=True, fg=typer.colors.RED)
    raise typer.Exit(code)
