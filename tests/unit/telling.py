"""Findings as a person at a terminal reads them."""

from __future__ import annotations

from collections.abc import Iterable

from strapwright.findings import Finding
from strapwright.planning.plan_values import Plan
from strapwright.wording.reader import at_command, in_units
from strapwright.wording.telling import Told, tell_all


def told(made: Plan) -> tuple[Told, ...]:
    return tell_all(made.findings, at_command(made.job))


def told_of(findings: Iterable[Finding]) -> tuple[Told, ...]:
    return tell_all(findings, in_units("metric"))
