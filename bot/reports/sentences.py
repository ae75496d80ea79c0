"""Plain-language results before they are put in words: sentences of the catalogue, by paragraph."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from bot.engine.effects import Param
from bot.texts import render


@dataclass(frozen=True, slots=True)
class Sentence:
    """One message of the catalogue with its values."""

    key: str
    params: Mapping[str, Param] = field(default_factory=dict)


Paragraph = tuple[Sentence, ...]


def written(paragraphs: Iterable[Paragraph], locale: str, *, between: str = " ") -> str:
    """Return the paragraphs in a language, parted by blank lines; empty ones are left out.

    Args:
        paragraphs: What is said; only numbers and lists are in words already.
        locale: The language.
        between: What parts the sentences of one paragraph.
    """
    return "\n\n".join(
        between.join(render(sentence.key, sentence.params, locale) for sentence in paragraph)
        for paragraph in paragraphs
        if paragraph
    )
