"""What a finding is headed by: how much it matters."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Severity

WORST_FIRST = (Severity.REFUSAL, Severity.WARNING, Severity.NOTE)

# The same words on pages, paper and at a terminal.
_LABELS: Mapping[Severity, str] = {
    Severity.REFUSAL: "Cannot be made as entered",
    Severity.WARNING: "Warning",
    Severity.NOTE: "Note",
}


def severity_label(severity: Severity) -> str:
    """Return the label that findings of a severity are under.

    Parameters
    ----------
    severity
        Of the finding.
    """
    return _LABELS[severity]
