"""The pace never goes past the platform's limits, and the urgent never wait for the others."""

from collections.abc import Sequence
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.engine.effects import Urgency
from bot.runtime.pace import CHAT, GROUP, LEFT, OVERALL, Allowance, Pace

STEPS = st.lists(
    st.tuples(st.sampled_from(Urgency), st.integers(0, 5), st.sampled_from([0.0, 0.01, 0.05, 0.4])),
    max_size=200,
)
"""Who wants to be sent something, how urgent it is, and how long after the one before."""


def most_within(times: Sequence[float], seconds: float) -> int:
    """Return how many instants fall into the fullest span of so many seconds."""
    return max((sum(a <= b < a + seconds for b in times) for a in times), default=0)


def at_most(allowance: Allowance, seconds: float) -> float:
    """Return how many messages an allowance lets through in so many seconds."""
    return allowance.burst + allowance.rate * seconds


@settings(max_examples=60)
@given(STEPS, st.booleans())
def test_no_span_holds_more_than_is_allowed(
    steps: list[tuple[Urgency, int, float]], group: bool
) -> None:
    """Whatever is asked for, overall and in each chat, at any time; words of safety aside."""
    now, pace = 0.0, Pace(now=0.0)
    sent: list[tuple[float, int]] = []
    for urgency, chat, gap in steps:
        now += gap
        least = pace.least(now, 0)
        if urgency is Urgency.SAFETY or least is None or urgency > least:
            continue
        if pace.chat_opens_in(str(chat), now, group=group) == 0:
            pace.take(str(chat), now, group=group)
            sent.append((now, chat))
    assert most_within([at for at, _ in sent], 1) <= at_most(OVERALL, 1)
    for chat in range(6):
        times = [at for at, whose in sent if whose == chat]
        assert most_within(times, 10) <= at_most(GROUP if group else CHAT, 10)


def test_the_limits_are_those_of_the_platform() -> None:
    """30 a second, one a second in a chat, 20 a minute in a group: the FAQ for bots."""
    assert 30 / 1.1 <= OVERALL.rate <= 30
    assert CHAT.rate == 1
    assert at_most(GROUP, 60) == 20


@given(st.floats(0, 60), st.integers(0, 100))
def test_urgent_words_never_wait_for_reminders(begin: float, more: int) -> None:
    """However many reminders were sent, a timed prompt and then words of safety may go at once."""
    now, pace = begin, Pace(now=begin)
    for number in range(50 + more):
        least = pace.least(now, 0)
        if least is not None and least >= Urgency.REMINDER:
            pace.take(str(number), now)
        else:
            now += pace.opens_in(least, now) or 0.0
    least = pace.least(now, 16)
    assert least is not None
    assert least >= Urgency.TIMED
    for number in range(int(OVERALL.burst)):
        assert pace.least(now, 32) is not None, "words of safety overdraw it"
        pace.take(f"s{number}", now)


def test_what_is_less_urgent_leaves_more() -> None:
    """Each urgency leaves at least one message's worth more than the one before it; edits most."""
    left = [LEFT[urgency] for urgency in Urgency]
    assert all(after - before >= 1 for before, after in pairwise(left))


def test_refusals_in_two_chats_are_meant_for_all() -> None:
    """After one 429 that chat rests, after two at once everybody does, but for words of safety."""
    pace = Pace(now=0.0)
    pace.refused("a", 5, 0.0)
    assert (pace.chat_opens_in("a", 1.0), pace.chat_opens_in("b", 1.0)) == (4.0, 0.0)
    assert pace.least(0.0, 0) is Urgency.BULK
    pace.refused("b", 7, 0.5)
    assert pace.least(7.4, 0) is Urgency.SAFETY
    assert pace.least(7.5, 0) is Urgency.BULK


def test_memory_does_not_grow_with_the_chats() -> None:
    """A chat that has all its allowance again is forgotten."""
    pace, now = Pace(now=0.0), 0.0
    for number in range(2_000):
        now += 0.04
        pace.take(str(number), now)
    assert pace.remembered() < 200
