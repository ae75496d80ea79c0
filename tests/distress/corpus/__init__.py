"""Messages and what is to be heard in them, and how far what is heard agrees.

Each file holds a message and what is expected, with a tab between: emergency, near-faint, the same
with "?" (in doubt), or none. Tuned files were written with the phrases at hand, files held apart
without. What the phrases missed of the first set held apart (`apart_*`) has been mended since, so
its figures no longer tell how well unseen messages are heard; only a set that nothing was mended by
tells that.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from bot.distress import Grade, Heard, hear

FOLDER = Path(__file__).parent


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """A message, the grade that is to be heard in it if any, and whether in doubt."""

    message: str
    grade: Grade | None
    certain: bool


class Verdict(StrEnum):
    """How far what was heard is what was expected."""

    RIGHT = "right"
    MISSED = "missed"
    ONLY_DOUBTED = "only doubted"
    NOT_DOUBTED = "not doubted"
    GRADED_UP = "graded up"
    FALSE_ALARM = "false alarm"
    FALSE_DOUBT = "false alarm in doubt"


def files() -> tuple[Path, ...]:
    """Return the files that are there."""
    return tuple(sorted(FOLDER.glob("*.tsv")))


def examples(path: Path) -> Iterator[Example]:
    """Yield the examples of a file."""
    for line in path.read_text(encoding="utf-8").splitlines():
        message, _, expected = line.rpartition("\t")
        if not message or message.startswith("#") or (message, expected) == ("message", "expected"):
            continue
        grade = None if expected == "none" else Grade(expected.removesuffix("?"))
        yield Example(message=message, grade=grade, certain=not expected.endswith("?"))


def judged(example: Example) -> tuple[Verdict, Heard | None]:
    """Return how what is heard compares with what is expected."""
    heard = hear(example.message)
    return _verdict(example, heard), heard


def _verdict(example: Example, heard: Heard | None) -> Verdict:
    if heard is None:
        return Verdict.RIGHT if example.grade is None else Verdict.MISSED
    if example.grade is None:
        return Verdict.FALSE_ALARM if heard.certain else Verdict.FALSE_DOUBT
    if example.grade is Grade.EMERGENCY and heard.grade is Grade.NEAR_FAINT:
        return Verdict.MISSED
    if example.certain and not heard.certain:
        return Verdict.ONLY_DOUBTED
    if heard.certain and not example.certain:
        return Verdict.NOT_DOUBTED
    return Verdict.RIGHT if heard.grade is example.grade else Verdict.GRADED_UP
