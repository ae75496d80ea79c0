"""What a language is to this package: one module of data in `languages`."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Role(StrEnum):
    """What a word or mark does for the numbers beside it."""

    SYSTOLIC = "systolic"
    DIASTOLIC = "diastolic"
    HEART_RATE = "heart-rate"
    PRESSURE = "pressure"  # names both pressures
    UPPER = "upper"  # names the systolic pressure where a word for the other stands too
    LOWER = "lower"  # likewise the diastolic one
    TOP = "top"  # as `UPPER`, and right before its number
    BOTTOM = "bottom"  # as `LOWER`, and right before its number
    FOOT = "foot"  # names the diastolic pressure, but the rate where one for the middle stands
    MIDDLE = "middle"  # beside a number: the diastolic pressure where one above is named too
    OVER_NOTHING = "over-nothing"  # the number before it is systolic, the other is missing
    UNDER_NOTHING = "under-nothing"  # the number after it is diastolic, the other is missing
    ABSENT = "absent"  # says that a number is missing
    HIGHEST = "highest"  # as `UPPER`; else the number after it is not one of now
    LOWEST = "lowest"  # as `LOWER`, and right before its number; else a unit of time
    HEARD = "heard"  # what voice typing makes of "pulse": a name for it only after a pair
    OTHER = "other"  # names a number that is no part of a reading
    AHEAD = "ahead"  # likewise, and only the one after it
    SATURATION = "saturation"  # likewise; names a share in percent
    BEATS = "beats"  # unit of a heart rate
    MERCURY = "mercury"  # unit of a pressure
    AMOUNT = "amount"  # unit of a number that is no part of a reading
    PERCENT = "percent"  # likewise
    TIME = "time"  # unit of a time, likewise
    HALF_DAY = "half-day"  # unit of a clock time, if the number can be an hour
    COUNTER = "counter"  # "reading 2"
    SIGN = "sign"  # makes the number after it a change, a limit or a count
    POINTER = "pointer"  # a label before it names what comes after it
    FILLER = "filler"  # says nothing
    SELF = "self"  # as filler, but a lone number right after it may be an age
    DIVIDER = "divider"  # as filler; what it parts belongs less together
    HEDGE = "hedge"  # the number after it is not, or not exactly, a reading
    THEIRS = "theirs"  # the numbers of the message may be somebody else's
    KIN = "kin"  # somebody else: the number right after it is not of who wrote
    NOT_NOW = "not-now"  # the numbers of the message may be of another time
    PLAIN = "plain"  # a complaint that holds a word of ours
    CORRECTION = "correction"  # what comes after it puts right what came before
    AGAIN = "again"  # what comes after it was measured anew
    SAME = "same"  # the numbers are those of the last reading


class Join(StrEnum):
    """How two numbers hang together."""

    PAIR = "pair"  # one pressure over the other
    WIDE = "wide"  # a pair's stroke with spaces around: that, or parts of a list
    LINK = "link"  # parts of one reading
    DASH = "dash"  # a link with spaces around: parts of a list, or a range
    DOT = "dot"  # a link, or a decimal point
    COMMA = "comma"  # parts of a list, or a decimal comma
    COLON = "colon"  # a link, or a clock time
    RANGE = "range"  # from one to the other, or one of the two


@dataclass(frozen=True, slots=True, kw_only=True)
class Numerals:
    """The number words of a language, all in small letters without accents.

    Attributes:
        code: The language as text2num names it.
        units: The words from one to nine.
        teens: The words from ten on that take no other after them.
        tens: The words that a unit may follow.
        decas: Likewise, but only with an "and" between.
        hundreds: The words that anything smaller may follow.
        alone: Words for a hundred that nothing may follow: what does is the next number.
        zeros: Words for the nought in the middle ("one oh five").
        leads: Units that may stand for as many hundreds ("one twenty").
        ands: Words that may stand inside a number.
        articles: Words that stand for one before a hundred.
        spelled: Words as text2num knows them, where it wants accents or another spelling.
        beside: Words that are a number only beside another ("siento" for "ciento").
        sounds: What voice typing makes of units, with the unit.
        heard: Those of them that are said between numbers too. After a ten, a number is unsure
            with them.
        parted: What voice typing makes of tens, in two words.
        glue: What may stand between a ten and a unit where they are written as one word;
            if that may be nothing, no "and" stands there.
        hours: Words before a number that make it a time of day.
    """

    code: str
    units: frozenset[str]
    teens: frozenset[str]
    tens: frozenset[str]
    decas: frozenset[str] = frozenset()
    hundreds: frozenset[str] = frozenset()
    alone: frozenset[str] = frozenset()
    zeros: frozenset[str] = frozenset()
    leads: frozenset[str] = frozenset()
    ands: frozenset[str] = frozenset()
    articles: frozenset[str] = frozenset()
    spelled: Mapping[str, str] = field(default_factory=dict)
    beside: frozenset[str] = frozenset()
    sounds: Mapping[str, str] = field(default_factory=dict)
    heard: frozenset[str] = frozenset()
    parted: Mapping[str, str] = field(default_factory=dict)
    glue: tuple[str, ...] = ()
    hours: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Language:
    """A language, as data.

    Attributes:
        phrases: The words around numbers by what they do, with commas between them. They are
            written as they may be typed; case, accents and spacing do not matter.
        joins: The words that join two numbers when they stand between them and nothing else does.
        numerals: Its number words.
        strangers: The words that make a number one of a telephone, an address, a day or an age,
            by which of them; in the keys of tokens, with commas between phrases.
        negations: The words that, with a name of a number and one of `seen`, say it is missing.
        seen: The words for what a number does that is not missing.
        gone: The words that say by themselves that a number is missing.
        contrasts: The words before what speaks against what was said.
        misspelt: The labels, of one word, whose misspellings are looked for.
        unlike: The words of the language that are none of those, though one slip away.
        doubts: The words that deny, doubt or choose, or speak of another time, anywhere.
        seconds: The units of a short time.
        within: The words between beats that were counted and how long that took.
        own: The words for whoever writes.
        typed: The words for having typed a number.
        apart: The words after which a number is none of what a label before them names.
        instead: The phrases after which comes a number that is not meant, as in "123 not 213".
    """

    phrases: Mapping[Role, str]
    joins: Mapping[Join, str] = field(default_factory=dict)
    strangers: Mapping[str, str] = field(default_factory=dict)
    negations: frozenset[str] = frozenset()
    seen: frozenset[str] = frozenset()
    gone: frozenset[str] = frozenset()
    instead: str = ""
    contrasts: frozenset[str] = frozenset()
    misspelt: frozenset[str] = frozenset()
    unlike: frozenset[str] = frozenset()
    doubts: frozenset[str] = frozenset()
    seconds: frozenset[str] = frozenset()
    within: frozenset[str] = frozenset()
    own: frozenset[str] = frozenset()
    typed: frozenset[str] = frozenset()
    apart: frozenset[str] = frozenset()
    numerals: Numerals | None = None


def words(listed: str) -> frozenset[str]:
    """Return words that are written with spaces between them."""
    return frozenset(listed.split())
