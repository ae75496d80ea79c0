"""How easy every summary is to read: `python -m tests.bench.wording [people]`.

The summaries of the synthetic cohort, and of as many records of any shape; each wording is measured
once, whatever its numbers. It prints how easy they are, the hardest of them, and the hardest
sentences.
"""

import re
import sys
from collections import Counter
from collections.abc import Iterable
from statistics import fmean

from rich.console import Console
from rich.table import Table

from bot.findings import find
from bot.protocol.record import TestRecord
from bot.reports.summary import summarise
from tests.texts import summaries
from tests.texts.ease import Measured, english_grade, read_out, sentences_of, spanish_ease

PEOPLE = 2500
SEED = 1
ALOUD = 1000
MEASURES = {"en": english_grade, "es": spanish_ease}
GOALS = {"en": 6.0, "es": 70.0}


def measure(language: str, text: str) -> Measured:
    """Return how easy any text is."""
    return MEASURES[language](text)


def too_hard(language: str, score: float) -> bool:
    """Return whether a score misses its goal: grade 6 in English, an ease of 70 in Spanish."""
    return score > GOALS[language] if language == "en" else score < GOALS[language]


def wordings(records: Iterable[TestRecord], language: str) -> Counter[str]:
    """Return each wording, its numbers hidden, with how often it comes."""
    counted: Counter[str] = Counter()
    for record in records:
        counted[re.sub(r"\d+", "#", summarise(record, find(record), language))] += 1
    return counted


def report(console: Console, name: str, records: list[TestRecord]) -> None:
    """Print what the summaries of some records come to."""
    for language in MEASURES:
        counted = wordings(records, language)
        scores = {text: measure(language, text).score for text in counted}
        hard = {text: score for text, score in scores.items() if too_hard(language, score)}
        ordered = sorted(scores, key=lambda text: scores[text], reverse=language == "en")
        console.print(
            f"{name}, {language}: {counted.total()} summaries, {len(counted)} wordings; mean "
            f"{fmean(scores[text] for text in counted.elements()):.2f}, hardest "
            f"{scores[ordered[0]]:.2f}, easiest {scores[ordered[-1]]:.2f}; {len(hard)} wordings "
            f"({sum(counted[text] for text in hard)} summaries) miss {GOALS[language]:g}"
        )
        aloud = [
            measure(language, read_out(summarise(record, find(record), language), language)).score
            for record in records[:ALOUD]
        ]
        console.print(
            f"  with numerals read out, {len(aloud)} of them: mean {fmean(aloud):.2f}, "
            f"{min(aloud):.2f} to {max(aloud):.2f}; "
            f"{sum(too_hard(language, score) for score in aloud)} miss {GOALS[language]:g}"
        )
        if "-v" in sys.argv:
            for text in ordered[:2]:
                console.print(text, style="dim", markup=False, highlight=False)
        console.print(_sentences(language, counted))


def _sentences(language: str, counted: Counter[str]) -> Table:
    """Return the sentences that miss the goal by themselves, the hardest first."""
    often: Counter[str] = Counter()
    for text, count in counted.items():
        for sentence in sentences_of(text):
            often[sentence] += count
    scores = {sentence: measure(language, sentence).score for sentence in often}
    hard = [sentence for sentence, score in scores.items() if too_hard(language, score)]
    hard.sort(key=lambda sentence: scores[sentence], reverse=language == "en")
    table = Table(title=f"Sentences that miss the goal by themselves, {language}")
    for heading in ("score", "in summaries", "sentence"):
        table.add_column(heading)
    for sentence in hard[:40]:
        table.add_row(f"{scores[sentence]:.1f}", str(often[sentence]), sentence)
    return table


def main() -> None:
    """Print the figures."""
    console = Console()
    people = next((int(word) for word in sys.argv[1:] if word.isdecimal()), PEOPLE)
    report(console, "cohort", list(summaries.of_cohort(people, SEED)))
    report(console, "any record", list(summaries.of_anything(2 * people, SEED)))


if __name__ == "__main__":
    main()
