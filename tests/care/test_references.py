"""References that tell nobody who it is are taken; what may tell somebody is refused, and why."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.care.references import LONGEST, Fault, fault_of, numbered

REFUSED = {
    Fault.EMPTY: ("", "   "),
    Fault.EMAIL: ("ana@example.org", "a@b1.org", "ana＠example1"),
    Fault.PHONE: (
        "+44 20 7946 0018",
        "02079460018",
        "0049151234567",
        "555-01-4212",
        "(555) 010 4212",
        "555-0142",
    ),
    Fault.BIRTHDAY: (
        "1970-05-01",
        "01.05.1970",
        "HS-19700501",
        "01051970",
        "5/1/70",
        "HS_2001_12_31",
    ),
    Fault.NAME: (
        "Lopez",
        "ana-lopez",
        "Ana Lopez",
        "Ana7",
        "maria42",
        "MARIA-7",
        "José1",
        "łucja-12",
    ),
    Fault.SIGNS: ("HS 42", "HS/42", "=HS42", "-42", "_42", "HS-42é", "Ñ1", "HS-42;", "٤٢"),
    Fault.LONG: ("1" + "a1" * LONGEST,),
}
"""By what it is refused for. The texts are invented."""


@pytest.mark.parametrize(
    ("reference", "fault"), [(text, fault) for fault, texts in REFUSED.items() for text in texts]
)
def test_what_may_tell_who_somebody_is_is_refused(reference: str, fault: Fault) -> None:
    """Names, addresses, numbers to call and days of birth are known for what they look like."""
    assert fault_of(reference) == fault


@pytest.mark.parametrize(
    "reference",
    ["HS-0042", "42", "p_7", "a1", "2026-0042", "WARD-12", "hs0042", "0042", "20240042"],
)
def test_opaque_references_are_taken(reference: str) -> None:
    """Counters, with a year or the short name of a clinic or not, say nothing of anybody."""
    assert fault_of(reference) is None


@given(st.integers(min_value=0))
def test_references_that_are_made_are_good(number: int) -> None:
    """What is made by chance is never refused by its own rule."""
    assert fault_of(numbered(number)) is None
