"""What is looked after once a test was stopped for safety. It runs beside the stage."""

from dataclasses import dataclass, field
from datetime import datetime

from bot.engine.asides import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class LyingDown:
    """Somebody lies down after a test that was stopped; how they are is asked again and again.

    Attributes:
        test: The number of the test.
        since: When it ended.
        checks_put: How many times it was asked.
        asked_at: When it was asked last, if there has been no sign of life since.
        silences: How many times there was no answer.
    """

    test: int
    since: datetime
    checks_put: int = 0
    asked_at: datetime | None = None
    silences: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Remeasuring:
    """A very high pressure is measured again after a rest.

    Attributes:
        test: The number of the test.
        since: When it ended.
        asked_at: When the measurement was asked for; `None` before.
        draft: The parts of it given so far.
        warned_at: When the signs that go with it were asked about; `None` before.
        lapsed: Whether it is waited for no more; what is typed all the same still counts.
    """

    test: int
    since: datetime
    asked_at: datetime | None = None
    draft: Draft = field(default_factory=Draft)
    warned_at: datetime | None = None
    lapsed: bool = False


Recovery = LyingDown | Remeasuring
