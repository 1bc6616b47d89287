"""What the search found, in the words of the shop: remedies, coming off, what was assumed."""

from __future__ import annotations

from strapwright.findings import Finding, Severity
from strapwright.ordering.order_results import FreeingResult
from strapwright.planning.surrounding_pieces import Surroundings

# What is in the way -> what would help; in the order in which a shop would try it.
_HELPS = (
    ("push plate", "a nose with more reach or a narrower push plate"),
    ("the ram", "a nose so long that the legs close below the push plate"),
    ("web of the nose", "a slimmer web"),
    ("carrier", "carriers further apart"),
    ("guide rod", "guide rods further out, or beside the bar"),
    ("column", "the bar laid the other way through the frame"),
    ("bed", "higher shoulders"),
    ("shoulder", "narrower shoulder blocks"),
    ("straight", "a narrower opening or a longer leg"),
    ("deep", "deeper shoulders"),
    ("laid in with", "more daylight, or a nose that is put in endways"),
    ("come off", "a nose that can be drawn out, or a wider gap between the ends"),
)


def remedy_for(reasons: str) -> str:
    """What would help against everything that is in the way."""
    helps = [help_ for word, help_ in _HELPS if word in reasons]
    start = f"Try {'; '.join(helps)}; or make" if helps else "Make"
    return f"{start} the last bend part of the way and finish it off the tooling."


def off_findings(bend: int, off: FreeingResult) -> list[Finding]:
    """Warn where a part does not surely come off after a 1-based bend."""
    where = f"bend {bend}"
    if off.verdict == "TOO CLOSE":
        return [
            Finding(
                code="coming-off-too-close",
                severity=Severity.WARNING,
                where=where,
                text="Whether the part comes off the nose after this bend is too close to call; it "
                "is not proven.",
                remedy="Try it with a bare strip first, or use a nose that can be drawn out.",
            )
        ]
    if off.drawn_frees:
        return [
            Finding(
                code="draw-the-nose",
                severity=Severity.WARNING,
                where=where,
                text="The part is locked on the nose after this bend and comes off only when the "
                "nose is drawn out endways.",
                remedy="Let off the pressure fully before you draw the nose.",
            )
        ]
    return []


def assumed_findings(around: Surroundings) -> list[Finding]:
    """Say what of the surroundings was assumed."""
    if not around.assumed:
        return []
    return [
        Finding(
            code="surroundings-assumed",
            severity=Severity.NOTE,
            where="tooling",
            text=f"Not stated, so assumed: {'; '.join(around.assumed)}.",
            remedy="State what is known of it under tooling.nose, tooling.plate, "
            "tooling.shoulders and press.",
        )
    ]
