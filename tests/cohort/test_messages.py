"""Typed readings: what is meant, what is typed, and what is kept."""

from collections import Counter
from random import Random

import pytest

from bot.cohort import messages
from bot.cohort.messages import FORMS, Heard, type_in
from bot.protocol.record import Values
from bot.readings import read
from bot.readings.outcome import Understood

MEANT = Values(systolic=124, diastolic=76, heart_rate=92)


@pytest.mark.parametrize("form", FORMS)
def test_every_form_is_read_as_it_is_meant(form: str) -> None:
    """Without a slip, each way of typing gives its numbers at once."""
    words = form.format(s=MEANT.systolic, d=MEANT.diastolic, h=MEANT.heart_rate)
    outcome = read(words)
    assert isinstance(outcome, Understood)
    assert outcome.values == MEANT


def test_without_slips_nothing_is_misread(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever is asked about or typed again, what is meant is kept in the end."""
    monkeypatch.setattr(messages, "SLIPPED", 0.0)
    chance = Random(20260318)
    before = Values(systolic=118, diastolic=74, heart_rate=70)
    for _ in range(150):
        meant = Values(
            systolic=chance.randint(95, 170),
            diastolic=chance.randint(50, 90),
            heart_rate=chance.randint(45, 150),
        )
        typed = type_in(meant, before, chance)
        assert typed.values == meant
        assert typed.heard in {Heard.AT_ONCE, Heard.ASKED, Heard.AGAIN}


def test_slips_are_kept_only_unseen(monkeypatch: pytest.MonkeyPatch) -> None:
    """With a slip in each, the numbers kept are those meant, but for slips that nobody saw."""
    monkeypatch.setattr(messages, "SLIPPED", 1.0)
    chance = Random(20260319)
    heard: Counter[Heard] = Counter()
    for _ in range(250):
        typed = type_in(MEANT, None, chance)
        heard[typed.heard] += 1
        kept = typed.heard in {Heard.SLIP_KEPT, Heard.MISREAD}
        assert (typed.values == MEANT) is not kept
    assert heard[Heard.AGAIN] > heard[Heard.SLIP_KEPT] > 0
    assert heard[Heard.SLIP_SEEN] > heard[Heard.SLIP_KEPT]
    assert heard[Heard.MISREAD] == 0
