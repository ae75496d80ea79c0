"""A day and a time as people say them, in English or Spanish.

Every way to read the whole phrase is looked for; one meaning is taken, several are asked about,
and a word that is not known leaves the phrase unread. Nothing is guessed.
"""

from collections.abc import Callable, Collection, Iterable, Sequence
from datetime import UTC, date, datetime, time, timedelta
from typing import Final

from bot.booking.dates import FlawedError, only, possible_days
from bot.booking.facts import Clock, Dated, Fact, Flaw, Later, Within
from bot.booking.grammar import Reading, read, several, tells
from bot.booking.hours import Hours, part_of, possible_times
from bot.booking.outcome import Outcome, Part, Reason, Unclear, When
from bot.booking.tokens import take_apart

__all__ = [
    "Days",
    "Outcome",
    "Part",
    "Reason",
    "Unclear",
    "When",
    "meanings_of",
    "read_time",
    "read_times",
    "read_when",
    "together",
]

Days = Callable[[Sequence[Fact], date], tuple[date, ...]]
"""From the facts of a phrase and today's date to the days it can mean."""

_LONGEST: Final = 300  # characters; design choice
_MOST_UNITS: Final = 20


def read_when(text: str, now: datetime) -> Outcome:
    """Return the day and time that a phrase means.

    A bare 7 to 11 is taken as the morning and 12 as noon; a bare 1 to 6 is asked about, and so is
    an hour of today whose morning is over. For days, see `bot.booking.dates.possible_days`.

    Args:
        text: Anything at all.
        now: The present in the person's zone.

    Raises:
        ValueError: `now` has no zone.
    """
    return together(*meanings_of(text, now, possible_days))


def meanings_of(text: str, now: datetime, days: Days) -> tuple[set[When], list[Unclear]]:
    """Return all that a phrase can mean, and what is wrong with the ways that mean nothing.

    Args:
        text: Anything at all.
        now: The present in the person's zone.
        days: The days that a reading can mean, seen from today.

    Raises:
        ValueError: `now` has no zone.
    """
    if now.utcoffset() is None:
        raise ValueError("now needs the person's zone")
    readings = _readings(text)
    if isinstance(readings, Unclear):
        return set(), [readings]
    meant: set[When] = set()
    flaws: list[Unclear] = []
    for facts in readings:
        try:
            meant.update(_meanings(facts, now, days))
        except FlawedError as flaw:
            if flaw.reason is not None:
                options = tuple(When(day=day) for day in sorted(set(flaw.days)))
                flaws.append(Unclear(reason=flaw.reason, options=options))
    return meant, flaws


def read_time(text: str) -> time | Unclear:
    """Return the clock time that a phrase means, as an answer to "what time is it?".

    An hour from 1 to 12 without a half of the day comes as it was written, 9:40 or 12:10; that it
    may as well be the other half is for the caller to know, or for `read_times`.
    """
    times = read_times(text)
    if isinstance(times, Unclear):
        return times
    if len(times) == 1:
        return times[0]
    if _halves(times):
        return times[times[0].hour == 0]
    options = tuple(When(time=moment) for moment in times)
    return Unclear(reason=_difference(options), options=options)


def read_times(text: str) -> tuple[time, ...] | Unclear:
    """Return all times of day that a phrase can mean, earliest first.

    Two for an hour from 1 to 12 without a half of the day, else just one; more for "half nine".
    """
    readings = _readings(text)
    if isinstance(readings, Unclear):
        return readings
    found: set[time] = set()
    reasons = [Reason.NOTHING, *_reasons(readings)]
    for facts in readings:
        if all(isinstance(fact, Clock | Within) for fact in facts):
            try:
                hours = possible_times(facts)
            except FlawedError as flaw:
                reasons.append(flaw.reason or Reason.NOTHING)
            else:
                found.update(hours.times if hours is not None else ())
    if found:
        return tuple(sorted(found))
    return Unclear(reason=max(reasons, key=lambda reason: reason.weight))


def _readings(text: str) -> frozenset[Reading] | Unclear:
    """Return the readings of a text that has any, without those that nobody means."""
    if len(text) > _LONGEST:
        return Unclear(reason=Reason.TOO_MANY)
    units = take_apart(text)
    if not any(tells(unit) for unit in units):
        return Unclear(reason=Reason.NOTHING)
    strange = next((unit for unit in units if not tells(unit) and not unit.senses), None)
    if strange is not None:
        return Unclear(reason=Reason.UNKNOWN_WORD, word=strange.text)
    if len(units) > _MOST_UNITS or several(units):
        return Unclear(reason=Reason.TOO_MANY)
    readings, furthest = read(units)
    if not readings:
        return Unclear(reason=Reason.UNKNOWN_WORD, word=units[furthest].text)
    usual = [fact for facts in readings for fact in facts if isinstance(fact, Flaw) and fact.usual]
    return Unclear(reason=usual[0].reason) if usual else readings


def _reasons(readings: Iterable[Reading]) -> list[Reason]:
    return [fact.reason for facts in readings for fact in facts if isinstance(fact, Flaw)]


def _meanings(facts: Reading, now: datetime, days_of: Days) -> set[When]:
    """Return what one reading can mean.

    Raises:
        FlawedError: It means nothing.
    """
    for fact in facts:
        if isinstance(fact, Flaw):
            raise FlawedError(fact.reason)
    later = only(facts, Later)
    if later is not None:
        return {_from_now(later, facts, now)}
    clock = only(facts, Clock)
    if clock is not None and only(facts, Dated) is not None and _is_year(clock, now):
        raise FlawedError(None)
    days: Sequence[date | None] = days_of(facts, now.date()) or (None,)
    hours = possible_times(facts)
    if hours is None:
        part = part_of(facts)
        return {When(day=day, part=part) for day in days}
    return {moment for day in days for moment in _on_day(day, hours, now)}


def _is_year(clock: Clock, now: datetime) -> bool:
    """Return whether digits beside a date are the year, and not a time without a mark."""
    return clock.run in {str(now.year), str(now.year + 1)}


def _from_now(later: Later, facts: Reading, now: datetime) -> When:
    if len(facts) > 1:
        raise FlawedError(Reason.TOO_MANY)
    try:
        then = (now.astimezone(UTC) + timedelta(minutes=later.minutes)).astimezone(now.tzinfo)
    except OverflowError:
        raise FlawedError(Reason.IMPOSSIBLE) from None
    return When(day=then.date(), time=then.time().replace(second=0, microsecond=0, fold=0))


def _on_day(day: date | None, hours: Hours, now: datetime) -> set[When]:
    times = hours.times
    usual = hours.usual
    over = day == now.date() and usual is not None and usual <= now.time() < times[-1]
    if usual is not None and not over:
        times = (usual,)
    days = {day}
    if hours.turning and day is not None:
        days.add(day + timedelta(days=1))
    return {When(day=one, time=moment) for one in days for moment in times}


def together(meant: Collection[When], flaws: Sequence[Unclear]) -> Outcome:
    """Return what a phrase comes to: its one meaning, or what to ask about."""
    if len(meant) == 1:
        return next(iter(meant))
    if meant:
        options = tuple(sorted(meant, key=_order))
        return Unclear(reason=_difference(options), options=options)
    return max(flaws, key=lambda flaw: flaw.reason.weight, default=Unclear(reason=Reason.NOTHING))


def _order(when: When) -> tuple[date, time]:
    return when.day or date.max, when.time or time.max


def _difference(options: Sequence[When]) -> Reason:
    """Return in what the options differ."""
    days = {option.day for option in options}
    times = {option.time for option in options}
    every_pair = len(options) == len(days) * len(times) and len({x.part for x in options}) == 1
    if len(days) == 1 and every_pair and _halves(times):
        return Reason.WHICH_HALF
    alike = None not in days and (None not in times or len(times) == 1)
    return Reason.WHICH_DAY if every_pair and alike and len(days) > 1 else Reason.WHICH_MEANING


def _halves(times: Collection[time | None]) -> bool:
    """Return whether these are one time on a clock of twelve hours, in both halves of the day."""
    shown = {(at.hour % 12, at.minute) for at in times if at is not None}
    return None not in times and len(times) == 2 and len(shown) == 1
