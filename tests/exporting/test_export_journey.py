"""From what people typed to what somebody else's programs read out of the zip."""

import hashlib
import io
import json
from pathlib import Path

import pandas as pd
import pytest

from tests.care.clinic import Clinic
from tests.exporting.looking import exported, page_of
from tests.reports.fhir.judges import Judge, complaints
from tests.reports.fhir.looking import of

pytestmark = pytest.mark.usefixtures("operated")


def test_what_two_people_sent_is_read_again_by_pandas_and_by_judges(
    clinic: Clinic, tmp_path: Path
) -> None:
    """The table holds the typed numbers, its changes can be recomputed, every document is sound.

    The readings are those that the two typed; the changes are worked out by pandas.
    """
    for name, last in (("ada", "98/62 90"), ("bea", "118/76 110")):
        person = clinic.measured(name, last, reference=f"HS-{name}")
        person.taps("yes")
    clinic.measured("cleo", reference="HS-cleo").taps("no")
    files = exported("--all", out=tmp_path / "all.zip")

    table = pd.read_csv(io.BytesIO(files["tests.csv"]))
    assert list(table["person"].unique()) == ["HS-ada", "HS-bea"]
    taken = table[table["status"] == "taken"].set_index("person")
    assert list(taken.loc["HS-ada", "systolic_mmHg"]) == [120, 118, 116, 98]
    assert list(taken.loc["HS-bea", "heart_rate_per_min"]) == [70, 74, 78, 110]
    supine = taken[taken["position"] == "supine"]
    later = taken[taken["position"] != "supine"]
    for column in ("systolic_mmHg", "diastolic_mmHg", "heart_rate_per_min"):
        stem, unit = column.split("_m", 1) if "mm" in column else column.split("_per", 1)
        change = f"{stem}_change_m{unit}" if "mm" in column else f"{stem}_change_per{unit}"
        assert list(later[change]) == list(later[column] - supine[column])
    times = pd.to_datetime(taken["taken_at_utc"])
    assert str(times.dtype.tz) == "UTC"
    assert list(table["medicines"].unique()) == ["none"]  # not taken for an empty cell
    assert table["systolic_mmHg"].dtype.kind in "if"

    documents = [name for name in files if name.endswith(".fhir.json")]
    assert [name.split("/")[1] for name in documents] == ["HS-ada", "HS-bea"]
    for name in documents:
        document = json.loads(files[name])
        (patient,) = of(document, "Patient")
        assert patient["identifier"][0]["value"] == name.split("/")[1]
        assert page_of(document) == files[name.replace(".fhir.json", ".pdf")]
    assert [complaints(judge, json.loads(files[documents[0]])) for judge in Judge] == [[]] * 4

    manifest = json.loads(files["manifest.json"])
    assert manifest["counts"] == {"people": 2, "tests": 2, "files": 6}
    assert {f["name"]: f["sha256"] for f in manifest["files"]} == {
        name: hashlib.sha256(content).hexdigest()
        for name, content in files.items()
        if name != "manifest.json"
    }
    words = files["README.txt"].decode()
    assert [column for column in table.columns if f"\n{column}\n" not in words] == []
    assert max(map(len, words.splitlines())) <= 78
