"""Readings into findings: what the numbers show against published lines. Pure arithmetic.

The seam is `bot.findings.find(record)`; see `result` for what it returns and
`lines` for every constant with its source. Beside the findings stand `certainty`
(how sure a change is), `quality` (how well the test was done), `explanations` (what
could explain a finding), `comparison` (two tests), `trend` (three or more) and
`figures` (published figures to weigh a result by); none of them changes a finding.
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
