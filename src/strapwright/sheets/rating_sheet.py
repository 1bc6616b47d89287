"""The rating sheet: the plate to fix on a tooling, its members, and the proof load in steps."""

from __future__ import annotations

from typing import Any, Literal

from strapwright.planning.plan_values import Plan
from strapwright.scene.lettering import as_fractions
from strapwright.sheets.job_code import job_digest
from strapwright.shop.member_names import MemberName
from strapwright.strength.check_values import ESTIMATE, Assessment, Bench
from strapwright.strength.lasting.proof_load import proof_steps
from strapwright.strength.rating import rating_plate
from strapwright.wording.fix_words import fix_order
from strapwright.wording.member_words import member_name

FAR = 100.0  # a ratio that is no figure any more


def rating_sheet(
    made: Plan,
    bench: Bench,
    assessment: Assessment,
    *,
    paper: Literal["letter", "a4"] | None = None,
) -> bytes:
    """Lay out plate, members and proof load.

    Parameters
    ----------
    made
        Plan that loads the tooling; its job says name and unit system.
    bench, assessment
        What was checked, and how it stands.
    paper
        ``letter`` or ``a4``; ``None`` takes letter for inches and A4 for millimetres.

    Returns
    -------
    bytes
        PDF; the same value gives the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    # The layout engine takes long to load.
    from strapwright.sheets.typeset import compile_pdf  # noqa: PLC0415

    units = made.job.units
    chosen = paper or ("letter" if units == "inch" else "a4")
    worst: dict[MemberName, float] = {}
    for check in assessment.checks:
        worst.setdefault(check.member, check.ratio)
    data: dict[str, Any] = {
        "paper": {"letter": "us-letter", "a4": "a4"}[chosen],
        "name": made.job.part.name,
        "digest": job_digest(made.job),
        "estimate": ESTIMATE,
        "plate": [as_fractions(line) for line in rating_plate(bench, assessment, units)],
        "members": [
            [
                f"{100 * ratio:.0f} %" if ratio < FAR else "more than 100 times",
                member_name(member),
                "" if ratio <= 1.0 else "does not hold",
            ]
            for member, ratio in worst.items()
        ],
        "missing": [one.sentence for one in assessment.unchecked],
        "fixes": [as_fractions(fix_order(one, units)) for one in assessment.fixes],
        "proof": [as_fractions(one) for one in proof_steps(bench, assessment, units)[:-1]],
    }
    return compile_pdf("rating.typ", data, {})
