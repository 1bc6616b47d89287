"""What the page of the cut plan says: jobs to choose from, every bar, and the rack afterwards."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime

from attrs import frozen

from strapwright.drawing.bars_and_money.cut_drawing import CUT_PHONE, CUT_WIDE, cut_scene
from strapwright.errors import InputError
from strapwright.pages.shelves import crib_of, keep, kept, rack_of, rates_of
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan import plan
from strapwright.report.cut_text import NO_KERF, cut_to_csv
from strapwright.scene.svg import to_svg
from strapwright.service.cut_jobs import CutOrder, cut_plans, refuse_namesakes
from strapwright.service.rack_after_cut import (
    kept_offcuts,
    rack_text_after,
    refuse_other_plan,
)
from strapwright.store import Item
from strapwright.wording.bars_and_money.cut_words import CutWords

MOST_JOBS = 20  # of one cut plan on a page; common practice, no source
_SECONDS = 5.0  # a person waits at the page for one bar size


@frozen(kw_only=True)
class SizeCut:
    """One bar size on the page.

    Attributes
    ----------
    name
        Bar and metal.
    lines
        Sentences: how many bars, the proof, the saw, what was assumed.
    wide, narrow
        Drawings.
    proven
        Whether no plan buys fewer.
    """

    name: str
    lines: tuple[str, ...]
    wide: str
    narrow: str
    proven: bool


@frozen(kw_only=True)
class CutView:
    """The cut plan on the page.

    Attributes
    ----------
    sizes
        One for each bar size.
    labels
        What to write on each off-cut that is kept, with its length.
    bought
        How many bars to buy.
    notes
        What was assumed for all.
    mark
        Of the plan, to book it by.
    """

    sizes: tuple[SizeCut, ...]
    labels: tuple[str, ...]
    bought: int
    notes: tuple[str, ...]
    mark: str


def choosable(shop: Workshop) -> tuple[Item, ...]:
    """Return the jobs whose blanks can be cut."""
    return tuple(item for item in shop.jobs() if item.sound)


def order_of(shop: Workshop, jobs: Sequence[str]) -> CutOrder:
    """Work the cut plan of jobs out, with rack, crib and rates as they are kept.

    Parameters
    ----------
    shop
        Where they are kept.
    jobs
        Ids, each once.

    Raises
    ------
    InputError
        If a job cannot be cut.
    Missing
        If there is no such job.
    """
    if not jobs:
        raise InputError("jobs", "no job is chosen", "choose the jobs to cut")
    if len(jobs) > MOST_JOBS:
        raise InputError("jobs", f"more than {MOST_JOBS} are chosen", "choose fewer")
    read = [shop.read(shop.open(job).text) for job in jobs]
    refuse_namesakes([job.part.name for job in read])
    rack, crib, rules = rack_of(shop), crib_of(shop), rates_of(shop).cutting
    return shop.orders.get(
        (read, rack, crib, rules),
        lambda: cut_plans(
            [plan(job, search=False) for job in read],
            rack=rack,
            crib=crib,
            rules=rules,
            seconds=_SECONDS,
        ),
    )


def cut_view(shop: Workshop, order: CutOrder) -> CutView:
    """Tell and draw a cut plan."""
    words = CutWords(units=order.units, reading=order.reading)
    offcuts = kept_offcuts(order, rack_of(shop))
    sizes = []
    for number, cuts in enumerate(order.sections):
        labels = {one.bar: one.label for one in offcuts if one.section == number}
        lines = (
            f"{words.summary(cuts)} {words.proof(cuts)}",
            words.saw(cuts),
            words.new_bar_note(cuts),
        )
        sizes.append(
            SizeCut(
                name=f"{words.bar_name(cuts.bar)}, {cuts.material}",
                lines=tuple(line for line in lines if line),
                wide=to_svg(cut_scene(cuts, words, labels, CUT_WIDE), None),
                narrow=to_svg(cut_scene(cuts, words, labels, CUT_PHONE), None),
                proven=cuts.plan.proven,
            )
        )
    return CutView(
        sizes=tuple(sizes),
        labels=tuple(f"{one.label}: {words.length(one.length)}" for one in offcuts),
        bought=sum(cuts.plan.new for cuts in order.sections),
        notes=(NO_KERF,) if order.assumed_kerf else (),
        mark=order.mark,
    )


def cut_list(order: CutOrder) -> str:
    """Return the cut list as comma-separated values."""
    return cut_to_csv(order.sections, CutWords(units=order.units, reading=order.reading))


def sawn(shop: Workshop, jobs: Sequence[str], base: int, mark: str) -> int:
    """Bring the rack up to date once the plan was sawn.

    Parameters
    ----------
    shop
        Where it is kept.
    jobs
        Whose blanks were sawn.
    base
        Version of the rack that the plan was made from, 0 for none.
    mark
        Of the plan that was sawn.

    Returns
    -------
    int
        Version of the rack now; 0 where nothing on it changed.

    Raises
    ------
    InputError
        If the rack has changed since, another plan was sawn, or the rack cannot be kept.
    Conflict
        If it was saved elsewhere in the meantime.
    """
    there = kept(shop, "rack")
    if there.version != base:
        raise InputError(
            "rack", "the rack has changed since this plan was made", "look at the new plan first"
        )
    order = order_of(shop, jobs)
    refuse_other_plan(order, mark)
    after = rack_text_after(there.text, order)
    version = 0
    if after is not None:
        keep(shop, "rack", after, base, f"sawn for {', '.join(order.jobs)}"[:200])
        version = kept(shop, "rack").version
        shop.store.set_setting(_sawn_key(version), " ".join(jobs))
    _remember_bars(shop, jobs, order)
    return version


def can_be_unsawn(shop: Workshop, version: int) -> bool:
    """Whether a cut made this version of the rack, it is the last, and there was one before."""
    there = kept(shop, "rack")
    made = shop.store.setting(_sawn_key(version))
    return bool(made) and 1 < version == there.version


def unsawn(shop: Workshop, version: int) -> None:
    """Put the rack back as it was before a version that a cut made, and forget its bars.

    Raises
    ------
    Conflict
        If the rack was changed since.
    InputError
        If no cut made this version, or there was none before.
    """
    there = kept(shop, "rack")
    jobs = (shop.store.setting(_sawn_key(version)) or "").split()
    if not jobs:
        raise InputError("rack", "no cut made this version of the rack", "change it by hand")
    if version < 2:
        raise InputError("rack", "there was no rack before this cut", "change it by hand")
    shop.store.restore_version(
        there.id, version - 1, version, datetime.now(UTC), "cut plan taken back"
    )
    for job in jobs:
        shop.store.set_setting(_key(job), "")


def _remember_bars(shop: Workshop, jobs: Sequence[str], order: CutOrder) -> None:
    """Keep with each job which bars its blanks were sawn from, for its plan and sheet."""
    words = CutWords(units=order.units, reading=order.reading)
    for job in jobs:
        opened = shop.open(job)
        name = shop.read(opened.text).part.name
        bars = "\n".join(words.bars_of(cuts, name) for cuts in order.sections).strip()
        shop.store.set_setting(_key(job), f"{opened.version}\n{bars}")


def bars_of(shop: Workshop, job: str) -> str:
    """Return which bars the blanks of a job were sawn from.

    Empty where none is known, or the job has another version since.
    """
    version, _, bars = (shop.store.setting(_key(job)) or "").partition("\n")
    return bars if version == str(shop.open(job).version) else ""


def _key(job: str) -> str:
    return f"cut {job}"


def _sawn_key(version: int) -> str:
    return f"rack {version} sawn"
