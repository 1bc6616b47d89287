"""What a finding is headed by: how much it matters, in the words of each medium."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Severity
from strapwright.wording.reader import Medium

WORST_FIRST = (Severity.REFUSAL, Severity.WARNING, Severity.NOTE)

# A terminal heads a list, so it speaks of many.
_LABELS: Mapping[Medium, Mapping[Severity, str]] = {
    "command": {
        Severity.REFUSAL: "Cannot be made as stated",
        Severity.WARNING: "Warnings",
        Severity.NOTE: "Notes",
    },
    "paper": {
        Severity.REFUSAL: "Cannot be made as stated",
        Severity.WARNING: "Warning",
        Severity.NOTE: "Note",
    },
    "page": {
        Severity.REFUSAL: "Cannot be made",
        Severity.WARNING: "Watch out",
        Severity.NOTE: "Good to know",
    },
}


def severity_label(severity: Severity, medium: Medium) -> str:
    """Return the label that findings of a severity stand under.

    Parameters
    ----------
    severity
        Of the finding.
    medium
        A terminal heads all findings of one severity at once, page and paper each finding.
    """
    return _LABELS[medium][severity]
