"""Somebody of the care team, or a room of theirs, each with a chat of its own."""

from dataclasses import dataclass
from datetime import datetime

from bot.care.roles import ROOM, Action, Role, may


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A member of the team.

    Attributes:
        number: Names them, also after they have gone.
        id: The conversation of their chat.
        role: Coordinator or clinician.
        label: What the others call them; the clinic chooses it.
        joined_at: When they opened their code.
        added_by: The number of the member who made the code; `None` for the operator.
        room: Whether it is a group's chat.
        on_duty: Whether they said that alarms are to come to them first; see `CareRules.on_duty`.
        removed_at: When they were removed, or left.
        asked: What the next words answer, if something was asked: see `asked_about`, `asked_whom`.
        digest: Whether the weekly digest comes to them; `None` as their role has it.
        digest_at: When it comes next; `None` before that is known, or if it does not.
    """

    number: int
    id: str
    role: Role
    label: str
    joined_at: datetime
    added_by: int | None = None
    room: bool = False
    on_duty: bool = False
    removed_at: datetime | None = None
    asked: str | None = None
    digest: bool | None = None
    digest_at: datetime | None = None

    @property
    def wants_digest(self) -> bool:
        """Whether the weekly digest comes to them: to coordinators unless they said no."""
        return (
            (self.role is Role.COORDINATOR and not self.room)
            if self.digest is None
            else self.digest
        )

    def may(self, action: Action) -> bool:
        """Whether they may do it; a room only shows what waits."""
        allowed = self.removed_at is None and may(self.role, action)
        return allowed and (not self.room or action in ROOM)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticket:
    """What a good team code stands for.

    Attributes:
        digest: SHA-256 of the code, in hex; the code itself is not kept.
        role: The role that it gives.
        label: What the others will call them.
        made_at: When it was made.
        made_by: The number of the member who made it; `None` for the operator.
        expires_at: After this instant it is no good.
    """

    digest: str
    role: Role
    label: str
    made_at: datetime
    expires_at: datetime
    made_by: int | None = None


_FOLLOW_UP = "follow-up:"
_TEAM_ONLY = ":team"
_WORDS = "words:"


def asks_follow_up(item: int, *, team_only: bool = False) -> str:
    """Return what stands in `Member.asked` while the follow-up of an item is to be typed.

    Args:
        item: The item's number.
        team_only: Whether the member was told that the person does not get the words.
    """
    return f"{_FOLLOW_UP}{item}{_TEAM_ONLY if team_only else ''}"


def asked_about(member: Member) -> int | None:
    """Return the item whose follow-up the member's next words are; `None` if none was asked."""
    asked = (member.asked or "").removesuffix(_TEAM_ONLY)
    return int(asked.removeprefix(_FOLLOW_UP)) if asked.startswith(_FOLLOW_UP) else None


def asked_for_team(asked: str) -> bool:
    """Whether a member was told that the person does not get what they type."""
    return asked.endswith(_TEAM_ONLY)


def asks_words_for(person: str) -> str:
    """Return what stands in `Member.asked` while words to a person are to be typed."""
    return f"{_WORDS}{person}"


def asked_whom(member: Member) -> str | None:
    """Return the person whom the member's next words go to; `None` if none were asked for."""
    asked = member.asked or ""
    return asked.removeprefix(_WORDS) if asked.startswith(_WORDS) else None
