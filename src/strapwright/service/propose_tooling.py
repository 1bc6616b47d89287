"""Propose a tooling for the parts in some job files, from the rack in another file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from strapwright.findings import Severity
from strapwright.making.crib_cutters import cutters_of
from strapwright.making.shop_lengths import size
from strapwright.proposing.candidate_line import Progress
from strapwright.proposing.candidate_sizes import stock_of
from strapwright.proposing.found_values import Proposals
from strapwright.proposing.proposal_values import Choice, Proposed
from strapwright.proposing.search_rack import propose
from strapwright.proposing.trade_offs import most_force, worst_ratio
from strapwright.quantities import Units
from strapwright.report.tooling_text import check_data, filled
from strapwright.service.check_tooling import load_rack
from strapwright.service.crib_files import load_crib
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import spent_of
from strapwright.strength.check_values import ESTIMATE
from strapwright.wording.bars_and_money.offer_words import nothing_words, offer_cost
from strapwright.wording.member_words import member_name
from strapwright.wording.proposal_words import (
    bolts_ready,
    given_up,
    held_words,
    lack_clause,
    lower_relief_words,
    not_in_crib,
    ran_out,
    reason_clause,
    shoulder_name,
)
from strapwright.wording.reader import in_units
from strapwright.wording.severity_words import severity_label
from strapwright.wording.telling import tell_all

FORMAT = 1


def propose_for(
    jobs: Sequence[Path],
    rack: Path,
    progress: Progress | None = None,
    *,
    crib: Path | None = None,
) -> tuple[Proposals, Units]:
    """Propose toolings.

    Parameters
    ----------
    jobs
        Of the job files.
    rack
        Of the rack.
    progress
        Called with a word, how far and of how many.
    crib
        Of the tool crib, which sets the hours and the kerf; a usual set where not named.

    Returns
    -------
    proposals, units
        What was found, and the unit system of the first job.

    Raises
    ------
    InputError
        If a file cannot be used, or what is needed is not stated.
    """
    shop = load_rack(rack)
    loaded = [load_job(path) for path in jobs]
    units = loaded[0].units
    if progress is not None:
        progress("bending", 0, len(stock_of(shop, ("shaft",))))
    if crib is None:
        return propose(loaded, shop, progress, spent=spent_of()), units
    owned = load_crib(crib)
    found = propose(
        loaded, shop, progress, cutters=cutters_of(owned), saws=owned.saws, spent=spent_of()
    )
    return found, units


def proposals_to_text(found: Proposals, units: Units) -> str:
    """Write proposals in words.

    Parameters
    ----------
    found
        From :func:`propose_for`.
    units
        Unit system to print in.
    """
    blocks = [
        [
            (
                f"{len(found.best)} of {found.tried} candidates proposed, the cheapest first; "
                f"{found.planned} plans made"
            ),
            *filled(ran_out(found, units), ""),
            *filled(ESTIMATE, ""),
        ]
    ]
    blocks += [_proposed(number, one, units) for number, one in enumerate(found.best, start=1)]
    missing = dict.fromkeys(
        missing.sentence for one in found.best for missing in one.assessment.unchecked
    )
    if missing:
        blocks.append(
            [
                "Not checked, because the press figures are missing",
                *(line for one in missing for line in filled(one, "- ")),
            ]
        )
    if found.nearest is not None:
        blocks.append(
            [
                f"{nothing_words(all_tried=found.untried is None)} Closest",
                *filled(f"{lack_clause(found.nearest.lack, units)}.", "- "),
            ]
        )
    if found.lower is not None:
        blocks.append(["At a lower relief", *filled(lower_relief_words(found.lower, units), "- ")])
    if found.fell_out:
        blocks.append(
            [
                "Why others were ruled out",
                *(
                    line
                    for one in found.fell_out
                    for line in filled(
                        f"{one.count}: {reason_clause(one.example)}; e.g. "
                        f"{lack_clause(one.example, units)}",
                        "- ",
                    )
                ),
            ]
        )
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _proposed(number: int, one: Proposed, units: Units) -> list[str]:
    nose, shoulders = one.tooling.nose, one.tooling.shoulders
    weakest = next(check for check in one.assessment.checks if check.grows > 0.0)
    choice = one.choice
    lines = [
        (
            f"{number}. Nose {choice.nose.name}, shoulders {shoulder_name(choice, units)}, opening "
            f"{size(shoulders.opening, units)}"
        ),
        *filled(held_words(choice, units), "   "),
        (
            f"   depth {size(shoulders.depth or 0.0, units)}, height "
            f"{size(shoulders.height or 0.0, units)}, reach "
            f"{size(nose.reach or 0.0, units)}, {size(nose.span or 0.0, units)} "
            f"{'long' if choice.held == 'web' else 'clear between the carriers'}"
        ),
        *filled(" ".join(offer_cost(one.cost, one.material, one.hours)), "   "),
    ]
    lines += filled(
        f"Weakest: {member_name(weakest.member)}, {weakest.what}, {weakest.load_case}, at "
        f"{100 * weakest.ratio:.0f} % of the limit",
        "   ",
    )
    for cut in one.cuts:
        wide = "" if cut.stock.kind == "shaft" else f" x {size(cut.width, units)}"
        lines += filled(
            f"cut {cut.use}: {size(cut.length, units)}{wide} from {cut.stock.name}", "   - "
        )
    lines += [
        line for bolts in one.bolts for line in filled(f"have ready: {bolts_ready(bolts)}", "   - ")
    ]
    lines += [
        line
        for way in one.ways
        for line in filled(f"not in your tool crib: {not_in_crib(way, units)}", "   - ")
    ]
    lines += [
        line
        for less in one.gives_up
        for line in filled(f"Drawback: {given_up(less, units)}", "   ")
    ]
    lines += [
        line
        for text in warned_of(one, units)
        for line in filled(f"{severity_label(Severity.WARNING)}: {text}", "   ")
    ]
    return lines


def warned_of(one: Proposed, units: Units) -> tuple[str, ...]:
    """Say what the check of a proposal warns of: a weld that wants preheat, a shaft that shatters.

    What could not be checked is listed apart.

    Parameters
    ----------
    one
        The proposal.
    units
        Unit system to print in.
    """
    told = tell_all(
        (
            finding
            for finding in one.assessment.findings
            if finding.severity is not Severity.NOTE and finding.code != "member-unchecked"
        ),
        in_units(units),
    )
    return tuple(dict.fromkeys(f"{each.text} {each.remedy}" for each in told))


def proposals_to_data(found: Proposals, units: Units) -> dict[str, Any]:
    """Return proposals as plain data: mm, N, MPa, money and hours.

    Parameters
    ----------
    found
        From :func:`propose_for`.
    units
        Unit system of the lines of calculation.
    """
    near = found.nearest
    return {
        "format": FORMAT,
        "units": units,
        "proposals": [_data(one, units) for one in found.best],
        "fell_out": [
            {
                "reason": reason_clause(one.example),
                "count": one.count,
                "example": lack_clause(one.example, units),
            }
            for one in found.fell_out
        ],
        "nearest": None
        if near is None
        else {
            "choice": None if near.choice is None else _choice(near.choice),
            "text": lack_clause(near.lack, units),
            "over": near.over,
        },
        "lower_relief": None
        if found.lower is None
        else {
            "choice": _choice(found.lower.proposed.choice),
            "text": lower_relief_words(found.lower, units),
            "relief_MPa": found.lower.relief,
            "nose_diameter_mm": found.lower.proposed.choice.nose.thickness,
        },
        "tried": found.tried,
        "planned": found.planned,
        "untried": 0 if found.untried is None else found.untried.count,
        "ran_out": ran_out(found, units),
        "estimate": ESTIMATE,
    }


def _choice(choice: Choice) -> dict[str, Any]:
    return {
        "nose": choice.nose.name,
        "shoulders": choice.shoulders.name,
        "carriers": choice.carriers.name,
        "push_plate": choice.push_plate.name,
        "body": choice.body.name,
        "opening_mm": choice.opening,
        "held": choice.held,
        "side_plates": choice.tied,
        "edge_radius_mm": choice.edge or None,
    }


def _data(one: Proposed, units: Units) -> dict[str, Any]:
    nose, shoulders = one.tooling.nose, one.tooling.shoulders
    return {
        "choice": _choice(one.choice),
        "made_as": held_words(one.choice, units),
        "nose_radius_mm": nose.radius,
        "reach_mm": nose.reach,
        "span_mm": nose.span,
        "shoulder_radius_mm": shoulders.radius,
        "opening_mm": shoulders.opening,
        "depth_mm": shoulders.depth,
        "height_mm": shoulders.height,
        "cost": one.cost,
        "material": one.material,
        "hours": one.hours,
        "worst_ratio": worst_ratio(one),
        "peak_force_N": most_force(one),
        "cuts": [
            {
                "use": cut.use,
                "stock": cut.stock.name,
                "length_mm": cut.length,
                "width_mm": cut.width,
            }
            for cut in one.cuts
        ],
        "gives_up": [given_up(less, units) for less in one.gives_up],
        "warnings": list(warned_of(one, units)),
        "bolts": [bolts_ready(bolts) for bolts in one.bolts],
        "not_in_crib": [not_in_crib(way, units) for way in one.ways],
        "checks": [check_data(check, units) for check in one.assessment.checks],
        "unchecked": [missing.sentence for missing in one.assessment.unchecked],
    }
