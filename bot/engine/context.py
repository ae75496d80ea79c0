"""What the clinic has set, as far as the engine needs it."""

from dataclasses import dataclass, field
from datetime import timedelta
from enum import StrEnum

from bot.booking.plan import Quiet, ReminderTimes
from bot.protocol.definition import ProtocolRef
from bot.protocol.released import DEFAULT


class Opening(StrEnum):
    """How much is asked before a first test."""

    SHORT = "short"  # the age band only: for trying a test out
    FULL = "full"  # consent, zone, who should ask first, medicines, kit, a trial reading


@dataclass(frozen=True, slots=True, kw_only=True)
class StopLines:
    """Readings at which the test ends for safety. A design choice for each clinic to sign off.

    Attributes:
        standing_systolic_below: mmHg; European syncope guideline's standing systolic (Brignole
            2018, found second hand) used as a stop, which is this project's choice.
        systolic_from: mmHg; American Heart Association public page (found).
        diastolic_from: mmHg; the same.
    """

    standing_systolic_below: int = 90
    systolic_from: int = 180
    diastolic_from: int = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What the clinic has set.

    Attributes:
        protocol: The definition for new tests.
        opening: How much is asked before a first test.
        invited_only: Whether a person needs an invitation.
        consent_version: The version of the consent text in force.
        medicine_plan: The clinic's own words on medicines before a test, if it has written any.
        reminders: When reminders are due.
        quiet: When no reminder is sent.
        watch_lasts: How long the second test is looked out for.
        languages: The languages on offer.
        stop_lines: When a reading ends the test.
    """

    protocol: ProtocolRef = DEFAULT
    opening: Opening = Opening.SHORT
    invited_only: bool = False
    consent_version: int = 1
    medicine_plan: str | None = None
    reminders: ReminderTimes = field(default_factory=ReminderTimes)
    quiet: Quiet = field(default_factory=Quiet)
    watch_lasts: timedelta = timedelta(weeks=8)
    languages: tuple[str, ...] = ("en", "es")
    stop_lines: StopLines = field(default_factory=StopLines)
