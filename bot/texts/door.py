"""What is said to whoever sends more than can be taken."""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    "door.slow": N_(
        "That was a lot at once, so I have not read your last message. Please wait a minute, "
        "then write again. Stop and calls for help always get through."
    ),
    "door.busy": N_(
        "Many people are writing to me just now, so I have not read your message. Please write "
        "again in a few minutes. Stop and calls for help always get through."
    ),
}
