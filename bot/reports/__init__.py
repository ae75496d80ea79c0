"""Results in the forms that people take away: summary, details, chart, PDF, CSV and FHIR.

The seam is `make(form, record, locale, imprint)`, `summarise` and `detail` for the words alone,
`comparison_file` and `trend_file` for several tests, and `person_table` and `people_table` for
many at once. Facts in, bytes out: the same arguments give the same bytes, on any thread.
"""

from bot.reports.file import (
    File,
    comparison_file,
    detail,
    known_as,
    make,
    people_table,
    person_table,
    summarise,
    trend_file,
)
from bot.reports.imprint import Imprint

__all__ = [
    "File",
    "Imprint",
    "comparison_file",
    "detail",
    "known_as",
    "make",
    "people_table",
    "person_table",
    "summarise",
    "trend_file",
]
