"""Runs the command, and looks into what it wrote."""

import io
import zipfile
from base64 import b64decode
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pypdfium2
from typer.testing import CliRunner, Result

from bot.cli import app


def export(*arguments: str, out: Path) -> Result:
    """Run `wallside export` and return how it ended; errors are said as the program says them."""
    return CliRunner().invoke(app, ["export", *arguments, "--out", str(out)])


def exported(*arguments: str, out: Path) -> dict[str, bytes]:
    """Run `wallside export`, which has to work, and return the files by their names."""
    done = export(*arguments, out=out)
    assert (done.exit_code, done.stderr) == (0, "")
    return unpacked(out.read_bytes())


def unpacked(content: bytes) -> dict[str, bytes]:
    """Return the files of a zip, in their order."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def page_of(document: Mapping[str, Any]) -> bytes:
    """Return the page within a FHIR document."""
    (report,) = (
        entry["resource"]
        for entry in document["entry"]
        if entry["resource"]["resourceType"] == "DiagnosticReport"
    )
    return b64decode(report["presentedForm"][0]["data"])


def texts(page: bytes) -> Iterator[str]:
    """Yield all that can be read of a page: its words, and what it says of itself."""
    document = pypdfium2.PdfDocument(page)
    yield from document.get_metadata_dict().values()
    for number in range(len(document)):
        yield document[number].get_textpage().get_text_bounded()
