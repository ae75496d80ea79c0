"""The parts of a message: numbers as they hang together, labels beside them, other words."""

from dataclasses import dataclass

from bot.protocol.record import Measure
from bot.readings.shapes import Shape


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A part of the message.

    Attributes:
        first: Its first token.
        last: Its last token.
        divided: Whether a comma, a line end or the like stands before it.
        broken: Whether a line or sentence ends before it.
    """

    first: int
    last: int
    divided: bool = False
    broken: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Group(Piece):
    """Numbers written together, e.g. 124/76.

    Attributes:
        shape: The numbers and what joins them.
        odd: Whether it takes guessing to make a number of it.
        foreign: Whether it is some other measurement by its unit.
        percent: Whether that unit is percent.
        beats: Whether the last number has the unit of a heart rate.
        mercury: Whether it has the unit of a pressure.
        bracketed: Whether it stands in brackets.
        dashed: Whether a dash parts it from the number before.
        touching: Whether just a mark, and no space, parts it from the number before.
    """

    shape: Shape
    odd: bool = False
    foreign: bool = False
    percent: bool = False
    beats: bool = False
    mercury: bool = False
    bracketed: bool = False
    dashed: bool = False
    touching: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Label(Piece):
    """A word that names numbers.

    Attributes:
        names: What it names, in order; `None` is a number that is no part of a reading.
        share: Whether that number is a share, in percent.
        forward: Whether it can only name what comes after it.
        backward: Whether it can only name what comes before it.
    """

    names: tuple[Measure | None, ...]
    share: bool = False
    forward: bool = False
    backward: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Word(Piece):
    """A word that is none of ours.

    Attributes:
        hedge: Whether it says that what follows is not quite a reading.
    """

    hedge: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieces:
    """A message taken apart.

    Attributes:
        items: The pieces that bear on a reading, in order.
        soft: The tokens that say nothing by themselves.
        not_now: Whether the message speaks of another time.
        theirs: Whether it may speak of somebody else.
        correction: Whether it begins by saying that earlier numbers were wrong.
        again: Whether it begins by saying that it was measured anew.
        same: Whether it says that the numbers are those of the last reading.
        absent: What it says that there is no number for.
    """

    items: tuple[Piece, ...]
    soft: frozenset[int]
    not_now: bool
    theirs: bool = False
    correction: bool = False
    again: bool = False
    same: bool = False
    absent: frozenset[Measure] = frozenset()
