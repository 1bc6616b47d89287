"""Words for a reading that was kept: what was expected, how much further, the next part."""

from __future__ import annotations

from strapwright.bending.bend_values import Band
from strapwright.learning.foretelling import Foretold
from strapwright.wording.caution_words import NEVER_ABOVE
from strapwright.wording.figures import Banded, Figures

RELEASE = "Release all pressure before you measure."
JAMS_BY_LOG = "The log says that the tooling jams before this angle. Correct what was misread."


def expected_words(expected: Foretold | None, show: Figures) -> str:
    """Say what a push was expected to show."""
    if expected is None:
        return "The tooling was expected to jam before that travel."
    said = f"Expected: {_figure(show.banded(expected.free.value, expected.free.band, 'rad'))}"
    said += " after release"
    if expected.gauge is not None:
        gauge = show.banded(expected.gauge.value, expected.gauge.band, "MPa")
        said += f", pressure gauge {_figure(gauge)}"
    return f"{said}."


def measured_words(free: float | None, wanted: float, show: Figures) -> str:
    """Say what it measures and what is wanted; nothing where no angle was read."""
    if free is None:
        return ""
    return f"It measures {show.angle(free)}; {show.angle(wanted)} is wanted."


def assumed_words(travel: float, show: Figures) -> str:
    """Say which travel was logged where none was entered."""
    return (
        f"No travel was entered, so the stop of {show.setting(travel)} from first contact is "
        "logged."
    )


def assumed_stop_words(travel: float, show: Figures) -> str:
    """Say the same in a few words, behind what was kept."""
    return f"stopped as shown at {show.setting(travel)}"


def hits_words(hits: int) -> str:
    """Say that a stop is that of each hit; nothing for a bend of one push."""
    return f"Each of {hits} hits. Measure the whole bend after the last one." if hits > 1 else ""


def further_words(extra: float, band: Band, pushed: float, show: Figures, hits: int) -> str:
    """Say how much further to push the part that is on the press."""
    each = f"Go over all {hits} hits again. " if hits > 1 else ""
    return (
        f"{each}Push {show.setting(extra)} further ({_ends(band, show)}), to "
        f"{show.setting(pushed + extra)} from first contact. {RELEASE} {NEVER_ABOVE}"
    )


def no_push_words(standing: str, tolerance: float, show: Figures) -> str:
    """Say why this part is not pushed further.

    Parameters
    ----------
    standing
        As the part was found to be, by its name.
    tolerance
        Of the angle [rad].
    """
    within = show.angle(tolerance)
    return {
        "not read": "No angle was entered, so nothing is said of a further push.",
        "past": f"It is past the tolerance of {within}: do not push it further.",
        "jams": "It is short, and the log says that the tooling jams before the angle. Check "
        "travel, nose and shoulders.",
        "far enough": "It is short, but this push should have been enough. Measure again, then "
        "push a little further and measure.",
        "finished": f"This bend is finished: it is within {within} of that.",
    }[standing]


def setting_words(
    bend: int, before: float, now: float, free: tuple[Band, Band], show: Figures
) -> str:
    """Say where a bend stops before and after learning, and how sure the angle is [mm], [rad]."""
    first, last = (show.between(band, "rad") for band in free)
    return (
        f"Bend {bend}: {show.setting(now)} from first contact, {show.setting(before)} before the "
        f"log. The angle then comes out {last}, {first} before."
    )


def next_words(travel: float, band: Band, show: Figures) -> str:
    """Say where to stop with the next part."""
    return f"Next part: stop at {show.setting(travel)} ({_ends(band, show)}) from first contact."


def onto_words(travel: float, show: Figures) -> str:
    """Say to which travel a further push goes."""
    return f"to {show.setting(travel)} from first contact"


def band_words(band: Band, show: Figures) -> str:
    """Both ends of where the ram stops."""
    return _ends(band, show)


def _ends(band: Band, show: Figures) -> str:
    return f"{show.bare_setting(band.low)} to {show.setting(band.high)}"


def _figure(shown: Banded) -> str:
    return f"{shown.shown} ({shown.low} to {shown.high})"
