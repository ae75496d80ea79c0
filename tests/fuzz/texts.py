"""Texts that want to be something else, and texts that are nothing anybody thought of."""

import unicodedata
from typing import Final

from tests.fuzz.draw import Draw

LONGEST: Final = 4096
"""Characters of one message, as the messenger states it."""

CANARY: Final = "zqcanary"
"""Stands in texts; nothing of it may be in a log."""

MARKUP: Final = (
    "<b>bold</b>", "<script>alert(1)</script>", "&lt;b&gt;", "&#x202e;", "</div><img src=x>",
    "*bold* _it_ `code`", "[a](tg://user?id=1)", "#set page(fill: red)", "$ x^2 $", "@preview/a:1",
    "= Heading", '#eval("1")', "\\u{41}", "=1+1", "+cmd|' /C calc'!A0", "@SUM(A1)", "\t=1", "-2+3",
    "%s %d {0} {name} %(a)s", "../../etc/passwd", "'; DROP TABLE outbox; --", "\x00", "]]>", "<!--",
    "${jndi:x}", "\r\nX-Header: 1", '"quoted","cells"', "BEGIN:VEVENT", "\nSUMMARY:x",
)  # fmt: skip

_ODD: Final = (
    "\u202e\u202d\u202a\u202b\u202c\u2066\u2067\u2068\u2069\u200e\u200f\u061c"  # direction
    "\u200b\u200c\u200d\u2060\ufeff\u00ad\u034f\u180e"  # nothing to be seen
    "\u0301\u0308\u0345\u0489\u20dd\ufe0f"  # hang on what is before
    "\ud800\udfff\udc00"  # halves of characters
    "\x00\x07\x08\x0b\x1b\x7f\x85\u2028\u2029\ufffe\uffff"
    "ﷺ𒐫İıßſKÅﬁ①½٣५৩߂𝟙Ⅷ"
)  # fmt: skip

_JOINS: Final = (" ", ", ", "; ", ". ", "\n", "/", " no ", " not ", " instead of ", " and ", "5")

_WORDS: Final = (
    "120/76 70", "systolic", "pulse", "over", "ninety", "one twenty four", "sistólica", "ciento",
    "help", "can't breathe", "faint", "ayuda", "me desmayo", "chest pain", "not", "no", "yes",
    "tomorrow at 9", "mañana a las nueve", "next friday", "31/02", "25:61", "Madrid", "UTC+14",
    "stop", "alto", "fix", "delete everything", "companion", "lying", "ready", "standing", "dizzy",
    "paper", "results", "bad day", "6", "-", "999999999999999999999", "1e308", "٣٤", "/start", ",",
    "...", "?", "34", "none", "wrist", "all", "language", "español", "book", "move", "cancel",
    "team", "send", "where", "results 1", "file", "pause", "resume", "time zone", "my data",
)  # fmt: skip


def any_text(draw: Draw, longest: int = LONGEST) -> str:
    """Return any text of at most so many characters; now and then with the canary in it."""
    pieces = [_piece(draw) for _ in range(1 + draw.below(12))]
    if draw.often(25):
        pieces.insert(0, CANARY)
    text = draw.pick(("", " ", " ", " ", "\n")).join(pieces)
    if draw.often(10):
        text = unicodedata.normalize(draw.pick(("NFC", "NFD", "NFKC", "NFKD")), text)
    if draw.often(15):  # a little, over and over: what takes too long shows here
        unit = "".join(draw.pick((*_WORDS, *_JOINS)) + draw.pick(_JOINS) for _ in range(4))
        text = draw.pick((unit, unit[: 1 + draw.below(8)]))
    if draw.often(20):
        text = (text or "a") * (1 + longest // max(1, len(text)))
    return text[:longest]


def _piece(draw: Draw) -> str:
    kind = draw.below(10)
    if kind < 4:
        return draw.pick(_WORDS)
    if kind < 6:
        return draw.pick(MARKUP)
    if kind < 8:
        return "".join(draw.pick(_ODD) for _ in range(1 + draw.below(6)))
    if kind == 8:
        return chr(draw.below(0x110000)) * (1 + draw.below(3))
    return draw.pick(_ODD + "a1 ") * (1 + draw.below(400))
