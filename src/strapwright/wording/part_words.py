"""Words for the part on its tooling: blank, closing, sight lines, straight bar, what collides."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import BendAt, Choice, Count, Finding, Length, Name, Yes
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words


def _no_tooling(_: Finding, reader: Reader) -> Words:
    return Words(
        "No tooling entered: no bend settings.",
        f"Enter {reader.table('tooling')} nose and shoulders.",
    )


def _radius_unknown(_: Finding, reader: Reader) -> Words:
    return Words(
        "No blank length: both the tooling and an inside radius are missing.",
        f"Enter {reader.table('tooling')}, or {reader.key('part.inside_radius')}.",
    )


def _by_book(_: Finding, reader: Reader) -> Words:
    return Words(
        "Without tooling the blank uses the handbook rule for half-hard metal and soft steel: 0.64 "
        "T + 1.57 R for 90°.",
        f"Enter {reader.table('tooling')} for the blank of your own tooling, or "
        f"{reader.key('blank.method')}.",
    )


_ENDS = {"corner": "against the face of leg 1", "in line": "in line"}
_NOTHING = 0.005  # mm, less than is printed


def _closing(finding: Finding, reader: Reader) -> Words:
    before, after, size, sideways = (
        finding.one(Length, name).value for name in ("before", "after", "size", "sideways")
    )
    show = reader.figures
    kind = finding.one(Choice, "kind").value
    beside = "one thickness beside each other and " if kind == "overlap" else ""
    miss = f" Sideways they miss by {show.setting(sideways)}." if sideways > _NOTHING else ""
    return Words(
        f"Leg {finding.one(Count, 'leg').value} is changed from {show.setting(before)} to "
        f"{show.setting(after)} ({finding.one(Choice, 'measured').value}). The ends then come "
        f"{beside}{_ENDS[finding.one(Choice, 'ends').value]} with the {kind} of "
        f"{show.size(size)}.{miss}"
    )


def _legs_from_size(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    each = [
        f"leg {leg.value} is {show.setting(length.value)}"
        for leg, length in zip(
            finding.several(Count, "legs"), finding.several(Length, "lengths"), strict=True
        )
    ]
    legs = " and ".join([", ".join(each[:-1]), each[-1]] if len(each) > 1 else each)
    sizes = " and ".join(
        f"{show.size(finding.one(Length, name).value)} {word}"
        for name, word in (("width", "wide"), ("height", "high"))
        if name in finding.facts
    )
    measured = finding.one(Choice, "measured").value
    return Words(
        f"{legs[0].upper()}{legs[1:]} ({measured}). The finished part is then {sizes} over all."
    )


def _closes(finding: Finding, _: Reader) -> Words:
    return Words(
        "The last bend closes the part around the nose and its supports. Whether it comes off is "
        "not checked.",
        "Slide the nose out endways, or spring the ends apart by hand; try it with a plain strip "
        "first."
        if finding.one(Yes, "drawable").value
        else "Try it with a plain strip first. Make the last bend part-way and finish it by hand, "
        "away from the tooling, or use a nose that slides out endways.",
    )


def _sight(finding: Finding, reader: Reader) -> Words:
    end, inside = finding.one(Count, "end").value, finding.one(Length, "inside").value
    return Words(
        f"Mark {finding.one(Name, 'mark').value} has no sight line: end {end} of the bar is inside "
        "the outer edge of the shoulders.",
        f"Set end {end} {reader.figures.size(inside)} inside that edge and check that the nose "
        "comes down on its mark.",
    )


def _off_shoulder(finding: Finding, reader: Reader) -> Words:
    straight, needed = (
        reader.figures.size(finding.one(Length, n).value) for n in ("straight", "needed")
    )
    better = finding.several(Count, "better")
    remedy = "Use a narrower opening, or a longer leg there."
    if better:
        remedy = f"Make the bends in the order {', '.join(str(one.value) for one in better)}."
    return Words(
        f"Towards end {finding.one(Count, 'end').value} there is only {straight} of straight bar "
        f"from the centre of the bend. The shoulders need {needed}, or the leg drops off the "
        "shoulder.",
        remedy,
    )


def _shallow(finding: Finding, reader: Reader) -> Words:
    below, depth = (
        reader.figures.size(finding.one(Length, name).value) for name in ("below", "depth")
    )
    return Words(
        f"The bend goes {below} below the shoulder tops, but there is only {depth} of depth.",
        "Raise the shoulders, or use a narrower opening.",
    )


def _overlap(finding: Finding, _: Reader) -> Words:
    one, other = (finding.one(Name, name).value for name in ("one", "other"))
    return Words(
        f"The {one} and the {other} overlap as entered.",
        "Check where each begins and ends, across the bar and along the nose.",
    )


def _collide(finding: Finding, _: Reader) -> Words:
    moving, still = (finding.one(Name, name).value for name in ("moving", "still"))
    return Words(
        f"On its way to full stroke the {moving} hits the {still}.",
        f"Make room for it, or use a slimmer or shorter {moving}.",
    )


def _tips(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    off, half = (finding.one(Length, name).value for name in ("off", "half"))
    several = sum(isinstance(place, BendAt) for place in finding.about) > 1
    return Words(
        "The bar tips off the shoulders before the nose holds it. It balances "
        f"{'up to ' if several else ''}{show.clearance(abs(off))} "
        f"{'right' if off > 0.0 else 'left'} of centre, and the shoulders reach only "
        f"{show.clearance(half)}.",
        "Put a stand under the long end, as high as the shoulders. Or hold it there, beyond the "
        "shoulders, with no hand under the bar or between bar, nose and shoulders. Hands off at "
        "first contact: the legs swing.",
    )


PART_WORDS: Mapping[str, Teller] = {
    "no-tooling": _no_tooling,
    "radius-unknown": _radius_unknown,
    "blank-by-book": _by_book,
    "closing-leg": _closing,
    "legs-from-size": _legs_from_size,
    "closes-around-nose": _closes,
    "sight-off-blank": _sight,
    "leg-off-shoulder": _off_shoulder,
    "too-shallow": _shallow,
    "pieces-overlap": _overlap,
    "halves-collide": _collide,
    "tips-before-touch": _tips,
}
