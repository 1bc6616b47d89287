"""What the search says, as a person needs it: the job's units, and what of it was assumed."""

from __future__ import annotations

import re
from collections.abc import Iterable

from attrs import evolve

from strapwright.findings import Finding, Name, Severity
from strapwright.ordering.order_values import Piece
from strapwright.planning.reader_figures import figures_for
from strapwright.shop.job import Job

# Not where the inches follow in brackets anyway.
_LENGTH = re.compile(r"(\d+(?:\.\d+)?) mm(?! \()")


def for_people(job: Job, findings: Iterable[Finding], pieces: Iterable[Piece]) -> list[Finding]:
    """Write findings of the search in the job's units; a refusal names what of it was assumed.

    Parameters
    ----------
    pieces
        What the order was held against.
    """
    assumed = list(dict.fromkeys(one.name for one in pieces if one.assumed))
    return [_assumptions(_units(job, one), assumed) for one in findings]


def _units(job: Job, finding: Finding) -> Finding:
    if job.units == "metric":
        return finding
    show = figures_for(job)
    return _with_text(
        finding, _LENGTH.sub(lambda found: show.length(float(found[1])), _text(finding))
    )


def _assumptions(finding: Finding, assumed: Iterable[str]) -> Finding:
    named = [name for name in assumed if f"the {name}" in _text(finding)]
    if finding.severity is not Severity.REFUSAL or not named:
        return finding
    said = " and the ".join(named)
    are = "is" if len(named) == 1 else "are"
    return _with_text(finding, f"{_text(finding)} The size of the {said} {are} assumed.")


def _text(finding: Finding) -> str:
    return finding.one(Name, "text").value


def _with_text(finding: Finding, text: str) -> Finding:
    return evolve(finding, facts={**finding.facts, "text": Name(text)})
