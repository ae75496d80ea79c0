"""What to do about a line of a table of people to be invited, for whoever runs the program."""

from typing import Final

from bot.care.invite_rows import MOST, Wrong

_REMEDIES: Final = {
    "encoding": "this is no text. Save the table as CSV, UTF-8.",
    "empty": "there is nobody in this table. See: wallside invite --template",
    "column": "a column is unknown. Use reference, language, protocol and note.",
    "twice-column": "a column stands here twice. Keep one.",
    "cells": "there are more cells than columns. Put quotes around a cell with a separator.",
    "quotes": "a quote is not closed. Close it, or take it out.",
    "cell": "a cell is far too long. Shorten it; or a quote is not closed: close it.",
    "large": f"this is far more than a table of {MOST} people. Part it, or name another file.",
    "twice": "this reference stands above already. Keep one of the lines.",
    "many": f"a table can have {MOST} people. Part it.",
    "invited": "this reference was invited before. Take the line out, or use resend.",
    "protocol": "the clinic does not offer this protocol. Use four-readings or six-readings.",
    "language": "the clinic does not offer this language. Use en or es.",
    "note": "the note is too long. Use 200 letters at most.",
    "long": "this reference is too long. Use 32 signs at most.",
    "email": "this is an email address. Use a reference that tells nobody who it is.",
    "phone": "this may be a phone number. Use a reference that tells nobody who it is.",
    "birthday": "this has a date in it. Use a reference that tells nobody who it is.",
    "name": "this may be a name. Use letters and digits like HS-0042, a digit among them, and "
    "no more than four letters in a row.",
    "signs": "this has signs that a reference cannot have. Use letters, digits, - and _.",
}


def remedy(wrong: Wrong) -> str:
    """Return a line's number, what is wrong there and what to do, without what stands there."""
    return f"{wrong.line}: {_REMEDIES[wrong.why.value]}"
