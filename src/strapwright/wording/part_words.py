"""Words for the part on its tooling: blank, closing, sight lines, straight bar, what collides."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import BendAt, Choice, Count, Finding, Length, Name, Yes
from strapwright.quantities import show_both
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words, both


def _no_tooling(_: Finding, reader: Reader) -> Words:
    return Words(
        "No tooling is stated: only the blank and its marks are given.",
        f"State {reader.table('tooling')} nose and shoulders.",
    )


def _radius_unknown(_: Finding, reader: Reader) -> Words:
    return Words(
        "Neither tooling nor an inside radius is stated, so the blank is not given.",
        f"State {reader.table('tooling')}, or {reader.key('part.inside_radius')}.",
    )


def _by_book(_: Finding, reader: Reader) -> Words:
    return Words(
        "Without tooling the blank follows the handbook line for half-hard metal and soft steel, "
        "0.64 T + 1.57 R for 90 deg.",
        f"State {reader.table('tooling')} for the blank of your own tooling, or "
        f"{reader.key('blank.method')}.",
    )


_ENDS = {"corner": "against the face of leg 1", "in line": "in line"}


def _closing(finding: Finding, _: Reader) -> Words:
    before, after, size, sideways = (
        show_both(finding.one(Length, name).value, 2)
        for name in ("before", "after", "size", "sideways")
    )
    kind = finding.one(Choice, "kind").value
    beside = "one thickness beside each other and " if kind == "overlap" else ""
    return Words(
        f"Leg {finding.one(Count, 'leg').value} goes from {before} to {after} measured "
        f"{finding.one(Choice, 'measured').value}, so that the ends come {beside}"
        f"{_ENDS[finding.one(Choice, 'ends').value]} with the stated {kind} of {size}; sideways "
        f"they miss by {sideways}."
    )


def _closes(finding: Finding, _: Reader) -> Words:
    return Words(
        "This last bend closes the shape, with the nose and what carries it inside; that it comes "
        "off the tooling is not proven.",
        "Draw the nose out endways, or spring the ends apart by hand; try it with a bare strip "
        "first."
        if finding.one(Yes, "drawable").value
        else "Try it with a bare strip first, make the last bend part of the way and finish it "
        "off the tooling, or use a nose that can be drawn out.",
    )


def _sight(finding: Finding, _: Reader) -> Words:
    end, inside = finding.one(Count, "end").value, finding.one(Length, "inside").value
    return Words(
        f"Mark {finding.one(Name, 'mark').value} has no sight line: end {end} of the bar lies "
        "within the outer edge of the shoulders.",
        f"Set end {end} {both(inside, 1, 3)} inside that edge, and look that the nose comes down "
        "on its mark.",
    )


def _off_shoulder(finding: Finding, _: Reader) -> Words:
    straight, needed = (show_both(finding.one(Length, n).value) for n in ("straight", "needed"))
    better = finding.several(Count, "better")
    remedy = "Use a narrower opening, or a longer leg there."
    if better:
        remedy = f"Make the bends in the order {', '.join(str(one.value) for one in better)}."
    return Words(
        f"Towards end {finding.one(Count, 'end').value} there are {straight} of straight bar from "
        f"the middle of the bend and the shoulders need {needed}; the leg drops off the shoulder.",
        remedy,
    )


def _shallow(finding: Finding, _: Reader) -> Words:
    below, depth = (show_both(finding.one(Length, name).value) for name in ("below", "depth"))
    return Words(
        f"The bend goes {below} below the tops of the shoulders and the depth there is {depth}.",
        "Raise the shoulders, or use a narrower opening.",
    )


def _overlap(finding: Finding, _: Reader) -> Words:
    one, other = (finding.one(Name, name).value for name in ("one", "other"))
    return Words(
        f"The {one} and the {other} stand in each other as stated.",
        "Check where each begins and ends, across the bar and along the nose.",
    )


def _collide(finding: Finding, _: Reader) -> Words:
    moving, still = (finding.one(Name, name).value for name in ("moving", "still"))
    return Words(
        f"On its way to full stroke the {moving} runs into the {still}.",
        f"Make room for it, or use a slimmer or shorter {moving}.",
    )


def _tips(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    off, half = (finding.one(Length, name).value for name in ("off", "half"))
    several = sum(isinstance(place, BendAt) for place in finding.about) > 1
    return Words(
        "Laid on the shoulders the bar tips before the nose touches it: its weight lies "
        f"{'up to ' if several else ''}{show.clearance(abs(off))} to the "
        f"{'right' if off > 0.0 else 'left'} of the middle, and the tops of the shoulders only "
        f"{show.clearance(half)}.",
        "Put a stand under the long end, as high as the shoulders, or hold it there beyond the "
        "shoulders, with no hand under the bar or between bar, nose and shoulders, until "
        "the nose touches.",
    )


PART_WORDS: Mapping[str, Teller] = {
    "no-tooling": _no_tooling,
    "radius-unknown": _radius_unknown,
    "blank-by-book": _by_book,
    "closing-leg": _closing,
    "closes-around-nose": _closes,
    "sight-off-blank": _sight,
    "leg-off-shoulder": _off_shoulder,
    "too-shallow": _shallow,
    "pieces-overlap": _overlap,
    "halves-collide": _collide,
    "tips-before-touch": _tips,
}
