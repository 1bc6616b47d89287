"""Words for a quarter twist of a flat: what is done, and what speaks against it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from strapwright.findings import Count, Finding, Length, Share
from strapwright.planning.bench_work.work_values import Twisting
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words

# In a plan that is refused, in place of how it is twisted.
NOT_TO_TWIST = "The part is refused, so no pull and no angle to go past is given."


def twist_title(work: Twisting) -> str:
    """Say which leg is twisted, and before which bends."""
    return f"Twist leg {work.leg} a quarter turn{_before(work.before)}"


def twist_first(works: Iterable[object], bend: int, steps: Sequence[int]) -> str:
    """Say before a bend that a leg is twisted first; empty where none is.

    Parameters
    ----------
    works
        At the bench.
    bend, steps
        1-based, and all bends in the order of making.
    """
    for work in works:
        if isinstance(work, Twisting) and work.before:
            first = min(work.before, key=steps.index)
            if first == bend:
                return f"Twist leg {work.leg} a quarter turn first, see At the bench."
    return ""


def twist_text(work: Twisting, lever: str, reader: Reader) -> str:
    """Say how a leg is twisted.

    Parameters
    ----------
    work
        The twist.
    lever
        How far from the middle each person pulls, as told.
    reader
        Who reads it.
    """
    show = reader.figures
    way = "towards you" if work.angle > 0.0 else "away from you"
    pulls = f"pull up to {show.pull(work.torque / (work.people * work.arm))} at {lever}"
    if work.people == 1:
        hands = f"{pulls} from the middle."
    else:
        hands = f"two people {pulls} from the middle, one at each end of it."
    least, most = (max(round(math.degrees(one)), 1) for one in work.past)
    past = f"{least}°" if least == most else f"{least} to {most}°"
    return (
        f"Twist between {show.on_bar(work.begin)} and {show.on_bar(work.end)} from end 1 of the "
        "flat blank. Clamp the bar in the vise with the edge of the jaws on the one line. Slip a "
        "long bar with a close slot over it, its edge on the other line. With end 1 on the left, "
        f"the top beyond the run turns {way}. At the long bar, {hands} Go past the quarter turn by "
        f"about {past}, which is not tested. Release it and check with a square across both legs. "
        "Turn it back if it went too far, once only."
    )


def _before(bends: tuple[int, ...]) -> str:
    if not bends:
        return ""
    if len(bends) == 1:
        return f" before bend {bends[0]}"
    return f" before bends {', '.join(map(str, bends[:-1]))} and {bends[-1]}"


def _not_proven(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    leg = finding.one(Count, "leg").value
    low, high = (show.size(finding.one(Length, name).value) for name in ("low", "high"))
    return Words(
        f"Leg {leg} gets {low} to {high} shorter as it is twisted, and the blank has the middle of "
        "that. It is worked out, not tested.",
        "Twist one part first and measure the leg.",
    )


def _too_short(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    leg = finding.one(Count, "leg").value
    run, least = (show.size(finding.one(Length, name).value) for name in ("run", "least"))
    strain, most = (
        round(100.0 * finding.one(Share, name).value) for name in ("strain", "elongation")
    )
    return Words(
        f"A twisted run of {run} in leg {leg} strains the bar by {strain} %, and this metal "
        f"stretches {most} % in a tensile test.",
        f"Twist it over at least {least}, or bend a softer metal.",
    )


def _no_room(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    leg = finding.one(Count, "leg").value
    run, had, needed = (
        show.size(finding.one(Length, name).value) for name in ("run", "had", "needed")
    )
    return Words(
        f"The twisted run of {run} leaves {had} of flat bar beside it in leg {leg}, and the jaws "
        f"need {needed} (half the width; common practice, no source).",
        "Make the leg longer, move the twist to its middle, or twist it over a shorter run.",
    )


def _too_heavy(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    leg = finding.one(Count, "leg").value
    arm, most = (show.size(finding.one(Length, name).value) for name in ("arm", "most_arm"))
    return Words(
        f"Two people would have to pull {arm} from the middle to twist leg {leg}; past {most} a "
        "vise no longer holds it (common practice, no source).",
        "Twist it over a longer run, use thinner bar, or weld two pieces square to each other.",
    )


def _between(finding: Finding, _: Reader) -> Words:
    leg = finding.one(Count, "leg").value
    return Words(
        f"Twist leg {leg} before this bend. By then the other side of the twist stands out of the "
        "plane of the bend, and what it may meet is not checked.",
        "Go through it first with a strip of the same shape, the ram moved by hand.",
    )


def _frees_nothing(_: Finding, __: Reader) -> Words:
    return Words(
        "The order was looked for with the part laid flat, before it is twisted. Twisting between "
        "the bends gives none either."
    )


TWIST_WORDS: Mapping[str, Teller] = {
    "twist-not-proven": _not_proven,
    "twist-too-short": _too_short,
    "twist-no-room": _no_room,
    "twist-too-heavy": _too_heavy,
    "twist-between": _between,
    "twist-frees-nothing": _frees_nothing,
}
