"""Words for where the ram stops, how fast it comes there and what the press cannot do."""

from __future__ import annotations

import math
from collections.abc import Mapping

from strapwright.errors import key_of
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
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words, degrees


def _reach_unknown(_: Finding, reader: Reader) -> Words:
    return Words(
        "No stop distance and no stop block: the nose reach is missing.",
        f"Enter {reader.key('tooling.nose.reach')}, from the push plate face to the nose tip.",
    )


def _height_unknown(_: Finding, reader: Reader) -> Words:
    return Words(
        "No stop block height: the shoulder height is missing.",
        f"Enter {reader.key('tooling.shoulders.height')}, from the bed to the shoulder tops.",
    )


def _unreachable(finding: Finding, reader: Reader) -> Words:
    return Words(
        "The push plate hits the shoulders before full stroke: the nose is "
        f"{reader.figures.size(finding.one(Length, 'short').value)} too short.",
        "Use a nose with more reach, or a narrower opening, which needs less travel.",
    )


def _too_fast(finding: Finding, _: Reader) -> Words:
    rate = math.degrees(finding.one(AngleRate, "rate").value)
    return Words(
        f"Near full stroke the angle changes by {rate:.0f}° per second, about "
        f"{degrees(finding.one(Angle, 'turned')):.0f}° before you can react "
        f"({finding.one(Seconds, 'reaction').value} s): too fast to stop by eye.",
        "Stop the ram on a block, or push in stages with less flow.",
    )


_LIMITED_BY = {"member": "weakest member", "relief": "relief setting"}


def _ease_off(finding: Finding, reader: Reader) -> Words:
    if "needed" in finding.facts:  # without a bore there is no gauge to stop by
        needed, limit = _needed_and_limit(finding, reader)
        return Words(
            f"The weakest member of the tooling can carry {limit}, and a hard or thick bar may "
            f"need up to {needed}. Without a bore no gauge reading can be given to stop at.",
            f"Enter {key_of('press.bore')}, use a wider opening or a thinner bar, or stronger "
            "tooling.",
        )
    return Words(
        f"The {_LIMITED_BY[finding.one(Choice, 'held_by').value]} allows only "
        f"{_percent(finding.one(Share, 'share').value)} of the highest gauge reading this bend may "
        "need. With a hard or thick bar you have to stop before the bend is finished.",
        "Use a wider opening or a thinner bar, or stronger tooling; never go above the pressure "
        "given.",
    )


def _press_too_weak(finding: Finding, reader: Reader) -> Words:
    needed, limit = _needed_and_limit(finding, reader)
    return Words(
        f"This bend should need {needed}, but the relief valve opens at {limit}: the ram stops "
        "before the bend is finished.",
        "Use a wider opening, a thinner bar, fewer bars at once or a larger cylinder. Do not raise "
        "the relief setting.",
    )


def _tooling_too_weak(finding: Finding, reader: Reader) -> Words:
    needed, limit = _needed_and_limit(finding, reader)
    return Words(
        f"This bend should need {needed}, but the weakest member of the tooling can carry only "
        f"{limit}.",
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
        "No press entered: you get blank, marks, travel and force, but no gauge reading.",
        f"Enter {reader.table('press')} bore and relief.",
    )


_MISSING = {"press.bore": "bore", "press.relief": "relief"}


def _incomplete(finding: Finding, reader: Reader) -> Words:
    missing = finding.several(KeyAt, "missing")
    return Words(
        f"The press is missing its {' and '.join(_MISSING[one.path] for one in missing)}, so some "
        "gauge and relief figures are left out.",
        f"Enter {reader.key(missing[0].path)}.",
    )


def _stroke(finding: Finding, reader: Reader) -> Words:
    needed, stroke = (
        reader.figures.size(finding.one(Length, name).value) for name in ("needed", "stroke")
    )
    return Words(
        f"A bend needs {needed} of travel, but the cylinder has a stroke of {stroke}.",
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
