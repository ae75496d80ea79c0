"""Where invitations are made: codes and references by chance, all else as it was asked for."""

import hashlib
from collections.abc import Callable, Iterable
from datetime import datetime
from typing import Final

from bot.care import inviting
from bot.care.invitation import Invitation, InvitationWanted, made, renewed
from bot.care.references import numbered, same
from bot.care.rules import CareRules
from bot.care.step import OPERATOR
from bot.runtime.ports import UnitOfWork

_TRIES: Final = 1000
"""How many references are tried until one is free; a million can be made."""


class Inviting:
    """Makes invitations, and gives them other codes."""

    def __init__(self, rules: Callable[[], CareRules], new_code: Callable[[], str]) -> None:
        """Take what the clinic has set, and what makes a code that cannot be guessed."""
        self._rules = rules
        self._new_code = new_code

    def drawn(
        self,
        wanted: Iterable[InvitationWanted],
        taken: Iterable[Invitation],
        *,
        at: datetime,
        by: int | None = None,
    ) -> tuple[Invitation, ...]:
        """Return invitations as they were wanted, each with its code; nothing is put down.

        Args:
            wanted: What is asked for; references that were chosen have been looked at before.
            taken: All invitations that there are.
            at: When.
            by: The number of the member who asks; `None` for the operator.
        """
        others, new = tuple(taken), list[Invitation]()
        for one in wanted:
            reference = one.reference or self._free((*others, *new))
            new.append(
                made(
                    one,
                    reference=reference,
                    code=self._code(),
                    rules=self._rules(),
                    at=at,
                    by=by,
                )
            )
        return tuple(new)

    def put_down(
        self, unit: UnitOfWork, invitations: Iterable[Invitation], at: datetime, by: int = OPERATOR
    ) -> None:
        """Put down invitations that were drawn, with a line of the log for each.

        Raises:
            DatabaseError: A reference was invited before.
        """
        for invitation in invitations:
            unit.care.add_invitation(invitation)
            line = inviting.audited(InvitationWanted(), invitation.reference, by)
            unit.care.note((line,), at)

    def send_again(
        self, unit: UnitOfWork, invitation: Invitation, at: datetime, by: int = OPERATOR
    ) -> Invitation:
        """Give an invitation another code and time anew, and return it."""
        again = renewed(invitation, code=self._code(), rules=self._rules(), at=at)
        unit.care.save_invitation(again)
        unit.care.note((inviting.audited(invitation, invitation.reference, by),), at)
        return again

    def _code(self) -> str:
        """Return a code that begins with a letter or digit: no table takes it for a formula."""
        while not (code := self._new_code())[:1].isalnum():
            pass
        return code

    def _free(self, taken: tuple[Invitation, ...]) -> str:
        """Return a reference that nobody has."""
        for _ in range(_TRIES):
            drawn = hashlib.sha256(self._new_code().encode()).digest()
            reference = numbered(int.from_bytes(drawn[:8], "big"))
            if same(reference, taken) is None:
                return reference
        raise RuntimeError("no reference is free")
