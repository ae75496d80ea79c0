"""What has happened, as facts in the past tense. `at` is an aware UTC instant and has no default.

The classes of this module, of `linked` and of `team` are the whole vocabulary; a channel turns
all that arrives into those of this one.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from bot.engine.linked import LinkEvent
from bot.engine.team import TeamEvent
from bot.protocol.definition import ProtocolRef


class Thing(StrEnum):
    """Something sent that is not words."""

    PHOTO = "photo"
    VOICE = "voice"
    OTHER = "other"


class Failure(StrEnum):
    """Why a message may not have arrived."""

    REFUSED = "refused"  # the channel will never take it
    BLOCKED = "blocked"  # the person wants nothing more from us; of old, `REFUSED` stood for it too
    UNKNOWN = "unknown"  # it may or may not have arrived; trying was given up


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """The person opened the chat, or came back to it; `code` is what their link carried."""

    at: datetime
    code: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Invited:
    """The person opened the chat with a good invitation of the clinic.

    Attributes:
        at: When.
        reference: The clinic's opaque reference.
        protocol: The protocol it names, if it names one.
        language: The language to begin in, if it names one.
    """

    at: datetime
    reference: str
    protocol: ProtocolRef | None = None
    language: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cleared:
    """Somebody of the care team has cleared the person for a test at home."""

    at: datetime
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WordsGiven:
    """The person typed something; `source` is the channel's name of the message."""

    at: datetime
    text: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WordsEdited:
    """The person changed a message they had sent; `text` is how it stands now."""

    at: datetime
    text: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceTapped:
    """The person tapped a button; `token` may be old, forged or nonsense."""

    at: datetime
    token: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ThingSent:
    """The person sent something that is not words."""

    at: datetime
    thing: Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class DeadlineReached:
    """An alarm went off. A hint only: it may be early, late or double."""

    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class DeliveryFailed:
    """A message of ours did not arrive, or may not have."""

    at: datetime
    number: int
    failure: Failure


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocked:
    """The person has blocked the bot: nothing that we say reaches them."""

    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Unblocked:
    """The person lets the bot write to them again."""

    at: datetime


Event = (
    Opened
    | Invited
    | Cleared
    | WordsGiven
    | WordsEdited
    | ChoiceTapped
    | ThingSent
    | DeadlineReached
    | DeliveryFailed
    | Blocked
    | Unblocked
    | LinkEvent
    | TeamEvent
)
