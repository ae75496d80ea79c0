"""How well and how fast messages are read: `python -m tests.bench.readings`."""

import time
from collections import Counter

from rich.console import Console
from rich.table import Table

from bot.protocol.record import Values
from bot.readings import read
from bot.readings.outcome import Understood
from tests.readings import corpus
from tests.readings.noise import messages

PLAIN = ("124/76 72", "118/74, 66", "131/84,88", "108/69", "142/91 77")
LABELLED = ("bp 124/76 pulse 72", "SYS 124 DIA 76 PUL 72", "ta 124/76 fc 72")
DICTATED = (
    "one twenty-four over seventy-six, pulse seventy-two",
    "ciento veinticuatro sobre setenta y seis, pulso setenta y dos",
)
LONG = ("124 over 76 pulse 72 and my head is spinning, is that ok?",)
SPEEDS = {"plain": PLAIN, "labelled": LABELLED, "dictated": DICTATED, "with words": LONG}


def quality() -> Table:
    """Return what each set of the corpus comes to."""
    table = Table(title="Understanding")
    for heading in ("set", "language", "lines", "precision", "recall", "asked", "missed", "wrong"):
        table.add_column(heading)
    for path in corpus.files():
        name, language = path.stem.rsplit("_", 1)
        counted: Counter[str] = corpus.tally(path)
        taken = sum(
            isinstance(read(line.message, line.known), Understood) for line in corpus.lines(path)
        )
        table.add_row(
            name,
            language,
            str(counted.total()),
            f"{1 - counted['wrong'] / max(taken, 1):.4f}",
            f"{corpus.recall(path):.4f}",
            str(counted["asked"]),
            str(counted["missed"]),
            str(counted["wrong"]),
        )
    return table


def noise(count: int = 45_000, seed: int = 99) -> Table:
    """Return what messages with slips of typing come to."""
    counted: Counter[str] = Counter()
    for message in messages(count, seed):
        outcome = read(message.text)
        if isinstance(outcome, Understood):
            counted["wrong" if message.wrong(outcome.values) else "understood"] += 1
        else:
            counted["asked"] += 1
    table = Table(title=f"Slips of typing, {count} messages")
    for heading in ("understood", "asked", "wrong"):
        table.add_column(heading)
    table.add_row(*(str(counted[heading]) for heading in ("understood", "asked", "wrong")))
    return table


def speed(seconds: float = 1.0) -> Table:
    """Return how many messages a second of a core reads, by form."""
    table = Table(title="Speed on one core")
    table.add_column("form")
    table.add_column("lines a second")
    for form, texts in SPEEDS.items():
        done, begun = 0, time.process_time()
        while time.process_time() - begun < seconds:
            for text in texts * 20:
                read(text, Values())
            done += len(texts) * 20
        table.add_row(form, f"{done / (time.process_time() - begun):,.0f}")
    return table


def main() -> None:
    """Print the tables."""
    console = Console()
    for table in (quality(), noise(), speed()):
        console.print(table)


if __name__ == "__main__":
    main()
