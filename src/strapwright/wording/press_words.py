"""Words for where the ram stops, how fast it comes there and what the press cannot do."""

from __future__ import annotations

import math
from collections.abc import Mapping

from strapwright.findings import (
    Angle,
    AngleRate,
    Choice,
    Finding,
    Force,
    KeyAt,
    Length,
    Pressure,
    Seconds,
    Share,
)
from strapwright.quantities import show_both
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words, degrees


def _reach_unknown(_: Finding, reader: Reader) -> Words:
    return Words(
        "The distance to measure at full stroke and the stop block are not given, because the "
        "reach of the nose is not stated.",
        f"State {reader.key('tooling.nose.reach')}, from the face of its plate to the nose's tip.",
    )


def _height_unknown(_: Finding, reader: Reader) -> Words:
    return Words(
        "The stop block is not given, because the height of the shoulders is not stated.",
        f"State {reader.key('tooling.shoulders.height')}, from the face they stand on to their "
        "tops.",
    )


def _unreachable(finding: Finding, _: Reader) -> Words:
    return Words(
        "The plate that carries the nose meets the shoulders before the stroke is done: the nose "
        f"is {show_both(finding.one(Length, 'short').value)} too short.",
        "Use a nose with more reach, or a narrower opening, which needs less travel.",
    )


def _too_fast(finding: Finding, _: Reader) -> Words:
    rate = math.degrees(finding.one(AngleRate, "rate").value)
    return Words(
        f"At the end of the stroke the bend turns {rate:.0f} deg in a second, "
        f"{degrees(finding.one(Angle, 'turned')):.0f} deg in the "
        f"{finding.one(Seconds, 'reaction').value} s that a person takes to react; it is too fast "
        "to stop by eye.",
        "Stop the ram on a block, or push in stages with less flow.",
    )


_HELD_BY = {"member": "rating of the weakest member", "relief": "relief setting"}


def _ease_off(finding: Finding, _: Reader) -> Words:
    return Words(
        f"The {_HELD_BY[finding.one(Choice, 'held_by').value]} is at "
        f"{_percent(finding.one(Share, 'share').value)} of the upper end of the gauge band. The "
        "bar expected stays below it; a harder or thicker one does not, and then you have to back "
        "off before the bend is finished.",
        "Use a wider opening or a thinner bar, or stronger tooling; never go above the pressure "
        "given.",
    )


def _press_too_weak(finding: Finding, reader: Reader) -> Words:
    needed, limit = _needed_and_limit(finding, reader)
    return Words(
        f"This bend is expected to need {needed} and the relief valve opens at {limit}: the ram "
        "stops before the bend is finished.",
        "Use a wider opening, a thinner bar, fewer bars at once or a larger cylinder; do not "
        "raise the relief setting.",
    )


def _tooling_too_weak(finding: Finding, reader: Reader) -> Words:
    needed, limit = _needed_and_limit(finding, reader)
    return Words(
        f"This bend is expected to need {needed} and the weakest member of the tooling is rated "
        f"for {limit}.",
        "Use a wider opening, a thinner bar, fewer bars at once or stronger tooling; never push "
        f"past {limit}.",
    )


def _needed_and_limit(finding: Finding, reader: Reader) -> tuple[str, str]:
    show = reader.figures
    if isinstance(finding.facts["needed"], Force):
        needed, limit = (finding.one(Force, name).value for name in ("needed", "limit"))
        return show.force(needed), show.force(limit)
    return (
        show.pressure_up(finding.one(Pressure, "needed").value),
        show.pressure_down(finding.one(Pressure, "limit").value),
    )


def _percent(share: float) -> str:
    # Rounded down: 99.6 % must not read as 100 %.
    return f"{math.floor(100 * share)} %"


def _no_press(_: Finding, reader: Reader) -> Words:
    return Words(
        "No press is stated: blank, marks, travel and force are given, the gauge is not.",
        f"State {reader.table('press')} bore and relief.",
    )


_MISSING = {"press.bore": "bore", "press.relief": "relief"}


def _incomplete(finding: Finding, reader: Reader) -> Words:
    missing = finding.several(KeyAt, "missing")
    return Words(
        f"The press does not state its {' and '.join(_MISSING[one.path] for one in missing)}, so "
        "gauge, relief to set or what it can do are not all given.",
        f"State {reader.key(missing[0].path)}.",
    )


def _stroke(finding: Finding, _: Reader) -> Words:
    needed, stroke = (finding.one(Length, name).value for name in ("needed", "stroke"))
    return Words(
        f"A bend needs {show_both(needed)} of travel and the cylinder has {show_both(stroke)}.",
        "Use a narrower opening.",
    )


PRESS_WORDS: Mapping[str, Teller] = {
    "nose-reach-unknown": _reach_unknown,
    "shoulder-height-unknown": _height_unknown,
    "stop-unreachable": _unreachable,
    "too-fast-to-stop": _too_fast,
    "ease-off-below-band": _ease_off,
    "press-too-weak": _press_too_weak,
    "tooling-too-weak": _tooling_too_weak,
    "no-press": _no_press,
    "press-incomplete": _incomplete,
    "stroke-too-short": _stroke,
}
