"""Signs and units that no language owns."""

from collections.abc import Mapping
from typing import Final

from bot.readings.language import Join, Language, Role

SIGNS: Final = Language(
    phrases={
        Role.HEART_RATE: "p",
        Role.MERCURY: "mmhg, mm hg, mm[hg], mm.hg, mm/hg, torr",
        Role.BEATS: "x'",
        Role.PERCENT: "%",
        Role.AMOUNT: "°, °c, °f, oc",
    },
    joins={Join.PAIR: "x"},
)

MARKS: Final[Mapping[str, Role]] = {
    "/?": Role.OVER_NOTHING,
    "?/": Role.UNDER_NOTHING,
    **dict.fromkeys(":=", Role.POINTER),
    **dict.fromkeys(",;|&-@", Role.DIVIDER),
    **dict.fromkeys("+#<>~≈±≤≥$€£↑↓⬆⬇▲▼Δδ∆", Role.SIGN),
}

JOIN_MARKS: Final[Mapping[str, Join]] = {
    **dict.fromkeys("/÷×", Join.PAIR),
    **dict.fromkeys("-·_", Join.LINK),
    ".": Join.DOT,
    ",": Join.COMMA,
    ":": Join.COLON,
    **dict.fromkeys(("~", "→", "⇒", "➡"), Join.RANGE),
}
"""Marks that join two numbers."""
