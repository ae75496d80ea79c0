"""What the clinic has set for its team. Design choices for each clinic to sign off."""

from dataclasses import dataclass
from datetime import timedelta


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
    """

    answer_within: timedelta = timedelta(minutes=5)
    reminders: int = 3
    code_lasts: timedelta = timedelta(days=7)
    wrong_codes: int = 5
    wrong_codes_within: timedelta = timedelta(hours=1)
    free_text: bool = False
    zone: str = "UTC"
