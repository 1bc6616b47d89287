"""Runs case files of kind ``freeing``: does the bent part come off the nose."""

from __future__ import annotations

from typing import Any

from order_cases import INCH, part_of, piece_of
from strapwright.ordering.freeing.coming_off import comes_off
from strapwright.ordering.freeing.part_gap import caliper
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.order_values import Piece

CLOSE_BY = 0.01  # 'too close to call' is allowed where the gap is so near to what must pass [in]


def _close(gap: float | None, pieces: tuple[Piece, ...]) -> bool:
    """Whether a piece that may have to pass the gap is of nearly its size."""
    return gap is not None and any(abs(caliper(p) - gap) <= INCH * CLOSE_BY for p in pieces)


def _why(verdict: str, expected: str) -> list[str]:
    if verdict == "flagged":
        return [f"the gap is within {CLOSE_BY:g} in of what must pass; expected {expected}."]
    return [f"expected {expected}."] if verdict == "fail" else []


def _told(result: FreeingResult) -> str:
    match result.verdict:
        case "NO START":
            return "the part overlaps the tooling on the nose"
        case "TOO CLOSE":
            return "too close to call within what can be resolved"
        case "TRAPPED" if result.any_motion:
            return "the part closes round a member held at both ends, and the gap is smaller"
        case "TRAPPED":
            return "no way out in the plane or along the nose; tilting was not looked at"
    return {
        "drops": "it moves straight away from the nose",
        "slides": "it slides off without turning",
        "turns": "it comes off when it is turned on the way",
    }[result.how]


def run(case: dict[str, Any]) -> dict[str, Any]:
    """Run one case; return name, kind, figures, verdict and text."""
    z0 = INCH * case["part_z0"]
    part = part_of(case["part"], z=(z0, z0 + INCH * case["part"]["width"]))
    pieces = tuple(piece_of(row, side="nose") for row in case["tool_section"])
    result = comes_off(pieces, part, case["last_bend"], INCH * case["nose_radius"])
    expected = case["expect"]["verdict"]
    if result.verdict == expected:
        verdict = "within"
    elif result.verdict == "TOO CLOSE" and _close(result.gap, pieces):
        verdict = "flagged"
    else:
        verdict = "fail"
    return {
        "name": case["name"],
        "kind": "freeing",
        "figures": {
            "verdict": result.verdict,
            "expected": expected,
            "how": result.how,
            "gap_mm": result.gap,
            "held_by": list(result.held_by),
            "slabs": result.slabs,
        },
        "verdict": verdict,
        "text": f"{result.verdict}: {_told(result)}",
        "why": _why(verdict, expected),
    }
