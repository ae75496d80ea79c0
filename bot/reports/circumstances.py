"""What surrounded a test, in a clinician's words; nothing when nothing of it is known."""

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from babel.dates import format_time

from bot.protocol.circumstances import Circumstances
from bot.protocol.record import Origin, TestRecord
from bot.reports.formats import NONE, day, moment
from bot.texts import render


def lines(record: TestRecord, locale: str) -> list[str]:
    """Return up to three lines: day, kit and zone; medicines; preparation."""
    told = record.circumstances
    kind = [] if record.day is None else [_value("day", record.day, locale)]
    if told is None:
        return kind
    return [
        " ".join((*kind, *_kit(told, locale))),
        " ".join(_medicines(told, locale)),
        _departures(told, locale),
    ]


def typed_in(record: TestRecord, locale: str) -> Iterator[str]:
    """Yield that a test was typed in from paper, if it was, and when."""
    if record.origin is Origin.PAPER:
        at = record.typed_in_at or record.began_at
        yield render("files.page.paper", {"start": beside_local(at, record, locale)}, locale)


def by_name(record: TestRecord, locale: str) -> dict[str, str]:
    """Return kit, medicines and preparation by the names of their rows in a table."""
    told = record.circumstances or Circumstances()
    asked = told.audited or bool(told.departures)
    return {
        "cuff": _named("cuff", told.cuff, locale),
        "rate-source": _named("rate-source", told.rate_source, locale),
        "medicines": _listed("medicine", told.medicines, locale),
        "last-dose": _named("last-dose", told.last_dose, locale) if told.medicines else NONE,
        "departures": _listed("departure", told.departures if asked else None, locale),
    }


def brief_medicines(record: TestRecord, locale: str) -> str:
    """Return the medicines by short names, without examples."""
    told = record.circumstances or Circumstances()
    return _listed("explained", told.medicines, locale)


def beside_local(at: datetime, record: TestRecord, locale: str) -> str:
    """Return an instant in UTC, and beside it on the person's clock if their zone is known.

    The date stands there twice only where the two differ.
    """
    in_utc = moment(at, locale)
    if record.circumstances is None or record.circumstances.zone is None:
        return in_utc
    there = at.astimezone(ZoneInfo(record.circumstances.zone)).replace(tzinfo=UTC)
    local = format_time(there, format="HH:mm", locale=locale)
    if (date := day(there, locale)) != day(at, locale):
        local = f"{date}, {local}"
    return render("files.moment.local", {"moment": in_utc, "local": local}, locale)


def _kit(told: Circumstances, locale: str) -> Iterator[str]:
    yield _value("cuff", told.cuff, locale)
    yield _value("rate-source", told.rate_source, locale)
    if told.zone is not None:
        yield _line("zone", told.zone, locale)


def _medicines(told: Circumstances, locale: str) -> Iterator[str]:
    yield _line("medicines", _listed("medicine", told.medicines, locale), locale)
    if told.medicines or told.last_dose is not None:
        yield _value("last-dose", told.last_dose, locale)


def _departures(told: Circumstances, locale: str) -> str:
    asked = told.audited or bool(told.departures)
    words = _listed("departure", told.departures if asked else None, locale)
    return _line("departures", words, locale)


def _value(name: str, value: str | None, locale: str) -> str:
    return _line(name, _named(name, value, locale), locale)


def _named(name: str, value: str | None, locale: str) -> str:
    key = "files.circumstances.not-told" if value is None else f"files.{name}.{value}"
    return render(key, {}, locale)


def _listed(family: str, values: Sequence[str] | None, locale: str) -> str:
    """Return a list parted by semicolons, since what is named can hold commas.

    `None` is what was not asked about.
    """
    if values is None:
        return render("files.circumstances.not-asked", {}, locale)
    names = [render(f"files.{family}.{value}", {}, locale) for value in values]
    return "; ".join(names) or render("files.circumstances.none-told", {}, locale)


def _line(name: str, words: str, locale: str) -> str:
    return render(f"files.circumstances.{name}", {"value": words}, locale)
