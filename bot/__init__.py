"""Wallside: a companion that stands by while someone does a home lie-sit-stand test.

Time zone rules come from the pinned tzdata package, so that they are the same on every machine.
"""

import zoneinfo

zoneinfo.reset_tzpath(())
