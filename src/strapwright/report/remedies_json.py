"""What would make a refused part, as plain data: lengths in mm, angles in degrees."""

from __future__ import annotations

import math
from typing import Any

from strapwright.planning.plan_values import Plan
from strapwright.planning.remedy_values import Change, Tried
from strapwright.wording.figures import figures_for
from strapwright.wording.remedy_words import remedy_words, rest_words

Data = dict[str, Any]


def remedies_data(plan: Plan) -> Data:
    """Turn what was found for a refused plan into plain data.

    Parameters
    ----------
    plan
        With its remedies.
    """
    remedies = plan.remedies
    if remedies is None:
        raise TypeError("nobody looked for remedies")
    show = figures_for(plan.job)
    found = []
    for one in remedies.found:
        words = remedy_words(one, show)
        found.append(
            {
                "changes": [_change(change) for change in one.changes],
                "order": list(one.order),
                "blank_mm": one.blank,
                "text": words.order,
                "checked": words.checked,
            }
        )
    return {
        "found": found,
        "in_vain": [_tried(one) for one in remedies.in_vain],
        "untried": [_tried(one) for one in remedies.untried],
        "pairs": remedies.pairs,
        "text": list(rest_words(remedies, show)),
    }


def _change(change: Change) -> Data:
    turned = change.what == "part of the way"
    return {
        "what": change.what,
        "numbers": list(change.numbers),
        "unit": _unit(change),
        "tooling": _named(change),
        "old": _figure(change.old, turned=turned),
        "new": _figure(change.new, turned=turned),
        "furthest": _figure(change.furthest, turned=turned),
        "step": _figure(change.step, turned=turned),
    }


def _tried(tried: Tried) -> Data:
    turned = tried.what == "part of the way"
    return {
        "what": tried.what,
        "numbers": list(tried.numbers),
        "unit": _unit(tried),
        "tooling": _named(tried),
        "old": _figure(tried.old, turned=turned),
        "end": _figure(tried.end, turned=turned),
    }


def _unit(one: Change | Tried) -> str:
    if one.what == "tooling":
        return "place"
    return "deg" if one.what == "part of the way" else "mm"


def _named(one: Change | Tried) -> str:
    return "" if one.tooling is None else one.tooling.name


def _figure(value: float | None, *, turned: bool) -> float | None:
    return math.degrees(value) if turned and value is not None else value
