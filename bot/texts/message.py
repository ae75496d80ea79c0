"""One message of the catalogue, and the marks by which the extractor finds its English."""

from dataclasses import dataclass
from typing import Final

COUNT: Final = "count"
"""The placeholder that decides between singular and plural."""


@dataclass(frozen=True, slots=True)
class Message:
    """A whole sentence (or several) in English, with named placeholders.

    Attributes:
        one: The text; the singular, if there is a plural.
        many: The plural, chosen by the `count` placeholder; `None` without one.
        translated: False for what is the same in every language, such as a numeral.
    """

    one: str
    many: str | None = None
    translated: bool = True


def fixed(text: str) -> Message:
    """Return a message that is the same in every language."""
    return Message(text, translated=False)


def N_(text: str) -> Message:  # noqa: N802 - the extractor's customary name
    """Mark a sentence for translation."""
    return Message(text)


def NP_(one: str, many: str) -> Message:  # noqa: N802 - the extractor's customary name
    """Mark a sentence with a plural for translation; it must hold `{count}`."""
    return Message(one, many)
