"""Messages that lean on numbers given before, and messages of two parts."""

import pytest

from bot.protocol.record import Values
from bot.readings import example, read
from bot.readings.outcome import Doubt, Doubtful, Outcome, Problem, Several, Understood, Unreadable
from bot.readings.plain import plain
from bot.readings.reading import worked_out

NONE = Values()
BP = Values(systolic=124, diastolic=76)
FULL = Values(systolic=124, diastolic=76, heart_rate=72)


def v(systolic: int | None, diastolic: int | None, heart_rate: int | None) -> Values:
    """Return values in the order of a display."""
    return Values(systolic=systolic, diastolic=diastolic, heart_rate=heart_rate)


# Lying and standing, as measured: Miwa 2023 (Circ Rep 5:55) for heart rates, the CDISC pilot
# study for whole sets.
REAL_CHANGES = (
    (v(None, None, 63), v(None, None, 104)),
    (v(None, None, 86), v(None, None, 133)),
    (v(126, 60, 51), v(122, 72, 84)),
    (v(113, 80, 60), v(170, 90, 68)),
    (v(178, 87, 51), v(138, 58, 51)),
    (v(170, 74, 68), v(130, 82, 80)),
    (v(110, 60, 88), v(70, 50, 80)),
)


@pytest.mark.parametrize(("lying", "standing"), REAL_CHANGES)
def test_no_published_change_on_standing_has_to_be_confirmed(
    lying: Values, standing: Values
) -> None:
    """Numbers that changed as much as in published sets are taken without a question."""
    text = (
        f"pulse {standing.heart_rate}"
        if standing.systolic is None
        else f"{standing.systolic}/{standing.diastolic} {standing.heart_rate}"
    )
    assert read(text, before=lying) == Understood(values=standing)


def test_a_rise_of_sixty_and_a_fall_of_forty_are_not_asked_about() -> None:
    """What a test like this looks for raises no doubt."""
    assert isinstance(read("124/76 132", before=FULL), Understood)
    assert isinstance(read("84/56 112", before=FULL), Understood)


@pytest.mark.parametrize("text", ["124/76 172", "214/130 72", "54/30 72", "pulse 172", "dia 126"])
def test_a_slip_of_a_digit_is_asked_about(text: str) -> None:
    """A number as far from the last one as a slip of its first digit is kept only after a yes."""
    outcome = read(text, before=FULL)
    assert isinstance(outcome, Doubtful)
    assert outcome.doubt is Doubt.JUMP
    assert not isinstance(read(text), Doubtful)


def test_an_impossible_number_is_asked_for_again_whatever_came_before() -> None:
    """124 that became 24 is no pressure at all."""
    outcome = read("24/76 72", before=FULL)
    assert isinstance(outcome, Unreadable)
    assert outcome.problem is Problem.IMPOSSIBLE


@pytest.mark.parametrize("text", ["same", "same as before", "The same!", "igual que antes"])
def test_the_same_is_asked_about_with_the_numbers(text: str) -> None:
    """Words for the same numbers put those of the last reading to the person, and keep none."""
    expected = Doubtful(values=FULL, doubt=Doubt.SAME_AS_BEFORE)
    assert read(text, before=FULL) == expected
    assert read(text) == Unreadable(problem=Problem.NO_NUMBERS)


@pytest.mark.parametrize("text", ["same arm", "same, dizzy", "still the same cuff"])
def test_the_same_of_something_else_is_not_the_same_numbers(text: str) -> None:
    """With other words beside it, "same" says nothing of numbers."""
    assert read(text, before=FULL) == Unreadable(problem=Problem.NO_NUMBERS)


@pytest.mark.parametrize(
    ("text", "known", "before", "expected"),
    [
        ("no, 128/76", NONE, None, Understood(values=v(128, 76, None), rest="no", correction=True)),
        (
            "no, 128",
            FULL,
            None,
            Doubtful(values=v(128, None, None), doubt=Doubt.CORRECTION, correction=True),
        ),
        (
            "perdón, 128",
            NONE,
            FULL,
            Doubtful(values=v(128, None, None), doubt=Doubt.CORRECTION, correction=True),
        ),
        (
            "no, 142",
            NONE,
            FULL,
            Doubtful(values=v(142, None, None), doubt=Doubt.CORRECTION, correction=True),
        ),
        (
            "no, 27",
            NONE,
            FULL,
            Doubtful(values=v(None, None, 27), doubt=Doubt.CORRECTION, correction=True),
        ),
        (
            "no, 128",
            BP,
            None,
            Doubtful(values=v(128, None, None), doubt=Doubt.CORRECTION, correction=True),
        ),
        ("no, 74", FULL, None, Unreadable(problem=Problem.WHICH_NUMBER, number=74)),
        ("no, 150", FULL, None, Unreadable(problem=Problem.WHICH_NUMBER, number=150)),
        ("no, 128", NONE, None, Unreadable(problem=Problem.WHICH_NUMBER, number=128)),
        (
            "no, 77",
            v(124, 76, None),
            None,
            Doubtful(values=v(None, 77, None), doubt=Doubt.CORRECTION, correction=True),
        ),
    ],
)
def test_a_bare_correction_goes_to_the_number_it_is_a_slip_from(
    text: str, known: Values, before: Values | None, expected: Outcome
) -> None:
    """A bare number puts right the one it is one slip away from, if that is just one."""
    assert read(text, known, before) == expected


def test_words_for_anew_are_told() -> None:
    """A reading that was taken again says so."""
    outcome = read("I took it again: 126/78 74")
    assert isinstance(outcome, Understood)
    assert (outcome.values, outcome.again, outcome.correction) == (v(126, 78, 74), True, False)


@pytest.mark.parametrize(
    "word", ["no dizziness", "sorry for the delay", "not dizzy", "no me mareo"]
)
def test_a_no_to_something_else_is_no_correction(word: str) -> None:
    """A "no" that other words follow belongs to them, and is handed back with them."""
    outcome = read(f"{word} 124/76 72")
    assert isinstance(outcome, Understood)
    assert (outcome.values, outcome.correction) == (FULL, False)
    assert outcome.rest == word


@pytest.mark.parametrize(
    "text",
    [
        *("124/76 72\n126/78 74", "124/76 72 then 126/78 74", "124/76 72 again 126/78 74"),
        *("124/76 72 y luego 126/78 74", "124/76 72. 126/78 74.", "124/76 72 126/78 74"),
    ],
)
def test_two_readings_are_both_told_and_the_last_counts(text: str) -> None:
    """Two readings in one message come back as two, with the last as the one to offer."""
    outcome = read(text)
    assert isinstance(outcome, Several)
    assert outcome.readings == (FULL, v(126, 78, 74))
    assert outcome.counts == v(126, 78, 74)


@pytest.mark.parametrize("text", ["124/76 72 130/80", "124/76 72 80", "130/80 120/70 110/60"])
def test_what_can_be_parted_in_two_ways_is_not_parted(text: str) -> None:
    """Where it is not plain which number belongs to which reading, none is told."""
    outcome = read(text)
    assert isinstance(outcome, Unreadable)
    assert outcome.problem is Problem.TOO_MANY


def test_plain_forms_come_to_the_same_by_either_way() -> None:
    """The short way gives what the long way gives, over all numbers that a cuff can show."""
    tried = 0
    for systolic in range(48, 263):
        for diastolic in {*range(23, 163, 9), systolic, systolic - 15, systolic + 15, 25, 160}:
            rate = (systolic * 7 + diastolic * 13) % 240 + 20
            for text in (
                f"{systolic}/{diastolic}",
                f"{systolic}/{diastolic} {rate}",
                f"{systolic}/{diastolic}, {rate}",
                f"{systolic}/{diastolic},{rate}",
            ):
                for known, before in ((NONE, None), (BP, FULL)):
                    quick = plain(text, known, before)
                    tried += quick is not None
                    assert quick is None or quick == worked_out(text, known, before), text
    assert tried > 20_000


@pytest.mark.parametrize(
    ("words", "known", "shown"),
    [
        ("BP 130/80 pulse 66", NONE, "BP 124/76 pulse 72"),
        ("one thirty over eighty pulse 66", NONE, "124 over 76 pulse 72"),
        ("130 sobre 80, pulso 66", NONE, "124 sobre 76, pulso 72"),
        ("130 80 66", NONE, "124 76 72"),
        ("SYS 130\nDIA 80\nPUL 66", NONE, "SYS 124\nDIA 76\nPUL 72"),
        ("66 bpm", BP, "72 bpm"),
        ("130/80 66", BP, "72"),
        ("dizzy 130/80 66", NONE, "124/76 72"),
        ("hello", NONE, "124/76 72"),
        ("97 72", NONE, "124/76 72"),
    ],
)
def test_an_example_is_in_the_words_of_the_person(words: str, known: Values, shown: str) -> None:
    """What is shown to type looks like what was typed, if that gives just what is missing."""
    assert example(known, words) == shown
    outcome = read(shown, known)
    assert isinstance(outcome, Understood)
    assert known.updated(outcome.values).complete
