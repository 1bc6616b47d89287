"""Words for what the solver and the metal's limits say of a bend, a row of hits or a stack."""

from __future__ import annotations

import math
from collections.abc import Mapping

from strapwright.findings import Angle, Choice, Count, Finding, Length, Name, Share, Yes
from strapwright.quantities import show_both
from strapwright.quantities.inside_units import INCH_MM
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words, degrees

_WEAK: Mapping[str, str] = {
    "low hardening": "the bar hardens little (n under 0.1), which few cases show",
    "no hardening": (
        "the bar hardly hardens at all (n under 0.05): its force jumps when it lets go of the "
        "tip of the nose, and where it does so is known from one case"
    ),
    "short opening": (
        "the opening is under 6 thicknesses, where shear and squeeze in the thickness count"
    ),
    "short leg": "less than 1.5 thicknesses of straight leg are left between nose and shoulder",
    "sharp nose": (
        "the nose is sharper than three quarters of the thickness, so the bar thins and folds "
        "under it"
    ),
    "round rod": "round rod dents where it touches the tooling, which is known from few cases",
    "narrow bar": (
        "the bar is hardly wider than it is thick, and the width rule is known from few cases"
    ),
    "much friction": "the friction is over 0.15, and finite elements were compared up to 0.1 only",
    "wide angle": "nothing has been compared past a loaded angle of 125 deg: not proven",
    "far round the nose": (
        "the bar goes far round the nose, where friction takes off springback that no case has "
        "shown"
    ),
}


def _weak_spot(finding: Finding, _: Reader) -> Words:
    return Words(f"The band is widened here: {_WEAK[finding.one(Choice, 'reason').value]}.")


def _past_proven(finding: Finding, _: Reader) -> Words:
    loaded, proven = (degrees(finding.one(Angle, name)) for name in ("loaded", "proven"))
    return Words(
        f"It is pushed to {loaded:.0f} deg under load; past {proven:.0f} deg nothing has been "
        "compared, so the figures are not proven.",
        "Push in small stages and read each one.",
    )


def _near_jam(finding: Finding, _: Reader) -> Words:
    return Words(
        f"The tooling jams at {degrees(finding.one(Angle, 'jam')):.0f} deg under load; "
        f"{finding.one(Share, 'jammed').value:.0%} of the bars that this one may be would jam "
        "before the angle is reached.",
        "Open the shoulders or take a smaller nose.",
    )


def _bottoms(finding: Finding, _: Reader) -> Words:
    travel = finding.one(Length, "travel").value
    return Words(
        f"Bottoming starts before the angle is reached: at a travel of {_down(travel, 2)} mm "
        f"({_down(travel / INCH_MM, 3)} in) the bar meets what lies under it and stands at "
        f"{degrees(finding.one(Angle, 'stands')):.0f} deg let go, short of "
        f"{degrees(finding.one(Angle, 'wanted')):.0f}; from there on no angle is promised and the "
        "force climbs steeply.",
        "Deepen the floor, widen what the bar comes down into, or use a narrower opening.",
    )


def _down(value: float, decimals: int) -> str:
    return f"{math.floor(value * 10**decimals) / 10**decimals:.{decimals}f}"


def _radius(finding: Finding, _: Reader) -> Words:
    nose, least = (finding.one(Length, name).value for name in ("nose", "least"))
    if finding.one(Yes, "along_grain").value:
        remedy = (
            "Take a larger nose, or turn the part so that its bend lines run across the rolling "
            "direction, and bend a trial piece with dressed edges."
        )
    else:
        remedy = "Take a larger nose, or bend a trial piece across the grain with dressed edges."
    return Words(
        f"The nose radius of {show_both(nose)} is under the smallest advised for this metal and "
        f"thickness, {show_both(least)} by {finding.one(Name, 'source').value}; the outside may "
        "crack.",
        remedy,
    )


def _strain(finding: Finding, _: Reader) -> Words:
    stretch, least = (100.0 * finding.one(Share, n).value for n in ("stretch", "elongation"))
    return Words(
        f"The outside of the bend stretches about {stretch:.0f} %, past the {least:.0f} % that a "
        "tensile test of this metal shows before it parts.",
        "Dress cut or sheared edges on the outside, and look at the first piece.",
    )


def _cracks(finding: Finding, _: Reader) -> Words:
    nose, least = (finding.one(Length, name).value for name in ("nose", "least"))
    stretch, most = (100.0 * finding.one(Share, n).value for n in ("stretch", "elongation"))
    return Words(
        f"The outside of this bend is expected to crack: the nose radius of {show_both(nose)} is "
        "less than half of the smallest advised for this metal and thickness, "
        f"{show_both(least)} by {finding.one(Name, 'source').value}, and the outside stretches "
        f"about {stretch:.0f} %, over three times the {most:.0f} % of a tensile test.",
        f"Use a nose with a radius of {show_both(least)} or more, or a softer temper or metal.",
    )


def _row(finding: Finding, _: Reader) -> Words:
    total, each = (degrees(finding.one(Angle, name)) for name in ("total", "each"))
    apart, off, radius = (finding.one(Length, n).value for n in ("apart", "stand_off", "radius"))
    return Words(
        f"The bend of {total:.4g} deg is made by {finding.one(Count, 'hits').value} hits of "
        f"{each:.1f} deg, {show_both(apart)} apart in the flat and all with one travel from "
        f"touch; the flats between them leave it within {show_both(off)} of the true arc of "
        f"{show_both(radius)} inside.",
        "Make them in turn from the end that carries the first mark.",
    )


def _hits_add_up(finding: Finding, _: Reader) -> Words:
    low, high = (degrees(finding.one(Angle, name)) for name in ("low", "high"))
    return Words(
        f"An error in one hit comes back in all {finding.one(Count, 'hits').value}: made by the "
        f"setting alone the total lies between {low:.0f} and {high:.0f} deg. From the second hit "
        "on the bar between the shoulders is no longer straight and the nose touches up to "
        f"{show_both(finding.one(Length, 'drop').value)} lower, so no distance and no stop block "
        "is given, and the travel is not proven.",
        "Find touch anew at every hit, check the angle after the first three against three times "
        "one hit, and spread what is missing over the rest.",
    )


def _stack(finding: Finding, _: Reader) -> Words:
    parts = [
        f"bar {bar.value} bends round {show_both(radius.value)} and opens to {degrees(free):.1f} "
        f"deg, {degrees(less):.1f} deg less"
        for bar, radius, free, less in zip(
            finding.several(Count, "bars"),
            finding.several(Length, "radii"),
            finding.several(Angle, "free"),
            finding.several(Angle, "less"),
            strict=True,
        )
    ]
    return Words(
        f"The setting brings the bar at the nose to its angle; {'; '.join(parts)}. The force is "
        "the sum of the bars solved one by one, and friction between them is left out, which "
        "makes it and the gauge not proven on the low side.",
        "Bend one stack of trial pieces; where all bars must match, bend them one at a time.",
    )


BEND_WORDS: Mapping[str, Teller] = {
    "model-weak-spot": _weak_spot,
    "past-proven-angle": _past_proven,
    "near-jam": _near_jam,
    "bottoms-before-angle": _bottoms,
    "radius-too-small": _radius,
    "outer-strain-high": _strain,
    "outside-cracks": _cracks,
    "row-of-hits": _row,
    "hits-add-up": _hits_add_up,
    "stacked-outer-bar": _stack,
}
