"""Words for bends that are finished off the tooling."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Choice, Finding, Force, Length
from strapwright.wording.figures import Figures
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words


def _not_proven(_: Finding, __: Reader) -> Words:
    return Words(
        "The blank and the marks are those of a bend made wholly on the press. How it comes out "
        "when the bench finishes it is not tested.",
        "Make one part first and measure its legs.",
    )


def _no_grip(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    had = show.clearance(finding.one(Length, "had").value)  # else 9.97 would read as 10
    needed = show.size(finding.one(Length, "needed").value)
    where = "the jaws hold" if finding.one(Choice, "by").value == "vise" else "the faces press on"
    return Words(
        f"The leg that {where} has only {had} of straight bar beside the bend; {needed} is needed "
        "(common practice, no source).",
        "Make the leg longer, or use tooling that makes the whole bend.",
    )


def _too_heavy(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    if finding.one(Choice, "by").value == "vise":
        return _too_heavy_by_hand(finding, show)
    force, most = (show.force(finding.one(Force, name).value) for name in ("force", "most"))
    return Words(
        f"Squeezing it shut takes up to {force}, and the ram gives {most} at relief.",
        "Let the press make more of the bend, or use tooling that makes the whole bend.",
    )


def _too_heavy_by_hand(finding: Finding, show: Figures) -> Words:
    arm, most = (show.size(finding.one(Length, name).value) for name in ("arm", "most_arm"))
    return Words(
        f"One person would have to pull {arm} from the bend; past {most} a vise no longer holds "
        "the bar (common practice, no source).",
        "Squeeze it in the press, or use tooling that makes the whole bend.",
    )


FINISH_WORDS: Mapping[str, Teller] = {
    "finish-not-proven": _not_proven,
    "finish-no-grip": _no_grip,
    "finish-too-heavy": _too_heavy,
}
