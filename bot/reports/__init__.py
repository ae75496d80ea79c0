"""Results in the forms that people take away: summary, chart, PDF, CSV and FHIR.

The seam is `make(form, record, locale)`, `summarise(record, locale)` for the words alone, and
`person_table` and `people_table` for many tests at once.
Facts in, bytes out: the same record gives the same bytes, on any thread.
"""

from bot.reports.file import File, known_as, make, people_table, person_table, summarise

__all__ = ["File", "known_as", "make", "people_table", "person_table", "summarise"]
