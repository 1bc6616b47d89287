"""The cut plan of one bar size: what is wanted, and from which bar each piece is cut."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from attrs import evolve, frozen

from strapwright.catalog.steels import MEDIUM, MILD, find_steel
from strapwright.cutting.bar_values import MOST_PIECES, BarKind, CutPlan, CutTask
from strapwright.cutting.cut_checker import Stick, check_bars
from strapwright.cutting.find_cut_plan import SECONDS, Clock, Progress, find_cut_plan
from strapwright.cutting.laid_bars import LaidBar, lay_bars, stop_settings
from strapwright.cutting.longest_offcut import with_longest_offcut
from strapwright.errors import InputError, StrapwrightError, in_file
from strapwright.quantities.printing import either_length
from strapwright.shop.bar import Bar
from strapwright.shop.rack import Rack, Stock

GRAIN = 1e-6  # mm; every 1/64 in is a whole number of them
# Bars are sold in these lengths where the rack names none; common practice, no source [mm].
NEW_BAR = {"inch": 6096.0, "metric": 6000.0}
_SAME_SIZE = 0.05  # mm between two sizes of bar; common practice, no source
_TIDY_SECONDS = 2.0  # for the longest off-cut; numerical

BarOrigin = Literal["off-cut", "rack", "supplier", "assumed"]


@frozen(kw_only=True)
class CutPiece:
    """Pieces of one name.

    Attributes
    ----------
    name
        As on the cut list.
    length
        As it is cut [mm].
    quantity
        How many.
    """

    name: str
    length: float
    quantity: int


@frozen(kw_only=True)
class BarSource:
    """Bars of one length.

    Attributes
    ----------
    name
        As on the rack.
    length
        [mm]
    count
        How many there are; ``None`` for as many as are bought.
    origin
        ``assumed`` where the rack names no supplier's bar of this size.
    price
        Of one, in the rack's money; ``None`` where it is not known.
    place
        Number on the rack, from 0; ``None`` for an assumed one.
    material
        What it is of, as the rack names it; empty for an assumed one.
    """

    name: str
    length: float
    count: int | None
    origin: BarOrigin
    price: float | None = None
    place: int | None = None
    material: str = ""

    @property
    def bought(self) -> bool:
        """Whether it is not in the shop yet."""
        return self.count is None


@frozen(kw_only=True)
class SectionCuts:
    """One bar size, cut.

    Attributes
    ----------
    bar, material
        What is sawn.
    pieces, sources
        What was wanted, and the bars to choose from.
    bars
        As they are sawn one after the other; their pieces by number in ``pieces``, their kind in
        ``sources``.
    plan
        How many are bought, and how well that is proven.
    kerf, squaring, least_offcut
        As cut with [mm].
    settings
        How often the length stop is set.
    """

    bar: Bar
    material: str
    pieces: tuple[CutPiece, ...]
    sources: tuple[BarSource, ...]
    bars: tuple[LaidBar, ...]
    plan: CutPlan
    kerf: float
    squaring: float
    least_offcut: float
    settings: int

    def keeps(self, bar: LaidBar) -> bool:
        """Whether what is left of a bar is worth keeping."""
        return bar.offcut >= self.least_offcut - GRAIN

    @property
    def cuts(self) -> int:
        """How many cuts of the saw it takes."""
        squared = len(self.bars) if self.squaring > 0 else 0
        return squared + sum(
            len(bar.pieces) - (bar.pieces[-1].end > bar.length - GRAIN) for bar in self.bars
        )

    @property
    def used(self) -> float:
        """Share of the bars taken that becomes pieces or off-cuts worth keeping [-]."""
        whole = sum(bar.length for bar in self.bars)
        good = sum(
            sum(piece.end - piece.start for piece in bar.pieces)
            + (bar.offcut if self.keeps(bar) else 0.0)
            for bar in self.bars
        )
        return good / whole


def sources_for(
    bar: Bar, material: str, rack: Rack | None, new_bar: float
) -> tuple[BarSource, ...]:
    """Return the bars of the rack that a part may be cut from, and those that are sold.

    Parameters
    ----------
    bar, material
        Of the part.
    rack
        Of the shop.
    new_bar
        Length of a bar as sold, where the rack names none [mm].
    """
    found = []
    for place, stock in enumerate(rack.stock if rack is not None else ()):
        if not _is_of(stock, bar, material):
            continue
        bought = stock.origin == "supplier"
        found.append(
            BarSource(
                name=stock.name,
                length=stock.length,
                count=None if bought else stock.count,
                origin=stock.origin,
                price=stock.price if bought else None,
                place=place,
                material=stock.material,
            )
        )
    if not any(one.bought for one in found):
        found.append(BarSource(name="new bar", length=new_bar, count=None, origin="assumed"))
    return tuple(found)


def _is_of(stock: Stock, bar: Bar, material: str) -> bool:
    """Whether a piece of the rack is a bar of this size and metal.

    Where a class of metal is asked for, because the job names no steel, every steel of it will do;
    a hardened, an alloy and an unknown steel are of no class here.
    """
    if (stock.kind == "shaft") != (bar.section == "round"):
        return False
    sizes = (stock.thickness - bar.thickness, stock.width - bar.width)
    if max(map(abs, sizes)) > _SAME_SIZE:
        return False
    if material in (MILD, MEDIUM):
        return find_steel(stock.material, "material").metal == material
    try:
        return find_steel(material, "part.material").name == stock.material
    except InputError:
        return stock.material == material


def cut_section(
    bar: Bar,
    material: str,
    pieces: Sequence[CutPiece],
    sources: Sequence[BarSource],
    *,
    kerf: float,
    squaring: float,
    least_offcut: float,
    clock: Clock,
    seconds: float = SECONDS,
    progress: Progress | None = None,
) -> SectionCuts:
    """Cut all pieces of one bar size from the fewest new bars.

    Parameters
    ----------
    bar, material
        What is sawn.
    pieces, sources
        What is wanted, and the bars to choose from.
    kerf, squaring, least_offcut
        What a cut takes, what comes off the first end of a bar, and from which length on an off-cut
        is kept [mm].
    clock, seconds, progress
        As of :func:`strapwright.cutting.find_cut_plan.find_cut_plan`.

    Raises
    ------
    InputError
        If a piece is longer than every bar, or there are too many.
    StrapwrightError
        If the independent check finds a fault in the plan.
    """
    _refuse(pieces, sources, squaring)
    lengths = sorted({_grains(one.length) for one in pieces}, reverse=True)
    task = CutTask(
        lengths=tuple(lengths),
        quantities=tuple(
            sum(one.quantity for one in pieces if _grains(one.length) == length)
            for length in lengths
        ),
        kinds=tuple(
            BarKind(
                length=_grains(one.length),
                count=one.count,
                new=one.bought,
                offcut=one.origin == "off-cut",
                price=round(100 * one.price) if one.price else 0,
            )
            for one in sources
        ),
        kerf=_grains(kerf),
        squaring=_grains(squaring),
    )
    plan = find_cut_plan(task, seconds=seconds, clock=clock, progress=progress)
    if plan is None:
        _refuse_too_few(pieces, sources, squaring)
        raise StrapwrightError("no cut plan was found in the time; give it more with --seconds.")
    plan = with_longest_offcut(task, plan, seconds=min(_TIDY_SECONDS, seconds), clock=clock)
    laid = lay_bars(task, plan.bars, GRAIN)
    settings = stop_settings(laid)
    named = _named(laid, lengths, pieces)
    faults = check_bars(
        named,
        wanted=[(_grains(one.length) * GRAIN, one.quantity) for one in pieces],
        sticks=[Stick(length=_grains(one.length) * GRAIN, count=one.count) for one in sources],
        kerf=task.kerf * GRAIN,
        squaring=task.squaring * GRAIN,
    )
    if faults:
        raise StrapwrightError(
            f"the cut plan failed its own check ({faults[0].kind}); do not saw by it, and send in "
            "the job."
        )
    return SectionCuts(
        bar=bar,
        material=material,
        pieces=tuple(pieces),
        sources=tuple(sources),
        bars=named,
        plan=plan,
        kerf=kerf,
        squaring=squaring,
        least_offcut=least_offcut,
        settings=settings,
    )


def _grains(mm: float) -> int:
    return round(mm / GRAIN)


def _refuse(pieces: Sequence[CutPiece], sources: Sequence[BarSource], squaring: float) -> None:
    longest = max(sources, key=lambda one: one.length)
    for one in pieces:
        if one.length + squaring > longest.length + GRAIN:
            raise InputError(
                one.name,
                f"the piece is {either_length(one.length)} long, more than any bar gives: the "
                f"longest is {either_length(longest.length)}, and squaring its end takes "
                f"{either_length(squaring)}",
                "put a longer bar that is sold on the rack"
                + in_file(', as a [[stock]] with origin = "supplier"'),
            )
    total = sum(one.quantity for one in pieces)
    if total > MOST_PIECES:
        raise InputError(
            "part.quantity", f"there are {total} pieces of one bar size",
            f"cut at most {MOST_PIECES} at a time",
        )  # fmt: skip


def _refuse_too_few(
    pieces: Sequence[CutPiece], sources: Sequence[BarSource], squaring: float
) -> None:
    """Refuse pieces that only bars of the rack are long enough for, where those do not do."""
    sold = max((one.length for one in sources if one.bought), default=0.0)
    for one in pieces:
        if one.length + squaring > sold + GRAIN:
            raise InputError(
                one.name,
                f"no bar that is sold gives a piece of {either_length(one.length)}, and no way was "
                "found to cut all the pieces from the longer bars on the rack",
                "put a longer bar that is sold on the rack"
                + in_file(', as a [[stock]] with origin = "supplier"'),
            )


def _named(
    bars: Sequence[LaidBar], lengths: Sequence[int], pieces: Sequence[CutPiece]
) -> tuple[LaidBar, ...]:
    """Say which piece each one is; of one length those named first come first."""
    waiting = {
        number: [
            at
            for at, one in enumerate(pieces)
            if _grains(one.length) == length
            for _ in range(one.quantity)
        ][::-1]
        for number, length in enumerate(lengths)
    }
    return tuple(
        evolve(
            bar,
            pieces=tuple(evolve(piece, number=waiting[piece.number].pop()) for piece in bar.pieces),
        )
        for bar in bars
    )
