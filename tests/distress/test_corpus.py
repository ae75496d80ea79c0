"""Calls for help in whole messages: tuned ones without a fault, held-apart ones without a miss."""

from collections import Counter

import pytest

from tests.distress.corpus import Example, Verdict, examples, files, judged

ALL = [(path.stem, example) for path in files() for example in examples(path)]
TUNED = [example for name, example in ALL if name.startswith("tuned")]
_LEAST = 300


def told(examples_of: list[Example], *verdicts: Verdict) -> list[str]:
    """Return the messages on which a verdict falls."""
    return [f"{e.message!r}: {judged(e)[1]}" for e in examples_of if judged(e)[0] in verdicts]


@pytest.mark.parametrize("name", sorted({name for name, _ in ALL}))
def test_no_call_for_help_is_missed(name: str) -> None:
    """Every emergency and every faint that is near is heard, certain or in doubt."""
    assert told([e for n, e in ALL if n == name], Verdict.MISSED) == []


def test_no_certain_call_is_only_doubted() -> None:
    """What is plainly meant of this person and of now is acted on without asking."""
    assert told(TUNED, Verdict.ONLY_DOUBTED) == []


def test_what_is_denied_past_or_supposed_is_doubted() -> None:
    """What is plainly not meant of this person and of now is asked about first."""
    assert told(TUNED, Verdict.NOT_DOUBTED) == []


def test_ordinary_messages_raise_no_alarm() -> None:
    """Readings, symptoms with strengths, bookings, questions and answers are let through."""
    assert told(TUNED, Verdict.FALSE_ALARM, Verdict.FALSE_DOUBT) == []


@pytest.mark.parametrize("name", ["tuned_en", "tuned_es"])
def test_sets_are_large_enough_to_tell(name: str) -> None:
    """A tuned set has 300 messages or more, a third of them ordinary, and none twice."""
    messages = [example for n, example in ALL if n == name]
    ordinary = sum(example.grade is None for example in messages)
    assert len(messages) >= _LEAST
    assert 3 * ordinary >= len(messages)
    assert [m for m, n in Counter(e.message for e in messages).items() if n > 1] == []
