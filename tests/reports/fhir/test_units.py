"""Units are read by a parser of UCUM's own grammar, which knows nothing of this project."""

import pytest
from ucumvert import PintUcumRegistry
from ucumvert.parser import InvalidUcumError

from tests.reports.fhir.test_codes import UNITS

SAME = {
    "/min": (60, "1/hour"),
    "mm[Hg]": (133.322387415, "pascal"),  # UCUM's table: 133.3220 kPa for a metre; from memory
    "min-1.mm[Hg]-1": (60 / 133.322387415, "1/(hour * pascal)"),
    "s": (1, "second"),
    "%": (0.01, ""),
}
"""Each unit in others, by the definition of the minute and of the millimetre of mercury."""


@pytest.fixture(scope="module")
def registry() -> PintUcumRegistry:
    """Return what reads units."""
    return PintUcumRegistry()


def test_every_unit_means_what_it_should(registry: PintUcumRegistry) -> None:
    """Each unit in use is UCUM, and is worth what its name says."""
    assert sorted(SAME) == UNITS
    for unit, (size, plain) in SAME.items():
        found = registry.from_ucum(unit).to(plain)
        assert found.magnitude == pytest.approx(size, rel=1e-4)


@pytest.mark.parametrize("unit", ["bpm", "mmHg", "beats/min", "sec", "mm[HG"])
def test_everyday_forms_are_refused(registry: PintUcumRegistry, unit: str) -> None:
    """The parser bites: forms that people write are no UCUM."""
    with pytest.raises(InvalidUcumError):
        registry.from_ucum(unit)
