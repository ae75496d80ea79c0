"""What the engine wants done. Imperatives; every one becomes a row of the outbox.

Words are not here: a `Say` names paragraphs of the catalogue and their values.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from enum import IntEnum, StrEnum

from bot.booking.plan import Booking
from bot.engine.context import StopLines
from bot.engine.letters import Letter
from bot.engine.notices import Tell
from bot.engine.profile import Share
from bot.engine.team import TeamEffect
from bot.protocol.circumstances import DayKind
from bot.protocol.definition import ProtocolRef
from bot.protocol.record import TestRecord


class Urgency(IntEnum):
    """What goes out first when much is waiting."""

    SAFETY = 0
    TIMED = 1
    REPLY = 2
    REMINDER = 3
    BULK = 4


class Form(StrEnum):
    """A form that a result takes."""

    SUMMARY = "summary"
    DETAILS = "details"  # what the summary leaves out, when more is asked for
    CHART = "chart"
    PDF = "pdf"
    CSV = "csv"
    FHIR = "fhir"  # recalled only: it names the person as the store knows them


@dataclass(frozen=True, slots=True)
class Term:
    """A value that is itself a message of the catalogue, e.g. the name of a symptom."""

    key: str


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar day, said with its weekday."""

    day: date


@dataclass(frozen=True, slots=True)
class ClockTime:
    """A time of day."""

    time: time


@dataclass(frozen=True, slots=True)
class Moment:
    """An instant, said as weekday, date, time and place of the clock."""

    at: datetime
    zone: str


@dataclass(frozen=True, slots=True)
class Place:
    """A time zone, said as the place it is named after."""

    zone: str


Param = int | str | timedelta | Term | Day | ClockTime | Moment | Place
"""What a placeholder may stand for; `str` is the person's own words."""


@dataclass(frozen=True, slots=True)
class Part:
    """One paragraph of a message.

    Attributes:
        key: The paragraph in the catalogue.
        params: Values for its placeholders.
    """

    key: str
    params: Mapping[str, Param] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Choice:
    """A button.

    Attributes:
        label: The catalogue key of its words.
        token: What comes back when it is tapped, at most 64 bytes of ASCII.
        params: Values for the placeholders of the label.
        ticked: Whether it is shown as chosen, where several can be.
    """

    label: str
    token: str
    params: Mapping[str, Param] = field(default_factory=dict)
    ticked: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Say:
    """Send one message.

    Attributes:
        number: Counts this conversation's messages from 1; names it for `Revise`.
        parts: Its paragraphs.
        choices: Rows of buttons.
        urgency: What it may overtake.
        until: After this instant it is of no use and is dropped.
    """

    number: int
    parts: tuple[Part, ...]
    choices: tuple[tuple[Choice, ...], ...] = ()
    urgency: Urgency = Urgency.REPLY
    until: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Revise:
    """Change a message sent earlier; only for what is nice to see.

    Attributes:
        number: This change's own number.
        target: The number of the message to change.
        parts: Its paragraphs.
        choices: Rows of buttons.
        until: After this instant it is of no use and is dropped.
    """

    number: int
    target: int
    parts: tuple[Part, ...]
    choices: tuple[tuple[Choice, ...], ...] = ()
    until: datetime | None = None
    urgency: Urgency = Urgency.BULK


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """Send a result in one of its forms.

    Attributes:
        number: As for `Say`.
        form: Which form.
        record: The facts; the result is made from these, the reference and the instant alone.
        choices: Rows of buttons.
        urgency: What it may overtake.
        reference: What the person is known as; opaque.
        at: When it was asked for, which a page says.
    """

    number: int
    form: Form
    record: TestRecord
    choices: tuple[tuple[Choice, ...], ...] = ()
    urgency: Urgency = Urgency.REPLY
    reference: str = ""
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recall:
    """Send an earlier result again; the store knows its facts.

    Attributes:
        number: As for `Say`.
        form: Which form.
        test: The number of the test.
        choices: Rows of buttons.
        urgency: What it may overtake.
        at: When it was asked for, which a page says.
    """

    number: int
    form: Form
    test: int
    choices: tuple[tuple[Choice, ...], ...] = ()
    urgency: Urgency = Urgency.REPLY
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Compare:
    """Lay two tests side by side; the store knows their facts.

    Attributes:
        number: As for `Say`.
        first: The number of the test to begin with.
        second: The number of the test to hold against it.
        form: In words, or as a file.
        urgency: What it may overtake.
        at: When it was asked for, which a page says.
    """

    number: int
    first: int
    second: int
    form: Form = Form.SUMMARY
    urgency: Urgency = Urgency.REPLY
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """Show how three tests or more go over time; the store knows their facts.

    Attributes:
        number: As for `Say`.
        tests: The numbers of the tests, in order.
        form: As a picture, or as a page.
        urgency: What it may overtake.
        at: When it was asked for, which a page says.
    """

    number: int
    tests: tuple[int, ...]
    form: Form
    urgency: Urgency = Urgency.REPLY
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HandSeries:
    """Send several tests of one person together: two side by side, or more over time.

    Attributes:
        number: As for `Say`.
        form: Pages, or for three and more a picture.
        records: The facts, in order of time.
        reference: What the person is known as; opaque.
        at: When it was asked for, which a page says.
        urgency: What it may overtake.
    """

    number: int
    form: Form
    records: tuple[TestRecord, ...]
    reference: str = ""
    at: datetime | None = None
    urgency: Urgency = Urgency.REPLY


@dataclass(frozen=True, slots=True, kw_only=True)
class HandCalendar:
    """Send a calendar file for a booking, or for its end.

    Attributes:
        number: As for `Say`.
        owner: The conversation's id, which makes the entry's name unique.
        booking: The booking as it now stands.
        cancelled: Whether it is off.
        urgency: What it may overtake.
    """

    number: int
    owner: str
    booking: Booking
    cancelled: bool = False
    urgency: Urgency = Urgency.REPLY


@dataclass(frozen=True, slots=True, kw_only=True)
class HandCopy:
    """Send the person a copy of all that is kept of them."""

    number: int
    urgency: Urgency = Urgency.REPLY


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferLink:
    """Send a link by which somebody else can become the person's companion.

    Attributes:
        number: As for `Say`.
        share: What the companion will be told.
        link: What leads to the person; its code is made where chance is, not here.
        urgency: What it may overtake.
    """

    number: int
    share: Share
    link: str | None = None
    urgency: Urgency = Urgency.REPLY


@dataclass(frozen=True, slots=True, kw_only=True)
class HandInvitation:
    """Send an invitation of the clinic as a picture, with words to pass on as they stand.

    Attributes:
        number: As for `Say`.
        reference: The clinic's reference; it names the file.
        code: What is typed where there is no link.
        link: What opens the chat; empty where the channel has no links.
        language: The language of the words, which are for the person invited.
        good_until: The last day on which it is good.
        urgency: What it may overtake.
    """

    number: int
    reference: str
    code: str
    link: str
    language: str
    good_until: date
    urgency: Urgency = Urgency.REPLY


@dataclass(frozen=True, slots=True, kw_only=True)
class HandHandout:
    """Send the handout to print that goes with an invitation.

    Attributes:
        number: As for `Say`.
        reference: The clinic's reference; it names the file.
        link: What opens the chat; empty for none.
        language: The language of the handout.
        good_until: The last day on which the link is good.
        made_at: The instant written into the file.
        protocol: The test that it describes.
        lines: The clinic's stop lines.
        contact: How to reach the care team; empty to leave a line for it.
        emergency_number: What to call; empty to leave a line for it.
        medicine_plan: The clinic's own words on medicines; empty if it has written none.
        urgency: What it may overtake.
    """

    number: int
    reference: str
    link: str
    language: str
    good_until: date
    made_at: datetime
    protocol: ProtocolRef
    lines: StopLines
    contact: str = ""
    emergency_number: str = ""
    medicine_plan: str = ""
    urgency: Urgency = Urgency.REPLY


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardLine:
    """One line of the board: a place, how many are there, have come so far, and wait longest."""

    place: str
    here: int
    reached: int
    longest: timedelta | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HandBoard:
    """Send the board as a picture.

    Attributes:
        number: As for `Say`.
        lines: A line for every place, in order.
        at: When it was looked at.
        zone: The clinic's time zone, an IANA name.
        urgency: What it may overtake.
    """

    number: int
    lines: tuple[BoardLine, ...]
    at: datetime
    zone: str
    urgency: Urgency = Urgency.REPLY


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep:
    """Keep a test that has ended, or its corrected form, among the person's results."""

    record: TestRecord


@dataclass(frozen=True, slots=True, kw_only=True)
class Amend:
    """Put the kind of day into an earlier test, whose facts only the store knows.

    Attributes:
        test: The number of the test.
        day: What kind of day it was.
    """

    test: int
    day: DayKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Forget:
    """Delete all that is kept of the person; only the messages of this step still go out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdraw:
    """Let nothing go out any more that is still waiting for this person, but safety words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Retract:
    """Let these messages go out no more if they still wait, safety words included."""

    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WithdrawLink:
    """Let the link that the person was given at that instant be good no more."""

    made_at: datetime


Outgoing = (
    Say
    | Revise
    | Hand
    | Recall
    | Compare
    | Trace
    | HandSeries
    | HandCalendar
    | HandCopy
    | OfferLink
    | HandInvitation
    | HandHandout
    | HandBoard
)
Effect = (
    Outgoing
    | Keep
    | Amend
    | Forget
    | Withdraw
    | Retract
    | WithdrawLink
    | Tell
    | Letter
    | TeamEffect
)
