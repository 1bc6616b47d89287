"""What the pages show of a part that cannot be made: the banner, and each bend where it clashes."""

from __future__ import annotations

from attrs import frozen

from strapwright.drawing import PHONE, Frame, to_svg
from strapwright.drawing.clash_drawing import clash_scene
from strapwright.findings import BendAt
from strapwright.motion.refused_bends import has_no_stop, reason_at, refusals_of
from strapwright.ordering.refusal_values import Refusal
from strapwright.pages.page_statements import Said, on_page, place_link
from strapwright.planning.plan_values import Plan, Step
from strapwright.wording.refusal_words import refusal_clause
from strapwright.wording.refused_words import headline, no_stop_words

_WIDE = Frame(width=760.0, height=600.0, body=16.0)
_SMALL = Frame(width=360.0, height=240.0, body=16.0)


def banner(made: Plan | None) -> str:
    """Say why the part is refused, as every page of the job does; empty where it is not."""
    said = None if made is None else headline(made, on_page(made.job))
    return "" if said is None else said.sentence


@frozen(kw_only=True)
class Clash:
    """A bend that cannot be made.

    Attributes
    ----------
    words
        What it runs into, and that it has no figures to stop at.
    own
        Whether the words hold a reason of its own.
    wide, phone, small
        It as it stands where it clashes, as SVG.
    """

    words: str
    own: bool
    wide: str
    phone: str
    small: str


def can_be_played(made: Plan, step: Step | None = None) -> bool:
    """Whether a bend, or every bend, has figures to stop at and so can be shown as it is made."""
    return not any(has_no_stop(made, one) for one in (made.steps if step is None else (step,)))


def clash(made: Plan, step: Step) -> Clash | None:
    """Show where a bend clashes; ``None`` for a bend that has figures to stop at."""
    if not has_no_stop(made, step):
        return None
    wide, phone, small = (
        to_svg(clash_scene(made, step, frame), None) for frame in (_WIDE, PHONE, _SMALL)
    )

    return Clash(
        words=no_stop_words(made, step, on_page(made.job)),
        own=reason_at(made, step) is not None,
        wide=wide,
        phone=phone,
        small=small,
    )


@frozen(kw_only=True)
class Fold:
    """Why one bend is refused.

    Attributes
    ----------
    bend
        1-based.
    reasons
        A sentence each, of every stage of the bar on which it was tried.
    findings
        Refusals about this bend alone.
    """

    bend: int
    reasons: tuple[str, ...]
    findings: tuple[Said, ...]


def folds(made: Plan, findings: tuple[Said, ...]) -> tuple[Fold, ...]:
    """Return the reasons of a refused part a bend at a time.

    Parameters
    ----------
    made
        As planned.
    findings
        As its page tells them.

    Returns
    -------
    tuple of Fold
        Bends in the order of making first, then those refused that have no place in it.
    """
    show = on_page(made.job).figures
    reasons: dict[int, list[str]] = {step.bend: [] for step in made.steps}
    for number in range(1, len(made.job.part.bends) + 1):
        if any(_is_about(one, number) for one in findings):
            reasons.setdefault(number, [])
    for finding in refusals_of(made):
        # Any other refusal says all of its reasons in its own sentence.
        if finding.code != "no-order":
            continue
        for one in finding.several(Refusal, "refusals"):
            clause = refusal_clause(one, show)
            reasons.setdefault(one.stage.bend, []).append(f"{clause[:1].upper()}{clause[1:]}.")
    return tuple(
        Fold(
            bend=bend,
            reasons=tuple(dict.fromkeys(said)),
            findings=tuple(one for one in findings if _is_about(one, bend)),
        )
        for bend, said in reasons.items()
    )


def _is_about(said: Said, bend: int) -> bool:
    return said.kind == "refusal" and said.link == place_link(BendAt(bend))
