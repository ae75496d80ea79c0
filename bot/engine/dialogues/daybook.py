"""What happened on which day, on the person's calendar, and what is asked because of it."""

from datetime import date, datetime, time
from typing import Final
from zoneinfo import ZoneInfo

from bot.engine.asides import Question
from bot.engine.buttons import Rows, part
from bot.engine.dialogues.questionnaire import rows_for
from bot.engine.effects import Moment, Part
from bot.engine.profile import Profile, TestNote
from bot.engine.turn import Turn
from bot.protocol.circumstances import DayKind
from bot.protocol.record import Ending

AFTERNOON: Final = time(15, 0)
"""When a repeat in the afternoon is to be (design choice)."""

STOPPED_FOR_SAFETY: Final = frozenset({
    Ending.STOPPED, Ending.SILENT, Ending.EMERGENCY, Ending.UNSAFE_READING,
})  # fmt: skip
"""Endings after which the test should not be repeated the same day (common practice)."""


def test_days(profile: Profile) -> frozenset[date]:
    """Return the days on which something was measured, or a test was stopped for safety."""
    there = ZoneInfo(profile.zone or "UTC")
    return frozenset(
        test.began_at.astimezone(there).date()
        for test in profile.tests
        if test.measured or test.ending in STOPPED_FOR_SAFETY
    )


def stopped_today(turn: Turn) -> bool:
    """Whether a test was stopped for safety on this day."""
    stopped = [t for t in turn.conversation.profile.tests if t.ending in STOPPED_FOR_SAFETY]
    return any(t.began_at.astimezone(turn.zone_info).date() == turn.today for t in stopped)


def whole(profile: Profile) -> list[TestNote]:
    """Return the tests that were done to their end, oldest first."""
    return [t for t in profile.tests if t.measured and t.ending is Ending.COMPLETED]


def looked_for(profile: Profile) -> DayKind:
    """Return the kind of day that is missing: a good one only once there is a bad one."""
    kinds = {t.day for t in whole(profile)}
    only_bad = DayKind.SYMPTOMATIC in kinds and DayKind.GOOD not in kinds
    return DayKind.GOOD if only_bad else DayKind.SYMPTOMATIC


def counterparts(profile: Profile) -> tuple[TestNote, TestNote] | None:
    """Return the latest whole test of a good day and of a symptomatic one, the earlier first."""
    found = [
        next((t for t in reversed(whole(profile)) if t.day is kind), None)
        for kind in (DayKind.GOOD, DayKind.SYMPTOMATIC)
    ]
    good, symptomatic = found
    if good is None or symptomatic is None:
        return None
    first, second = sorted((good, symptomatic), key=lambda t: t.began_at)
    return first, second


def day_asked(turn: Turn, number: int | None) -> Part:
    """Return the words that ask for the kind of day: today's, or that of an earlier test."""
    began = [t.began_at for t in turn.conversation.profile.tests if t.number == number]
    days = {at.astimezone(turn.zone_info).date() for at in (*began[-1:], turn.at)}
    if len(days) == 1:
        return part("question.day-kind")
    return part("question.day-kind.then", moment=Moment(began[-1], turn.zone))


def repeat_asked(turn: Turn) -> Part:
    """Return the words that offer a test: the second one only where it is that."""
    profile = turn.conversation.profile
    second = bool(whole(profile)) and counterparts(profile) is None
    return part("question.repeat" if second else "question.repeat.any")


def repeat_rows(turn: Turn) -> Rows:
    """Return the buttons of that offer; no afternoon once it has begun."""
    over = afternoon(turn) <= turn.at.astimezone(turn.zone_info)
    rows = rows_for(Question.REPEAT)
    return tuple(row for row in rows if not (over and row[0].label == "repeat.afternoon"))


def afternoon(turn: Turn) -> datetime:
    """Return when a repeat in the afternoon of this day is to be, on the person's clock."""
    return datetime.combine(turn.today, AFTERNOON, tzinfo=turn.zone_info)
