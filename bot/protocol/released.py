"""The released definitions. One that has been released never changes: a change is a new version.

Times of rest and reading: common practice for a home lie-sit-stand test, no source.
Windows and silence ladders: a design choice of this project, for each clinic to sign off.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta
from types import MappingProxyType
from typing import Final

from bot.protocol.definition import Ladder, Phase, Position, Protocol, ProtocolRef, ReadingSlot


def _minutes(minutes: float) -> timedelta:
    return timedelta(minutes=minutes)


_SETTLING: Final = Ladder(
    nudge_after=_minutes(3), check_after=_minutes(8), close_after=_minutes(15)
)
_RISING: Final = Ladder(nudge_after=_minutes(2), check_after=_minutes(4), close_after=_minutes(7))
_AT_REST: Final = Ladder(nudge_after=_minutes(2), check_after=_minutes(5), close_after=_minutes(10))
_UPRIGHT: Final = Ladder(nudge_after=_minutes(1), check_after=_minutes(2), close_after=_minutes(4))

_SUPINE: Final = Phase(
    position=Position.SUPINE,
    slots=(ReadingSlot(id="supine-5", due=_minutes(5), window=_minutes(3)),),
    progress=(_minutes(2.5),),
    getting_there=_SETTLING,
    reading=_AT_REST,
)
_SEATED: Final = Phase(
    position=Position.SEATED,
    slots=(ReadingSlot(id="seated-5", due=_minutes(5), window=_minutes(3)),),
    progress=(_minutes(2.5),),
    getting_there=_SETTLING,
    reading=_AT_REST,
)

FOUR_READINGS_1: Final = Protocol(
    ref=ProtocolRef(id="four-readings", version=1),
    phases=(
        _SUPINE,
        _SEATED,
        Phase(
            position=Position.STANDING,
            slots=(
                ReadingSlot(id="standing-5", due=_minutes(5), window=_minutes(1.5)),
                ReadingSlot(id="standing-10", due=_minutes(10), window=_minutes(2)),
            ),
            progress=(_minutes(2.5), _minutes(7.5)),
            getting_there=_RISING,
            reading=_UPRIGHT,
        ),
    ),
    heads_up=timedelta(seconds=30),
)

SIX_READINGS_1: Final = Protocol(
    ref=ProtocolRef(id="six-readings", version=1),
    phases=(
        _SUPINE,
        _SEATED,
        Phase(
            position=Position.STANDING,
            slots=(
                ReadingSlot(id="standing-1", due=_minutes(1), window=_minutes(1)),
                ReadingSlot(id="standing-3", due=_minutes(3), window=_minutes(1)),
                ReadingSlot(id="standing-5", due=_minutes(5), window=_minutes(1.5)),
                ReadingSlot(id="standing-10", due=_minutes(10), window=_minutes(2)),
            ),
            progress=(_minutes(7.5),),
            getting_there=_RISING,
            reading=_UPRIGHT,
        ),
    ),
    heads_up=timedelta(seconds=30),
)

_QUICK: Final = Ladder(
    nudge_after=timedelta(seconds=40),
    check_after=timedelta(seconds=75),
    close_after=timedelta(seconds=140),
)


def _watched(before: Protocol, *checks: timedelta) -> Protocol:
    """Return the next version, in which whoever stands is asked in between whether all is well."""
    *lying_and_sitting, standing = before.phases
    watched = replace(standing, progress=(), checks=checks, checking=_QUICK)
    return replace(
        before,
        ref=ProtocolRef(id=before.ref.id, version=before.ref.version + 1),
        phases=(*lying_and_sitting, watched),
    )


FOUR_READINGS: Final = _watched(FOUR_READINGS_1, _minutes(2), _minutes(7))
SIX_READINGS: Final = _watched(SIX_READINGS_1, _minutes(7))

_ALL: Final = (FOUR_READINGS_1, SIX_READINGS_1, FOUR_READINGS, SIX_READINGS)
RELEASED: Final[Mapping[ProtocolRef, Protocol]] = MappingProxyType(
    {protocol.ref: protocol for protocol in _ALL}
)
DEFAULT: Final = FOUR_READINGS.ref


def released(ref: ProtocolRef) -> Protocol:
    """Return a released definition.

    Raises:
        KeyError: It was never released.
    """
    return RELEASED[ref]


def latest(protocol_id: str) -> ProtocolRef:
    """Return the newest released version of a protocol.

    Raises:
        KeyError: No protocol has that id.
    """
    versions = [ref for ref in RELEASED if ref.id == protocol_id]
    if not versions:
        raise KeyError(protocol_id)
    return max(versions)
