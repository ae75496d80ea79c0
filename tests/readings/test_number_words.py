"""Number words, against num2words: every number there is, in every way it is said."""

import random
import re
import unicodedata

import pytest
from num2words import num2words  # type: ignore[import-untyped]

from bot.protocol.record import Values
from bot.readings import read
from bot.readings.numerals import spoken
from bot.readings.outcome import Understood
from bot.readings.tokens import scan

FROM, TO = 30, 260


def english(number: int) -> set[str]:
    """Return the ways to say a number, made from num2words (the library, 0.5.14)."""
    full = num2words(number, lang="en")
    ways = {full, full.replace("-", " "), full.replace(" and ", " "), full.upper()}
    ways.add(full.replace("-", ""))
    if 100 <= number < 200:
        ways |= {full.replace("one hundred", "a hundred"), full.replace("one hundred", "hundred")}
    hundreds, rest = divmod(number, 100)
    lead, tail = num2words(hundreds, lang="en"), num2words(rest, lang="en")
    if hundreds and rest >= 10:
        ways |= {f"{lead} {tail}", f"{lead} {tail}".replace("-", " "), f"{lead}-{tail}"}
    if hundreds and 0 < rest < 10:
        ways |= {f"{lead} oh {tail}", f"{lead} o {tail}", f"{lead} zero {tail}"}
    digits = [num2words(int(digit), lang="en") for digit in str(number)]
    if digits[-1] != "zero":
        ways.add(" ".join(digits))
    return ways


def spanish(number: int) -> set[str]:
    """Return the ways to say a number, made from num2words (the library, 0.5.14)."""
    full = num2words(number, lang="es")
    bare = "".join(
        character
        for character in unicodedata.normalize("NFD", full)
        if not unicodedata.combining(character)
    )
    ways = {full, bare, full.upper(), bare.replace(" y ", "i"), full.replace(" y ", " ")}
    ways.add(re.sub(r"veinti(?=\w)", "veinte y ", bare))
    ways.add(re.sub(r"dieci(?=\w)", "diez y ", bare))
    hundreds, rest = divmod(number, 100)
    if hundreds and rest >= 10:
        ways.add(f"{num2words(hundreds, lang='es')} {num2words(rest, lang='es')}")
    return ways


SPOKEN = {"en": english, "es": spanish}
AROUND = {"en": ("over", "pulse"), "es": ("sobre", "pulso")}


@pytest.mark.parametrize("language", sorted(SPOKEN))
def test_every_number_is_heard_in_every_way_it_is_said(language: str) -> None:
    """A number from 30 to 260 in words, after its label, is that number."""
    for number in range(FROM, TO + 1):
        for words in SPOKEN[language](number):
            label, known = ("sys", Values(systolic=number)) if number > 240 else ("hr", None)
            values = known or Values(heart_rate=number)
            assert read(f"{label} {words}") == Understood(values=values), words


@pytest.mark.parametrize("language", sorted(SPOKEN))
def test_a_dictated_reading_is_heard(language: str) -> None:
    """Pressures and rate in words, in any mixture of ways to say them, are read as they are."""
    chance = random.Random(7)
    over, pulse = AROUND[language]
    say = SPOKEN[language]
    for systolic in range(80, 201):
        for diastolic in range(max(40, systolic - 90), min(systolic - 14, 161), 17):
            rate = chance.choice([n for n in range(40, 200) if n not in (systolic, diastolic)])
            first, second, third = (
                chance.choice(sorted(say(number))) for number in (systolic, diastolic, rate)
            )
            values = Values(systolic=systolic, diastolic=diastolic, heart_rate=rate)
            for text in (
                f"{first} {over} {second}, {pulse} {third}",
                f"{first} {over} {second} {pulse} {third}",
                f"{pulse} {third}, {first} {over} {diastolic}",
                f"{systolic} {over} {second} {pulse} {third}",
            ):
                assert read(text) == Understood(values=values), text


@pytest.mark.parametrize("language", sorted(SPOKEN))
def test_numbers_said_one_after_the_other_are_never_mixed_up(language: str) -> None:
    """Two numbers in words with nothing between are those two, or are asked about."""
    chance = random.Random(11)
    say = SPOKEN[language]
    understood = tried = 0
    for systolic in range(100, 200):
        for diastolic in range(50, 100, 3):
            # A round hundred runs into what follows for anyone: "one hundred seventy".
            if systolic % 100 == 0 or systolic - diastolic < 15:
                continue
            first, second = (chance.choice(sorted(say(n))) for n in (systolic, diastolic))
            outcome = read(f"bp {first} {second}")
            tried += 1
            if isinstance(outcome, Understood):
                understood += 1
                expected = Values(systolic=systolic, diastolic=diastolic)
                assert outcome.values == expected, (first, second)
    assert understood > 0.5 * tried


@pytest.mark.parametrize(
    "text",
    [
        *("seventy to", "one twenty for over eighty", "sixty one twenty", "a hundred and 24"),
        *(
            "ciento 24",
            "cien ochenta",
            "seventy-twopulse",
            "sysciento siete",
            "fifty to fifty five",
        ),
    ],
)
def test_words_that_need_guessing_are_asked_about(text: str) -> None:
    """Words that can be cut in two ways, or that voice typing spoilt, give no number."""
    for known in (Values(), Values(systolic=124, diastolic=76)):
        assert not isinstance(read(f"hr {text}", known), Understood)


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("at ten thirty", ["at", "10", ":", "30"]),
        ("one thirty pm", ["1", ":", "30", "pm"]),
        ("a las diez y veinte", ["a", "las", "10", ":", "20"]),
        ("dizzy six", ["dizzy", "six"]),
        ("97 por ciento", ["97", "por", "ciento"]),
        ("siento mareo", ["siento", "mareo"]),
        ("doce siete", ["12", "7"]),
        ("one twenty-four", ["124"]),
        ("top one seventy", ["top", "170"]),
    ],
)
def test_only_what_is_a_number_becomes_one(text: str, keys: list[str]) -> None:
    """Times of day, strengths, percent and feelings in words stay what they are."""
    assert [token.key for token in spoken(scan(text))] == keys
