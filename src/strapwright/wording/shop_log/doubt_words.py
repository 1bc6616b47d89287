"""Words that ask about a reading before it is kept."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.bending.bend_values import Band
from strapwright.findings import Angle, Choice, Count, Finding, Length, Pressure
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words

_AGAIN = "Read it again, or confirm that it is right."


def _opens_wrong(finding: Finding, reader: Reader) -> Words:
    free, loaded = _shown(finding, reader, "free"), _shown(finding, reader, "loaded")
    return Words(
        f"The bend measures {free} after release and {loaded} under load: a bar springs open, "
        "never further closed.",
        "Check whether the two are swapped.",
    )


def _looks_apart(finding: Finding, reader: Reader) -> Words:
    free, again = _shown(finding, reader, "free"), _shown(finding, reader, "again")
    return Words(
        f"The bend measures {free} and {again}: one was misread, or the part is twisted.",
        "Measure both edges again. If they differ, place the bar square to the nose.",
    )


def _past_stroke(finding: Finding, reader: Reader) -> Words:
    travel, stroke = _shown(finding, reader, "travel"), _shown(finding, reader, "stroke")
    return Words(f"The travel is {travel} and the ram has a stroke of {stroke}.", _AGAIN)


def _travel_unit(finding: Finding, reader: Reader) -> Words:
    travel, meant = _shown(finding, reader, "travel"), _shown(finding, reader, "meant")
    wanted, typed = finding.one(Choice, "unit").value.split(" for ")
    return Words(
        f"The travel is {travel}, far from the plan: was {wanted} meant and not {typed}? "
        f"That would be {meant}.",
        "Write the unit behind the number.",
    )


def _travel_back(finding: Finding, reader: Reader) -> Words:
    travel, before = _shown(finding, reader, "travel"), _shown(finding, reader, "before")
    return Words(
        f"The travel is {travel}, and this bend was pushed to {before} already.",
        "Enter the travel from first contact, or another part number if this is the next part.",
    )


def _angle_back(finding: Finding, reader: Reader) -> Words:
    free, before = _shown(finding, reader, "free"), _shown(finding, reader, "before")
    return Words(
        f"The bend measures {free} and measured {before} after a shorter push: pushing on only "
        "adds to a bend.",
        _AGAIN,
    )


def _twice(finding: Finding, reader: Reader) -> Words:
    del reader
    part, bend = finding.one(Count, "part").value, finding.one(Count, "bend").value
    return Words(
        f"The same readings of bend {bend} of part {part} are in the log already.",
        "Leave it, or enter another part number.",
    )


def _past_jam(finding: Finding, reader: Reader) -> Words:
    travel, jam = _shown(finding, reader, "travel"), _shown(finding, reader, "jam")
    return Words(
        f"The tooling jams before a travel of {travel}: it goes no further than about {jam} under "
        "load.",
        "Check the travel, and the sizes of nose and shoulders in the job.",
    )


def _gauge_unit(finding: Finding, reader: Reader) -> Words:
    gauge, meant = _shown(finding, reader, "gauge"), _shown(finding, reader, "meant")
    wanted, typed = finding.one(Choice, "unit").value.split(" for ")
    return Words(
        f"The pressure gauge reads {gauge}, far from what was expected: was {wanted} meant and not "
        f"{typed}? That would be {meant}.",
        "Write the unit behind the number.",
    )


def _above_relief(finding: Finding, reader: Reader) -> Words:
    gauge, relief = _shown(finding, reader, "gauge"), _shown(finding, reader, "relief")
    return Words(
        f"The pressure gauge reads {gauge}, and the relief valve opens at {relief}.",
        "Stop and check the relief valve and the gauge before the next push.",
    )


def _below_no_load(finding: Finding, reader: Reader) -> Words:
    gauge, none = _shown(finding, reader, "gauge"), _shown(finding, reader, "no_load")
    return Words(
        f"The pressure gauge reads {gauge}, less than the {none} with which the ram runs free.",
        "Read it at the end of the push, before the ram goes back.",
    )


def _another_bar(finding: Finding, reader: Reader) -> Words:
    show, way = reader.figures, finding.one(Choice, "way").value
    band = Band(low=finding.one(Pressure, "low").value, high=finding.one(Pressure, "high").value)
    gauge = show.pressure(finding.one(Pressure, "gauge").value)
    return Words(
        f"The pressure gauge reads {gauge}, and {show.between(band, 'MPa')} was expected: the bar "
        f"is {_BARS[way]}, or this is another bar.",
        "Measure thickness and width, and check which lot it came from.",
    )


def _included(finding: Finding, reader: Reader) -> Words:
    free, meant = _shown(finding, reader, "free"), _shown(finding, reader, "meant")
    return Words(
        f"The angle is {free}: is that the angle between the legs? The bend angle would be "
        f"{meant}.",
        "Enter how far the bend turns the bar.",
    )


def _loaded(finding: Finding, reader: Reader) -> Words:
    free, expected = _shown(finding, reader, "free"), _shown(finding, reader, "expected")
    return Words(
        f"The angle is {free}, as expected under load; after release {expected} was expected.",
        "Release all pressure, then measure.",
    )


def _another_bend(finding: Finding, reader: Reader) -> Words:
    free, expected = _shown(finding, reader, "free"), _shown(finding, reader, "expected")
    other = finding.one(Count, "bend").value
    return Words(
        f"The angle is {free} and {expected} was expected: is this bend {other}?",
        "Check the number of the bend.",
    )


def _angle_off(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    band = Band(low=finding.one(Angle, "low").value, high=finding.one(Angle, "high").value)
    return Words(
        f"The angle is {show.angle(finding.one(Angle, 'free').value)}, and "
        f"{show.between(band, 'rad')} was expected.",
        "Measure again; check the stop, first contact and the bar.",
    )


def _leg_off(finding: Finding, reader: Reader) -> Words:
    leg = finding.one(Count, "leg").value
    read, wanted = _shown(finding, reader, "read"), _shown(finding, reader, "wanted")
    return Words(
        f"Leg {leg} measures {read}, and {wanted} is wanted.",
        "Measure it again, and check that the legs are entered in order from end 1.",
    )


def _shown(finding: Finding, reader: Reader, name: str) -> str:
    """Print one fact of a reading as the reader's job does."""
    show, fact = reader.figures, finding.facts[name]
    if isinstance(fact, Angle):
        return show.angle(fact.value)
    if isinstance(fact, Pressure):
        return show.pressure(fact.value)
    return show.setting(finding.one(Length, name).value)


_BARS = {
    "harder": "harder or thicker than the others",
    "softer": "softer or thinner than the others",
}

DOUBT_WORDS: Mapping[str, Teller] = {
    "reading-opens-wrong": _opens_wrong,
    "reading-looks-apart": _looks_apart,
    "reading-past-stroke": _past_stroke,
    "reading-travel-unit": _travel_unit,
    "reading-travel-back": _travel_back,
    "reading-angle-back": _angle_back,
    "reading-twice": _twice,
    "reading-past-jam": _past_jam,
    "reading-gauge-unit": _gauge_unit,
    "reading-above-relief": _above_relief,
    "reading-below-no-load": _below_no_load,
    "reading-another-bar": _another_bar,
    "reading-included": _included,
    "reading-loaded": _loaded,
    "reading-another-bend": _another_bend,
    "reading-angle-off": _angle_off,
    "reading-leg-off": _leg_off,
}
