"""Words for what the solver and the metal's limits say of a bend, a series of hits or a stack."""

from __future__ import annotations

import math
from collections.abc import Mapping

from strapwright.findings import (
    Angle,
    Choice,
    Count,
    Finding,
    Length,
    Name,
    Pressure,
    Share,
    Yes,
)
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words, degrees

WEAK_SPOTS: Mapping[str, str] = {
    "low hardening": (
        "the bar hardens little (n under 0.15), so it keeps to the tip of the nose for a while"
    ),
    "no hardening": (
        "the bar hardly hardens at all (n under 0.03). Its force jumps when it leaves the tip of "
        "the nose, and where it does so is known from three cases"
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
    "much friction": "the friction is over 0.15, which two cases show",
    "wide angle": "nothing has been compared past 125° under load",
    "far round the nose": (
        "the bar goes far round the nose, where friction takes off springback, and how much is "
        "known from few cases"
    ),
    "upper yield": (
        "the bar has an upper yield, and how it spreads along a bend was not compared with anything"
    ),
}


def _weak_spot(finding: Finding, _: Reader) -> Words:
    return Words(f"Wider range than usual here: {WEAK_SPOTS[finding.one(Choice, 'reason').value]}.")


def _past_proven(finding: Finding, _: Reader) -> Words:
    loaded, proven = (degrees(finding.one(Angle, name)) for name in ("loaded", "proven"))
    return Words(
        f"It goes to {loaded:.0f}° under load. Past {proven:.0f}° the figures are not checked "
        "against any test.",
        "Push in small stages and measure after each one.",
    )


def _near_jam(finding: Finding, _: Reader) -> Words:
    return Words(
        f"The tooling jams at {degrees(finding.one(Angle, 'jam')):.0f}° under load. Allowing for "
        f"the spread between bars, {100 * finding.one(Share, 'jammed').value:.0f} % would jam "
        "before the angle is reached.",
        "Open the shoulders or use a smaller nose.",
    )


def _bottoms(finding: Finding, reader: Reader) -> Words:
    travel = reader.figures.setting_below(finding.one(Length, "travel").value)
    return Words(
        f"The bar bottoms too early: at {travel} of travel it meets what is under it. It would "
        f"spring back to {degrees(finding.one(Angle, 'stands')):.0f}°, short of "
        f"{degrees(finding.one(Angle, 'wanted')):.0f}°. Beyond that the angle cannot be predicted "
        "and the force climbs steeply.",
        "Lower the floor, widen the vee or channel, or use a narrower opening.",
    )


def _radius(finding: Finding, reader: Reader) -> Words:
    nose, least = (reader.figures.size(finding.one(Length, n).value) for n in ("nose", "least"))
    if finding.one(Yes, "along_grain").value:
        remedy = (
            "Use a larger nose, or turn the part so that its bend lines run across the grain. Bend "
            "a trial piece with dressed edges first."
        )
    else:
        remedy = "Use a larger nose, or bend a trial piece across the grain with dressed edges."
    return Words(
        f"The nose radius {nose} is below {least}, the smallest advised for this metal and "
        f"thickness. The outside may crack. Source: {finding.one(Name, 'source').value}.",
        remedy,
    )


def _strain(finding: Finding, _: Reader) -> Words:
    stretch, least = (100.0 * finding.one(Share, n).value for n in ("stretch", "elongation"))
    return Words(
        f"The outside of the bend stretches about {stretch:.0f} %, more than the {least:.0f} % "
        "this metal stretches in a tensile test before it breaks.",
        "Dress cut or sheared edges on the outside, and look at the first piece.",
    )


def _cracks(finding: Finding, reader: Reader) -> Words:
    nose, least = (reader.figures.size(finding.one(Length, n).value) for n in ("nose", "least"))
    stretch, most = (100.0 * finding.one(Share, n).value for n in ("stretch", "elongation"))
    return Words(
        f"The outside of this bend is expected to crack. The nose radius {nose} is less than half "
        f"of {least}, the smallest advised for this metal and thickness. Source: "
        f"{finding.one(Name, 'source').value}. The outside stretches about {stretch:.0f} %, over "
        f"three times the {most:.0f} % of a tensile test.",
        f"Use a nose with a radius of {least} or more, or a softer temper or metal.",
    )


def _row(finding: Finding, reader: Reader) -> Words:
    total, each = (degrees(finding.one(Angle, name)) for name in ("total", "each"))
    apart, off, radius = (
        reader.figures.size(finding.one(Length, n).value) for n in ("apart", "stand_off", "radius")
    )
    return Words(
        f"The {total:.4g}° bend is made in a series of {finding.one(Count, 'hits').value} hits "
        f"(bump bending) of {each:.1f}°. They are {apart} apart in the flat, all with the same "
        f"travel. The result is within {off} of a true inside radius of {radius}.",
        "Make the hits in turn from the end that carries the first mark.",
    )


def _hits_add_up(finding: Finding, reader: Reader) -> Words:
    low, high = (degrees(finding.one(Angle, name)) for name in ("low", "high"))
    drop = reader.figures.size(finding.one(Length, "drop").value)
    return Words(
        f"An error in one hit repeats in all {finding.one(Count, 'hits').value}: by the setting "
        f"alone the total may come out from {low:.0f}° to {high:.0f}°. From the second hit on the "
        f"bar is already curved, and the nose makes contact up to {drop} lower. So no stop "
        "distance or block is given, and the travel is a guide only.",
        "Find first contact again at every hit. After three hits compare the angle with three "
        "times one hit, and spread the difference over the rest.",
    )


def _stack(finding: Finding, reader: Reader) -> Words:
    parts = [
        f"bar {bar.value} bends round {reader.figures.size(radius.value)} and comes out at "
        f"{degrees(free):.1f}°, {degrees(less):.1f}° less"
        for bar, radius, free, less in zip(
            finding.several(Count, "bars"),
            finding.several(Length, "radii"),
            finding.several(Angle, "free"),
            finding.several(Angle, "less"),
            strict=True,
        )
    ]
    rubbed = math.ceil(100.0 * finding.one(Share, "rubbed").value)
    springs, stuck = (degrees(finding.one(Angle, name)) for name in ("springs", "stuck"))
    return Words(
        f"The settings are for the bar against the nose; {'; '.join(parts)}. The force is the sum "
        "of the single bars without friction between them. The real force and gauge reading may be "
        f"higher: dry bars that rub add up to {rubbed} %, and the range allows for it. Springback "
        f"lies between {springs:.1f}° (the bars slide) and about {stuck:.1f}° (they stick "
        "together), so the bend may come out larger than wanted.",
        "Bend one stack of trial pieces; where all bars must match, bend them one at a time.",
    )


def _off_middle(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    offset = show.size(finding.one(Length, "offset").value)
    if finding.one(Choice, "how").value == "jams":
        return Words(
            f"With the nose {offset} off centre between the shoulders, the bend cannot be worked "
            "out: the leg on the near side jams.",
            ""
            if "tried" in finding.facts
            else "Centre the nose between the shoulders, and enter how far off it may still be.",
        )
    more, near, across = (
        100.0 * finding.one(Share, name).value for name in ("force", "near", "across")
    )
    gauge = finding.facts.get("gauge")
    takes = f" and takes {more:.0f} % more force" if more >= 0.5 else ""
    if takes and isinstance(gauge, Pressure):
        takes += f" ({show.pressure_up(gauge.value)} on the gauge)"
    less = finding.facts.get("less")
    sooner = (
        f" The angle is reached {show.setting(less.value)} sooner."
        if isinstance(less, Length)
        else ""
    )
    return Words(
        f"The nose may stand {offset} off centre between the shoulders. The same travel then bends "
        f"{degrees(finding.one(Angle, 'free')):.1f}° further{takes}.{sooner} The nearer shoulder "
        f"carries {near:.0f} % of the push, and {across:.0f} % of it pushes the nose sideways. The "
        f"bend may come {show.size(finding.one(Length, 'lands').value)} off its mark, nearer to "
        "that shoulder.",
        "Centre the nose between the shoulders. Then push in stages and measure after each one.",
    )


def _clearance_off_middle(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    offset, closer, clearance = (
        finding.one(Length, name).value for name in ("offset", "closer", "clearance")
    )
    return Words(
        f"The order was checked with the nose centred. With it {show.size(offset)} off centre the "
        f"bar may come up to {show.size(closer)} nearer to what is about it. It is "
        f"{show.clearance(clearance)} clear of the {finding.one(Name, 'nearest').value} at the "
        "least; whether it stays clear is not checked.",
        "Centre the nose, or push slowly and watch that the bar stays clear.",
    )


BEND_WORDS: Mapping[str, Teller] = {
    "nose-off-middle": _off_middle,
    "clearance-off-middle": _clearance_off_middle,
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
