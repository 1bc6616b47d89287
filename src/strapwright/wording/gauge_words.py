"""Words for a gauge reading that is not given."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.planning.plan_values import NoGauge
from strapwright.wording.reader import Medium

_AS_WRITTEN: Mapping[NoGauge, str] = {
    "no press": "gauge: state bore and relief in [press]",
    "no bore": "gauge: state press.bore",
}
_ON_PAGE: Mapping[NoGauge, str] = {
    "no press": "gauge: state bore and relief on the press page",
    "no bore": "gauge: state the bore",
}


def no_gauge_words(why: NoGauge | None, medium: Medium = "command") -> str:
    """Say what to state for a gauge reading; empty where it is given.

    Parameters
    ----------
    why
        Of a step.
    medium
        A page names no keys.
    """
    if why is None:
        return ""
    return (_ON_PAGE if medium == "page" else _AS_WRITTEN)[why]
