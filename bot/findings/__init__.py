"""Readings into findings: what the numbers show against published lines. Pure arithmetic.

The seam is `bot.findings.find(record)`; see `result` for what it returns and
`lines` for every constant with its source.
"""

from bot.findings.lines import SOURCES, Known, Source
from bot.findings.result import Change, Finding, Findings, Line, Reason, State
from bot.findings.survey import find

__all__ = [
    "SOURCES",
    "Change",
    "Finding",
    "Findings",
    "Known",
    "Line",
    "Reason",
    "Source",
    "State",
    "find",
]
