"""The blank in words: how long to cut it, and where its marks and holes are from end 1."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from strapwright.blank.blank_values import Blank, FlatHole, Mark
from strapwright.planning.hits_and_stacks.stack_values import StackBar
from strapwright.planning.plan_values import Plan
from strapwright.shop.job import BlankMethod
from strapwright.shop.part import Part
from strapwright.shop.part_holes import Cut, cut_kind
from strapwright.wording.figures import Figures
from strapwright.wording.reader import Reader

METHOD_WORDS: Mapping[BlankMethod, str] = {
    "strain": "worked out from the bend itself",
    "book soft": "handbook rule for soft metal",
    "book medium": "handbook rule for half-hard metal",
    "book hard": "handbook rule for hard metal",
    "din 6935": "DIN 6935",
    "factor": "neutral-axis factor as entered",
}


@frozen(kw_only=True)
class CutWords:
    """How long to cut.

    Attributes
    ----------
    label
        What is cut; of a stack its first bar.
    length
        By the rule it is read on.
    between
        Both ends of its band; empty where it has none.
    """

    label: str
    length: str
    between: str


@frozen(kw_only=True)
class MarkWords:
    """The marks of one bend or hit, all from end 1.

    Attributes
    ----------
    label
        As written on the bar.
    nose, sight
        Middle of the nose and sight line.
    on_bar
        Whether the sight line lies on the bar.
    zone
        Where the bend zone begins and ends; hits of a row share theirs, which stands with the first
        alone.
    """

    label: str
    nose: str
    sight: str
    on_bar: bool
    zone: tuple[str, str] | None


def how_measured(part: Part) -> str:
    """Say to which line of the bar its legs are measured."""
    said = {"centre": "on the centre line", "straight": "straight, from bend to bend"}
    return said.get(part.measured, part.measured)


def cut_words(plan: Plan, reader: Reader) -> CutWords | None:
    """Say how long to cut the blank; ``None`` where nothing can be said.

    Parameters
    ----------
    plan
        As planned.
    reader
        Who reads it.
    """
    if plan.blank is None:
        return None
    show, band = reader.figures, plan.length_band
    return CutWords(
        label="Cut the blank of bar 1" if plan.stack else "Cut the blank",
        length=show.on_bar(plan.blank.length),
        between="" if band is None else show.on_bar_between(band),
    )


def leg_words(plan: Plan, reader: Reader) -> tuple[tuple[str, str], ...]:
    """Say between which lengths each leg comes out: its name and the band."""
    show = reader.figures
    return tuple((f"leg {one.leg}", show.on_bar_between(one.band)) for one in plan.legs)


def legs_lead(plan: Plan, reader: Reader) -> str:
    """Say what moves a length from leg to leg; empty where no band of the legs is given."""
    if not plan.legs or plan.job.tooling is None:
        return ""
    off = reader.figures.size(plan.job.tooling.mark_error)
    return (
        f"Each leg comes out within these lengths, with its bends within {off} of their marks. "
        "A bend off its mark makes one leg longer and the other as much shorter"
    )


def legs_line(plan: Plan, reader: Reader) -> str:
    """Say the same in one sentence; empty where no band of the legs is given."""
    if not plan.legs or plan.job.tooling is None:
        return ""
    off = reader.figures.size(plan.job.tooling.mark_error)
    each = "; ".join(f"{name} {between}" for name, between in leg_words(plan, reader))
    return f"With bends within {off} of their marks: {each}."


def mark_words(blank: Blank, reader: Reader) -> tuple[MarkWords, ...]:
    """Say the marks of a blank, one entry a bend or hit."""
    return tuple(_mark(blank, mark, reader) for mark in blank.marks)


def _mark(blank: Blank, mark: Mark, reader: Reader) -> MarkWords:
    show = reader.figures
    first, last = mark.tangents
    return MarkWords(
        label=mark.label,
        nose=show.on_bar(mark.nose),
        sight=show.on_bar(mark.sight),
        on_bar=blank.carries_sight(mark),
        zone=None if mark.hit > 1 else (show.on_bar(first), show.on_bar(last)),
    )


def cut_size(cut: Cut, show: Figures) -> str:
    """Say how large a hole, a slot or a notch is, and which edge it is open to."""
    size = show.stated(cut.diameter)
    if cut.length is not None:
        size = f"{size} wide, {show.stated(cut.length)} long"
    elif cut.opens == "no":
        return f"diameter {size}"
    else:
        size = f"{size} wide"
    return size if cut.opens == "no" else f"{size}, in the {cut.opens}"


def hole_words(hole: FlatHole, reader: Reader) -> str:
    """Say where a hole is in the flat and how large."""
    show = reader.figures
    said = f"{cut_kind(hole)} {hole.hole}: {show.on_bar(hole.position)}, {cut_size(hole, show)}"
    return f"{said}, {show.on_bar(abs(hole.across))} off centre" if hole.across else said


def opens_to(bar: StackBar, reader: Reader) -> tuple[str, ...]:
    """Return for each mark of one bar of a stack the angle of its bend after release."""
    return tuple(reader.figures.angle(bar.free[mark.bend - 1]) for mark in bar.blank.marks)
