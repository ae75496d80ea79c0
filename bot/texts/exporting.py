"""What is said with an export: in the chat, and in the README beside its files."""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, NP_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    # in the chat
    "care.export": NP_(
        "{reference}: the files of {count} test that was sent.",
        "{reference}: the files of {count} tests that were sent.",
    ),
    "care.export.more": NP_(
        "{count} earlier test is not among them. Whoever runs Wallside can export it.",
        "{count} earlier tests are not among them. Whoever runs Wallside can export them.",
    ),
    "care.export.nothing": N_("Nobody with that reference has sent a result."),
    "care.help.export": N_("For all the files of a person: export HS-0042"),
    # the README
    "export.title": N_("Home lie–sit–stand tests, exported by Wallside"),
    "export.what": N_(
        "This holds what people have sent to their care team and have not taken back. "
        "What they kept to themselves is not in it."
    ),
    "export.counts": N_("People: {people}. Tests: {tests}."),
    "export.caution": N_(
        "Readings at home are noisy. Nothing here is a diagnosis. A finding is for a clinician "
        "to judge."
    ),
    "export.files": N_("The files"),
    "export.file.csv": N_("tests.csv: one row for each reading of all tests of all people."),
    "export.file.pdf": N_("people/…/….pdf: one page for each test, to read or to print."),
    "export.file.fhir": N_(
        "people/…/….fhir.json: one FHIR R4 document for each test, for a records system. To send "
        "one twice does not make two tests."
    ),
    "export.file.manifest": N_(
        "manifest.json: what is here, how it was made, and the SHA-256 of each file."
    ),
    "export.research": N_("For research"),
    "export.research.references": N_(
        "References are replaced. Two exports that were made with the same key name a person in "
        "the same way. The key is not in here."
    ),
    "export.research.dates": N_(
        "All dates are moved back. Each person has their own number of whole days, the same in "
        "all of their tests, so the hour of the day and the time between tests are true. "
        "Days of the week and seasons are not."
    ),
    "export.research.words": N_(
        "What people typed is left out, and their time zone too. Hours are in UTC."
    ),
    "export.research.caution": N_(
        "Readings can still tell who somebody is to those who know them. Give this only to those "
        "who may have it."
    ),
    "export.opening": N_("To open the table"),
    "export.opening.spreadsheet": N_(
        "In a spreadsheet, choose import: commas part the columns, a point is the decimal sign, "
        "and the text is UTF-8. A cell that begins with ' would else be taken for a formula."
    ),
    "export.opening.rows": N_(
        "What is of the whole test stands in each of its rows. To count tests, count pairs of "
        "person and test, not rows."
    ),
    "export.columns": N_("The columns"),
    "export.columns.english": N_(
        "Column names, codes and what follows are English in every language, so that files can be "
        "put together."
    ),
}
