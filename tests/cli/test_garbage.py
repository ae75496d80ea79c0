"""What a start has made is left alone by the collector, once."""

import subprocess
import sys


def test_what_is_there_is_spared_once_and_later_litter_is_not() -> None:
    """What was there before is kept; litter that is made afterwards goes, however often asked."""
    look = (
        "import gc, weakref; from bot import garbage\n"
        "class Thing: pass\n"
        "def litter():\n"
        "    one = Thing(); one.itself = one; return weakref.ref(one)\n"
        "before = litter(); garbage.spare_what_is_there()\n"
        "after = litter(); garbage.spare_what_is_there()\n"
        "gc.collect(); print(before() is not None, after() is not None)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", look], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "True False"
