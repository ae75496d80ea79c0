"""The handout to print: the test on paper, two A4 pages that read in grey.

The first page says who should ask first, how to prepare, the steps and when to stop; the second
has a table to fill in by hand for each of two days. Facts in, bytes out, as everywhere here.
"""

import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Final

import segno

from bot.engine.context import StopLines
from bot.engine.effects import Param
from bot.protocol.circumstances import DayKind, Hazard
from bot.protocol.definition import Phase, Position, Protocol
from bot.reports.formats import day, listing, whole
from bot.reports.glyphs import printable
from bot.reports.imprint import software
from bot.reports.typesetting import TooLongError, typeset_page
from bot.texts import render
from bot.texts.rendering import duration

TEMPLATE: Final = "handout.typ"

_DAYS: Final = (DayKind.GOOD, DayKind.SYMPTOMATIC)
_SPACINGS: Final = (0.72, 0.6, 0.5, 0.4, 0.34)
"""The space between lines, in ems, tried in turn; the text keeps its size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Handout:
    """What one handout is made of.

    Attributes:
        protocol: The test it describes.
        lines: The clinic's stop lines.
        contact: How to reach the care team, in the clinic's words; empty to leave a line for it.
        emergency_number: What to call; empty to leave a line for it.
        medicine_plan: The clinic's own words on medicines; empty if it has written none.
        link: What opens the chat; empty for none.
        until: The last day on which the link is good, if it is an invitation.
    """

    protocol: Protocol
    lines: StopLines
    contact: str = ""
    emergency_number: str = ""
    medicine_plan: str = ""
    link: str = ""
    until: date | None = None


def typeset(handout: Handout, locale: str, at: datetime) -> bytes:
    """Return the handout as PDF/UA-1; the same input gives the same bytes.

    Args:
        handout: What it is made of.
        locale: A shipped language.
        at: The instant written into the file.

    Raises:
        TooLongError: The clinic's own words are too long for the page.
    """
    for spacing in _SPACINGS[:-1]:
        try:
            return typeset_page(TEMPLATE, _facts(handout, spacing, locale), at)
        except TooLongError:
            continue
    return typeset_page(TEMPLATE, _facts(handout, _SPACINGS[-1], locale), at)


def _facts(handout: Handout, spacing: float, locale: str) -> Mapping[str, object]:
    def say(key: str, **params: Param) -> str:
        return render(f"handout.{key}", params, locale)

    protocol = handout.protocol
    number = handout.emergency_number
    contact = printable(handout.contact)
    return {
        "language": locale,
        "spacing": spacing,
        "title": say("title"),
        "about": say("about", length=_length(protocol)),
        "ask": {
            "title": say("ask-first"),
            "how": say("ask-first.who"),
            "lines": [say(f"hazard.{hazard}") for hazard in Hazard],
        },
        "before": {
            "title": say("before"),
            "lines": [
                *(say(f"before.{part}") for part in ("day", "hours", "wear", "things")),
                _medicines(handout, locale),
            ],
        },
        "steps": {
            "title": say("steps"),
            "lines": [_step(phase, locale) for phase in protocol.phases],
            "after": say("step.write"),
        },
        "stop": {
            "title": say("stop"),
            "lines": list(_stop(handout.lines, locale)),
            "number": say("emergency", number=number) if number else say("emergency.blank"),
            "blank": not number,
        },
        "table": {
            "title": say("table"),
            "how": say("table.how"),
            "days": [
                {
                    "title": say(f"table.{kind}"),
                    "blanks": [say(f"table.{name}") for name in ("day", "medicines")],
                    "last": say("table.ended"),
                }
                for kind in _DAYS
            ],
            "head": [
                say(f"head.{name}")
                for name in ("when", "time", "systolic", "diastolic", "heart-rate", "symptoms")
            ],
            "rows": [
                say(f"row.{phase.position}", time=slot.due)
                for phase in protocol.phases
                for slot in phase.slots
            ],
        },
        "after": {
            "title": say("after"),
            "contact": say("after.contact", words=contact) if contact else "",
            "blank": say("after.contact.blank"),
            "how": say("after.link"),
            "link": handout.link,
            "until": _until(handout, locale),
        },
        "code": _code(handout.link, locale),
        "made": say(
            "made",
            software=software(),
            protocol=protocol.ref.id,
            version=whole(protocol.ref.version, locale),
        ),
    }


def _length(protocol: Protocol) -> timedelta:
    """Return about how long the test takes: a quarter more, up to the next five minutes."""
    length = sum((phase.length for phase in protocol.phases), timedelta(0))
    return timedelta(minutes=-(-int(length.total_seconds() * 1.25) // 300) * 5)


def _medicines(handout: Handout, locale: str) -> str:
    plan = printable(handout.medicine_plan)
    if plan:
        return render("medicines.plan", {"plan": plan}, locale)
    return render("medicines.as-prescribed", {}, locale)


def _step(phase: Phase, locale: str) -> str:
    params: dict[str, Param] = {"length": phase.length}
    if phase.position is Position.STANDING:
        times = [duration(slot.due, locale) for slot in phase.slots]
        params["list"] = listing(times, locale)
    return render(f"handout.step.{phase.position}", params, locale)


def _stop(lines: StopLines, locale: str) -> Iterator[str]:
    """Yield when to stop; the lines for lying and sitting are the clinic's as well."""
    low = max(lines.supine_systolic_below, lines.seated_systolic_below)
    numbers: dict[str, dict[str, Param]] = {
        "signs": {},
        "standing": {
            "lowest": whole(lines.standing_systolic_below, locale),
            "change": whole(lines.large_fall, locale),
            "value": whole(lines.fall_with_slowing, locale),
        },
        "racing": {
            "highest": whole(lines.standing_heart_rate_always, locale),
            "limit": whole(lines.standing_heart_rate, locale),
        },
        "rest": {
            "lowest": whole(low, locale),
            "limit": whole(lines.supine_rate_below, locale),
            "highest": whole(lines.supine_rate_from, locale),
        },
        "high": {
            "systolic": whole(lines.systolic_from, locale),
            "diastolic": whole(lines.diastolic_from, locale),
        },
        "call": {},
        "again": {},
    }
    for name, params in numbers.items():
        yield render(f"handout.stop.{name}", params, locale)


def _until(handout: Handout, locale: str) -> str:
    if handout.until is None:
        return ""
    until = datetime.combine(handout.until, time(), tzinfo=UTC)
    return render("handout.after.until", {"day": day(until, locale)}, locale)


def _code(link: str, locale: str) -> Mapping[str, str] | None:
    """Return the link as a square code, an SVG drawing in black on white; `None` without a link."""
    if not link:
        return None
    out = io.BytesIO()
    segno.make(link, micro=False, error="m").save(
        out, kind="svg", border=2, xmldecl=False, light="white"
    )
    return {
        "drawing": out.getvalue().decode(),
        "alternative": render("handout.after.picture", {"link": link}, locale),
    }
