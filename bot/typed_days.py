"""A day as it is typed on the command line."""

from datetime import datetime

import typer


def a_day(written: str) -> datetime:
    """Return a day, without a zone: that of the clinic comes later.

    Raises:
        typer.BadParameter: It is none.
    """
    try:
        return datetime.strptime(written, "%Y-%m-%d")  # noqa: DTZ007 - see above
    except ValueError:
        raise typer.BadParameter(f"{written!r} is no day; write a day like 2026-03-01") from None
