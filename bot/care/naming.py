"""How a command names somebody: a verb in any language, then their reference."""

import re
from typing import Final

END: Final = ".,;:!?"
"""What phones put behind a word by themselves; no reference ends in it."""


def naming(*verbs: str) -> re.Pattern[str]:
    """Return what finds the reference behind one of some verbs, as its only group.

    A slash before the verb and signs behind the reference are no part of it: "/clear HS-0042."
    """
    return re.compile(rf"\s*/?(?:{'|'.join(verbs)})[\s:]+(\S{{1,64}}?)[{END}]*\s*", re.IGNORECASE)
