"""Decides whether a part comes off: straight first, then a coarse proof, then finer slabs."""

from __future__ import annotations

import math
from typing import Literal

import shapely
from attrs import evolve, field, frozen
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from strapwright.ordering.freeing.convex_solids import Slab
from strapwright.ordering.freeing.exit_poses import poses
from strapwright.ordering.freeing.exit_routes import Graph, Route
from strapwright.ordering.freeing.opened import ON_NOSE, Opened, Place, by_ground
from strapwright.ordering.freeing.part_gap import Gap, caliper, gaps_of, whole, wound_and_held
from strapwright.ordering.freeing.pieces_along_nose import Layer, layers_of
from strapwright.ordering.freeing.possible_places import Bounds, Slices
from strapwright.ordering.kernel_pieces import Floats
from strapwright.ordering.order_results import FreeingPose, FreeingResult
from strapwright.ordering.order_values import PartGeometry, Piece
from strapwright.ordering.time_given import KeepGoing, OutOfTimeError, always, ask

# Numerical: how finely is looked, and how long; too coarse or too short says too close to call.
OVERLAP = 0.02  # of the pose on the nose with the tooling, deeper is no start [mm]
STARTS = (0.02, 0.05, 0.1, 0.2, 0.3, 0.5)  # slid clear of what it touches by so much [mm]
QUICK = 60  # nodes of the first search: where there is a way out it is mostly short
LONG = 400  # of the second
FULL = 20_000
# Slabs in a full turn, chord error that goes with them [mm], certain or possible, nodes at most;
# numerical, as above.
LOOKS = (
    (72, 0.25, True, QUICK),
    (180, 0.12, True, LONG),
    (180, 0.25, False, FULL),
    (360, 0.12, False, FULL),
    (360, 0.06, True, FULL),
    (720, 0.06, False, FULL),
    (1440, 0.03, False, FULL),
    (720, 0.03, True, FULL),
    (1440, 0.02, True, FULL),
)
FINEST_CHORD, ROUGH_CHORD = 0.005, 0.1  # chord error of the first looks, without a turn [mm]
ORIGIN = (0.0, 0.0)
NEAR = 3.0  # displacements looked at to slide clear [mm]
SHRINK = 0.45  # of the thickness at most, lest nothing be left of a shrunk part [-]
COARSE_CHORD = 0.4  # chord error of the first proof [mm]
APART = 2.0  # gaps no further apart are one [mm]

NO_TIME = FreeingResult(
    verdict="NO TIME",
    motion=(),
    how="",
    gap=None,
    must_pass=None,
    held_by=(),
    any_motion=False,
    slabs=0,
)


@frozen(kw_only=True)
class FreeingJob:
    """One part in one place, and all that it must pass.

    Attributes
    ----------
    rows
        Of the part, a stack as one bar.
    bars
        Of all bars of a stack, one after the other; else the same.
    """

    rows: Floats
    bars: Floats
    pieces: tuple[Piece, ...]
    layers: tuple[Layer, ...]
    starts: tuple[int, ...]  # layers that the part lies in on the nose
    part: PartGeometry
    opened: Opened
    bounds: Bounds = field(factory=Bounds)
    keep_going: KeepGoing = always


@frozen(kw_only=True)
class _Clear:
    """A pose slid clear of what it touches, and the regions about it that hold it unturned."""

    place: Place
    point: tuple[float, float]
    outlines: tuple[Polygon, ...]


def job_of(
    rows: Floats, bars: Floats, opened: Opened, part: PartGeometry, keep_going: KeepGoing = always
) -> FreeingJob:
    """Cut what the part must pass into layers along the nose."""
    layers = layers_of(opened.pieces, part.z)
    return FreeingJob(
        rows=rows,
        bars=bars,
        pieces=opened.pieces,
        layers=layers,
        starts=tuple(k for k, layer in enumerate(layers) if layer.low <= 0.0 <= layer.high),
        part=part,
        opened=opened,
        bounds=Bounds(ground=opened.ground, ceiling=opened.ceiling),
        keep_going=keep_going,
    )


def decide(job: FreeingJob, finest: int = len(LOOKS)) -> tuple[FreeingResult, Polygon | None]:
    """The verdict, and for a trapped part where it can get to, at most."""
    found = []
    try:
        ask(job.keep_going)
        for opened in by_ground(job.opened):
            one = evolve(job, opened=opened, bounds=evolve(job.bounds, ground=opened.ground))
            found.append(_decide(one, gaps_of(one.rows), finest))
            if found[-1][0].verdict == "FREE":  # from any place is free
                return found[-1]
    except OutOfTimeError:
        return NO_TIME, None
    # What is not decided from one place is not decided; a place it overlaps in is no place.
    rank = {"TOO CLOSE": 0, "TRAPPED": 1}
    return min(found, key=lambda one: rank.get(one[0].verdict, 2))


def _decide(
    job: FreeingJob, gaps: tuple[Gap, ...], finest: int
) -> tuple[FreeingResult, Polygon | None]:
    if not job.opened.places:
        return evolve(_result("NO START", job, gaps), parts=False), None
    clears = _clears(job)
    if clears is None:
        return _result("NO START", job, gaps), None
    straight = _straight(job, gaps, clears)
    if isinstance(straight, FreeingResult):
        return straight, None
    nose_side = tuple(p for p in job.pieces if p.side == "nose")
    if wound_and_held(job.rows, nose_side, job.part.z):
        return _result("TRAPPED", job, gaps, any_motion=True), None
    reach, cut = _trapped_near(job)
    if reach is not None:
        return evolve(_result("TRAPPED", job, gaps), slabs=cut), reach
    return _by_slabs(job, gaps, straight, finest), None


def _slices(
    job: FreeingJob,
    reference: tuple[float, float],
    slab: Slab,
    *,
    certain: bool,
    bounds: Bounds,
) -> Slices:
    return Slices(
        job.pieces,
        job.bars,
        reference,
        slab,
        certain=certain,
        bounds=bounds,
        keep_going=job.keep_going,
    )


def _clears(job: FreeingJob) -> list[_Clear] | None:
    """Poses slid clear of what the part touches where it may be; None where it overlaps in all."""
    clears, starts = [], 0
    # Exact to the hair by which the part is slid clear, and no further than that.
    fine = Slab(count=0, chord_error=FINEST_CHORD)
    for place in job.opened.places:
        x, y = place.spot
        near = evolve(job.bounds, window=(x - NEAR, y - NEAR, x + NEAR, y + NEAR))
        inside = _slices(job, ORIGIN, fine, certain=False, bounds=near)
        around = _around(inside, job, place)
        if around is None:
            continue
        starts += 1
        beside = _slices(job, ORIGIN, fine, certain=True, bounds=near)
        clear = _slid_clear(Graph(job.layers, beside, certain=True), job, place, around)
        if clear is not None:
            clears.append(clear)
    return clears if starts else None


def _straight(
    job: FreeingJob, gaps: tuple[Gap, ...], clears: list[_Clear]
) -> FreeingResult | list[_Clear]:
    """A way off without a turn, by rough chords and then by the finest.

    Where there is none, where the part can get to without one is where a turn may begin.
    """
    reached = clears
    for chord in (ROUGH_CHORD, FINEST_CHORD):
        slab = Slab(count=0, chord_error=chord)
        flat = _slices(job, ORIGIN, slab, certain=True, bounds=job.bounds)
        graph = Graph(job.layers, flat, certain=True)
        reached = []
        for clear in clears:
            inner = graph.overlapping(job.starts, clear.outlines)
            route = graph.search(inner, FULL)
            if route.answer == "out":
                return _free(job, gaps, graph, route, clear)
            wider = (graph.region(node).outline for node in inner)
            reached.append(evolve(clear, outlines=(*wider, *clear.outlines)))
    return reached


def _trapped_near(job: FreeingJob) -> tuple[Polygon | None, int]:
    """Try to show that the part cannot leave its own neighbourhood, by the coarsest slabs that do.

    Returns
    -------
    polygon or None
        Where the part can get to, at most; ``None`` where it is not shown to be trapped.
    int
        Slices cut.
    """
    outline = whole(job.bars)
    circle = shapely.minimum_bounding_circle(outline)
    middle = circle.centroid
    reference = (float(middle.x), float(middle.y))
    reach = float(outline.hausdorff_distance(middle))
    half = SHRINK * job.part.thickness / (2.0 * reach)
    count = max(24, math.ceil(math.pi / (2.0 * math.asin(min(half, 1.0)))) + 1)
    spots = [place.spot for place in job.opened.places]
    room = 1.2 * reach
    window = (
        min(x for x, _ in spots) - room,
        min(y for _, y in spots) - room,
        max(x for x, _ in spots) + room,
        max(y for _, y in spots) + room,
    )
    slab = Slab(count=count, chord_error=COARSE_CHORD)
    bounds = evolve(job.bounds, window=window)
    slices = _slices(job, reference, slab, certain=False, bounds=bounds)
    graph = Graph(job.layers, slices, certain=False)
    starts = [
        node
        for place in job.opened.places
        for node in graph.at(job.starts, place.spot, 2.0 * OVERLAP)
    ]
    route = graph.search(starts, FULL)
    if route.answer != "none":
        return None, slices.cut
    boxes = [graph.region(node).outline.bounds for node in route.seen]
    x, y = reference
    left, low = min(b[0] for b in boxes) + x - reach, min(b[1] for b in boxes) + y - reach
    right, high = max(b[2] for b in boxes) + x + reach, max(b[3] for b in boxes) + y + reach
    return shapely.box(left, low, right, high), slices.cut


def _by_slabs(
    job: FreeingJob,
    gaps: tuple[Gap, ...],
    clears: list[_Clear],
    finest: int,
) -> FreeingResult:
    references = _references(gaps)
    reach = _reach(job.bars, references[0])
    cut = 0
    # A certain way through the one gap may need the reference there, through the other gap there;
    # that there is none at all is shown from either.
    looks = [
        (count, chord, certain, limit, reference)
        for count, chord, certain, limit in LOOKS[:finest]
        for reference in (references if certain else references[:1])
    ]
    for count, chord, certain, limit, reference in looks:
        slab = Slab(count=count, chord_error=chord)
        if not certain and slab.travel * reach >= SHRINK * job.part.thickness:
            continue
        slices = _slices(job, reference, slab, certain=certain, bounds=job.bounds)
        graph = Graph(job.layers, slices, certain=certain)
        if not certain:
            starts = [
                node
                for place in job.opened.places
                for node in graph.at(job.starts, place.spot, 2.0 * OVERLAP)
            ]
            route = graph.search(starts, limit)
            cut += slices.cut
            if route.answer == "none":
                return evolve(_result("TRAPPED", job, gaps), slabs=cut)
            continue
        for clear in clears:
            route = graph.search(graph.overlapping(job.starts, clear.outlines), limit)
            if route.answer == "out":
                return evolve(_free(job, gaps, graph, route, clear), slabs=cut + slices.cut)
        cut += slices.cut
    return evolve(_result("TOO CLOSE", job, gaps), slabs=cut)


def _references(gaps: tuple[Gap, ...]) -> tuple[tuple[float, float], ...]:
    """Where to put the reference point: in each gap, narrowest first, else on the nose."""
    if not gaps:
        return ((0.0, 0.0),)
    first, *others = (gap.middle for gap in gaps)
    return (first, *(m for m in others if math.dist(m, first) > APART))


def _reach(rows: Floats, reference: tuple[float, float]) -> float:
    """Furthest point of the part from the reference [mm]."""
    return float(whole(rows).hausdorff_distance(Point(reference)))


def _around(inside: Slices, job: FreeingJob, place: Place) -> BaseGeometry | None:
    """Where the unturned part may stand about a place, or None if it overlaps there.

    Widened by ``OVERLAP``, since there the part touches nose or shoulders.
    """
    near = [
        region.outline
        for k in job.starts
        for region in inside.regions(job.layers[k].pieces, 0)
        if region.outline.distance(Point(place.spot)) <= OVERLAP
    ]
    return shapely.union_all(near).buffer(OVERLAP) if near else None


def _slid_clear(graph: Graph, job: FreeingJob, place: Place, around: BaseGeometry) -> _Clear | None:
    """Find a pose slid clear by a hair of what the part touches."""
    x, y = place.spot
    for step in STARTS:
        for angle in place.tries:
            a = math.radians(angle)
            point = (x + step * math.cos(a), y + step * math.sin(a))
            nodes = tuple(graph.at(job.starts, point, 0.0))
            if nodes and around.covers(LineString([place.spot, point])):
                outlines = tuple(graph.region(node).outline for node in nodes)
                return _Clear(place=place, point=point, outlines=outlines)
    return None


def _free(
    job: FreeingJob, gaps: tuple[Gap, ...], graph: Graph, route: Route, clear: _Clear
) -> FreeingResult:
    turned = any(node.index != 0 for node in route.nodes)
    drops = len(route.nodes) == 1 and _leaves_straight(job, graph, route, clear)
    how: Literal["drops", "slides", "turns"] = "drops" if drops else "turns" if turned else "slides"
    result = _result(
        "FREE",
        job,
        gaps,
        how=how,
        motion=poses(
            job.layers, graph, route, clear.point, clear.outlines, opened=clear.place.spot
        ),
    )
    return evolve(result, rides=clear.place.rides, spot=clear.place.spot)


def _leaves_straight(job: FreeingJob, graph: Graph, route: Route, clear: _Clear) -> bool:
    """Whether the part and the nose part by moving straight away from each other."""
    if not clear.place.rides:
        return True
    x, y = clear.point
    region = graph.region(route.nodes[0]).outline
    low = region.bounds[1] - 1.0
    fall = float(shapely.intersection(LineString([(x, y), (x, low)]), region).length)
    # With the shoulders below it falls on them, and has left the nose by then.
    enough = y - low - 1.0 if job.bounds.ground is None else whole(job.bars).bounds[3]
    return fall >= enough - 1.0  # the rougher chords leave a little less room


def _result(
    verdict: Literal["FREE", "TRAPPED", "TOO CLOSE", "NO START"],
    job: FreeingJob,
    gaps: tuple[Gap, ...],
    *,
    how: Literal["drops", "slides", "turns", ""] = "",
    motion: tuple[FreeingPose, ...] = (),
    any_motion: bool = False,
) -> FreeingResult:
    nose_side = [p for p in job.pieces if p.side == "nose"]
    likeliest = job.opened.places[0] if job.opened.places else ON_NOSE
    return FreeingResult(
        verdict=verdict,
        motion=motion,
        how=how,
        gap=gaps[0].width if gaps else None,
        must_pass=min((caliper(p) for p in nose_side), default=None),
        held_by=(),
        any_motion=any_motion,
        slabs=0,
        rides=likeliest.rides,
        spot=likeliest.spot,
    )
