r"""Messages as people send them, and what a careful person reads from each.

A file is named after its set and its language, as in `tuned_en.tsv`, and has three columns: the
message (line ends as `\n`, a backslash as two), the numbers known before, and what it comes to:
`ok` with the numbers, `ask` with a doubt or problem (or with none, where either will do), `none`
where nothing in it is a reading. Numbers stand as systolic/diastolic/heart rate, `-` for none.
"""

import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from bot.protocol.record import Values
from bot.readings import read
from bot.readings.outcome import Doubtful, Outcome, Problem, Several, Understood, Unreadable

FOLDER = Path(__file__).parent


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One message of a set."""

    file: str
    number: int
    message: str
    known: Values
    expected: str

    @property
    def kind(self) -> str:
        """`ok`, `ask` or `none`."""
        return self.expected.split(" ")[0]


def files() -> list[Path]:
    """Return the files there are."""
    return sorted(FOLDER.glob("*.tsv"))


def lines(path: Path) -> list[Line]:
    """Return the lines of a file; remarks and a first line of headings are left out."""
    found: list[Line] = []
    for number, row in enumerate(path.read_text(encoding="utf-8").split("\n"), start=1):
        if not row.strip() or row.startswith("# "):
            continue
        message, known, expected = row.split("\t")
        if number == 1 and known == "known":
            continue
        text = re.sub(r"\\([n\\])", lambda found: "\n" if found[1] == "n" else "\\", message)
        found.append(
            Line(
                file=path.stem,
                number=number,
                message=text,
                known=numbers(known),
                expected=expected.strip(),
            )
        )
    return found


def numbers(written: str) -> Values:
    """Return numbers as they stand in a file."""
    parts = [None if part == "-" else int(part) for part in written.strip().split("/")]
    systolic, diastolic, heart_rate = parts
    return Values(systolic=systolic, diastolic=diastolic, heart_rate=heart_rate)


def asked(outcome: Outcome) -> str | None:
    """Return the name of the question that an outcome leads to, if it does."""
    match outcome:
        case Doubtful():
            return str(outcome.doubt)
        case Several():
            return "several"
        case Unreadable() if outcome.problem is not Problem.NO_NUMBERS:
            return str(outcome.problem)
        case _:
            return None


def verdict(line: Line, outcome: Outcome) -> str:
    """Return `wrong` if a number was taken that the line does not hold; else what it came to.

    That is `right`, `partial` (the rest of the numbers will be asked for), `asked` (a question
    where none was needed), `missed` (nothing seen where there was something) or `other` (a
    question, but another one than the line names).
    """
    if isinstance(outcome, Understood):
        if line.kind != "ok":
            return "wrong"
        meant = numbers(line.expected[3:])
        whole = line.known.updated(meant)
        if whole.updated(outcome.values) != whole:
            return "wrong"
        return "right" if line.known.updated(outcome.values) == whole else "partial"
    question = asked(outcome)
    if question is None:
        return "right" if line.kind == "none" else "missed"
    if line.kind != "ask":
        return "asked"
    named = line.expected[4:].strip()
    return "right" if named in ("", question) else "other"


def tally(path: Path) -> Counter[str]:
    """Return how often each verdict falls among the lines of a file."""
    return Counter(verdict(line, read(line.message, line.known)) for line in lines(path))


def recall(path: Path) -> float:
    """Return the share of the lines with a reading that are read without a question."""
    meant = [line for line in lines(path) if line.kind == "ok"]
    right = sum(verdict(line, read(line.message, line.known)) == "right" for line in meant)
    return right / len(meant)
