"""A checked tooling in words and as plain data."""

from __future__ import annotations

import math
import textwrap
from typing import Any

from strapwright.errors import as_written
from strapwright.planning.checked_tooling import Checked
from strapwright.quantities import Units, show_pressure
from strapwright.report.limits_text import WIDTH
from strapwright.report.plan_json import finding_data
from strapwright.report.plan_text import section_text
from strapwright.strength.check_values import ESTIMATE, Check
from strapwright.strength.fixing.fix_values import Fix
from strapwright.strength.hand_figures import shown
from strapwright.strength.lasting.proof_load import proof_steps
from strapwright.strength.rating import rating_plate
from strapwright.wording.figures import figures_for
from strapwright.wording.fix_words import fix_order
from strapwright.wording.member_words import member_name
from strapwright.wording.reader import at_command
from strapwright.wording.telling import tell_all

FORMAT = 1


def checked_to_text(checked: Checked, *, every: bool = False) -> str:
    """Write a checked tooling in words.

    Parameters
    ----------
    checked
        As made by :func:`strapwright.service.check_tooling.check_tooling`.
    every
        Every check, not only the worst of each member.
    """
    job, found = checked.plan.job, checked.assessment
    units = job.units
    blocks = [
        [
            f"Tooling for {job.part.name}",
            f"{section_text(job.part.bar, figures_for(job))}, {job.part.material}",
            *filled(ESTIMATE, ""),
        ],
        _loads(checked, units),
        _checks(found.checks, units, every=every),
    ]
    if found.unchecked:
        points = [line for one in found.unchecked for line in filled(one.sentence, "- ")]
        blocks.append(["Not checked; please enter", *points])
    if checked.findings:
        told = tell_all(checked.findings, at_command(job))
        said = (f"{one.text} {one.remedy}" for one in told)
        blocks.append(["Findings", *(line for one in said for line in filled(one, "- "))])
    fixes = _fixes(checked, units)
    if fixes:
        blocks.append(["How to fix it", *fixes])
    blocks.append(
        ["Rating plate", *(f"  {line}" for line in rating_plate(checked.bench, found, units))]
    )
    steps = proof_steps(checked.bench, found, units)
    if steps:
        numbered = (filled(step, f"{number}. ") for number, step in enumerate(steps[:-1], start=1))
        blocks.append(["Proof load, behind a shield", *(line for one in numbered for line in one)])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _loads(checked: Checked, units: Units) -> list[str]:
    bench = checked.bench
    lines = ["Loads"]
    for name, load in bench.named_loads:
        outward = (
            f", each shoulder outwards {shown(load.outward, 'N', units)}" if load.outward else ""
        )
        offset = f", {shown(load.offset, 'mm', units)} off centre" if load.offset else ""
        near = "" if load.near == 0.5 else f", {100 * load.near:.0f} % of it on one shoulder"
        lines.append(f"  {name}: {shown(load.force, 'N', units)}{near}{outward}{offset}")
    return lines


def _checks(checks: tuple[Check, ...], units: Units, *, every: bool) -> list[str]:
    lines = ["Members, the weakest first"]
    said: set[str] = set()
    for check in checks:
        if every or check.member not in said:
            lines += filled(check.line(units), "- ")
        said.add(check.member)
    return lines


def _fixes(checked: Checked, units: Units) -> list[str]:
    found = checked.assessment
    lines = [
        line
        for fix in found.fixes
        if not fix.alternative
        for line in filled(_fix(fix, units), "- ")
    ]
    if lines:
        lines += filled(
            "With these changes every member that was checked holds."
            if found.fixed
            else (
                "Even with these changes some members are too weak; no size was found that fixes "
                "them."
            ),
            "- ",
        )
    for fix in found.fixes:
        if fix.alternative:
            lines += filled(_fix(fix, units), "- ")
    if found.relief_to_set is not None:
        lines += filled(
            f"Or set the relief valve to at most {show_pressure(found.relief_to_set, units)}, "
            "where every member that was checked holds.",
            "- ",
        )
    return lines


def _fix(fix: Fix, units: Units) -> str:
    text = fix_order(fix, units)
    if fix.alternative:
        text = f"Or {text[0].lower()}{text[1:]}"
    rest = ", and everything else that was checked holds" if fix.alternative else ""
    share = 100 * fix.ratio
    member = member_name(fix.member)
    return f"{text}; the {member} is then loaded to {share:.0f} % of what is allowed{rest}."


def filled(text: str, head: str) -> list[str]:
    """Wrap a text to the width of a page, its first line behind a head."""
    return textwrap.wrap(
        text, WIDTH, initial_indent=head, subsequent_indent=" " * len(head), break_on_hyphens=False
    )


def checked_to_data(checked: Checked) -> dict[str, Any]:
    """Return a checked tooling as plain data: mm, N, MPa; a ratio without limit is null.

    Parameters
    ----------
    checked
        As made by :func:`strapwright.service.check_tooling.check_tooling`.
    """
    found, bench = checked.assessment, checked.bench
    units = checked.plan.job.units
    return {
        "format": FORMAT,
        "part": {"name": checked.plan.job.part.name},
        "units": units,
        "loads": [
            {
                "case": name,
                "force_N": load.force,
                "outward_N": load.outward,
                "offset_mm": load.offset,
            }
            for name, load in bench.named_loads
        ],
        "checks": [check_data(check, units) for check in found.checks],
        "unchecked": [
            {
                "member": one.member,
                "check": one.what,
                "state": as_written(one.state),
                "where": one.where,
            }
            for one in found.unchecked
        ],
        "findings": [
            finding_data(one) for one in tell_all(checked.findings, at_command(checked.plan.job))
        ],
        "mends": [
            {
                "member": one.member,
                "text": fix_order(one, units),
                "ratio": _finite(one.ratio),
                "alternative": one.alternative,
            }
            for one in found.fixes
        ],
        "mended": found.fixed,
        "rating_N": found.rating,
        "relief_to_set_MPa": found.relief_to_set,
        "rating_plate": list(rating_plate(bench, found, units)),
        "proof_load": list(proof_steps(bench, found, units)),
        "estimate": ESTIMATE,
    }


def check_data(check: Check, units: Units) -> dict[str, Any]:
    """Return one check as plain data.

    Parameters
    ----------
    check
        Of a member.
    units
        Unit system of its line.
    """
    return {
        "member": check.member,
        "check": check.what,
        "case": check.load_case,
        "demand": _finite(check.demand),
        "capacity": _finite(check.capacity),
        "unit": check.unit,
        "ratio": _finite(check.ratio),
        "holds": check.holds,
        "formula": check.formula,
        "allowed": check.allowed,
        "factors": dict(check.factors),
        "inputs": {name: _finite(value) for name, value, _ in check.inputs},
        "source": check.source,
        "grade": check.grade,
        "where": check.where,
        "line": check.line(units),
    }


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None
