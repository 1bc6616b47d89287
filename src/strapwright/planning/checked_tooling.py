"""A plan with how every member of its tooling stands it."""

from __future__ import annotations

from attrs import frozen

from strapwright.findings import Finding, Severity
from strapwright.planning.plan_values import Plan
from strapwright.strength.check_values import Assessment, Bench


@frozen(kw_only=True)
class Checked:
    """A plan, the loads it puts on its tooling, and how every member stands them."""

    plan: Plan
    bench: Bench
    assessment: Assessment

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Of the tooling, and what the plan refuses, for then its loads are not the whole."""
        refused = (one for one in self.plan.findings if one.severity == Severity.REFUSAL)
        return (*self.assessment.findings, *refused)

    @property
    def refused(self) -> bool:
        """Whether anything is refused."""
        return any(one.severity == Severity.REFUSAL for one in self.findings)
