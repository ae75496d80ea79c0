"""What the clinic has set for its team. Design choices for each clinic to sign off."""

from dataclasses import dataclass
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.care.member import Member
from bot.engine.context import Words
from bot.protocol.released import RELEASED

EVERY_DAY = frozenset(range(7))


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """When some of the team are on duty.

    Attributes:
        who: Their labels.
        days: Of the week, on which it begins; Monday is 0.
        starts: On the clinic's clock.
        ends: The same; on the next day when it is not later than `starts`.
    """

    who: tuple[str, ...]
    days: frozenset[int] = EVERY_DAY
    starts: time = time(0, 0)
    ends: time = time(0, 0)

    def cover(self, there: datetime) -> bool:
        """Whether an instant on the clinic's clock is among them."""
        now, today = there.time(), there.weekday()
        if self.starts < self.ends:
            return today in self.days and self.starts <= now < self.ends
        begun = today in self.days and now >= self.starts
        return begun or ((today - 1) % 7 in self.days and now < self.ends)


@dataclass(frozen=True, slots=True, kw_only=True)
class CareRules:
    """What the clinic has set for its team.

    Attributes:
        answer_within: How long an alarm waits for somebody to take it before it goes further.
        reminders: How often an alarm that has gone to all is sent to all again.
        code_lasts: How long a team code is good.
        wrong_codes: So many wrong codes of one chat within `wrong_codes_within` close its door.
        wrong_codes_within: See there.
        free_text: Whether words that a member types are sent on to a person.
        zone: The clinic's time zone, an IANA name; times are said in it.
        duty: Who is on duty when, whether they say so themselves or not.
        invitation_lasts: How long an invitation is good.
        protocols: The ids of the protocols that can be set for a person, by invitation or later.
        languages: The languages that an invitation can name.
        templates: The messages that members can send with a tap: a name, and the words by language.
        digest_hour: When the weekly digest comes on Mondays, on the clinic's clock.
    """

    answer_within: timedelta = timedelta(minutes=5)
    reminders: int = 3
    code_lasts: timedelta = timedelta(days=7)
    wrong_codes: int = 5
    wrong_codes_within: timedelta = timedelta(hours=1)
    free_text: bool = False
    zone: str = "UTC"
    duty: tuple[Hours, ...] = ()
    invitation_lasts: timedelta = timedelta(days=30)
    protocols: tuple[str, ...] = tuple(dict.fromkeys(ref.id for ref in RELEASED))
    languages: tuple[str, ...] = ("en", "es")
    templates: tuple[tuple[str, Words], ...] = ()
    digest_hour: time = time(8, 0)

    def on_duty(self, member: Member, at: datetime) -> bool:
        """Whether alarms come to a member first: they said so, or the clinic has set it."""
        there, label = at.astimezone(ZoneInfo(self.zone)), member.label.casefold()
        return member.on_duty or any(
            label in (name.casefold() for name in hours.who) and hours.cover(there)
            for hours in self.duty
        )
