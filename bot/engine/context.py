"""What the clinic has set, as far as the engine needs it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
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
        supine_systolic_below: mmHg; lying down, before the person gets up (memory).
        seated_systolic_below: mmHg; sitting, before the person gets up (design choice).
        supine_rate_below: /min; lying down (design choice).
        supine_rate_from: /min; lying down (design choice).
        large_fall: mmHg of the systolic, standing against lying, that stops together with
            symptoms (design choice; no home protocol gives a number).
        fall_with_slowing: mmHg of the systolic that stops if the heart slows as well: the heart
            rate falling together with the pressure (design choice).
        standing_heart_rate: /min; standing, that stops together with symptoms (design choice; no
            home protocol gives a number).
        standing_heart_rate_always: /min; standing, that stops whatever is felt (design choice).
        slowing: /min by which the heart rate has to fall for that, more than it wanders by itself.
    """

    standing_systolic_below: int = 90
    systolic_from: int = 180
    diastolic_from: int = 120
    supine_systolic_below: int = 90
    seated_systolic_below: int = 90
    supine_rate_below: int = 40
    supine_rate_from: int = 130
    standing_heart_rate: int = 160
    standing_heart_rate_always: int = 180
    large_fall: int = 30
    fall_with_slowing: int = 20
    slowing: int = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class RecoveryTimes:
    """After a test that was stopped. Design choices for each clinic to sign off.

    Attributes:
        checks: When to ask how the person is, counted from the stop.
        answer_within: How long such a question may go unanswered.
        measure_again_after: How long to rest before a very high pressure is measured again; at
            least a minute (American Heart Association public page, found).
    """

    checks: tuple[timedelta, ...] = (
        timedelta(minutes=2),
        timedelta(minutes=5),
        timedelta(minutes=10),
    )
    answer_within: timedelta = timedelta(minutes=2)
    measure_again_after: timedelta = timedelta(minutes=1)


Words = Mapping[str, str]
"""What the clinic has written, by language."""


def written(words: Words | None, locale: str) -> str | None:
    """Return the clinic's words in a language; else in English; else in whichever it wrote."""
    if not words:
        return None
    return words.get(locale) or words.get("en") or next(iter(words.values()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pinned:
    """What holds for a test as it was when the test began, whatever the clinic changes meanwhile.

    Attributes:
        stop_lines: When a reading ends the test.
        recovery: When a person is looked after who has stopped.
        emergency_number: What to call.
    """

    stop_lines: StopLines
    recovery: RecoveryTimes
    emergency_number: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What the clinic has set.

    Attributes:
        protocol: The definition for new tests.
        opening: How much is asked before a first test.
        invited_only: Whether a person needs an invitation.
        consent_version: The version of the consent text in force.
        consent_text: What the clinic adds to the consent text, if anything.
        medicine_plan: The clinic's own words on medicines before a test, if it has written any.
        medicine_plans: Plans of which the care team can choose one for a person, by name.
        contact: How the care team is reached, if the clinic says so.
        reminders: When reminders are due.
        quiet: When no reminder is sent.
        watch_lasts: How long the second test is looked out for.
        languages: The languages on offer.
        stop_lines: When a reading ends the test.
        recovery: When a person is looked after who has stopped a test.
        emergency_number: What to call where the clinic's patients live, said with every word of
            safety; `None` to speak of the local emergency number only.
        team: Whether there is a care team that results can be sent to, and that hears alarms.
        nudge_gap: How long after a nudge of the care team's no other one comes.
    """

    protocol: ProtocolRef = DEFAULT
    opening: Opening = Opening.SHORT
    invited_only: bool = False
    consent_version: int = 1
    consent_text: Words | None = None
    medicine_plan: Words | None = None
    medicine_plans: Mapping[str, Words] | None = None
    contact: Words | None = None
    reminders: ReminderTimes = field(default_factory=ReminderTimes)
    quiet: Quiet = field(default_factory=Quiet)
    watch_lasts: timedelta = timedelta(weeks=8)
    languages: tuple[str, ...] = ("en", "es")
    stop_lines: StopLines = field(default_factory=StopLines)
    recovery: RecoveryTimes = field(default_factory=RecoveryTimes)
    emergency_number: str | None = None
    team: bool = False
    nudge_gap: timedelta = timedelta(days=7)

    @property
    def pinned(self) -> Pinned:
        """What a test that begins now keeps to its end."""
        return Pinned(
            stop_lines=self.stop_lines,
            recovery=self.recovery,
            emergency_number=self.emergency_number,
        )

    def under(self, pinned: Pinned | None) -> "Context":
        """Return the context for a test that began when other settings held."""
        if pinned is None or pinned == self.pinned:
            return self
        return replace(
            self,
            stop_lines=pinned.stop_lines,
            recovery=pinned.recovery,
            emergency_number=pinned.emergency_number,
        )
