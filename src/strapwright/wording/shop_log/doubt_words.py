"""Words that ask about a reading before it is kept."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.bending.bend_values import Band
from strapwright.findings import Angle, Choice, Count, Finding, Length, Pressure
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words

_AGAIN = "Read it again, or confirm that it is right."


def _opens_wrong(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    free, loaded = finding.one(Angle, "free").value, finding.one(Angle, "loaded").value
    return Words(
        f"The bend measures {show.angle(free)} after release and {show.angle(loaded)} under load: "
        "a bar springs open, never further closed.",
        "Check whether the two are swapped.",
    )


def _past_stroke(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    travel, stroke = finding.one(Length, "travel").value, finding.one(Length, "stroke").value
    return Words(
        f"The travel is {show.setting(travel)} and the ram has a stroke of {show.setting(stroke)}.",
        _AGAIN,
    )


def _travel_unit(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    travel, meant = finding.one(Length, "travel").value, finding.one(Length, "meant").value
    wanted, typed = finding.one(Choice, "unit").value.split(" for ")
    return Words(
        f"The travel is {show.setting(travel)}, far from the plan: was {wanted} meant and not "
        f"{typed}? That would be {show.setting(meant)}.",
        "Write the unit behind the number.",
    )


def _travel_back(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    travel, before = finding.one(Length, "travel").value, finding.one(Length, "before").value
    return Words(
        f"The travel is {show.setting(travel)}, and this bend was pushed to "
        f"{show.setting(before)} already.",
        "Enter the travel from first contact, or another part number if this is the next part.",
    )


def _angle_back(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    free, before = finding.one(Angle, "free").value, finding.one(Angle, "before").value
    return Words(
        f"The bend measures {show.angle(free)} and measured {show.angle(before)} after a shorter "
        "push: pushing on only adds to a bend.",
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
    show = reader.figures
    travel, jam = finding.one(Length, "travel").value, finding.one(Angle, "jam").value
    return Words(
        f"The tooling jams before a travel of {show.setting(travel)}: "
        f"it goes no further than about {show.angle(jam)} under load.",
        "Check the travel, and the sizes of nose and shoulders in the job.",
    )


def _gauge_unit(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    gauge, meant = finding.one(Pressure, "gauge").value, finding.one(Pressure, "meant").value
    wanted, typed = finding.one(Choice, "unit").value.split(" for ")
    return Words(
        f"The pressure gauge reads {show.pressure(gauge)}, far from what was expected: was "
        f"{wanted} meant and not {typed}? That would be {show.pressure(meant)}.",
        "Write the unit behind the number.",
    )


def _above_relief(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    gauge, relief = finding.one(Pressure, "gauge").value, finding.one(Pressure, "relief").value
    return Words(
        f"The pressure gauge reads {show.pressure(gauge)}, and the relief valve opens at "
        f"{show.pressure(relief)}.",
        "Stop and check the relief valve and the gauge before the next push.",
    )


def _below_no_load(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    gauge, none = finding.one(Pressure, "gauge").value, finding.one(Pressure, "no_load").value
    return Words(
        f"The pressure gauge reads {show.pressure(gauge)}, less than the {show.pressure(none)} "
        "with which the ram runs free.",
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
    show = reader.figures
    free, meant = finding.one(Angle, "free").value, finding.one(Angle, "meant").value
    return Words(
        f"The angle is {show.angle(free)}: is that the angle between the legs? The bend angle "
        f"would be {show.angle(meant)}.",
        "Enter how far the bend turns the bar.",
    )


def _loaded(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    free, expected = finding.one(Angle, "free").value, finding.one(Angle, "expected").value
    return Words(
        f"The angle is {show.angle(free)}, as expected under load; after release "
        f"{show.angle(expected)} was expected.",
        "Release all pressure, then measure.",
    )


def _another_bend(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    free, expected = finding.one(Angle, "free").value, finding.one(Angle, "expected").value
    other = finding.one(Count, "bend").value
    return Words(
        f"The angle is {show.angle(free)} and {show.angle(expected)} was expected: is this bend "
        f"{other}?",
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
    show, leg = reader.figures, finding.one(Count, "leg").value
    read, wanted = finding.one(Length, "read").value, finding.one(Length, "wanted").value
    return Words(
        f"Leg {leg} measures {show.setting(read)}, and {show.setting(wanted)} is wanted.",
        "Measure it again, and check that the legs are entered in order from end 1.",
    )


_BARS = {
    "harder": "harder or thicker than the others",
    "softer": "softer or thinner than the others",
}

DOUBT_WORDS: Mapping[str, Teller] = {
    "reading-opens-wrong": _opens_wrong,
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
