"""When Python looks for garbage: seldom, and never through what a start has made.

A look through everything takes 120 ms of a core in this program, and meanwhile no thread moves:
neither messages nor prompts. Nearly all of it is what was imported, which stays to the end.
"""

import gc
from typing import Final

SELDOM: Final = (50_000, 50, 100)
"""After how many new things the collector looks for garbage (design choice): looking again and
again while the heavy parts are imported takes a tenth of the start."""


def look_seldom() -> None:
    """Look for garbage seldom from now on."""
    gc.set_threshold(*SELDOM)


def spare_what_is_there() -> None:
    """Never again look through what is there by now; what comes from now on is looked through.

    Once only: a bot that is served again and again would each time leave its litter for good.
    """
    if not gc.get_freeze_count():
        gc.freeze()
