"""What the pages show of a part that cannot be made: the banner, and each bend where it clashes."""

from __future__ import annotations

from attrs import frozen

from strapwright.drawing import PHONE, Frame, to_svg
from strapwright.drawing.clash_drawing import clash_scene
from strapwright.motion.refused_bends import has_no_stop
from strapwright.pages.page_statements import on_page
from strapwright.planning.plan_values import Plan, Step
from strapwright.wording.refused_words import NO_STOP, clash_words, headline

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
    wide, phone, small
        It as it stands where it clashes, as SVG.
    """

    words: str
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
    why = clash_words(made, step, on_page(made.job))
    wide, phone, small = (
        to_svg(clash_scene(made, step, frame), None) for frame in (_WIDE, PHONE, _SMALL)
    )
    return Clash(
        words=f"{why[:1].upper()}{why[1:]}. {NO_STOP}" if why else NO_STOP,
        wide=wide,
        phone=phone,
        small=small,
    )
