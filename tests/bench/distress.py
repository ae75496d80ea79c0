"""How calls for help are heard: misses, doubts, false alarms and time, for each set of messages.

Run as `python -m tests.bench.distress`; with `-v` every message that was not heard as expected.
"""

import sys
import time
from collections import Counter

from bot.distress import hear
from tests.distress.corpus import Verdict, examples, files, judged
from tests.distress.slips import NAMES, phrases, share_heard

_ROUNDS = 3


def say(line: str) -> None:
    """Print a line."""
    sys.stdout.write(f"{line}\n")


def main() -> None:
    """Print the figures."""
    for path in files():
        told = [(example, *judged(example)) for example in examples(path)]
        counts = Counter(verdict for _, verdict, _ in told)
        calls = sum(example.grade is not None for example, _, _ in told)
        say(f"{path.stem}: {calls} calls, {len(told) - calls} ordinary messages")
        for verdict in Verdict:
            say(f"  {verdict:<22}{counts[verdict]:>5}")
        if "-v" in sys.argv:
            for example, verdict, heard in told:
                if verdict is not Verdict.RIGHT:
                    say(f"    {verdict}: {example.message!r} heard as {heard}")
    for language in NAMES:
        for several in (False, True):
            found, tried = share_heard(phrases(language), several=several)
            name = "two words or more" if several else "one word"
            say(f"{language}, phrases of {name}: {found} of {tried} misspelt ones are heard")
    for name, message in LONG.items():
        spent = min(_seconds(message) for _ in range(_ROUNDS))
        say(f"{name:<28}{spent * 1000:6.1f} ms for {len(message)} characters")


LONG = {
    "ordinary words": ("I took my reading and it was 118/76 with a pulse of 91 today. " * 70)[
        :4096
    ],
    "a call at the end": ("the cuff is on and I am lying down now, " * 110)[:4080] + "chest pain",
    "calls over and over": ("no chest pain " * 300)[:4096],
}


def _seconds(message: str) -> float:
    begun = time.process_time()
    hear(message)
    return time.process_time() - begun


if __name__ == "__main__":
    main()
