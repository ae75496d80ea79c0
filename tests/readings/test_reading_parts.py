"""The vocabulary, the tokens and the rings, each by itself."""

from collections import Counter

import pytest

from bot.protocol.record import Measure, Values
from bot.readings.labels import JOINS, PHRASES
from bot.readings.outcome import Doubt
from bot.readings.plausibility import (
    NEVER_A_READING,
    ORDINARY,
    POSSIBLE,
    PULSE_PRESSURE,
    doubt,
    possible,
)
from bot.readings.tokens import Kind, scan


def test_no_phrase_has_two_roles() -> None:
    """All languages are read at once, so no phrase of one means something else in another."""
    counted = Counter(keys for keys, _ in PHRASES)
    assert [keys for keys, times in counted.items() if times > 1] == []


def test_every_phrase_is_written_in_words_or_marks() -> None:
    """Each phrase has tokens to be found by, and none begins with a number."""
    for keys, role in PHRASES:
        assert keys, role
        assert not keys[0].isdecimal(), keys


@pytest.mark.parametrize("joiner", sorted(JOINS))
def test_every_joiner_is_one_token(joiner: str) -> None:
    """What joins two numbers is a single token, or it could not stand between them."""
    tokens = [token for token in scan(f"7 {joiner} 7") if token.kind is not Kind.NUMBER]
    assert [token.key for token in tokens] == [joiner]


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("124/76 72", ["124", "/", "76", "72"]),
        ("SYS124", ["sys", "124"]),
        ("b.p. 124", ["bp", "124"]),
        ("Diástólica", ["diastolica"]),
        ("Dia\u0301stolica", ["diastolica"]),
        ("it’s", ["it's"]),
        ("36.8.", ["36", ".", "8", "."]),
        ("١٢٤／٧٦", ["124", "/", "76"]),
        ("1️⃣2️⃣", ["12"]),
        ("㎜Hg", ["mmhg"]),
        ("7\u200b2", ["72"]),
        ("a\r\nb", ["a", "\n", "\n", "b"]),
    ],
)
def test_a_text_has_its_tokens(text: str, keys: list[str]) -> None:
    """Tokens compare without case, accents, width or script."""
    assert [token.key for token in scan(text)] == keys


@pytest.mark.parametrize("text", ["½", "72½", "②", "7²", "Ⅻ", "1٢4", "72\u0336"])
def test_digits_that_need_guessing_are_odd(text: str) -> None:
    """Fractions, circled and raised digits, two scripts in one number, and struck-out digits."""
    assert [token.kind for token in scan(text)] == [Kind.ODD]


@pytest.mark.parametrize("text", ["124/76 72", "Está  MAREADA ½ 👍🏽!", "e\u0301 x", "\n 7\u0301"])
def test_tokens_know_where_they_stood(text: str) -> None:
    """Tokens lie in order within the text, and between them is nothing but space."""
    end = 0
    for token in scan(text):
        assert text[end : token.start].strip() == ""
        assert end <= token.start <= token.end <= len(text)
        end = token.end
    assert text[end:].strip() == ""


@pytest.mark.parametrize(
    ("measure", "low", "high"),
    [
        (Measure.SYSTOLIC, 50, 260),
        (Measure.DIASTOLIC, 25, 160),
        (Measure.HEART_RATE, 25, 240),
    ],
)
def test_the_ring_of_the_possible(measure: Measure, low: int, high: int) -> None:
    """The edges of what can be kept belong to it, the next numbers do not."""
    assert possible(measure, low)
    assert possible(measure, high)
    assert not possible(measure, low - 1)
    assert not possible(measure, high + 1)


def test_every_bound_says_why() -> None:
    """Each row of the rings carries its reason, and the ordinary lies within the possible."""
    rows = [*POSSIBLE.values(), *ORDINARY.values(), PULSE_PRESSURE, NEVER_A_READING]
    assert all(row.reason and row.low < row.high for row in rows)
    for measure in Measure:
        assert POSSIBLE[measure].low <= ORDINARY[measure].low
        assert POSSIBLE[measure].high >= ORDINARY[measure].high
        assert NEVER_A_READING.high < POSSIBLE[measure].low


@pytest.mark.parametrize(
    ("new", "known", "reason"),
    [
        (Values(heart_rate=72), Values(systolic=76, diastolic=124), None),
        (Values(heart_rate=72), Values(systolic=200, diastolic=60), None),
        (Values(systolic=130), Values(diastolic=72, heart_rate=72), None),
        (Values(diastolic=72), Values(systolic=130, heart_rate=72), Doubt.SAME_NUMBER),
        (Values(diastolic=60), Values(systolic=200), Doubt.PULSE_PRESSURE),
        (Values(systolic=60), Values(diastolic=90), Doubt.SWAPPED),
        (Values(), Values(systolic=60, diastolic=90, heart_rate=90), None),
    ],
)
def test_a_doubt_is_raised_by_what_is_new(new: Values, known: Values, reason: Doubt | None) -> None:
    """Parts are weighed together with what was known; a doubt among the known alone is settled."""
    found = doubt(new, known)
    assert (found[0] if found else None) is reason
