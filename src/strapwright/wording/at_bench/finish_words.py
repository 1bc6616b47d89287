"""Words for bends that are finished off the tooling."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Angle, Choice, Finding, Force, Length, Name
from strapwright.ordering.refusal_values import Refusal
from strapwright.wording.figures import Figures
from strapwright.wording.reader import Reader
from strapwright.wording.refusal_words import assumed_sizes, refusal_clause
from strapwright.wording.words import Teller, Words

# In a plan that is refused, in place of how a bend is finished.
NOT_TO_CLOSE = "The part is refused, so no force and no angle to go past is given."


def _not_proven(_: Finding, __: Reader) -> Words:
    return Words(
        "The blank and the marks are those of a bend made in one push. How it comes out when it is "
        "finished another way is not tested.",
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


def _blocked(finding: Finding, reader: Reader) -> Words:
    refusals = finding.several(Refusal, "refusals")
    why = f": {refusal_clause(refusals[0], reader.figures)}" if refusals else ""
    return Words(
        f"It cannot be pushed on once the other bends are made{why}. "
        f"{assumed_sizes(refusals)}".rstrip(),
        "Let the first stroke make more of the bend, or finish it in a vise.",
    )


def _nose_too_round(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    nose, inside = (show.size(finding.one(Length, name).value) for name in ("nose", "inside"))
    name = finding.one(Name, "name").value
    return Words(
        f"The nose of {name} has a radius of {nose}, and the inside of the bend has only {inside} "
        "by then: it would bear on the legs and open the bend around itself.",
        "Finish it on a nose that is no rounder than the first one.",
    )


def _too_little(finding: Finding, reader: Reader) -> Words:
    has = reader.figures.angle(finding.one(Angle, "begins").value)
    name = finding.one(Name, "name").value
    return Words(
        f"It has {has} already and is tighter than {name} bends: too little is left to say where "
        "to stop.",
        "Stop its first stroke earlier, finish it on a narrower opening, or in a vise.",
    )


FINISH_WORDS: Mapping[str, Teller] = {
    "finish-blocked": _blocked,
    "finish-nose-too-round": _nose_too_round,
    "finish-too-little": _too_little,
    "finish-not-proven": _not_proven,
    "finish-no-grip": _no_grip,
    "finish-too-heavy": _too_heavy,
}
