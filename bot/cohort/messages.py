"""A reading as it is typed, with slips, and what is understood of it in the end.

The person answers as people do: what is asked about is looked at again, what cannot be read is
typed again in the plain form, and a slip that is read without doubt is seen in most cases when the
numbers are said back.
"""

from dataclasses import dataclass
from enum import StrEnum
from random import Random
from typing import Final, assert_never

from bot.protocol.record import Values
from bot.readings import echo, read
from bot.readings.outcome import Doubtful, Several, Understood, Unreadable

FORMS: Final = (
    *("{s}/{d} {h}", "{s}/{d} {h}", "{s}/{d}, {h}", "{s} {d} {h}", "{s}/{d}\n{h}"),
    *("bp {s}/{d} hr {h}", "{s} over {d} pulse {h}", "SYS {s} DIA {d} PUL {h}", "{s}/{d} p {h}"),
    *("pulse {h} bp {s}/{d}", "my bp is {s}/{d} and my pulse is {h}", "{s}-{d}-{h}"),
    *("ta {s}/{d} fc {h}", "{s} sobre {d} pulso {h}", "presión {s}/{d}, pulso {h}"),
    *("{s}/{d} {h} a bit dizzy", "ok {s}/{d} {h}", "it says {s}/{d} {h}"),
)
"""How people type. The plain form is the commonest; design choice."""

SLIPPED: Final = 0.06
"""Share of typed readings with a slip. Design choice."""

NOTICED: Final = 0.7
"""Share of slips, read without doubt, that are seen when the numbers are said back. Design choice;
no source."""

_TRIES: Final = 3
_KEYS: Final = "1234567890"


class Heard(StrEnum):
    """What became of a typed reading."""

    AT_ONCE = "understood at once"
    ASKED = "asked about, then right"
    AGAIN = "typed again, then right"
    SLIP_SEEN = "slip seen when said back"
    SLIP_KEPT = "slip kept"
    MISREAD = "misread"
    GIVEN_UP = "given up"


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """A reading that was typed.

    Attributes:
        words: The first message.
        values: What was kept in the end; empty when nothing was.
        heard: What became of it.
    """

    words: str
    values: Values
    heard: Heard


def type_in(meant: Values, before: Values | None, chance: Random) -> Typed:
    """Type a reading and see it through.

    Args:
        meant: What the displays show, all three numbers.
        before: The last reading, which one far from it is doubted by.
        chance: Where the draws come from.
    """
    form = chance.choice(FORMS)
    slipped = chance.random() < SLIPPED
    typed = _slip(meant, chance) if slipped else meant
    words = form.format(s=typed.systolic, d=typed.diastolic, h=typed.heart_rate)
    outcome = read(words, before=before)
    match outcome:
        case Understood(values=values) if values == meant:
            heard = Heard.AT_ONCE
        case Understood(values=values) if typed.updated(values) != typed:
            return Typed(words=words, values=values, heard=Heard.MISREAD)
        case Understood(values=values) if not values.complete:
            heard = Heard.AGAIN
        case Understood(values=values):
            if chance.random() >= NOTICED:
                return Typed(words=words, values=values, heard=Heard.SLIP_KEPT)
            heard = Heard.SLIP_SEEN
        case Doubtful(values=values, suggested=suggested):
            heard = Heard.ASKED if meant in (values, suggested) else Heard.AGAIN
        case Several() | Unreadable():
            heard = Heard.AGAIN
        case _:
            assert_never(outcome)
    if heard in {Heard.AGAIN, Heard.SLIP_SEEN} and not _plainly(meant, before):
        return Typed(words=words, values=Values(), heard=Heard.GIVEN_UP)
    return Typed(words=words, values=meant, heard=heard)


def _plainly(meant: Values, before: Values | None) -> bool:
    """Return whether the plain form is taken, be it after a yes."""
    outcome = read(echo(meant), before=before)
    return isinstance(outcome, Understood | Doubtful) and outcome.values == meant


def _slip(meant: Values, chance: Random) -> Values:
    """Return numbers with one slip of the finger in them."""
    numbers = [meant.systolic, meant.diastolic, meant.heart_rate]
    assert None not in numbers
    for _ in range(_TRIES):
        place = chance.randrange(3)
        digits = str(numbers[place])
        at = chance.randrange(len(digits))
        kind = chance.randrange(4)
        if kind == 0:  # a digit left out
            wrong = digits[:at] + digits[at + 1 :]
        elif kind == 1:  # two digits in the wrong order
            wrong = digits[:at] + digits[at : at + 2][::-1] + digits[at + 2 :]
        else:  # the key beside it
            key = _KEYS.index(digits[at])
            wrong = digits[:at] + chance.choice(_KEYS[max(0, key - 1) : key + 2]) + digits[at + 1 :]
        if wrong != digits and wrong.strip("0"):
            numbers[place] = int(wrong)
            break
    systolic, diastolic, rate = numbers
    if chance.random() < 0.1:  # the smaller pressure first
        systolic, diastolic = diastolic, systolic
    return Values(systolic=systolic, diastolic=diastolic, heart_rate=rate)
