"""Is a protocol definition sound? Says everything that is wrong with it, in words."""

from collections.abc import Iterator
from datetime import timedelta
from itertools import pairwise

from bot.protocol.definition import Ladder, Phase, Position, Protocol


def unsound(protocol: Protocol) -> tuple[str, ...]:
    """Return what is wrong with a definition; an empty tuple means it is sound."""
    return tuple(_complaints(protocol))


def _complaints(protocol: Protocol) -> Iterator[str]:
    if protocol.ref.version < 1:
        yield "versions count from 1"
    if not protocol.phases:
        yield "there is no phase"
        return
    if protocol.phases[0].position is not Position.SUPINE:
        yield "the first phase is not supine: there would be no baseline"
    if protocol.phases[-1].position is not Position.STANDING:
        yield "the last phase is not standing"
    positions = [phase.position for phase in protocol.phases]
    if len(set(positions)) != len(positions):
        yield "two phases share a position"
    ids = [slot.id for slot in protocol.slots]
    if len(set(ids)) != len(ids):
        yield "two readings share an id"
    if protocol.heads_up <= timedelta(0):
        yield "the heads-up must come before the reading"
    for phase in protocol.phases:
        yield from (f"{phase.position}: {text}" for text in _phase_complaints(phase, protocol))


def _phase_complaints(phase: Phase, protocol: Protocol) -> Iterator[str]:
    if not phase.slots:
        yield "there is no reading"
        return
    last = timedelta(0)
    for slot in phase.slots:
        if slot.due - last <= protocol.heads_up:
            yield f"{slot.id} leaves no room for its heads-up"
        if slot.window <= timedelta(0):
            yield f"{slot.id} has no window"
        last = slot.due
    for now, following in pairwise(phase.slots):
        if now.due + now.window > following.due:
            yield f"the window of {now.id} runs past {following.id}"
    heads_ups = {slot.due - protocol.heads_up for slot in phase.slots}
    for note in phase.progress:
        if not timedelta(0) < note < phase.length:
            yield "a progress note lies outside the phase"
        if note in heads_ups:
            yield "a progress note falls on a heads-up"
    if list(phase.progress) != sorted(set(phase.progress)):
        yield "the progress notes are not in order"
    if any(after - before < timedelta(minutes=1) for before, after in pairwise(phase.progress)):
        yield "progress is edited more than once a minute"
    if any(not timedelta(0) < check < phase.length for check in phase.checks):
        yield "a check lies outside the phase"
    if list(phase.checks) != sorted(set(phase.checks)):
        yield "the checks are not in order"
    if phase.checks and phase.checking is None:
        yield "the checks have no silence ladder"
    ladders = {
        "getting there": phase.getting_there,
        "reading": phase.reading,
        "checking": phase.checking,
    }
    for name, ladder in ladders.items():
        if ladder is not None:
            yield from (f"{name}: {text}" for text in _ladder_complaints(ladder))


def _ladder_complaints(ladder: Ladder) -> Iterator[str]:
    rungs = (ladder.nudge_after, ladder.check_after, ladder.close_after)
    if rungs[0] <= timedelta(0):
        yield "the nudge must come after the prompt"
    if not rungs[0] < rungs[1] < rungs[2]:
        yield "the rungs of the silence ladder must rise"
