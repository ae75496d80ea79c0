"""From a key and values to a sentence in a language."""

import io
from collections.abc import Mapping
from datetime import datetime, time, timedelta
from functools import lru_cache
from typing import Final, assert_never
from zoneinfo import ZoneInfo

from babel.dates import format_date, format_skeleton, format_time, get_timezone_location
from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.support import Translations

from bot.engine.effects import ClockTime, Day, Moment, Param, Place, Term
from bot.resources import shipped
from bot.texts.catalogue import CATALOGUE
from bot.texts.message import COUNT, Message

LANGUAGES: Final = ("en", "es")
"""The languages that ship, by their two-letter codes; the first is the source."""

_DAY: Final = "MMMEd"
"""Weekday, day and month in short, in the order of the language."""

DOMAIN: Final = "wallside"


def language_for(tag: str | None) -> str:
    """Return the shipped language for a client's language tag (`es-MX` -> `es`), else English."""
    primary = (tag or "").replace("_", "-").split("-")[0].lower()
    return primary if primary in LANGUAGES else LANGUAGES[0]


@lru_cache
def catalog(locale: str) -> Catalog:
    """Return the catalogue of a shipped language, as its file stands.

    Raises:
        FileNotFoundError: No catalogue ships for that language.
    """
    path = shipped("locales") / locale / "LC_MESSAGES" / f"{DOMAIN}.po"
    with path.open("rb") as source:
        return read_po(source, locale=locale, domain=DOMAIN)


@lru_cache
def translations(locale: str) -> Translations:
    """Return the catalogue of a shipped language, ready to look up.

    Raises:
        FileNotFoundError: No catalogue ships for that language.
    """
    compiled = io.BytesIO()
    write_mo(compiled, catalog(locale))
    compiled.seek(0)
    return Translations(compiled, domain=DOMAIN)


def render(key: str, params: Mapping[str, Param], locale: str) -> str:
    """Return the sentence for a key; in English where the language lacks it or has it wrong.

    Args:
        key: A key of the catalogue.
        params: A value for each placeholder; terms and durations are rendered in turn.
        locale: A shipped language.

    Raises:
        KeyError: No such message, or a placeholder without a value.
    """
    message = CATALOGUE[key]
    values = {name: _value(value, locale) for name, value in params.items()}
    try:
        return _sentence(message, params.get(COUNT), locale).format_map(values)
    except (LookupError, ValueError, OSError):
        if locale == LANGUAGES[0]:
            raise
        # Better in English than not at all: it may be words of safety.
        return _sentence(message, params.get(COUNT), LANGUAGES[0]).format_map(values)


def _sentence(message: Message, count: Param | None, locale: str) -> str:
    if locale == LANGUAGES[0] or not message.translated:
        return message.one if message.many is None or count == 1 else message.many
    known = translations(locale)
    if message.many is None:
        return known.gettext(message.one)
    return known.ngettext(message.one, message.many, count if isinstance(count, int) else 2)


def _value(value: Param, locale: str) -> str | int:
    match value:
        case Term(key):
            return render(key, {}, locale)
        case timedelta():
            return duration(value, locale)
        case Day(day):
            return format_skeleton(_DAY, datetime.combine(day, time()), locale=locale)
        case ClockTime(moment):
            return format_time(moment, "short", locale=locale)
        case Moment(at, zone):
            there = at.astimezone(ZoneInfo(zone))
            values = {
                "day": format_date(there.date(), "full", locale=locale),
                "time": format_time(there.time(), "short", locale=locale),
                "place": _place(zone, locale),
            }
            return render("term.moment", values, locale)
        case Place(zone):
            return _place(zone, locale)
        case int() | str():
            return value
        case _:
            assert_never(value)


def _place(zone: str, locale: str) -> str:
    """The name of the city that a zone is named after."""
    return get_timezone_location(zone, locale=locale, return_city=True)


def duration(length: timedelta, locale: str) -> str:
    """Return a length of time in short words, rounded to the second: `2 min 30 s`, `40 s`."""
    seconds = max(0, round(length.total_seconds()))
    minutes, seconds = divmod(seconds, 60)
    if not minutes:
        return render("term.seconds", {"seconds": seconds}, locale)
    if not seconds:
        return render("term.minutes", {"minutes": minutes}, locale)
    return render("term.minutes-seconds", {"minutes": minutes, "seconds": seconds}, locale)


def untranslated(locale: str) -> tuple[str, ...]:
    """Return the keys whose sentence is missing in a language; the source lacks none."""
    if locale == LANGUAGES[0]:
        return ()
    known = catalog(locale)
    return tuple(
        key
        for key, message in CATALOGUE.items()
        if message.translated and not _has_translation(known, message)
    )


def _has_translation(known: Catalog, message: Message) -> bool:
    entry = known.get(message.one)
    if entry is None or entry.fuzzy:
        return False
    return all(entry.string) if isinstance(entry.string, tuple) else bool(entry.string)
