"""What is offered to pick from: places, days, times. All worked out from what is known."""

from datetime import date, datetime, time
from itertools import zip_longest
from typing import Final
from zoneinfo import ZoneInfo

from bot.booking.plan import days, mornings
from bot.booking.zones import zones_at
from bot.engine.buttons import Answer, Rows
from bot.engine.effects import ClockTime, Day, Place
from bot.engine.state import ChoosingPlace, Planning
from bot.engine.turn import Turn

PAGE: Final = 8
"""How many places are offered at once."""

_LIKELY: Final = 6

MORE: Final = "more"
NOW: Final = "now"


def now_there(turn: Turn) -> datetime:
    """Return the present instant on the person's clock."""
    return turn.at.astimezone(ZoneInfo(turn.zone))


def places(turn: Turn, stage: ChoosingPlace) -> tuple[str, ...]:
    """Return the zones of one page.

    First those where the clock reads just what was typed; the other half of the day, and more
    places, take turns after them.
    """
    columns = [zones_at(offset, turn.at) for offset in stage.offsets]
    likely, rest = columns[0][:_LIKELY], [columns[0][_LIKELY:], *columns[1:]]
    in_turns = (zone for row in zip_longest(*rest) for zone in row if zone is not None)
    start = stage.page * PAGE
    return (*likely, *in_turns)[start : start + PAGE]


def place_rows(turn: Turn, stage: ChoosingPlace) -> Rows:
    """Return a button for each place, two in a row, and one for more of them."""
    buttons = [Answer("label.place", zone, {"place": Place(zone)}) for zone in places(turn, stage)]
    pairs = tuple(tuple(buttons[i : i + 2]) for i in range(0, len(buttons), 2))
    return (*pairs, (Answer("button.more-places", MORE),))


def offered_days(turn: Turn) -> tuple[date, ...]:
    """Return the days that are offered."""
    return days(now_there(turn))


def offered_times(turn: Turn, day: date) -> tuple[time, ...]:
    """Return the times of a day that are offered, those past left out, morning first."""
    now = now_there(turn)
    return tuple(t for t in mornings(day) if datetime.combine(day, t, tzinfo=now.tzinfo) > now)


def plan_rows(turn: Turn, stage: Planning) -> Rows:
    """Return a button for each day, or for each time once a day is chosen.

    What comes back names the day or the time itself, so that an old button means what it said.
    """
    if stage.day is None:
        chosen = tuple(
            (Answer("label.day", day.isoformat(), {"day": Day(day)}),) for day in offered_days(turn)
        )
        return ((Answer("button.do-it-now", NOW),), *chosen)
    times = [
        Answer("label.time", f"{moment:%H%M}", {"time": ClockTime(moment)})
        for moment in offered_times(turn, stage.day)
    ]
    return tuple(tuple(times[i : i + 3]) for i in range(0, len(times), 3))
