"""All messages by key, from the sections."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from bot.texts import (
    between,
    between_files,
    booking,
    care,
    care_people,
    companions,
    details,
    dialogue,
    door,
    exporting,
    files,
    handout,
    inviting,
    paper,
    reaching,
    results,
    safety,
    series,
    sharing,
    sureness,
    terms,
)
from bot.texts.message import Message


def _merged(*sections: Mapping[str, Message]) -> Mapping[str, Message]:
    together: dict[str, Message] = {}
    for section in sections:
        if twice := together.keys() & section.keys():
            raise ValueError(f"message keys defined twice: {sorted(twice)}")
        together.update(section)
    return MappingProxyType(together)


CATALOGUE: Final = _merged(
    dialogue.MESSAGES,
    safety.MESSAGES,
    terms.MESSAGES,
    results.MESSAGES,
    files.MESSAGES,
    handout.MESSAGES,
    paper.MESSAGES,
    between.MESSAGES,
    between_files.MESSAGES,
    booking.MESSAGES,
    companions.MESSAGES,
    sharing.MESSAGES,
    care.MESSAGES,
    inviting.MESSAGES,
    care_people.MESSAGES,
    door.MESSAGES,
    details.MESSAGES,
    exporting.MESSAGES,
    series.MESSAGES,
    reaching.MESSAGES,
    sureness.MESSAGES,
)
