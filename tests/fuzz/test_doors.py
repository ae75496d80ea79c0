"""Every door takes anything, in small; and the laws see what breaks them.

The whole is `python -m tests.fuzz`.
"""

from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.runtime.ports import Bubble
from tests.fuzz.doors import DOORS, machine, update, words
from tests.fuzz.draw import ENOUGH
from tests.fuzz.laws import hold_bubble, hold_file, hold_narratives, hold_table, hold_text

FEW = settings(max_examples=5, deadline=None, suppress_health_check=list(HealthCheck))


@FEW
@given(content=st.binary(max_size=400))
def test_any_words_are_listened_to(content: bytes) -> None:
    """No text makes readings, distress, bookings or places fail."""
    words(content)


@FEW
@given(content=st.binary(max_size=400))
def test_any_update_is_taken(content: bytes) -> None:
    """No JSON makes the way from an update to the machine fail."""
    update(content)


@settings(FEW, max_examples=2)
@given(content=st.binary(max_size=400))
def test_anything_at_all_can_happen_in_a_chat(content: bytes) -> None:
    """Forged taps, codes and texts leave every law of what goes out as it is."""
    machine(content)


@pytest.mark.parametrize("name", ["webhook", "settings", "files", "invitations"])
def test_other_doors_take_anything(name: str) -> None:
    """Posted bodies, clinic's files, tables, and words in every file: a few of each."""
    for number in range(3):
        DOORS[name][0](Random(f"{name}/{number}").randbytes(ENOUGH))


@pytest.mark.parametrize(
    "bubble",
    [
        Bubble(text="a" * 4097),
        Bubble(text=" "),
        Bubble(text="half \ud800"),
        Bubble(text="turned \u202e"),
        Bubble(text="rings \x07"),
        Bubble(text="a", rows=((("b", "c" * 65),),)),
        Bubble(text="a", rows=((("", "c"),),)),
    ],
)
def test_laws_see_a_message_that_breaks_them(bubble: Bubble) -> None:
    """Too long, empty, half characters, turned direction, controls, and tokens too long."""
    with pytest.raises((AssertionError, UnicodeEncodeError)):
        hold_bubble(bubble)


def test_laws_see_a_file_that_breaks_them() -> None:
    """A cell that runs, a row that is broken, a narrative with a script, a PDF that acts."""
    for table in (b"words\r\n=1+1\r\n", b"a,b\r\n1\r\n", b"words\r\n\t=1\r\n"):
        with pytest.raises(AssertionError):
            hold_table(table)
    for div in ("<div><script/></div>", '<div onclick="a"/>'):
        with pytest.raises(AssertionError):
            hold_narratives({"text": {"status": "generated", "div": div}})
    with pytest.raises(AssertionError):
        hold_file("a.pdf", b"%PDF-1.7 /JavaScript")
    hold_text("in order\n\u2068so is this\u2069")
