"""Does the part come off: quick looks first, then exact slices, finer until it is decided."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Literal

import shapely
from attrs import evolve, frozen
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from strapwright.ordering.freeing.convex_solids import Slab, on_nose
from strapwright.ordering.freeing.exit_poses import poses
from strapwright.ordering.freeing.exit_routes import Graph, Node, Route
from strapwright.ordering.freeing.part_gap import Gap, caliper, gaps_of, whole, wound_and_held
from strapwright.ordering.freeing.pieces_along_nose import Layer, layers_of
from strapwright.ordering.freeing.possible_places import Slices
from strapwright.ordering.kernel_pieces import Floats
from strapwright.ordering.order_results import FreeingPose, FreeingResult
from strapwright.ordering.order_values import PartGeometry, Piece, ToolSection
from strapwright.ordering.refusal_values import End, StaysOn

# Numerical: how finely is looked, and how long; too coarse or too short says too close to call.
OVERLAP = 0.02  # of the pose on the nose with the tooling, deeper is no start [mm]
STARTS = (0.02, 0.05, 0.1, 0.2, 0.3, 0.5)  # slid clear of the nose by so much [mm]
QUICK = 60  # nodes of the first search: where there is a way out it is mostly short
FULL = 20_000
# Slabs in a full turn, chord error that goes with them [mm], certain or possible, nodes at most;
# numerical, as above.
LOOKS = (
    (72, 0.25, True, QUICK),
    (180, 0.25, False, FULL),
    (360, 0.12, False, FULL),
    (180, 0.12, True, FULL),
    (720, 0.06, False, FULL),
    (360, 0.06, True, FULL),
    (1440, 0.03, False, FULL),
    (720, 0.03, True, FULL),
    (1440, 0.02, True, FULL),
)
APART = 2.0  # gaps no further apart are one [mm]
HOLDER_LOOKS = 1  # of these, with one body taken away
KeepGoing = Callable[[], bool]


@frozen(kw_only=True)
class _Job:
    rows: Floats
    pieces: tuple[Piece, ...]
    layers: tuple[Layer, ...]
    starts: tuple[int, ...]  # layers that the part lies in on the nose
    thickness: float


@frozen(kw_only=True)
class _Clear:
    """A pose slid clear of the nose, and the unturned regions that hold it."""

    point: tuple[float, float]
    nodes: tuple[Node, ...]
    outlines: tuple[Polygon, ...]


def comes_off(
    pieces: tuple[Piece, ...],
    part: PartGeometry,
    last_bend: int,
    nose_radius: float,
    *,
    made: tuple[int, ...] | None = None,
    end_left: End = 1,
    keep_going: KeepGoing = lambda: True,
    what_holds: bool = True,
) -> FreeingResult:
    """Say whether the part comes off the nose side after ``last_bend``.

    Parameters
    ----------
    pieces
        Tooling; only pieces on the nose side count, in nose coordinates [mm].
    part
        Finished part; ``part.z`` is its place along the nose [mm].
    last_bend
        1-based; it sits on the nose, wings up.
    nose_radius
        [mm]
    made
        1-based bends made so far, ``last_bend`` among them; all where left out.
    end_left
        Which end of the bar points left on the nose.
    keep_going
        Asked between slices; once it says no the verdict is what is known by then.
    what_holds
        Also look for the bodies of which one, taken away, frees a trapped part.

    Returns
    -------
    FreeingResult
        ``FREE`` and ``TRAPPED`` are proven for motion in the plane with sliding along the nose;
        ``TOO CLOSE`` is not decided.
    """
    done = tuple(range(1, part.bends + 1)) if made is None else tuple(sorted(made))
    nose_side = tuple(p for p in pieces if p.side == "nose")
    rows = on_nose(part, done, last_bend, nose_radius, end_left)
    result = _decide(_job(rows, nose_side, part), part, keep_going)
    if result.verdict != "TRAPPED" or not what_holds:
        return result
    return evolve(result, held_by=_holders(rows, nose_side, part, keep_going))


def quickly_off(
    pieces: tuple[Piece, ...], part: PartGeometry, last_bend: int, nose_radius: float
) -> bool:
    """Whether a short search finds the finished part free; a no is not proven."""
    nose_side = tuple(p for p in pieces if p.side == "nose")
    rows = on_nose(part, tuple(range(1, part.bends + 1)), last_bend, nose_radius)
    job = _job(rows, nose_side, part)
    return _decide(job, part, lambda: True, finest=HOLDER_LOOKS).verdict == "FREE"


def _job(rows: Floats, pieces: tuple[Piece, ...], part: PartGeometry) -> _Job:
    layers = layers_of(pieces, part.z)
    return _Job(
        rows=rows,
        pieces=pieces,
        layers=layers,
        starts=tuple(k for k, layer in enumerate(layers) if layer.low <= 0.0 <= layer.high),
        thickness=part.thickness,
    )


def _holders(
    rows: Floats, pieces: tuple[Piece, ...], part: PartGeometry, keep_going: KeepGoing
) -> tuple[str, ...]:
    """Bodies of which one, taken away, frees the part."""
    owners = list(dict.fromkeys(p.owner for p in pieces))
    found = []
    for owner in owners:
        left = tuple(p for p in pieces if p.owner != owner)
        if _decide(_job(rows, left, part), part, keep_going, finest=HOLDER_LOOKS).verdict == "FREE":
            found.append(owner)
    return tuple(found)


def _decide(
    job: _Job, part: PartGeometry, keep_going: KeepGoing, finest: int = len(LOOKS)
) -> FreeingResult:
    gaps = gaps_of(job.rows)
    flat = Slices(job.pieces, job.rows, (0.0, 0.0), Slab(count=0, chord_error=0.005), certain=True)
    around = _around_start(job)
    if around is None:
        return _result("NO START", job, gaps)
    graph = Graph(job.layers, flat, certain=True)
    clear = _clear_of_nose(graph, job, around)
    if clear is not None:
        straight = graph.search(clear.nodes, FULL, keep_going)
        if straight.answer == "out":
            return _free(job, gaps, graph, straight, clear)
    if wound_and_held(job.rows, job.pieces, part.z):
        return _result("TRAPPED", job, gaps, any_motion=True)
    return _by_slabs(job, gaps, clear, keep_going, finest)


def _by_slabs(
    job: _Job,
    gaps: tuple[Gap, ...],
    clear: _Clear | None,
    keep_going: KeepGoing,
    finest: int,
) -> FreeingResult:
    references = _references(gaps)
    reach = _reach(job.rows, references[0])
    cut = 0
    # A certain way through the one gap may need the reference there, through the other gap there;
    # that there is none at all is shown from either.
    looks = [
        (count, chord, certain, limit, reference)
        for count, chord, certain, limit in LOOKS[:finest]
        for reference in (references if certain else references[:1])
    ]
    for count, chord, certain, limit, reference in looks:
        if not keep_going():
            break
        slab = Slab(count=count, chord_error=chord)
        if not certain and slab.travel * reach >= 0.45 * job.thickness:
            continue
        slices = Slices(job.pieces, job.rows, reference, slab, certain=certain)
        graph = Graph(job.layers, slices, certain=certain)
        if not certain:
            starts = graph.at(job.starts, (0.0, 0.0), 2.0 * OVERLAP)
        elif clear is not None:
            starts = graph.overlapping(job.starts, clear.outlines)
        else:
            continue
        route = graph.search(starts, limit, keep_going)
        cut += slices.cut
        if certain and clear is not None and route.answer == "out":
            return evolve(_free(job, gaps, graph, route, clear), slabs=cut)
        if not certain and route.answer == "none":
            return evolve(_result("TRAPPED", job, gaps), slabs=cut)
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


def _around_start(job: _Job) -> BaseGeometry | None:
    """Where the unturned part may stand about the pose on the nose, or None if it overlaps there.

    Widened by ``OVERLAP``, since on the nose the part touches it.
    """
    inside = Slices(
        job.pieces, job.rows, (0.0, 0.0), Slab(count=0, chord_error=0.005), certain=False
    )
    near = [
        region.outline
        for k in job.starts
        for region in inside.regions(job.layers[k].pieces, 0)
        if region.outline.distance(Point(0.0, 0.0)) <= OVERLAP
    ]
    return shapely.union_all(near).buffer(OVERLAP) if near else None


def _clear_of_nose(graph: Graph, job: _Job, around: BaseGeometry) -> _Clear | None:
    """Find a pose slid clear of the nose by a hair."""
    for step in STARTS:
        for angle in (-90, -60, -120, -30, -150):
            a = math.radians(angle)
            point = (step * math.cos(a), step * math.sin(a))
            nodes = tuple(graph.at(job.starts, point, 0.0))
            if nodes and around.covers(LineString([(0.0, 0.0), point])):
                outlines = tuple(graph.region(node).outline for node in nodes)
                return _Clear(point=point, nodes=nodes, outlines=outlines)
    return None


def _free(
    job: _Job, gaps: tuple[Gap, ...], graph: Graph, route: Route, clear: _Clear
) -> FreeingResult:
    x, y = clear.point
    region = graph.region(route.nodes[0]).outline
    low = region.bounds[1] - 1.0
    fall = shapely.intersection(LineString([(x, y), (x, low)]), region).length
    drops = len(route.nodes) == 1 and fall >= y - low - 1.0 - 1e-6
    turned = any(node.index != 0 for node in route.nodes)
    how: Literal["drops", "slides", "turns"] = "drops" if drops else "turns" if turned else "slides"
    return _result(
        "FREE",
        job,
        gaps,
        how=how,
        motion=poses(job.layers, graph, route, clear.point, clear.outlines),
    )


def _result(
    verdict: Literal["FREE", "TRAPPED", "TOO CLOSE", "NO START"],
    job: _Job,
    gaps: tuple[Gap, ...],
    *,
    how: Literal["drops", "slides", "turns", ""] = "",
    motion: tuple[FreeingPose, ...] = (),
    any_motion: bool = False,
) -> FreeingResult:
    return FreeingResult(
        verdict=verdict,
        motion=motion,
        how=how,
        gap=gaps[0].width if gaps else None,
        must_pass=min((caliper(p) for p in job.pieces), default=None),
        held_by=(),
        any_motion=any_motion,
        slabs=0,
    )


def locks_on(
    section: ToolSection, part: PartGeometry
) -> Callable[[int, End, tuple[int, ...]], StaysOn | None]:
    """Return what :func:`~strapwright.ordering.order_search.find_order` asks of a step.

    Only a step after which the part is proven to come off passes.
    """

    def refuse(bend: int, end_left: End, made: tuple[int, ...]) -> StaysOn | None:
        off = comes_off(
            section.pieces,
            part,
            bend,
            section.nose_radius,
            made=(*made, bend),
            end_left=end_left,
            what_holds=False,
        )
        return None if off.verdict == "FREE" else StaysOn()

    return refuse
