"""Every systolic pressure there is, and readings among the noise of a chat."""

import itertools
import random
from collections.abc import Callable

import pytest

from bot.protocol.record import Values
from bot.readings import read
from bot.readings.outcome import Doubt, Doubtful, Outcome, Understood, Unreadable

FORMS: tuple[str, ...] = (
    "{s}/{d} {h}",
    "{s} over {d} pulse {h}",
    "BP: {s}/{d} HR: {h}",
    "sys {s} dia {d} pul {h}",
    "{h}, {s}/{d}",
    "ta {s}/{d} fc {h}",
    "{s}/{d}/{h}",
)


def expected(systolic: int, diastolic: int, heart_rate: int) -> tuple[type[Outcome], Doubt | None]:
    """Return what a reading must come to, worked out without any code of the package."""
    if not (50 <= systolic <= 260 and 25 <= diastolic <= 160 and 25 <= heart_rate <= 240):
        return Unreadable, None
    if systolic <= diastolic:
        return Doubtful, Doubt.SWAPPED
    if systolic - diastolic < 15 or systolic - diastolic > 100:
        return Doubtful, Doubt.PULSE_PRESSURE
    if heart_rate in (systolic, diastolic):
        return Doubtful, Doubt.SAME_NUMBER
    return Understood, None


@pytest.mark.parametrize("form", FORMS)
def test_every_systolic_with_many_diastolics(form: str) -> None:
    """Over all systolic pressures and beyond, each form gives the numbers, or the right doubt.

    The heart rates take turns, so that each meets each diastolic pressure at many systolic ones.
    """
    turns = itertools.cycle(range(5))
    for systolic in range(40, 271):
        rates = (24, 72, 130, systolic, 241)
        for diastolic in (20, 24, 25, 60, 90, 160, 161, systolic, systolic - 15, systolic - 14, 70):
            heart_rate = rates[next(turns)]
            outcome = read(form.format(s=systolic, d=diastolic, h=heart_rate))
            kind, doubt = expected(systolic, diastolic, heart_rate)
            if form == "{s}/{d}/{h}" and systolic <= diastolic:
                assert isinstance(outcome, Unreadable)  # which of the three is the rate?
                continue
            assert type(outcome) is kind, (systolic, diastolic, heart_rate, outcome)
            if not isinstance(outcome, Understood | Doubtful):
                continue
            values = Values(systolic=systolic, diastolic=diastolic, heart_rate=heart_rate)
            assert outcome.values == values
            assert (outcome.doubt if isinstance(outcome, Doubtful) else None) is doubt


PRESSURES = (
    *("{s}/{d}", "bp {s}/{d}", "{s} over {d}", "BP: {s}/{d}", "sys {s} dia {d}", "{s}/{d} mmHg"),
    *("{s} sys {d} dia", "systolic {s}, diastolic {d}", "presión {s}/{d}", "{s} sobre {d}"),
    *("SYS{s} DIA{d}", "{s} {d}", "{s}-{d}"),
)
RATES = (
    *("hr {h}", "{h} bpm", "pulse {h}", "{h}", "{h} pulse", "HR: {h}", "{h}/min", "pulso {h}"),
    *("p{h}", "fc {h} lpm", "heart rate is {h}", "{h} hr"),
)
NOISE = (
    *("spo2 97", "97%", "SpO2: 96", "95 spo2", "sat 98", "saturación 97", "97 sat", "SpO₂ 97"),
    *("5 min", "10:05", "a las 10:05", "10 am", "9:45 pm", "20 min", "12/08/2024", "day 2"),
    *("dizzy 6", "nausea 3/10", "mareo 7", "me duele 6", "feeling 40", "dolor 60", "dizzy"),
    *("36.8", "36.8 °C", "36,8 grados", "temp 37", "weight 72 kg", "glucose 110", "110 mg/dl"),
    *("rr 16", "map 92", "HRV 45", "pulse pressure 48", "perfusion 5.2", "room 212", "50%"),
    *("took 50 mg", "losartan 100/25", "I am 65 years old", "67 años", "2 coffees", "30 squats"),
    *("reading 2", "#3", "second try", "standing", "de pie", "left arm", "no pain", "ok", "+30"),
)
BETWEEN = (" ", ", ", "\n", " and ", "; ", " - ", ". ")

# A wrong pressure or rate must stay rarer than this among messages of the worst kind.
TOLERATED = 1 / 2500
TRIED = 4_000


def _spaced(text: str, chance: random.Random) -> str:
    place = chance.randint(1, len(text) - 1)
    return f"{text[:place]} {text[place:]}"


def _shortened(text: str, chance: random.Random) -> str:
    places = [place for place, character in enumerate(text) if not character.isdigit()]
    if not places:
        return text
    place = chance.choice(places)
    return text[:place] + text[place + 1 :]


def _plain(text: str, chance: random.Random) -> str:
    return text


@pytest.mark.parametrize(
    ("slip", "noisy"),
    [(_plain, True), (_spaced, False), (_shortened, False)],
    ids=["noise", "a space too many", "a character lost"],
)
def test_a_number_is_not_silently_wrong(
    slip: Callable[[str, random.Random], str], noisy: bool
) -> None:
    """Among noise, or with a slip of typing, what is understood is what was meant, or is asked."""
    chance = random.Random(20_240_812)
    wrong: list[tuple[str, Outcome]] = []
    understood = tried = 0
    while tried < TRIED:
        s, d, h = chance.randint(85, 180), chance.randint(45, 110), chance.randint(40, 180)
        if not 15 <= s - d <= 100 or h in (s, d):
            continue
        tried += 1
        parts = [
            chance.choice(PRESSURES).format(s=s, d=d),
            chance.choice(RATES).format(h=h),
        ]
        parts = parts if chance.random() < 0.7 else [chance.choice(parts)]
        if noisy:
            chance.shuffle(parts)
            for _ in range(chance.choice((0, 1, 1, 2))):
                parts.insert(chance.randint(0, len(parts)), chance.choice(NOISE))
        text = slip(chance.choice(BETWEEN).join(parts), chance)
        known = chance.choice(
            (Values(), Values(systolic=s + 1, diastolic=d + 1), Values(heart_rate=h + 1))
        )
        outcome = read(text, known)
        if isinstance(outcome, Understood):
            understood += 1
            values = outcome.values
            if (
                values.systolic not in (None, s)
                or values.diastolic not in (None, d)
                or values.heart_rate not in (None, h)
            ):
                wrong.append((text, outcome))
    assert len(wrong) <= tried * TOLERATED, wrong
    assert understood > tried * (0.75 if noisy else 0.5)
