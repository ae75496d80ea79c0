"""What happens between people who are linked, as events of either one's conversation.

The person is the one who does tests; the companion stands by for them. `of` is the person's
conversation, `id` and `by` are the companion's.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.engine.letters import AlarmAnswer, Outcome
from bot.engine.notices import Notice
from bot.engine.profile import Share
from bot.protocol.definition import Position

# -- in the companion's conversation


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkOpened:
    """They opened somebody's link, made at `offered_at`, or typed its code; it is good."""

    at: datetime
    of: str
    share: Share
    offered_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """They are linked, as they agreed to be."""

    at: datetime
    of: str
    share: Share


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkEnded:
    """The person has ended the link, or it is no good."""

    at: datetime
    of: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Notified:
    """Something happened in the test of somebody they stand by for.

    Attributes:
        at: When.
        of: Whose test.
        notice: What.
        position: The position that the person was in, if a phase was under way.
        offset: How long they had been in it.
    """

    at: datetime
    of: str
    notice: Notice
    position: Position | None = None
    offset: timedelta | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WordsBeside:
    """They typed something while somebody they stand by for does a test.

    Attributes:
        at: When.
        text: As it was typed.
        source: The channel's name of the message.
        under_way: Whose tests are under way.
        edited: Whether it is a message as it was changed.
    """

    at: datetime
    text: str
    source: str
    under_way: tuple[str, ...]
    edited: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WordsTaken:
    """What became of their words about somebody's test; `numbers` are those that were taken."""

    at: datetime
    of: str
    outcome: Outcome
    numbers: str | None = None


# -- in the person's conversation


@dataclass(frozen=True, slots=True, kw_only=True)
class CompanionJoined:
    """Somebody agreed to be their companion, by the link that was made at `offered_at`."""

    at: datetime
    id: str
    share: Share
    offered_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CompanionDeclined:
    """Somebody opened the link that was made at `offered_at`, and does not want to."""

    at: datetime
    offered_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CompanionLeft:
    """A companion has gone."""

    at: datetime
    id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WordsRelayed:
    """A companion typed something about their test; `edited` as in `WordsBeside`."""

    at: datetime
    text: str
    source: str
    by: str
    edited: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CompanionAnswered:
    """A companion answered an alarm."""

    at: datetime
    id: str
    answer: AlarmAnswer


@dataclass(frozen=True, slots=True, kw_only=True)
class CompanionUnreached:
    """A message did not reach a companion; perhaps it was an alarm."""

    at: datetime
    id: str
    alarm: bool = True


LinkEvent = (
    LinkOpened
    | Joined
    | LinkEnded
    | Notified
    | WordsBeside
    | WordsTaken
    | CompanionJoined
    | CompanionDeclined
    | CompanionLeft
    | WordsRelayed
    | CompanionAnswered
    | CompanionUnreached
)
