"""An export for research names nobody, says nobody's words, and still tells the truth."""

import csv
import io
import json
import re
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from bot.engine.effects import Form, Keep
from bot.engine.events import Opened
from bot.engine.profile import TestNote
from bot.exporting import Disguise, Plan, Sent, entries
from bot.exporting.making import folders
from bot.protocol.record import Ending, TestRecord
from bot.store.codec import decode_record, encode_record
from tests.care.clinic import Clinic
from tests.exporting.looking import exported, page_of, texts
from tests.reports.fhir.cases import FULL, RECORDS

KEY = Disguise(b"k" * 32)

FULLEST = replace(
    FULL,
    symptoms=tuple(replace(s, words="a magpie in my legs") for s in FULL.symptoms),
    readings=tuple(
        replace(r, words=("heron 120/76",), sources=("heron-message",)) for r in FULL.readings
    ),
    replaced=tuple(replace(r, words=("dunnock",)) for r in FULL.readings[:1]),
    stop_words="lapwing",
)
"""A test in which the person typed something wherever they can, far west, on 2 March 2026."""

TYPED = ("magpie", "heron", "dunnock", "lapwing", "St_Johns", "St John")
KNOWN = ("HS-0042", "HS0042", "ada000000000", "ada00000")
DAYS = ("2026-03-02", "2026-03-03", "20260302", "Mar 2, 2026", "2 mar 2026", "Mar 3, 2026")
"""What has to be nowhere in what goes out."""


def keep(clinic: Clinic, name: str, reference: str, *records: TestRecord) -> None:
    """Let somebody have sent tests that were kept."""
    notes = tuple(
        TestNote(
            number=record.number,
            began_at=record.began_at,
            ending=record.ending or Ending.COMPLETED,
            measured=True,
            protocol=record.protocol,
            shared=True,
        )
        for record in records
    )
    person = clinic.patient(name, reference=reference, tests=notes)
    with clinic.store.unit() as unit:
        stored = unit.load(person.address)
        assert stored is not None
        unit.save(
            stored,
            stored.conversation,
            event=Opened(at=clinic.now),
            effects=[Keep(record=record) for record in records],
            wake_at=None,
        )


def readable(files: dict[str, bytes]) -> str:
    """Return all that anybody could read: names, bytes, and the pages, also those within others."""
    pages = [content for name, content in files.items() if name.endswith(".pdf")]
    pages += [page_of(json.loads(c)) for n, c in files.items() if n.endswith(".fhir.json")]
    words = [word for page in pages for word in texts(page)]
    raw = [content.decode("latin-1") for content in (*files.values(), *pages)]
    return "\n".join([*files, *raw, *words]).replace("\r\n", " ")


def test_nothing_of_the_original_is_in_any_file(
    clinic: Clinic, operated: None, tmp_path: Path
) -> None:
    """No reference, id, day or typed word is in any file; each is in the clinic's own export.

    The second half keeps the first from looking in the wrong place.
    """
    del operated
    keep(clinic, "ada", "HS-0042", FULLEST)
    own = readable(exported("--all", "--form", "fhir", out=tmp_path / "own.zip"))
    out = tmp_path / "research.zip"
    files = exported("--research", "--from", "2026-03-02", out=out)
    hidden = readable(files)
    assert [word for word in (*TYPED, *KNOWN, *DAYS) if word.casefold() in hidden.casefold()] == []
    assert [word for word in ("magpie", "lapwing", "HS-0042", DAYS[0]) if word not in own] == []
    assert json.loads(files["manifest.json"])["research"]["dates"].startswith("moved back by 1 to")
    assert [a.detail for a in clinic.log() if a.did == "exported"] == ["1", "1; research"]


def test_two_exports_with_one_key_link_and_with_another_do_not(
    clinic: Clinic, operated: None, tmp_path: Path
) -> None:
    """The same key names a person alike in two exports, and gives the same bytes."""
    del operated
    keep(clinic, "ada", "HS-0042", FULLEST)
    key, other = tmp_path / "study.key", tmp_path / "other.key"
    for path in (key, other):
        path.write_text(f"{path.name:x>44}\n")
        path.chmod(0o600)
    again = ("--all", "--research", "--form", "csv", "--key-file")
    first, second, third = (
        exported(*again, str(path), out=tmp_path / str(n))
        for n, path in enumerate((key, key, other))
    )
    assert first == second
    assert first["tests.csv"] != third["tests.csv"]
    assert b"study.key" not in b"".join(first.values())


@pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS)
def test_every_record_keeps_its_hours_and_intervals(record: TestRecord) -> None:
    """All instants move by the same whole days; readings, intervals and hours stay; words go."""
    sent = Sent(id="c1", name="HS-0042", records=(record,))
    (moved,) = KEY.of(sent).records
    by = record.began_at - moved.began_at
    assert by % timedelta(days=1) == timedelta(0)
    assert timedelta(days=1) <= by <= timedelta(days=364)
    assert [r.given_at + by for r in moved.readings] == [r.given_at for r in record.readings]
    assert [s.told_at + by for s in moved.symptoms] == [s.told_at for s in record.symptoms]
    assert [(r.values, r.slot) for r in moved.readings] == [
        (r.values, r.slot) for r in record.readings
    ]
    assert (moved.protocol, moved.ending, moved.day) == (
        record.protocol,
        record.ending,
        record.day,
    )
    assert decode_record(encode_record(moved)) == moved
    assert [r.words for r in (*moved.readings, *moved.replaced) if r.words] == []
    assert [r.words for r in moved.repeats if r.words] == []
    assert [s.words for s in moved.symptoms if s.words is not None] == []
    assert moved.circumstances is None or moved.circumstances.zone is None


def test_all_tests_of_a_person_move_by_the_same_days() -> None:
    """The time between two tests of a person is true; two people are moved by different days."""
    later = replace(FULLEST, number=2, began_at=FULLEST.began_at + timedelta(days=17))
    first, second = KEY.of(Sent(id="c1", name="HS-1", records=(FULLEST, later))).records
    assert second.began_at - first.began_at == timedelta(days=17)
    moves = {KEY.days(f"HS-{n}") for n in range(400)}
    assert (min(moves) >= 1, max(moves) <= 364, len(moves) > 200) == (True, True, True)


def test_people_stand_in_the_order_of_their_codes() -> None:
    """The order of references, which may be that of joining, is not kept."""
    people = [Sent(id=f"c{n}", name=f"HS-{n}", records=(FULLEST,)) for n in range(6)]
    made = {e.name: e.content for e in entries(people, Plan(forms=(Form.CSV,), disguise=KEY))}
    rows = csv.DictReader(io.StringIO(made["tests.csv"].decode(), newline=""))
    order = list(dict.fromkeys(row["person"] for row in rows))
    assert order == sorted(KEY.code(person.name) for person in people)
    assert all(re.fullmatch(r"R-[0-9a-f]{16}", code) for code in order)


def test_a_short_key_is_refused() -> None:
    """A key that could be tried out makes nothing."""
    with pytest.raises(ValueError, match="32 bytes"):
        Disguise(b"short")


def test_what_nobody_has_thought_of_is_not_let_through() -> None:
    """A part of a record of a new kind is refused, rather than sent out as it is."""
    strange = replace(FULLEST, day={"a": "magpie"})  # type: ignore[arg-type]
    with pytest.raises(TypeError, match="dict"):
        KEY.of(Sent(id="c1", name="HS-1", records=(strange,)))


def test_no_cell_is_run_as_a_formula() -> None:
    """What a spreadsheet would run begins with an apostrophe, whoever wrote it."""
    sent = Sent(id="c1", name="=1+1", records=(FULLEST,))
    made = {e.name: e.content for e in entries([sent], Plan(forms=(Form.CSV,)))}
    rows = csv.reader(io.StringIO(made["tests.csv"].decode(), newline=""))
    cells = [cell for row in rows for cell in row]
    assert "'=1+1" in cells
    dangerous = ("=", "+", "@", "\t", "\r")
    assert [cell for cell in cells if cell.startswith(dangerous)] == []


def test_folders_are_apart_and_stay_where_they_are() -> None:
    """Names that differ in case alone are told apart, and none leads out of the folder."""
    people = [Sent(id=n, name=n, records=()) for n in ("HS-1", "hs-1", "../../x", "", "HS-2")]
    found = folders(people)
    assert len({name.casefold() for name in found}) == len(people)
    assert [name for name in found if not re.fullmatch(r"people/[A-Za-z0-9_-]+", name)] == []
    assert found[-1] == "people/HS-2"
