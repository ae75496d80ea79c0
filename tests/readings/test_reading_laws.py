"""Laws that hold for any message."""

import sys
import time
import unicodedata
from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bot.protocol.record import Values
from bot.readings import echo, example, read
from bot.readings.outcome import Doubt, Doubtful, Outcome, Several, Understood, Unreadable

SYSTOLIC = st.integers(50, 260)
DIASTOLIC = st.integers(25, 160)
HEART_RATE = st.integers(25, 240)
unhurried = settings(deadline=None)  # how long reading takes has a test of its own
KNOWN = st.builds(
    Values,
    systolic=st.none() | SYSTOLIC,
    diastolic=st.none() | DIASTOLIC,
    heart_rate=st.none() | HEART_RATE,
)


# A systolic pressure that is not higher than the diastolic one.
WRONG_WAY = st.lists(st.integers(50, 160), min_size=2, max_size=2).map(
    lambda pair: (min(pair), max(pair))
)


def plausible(systolic: int, diastolic: int, heart_rate: int) -> bool:
    """Return whether numbers give no cause for doubt; the lines are written out on purpose."""
    return 15 <= systolic - diastolic <= 100 and heart_rate not in (systolic, diastolic)


@st.composite
def readings(draw: st.DrawFn) -> Values:
    """Return plausible numbers."""
    diastolic = draw(st.integers(35, 160))
    systolic = draw(st.integers(diastolic + 15, diastolic + 100))
    heart_rate = draw(HEART_RATE)
    assume(plausible(systolic, diastolic, heart_rate))
    return Values(systolic=systolic, diastolic=diastolic, heart_rate=heart_rate)


# Words that have no meaning to us: no language has them.
ODD_WORDS = st.text("qwzkjv", min_size=3, max_size=8)


def given_by(outcome: Outcome) -> tuple[Values, ...]:
    """Return the numbers of an outcome that may be kept as they are."""
    match outcome:
        case Doubtful(doubt=Doubt.TENS):
            return ()
        case Understood() | Doubtful():
            return (outcome.values,)
        case Several():
            return outcome.readings
        case Unreadable():
            return (outcome.understood,)


SCRIPTS = sorted(
    zero
    for zero in map(chr, range(sys.maxunicode + 1))
    if unicodedata.category(zero) == "Nd" and unicodedata.name(zero).endswith("DIGIT ZERO")
)

MESSY = st.lists(
    st.sampled_from(
        [
            *("72", "124/76", "76", "97", "6", "36.8", "12/8/2024", "10:05", "½", "²", "١٢٤"),
            *("hr", "bp", "sys", "dia", "spo2", "p", "%", "bpm", "mmHg", "min", "am", "°C"),
            *(" ", "  ", ",", "\n", ".", "/", " / ", "-", " - ", ":", "(", ")", "'", "+", "#"),
            *("over", "to", "o", "y", "and", "not", "ayer", "dizzy", "x", "mareo", "👍", "\u0336"),
        ]
    ),
    max_size=40,
).map("".join)


@unhurried
@given(st.text(max_size=300) | MESSY, KNOWN)
def test_any_text_at_all_comes_to_an_outcome(text: str, known: Values) -> None:
    """Reading never raises, and gives the same outcome for the same message."""
    outcome = read(text, known)
    assert isinstance(outcome, Understood | Doubtful | Several | Unreadable)
    assert read(text, known) == outcome


@unhurried
@given(st.text(max_size=200) | MESSY, KNOWN)
def test_nothing_impossible_or_invented_is_ever_understood(text: str, known: Values) -> None:
    """Numbers that were read are possible ones, and each of them was typed."""
    outcome = read(text, known)
    digits = "".join(
        str(unicodedata.decimal(character))
        if unicodedata.decimal(character, None) is not None
        else " "
        for character in text
        if character not in "\ufe0f\u20e3" and unicodedata.category(character) != "Cf"
    )
    typed = {int(word) for word in digits.split()}
    for values in given_by(outcome):
        for number, low, high in (
            (values.systolic, 50, 260),
            (values.diastolic, 25, 160),
            (values.heart_rate, 25, 240),
        ):
            assert number is None or (low <= number <= high and number in typed)
    if isinstance(outcome, Understood):
        assert not outcome.values.empty


@unhurried
@given(st.text(max_size=200) | MESSY, KNOWN)
def test_what_is_left_over_was_typed_like_that(text: str, known: Values) -> None:
    """Unused words come back as they were typed and in their order."""
    outcome = read(text, known)
    if not isinstance(outcome, Unreadable):
        position = 0
        for character in outcome.rest.replace(" ", ""):
            position = text.index(character, position) + 1


@unhurried
@given(KNOWN, KNOWN)
def test_what_is_echoed_reads_as_itself(values: Values, known: Values) -> None:
    """The short form of any possible numbers reads back as just these numbers."""
    assume(not values.empty)
    outcome = read(echo(values), known)
    assert isinstance(outcome, Understood | Doubtful)
    assert (outcome.values, outcome.rest) == (values, "")


@unhurried
@given(readings())
def test_a_plausible_reading_is_understood_without_a_question(values: Values) -> None:
    """The short form of plausible numbers raises no doubt."""
    assert read(echo(values)) == Understood(values=values)


@unhurried
@given(readings(), st.sampled_from([" ", ", ", "\n", "; ", " / ", " and ", " y ", ". "]), st.data())
def test_labelled_parts_mean_the_same_in_any_order(
    values: Values, between: str, data: st.DataObject
) -> None:
    """Parts with a label each, before or after the number, may come in any order."""
    labels = (
        ("sys {}", "systolic {}", "SYS: {}", "sistólica {}", "Sys.{}"),
        ("dia {}", "diastolic is {}", "DIA:{}", "diastólica {}", "dia={}"),
        ("hr {}", "pulse {}", "{} bpm", "pulso {}", "HR: {}", "p{}", "{}/min"),
    )
    numbers = (values.systolic, values.diastolic, values.heart_rate)
    parts = [
        data.draw(st.sampled_from(forms)).format(number)
        for forms, number in zip(labels, numbers, strict=True)
    ]
    for order in permutations(parts):
        assert read(between.join(order)) == Understood(values=values)


@unhurried
@given(readings(), st.sampled_from([" ", ", ", "\n", "; "]))
def test_a_labelled_pair_and_a_labelled_rate_may_change_places(
    values: Values, between: str
) -> None:
    """Pressures and heart rate with a label each may come in either order."""
    pair, rate = f"bp {values.systolic}/{values.diastolic}", f"pulse {values.heart_rate}"
    assert read(pair + between + rate) == read(rate + between + pair) == Understood(values=values)


@unhurried
@given(readings())
def test_labels_behind_their_numbers_mean_the_same(values: Values) -> None:
    """Parts with the label behind each number are read like those with the label before."""
    text = f"{values.systolic} sys {values.diastolic} dia {values.heart_rate} pulse"
    assert read(text) == Understood(values=values)


@pytest.mark.parametrize("zero", SCRIPTS, ids=lambda zero: f"U+{ord(zero):04X}")
def test_digits_of_every_script_are_read(zero: str) -> None:
    """A reading in the digits of any script that Unicode names gives the same numbers."""
    digits = {
        ord(str(digit)): unicodedata.lookup(
            unicodedata.name(zero).replace("ZERO", unicodedata.name(str(digit)).split()[-1])
        )
        for digit in range(10)
    }
    for plain in ("124/76 72", "hr 72", "198/103, 56"):
        assert read(plain.translate(digits)) == read(plain)


def test_the_scripts_are_many() -> None:
    """The digits tried are those of some fifty scripts, Arabic and Devanagari among them."""
    assert len(SCRIPTS) > 50
    assert {"\u0660", "\u0966", "\uff10"} <= set(SCRIPTS)


@unhurried
@given(WRONG_WAY, HEART_RATE, KNOWN, st.sampled_from(["{}/{} {}", "bp {}/{} hr {}"]))
def test_pressures_the_wrong_way_round_are_never_understood(
    pair: tuple[int, int], heart_rate: int, known: Values, form: str
) -> None:
    """A first pressure that is not the higher one is asked about, with the other order offered."""
    systolic, diastolic = pair
    outcome = read(form.format(systolic, diastolic, heart_rate), known)
    assert isinstance(outcome, Doubtful)
    assert outcome.doubt is Doubt.SWAPPED
    if outcome.suggested is not None:
        assert outcome.suggested == Values(
            systolic=diastolic, diastolic=systolic, heart_rate=heart_rate
        )


@unhurried
@given(WRONG_WAY)
def test_swapped_pressures_are_noticed_when_they_come_apart(pair: tuple[int, int]) -> None:
    """A pressure that makes the pair the wrong way round with a known one is asked about."""
    systolic, diastolic = pair
    for text, known in (
        (f"dia {diastolic}", Values(systolic=systolic)),
        (f"sys {systolic}", Values(diastolic=diastolic)),
        (str(diastolic), Values(systolic=systolic, heart_rate=200)),
    ):
        outcome = read(text, known)
        assert isinstance(outcome, Doubtful)
        assert outcome.doubt is Doubt.SWAPPED


@unhurried
@given(readings(), st.lists(ODD_WORDS, min_size=1, max_size=4), st.booleans())
def test_words_after_a_reading_do_not_change_it(
    values: Values, words: list[str], strength: bool
) -> None:
    """A reading keeps its numbers whatever words follow; they come back as typed."""
    told = " ".join(words) + (" 6" if strength else "")
    outcome = read(f"{echo(values)} {told}")
    if values.heart_rate is not None and values.heart_rate >= 40:
        assert outcome == Understood(values=values, rest=told)
    else:  # "30 stairs": the rate is left to be asked for
        assert outcome == Understood(
            values=replace(values, heart_rate=None), rest=f"{values.heart_rate} {told}"
        )


@unhurried
@given(readings(), st.lists(ODD_WORDS, min_size=1, max_size=4))
def test_words_before_a_reading_do_not_change_it(values: Values, words: list[str]) -> None:
    """An ordinary whole reading keeps its numbers whatever words stand before."""
    systolic, diastolic, rate = values.systolic or 0, values.diastolic or 0, values.heart_rate or 0
    told = " ".join(words)
    outcome = read(f"{told} {echo(values)}")
    if systolic >= 80 and diastolic >= 40 and rate >= 40:
        assert outcome == Understood(values=values, rest=told)
    else:
        assert isinstance(outcome, Unreadable)


@unhurried
@given(ODD_WORDS, st.integers(25, 260), KNOWN)
def test_a_number_right_after_an_unknown_word_is_not_taken(
    word: str, number: int, known: Values
) -> None:
    """A lone number that an unknown word may name is never read as a part of a reading."""
    assert isinstance(read(f"{word} {number}", known), Unreadable)


@unhurried
@given(readings(), ODD_WORDS, st.integers(0, 24))
def test_a_strength_after_a_word_is_left_for_others(
    values: Values, word: str, strength: int
) -> None:
    """A small number after an unknown word is left with that word."""
    for text in (f"{echo(values)}, {word} {strength}", f"{echo(values)}\n{word}: {strength}"):
        outcome = read(text)
        assert isinstance(outcome, Understood)
        assert outcome.values == values
        assert outcome.rest.endswith(str(strength))


@unhurried
@given(st.integers(1000, 10**12), KNOWN)
def test_digits_run_together_are_never_split(number: int, known: Values) -> None:
    """Four or more digits in a row are no reading, whatever is missing."""
    for text in (str(number), f"hr {number}", f"{number} 72", f"bp {number}"):
        assert isinstance(read(text, known), Unreadable)


@unhurried
@given(readings(), st.text("0123456789", min_size=1, max_size=1), st.data())
def test_a_digit_too_many_is_never_dropped(values: Values, digit: str, data: st.DataObject) -> None:
    """A digit added anywhere to a whole reading gives the number that was typed or a question."""
    text = echo(values)
    place = data.draw(st.integers(0, len(text)))
    typed = text[:place] + digit + text[place:]
    outcome = read(typed)
    if isinstance(outcome, Understood | Doubtful):
        assert echo(outcome.values) == typed.replace(" 0", " ").replace("/0", "/").lstrip("0")


@pytest.mark.parametrize(
    ("known", "shown"),
    [
        (Values(), "124/76 72"),
        (Values(systolic=131, diastolic=82, heart_rate=66), "124/76 72"),
        (Values(systolic=131, diastolic=82), "72"),
        (Values(heart_rate=66), "124/76"),
        (Values(systolic=131, heart_rate=66), "76"),
        (Values(diastolic=82, heart_rate=66), "124"),
        (Values(systolic=131), "dia 76 hr 72"),
        (Values(diastolic=82), "sys 124 hr 72"),
    ],
)
def test_the_example_gives_what_is_missing(known: Values, shown: str) -> None:
    """What we show as an example reads without doubt, and completes the reading."""
    assert example(known) == shown
    outcome = read(shown, known)
    assert isinstance(outcome, Understood)
    assert known.updated(outcome.values).complete


def test_the_echo_of_nothing_is_empty() -> None:
    """Without numbers there is nothing to echo."""
    assert echo(Values()) == ""


@pytest.mark.parametrize(
    "unit",
    [
        *("7", "7/", "72,", "72 ", "hr 72 ", "97% spo2 ", "5 min ", "5' ", "mmhg ", "dizzy 6 "),
        *("a.", "7\u0301", "½", "heart rate variability ", "o' ", "x ", "/", "72 hr 73 x x x x "),
    ],
)
def test_long_messages_take_no_longer_than_their_length(unit: str) -> None:
    """A message as long as the platform allows, of any pattern, is read in well under a second."""
    text = ("72 " + unit * 4096)[:4096]
    begun = time.process_time()
    read(text)
    assert time.process_time() - begun < 1.0


def test_a_message_of_any_length_is_read() -> None:
    """Length alone raises nothing: neither in digits, nor in units, nor in labels."""
    for unit in ("9", "mmhg ", "hr ", "1/", "(", "\u0301"):
        read("72 " + unit * 8_000 + " 76")
