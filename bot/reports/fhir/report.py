"""The diagnostic report: preliminary, in pattern words, with the page for the care team."""

from base64 import b64encode
from collections.abc import Iterator, Sequence
from typing import Final

from bot.findings.result import Finding, State
from bot.reports import circumstances, wording
from bot.reports.fhir.case import Case, display, identifier, reference
from bot.reports.fhir.codes import Own, concept, own
from bot.reports.fhir.plain import Json
from bot.reports.formats import whole

TITLE: Final = "Home orthostatic vitals"
"""What the document and the report are called in every language, as a code's name is."""

_SEEN: Final = (State.MET, State.MET_ONCE)


def diagnostic_report(case: Case, results: Sequence[Json]) -> Json:
    """Return the report on some observations. It is preliminary until a clinician says more."""
    name = case.name("report")
    seen = [_coded(finding, case) for finding in case.findings.findings if finding.state in _SEEN]
    title = case.say("files.page.title", {"number": whole(case.record.number, case.locale)})
    return {
        "resourceType": "DiagnosticReport",
        "id": name,
        "language": case.locale,
        "identifier": [identifier(name)],
        "status": "preliminary",
        "code": kind(),
        "subject": reference(case.patient),
        "effectivePeriod": period(case),
        "issued": case.time(case.generated),
        "result": [reference(result["id"]) for result in results],
        "conclusion": "\n".join(conclusion(case)),
        **({"conclusionCode": seen} if seen else {}),
        "presentedForm": [
            {
                "contentType": "application/pdf",
                "language": case.locale,
                "data": b64encode(case.pdf).decode(),
                "size": len(case.pdf),
                "title": title,
            }
        ],
    }


def conclusion(case: Case) -> Iterator[str]:
    """Yield what the findings come to, a line each; what was never measured shares its line."""
    yield case.say("files.page.caution")
    yield from circumstances.typed_in(case.record, case.locale)
    weighty, others = wording.ranked(case.findings.findings)
    for finding in weighty:
        yield _line(case, wording.state(finding, case.locale), finding)
    groups: dict[str, list[Finding]] = {}
    for finding in others:
        groups.setdefault(wording.state(finding, case.locale), []).append(finding)
    for state, findings in groups.items():
        yield _line(case, state, *findings)


def kind() -> Json:
    """Return the code of the report and of the document."""
    return concept(own(Own.DOCUMENT, "home-orthostatic-vitals", TITLE))


def period(case: Case) -> Json:
    """Return from when to when the test lasted; without an end while it is under way."""
    record = case.record
    end = {} if record.ended_at is None else {"end": case.time(record.ended_at)}
    return {"start": case.time(record.began_at), **end}


def _line(case: Case, state: str, *findings: Finding) -> str:
    lines = "; ".join(wording.name(finding, case.locale) for finding in findings)
    return case.say("files.group", {"state": state, "lines": lines})


def _coded(finding: Finding, case: Case) -> Json:
    """Return a line that was reached; line and state are one code, so neither goes alone."""
    line, state = display(f"files.line.{finding.line}"), display(f"files.state.{finding.state}")
    return concept(
        own(Own.FINDING, f"{finding.line}.{finding.state}", f"{line}: {state}"),
        text=_line(case, wording.state(finding, case.locale), finding),
    )
