"""What holds of everything that leaves, whatever came in."""

import csv
import io
import json
import unicodedata
from typing import Final
from xml.etree import ElementTree as ET

from bot.runtime.ports import Bubble

_LONGEST_TEXT: Final = 4096
_LONGEST_CAPTION: Final = 1024
_LONGEST_TOKEN: Final = 64
"""Characters of a message and of a caption, and bytes of a token, as the messenger states them."""

_TURNS: Final = frozenset("\u202a\u202b\u202d\u202e\u2066\u2067\u2068")
_ENDS: Final = frozenset("\u202c\u2069")
_PLAIN: Final = frozenset("\n\t")

_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_NARRATIVE: Final = frozenset(
    {
        "div", "p", "br", "b", "i", "ul", "ol", "li", "span", "strong", "em", "h1", "h2", "h3",
        "table", "thead", "tbody", "tr", "th", "td", "caption",
    }
)  # fmt: skip
"""What a narrative may be made of here; FHIR R4 allows more (Narrative, txt-1)."""


def hold_bubble(bubble: Bubble) -> None:
    """Hold a message to what the messenger takes, and to what cannot deceive.

    Raises:
        AssertionError: It breaks a law.
    """
    longest = _LONGEST_TEXT if bubble.attachment is None else _LONGEST_CAPTION
    assert len(bubble.text.encode("utf-16-le")) // 2 <= longest, "a message is too long"
    assert bubble.text.strip() or bubble.attachment, "a message says nothing"
    hold_text(bubble.text)
    for row in bubble.rows:
        for label, token in row:
            hold_text(label)
            assert label.strip(), "a button says nothing"
            assert token.startswith("https://") or 1 <= len(token.encode()) <= _LONGEST_TOKEN
    if bubble.attachment is not None:
        hold_file(bubble.attachment.name, bubble.attachment.content)


def hold_text(text: str) -> None:
    """Hold words to being words: no half characters, no controls, no turn that is left open.

    Raises:
        AssertionError: They are not.
    """
    text.encode()  # a half of a character has no UTF-8, and could not be sent
    odd = {c for c in text if unicodedata.category(c) == "Cc"} - _PLAIN
    assert not odd, f"a control character is said: {odd!r}"
    for line in text.split("\n"):
        turns = sum(c in _TURNS for c in line)
        ends = sum(c in _ENDS for c in line)
        assert turns <= ends, "a line turns the direction of what follows"


def hold_file(name: str, content: bytes) -> None:
    """Hold a file to its kind.

    Raises:
        AssertionError: It breaks a law.
    """
    if name.endswith(".csv"):
        hold_table(content)
    elif name.endswith(".json"):
        whole = json.loads(content)
        hold_narratives(whole)
    elif name.endswith(".pdf"):
        assert content.startswith(b"%PDF-")
        for word in (b"/JavaScript", b"/JS ", b"/Launch", b"/EmbeddedFile", b"/SubmitForm"):
            assert word not in content, "the PDF holds what runs"
    elif name.endswith(".png"):
        assert content.startswith(b"\x89PNG\r\n\x1a\n")
    elif name.endswith(".ics"):
        lines = content.decode().split("\r\n")
        assert lines.count("BEGIN:VEVENT") == 1
        assert "\r" not in "".join(lines)
        assert "\n" not in "".join(lines)
    else:
        raise AssertionError(f"a file of no known kind: {name}")


def hold_table(content: bytes) -> None:
    """Hold a table to cells that never run, and to rows of one length.

    Raises:
        AssertionError: It breaks a law.
    """
    head, *found = csv.reader(io.StringIO(content.decode(), newline=""))
    for row in found:
        assert len(row) == len(head), "words break a row"
        for column, cell in zip(head, row, strict=True):
            if column.endswith(("_mmHg", "_per_min")):
                assert not cell or float(cell) is not None
            else:
                assert not cell.startswith(_FORMULA), f"a cell runs: {column}"


def hold_narratives(value: object) -> None:
    """Hold every narrative of a document to well-formed, harmless XHTML.

    Raises:
        AssertionError: One is not.
    """
    if isinstance(value, dict):
        if "div" in value and "status" in value:
            root = ET.fromstring(value["div"])
            for element in root.iter():
                tag = element.tag.rpartition("}")[2]
                assert tag in _NARRATIVE, f"a narrative holds <{tag}>"
                assert set(element.attrib) <= {"lang"}, "or an attribute"
        for inner in value.values():
            hold_narratives(inner)
    elif isinstance(value, list):
        for inner in value:
            hold_narratives(inner)
