"""A day and a time that are past, as people say them: yesterday at 9, Sunday 8:30, two days ago.

The grammar is that of bookings. A weekday, or a day by its number alone, is the latest such day
and not the next one; "ago" and "last" are put into words that the grammar knows.
"""

import re
import unicodedata
from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Final

from bot.booking.dates import FlawedError, only, possible_days
from bot.booking.english import ENGLISH
from bot.booking.facts import Ahead, Dated, Fact, InWeek, Named, Numbered, Pick
from bot.booking.outcome import Outcome, Reason, When
from bot.booking.phrases import meanings_of, together
from bot.booking.spanish import SPANISH

_DAY: Final = timedelta(days=1)
_LOOKED_BACK: Final = 62  # days in which "Sunday the 7th" is looked for
_MOST_AGO: Final = 400
_NUMBERS: Final = {**ENGLISH.numbers, **SPANISH.numbers, "a": 1, "one": 1, "un": 1, "una": 1}
_UNITS: Final = {
    "day": 1, "days": 1, "dia": 1, "dias": 1,
    "week": 7, "weeks": 7, "semana": 7, "semanas": 7,
}  # fmt: skip
_WEEKDAYS: Final = "|".join(
    sorted({*ENGLISH.weekdays, *SPANISH.weekdays}, key=lambda word: (-len(word), word))
)
_AGO: Final = re.compile(r"\b(\w+) (days?|weeks?) ago\b|\bhace (\w+) (dias?|semanas?)\b")
_LAST: Final = re.compile(rf"\b(?:last|this past|past) (?=(?:{_WEEKDAYS})\b)")
_PASADO: Final = re.compile(rf"\b({_WEEKDAYS}) pasad[oa]\b")
_BEFORE_YESTERDAY: Final = re.compile(r"\bantier\b")
_LAST_NIGHT: Final = re.compile(r"\blast night\b|\banoche\b")


def read_past(text: str, now: datetime) -> Outcome:
    """Return the day and time before now that a phrase means.

    Of several meanings only those that are past count. What can only be ahead is returned as it
    is, so that the person can be told.

    Args:
        text: Anything at all.
        now: The present in the person's zone.

    Raises:
        ValueError: `now` has no zone.
    """
    meant, flaws = meanings_of(_known_words(text, now.date()), now, past_days)
    past = {when for when in meant if _is_past(when, now)}
    return together(past or meant, flaws)


def _is_past(when: When, now: datetime) -> bool:
    if when.day is None:
        return True
    if when.time is None:
        return when.day <= now.date()
    return datetime.combine(when.day, when.time) <= now.replace(tzinfo=None)


def past_days(facts: Sequence[Fact], today: date) -> tuple[date, ...]:
    """Return the days that a reading can mean, the earliest first; none if it speaks of no day.

    Said on a Sunday, "Sunday" is today or a week ago.

    Raises:
        FlawedError: It comes to no day.
    """
    named, numbered = only(facts, Named), only(facts, Numbered)
    if any(only(facts, kind) is not None for kind in (Ahead, Dated, InWeek)):
        return possible_days(facts, today)
    if named is not None and named.pick is Pick.NEXT:
        return possible_days(facts, today)
    if named is None and numbered is None:
        return ()
    if named is None and numbered is not None and numbered.loose:
        raise FlawedError(None)
    found = [
        day
        for days in range(_LOOKED_BACK + 1)
        for day in [today - days * _DAY]
        if (named is None or day.weekday() == named.weekday)
        and (numbered is None or day.day == numbered.day)
    ]
    if not found:
        raise FlawedError(None if numbered is not None and numbered.loose else Reason.MISMATCH)
    if named is not None and numbered is None and found[0] == today:
        return (found[1], found[0])
    return (found[0],)


def _known_words(text: str, today: date) -> str:
    """Return the text with ways to speak of the past that the grammar lacks put into a date."""
    folded = unicodedata.normalize("NFKD", text.casefold())
    folded = "".join(ch for ch in folded if not unicodedata.combining(ch))
    plain = _PASADO.sub(r"\1", _LAST.sub("", folded))
    plain = _BEFORE_YESTERDAY.sub("anteayer", plain)
    plain = _LAST_NIGHT.sub(f"{(today - _DAY).isoformat()} night", plain)
    return _AGO.sub(lambda found: _date_ago(found, today), plain)


def _date_ago(found: re.Match[str], today: date) -> str:
    count, unit = (found[1], found[2]) if found[1] else (found[3], found[4])
    number = int(count[:4]) if count.isascii() and count.isdigit() else _NUMBERS.get(count)
    days = None if number is None else number * _UNITS[unit]
    if days is None or days > _MOST_AGO:
        return found[0]
    return (today - days * _DAY).isoformat()
