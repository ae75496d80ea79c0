"""References that say nothing of a person, and what a text looks like that may say something.

Nobody can know a name from a word, so this errs to the side of asking for another reference.
"""

import re
from datetime import date
from enum import StrEnum
from typing import Final

from bot.care.invitation import Invitation

LONGEST: Final = 32
"""Characters of a reference, so that it fits a button, a file's name and a line (design choice)."""


class Fault(StrEnum):
    """Why a text cannot be a reference."""

    EMPTY = "empty"
    LONG = "long"
    EMAIL = "email"
    PHONE = "phone"
    BIRTHDAY = "birthday"
    NAME = "name"
    SIGNS = "signs"


_ALLOWED: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*")
_PHONE: Final = re.compile(r"(?:\+|00)?[(0-9][0-9 ()./_-]*")
_LOCAL: Final = re.compile(r"[0-9]{3}[-. ][0-9]{4}")
"""A number as it is said within a town, 555-0142 (common practice in North America, no source)."""

_PARTED: Final = re.compile(
    r"(?<![0-9])([0-9]{1,4})[-_./ ]([0-9]{1,2})[-_./ ]([0-9]{1,4})(?![0-9])"
)
_WHOLE: Final = re.compile(r"(?<![0-9])[0-9]{8}(?![0-9])")
_WORD: Final = re.compile(r"[^\W\d_]{5,}|[A-Z][a-z]{2,}")
"""A run of five letters or more, or one written like a name; "HS", "WARD" and "pat" are none."""

_LONG_NUMBER: Final = 9
_SHORT_NUMBER: Final = 7
"""Digits of a telephone number: nine and more in any form, seven and more in groups (common
practice, no source)."""


def fault_of(reference: str) -> Fault | None:
    """Return why a text cannot be a reference; `None` where nothing speaks against it."""
    text = reference.strip()
    if not text:
        return Fault.EMPTY
    if "@" in text or "＠" in text:
        return Fault.EMAIL
    if _has_day(text):
        return Fault.BIRTHDAY
    if _is_phone(text):
        return Fault.PHONE
    if not any(ch.isdigit() for ch in text) or _WORD.search(text):
        return Fault.NAME
    if _ALLOWED.fullmatch(text) is None:
        return Fault.SIGNS
    return Fault.LONG if len(text) > LONGEST else None


def same(reference: str, invitations: tuple[Invitation, ...]) -> Invitation | None:
    """Return the invitation of a reference, however it is written: HS-7 and hs-7 are one."""
    wanted = reference.casefold()
    return next((i for i in invitations if i.reference.casefold() == wanted), None)


def numbered(number: int) -> str:
    """Return a reference made of a number that chance gave."""
    return f"W-{number % 1_000_000:06}"


def _is_phone(text: str) -> bool:
    if _LOCAL.fullmatch(text):
        return True
    if _PHONE.fullmatch(text) is None:
        return False
    groups = re.findall(r"[0-9]+", text)
    digits = sum(map(len, groups))
    marked = text.startswith(("+", "00")) or len(groups) > 2 or "(" in text
    return digits >= _LONG_NUMBER or (marked and digits >= _SHORT_NUMBER)


def _has_day(text: str) -> bool:
    parted = ((m[1], m[2], m[3]) for m in _PARTED.finditer(text))
    whole = (
        parts
        for m in _WHOLE.finditer(text)
        for parts in (
            (m[0][:4], m[0][4:6], m[0][6:]),
            (m[0][:2], m[0][2:4], m[0][4:]),
        )
    )
    return any(_is_day(*map(int, parts)) for parts in (*parted, *whole))


def _is_day(first: int, second: int, third: int) -> bool:
    """Whether three numbers can be a day: the year first or last, day and month either way."""
    for year, one, other in ((first, second, third), (third, first, second)):
        full = year if year >= 100 else 1900 + year
        if 1900 <= full < 2100 and (_exists(full, one, other) or _exists(full, other, one)):
            return True
    return False


def _exists(year: int, month: int, day: int) -> bool:
    try:
        date(year, month, day)
    except ValueError:
        return False
    return True
