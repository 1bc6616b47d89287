"""Words for what the bar, its edges, welds, holes and metal imply."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Angle, Choice, Count, Finding, Length, Name, Temperature, Yes
from strapwright.wording.reader import Reader
from strapwright.wording.steps.lay_words import roll_words
from strapwright.wording.words import Teller, Words


def _brittle(finding: Finding, _: Reader) -> Words:
    metal = finding.one(Name, "metal").value
    return Words(
        f"{metal} may snap instead of bending; the figures are only valid if it does not.",
        "Bend a trial piece behind a shield first, or use a known mild steel.",
    )


# How each family of metal is cooled from its annealing heat, and what that costs (from memory).
_COOLED = {
    "steel": "let it cool slowly, buried in dry ash or in the shut furnace",
    "stainless": "quench it in water at once",
    "aluminium": "let it cool in air",
    "copper": "cool it as you like",
    "brass": "let it cool in air",
}
_AFTER = {
    "steel": "Harden and temper it after bending where it must be hard or springy.",
    "stainless": "It stays soft.",
    "aluminium": "It stays soft until it is heat treated again.",
    "copper": "It stays soft.",
    "brass": "It stays soft.",
}


def _soften(finding: Finding, reader: Reader) -> str:
    """Say how to get to a state that bends."""
    softer = finding.one(Name, "softer").value
    family = finding.one(Choice, "family").value
    if "heat" not in finding.facts:
        return f"Use {softer} instead."
    heat = reader.figures.temperature(finding.one(Temperature, "heat").value)
    return (
        f"Buy {softer}, or anneal this bar: heat it to about {heat}, then {_COOLED[family]}. "
        f"{_AFTER[family]}"
    )


def _cracks_cold(finding: Finding, reader: Reader) -> Words:
    metal = finding.one(Name, "metal").value
    if finding.one(Yes, "unknown").value:
        text = f"Nobody knows the state of this {metal.split(',')[0]}, so it counts as hardened."
    else:
        text = f"{metal} is too hard to bend cold."
    return Words(f"{text} It cracks or snaps and throws pieces.", _soften(finding, reader))


def _softer_state(finding: Finding, reader: Reader) -> Words:
    nose, least = (reader.figures.size(finding.one(Length, n).value) for n in ("nose", "least"))
    softer = finding.one(Name, "softer").value
    return Words(
        f"{softer} bends on this nose: it needs a radius of {least}, and the nose has {nose}.",
        _soften(finding, reader),
    )


def _unknown(_: Finding, reader: Reader) -> Words:
    return Words(
        "Unknown metal: force, gauge reading and springback have a wide range.",
        f"Enter figures from a certificate in {reader.table('lot')}, or bend a trial piece and "
        "note gauge reading and angle.",
    )


_EDGES = {
    "sheared": "Sheared edges are torn and work-hardened",
    "flame cut": "Flame-cut edges are hardened and notched",
}


def _edges(finding: Finding, _: Reader) -> Words:
    edges = finding.one(Choice, "edges").value
    return Words(
        f"{_EDGES[edges]}, so cracks can start there on the outside of a bend.",
        "Grind the outer edges of each bend smooth along the bar and round their corners before "
        "bending.",
    )


def _groove(finding: Finding, reader: Reader) -> Words:
    dent, rest = (
        reader.figures.size(finding.one(Length, name).value) for name in ("dent", "not_proven")
    )
    return Words(
        f"The travel is fitted on rods that dent by about {dent} in a plain nose and the "
        f"shoulders. A fitted groove spreads the contact, so the last {rest} of travel is not "
        "checked and the bend may come out a little past its angle.",
        "Push in stages, measure the angle and push further by the difference.",
    )


def _contact(finding: Finding, reader: Reader) -> Words:
    dent = reader.figures.size(finding.one(Length, "dent").value)
    return Words(
        f"Round rod touches nose and shoulders at a point and dents, about {dent} in all. The "
        "travel already allows for that.",
        "A groove of the rod's own round in the nose keeps marks off the inside.",
    )


def _too_wide(finding: Finding, reader: Reader) -> Words:
    bulge, needed, span = (
        reader.figures.size(finding.one(Length, n).value) for n in ("bulge", "needed", "span")
    )
    bars = finding.one(Count, "bars").value
    what = "the bar" if bars == 1 else f"{bars} bars side by side"
    return Words(
        f"The inside edges of the bend bulge {bulge} on each side. So {what} needs {needed} of "
        f"clear nose between its supports; there is only {span}.",
        "Set the carriers farther apart, or bend narrower bar or fewer at once.",
    )


_WELD = "Weld after bending, or move the weld or the bend."


def _weld_in(finding: Finding, _: Reader) -> Words:
    bend = finding.one(Count, "bend").value
    return Words(
        f"The weld is inside bend {bend}. Weld and base metal stretch differently and can crack "
        "there.",
        _WELD,
    )


def _weld_near(finding: Finding, reader: Reader) -> Words:
    bend = finding.one(Count, "bend").value
    away, reach = (
        reader.figures.size(finding.one(Length, name).value) for name in ("away", "reach")
    )
    return Words(
        f"The weld is {away} from bend {bend}. It changes the metal over about {reach} (common "
        "practice, no source).",
        _WELD,
    )


TIMES: Mapping[int, str] = {2: "twice", 3: "three times", 4: "four times"}
_OF_RULE = {"hole": "common practice, no source"}
_GUIDES = "sheet-metal design guides, from memory"


def rule_source(kind: str) -> str:
    """Say where the least distance of a hole, a slot or a notch from a bend comes from."""
    return _OF_RULE.get(kind, _GUIDES)


def _hole_in(finding: Finding, reader: Reader) -> Words:
    bend, away = finding.one(Count, "bend").value, finding.one(Length, "away").value
    kind = finding.one(Choice, "kind").value
    return Words(
        f"The {kind} runs {reader.figures.size(-away)} into bend {bend}; it will go oval and "
        "weaken the bar there.",
        f"Move the {kind}, or make it after bending.",
    )


def _hole_near(finding: Finding, reader: Reader) -> Words:
    bend, away = finding.one(Count, "bend").value, finding.one(Length, "away").value
    kind, near = finding.one(Choice, "kind").value, TIMES[finding.one(Count, "near").value]
    return Words(
        f"The {kind}'s edge is {reader.figures.size(away)} from bend {bend}, closer than {near} "
        f"the thickness ({rule_source(kind)}). It may go oval.",
        f"Move the {kind}, or make it after bending.",
    )


def _rolled(finding: Finding, _: Reader) -> Words:
    turns = finding.several(Angle, "turned")
    words = [
        f"for bend {bend} {roll_words(turn.value) or 'the drawn face as it is'}"
        for bend, turn in enumerate(turns, start=1)
    ]
    return Words(
        "The part does not lie in one plane. With end 1 on the left, counted from the drawn face: "
        f"{', '.join(words)}. Clearance and coming off the tooling are not checked.",
        "Draw a line along the drawn face. Go through all bends first by hand with a thin wire of "
        "the same shape.",
    )


BAR_WORDS: Mapping[str, Teller] = {
    "brittle-bar": _brittle,
    "cracks-cold": _cracks_cold,
    "softer-state-bends": _softer_state,
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
