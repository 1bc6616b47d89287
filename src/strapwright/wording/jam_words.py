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
        f"A {wanted:.4g}° bend cannot be made: the tooling jams at {jam}° under load, which leaves "
        f"{reaches}° at most after release. It gets no step; blank and marks are by the handbook "
        "rule."
    )
    remedy = "Open the shoulders, or use a smaller nose or smaller shoulder radii."
    return Words(text, "" if "tried" in finding.facts else remedy)


JAM_WORDS: Mapping[str, Teller] = {"bend-jams": _jams}
