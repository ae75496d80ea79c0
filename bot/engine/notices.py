"""What linked people are told of a test."""

from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum

from bot.protocol.definition import Position


class Notice(StrEnum):
    """What somebody else is told of a person's test."""

    STARTED = "started"
    COMPLETED = "completed"
    STOPPED = "stopped"  # by the person's own wish
    FELT_FAINT = "felt-faint"
    EMERGENCY = "emergency"
    UNSAFE_READING = "unsafe-reading"
    SILENT = "silent"  # no answer; the test was closed
    STILL_SILENT = "still-silent"  # no answer lying down, after a test that was stopped
    WORSE = "worse"  # feels worse lying down, after a test that was stopped
    BETTER = "better"  # feels better, after a test that was stopped


@dataclass(frozen=True, slots=True, kw_only=True)
class Tell:
    """Tell the people that the person has linked what is happening, each in their own chat.

    Attributes:
        notice: What.
        position: The position that the person was in, if a phase was under way.
        offset: How long they had been in it.
    """

    notice: Notice
    position: Position | None = None
    offset: timedelta | None = None
