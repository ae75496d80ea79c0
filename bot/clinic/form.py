"""What can be set in the clinic's file, field by field, with what is safe where nothing is said."""

from dataclasses import asdict
from datetime import time, timedelta
from typing import Annotated, Final, Literal, Self
from zoneinfo import available_timezones

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from bot.booking.plan import Quiet, ReminderTimes
from bot.care.rules import CareRules, Hours
from bot.clinic.durations import duration
from bot.engine.context import Context, Opening, RecoveryTimes, StopLines
from bot.protocol.released import latest
from bot.texts import LANGUAGES

DAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def _languages(words: dict[str, str]) -> dict[str, str]:
    unknown = sorted(words.keys() - set(LANGUAGES))
    if unknown:
        raise ValueError(f"{unknown[0]} is no language here; use {' or '.join(LANGUAGES)}")
    return words


def _known(protocol: str) -> str:
    try:
        latest(protocol)
    except KeyError:
        raise ValueError(
            f"there is no protocol {protocol!r}; use four-readings or six-readings"
        ) from None
    return protocol


def _zone(name: str) -> str:
    if name not in available_timezones():
        raise ValueError(f"there is no time zone {name!r}; use a name like Europe/Madrid")
    return name


Duration = Annotated[timedelta, BeforeValidator(duration)]
Text = Annotated[str, Field(min_length=1, max_length=700)]
Words = Annotated[dict[str, Text], AfterValidator(_languages)]
"""What the clinic says, by language: at most 700 characters each, so that it fits a message."""

Name = Annotated[str, Field(pattern=r"^[a-z0-9-]{1,24}$")]
ProtocolId = Annotated[str, AfterValidator(_known)]
Language = Literal["en", "es"]


def _possible(lines: StopLines) -> StopLines:
    for name, value in asdict(lines).items():
        if not 1 <= value <= 300:
            raise ValueError(f"{name} is {value}, which no line can be")
    return lines


Lines = Annotated[StopLines, AfterValidator(_possible)]


class _Part(BaseModel):
    """A table of the file. An unknown name is a slip, and refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Identity(_Part):
    """`[clinic]`: who the clinic is.

    Attributes:
        name: Printed on the handout and in the team's messages.
        contact: How the care team is reached, said where a person is sent to it.
        emergency_number: Said with every word of safety; without it, "your local emergency number".
        languages: The languages on offer, the first for phones in any other.
    """

    name: Annotated[str, Field(max_length=80)] = ""
    contact: Words = {}
    emergency_number: Annotated[str, Field(pattern=r"^$|^\+?[0-9][0-9 /-]{0,21}[0-9]$")] = ""
    languages: Annotated[tuple[Language, ...], Field(min_length=1)] = ("en", "es")


class Tests(_Part):
    """`[tests]`: which tests, and for whom.

    Attributes:
        protocols: Those on offer; the first is for whoever was invited to none.
        invited_only: Whether a person needs an invitation to begin.
        opening: `full`, or `short` for trying out.
        second_watched: How long the second test is looked out for.
    """

    protocols: Annotated[tuple[ProtocolId, ...], Field(min_length=1)] = (
        "four-readings",
        "six-readings",
    )
    invited_only: bool = False
    opening: Literal["full", "short"] = "full"
    second_watched: Duration = timedelta(weeks=8)


class Consent(_Part):
    """`[consent]`: what people agree to.

    Attributes:
        version: Raise it when the text changes; everyone is asked again.
        text: What the clinic adds to Wallside's own text.
    """

    version: Annotated[int, Field(ge=1)] = 1
    text: Words = {}


class Medicines(_Part):
    """`[medicines]`: the clinic's own words on medicines before a test.

    Attributes:
        plan: Said the day before; without it, "take them as prescribed".
        plans: Others by name, of which the care team can choose one for a person.
    """

    plan: Words = {}
    plans: dict[Name, Words] = {}


class Reminders(_Part):
    """`[reminders]`: when people are reminded, and when they are left alone.

    Attributes:
        day_before, hours_before, soon: Before the test.
        follow_up, offer: After its time, when it was not started.
        quiet_from, quiet_until: No reminder in between, on the person's clock.
    """

    day_before: Duration = ReminderTimes().day_before
    hours_before: Duration = ReminderTimes().hours_before
    soon: Duration = ReminderTimes().soon
    follow_up: Duration = ReminderTimes().follow_up
    offer: Duration = ReminderTimes().offer
    quiet_from: time = Quiet().starts
    quiet_until: time = Quiet().ends

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        self.times()
        self.quiet()
        return self

    def times(self) -> ReminderTimes:
        """Return when reminders are due."""
        return ReminderTimes(
            day_before=self.day_before,
            hours_before=self.hours_before,
            soon=self.soon,
            follow_up=self.follow_up,
            offer=self.offer,
        )

    def quiet(self) -> Quiet:
        """Return the quiet hours."""
        return Quiet(starts=self.quiet_from, ends=self.quiet_until)


class AfterAStop(_Part):
    """`[after_a_stop]`: how somebody who stopped is looked after.

    Attributes:
        checks: When to ask how they are, counted from the stop.
        answer_within: How long a question may go unanswered.
        measure_again_after: The rest before a very high pressure is measured again.
    """

    checks: Annotated[tuple[Duration, ...], Field(min_length=1, max_length=6)] = (
        RecoveryTimes().checks
    )
    answer_within: Duration = RecoveryTimes().answer_within
    measure_again_after: Duration = RecoveryTimes().measure_again_after

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if list(self.checks) != sorted(set(self.checks)):
            raise ValueError("the checks have to be in order, none twice")
        return self


class Duty(_Part):
    """`[[team.duty]]`: who hears of an alarm first, and when.

    Attributes:
        who: The labels of the members, as `wallside team list` shows them.
        days: Of the week; all when not said.
        from_, until: On the clinic's clock; past midnight when `until` is the earlier.
    """

    who: Annotated[tuple[str, ...], Field(min_length=1)]
    days: Annotated[tuple[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"], ...], ...] = (
        DAYS
    )
    from_: time = Field(default=time(0, 0), alias="from")
    until: time = time(0, 0)

    def hours(self) -> Hours:
        """Return when they are on duty."""
        days = frozenset(DAYS.index(day) for day in self.days)
        return Hours(who=self.who, days=days, starts=self.from_, ends=self.until)


class Team(_Part):
    """`[team]`: the care team's side.

    Attributes:
        on: Whether there is a team: results can be sent to it, and it hears alarms.
        zone: The clinic's time zone, an IANA name.
        acknowledge_within: How long an alarm waits for one member before the next is told.
        free_text: Whether members may write to patients in their own words.
        nudge_gap: How long after a reminder that a member sent no other one can be sent.
        digest_at: When the weekly digest comes on Mondays, on the clinic's clock.
        duty: Who is on duty when; without it whoever says so, and if nobody does, all.
    """

    on: bool = False
    zone: Annotated[str, AfterValidator(_zone)] = "UTC"
    acknowledge_within: Duration = timedelta(minutes=5)
    free_text: bool = False
    nudge_gap: Annotated[Duration, Field(ge=timedelta(days=1))] = timedelta(days=7)
    digest_at: time = time(8, 0)
    duty: tuple[Duty, ...] = ()


class Invitations(_Part):
    """`[invitations]`: how people are invited.

    Attributes:
        good_for: How long a link opens a chat that was never opened.
    """

    good_for: Annotated[Duration, Field(ge=timedelta(days=1), le=timedelta(days=365))] = (
        CareRules().invitation_lasts
    )


class Retention(_Part):
    """`[retention]`: how long what is over stays.

    Attributes:
        keep: Of a person, counted from when they were last heard of; of a test and of what was
            typed, from then.
    """

    keep: Annotated[Duration, Field(ge=timedelta(days=1))] = timedelta(days=365)


class Clinic(_Part):
    """The whole file."""

    clinic: Identity = Identity()
    tests: Tests = Tests()
    consent: Consent = Consent()
    medicines: Medicines = Medicines()
    reminders: Reminders = Reminders()
    stop_lines: Lines = StopLines()
    after_a_stop: AfterAStop = AfterAStop()
    team: Team = Team()
    invitations: Invitations = Invitations()
    retention: Retention = Retention()
    templates: dict[Name, Words] = {}

    def context(self) -> Context:
        """Return what the engine is told."""
        return Context(
            protocol=latest(self.tests.protocols[0]),
            opening=Opening(self.tests.opening),
            invited_only=self.tests.invited_only,
            consent_version=self.consent.version,
            consent_text=self.consent.text or None,
            medicine_plan=self.medicines.plan or None,
            medicine_plans=self.medicines.plans or None,
            contact=self.clinic.contact or None,
            reminders=self.reminders.times(),
            quiet=self.reminders.quiet(),
            watch_lasts=self.tests.second_watched,
            languages=self.clinic.languages,
            stop_lines=self.stop_lines,
            recovery=RecoveryTimes(
                checks=self.after_a_stop.checks,
                answer_within=self.after_a_stop.answer_within,
                measure_again_after=self.after_a_stop.measure_again_after,
            ),
            emergency_number=self.clinic.emergency_number or None,
            team=self.team.on,
            nudge_gap=self.team.nudge_gap,
        )

    def rules(self) -> CareRules:
        """Return what the team's side is told."""
        return CareRules(
            answer_within=self.team.acknowledge_within,
            free_text=self.team.free_text,
            zone=self.team.zone,
            duty=tuple(duty.hours() for duty in self.team.duty),
            invitation_lasts=self.invitations.good_for,
            protocols=self.tests.protocols,
            languages=self.clinic.languages,
            templates=tuple(self.templates.items()),
            digest_hour=self.team.digest_at,
        )
