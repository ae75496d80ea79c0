"""Results in the forms that people take away: summary, chart, PDF, CSV and FHIR.

The seam is `make(form, record, locale)`, and `summarise(record, locale)` for the words alone.
Facts in, bytes out: the same record gives the same bytes, on any thread.
"""

from bot.reports.file import File, known_as, make, summarise

__all__ = ["File", "known_as", "make", "summarise"]
