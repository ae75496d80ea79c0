"""How somebody is named: by a verb in any language and their reference, or by that alone."""

import re
from typing import Final

END: Final = ".,;:!?"
"""What phones put behind a word by themselves; no reference ends in it."""


def naming(*verbs: str) -> re.Pattern[str]:
    """Return what finds the reference behind one of some verbs, as its only group.

    A slash before the verb and signs behind the reference are no part of it: "/clear HS-0042."
    """
    return re.compile(rf"\s*/?(?:{'|'.join(verbs)})[\s:]+(\S{{1,64}}?)[{END}]*\s*", re.IGNORECASE)


_ALONE: Final = re.compile(r"(?=.*\d)[\w-]{1,64}")
"""A word with a digit in it: what a reference has, and few words have."""


def bare(reference: str) -> str:
    """Return a reference without what a phone puts around it."""
    return reference.strip().rstrip(END)


def alone(text: str) -> str | None:
    """Return the reference that a text may be, if it can be one and is nothing else."""
    word = bare(text)
    return word if _ALONE.fullmatch(word) else None
