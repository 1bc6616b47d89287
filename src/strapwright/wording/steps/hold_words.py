"""How the bar is held for a bend, in words: the only place that says it.

Pages, paper, drawings and the command all take these; a hold is said by the face that is towards
the nose, which is true with the nose above, below or beside the bar.
"""

from __future__ import annotations

from strapwright.findings import BendAt, Finding
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.bar_hold import Hold
from strapwright.planning.limits_and_weights.weights import Stand, stand_of
from strapwright.planning.plan_values import Plan, Step
from strapwright.wording.figures import Figures, figures_for
from strapwright.wording.limits_and_weights.weight_words import stand_words

# Where nothing closes on a hand.
_HANDS = "hands outside nose and shoulders"


def said_of(finding: Finding, plan: Plan) -> bool:
    """Whether a finding is what ``to_mind`` says of the same bends, with the figures of each.

    Parameters
    ----------
    finding
        Of the plan.
    plan
        A bend of it that has no stop is shown without its hold.
    """
    shown = {BendAt(one.bend) for one in plan.steps if not has_no_stop(plan, one)}
    return finding.code == "tips-before-touch" and shown.issuperset(finding.about)


def face_name(plan: Plan, step: Step) -> str:
    """Name the face that is towards the nose; of a round bar it is a side."""
    what = "side" if plan.job.part.bar.section == "round" else "face"
    return f"{step.hold.face} {what}"


def laid(plan: Plan, step: Step) -> str:
    """Say how the bar is laid in: which face is towards the nose, which end is left."""
    face, end = laid_lines(plan, step)
    return f"{face}, {end}"


def laid_lines(plan: Plan, step: Step) -> tuple[str, str]:
    """Say the same on two lines."""
    return (
        f"{face_name(plan, step)} towards the nose",
        f"end {step.hold.end_left} on the left",
    )


def marked(plan: Plan, step: Step) -> tuple[str, str]:
    """Say beside its hatched edge which face that is, on two lines."""
    return face_name(plan, step), "towards the nose"


def where_nose_is(hold: Hold) -> str:
    """Say where the nose is, and with it which way the face towards it looks."""
    return {
        "above": "The nose is above the bar, so that face is up.",
        "below": "The nose is below the bar, so that face is down.",
        "beside": "The nose is beside the bar. The drawing is seen from above: left is to your "
        "left when you face the nose.",
    }[hold.nose]


def carried(hold: Hold, show: Figures, stand: Stand | None = None) -> str:
    """Say what carries the bar until first contact, and whether it tips.

    Parameters
    ----------
    hold
        Of the bend.
    show
        Prints figures in the reader's units.
    stand
        Where one goes for a bar that tips, if its place is known.
    """
    if hold.carried_by == "nothing":
        return f"Nothing carries the bar: put a rest under it, or {_held('it by its ends', hold)}"
    moved = hold.ram_side == hold.carried_by
    sits = f"The bar {'rides' if moved else 'sits'} on the {hold.carried_by}"
    if hold.weight is None:
        return f"{sits}; whether it tips is not checked. H{_held('it by its ends', hold)[1:]}"
    if hold.tips is not None:
        return f"{sits} and tips to the {hold.tips}: {_tipping(hold, show, stand, moved=moved)}"
    if hold.carried_by == "shoulders":
        return f"{sits}."
    return f"{sits}, its weight over the middle. H{_held('it level by its ends', hold)[1:]}"


def _tipping(hold: Hold, show: Figures, stand: Stand | None, *, moved: bool) -> str:
    """Say by how much the bar tips, and what to do."""
    weight = f"it balances {show.clearance(abs(hold.weight or 0.0))} {hold.tips} of"
    held = _held(f"the {hold.tips} end", hold)
    if hold.carried_by == "nose":
        return f"{weight} the nose centre. H{held[1:]}"
    where = f"{weight} centre, the shoulder reaches {show.clearance(hold.support)}."
    # A stand stays where it is, so it serves only where the shoulders stay too.
    if moved:
        return f"{where} H{held[1:]}"
    if stand is not None:
        return f"{where} {stand_words(stand, show)}. Or {held}"
    return f"{where} Put a stand as high as the shoulders under that end, or {held}"


def _held(what: str, hold: Hold) -> str:
    """Say what to hold, how long and where the hands are not; bent legs swing past the nose."""
    way = {"above": "up", "below": "down", "beside": "towards the nose"}[hold.nose]
    return f"hold {what}, {_HANDS}; hands off at first contact: the ends swing {way}."


def whole(plan: Plan, step: Step) -> str:
    """Say all of a hold in sentences."""
    said = laid(plan, step)
    return f"{said[0].upper()}{said[1:]}. {beyond(plan, step)}"


def beyond(plan: Plan, step: Step) -> str:
    """Say of a hold what ``laid`` leaves open: where the nose is and what carries the bar."""
    return f"{where_nose_is(step.hold)} {_carried_in(plan, step)}"


def to_mind(plan: Plan, step: Step) -> str:
    """Say what carries the bar where somebody has to hold it; empty where it lies by itself."""
    hold = step.hold
    if hold.carried_by == "shoulders" and hold.weight is not None and hold.tips is None:
        return ""
    return _carried_in(plan, step)


def _carried_in(plan: Plan, step: Step) -> str:
    return carried(step.hold, figures_for(plan.job), stand_of(plan, step))
