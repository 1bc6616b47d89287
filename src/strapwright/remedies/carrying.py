"""Put what was found for a refused part into its plan."""

from __future__ import annotations

from attrs import evolve

from strapwright.findings import Finding, Yes
from strapwright.planning.plan_values import Plan
from strapwright.planning.remedy_values import Remedies

# Findings whose words name what may help as long as nothing was tried.
_ADVISING = frozenset({"no-order", "order-cannot-be-made", "bend-jams", "nose-off-middle"})


def with_remedies(refused: Plan, remedies: Remedies | None) -> Plan:
    """Return a plan with what was found for it, in the place of advice that nobody tried.

    Parameters
    ----------
    refused
        The plan.
    remedies
        As found; ``None`` leaves the plan as it is.
    """
    if remedies is None:
        return refused
    findings = tuple(_tried(one) for one in refused.findings)
    return evolve(refused, findings=findings, remedies=remedies)


def _tried(finding: Finding) -> Finding:
    if finding.code not in _ADVISING:
        return finding
    return evolve(finding, facts={**finding.facts, "tried": Yes(value=True)})
