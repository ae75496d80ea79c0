"""Tables of people to be invited, as spreadsheets write them."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.care.invitation import Invitation, InvitationWanted, Unwanted
from bot.care.invite_rows import MOST, TEMPLATE, Problem, Table, read_rows
from bot.care.references import Fault
from bot.care.rules import CareRules

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
ADA = InvitationWanted(
    reference="HS-1", language="es", protocol="six-readings", note="walks, slowly"
)
BEN = InvitationWanted(reference="HS-2")


def read(content: str | bytes, *taken: Invitation) -> Table:
    """Read a table."""
    given_ = content.encode() if isinstance(content, str) else content
    return read_rows(given_, CareRules(), taken)


def wrong(content: str | bytes, *taken: Invitation) -> list[tuple[int, str]]:
    """Return the lines that are wrong, and why."""
    found = read(content, *taken)
    assert found.wanted == ()
    return [(w.line, w.why) for w in found.wrong]


COMMAS = 'reference,language,protocol,note\r\nHS-1,es,six-readings,"walks, slowly"\r\nHS-2,,,\r\n'
SEMICOLONS = 'Nota;Referencia;Idioma;Prueba\n"walks, slowly";HS-1;Español;seis\n;HS-2;;\n;;;\n'


@pytest.mark.parametrize(
    "content",
    [
        COMMAS.encode(),
        COMMAS.encode("utf-8-sig"),
        COMMAS.encode("utf-16"),
        SEMICOLONS.encode(),
        SEMICOLONS.encode("cp1252"),
        f"sep=;\r\n{SEMICOLONS}".encode(),
        SEMICOLONS.replace(";", "\t").encode("utf-16"),
        b'reference,language,protocol,note,,\n"=""HS-1""",ES,6,"walks,\n slowly",,\n\'HS-2,,,,,\n',
    ],
)
def test_a_table_is_read_however_a_spreadsheet_wrote_it(content: bytes) -> None:
    """Separators, code pages, byte order marks, guarded cells and other columns' order all go."""
    assert read(content) == Table((ADA, BEN), ())


def test_the_template_is_a_good_table() -> None:
    """What is printed to begin with can be read."""
    assert len(read(TEMPLATE).wanted) == 2


def test_every_line_that_is_wrong_is_named_and_nobody_wanted() -> None:
    """Each line has its number as an editor counts, also after a cell of two lines."""
    table = (
        "reference,language,protocol,note\n"
        'HS-1,,,"two\nlines"\n'
        "\n"
        "Lopez,,,\n"
        "HS-3,fr,,\n"
        "HS-4,,nine,\n"
        "hs-1,,,\n"
        "HS-9,,,\n"
        f"HS-5,,,{'x' * 201}\n"
    )
    assert wrong(table, invited("hs-9")) == [
        (5, Fault.NAME),
        (6, Unwanted.LANGUAGE),
        (7, Unwanted.PROTOCOL),
        (8, Problem.TWICE),
        (9, Unwanted.INVITED),
        (10, Unwanted.NOTE),
    ]


@pytest.mark.parametrize(
    ("content", "line", "why"),
    [
        ("reference,dob\nHS-1,x\n", 1, Problem.COLUMN),
        ("note,nota\nHS-1,x\n", 1, Problem.TWICE_COLUMN),
        ("reference,note\nHS-1,walks, slowly\n", 2, Problem.CELLS),
        ('reference,note\nHS-1,x\nHS-2,"walks\n', 3, Problem.QUOTES),
        ("reference\n", 1, Problem.EMPTY),
        ("", 1, Problem.EMPTY),
        (b"PK\x03\x04\x00\x00", 1, Problem.ENCODING),
        ("reference\n" + "".join(f"HS-{n}\n" for n in range(MOST + 1)), MOST + 2, Problem.MANY),
    ],
)
def test_a_table_that_is_none_says_where(content: str | bytes, line: int, why: Problem) -> None:
    """What spoils the whole table is named with its line."""
    assert wrong(content) == [(line, why)]


def test_a_row_without_a_reference_gets_one() -> None:
    """Nothing is required of a row but that it says something."""
    assert read("language\nes\n") == Table((InvitationWanted(language="es"),), ())


@settings(max_examples=25)
@given(st.binary(max_size=60) | st.text(max_size=60).map(str.encode))
def test_no_file_is_too_strange(content: bytes) -> None:
    """Whatever the bytes are, there is somebody wanted or something wrong, and never both."""
    found = read(content)
    assert bool(found.wanted) != bool(found.wrong)
    assert all(w.line > 0 for w in found.wrong)


def invited(reference: str) -> Invitation:
    """Return an invitation that there is."""
    return Invitation(
        code="c",
        reference=reference,
        protocol=None,
        language=None,
        made_at=NOW,
        expires_at=NOW + timedelta(days=1),
    )
