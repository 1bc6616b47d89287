"""Refusals of the search as clauses, what would help against them, and which sizes were assumed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import get_args

from strapwright.ordering.order_values import Piece, PieceKind
from strapwright.ordering.refusal_values import (
    AtHit,
    Hits,
    InStack,
    Jams,
    MeetsItself,
    NotLaidIn,
    NoWayThere,
    Reason,
    Refusal,
    ShortLeg,
    SmallRadius,
    Stage,
    StaysOn,
    TooNear,
    TooShallow,
)
from strapwright.wording.figures import Figures
from strapwright.wording.places import listed

_PLATE = "a nose with more reach or a narrower push plate"
# Which piece is in the way, or what else is -> what would help; in the order in which a shop would
# try it.
_HELPS: dict[PieceKind | type[Reason], str] = {
    "push plate": _PLATE,
    "plate mount": _PLATE,
    "ram": "a nose so long that the legs close below the push plate",
    "nose web": "a slimmer web",
    "carrier": "carriers further apart",
    "guide rod": "guide rods further out, or beside the bar",
    "column": "the bar placed the other way through the frame",
    "bed": "higher shoulders",
    "shoulder": "narrower shoulder blocks",
    ShortLeg: "a narrower opening or a longer leg",
    TooShallow: "deeper shoulders",
    NotLaidIn: "more daylight, or a nose that slides in endways",
    StaysOn: "a nose that slides out endways, or a wider gap between the ends",
}
_PHASES = {"closing": "while the nose side comes down", "rest": "as it is placed"}


def refusal_clause(refusal: Refusal, show: Figures) -> str:
    """Say in one clause what forbids a bend.

    Parameters
    ----------
    refusal
        Of the search.
    show
        Figures of the reader.
    """
    reason, when = refusal.reason, _when(refusal.stage)
    while isinstance(reason, AtHit | InStack):
        match reason:
            case AtHit():
                when += f", hit {reason.hit} of {reason.hits}"
            case InStack():
                when += f", bar {reason.bar} from the nose"
        reason = reason.reason
    if isinstance(reason, Hits | TooNear | MeetsItself | StaysOn | NotLaidIn):
        return f"{when}: {_way(reason, show)}"
    if not isinstance(reason, NoWayThere):
        return f"{when}: {_lack(reason, show)}"
    start = f"{when} could be made, but no order gets there"
    if reason.furthest is not None:
        start += f"; the first bend that fails is {_when(reason.furthest)}"
    blocked = "; ".join(refusal_clause(one, show) for one in reason.blocked)
    return f"{start}: {blocked}" if blocked else start


def helps_against(refusals: Iterable[Refusal]) -> tuple[str, ...]:
    """Name what would help against everything that is in the way.

    Parameters
    ----------
    refusals
        Of the search.
    """
    reasons = [reason for refusal in refusals for reason in refusal.in_the_way()]
    found = {type(reason) for reason in reasons} | {piece.kind for piece in _pieces(reasons)}
    off = any(isinstance(one, Hits | TooNear) and one.off_middle for one in reasons)
    centred = ("a nose that is centred better",) if off else ()
    return (*centred, *dict.fromkeys(words for what, words in _HELPS.items() if what in found))


def assumed_sizes(refusals: Iterable[Refusal]) -> str:
    """Say which of the pieces in the way have a size that is assumed; empty for none.

    Parameters
    ----------
    refusals
        Of the search.
    """
    reasons = [reason for refusal in refusals for reason in refusal.in_the_way()]
    kinds = get_args(PieceKind)
    pieces = sorted(_pieces(reasons), key=lambda one: kinds.index(one.kind))
    names = list(dict.fromkeys(one.name for one in pieces if one.assumed))
    if not names:
        return ""
    size, are = ("size", "is") if len(names) == 1 else ("sizes", "are")
    return f"The {size} of the {' and the '.join(names)} {are} assumed."


def _pieces(reasons: Iterable[Reason]) -> list[Piece]:
    found = (one.piece for one in reasons if isinstance(one, Hits | TooNear))
    return [piece for piece in found if piece is not None]


def _when(stage: Stage) -> str:
    """'bend 3 last', 'bend 3 first' or 'bend 3 after 1 and 2'; an only bend has no place."""
    if stage.last and not stage.made:
        return f"bend {stage.bend}"
    if stage.last:
        return f"bend {stage.bend} last"
    if not stage.made:
        return f"bend {stage.bend} first"
    return f"bend {stage.bend} after {listed(stage.made)}"


def _lack(reason: SmallRadius | Jams | TooShallow | ShortLeg, show: Figures) -> str:
    """What the bend has too little of, whatever stands around."""
    match reason:
        case SmallRadius():
            return (
                f"its radius of {_length(reason.had, show)} is less than the nose's "
                f"{_length(reason.needed, show)}"
            )
        case Jams():
            return (
                f"the tooling jams at {_angle(reason.had)}, before the {_angle(reason.needed)} "
                "this bend needs under load"
            )
        case TooShallow():
            return (
                f"the bend goes {_length(reason.needed, show)} below the shoulder tops at "
                f"{_angle(reason.angle)}, but there is only {_length(reason.had, show)} of depth"
            )
        case ShortLeg():
            return (
                f"only {_length(reason.had, show)} of straight bar towards end {reason.towards}, "
                f"{_length(reason.needed, show)} needed from the centre of the bend"
            )


def _way(reason: Hits | TooNear | MeetsItself | StaysOn | NotLaidIn, show: Figures) -> str:
    """What is in the way."""
    match reason:
        case Hits():
            phase = _PHASES.get(reason.phase, f"at {_angle(reason.angle)}")
            return f"the {reason.wing} leg hits the {reason.piece.name} {phase}" + _off(
                reason.off_middle, show
            )
        case TooNear():
            name = "tooling" if reason.piece is None else reason.piece.name
            return f"it passes only {_length(reason.had, show)} from the {name}" + _off(
                reason.off_middle, show
            )
        case MeetsItself():
            return f"the part hits itself at {_angle(reason.angle)}, overbend included"
        case StaysOn():
            return "it does not come off the tooling"
        case NotLaidIn():
            return "the bar does not go in with nose and shoulders open"


def _off(off: float, show: Figures) -> str:
    """Where the nose then stands; empty for the middle."""
    if off == 0.0:
        return ""
    side = "right" if off > 0.0 else "left"
    return f" with the nose {_length(abs(off), show)} off centre to the {side}"


def _length(mm: float, show: Figures) -> str:
    """To a tenth of a millimetre: even arcs that stand for the bends are no nearer than that."""
    tenths = f"{mm:.1f}"
    return f"{tenths} mm" if show.units == "metric" else show.length(float(tenths))


def _angle(rad: float) -> str:
    return f"{math.degrees(rad):.0f}°"
