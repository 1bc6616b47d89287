"""Words for a bend that the tooling jams before."""

from __future__ import annotations

import math
from collections.abc import Mapping

from strapwright.findings import Angle, Finding
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words, degrees


def _jams(finding: Finding, _: Reader) -> Words:
    wanted = degrees(finding.one(Angle, "wanted"))
    jam, reaches = (math.floor(degrees(finding.one(Angle, n))) for n in ("jam", "reaches"))
    text = (
        f"A bend of {wanted:.4g} deg cannot be made: this tooling jams at {jam} deg under load and "
        f"leaves {reaches} deg at most. It gets no step, and blank and marks follow the handbook "
        "line."
    )
    remedy = "Open the shoulders, or take a smaller nose or smaller shoulder radii."
    return Words(text, "" if "tried" in finding.facts else remedy)


JAM_WORDS: Mapping[str, Teller] = {"bend-jams": _jams}
