"""Settings that are allowed but weaken what keeps people safe: said aloud, so that it is meant."""

import re
from collections.abc import Iterator
from dataclasses import asdict
from datetime import timedelta
from typing import Final

from bot.clinic.form import Clinic
from bot.engine.context import RecoveryTimes, StopLines

PATIENCE: Final = timedelta(minutes=10)
"""From here on an alarm waits long for one member (design choice)."""

EXAMPLE: Final = "Harbour Street Clinic"
"""The name in `example.toml`: where it stands, its telephone number and words may stand too."""

_STOPS: Final = re.compile(
    r"(?<!not )(?<!never )(?<!n't )(?<!n’t )\b(?:stop|stopping|skip|pause|withhold|hold off|"
    r"leave (?:out|off)|come off|discontinue|go without)\b|"
    r"\b(?:do not|don['’]?t|no) take\b|"
    r"(?<!no )\b(?:dej(?:e|ar) de|suspend(?:a|er)|omit(?:a|ir)|interrump(?:a|ir)|"
    r"pare|salte|retire)\b|\bno (?:se )?(?:tome|tomar)\b",
    re.IGNORECASE,
)
"""Words by which a text may tell somebody to leave out a medicine: stopping one suddenly can be
dangerous, so that is asked about (design choice). Not to stop is what we say ourselves."""


def weakened(clinic: Clinic) -> Iterator[str]:
    """Yield what is less safe than without the file, each with the setting's name."""
    if clinic.clinic.name == EXAMPLE:
        yield (
            "clinic.name is that of the example: put in your own name, numbers and words, or "
            "people are told to call a clinic that does not exist."
        )
    usual, written = asdict(StopLines()), asdict(clinic.stop_lines)
    for name, value in written.items():
        later = value < usual[name] if name.endswith("_below") else value > usual[name]
        if later:
            yield (
                f"stop_lines.{name} is {value}; a test would end later than at {usual[name]}. "
                "Have a clinician sign that."
            )
    if clinic.after_a_stop.checks[0] > RecoveryTimes().checks[0]:
        yield "after_a_stop.checks: the first question comes later than after 2 min."
    if clinic.after_a_stop.answer_within > RecoveryTimes().answer_within:
        yield "after_a_stop.answer_within: somebody silent is noticed later than after 2 min."
    if clinic.after_a_stop.measure_again_after < RecoveryTimes().measure_again_after:
        yield "after_a_stop.measure_again_after: less than a minute of rest before measuring again."
    if clinic.team.acknowledge_within > PATIENCE:
        yield "team.acknowledge_within: an alarm would wait more than 10 min for one member."
    told = {
        "medicines.plan": clinic.medicines.plan,
        **{f"medicines.plans.{name}": words for name, words in clinic.medicines.plans.items()},
        **{f"templates.{name}": words for name, words in clinic.templates.items()},
    }
    for name, words in told.items():
        if any(_STOPS.search(text) for text in words.values()):
            yield f"{name} seems to tell people to stop a medicine. Have a clinician sign that."
    said = {"consent.text": clinic.consent.text, "clinic.contact": clinic.clinic.contact, **told}
    for name, words in said.items():
        lacks = [one for one in clinic.clinic.languages if words and one not in words]
        if lacks:
            yield (
                f"{name} has no words in {' and '.join(lacks)}; people with that language get "
                "them in another."
            )
    if not clinic.clinic.emergency_number:
        yield 'clinic.emergency_number is not set; people hear "your local emergency number".'
    if clinic.tests.opening == "short":
        yield "tests.opening is short: nobody is asked for consent, or what speaks against it."
    if not clinic.tests.invited_only:
        yield "tests.invited_only is false: anybody who finds the bot can begin a test."
