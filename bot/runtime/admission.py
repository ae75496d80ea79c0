"""The team's door: codes are made, kept as their digests, and held against them."""

import hashlib
import hmac
from collections.abc import Callable
from datetime import datetime
from typing import Final

from bot.care import admitting
from bot.care.member import Ticket
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.care.step import ITSELF, OPERATOR, Audit, Did
from bot.engine.events import Event, Opened, WordsGiven
from bot.engine.team import CODE
from bot.runtime.ports import UnitOfWork

_LONGEST_CODE: Final = 64


def digest_of(code: str) -> str:
    """Return what is kept of a team code."""
    return hashlib.sha256(code.encode()).hexdigest()


def team_code_in(event: Event) -> str | None:
    """Return the team code that somebody's link carried or that they typed, if they did."""
    match event:
        case Opened(code=str(code)) if code.startswith(CODE):
            return code[:_LONGEST_CODE]
        case WordsGiven(text=text) if text.strip().startswith(CODE):
            return text.strip()[:_LONGEST_CODE]
        case _:
            return None


class Admission:
    """Makes codes, and knows good ones."""

    def __init__(self, rules: Callable[[], CareRules], new_code: Callable[[], str]) -> None:
        """Take what the clinic has set, and what makes the part that cannot be guessed."""
        self._rules = rules
        self._new_code = new_code

    def ticket(self, unit: UnitOfWork, address: str, code: str, at: datetime) -> Ticket | None:
        """Return what a code stands for, compared in constant time; wrong ones are counted."""
        digest, found = digest_of(code), None
        for ticket in unit.care.tickets(at):
            if hmac.compare_digest(ticket.digest, digest):
                found = ticket
        if found is not None and not self.is_shut(unit, address, at):
            return found
        self.note_wrong(unit, address, at)
        return None

    def is_shut(self, unit: UnitOfWork, address: str, at: datetime) -> bool:
        """Whether so many codes of a chat were wrong that none of it is looked at for a while."""
        since = at - self._rules().wrong_codes_within
        return unit.care.wrong_codes(address, since) >= self._rules().wrong_codes

    def note_wrong(self, unit: UnitOfWork, address: str, at: datetime) -> None:
        """Count a code that was no good; the log says it once when the door is shut."""
        unit.care.note_wrong_code(address, at, at - self._rules().wrong_codes_within)
        since = at - self._rules().wrong_codes_within
        if unit.care.wrong_codes(address, since) == self._rules().wrong_codes:
            unit.care.note((Audit(who=ITSELF, did=Did.WRONG_CODES),), at)

    def admit(
        self,
        unit: UnitOfWork,
        role: Role,
        label: str,
        *,
        at: datetime,
        by: int | None = None,
    ) -> str:
        """Make a code for somebody new and return it; only its digest is kept."""
        code = CODE + self._new_code()
        unit.care.add_ticket(
            admitting.ticket(digest_of(code), role, label, rules=self._rules(), at=at, made_by=by)
        )
        if by is None:
            made = Audit(who=OPERATOR, did=Did.MADE_CODE, detail=str(role))
            unit.care.note((made,), at)
        return code
