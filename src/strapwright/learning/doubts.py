"""Readings that cannot be, or hardly: each is asked about while the bar is still at hand."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from attrs import frozen

from strapwright.findings import Angle, Choice, Count, Finding, Length, Pressure, Severity
from strapwright.learning.foretelling import Figure, Foretold
from strapwright.learning.log_spreads import USUAL_LOG
from strapwright.quantities.inside_units import INCH_MM, PSI_MPA

BAR_IN_PSI = 0.1 / PSI_MPA  # exact: a bar is 0.1 MPa
# Within this share a figure is taken for the one foretold; a guess that only asks a question
# (common practice, no source).
_CLOSE = 0.35
# How many half bands a reading may lie off before it is asked about, beside what the eye adds;
# common practice, no source: three deviations.
_FAR = 3.0 / 1.645
# A leg this many thicknesses off was misread, or is another leg (common practice, no source).
_LEG_OFF = 10.0
_ASKED = Severity.WARNING
# Two looks at one angle differ by more than this once in 1000 times, where nothing is wrong: 3.29
# deviations of a difference of two.
_LOOKS_APART = 3.29 * math.sqrt(2.0) * USUAL_LOG.protractor
_EYE_ANGLE, _EYE_GAUGE = math.radians(1.5), 0.15  # of a hurried look (common practice, no source)


@frozen(kw_only=True)
class Typed:
    """One push as it was typed, in mm, MPa and rad.

    Attributes
    ----------
    travel
        From first contact; ``None`` where the plan's own setting was used.
    free
        The mean of ``looks``.
    looks
        The angle after release, each time that it was measured.
    """

    part: int
    bend: int
    travel: float | None
    free: float | None = None
    loaded: float | None = None
    gauge: float | None = None
    looks: tuple[float, ...] = ()


@frozen(kw_only=True)
class Limits:
    """What the press and the tooling can do; ``None`` where not stated.

    Attributes
    ----------
    relief, no_load
        Of the press [MPa].
    stroke
        Of the ram [mm].
    jam
        Loaded angle at which the tooling jams [rad].
    planned
        Travel of the plan's own setting [mm].
    """

    relief: float | None
    no_load: float
    stroke: float | None
    jam: float
    planned: float


def doubts(
    typed: Typed,
    expected: Foretold | None,
    limits: Limits,
    before: Sequence[Typed] = (),
    others: Iterable[tuple[int, Foretold]] = (),
) -> tuple[Finding, ...]:
    """Return what is to be asked about a reading before it is kept.

    Parameters
    ----------
    typed
        The reading.
    expected
        What it was foretold to be; ``None`` where the tooling jams before that travel.
    limits
        Of press and tooling.
    before
        Readings of this job that were kept, oldest first.
    others
        Other bends of the job with what they were foretold to be.
    """
    relief = _above_relief(typed, limits)  # whatever else is asked, this is said
    slip = _travel_unit(typed, limits)
    if slip:
        return (*slip, *relief)  # whatever else is said of that travel says the same
    found = [*_impossible(typed, limits), *_against_earlier(typed, before), *relief]
    if expected is None:
        found.append(
            Finding(
                code="reading-past-jam",
                severity=_ASKED,
                about=(),
                facts={"travel": Length(typed.travel or 0.0), "jam": Angle(limits.jam)},
            )
        )
        return tuple(found)
    found += _gauge(typed, expected, limits) + _angles(typed, expected, others)
    return tuple({one.code: one for one in found}.values())


def leg_doubts(legs: Mapping[int, tuple[float, float]], thickness: float) -> tuple[Finding, ...]:
    """Return what is to be asked about finished legs.

    Parameters
    ----------
    legs
        Number of a leg -> as read and as wanted [mm].
    thickness
        Of the bar [mm].
    """
    return tuple(
        Finding(
            code="reading-leg-off",
            severity=_ASKED,
            about=(),
            facts={"leg": Count(place), "read": Length(read), "wanted": Length(wanted)},
        )
        for place, (read, wanted) in legs.items()
        if abs(read - wanted) > _LEG_OFF * thickness
    )


def _impossible(typed: Typed, limits: Limits) -> list[Finding]:
    found = _looks_apart(typed)
    if typed.free is not None and typed.loaded is not None and typed.free > typed.loaded:
        found.append(
            Finding(
                code="reading-opens-wrong",
                severity=_ASKED,
                about=(),
                facts={"free": Angle(typed.free), "loaded": Angle(typed.loaded)},
            )
        )
    if limits.stroke is not None and typed.travel is not None and typed.travel > limits.stroke:
        found.append(
            Finding(
                code="reading-past-stroke",
                severity=_ASKED,
                about=(),
                facts={"travel": Length(typed.travel), "stroke": Length(limits.stroke)},
            )
        )
    return found


def _looks_apart(typed: Typed) -> list[Finding]:
    """One bend has one angle: two that lie further apart than a protractor errs are a question."""
    if len(typed.looks) < 2 or max(typed.looks) - min(typed.looks) <= _LOOKS_APART:
        return []
    return [
        Finding(
            code="reading-looks-apart",
            severity=_ASKED,
            about=(),
            facts={"free": Angle(typed.looks[0]), "again": Angle(typed.looks[-1])},
        )
    ]


def _above_relief(typed: Typed, limits: Limits) -> list[Finding]:
    gauge, relief = typed.gauge, limits.relief
    if gauge is None or relief is None or gauge <= relief:
        return []
    return [
        Finding(
            code="reading-above-relief",
            severity=_ASKED,
            about=(),
            facts={"gauge": Pressure(gauge), "relief": Pressure(relief)},
        )
    ]


def _travel_unit(typed: Typed, limits: Limits) -> list[Finding]:
    travel = typed.travel
    if travel is None:
        return []
    for factor, unit in ((INCH_MM, "in for mm"), (1.0 / INCH_MM, "mm for in")):
        if _is(travel * factor, limits.planned):
            return [
                Finding(
                    code="reading-travel-unit",
                    severity=_ASKED,
                    about=(),
                    facts={
                        "travel": Length(travel),
                        "meant": Length(travel * factor),
                        "unit": Choice(unit),
                    },
                )
            ]
    return []


def _against_earlier(typed: Typed, before: Sequence[Typed]) -> list[Finding]:
    found = []
    same = [one for one in before if (one.part, one.bend) == (typed.part, typed.bend)]
    last = same[-1] if same else None
    if last is not None and last.travel is not None and typed.travel is not None:
        if typed.travel < last.travel:
            found.append(
                Finding(
                    code="reading-travel-back",
                    severity=_ASKED,
                    about=(),
                    facts={"travel": Length(typed.travel), "before": Length(last.travel)},
                )
            )
        elif (
            last.free is not None and typed.free is not None and typed.free < last.free - _EYE_ANGLE
        ):
            found.append(
                Finding(
                    code="reading-angle-back",
                    severity=_ASKED,
                    about=(),
                    facts={"free": Angle(typed.free), "before": Angle(last.free)},
                )
            )
    if last is not None and typed == last:
        found.append(
            Finding(
                code="reading-twice",
                severity=_ASKED,
                about=(),
                facts={"part": Count(last.part), "bend": Count(last.bend)},
            )
        )
    return found


def _gauge(typed: Typed, expected: Foretold, limits: Limits) -> list[Finding]:
    gauge, figure = typed.gauge, expected.gauge
    if gauge is None:
        return []
    for factor, unit in ((BAR_IN_PSI, "bar for psi"), (1.0 / BAR_IN_PSI, "psi for bar")):
        # What is foretold tells them apart only where the two units do not both fit.
        if figure is not None and _is(gauge * factor, figure.value) and not _fits(gauge, figure):
            return [
                Finding(
                    code="reading-gauge-unit",
                    severity=_ASKED,
                    about=(),
                    facts={
                        "gauge": Pressure(gauge),
                        "meant": Pressure(gauge * factor),
                        "unit": Choice(unit),
                    },
                )
            ]
    if limits.relief is not None and gauge > limits.relief:
        return []  # said already, and more than what was foretold
    if gauge < limits.no_load:
        return [
            Finding(
                code="reading-below-no-load",
                severity=_ASKED,
                about=(),
                facts={"gauge": Pressure(gauge), "no_load": Pressure(limits.no_load)},
            )
        ]
    if figure is not None and not _fits(gauge, figure):
        return [
            Finding(
                code="reading-another-bar",
                severity=_ASKED,
                about=(),
                facts={
                    "gauge": Pressure(gauge),
                    "low": Pressure(figure.band.low),
                    "high": Pressure(figure.band.high),
                    "way": Choice("harder" if gauge > figure.value else "softer"),
                },
            )
        ]
    return []


def _angles(
    typed: Typed, expected: Foretold, others: Iterable[tuple[int, Foretold]]
) -> list[Finding]:
    free = typed.free
    if free is None or _near(free, expected.free):
        return []
    if _near(math.pi - free, expected.free):
        return [
            Finding(
                code="reading-included",
                severity=_ASKED,
                about=(),
                facts={"free": Angle(free), "meant": Angle(math.pi - free)},
            )
        ]
    if typed.loaded is None and _near(free, expected.loaded):
        return [
            Finding(
                code="reading-loaded",
                severity=_ASKED,
                about=(),
                facts={"free": Angle(free), "expected": Angle(expected.free.value)},
            )
        ]
    for bend, other in others:
        if _near(free, other.free):
            return [
                Finding(
                    code="reading-another-bend",
                    severity=_ASKED,
                    about=(),
                    facts={
                        "free": Angle(free),
                        "expected": Angle(expected.free.value),
                        "bend": Count(bend),
                    },
                )
            ]
    return [
        Finding(
            code="reading-angle-off",
            severity=_ASKED,
            about=(),
            facts={
                "free": Angle(free),
                "low": Angle(expected.free.band.low),
                "high": Angle(expected.free.band.high),
            },
        )
    ]


def _is(value: float, foretold: float) -> bool:
    return abs(value - foretold) <= _CLOSE * foretold


def _fits(gauge: float, figure: Figure) -> bool:
    half = 0.5 * (figure.band.high - figure.band.low)
    return abs(gauge - figure.value) <= _FAR * half + _EYE_GAUGE * figure.value


def _near(angle: float, figure: Figure) -> bool:
    half = 0.5 * (figure.band.high - figure.band.low)
    return abs(angle - figure.value) <= _FAR * half + _EYE_ANGLE
