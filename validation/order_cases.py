"""Runs case files of kind ``order``: is there an order, and what does the cheapest one cost."""

from __future__ import annotations

import math
from typing import Any

from strapwright.ordering.order_results import OrderResult
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import (
    PartGeometry,
    Piece,
    SearchSettings,
    StepCosts,
    ToolSection,
)
from strapwright.wording.figures import Figures
from strapwright.wording.refusal_words import refusal_clause

INCH = 25.4
METRIC = Figures(units="metric", reading="mm")
DEPTH_MARGIN = 0.05  # the case kind's own [in]
SELF_CLEARANCE = 0.03  # the same [in]
STOP_TOLERANCE = 0.02  # the same [in]
TOLERANCE = 0.01  # between 'allowed from' and 'refused below' [in]


def piece_of(row: dict[str, Any], side: str | None = None) -> Piece:
    """One piece from a row in inches: circle, box or convex polygon."""
    z = tuple(INCH * v for v in row["z"]) if "z" in row else None
    common = {
        "name": row["name"],
        "side": side or row["side"],
        "z": z,
        "contact": row.get("contact", False),
        "body": row.get("body", ""),
    }
    if "circle" in row:
        x, y, r = (INCH * v for v in row["circle"])
        return Piece(centre=(x, y), radius=r, **common)
    if "box" in row:
        x0, y0, x1, y1 = (INCH * v for v in row["box"])
        return Piece(polygon=((x0, y0), (x1, y0), (x1, y1), (x0, y1)), **common)
    return Piece(polygon=tuple((INCH * x, INCH * y) for x, y in row["polygon"]), **common)


def part_of(row: dict[str, Any], z: tuple[float, float] | None = None) -> PartGeometry:
    """Return the part from a row in inches and degrees; ``z`` is in mm."""
    return PartGeometry(
        straights=tuple(INCH * v for v in row["straight"]),
        angles=tuple(math.radians(b["angle"]) for b in row["bends"]),
        radii=tuple(INCH * b["ri"] for b in row["bends"]),
        thickness=INCH * row["thickness"],
        z=z,
    )


def inputs_of(case: dict[str, Any]) -> tuple[ToolSection, PartGeometry, SearchSettings]:
    """What the search takes, from a case."""
    tool = case["tool"]
    section = ToolSection(
        opening=INCH * tool["opening"],
        shoulder_radius=INCH * tool["shoulder_radius"],
        nose_radius=INCH * tool["nose_radius"],
        depth=INCH * tool["depth"],
        daylight=INCH * tool["daylight"],
        pieces=tuple(piece_of(row) for row in tool["section"]),
    )
    settings = SearchSettings(
        costs=StepCosts(**case["cost_weights"]),
        clearance=INCH * case["clearance"],
        tolerance=INCH * TOLERANCE,
        self_clearance=INCH * SELF_CLEARANCE,
        springback=(math.radians(case["part"]["springback_deg"]),),
        leg_margin=INCH * case["leg_margin"],
        depth_margin=INCH * DEPTH_MARGIN,
        stop_tolerance=INCH * STOP_TOLERANCE,
    )
    return section, part_of(case["part"]), settings


def describe(result: OrderResult) -> str:
    """Return the figures of one case in a line."""
    proof = "proven" if result.proven else "not proven"
    if not result.feasible:
        reason = "the finished outline meets itself" if result.closes_on_itself else "no order"
        return f"{reason}, {proof}"
    order = " ".join(
        f"{s.bend}{'+' if s.sign > 0 else '-'}{'L' if s.end_left == 1 else 'R'}"
        for s in result.steps
    )
    clearance = min(s.clearance for s in result.steps)
    return f"cost {result.cost}, {proof}, order {order}, clearance {clearance:.2f} mm"


def run(case: dict[str, Any]) -> dict[str, Any]:
    """Run one case; return name, kind, figures, verdict and text."""
    expect = case["expect"]
    wanted = (bool(expect["feasible"]), expect["optimal_cost"])
    result = find_order(*inputs_of(case))
    right = result.proven and (result.feasible, result.cost) == wanted
    return {
        "name": case["name"],
        "kind": "order",
        "figures": {
            "feasible": result.feasible,
            "cost": result.cost,
            "proven": result.proven,
            "expected_feasible": wanted[0],
            "expected_cost": wanted[1],
            "least_clearance_mm": min((s.clearance for s in result.steps), default=None),
            "refusals": [refusal_clause(r, METRIC) for r in result.refusals],
        },
        "verdict": "within" if right else "fail",
        "text": describe(result),
        "why": [] if right else [f"expected feasible {wanted[0]} at cost {wanted[1]}."],
    }
