"""Released definitions are sound and frozen, and the checker bites on every kind of fault."""

import hashlib
import json
from dataclasses import asdict, replace
from datetime import timedelta
from typing import Final

import pytest

from bot.protocol.check import unsound
from bot.protocol.definition import Ladder, Phase, Position, Protocol, ProtocolRef
from bot.protocol.released import (
    DEFAULT,
    FOUR_READINGS,
    RELEASED,
    SIX_READINGS,
    SIX_READINGS_1,
    latest,
    released,
)

FROZEN: Final = {
    "four-readings/1": "f35679c8e45ca5440c34eac6ed9522179546ceaa9805372cca540453fb3e7884",
    "six-readings/1": "3a2b0655af81b848e16b2a391920e79e51a973afe609a32e22c9376421b134a3",
    "four-readings/2": "2a0dc5bddb6602abd21261a7df21ea3abfc96f043c50ad4816c43e4f854c0f5f",
    "six-readings/2": "ee0279ea77aeba978c92bba6ffaa715318a87e9042cc8a5f28ef22a27ee8ea63",
}


def minutes(number: float) -> timedelta:
    """Return a length of time."""
    return timedelta(minutes=number)


def seconds(value: object) -> float:
    """Return a duration as seconds, for the canonical form."""
    if isinstance(value, timedelta):
        return value.total_seconds()
    raise TypeError(value)


def digest(protocol: Protocol) -> str:
    """Return the digest of a definition's canonical form: sorted keys, durations in seconds."""
    whole = asdict(protocol)
    for phase in whole["phases"]:
        for later in ("checks", "checking"):  # not known to the first definitions
            if not phase[later]:
                del phase[later]
    text = json.dumps(whole, sort_keys=True, separators=(",", ":"), default=seconds)
    return hashlib.sha256(text.encode()).hexdigest()


def standing(**changed: object) -> Protocol:
    """Return the six readings with something changed in the standing phase."""
    return with_phase(-1, **changed)


def with_phase(index: int, **changed: object) -> Protocol:
    """Return the six readings with something changed in one phase."""
    phases = list(SIX_READINGS_1.phases)
    phases[index] = replace(phases[index], **changed)  # type: ignore[arg-type]
    return replace(SIX_READINGS_1, phases=tuple(phases))


def with_slot(index: int, **changed: object) -> Protocol:
    """Return the six readings with something changed in one standing reading."""
    slots = list(STANDING.slots)
    slots[index] = replace(slots[index], **changed)  # type: ignore[arg-type]
    return standing(slots=tuple(slots))


def ladder(nudge: float, check: float, close: float) -> Ladder:
    """Return a silence ladder in minutes."""
    return Ladder(
        nudge_after=minutes(nudge), check_after=minutes(check), close_after=minutes(close)
    )


SUPINE, SEATED, STANDING = SIX_READINGS_1.phases


@pytest.mark.parametrize("ref", sorted(RELEASED), ids=str)
def test_released_definitions_are_sound(ref: ProtocolRef) -> None:
    """The checker has nothing to say against a definition that clinics use."""
    assert unsound(released(ref)) == ()


@pytest.mark.parametrize("ref", sorted(RELEASED), ids=str)
def test_released_definitions_are_frozen(ref: ProtocolRef) -> None:
    """A released definition is the same, to the last duration, as on the day of its release."""
    assert digest(released(ref)) == FROZEN[str(ref)], (
        f"{ref} has changed since its release, and records keep to the definition they began with: "
        f"leave it as it was and release the change as version {ref.version + 1}"
    )


def test_no_released_definition_is_withdrawn() -> None:
    """What was once released stays, since records name it, and a new one gets its digest here."""
    assert {str(ref) for ref in RELEASED} == set(FROZEN)


def test_the_digest_bites() -> None:
    """One second more or one word else gives another digest."""
    assert digest(replace(FOUR_READINGS, heads_up=timedelta(seconds=31))) != digest(FOUR_READINGS)
    assert digest(with_slot(0, id="standing-one")) != digest(SIX_READINGS_1)


def test_a_definition_is_found_by_its_name() -> None:
    """Each is released under its own name, and the default is one of them."""
    assert all(protocol.ref == ref for ref, protocol in RELEASED.items())
    assert released(DEFAULT) is FOUR_READINGS
    assert latest("six-readings") == SIX_READINGS.ref
    assert str(SIX_READINGS.ref) == "six-readings/2"


def test_a_name_that_was_never_released_is_an_error() -> None:
    """Neither a version nor an id is made up."""
    with pytest.raises(KeyError):
        released(ProtocolRef(id="four-readings", version=9))
    with pytest.raises(KeyError):
        latest("five-readings")


def test_the_four_readings_are_as_clinics_have_them() -> None:
    """Lying 5 min, sitting 5 min, standing 10 min with readings at 5 and 10."""
    assert [(slot.id, slot.due) for slot in FOUR_READINGS.slots] == [
        ("supine-5", minutes(5)),
        ("seated-5", minutes(5)),
        ("standing-5", minutes(5)),
        ("standing-10", minutes(10)),
    ]


def test_the_six_readings_add_the_first_3_minutes() -> None:
    """The six are the four, and standing readings at 1 and 3 min."""
    four = {(slot.id, slot.due) for slot in FOUR_READINGS.slots}
    six = {(slot.id, slot.due) for slot in SIX_READINGS.slots}
    assert six - four == {("standing-1", minutes(1)), ("standing-3", minutes(3))}
    assert four < six


@pytest.mark.parametrize("protocol", [FOUR_READINGS, SIX_READINGS], ids=lambda p: str(p.ref))
def test_slots_and_phases_are_found(protocol: Protocol) -> None:
    """Each reading is found by its id, in its own phase, which is as long as its last reading."""
    for phase in protocol.phases:
        assert phase.length == max(slot.due for slot in phase.slots)
        for slot in phase.slots:
            assert protocol.slot(slot.id) is slot
            assert protocol.phase_of(slot.id) is phase
    with pytest.raises(KeyError):
        protocol.slot("standing-7")
    with pytest.raises(KeyError):
        protocol.phase_of("standing-7")


FAULTS: Final[list[tuple[Protocol, tuple[str, ...]]]] = [
    (
        replace(SIX_READINGS_1, ref=ProtocolRef(id="six-readings", version=0)),
        ("versions count from 1",),
    ),
    (replace(SIX_READINGS_1, phases=()), ("there is no phase",)),
    (
        replace(SIX_READINGS_1, phases=(SEATED, STANDING)),
        ("the first phase is not supine: there would be no baseline",),
    ),
    (replace(SIX_READINGS_1, phases=(SUPINE, SEATED)), ("the last phase is not standing",)),
    (with_phase(1, position=Position.SUPINE), ("two phases share a position",)),
    (with_phase(1, slots=SUPINE.slots), ("two readings share an id",)),
    (
        replace(SIX_READINGS_1, heads_up=timedelta(0)),
        ("the heads-up must come before the reading",),
    ),
    (standing(slots=()), ("standing: there is no reading",)),
    (
        standing(checks=(minutes(10),), checking=ladder(1, 2, 3)),
        ("standing: a check lies outside the phase",),
    ),
    (
        standing(checks=(minutes(7), minutes(2)), checking=ladder(1, 2, 3)),
        ("standing: the checks are not in order",),
    ),
    (standing(checks=(minutes(7),)), ("standing: the checks have no silence ladder",)),
    (
        standing(checks=(minutes(7),), checking=ladder(2, 1, 3)),
        ("standing: checking: the rungs of the silence ladder must rise",),
    ),
    (
        with_slot(0, due=timedelta(seconds=30)),
        ("standing: standing-1 leaves no room for its heads-up",),
    ),
    (
        standing(
            slots=(
                replace(STANDING.slots[0], window=timedelta(seconds=30)),
                replace(STANDING.slots[1], due=timedelta(seconds=90)),
                *STANDING.slots[2:],
            )
        ),
        ("standing: standing-3 leaves no room for its heads-up",),
    ),
    (
        standing(slots=tuple(reversed(STANDING.slots))),
        (
            "standing: standing-5 leaves no room for its heads-up",
            "standing: standing-3 leaves no room for its heads-up",
            "standing: standing-1 leaves no room for its heads-up",
            "standing: the window of standing-10 runs past standing-5",
            "standing: the window of standing-5 runs past standing-3",
            "standing: the window of standing-3 runs past standing-1",
            "standing: a progress note lies outside the phase",
        ),
    ),
    (with_slot(3, window=timedelta(0)), ("standing: standing-10 has no window",)),
    (
        with_slot(2, window=minutes(5.5)),
        ("standing: the window of standing-5 runs past standing-10",),
    ),
    (standing(progress=(minutes(0),)), ("standing: a progress note lies outside the phase",)),
    (standing(progress=(minutes(10),)), ("standing: a progress note lies outside the phase",)),
    (standing(progress=(minutes(9.5),)), ("standing: a progress note falls on a heads-up",)),
    (
        standing(progress=(minutes(7.5), minutes(6.5))),
        (
            "standing: the progress notes are not in order",
            "standing: progress is edited more than once a minute",
        ),
    ),
    (
        standing(progress=(minutes(7), minutes(7.9))),
        ("standing: progress is edited more than once a minute",),
    ),
    (
        standing(getting_there=ladder(0, 4, 7)),
        ("standing: getting there: the nudge must come after the prompt",),
    ),
    (
        standing(reading=ladder(1, 1, 4)),
        ("standing: reading: the rungs of the silence ladder must rise",),
    ),
    (
        with_phase(0, reading=ladder(2, 5, 5)),
        ("supine: reading: the rungs of the silence ladder must rise",),
    ),
]


@pytest.mark.parametrize(
    ("protocol", "complaints"), FAULTS, ids=["; ".join(words)[:60] for _, words in FAULTS]
)
def test_the_checker_bites(protocol: Protocol, complaints: tuple[str, ...]) -> None:
    """Each planted fault is named, and nothing else is."""
    assert unsound(protocol) == complaints


def test_what_lies_just_inside_is_sound() -> None:
    """The edges of the rules are allowed: what touches does not overlap."""
    touching = with_slot(2, window=minutes(5))
    assert unsound(touching) == ()
    assert unsound(standing(progress=(minutes(6), minutes(7)))) == ()
    assert unsound(with_slot(0, due=timedelta(seconds=31))) == ()


def test_several_faults_are_all_told() -> None:
    """The checker says everything that is wrong, not just the first thing."""
    phases: tuple[Phase, ...] = (STANDING, SEATED)
    broken = replace(SIX_READINGS_1, phases=phases, heads_up=timedelta(seconds=-1))
    assert unsound(broken) == (
        "the first phase is not supine: there would be no baseline",
        "the last phase is not standing",
        "the heads-up must come before the reading",
    )
