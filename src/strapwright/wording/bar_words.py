"""Words for what the bar, its edges, welds, holes and metal imply."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Angle, Choice, Count, Finding, Length, Name
from strapwright.quantities import show_both
from strapwright.wording.reader import Reader
from strapwright.wording.steps.lay_words import roll_words
from strapwright.wording.words import Teller, Words, both


def _brittle(finding: Finding, _: Reader) -> Words:
    metal = finding.one(Name, "metal").value
    return Words(
        f"{metal} can snap in the bend instead of turning; the figures hold only while it does "
        "not.",
        "Bend a trial piece behind a shield first, or use a known mild steel.",
    )


def _unknown(_: Finding, reader: Reader) -> Words:
    return Words(
        "The metal is not known, so force, gauge and springback lie between wide limits.",
        f"Give a certificate in {reader.table('lot')}, or bend a trial piece and read gauge and "
        "angle.",
    )


_EDGES = {
    "sheared": "the shear leaves them torn and work-hardened",
    "flame cut": "the cut leaves them hardened and notched",
}


def _edges(finding: Finding, _: Reader) -> Words:
    edges = finding.one(Choice, "edges").value
    return Words(
        f"The edges are {edges}: {_EDGES[edges]}, so cracks start there on the outside of a bend.",
        "Grind the outer edges of each bend smooth along the bar and round their corners before "
        "bending.",
    )


def _groove(finding: Finding, _: Reader) -> Words:
    dent, rest = (finding.one(Length, name).value for name in ("dent", "not_proven"))
    return Words(
        f"The travel is fitted on rods that dent by about {both(dent, 2, 3)} in a plain nose and "
        f"the shoulders; a fitted groove spreads the contact, so the last {both(rest, 2, 3)} of "
        "it are not proven and the bend may come out a little past its angle.",
        "Push in stages, read the angle and push on by the difference.",
    )


def _contact(finding: Finding, _: Reader) -> Words:
    dent = finding.one(Length, "dent").value
    return Words(
        "Round rod meets nose and shoulders in a spot, not over a width, and dents there, by "
        f"about {both(dent, 2, 3)} in all; the travel is fitted on rods that do.",
        "A groove of the rod's own round in the nose keeps marks off the inside.",
    )


def _too_wide(finding: Finding, _: Reader) -> Words:
    bulge, needed, span = (finding.one(Length, n).value for n in ("bulge", "needed", "span"))
    bars = finding.one(Count, "bars").value
    what = "the bar" if bars == 1 else f"{bars} bars side by side"
    return Words(
        f"The inside edges of a bend bulge by {show_both(bulge)} to each side, so {what} needs "
        f"{show_both(needed)} between what carries the nose, and there are {show_both(span)}.",
        "Set the carriers farther apart, or bend narrower bar or fewer at once.",
    )


_WELD = "Weld after bending, or move the weld or the bend."


def _weld_in(finding: Finding, _: Reader) -> Words:
    bend = finding.one(Count, "bend").value
    return Words(
        f"The weld lies in bend {bend}; weld and the metal beside it stretch unevenly and can "
        "part there.",
        _WELD,
    )


def _weld_near(finding: Finding, _: Reader) -> Words:
    bend = finding.one(Count, "bend").value
    away, reach = (finding.one(Length, name).value for name in ("away", "reach"))
    return Words(
        f"The weld is {show_both(away)} from bend {bend}, within the {reach:.0f} mm over which it "
        "changes the metal (common practice, no source).",
        _WELD,
    )


_HOLE = "Move the hole, or drill it after bending."


def _hole_in(finding: Finding, _: Reader) -> Words:
    bend, away = finding.one(Count, "bend").value, finding.one(Length, "away").value
    return Words(
        f"The hole reaches {show_both(-away)} into bend {bend}; it goes oval and weakens the bar "
        "there.",
        _HOLE,
    )


def _hole_near(finding: Finding, _: Reader) -> Words:
    bend, away = finding.one(Count, "bend").value, finding.one(Length, "away").value
    return Words(
        f"The hole's edge is {show_both(away)} from bend {bend}, closer than twice the thickness "
        "(common practice, no source); it may go oval.",
        _HOLE,
    )


def _rolled(finding: Finding, _: Reader) -> Words:
    turns = finding.several(Angle, "turned")
    words = [
        f"for bend {bend} {roll_words(turn.value) or 'the drawn face as it is'}"
        for bend, turn in enumerate(turns, start=1)
    ]
    return Words(
        "The part leaves one plane: with end 1 on the left and counted from the drawn face, "
        f"{', '.join(words)}. Whether its legs clear press and tooling, and whether it comes off, "
        "is not proven.",
        "Draw a line along the drawn face, and turn the part through by hand with a thin wire of "
        "the same shape first.",
    )


BAR_WORDS: Mapping[str, Teller] = {
    "brittle-bar": _brittle,
    "unknown-bar": _unknown,
    "edges-to-dress": _edges,
    "groove-not-proven": _groove,
    "line-contact": _contact,
    "too-wide-for-nose": _too_wide,
    "weld-in-bend": _weld_in,
    "weld-near-bend": _weld_near,
    "hole-in-bend": _hole_in,
    "hole-near-bend": _hole_near,
    "out-of-plane": _rolled,
}
