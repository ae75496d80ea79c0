"""What is known of a person between tests: consent, zone, kit, medicines, tests, the watch."""

from dataclasses import dataclass
from datetime import datetime, time
from enum import StrEnum

from bot.booking.plan import Booking
from bot.engine.team import Nudge, Outlook, Topic
from bot.protocol.circumstances import Cuff, DayKind, Hazard, Medicine, RateSource
from bot.protocol.definition import ProtocolRef
from bot.protocol.record import Ending


@dataclass(frozen=True, slots=True, kw_only=True)
class TestNote:
    """What has to be known of an earlier test to go on; its facts are among the results.

    Attributes:
        number: Counts this person's tests from 1.
        began_at: When.
        ending: How it ended.
        measured: Whether it has readings.
        day: What kind of day it was, if told.
        protocol: The definition it used.
        shared: Whether it was sent to the care team; `None` while that is not decided.
    """

    __test__ = False

    number: int
    began_at: datetime
    ending: Ending
    measured: bool
    protocol: ProtocolRef
    day: DayKind | None = None
    shared: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Watch:
    """Looks out for the day of the other kind.

    Attributes:
        since: When it began.
        looks_for: The kind of day that is still missing.
        hour: When to ask each day, on the person's clock; `None` to wait for their word.
        line: From which number on, 0 to 10, a day counts as bad.
        asked_at: When the question was last asked; `None` before the first time.
        unanswered: How many questions in a row went without an answer, before the last one.
        answered: Whether the last one was answered.
        missed_at: When a question was last left out: no other comes on that day.
    """

    since: datetime
    looks_for: DayKind
    hour: time | None = None
    line: int = 6
    asked_at: datetime | None = None
    unanswered: int = 0
    answered: bool = False
    missed_at: datetime | None = None


class Share(StrEnum):
    """How much of a person's tests somebody they have linked is told."""

    ALARMS = "alarms"  # stops, silence and emergencies
    ALL = "all"  # also the start and the end; and they may type the readings


@dataclass(frozen=True, slots=True, kw_only=True)
class Companion:
    """Somebody whom the person has linked, near or far.

    Attributes:
        id: Their own conversation.
        share: What was agreed that they see.
        since: When they were linked.
    """

    id: str
    share: Share
    since: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A link that the person was given to pass on, until somebody is linked by it.

    Attributes:
        number: The message that holds it.
        since: When it was made.
        declined: Whether somebody opened it and said no.
    """

    number: int
    since: datetime
    declined: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Accompanied:
    """Somebody whom this person stands by for.

    Attributes:
        id: Their conversation.
        number: Tells several of them apart in words; nothing else is known of them.
        share: What was agreed that this person sees.
        since: When they were linked.
        told: The numbers of the latest messages about them, to be taken back when the link ends.
        alarm: The number of the last alarm about them.
        alarmed_at: When it was said.
        with_them: Whether they have answered, in the test it was about, that they are with them.
    """

    id: str
    number: int
    share: Share
    since: datetime
    told: tuple[int, ...] = ()
    alarm: int | None = None
    alarmed_at: datetime | None = None
    with_them: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class News:
    """Something that the care team had to say.

    Attributes:
        at: When.
        test: The number of the test it is about, if it is about one.
        outlook: What comes next, if that was chosen.
        words: The team's own words, if there are any.
        topic: What it is about, if it is about no test.
        nudge: What the person is reminded of, if it is a nudge.
        booking: The booking that it calls off.
    """

    at: datetime
    test: int | None = None
    outlook: Outlook | None = None
    words: str | None = None
    topic: Topic | None = None
    nudge: Nudge | None = None
    booking: Booking | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PassedOn:
    """What the care team had to say, as it went out: it may still be refused.

    Attributes:
        at: When the team said it.
        first: The number of its first message.
        last: That of its last one.
    """

    at: datetime
    first: int
    last: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkRequest:
    """Somebody asks this person to stand by for them; it waits for an answer.

    Attributes:
        of: Their conversation.
        share: What would be told.
        offered_at: When the link was made.
    """

    of: str
    share: Share
    offered_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """What is known of a person. No name, no date of birth.

    Attributes:
        reference: The clinic's opaque reference, from the invitation.
        protocol: The protocol that the invitation names.
        consented_at: When they agreed; `None` before.
        consent_version: The version of the text they agreed to.
        zone: Their time zone, an IANA name.
        hazards: Reasons to ask the care team first; `None` before they were asked.
        cleared_by: Who of the care team cleared them all the same.
        cleared_at: When.
        medicines: Classes they take; `None` before they were asked.
        cuff: Where their cuff sits.
        rate_source: What they read the heart rate from.
        tried: Whether the trial reading was understood.
        paused: Whether reminders are paused.
        bookings: How many bookings were made.
        tests: Their tests that have ended.
        watch: The watch, while it runs.
        watch_asked: Whether it was asked how to look out for the second test, without an answer.
        second_missing_since: When the watch ended without the second test.
        repeat_offered_at: When the repeat was offered, while that is not answered.
        companions: Who is told of their tests.
        offers: The links that they were given to pass on and that are still open.
        accompanies: Whose tests they are told of.
        asked_by: Who asks them to stand by, until they have answered.
        team_since: When they agreed that the care team hears alarms; `None` before.
        sends_since: Since when every result is sent to the care team, without asking.
        news: What the care team had to say, while it could not be said at once.
        nudged_at: When the care team last nudged them.
        protocol_by_team: Whether the care team has set the protocol: it holds whatever came before.
        plan: Which of the clinic's medicine plans is theirs; `None` for the one for everybody.
        done_at: When the care team closed them; `None` again once they go on by themselves.
        passed_on: The latest things that the care team had to say and that went out.
    """

    reference: str | None = None
    protocol: ProtocolRef | None = None
    consented_at: datetime | None = None
    consent_version: int = 0
    zone: str | None = None
    hazards: tuple[Hazard, ...] | None = None
    cleared_by: str | None = None
    cleared_at: datetime | None = None
    medicines: tuple[Medicine, ...] | None = None
    cuff: Cuff | None = None
    rate_source: RateSource | None = None
    tried: bool = False
    paused: bool = False
    bookings: int = 0
    tests: tuple[TestNote, ...] = ()
    watch: Watch | None = None
    watch_asked: bool = False
    second_missing_since: datetime | None = None
    repeat_offered_at: datetime | None = None
    companions: tuple[Companion, ...] = ()
    offers: tuple[Offer, ...] = ()
    accompanies: tuple[Accompanied, ...] = ()
    asked_by: LinkRequest | None = None
    team_since: datetime | None = None
    sends_since: datetime | None = None
    news: tuple[News, ...] = ()
    nudged_at: datetime | None = None
    protocol_by_team: bool = False
    plan: str | None = None
    done_at: datetime | None = None
    passed_on: tuple[PassedOn, ...] = ()

    @property
    def suitable(self) -> bool:
        """Whether nothing speaks against a test at home, or the care team has cleared it."""
        return self.hazards == () or (bool(self.hazards) and self.cleared_at is not None)

    @property
    def enrolled(self) -> bool:
        """Whether every question of the beginning is answered."""
        return (
            self.consented_at is not None
            and self.zone is not None
            and self.medicines is not None
            and self.cuff is not None
            and self.rate_source is not None
            and self.tried
        )
