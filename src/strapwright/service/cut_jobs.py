"""The cut plan of several jobs: their blanks, and the rounds and plates of their tooling."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path

from attrs import frozen

from strapwright.catalog.cutting_speeds import kerf as saw_kerf
from strapwright.cutting.find_cut_plan import SECONDS
from strapwright.cutting.saw_allowance import FACING, USUAL_SAW
from strapwright.cutting.shop_cuts import (
    NEW_BAR,
    CutPiece,
    SectionCuts,
    cut_section,
    sources_for,
)
from strapwright.errors import InputError, told_in
from strapwright.making.tooling_plates import pieces_of
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.quantities import Reading, Units, read_length, show_length
from strapwright.service.check_tooling import load_rack
from strapwright.service.costing.rates_files import load_rates
from strapwright.service.crib_files import load_crib
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import within
from strapwright.shop.bar import Bar
from strapwright.shop.crib import Crib
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack
from strapwright.shop.shop_rates import CuttingRules
from strapwright.wording.bars_and_money.cut_words import CutWords
from strapwright.wording.figures import reading_of

_MARK = 8  # hexadecimal digits: two plans share a mark once in four thousand million

# Bar size, bars that the best plan so far buys, and how few there could be.
Told = Callable[[str, int, int], None]


@frozen(kw_only=True)
class CutOrder:
    """The cut plan of several jobs.

    Attributes
    ----------
    jobs
        Their names.
    units, reading
        In which it is told, and how lengths on the bar are read.
    sections
        One for each bar size and metal.
    assumed_kerf
        Whether no saw is stated.
    """

    jobs: tuple[str, ...]
    units: Units
    reading: Reading
    sections: tuple[SectionCuts, ...]
    assumed_kerf: bool

    @property
    def mark(self) -> str:
        """By which it is known from every other plan: of the same bars, pieces and off-cuts.

        The bars there were to choose from count too, so that a plan that was booked has another
        mark when it is made again from what is left.
        """
        told = [_told(cuts) for cuts in self.sections]
        return sha256(repr(told).encode()).hexdigest()[:_MARK]


def _told(cuts: SectionCuts) -> list[object]:
    """Say all that is sawn of one bar size."""
    bar = cuts.bar
    return [
        (bar.section, f"{bar.thickness:.3f}", f"{bar.width:.3f}", cuts.material),
        [(one.name, f"{one.length:.3f}", one.count, one.origin, one.place) for one in cuts.sources],
        [
            (
                one.kind,
                [(cuts.pieces[at.number].name, f"{at.end - at.start:.3f}") for at in one.pieces],
                f"{one.offcut:.3f}",
                cuts.keeps(one),
            )
            for one in cuts.bars
        ],
    ]


@frozen(kw_only=True)
class WantedPiece:
    """A piece with the bar it is cut from.

    Attributes
    ----------
    bar, material
        The steel where the job names it, else the class of metal.
    piece
        What is wanted.
    priced_as
        Class of metal whose price is taken; empty for the price of the material itself.
    """

    bar: Bar
    material: str
    piece: CutPiece
    priced_as: str = ""


def cut_files(
    paths: Sequence[Path],
    *,
    rack: Path | None = None,
    crib: Path | None = None,
    rates: Path | None = None,
    tooling: bool = False,
    seconds: float = SECONDS,
    told: Told | None = None,
) -> CutOrder:
    """Cut the blanks of job files.

    Parameters
    ----------
    paths
        Of the jobs.
    rack, crib, rates
        Files of the shop; a new bar of the usual length, a usual saw and the usual rules without.
    tooling
        Whether the rounds and plates of their tooling are cut too.
    seconds
        Longest time for one bar size [s].
    told
        Called while it is worked out.

    Raises
    ------
    InputError
        If a file cannot be used, two jobs have one name, or a piece is longer than any bar.
    """
    if not 0 < seconds <= 3600:
        raise InputError(
            "--seconds", "the time is out of range", "give seconds from 1 to 3600",
            value=f"{seconds:g}",
        )  # fmt: skip
    jobs = [load_job(path) for path in paths]
    refuse_namesakes([job.part.name for job in jobs])
    plans = [plan(job, search=False, keep_going=within()) for job in jobs]
    return cut_plans(
        plans,
        rack=None if rack is None else load_rack(rack),
        crib=None if crib is None else load_crib(crib),
        rules=load_rates(rates).cutting,
        tooling=tooling,
        seconds=seconds,
        told=told,
    )


def refuse_namesakes(names: Sequence[str]) -> None:
    """Refuse two jobs of one name: their pieces could not be told apart on the bar.

    Raises
    ------
    InputError
        With the name.
    """
    seen: set[str] = set()
    for name in names:
        if name.casefold() in seen:
            raise InputError(
                "part.name", "two jobs have this name, so their pieces cannot be told apart",
                "give one of them another name, or name each job once", value=name,
            )  # fmt: skip
        seen.add(name.casefold())


def cut_plans(
    plans: Sequence[Plan],
    *,
    rack: Rack | None,
    crib: Crib | None,
    rules: CuttingRules,
    tooling: bool = False,
    seconds: float = SECONDS,
    told: Told | None = None,
) -> CutOrder:
    """Cut the blanks of plans.

    Parameters
    ----------
    plans
        Of the jobs.
    rack, crib, rules
        Of the shop.
    tooling, seconds, told
        As of :func:`cut_files`.

    Raises
    ------
    InputError
        If a job has no blank, or a piece is longer than any bar.
    """
    first = plans[0].job
    words = CutWords(units=first.units, reading=reading_of(first))
    kerf, assumed = kerf_of(rules, crib)
    groups: dict[tuple[Bar, str], list[CutPiece]] = {}
    for made in plans:
        wanted = blanks_of(made, rules)
        if tooling and made.job.tooling is not None:
            wanted += tooling_pieces(made.job)
        for one in wanted:
            groups.setdefault((one.bar, one.material), []).append(one.piece)
    sections = []
    for (bar, material), pieces in groups.items():

        def tell(bought: int, least: int, name: str = words.bar_name(bar)) -> None:
            if told is not None:
                told(name, bought, least)

        with told_in(first.units):
            sections.append(
                cut_section(
                    bar,
                    material,
                    pieces,
                    sources_for(bar, material, rack, NEW_BAR[first.units]),
                    kerf=kerf,
                    squaring=rules.squaring,
                    least_offcut=rules.least_offcut,
                    clock=time.perf_counter,
                    seconds=seconds,
                    progress=tell,
                )
            )
    return CutOrder(
        jobs=tuple(made.job.part.name for made in plans),
        units=first.units,
        reading=reading_of(first),
        sections=tuple(sections),
        assumed_kerf=assumed,
    )


def bars_for(made: Plan, rack: Path) -> str:
    """Say which bars of a rack the blanks of a plan are sawn from, by a cut plan of their own.

    Parameters
    ----------
    made
        The plan.
    rack
        Of the rack file.

    Raises
    ------
    InputError
        If the rack cannot be used, or the blank is longer than any bar.
    """
    order = cut_plans([made], rack=load_rack(rack), crib=None, rules=CuttingRules())
    words = CutWords(units=order.units, reading=order.reading)
    return " ".join(words.bars_of(cuts, made.job.part.name) for cuts in order.sections)


def kerf_of(rules: CuttingRules, crib: Crib | None) -> tuple[float, bool]:
    """Return what a cut takes, and whether nobody stated it [mm].

    Parameters
    ----------
    rules, crib
        Of the shop; the rules go first, then the widest saw, so that no piece comes out short.
    """
    if rules.kerf is not None:
        return rules.kerf, False
    if crib is not None and crib.saws:
        return max(saw.kerf for saw in crib.saws), False
    return saw_kerf(USUAL_SAW, "crib.saw")[1], True


def blanks_of(made: Plan, rules: CuttingRules) -> list[WantedPiece]:
    """Return the blanks of a plan as they are cut: by the rule they are read on, with the trim.

    Raises
    ------
    InputError
        Where the plan has no blank.
    """
    part, reading = made.job.part, reading_of(made.job)
    if made.blank is None:
        raise InputError(
            part.name, "its blank could not be worked out, so nothing can be cut",
            "look at its plan first: strapwright plan",
        )  # fmt: skip
    lengths = {part.name: made.blank.length}
    lengths |= {f"{part.name}, {one.name}": one.blank.length for one in made.stack[1:]}
    return [
        WantedPiece(
            bar=part.bar,
            material=part.material,
            piece=CutPiece(
                name=name, length=as_read(length, reading) + rules.trim, quantity=part.quantity
            ),
        )
        for name, length in lengths.items()
    ]


def tooling_pieces(job: Job) -> list[WantedPiece]:
    """Return rounds and plates of a tooling, each longer by what facing its ends takes."""
    laid = pieces_of(job)
    found = [
        WantedPiece(
            bar=Bar(section="round", thickness=one.diameter, width=one.diameter),
            material=one.steel or one.metal,
            priced_as=one.metal,
            piece=CutPiece(
                name=f"{job.part.name}: {one.name}",
                length=one.length + FACING,
                quantity=one.quantity,
            ),
        )
        for one in laid.shafts
    ]
    for one in laid.plates:
        if one.piece:
            continue  # another face of a plate that is there already
        thin, wide, long = sorted((one.thickness, one.width, one.height))
        found.append(
            WantedPiece(
                bar=Bar(section="flat", thickness=thin, width=wide),
                material=one.steel or one.metal,
                priced_as=one.metal,
                piece=CutPiece(
                    name=f"{job.part.name}: {one.name}",
                    length=long + FACING,
                    quantity=one.quantity,
                ),
            )
        )
    return found


def as_read(mm: float, reading: Reading) -> float:
    """Return a length as the rule shows it, so that plan, sheet and saw say the same [mm]."""
    return float(read_length(show_length(mm, reading), "blank"))
