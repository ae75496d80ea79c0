"""Everything that is measured, in one table: `python -m tests.bench`.

`--full` for all sizes, `--json` or `--markdown` for another form; `--check` for the few seconds
that compare the ratios with those recorded, `--record` to record them.
"""

import sys

from tests.bench import check, lateness, losses, updates, whole
from tests.bench.rows import show


def main() -> None:
    """Measure and print."""
    if "--check" in sys.argv:
        check.check()
        return
    if "--record" in sys.argv:
        check.record()
        return
    full = "--full" in sys.argv
    show(
        [
            *updates.rows(updates.FULL_SIZES if full else updates.SIZES),
            *(updates.growth() if full else updates.growth(500, 5000, rounds=3)),
            *losses.rows(),
            *lateness.rows(lateness.FULL_SIZES if full else lateness.SIZES),
            *whole.rows(),
        ]
    )


if __name__ == "__main__":
    main()
