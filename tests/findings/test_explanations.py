"""What could explain a finding, and what could not."""

from dataclasses import replace
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.findings import Finding, Known, Line, State
from bot.findings.explanations import EFFECTS, Cause, Effect, Explanation, explained_by
from bot.protocol.circumstances import Circumstances, Cuff, Departure, LastDose, Medicine

EVERYTHING: Final = Circumstances(
    cuff=Cuff.WRIST,
    medicines=tuple(Medicine),
    last_dose=LastDose.WITHIN_12_HOURS,
    departures=tuple(Departure),
    audited=True,
)
RISERS: Final = [
    Departure.CAFFEINE,
    Departure.NICOTINE,
    Departure.HEAVY_MEAL,
    Departure.ILLNESS,
    Medicine.STIMULANT,
    Medicine.NORADRENALINE,
    Medicine.DIURETIC,
    Medicine.PRESSURE_LOWERING,
]
RISE_HIDERS: Final = [
    Departure.EXTRA_FLUIDS,
    Departure.EXTRA_SALT,
    Departure.GARMENTS,
    Medicine.BETA_BLOCKER,
    Medicine.HEART_SLOWING,
    Medicine.PRESSURE_RAISING,
]
FALLERS: Final = [
    Departure.HEAVY_MEAL,
    Departure.ILLNESS,
    Medicine.DIURETIC,
    Medicine.PRESSURE_LOWERING,
]
FALL_HIDERS: Final = [
    Departure.EXTRA_FLUIDS,
    Departure.EXTRA_SALT,
    Departure.GARMENTS,
    Medicine.PRESSURE_RAISING,
    Cuff.WRIST,
]
RAISERS: Final = [
    Departure.CAFFEINE,
    Departure.NICOTINE,
    Medicine.STIMULANT,
    Medicine.NORADRENALINE,
    Medicine.PRESSURE_RAISING,
    Cuff.WRIST,
]
FASTER: Final = [
    Departure.CAFFEINE,
    Departure.NICOTINE,
    Departure.ILLNESS,
    Medicine.STIMULANT,
    Medicine.NORADRENALINE,
]
SLOWER: Final = [Medicine.BETA_BLOCKER, Medicine.HEART_SLOWING]


def causes(line: Line, state: State, told: Circumstances = EVERYTHING) -> list[Cause]:
    """Return what could explain a finding, in order."""
    return [one.cause for one in explained_by(Finding(line=line, state=state), told)]


@pytest.mark.parametrize(
    ("line", "met", "not_met"),
    [
        (Line.HEART_RATE_RISE, RISERS, RISE_HIDERS),
        (Line.STANDING_RATE_120, RISERS, RISE_HIDERS),
        (Line.CLASSICAL_FALL, FALLERS, FALL_HIDERS),
        (Line.LATER_FALL, FALLERS, FALL_HIDERS),
        (Line.LARGE_FALL, FALLERS, FALL_HIDERS),
        (Line.STANDING_SYSTOLIC_LOW, FALLERS, FALL_HIDERS),
        (Line.PRESSURE_RISE, RAISERS, []),
        (Line.PRESSOR_RESPONSE, RAISERS, []),
        (Line.SUPINE_HYPERTENSION, RAISERS, []),
        (Line.VERY_HIGH_PRESSURE, RAISERS, []),
        (Line.SUPINE_RATE_HIGH, FASTER, []),
        (Line.SUPINE_RATE_BELOW_60, SLOWER, []),
        (Line.BRADYCARDIA, SLOWER, []),
        (Line.NEUROGENIC_PATTERN, RISE_HIDERS, []),
        (Line.NARROW_PULSE_PRESSURE, [], []),
    ],
)
def test_what_could_explain_each_line(line: Line, met: list[Cause], not_met: list[Cause]) -> None:
    """Of all causes at once, those that push towards a met line or hide one that is not."""
    assert set(causes(line, State.MET)) == set(met)
    assert set(causes(line, State.NOT_MET)) == set(not_met)
    assert len(causes(line, State.MET)) == len(met)


def test_a_rise_met_once_is_explained_as_one_that_is_met() -> None:
    """What could make a rise could make it at one reading."""
    assert causes(Line.HEART_RATE_RISE, State.MET_ONCE) == causes(Line.HEART_RATE_RISE, State.MET)


@pytest.mark.parametrize("state", [State.NOT_MEASURED, State.CANNOT_JUDGE])
@pytest.mark.parametrize("line", Line)
def test_what_is_not_judged_needs_no_explanation(line: Line, state: State) -> None:
    """A line that is neither met nor not met is explained by nothing."""
    assert causes(line, state) == []


def test_departures_come_first_then_medicines_then_the_cuff() -> None:
    """They stand in the order they were told."""
    told = replace(
        EVERYTHING,
        departures=(Departure.EXTRA_SALT, Departure.EXTRA_FLUIDS),
        medicines=(Medicine.PRESSURE_RAISING,),
    )
    assert causes(Line.CLASSICAL_FALL, State.NOT_MET, told) == [
        Departure.EXTRA_SALT,
        Departure.EXTRA_FLUIDS,
        Medicine.PRESSURE_RAISING,
        Cuff.WRIST,
    ]


def test_an_explanation_says_what_and_how_it_is_known() -> None:
    """A medicine carries its last dose and its source (Raj 2022, found); a departure no dose."""
    told = replace(EVERYTHING, departures=(Departure.CAFFEINE,), medicines=(Medicine.STIMULANT,))
    rise = Finding(line=Line.HEART_RATE_RISE, state=State.MET)
    caffeine, stimulant = explained_by(rise, told)
    assert stimulant == Explanation(
        cause=Medicine.STIMULANT,
        effect=Effect.RISE_LARGER,
        source=EFFECTS[Medicine.STIMULANT][Effect.RISE_LARGER],
        last_dose=LastDose.WITHIN_12_HOURS,
    )
    assert (stimulant.source.text, stimulant.source.known) == (
        "Raj 2022 (CMAJ 194:E378)",
        Known.FOUND,
    )
    assert (caffeine.source.known, caffeine.last_dose) == (Known.MEMORY, None)


def test_what_is_found_is_just_what_was_read() -> None:
    """Raj 2022 names stimulants, diuretics, SNRI and NRI; all the rest is not found.

    What the preparation leaves out, and how a wrist is held, are common practice.
    """
    found = {
        (cause, effect)
        for cause, effects in EFFECTS.items()
        for effect, source in effects.items()
        if source.known is Known.FOUND
    }
    assert found == {
        (medicine, Effect.RISE_LARGER)
        for medicine in (Medicine.STIMULANT, Medicine.DIURETIC, Medicine.NORADRENALINE)
    }
    practice = {
        cause
        for cause, effects in EFFECTS.items()
        if Known.PRACTICE in {source.known for source in effects.values()}
    }
    assert practice == {
        Departure.EXTRA_FLUIDS,
        Departure.EXTRA_SALT,
        Departure.GARMENTS,
        Cuff.WRIST,
    }


def test_nothing_told_explains_nothing() -> None:
    """Without circumstances, or with an arm cuff and a prepared person, there is no explanation."""
    rise = Finding(line=Line.HEART_RATE_RISE, state=State.MET)
    assert explained_by(rise, None) == ()
    prepared = Circumstances(cuff=Cuff.UPPER_ARM, audited=True)
    assert all(
        explained_by(Finding(line=line, state=state), prepared) == ()
        for line in Line
        for state in State
    )


@given(
    line=st.sampled_from(Line),
    state=st.sampled_from(State),
    some=st.sets(st.sampled_from(Departure)),
    medicines=st.sets(st.sampled_from(Medicine)),
)
def test_only_what_was_told_explains(
    line: Line, state: State, some: set[Departure], medicines: set[Medicine]
) -> None:
    """Every explanation is one of the recorded facts, and adding facts takes none away."""
    told = Circumstances(departures=tuple(some), medicines=tuple(medicines))
    found = set(causes(line, state, told))
    assert found == {cause for cause in causes(line, state) if cause in some or cause in medicines}
