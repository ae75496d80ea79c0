"""The project's own errors. Any other exception is a bug.

WallsideError
├── SettingsError     what the person running it can put right; the message says how
├── DatabaseError     the database does not fit this program, or cannot be used
│   └── UnavailableError  it cannot be reached or written to just now; may be tried again later
├── ScriptError       a demo script cannot be read; names file and line
├── ExportError       an export cannot be made, or may not go out; says what to do
├── ConflictError     the conversation changed meanwhile; the unit of work may be tried again
└── SupersededError   another process leads by now; what only the leader does was not done
"""


class WallsideError(Exception):
    """Base of all errors that Wallside raises on purpose."""


class SettingsError(WallsideError):
    """A setting is missing or wrong; the message names the remedy."""


class DatabaseError(WallsideError):
    """The database cannot be used as it is; the message names the remedy."""


class UnavailableError(DatabaseError):
    """The database cannot be reached or written to just now: gone, locked, full."""


class ScriptError(WallsideError):
    """A demo script cannot be read; the message names file and line."""


class ExportError(WallsideError):
    """An export cannot be made, or may not go out; the message names the remedy."""


class ConflictError(WallsideError):
    """A conversation was changed by someone else since it was loaded."""


class SupersededError(WallsideError):
    """Another process has taken the lead since; nothing was changed."""
