"""Coming off and laying in among all that stands there, on whole jobs.

Each job gets the answer that follows from its figures, and one figure is changed so that it flips.
Every way off is walked again, finely, by shapely, with pieces placed here from the plan's own.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Literal

import numpy as np
import pytest
import shapely
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon
from telling import told

from strapwright.findings import Severity
from strapwright.ordering.freeing.coming_off import comes_off, goes_in
from strapwright.ordering.order_values import PartGeometry, Piece, ToolSection
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.steps.way_off_words import way_off_words

HEAD = 'format = 1\nunits = "inch"\n[part]\nname = "case"\nbar = "flat 1/4 x 1-1/2"\n'
HEAD += 'material = "A36 hot rolled"\nmeasured = "outside"\n'
INCH = 25.4

RING = """shape = ["2-3/4","up 90","5","up 90","5","up 90","5","up 90","1-3/4"]
[press]
bore = "3-3/4"
[tooling]
plate = { width = "3", thick = "3/4" }
rod = [{ out = "OUT", along = "-2", diameter = "1" }, { out = "OUT", along = "2", diameter = "1" }]
nose = { shaft = "3/4", reach = "9", held = "one end", span = "2" }
shoulders = { radius = "3/8", opening = "2-1/2", height = "6" }
"""

HOUSE = """shape = [
  "2-3/4","up 90","4-1/2","up 60","4","up 60","4","up 60","4-1/2","up 90","2-3/4"]
[press]
bore = "3-3/4"
rod = "3/4"
daylight = "2"
[tooling]
plate = { width = "2-1/2", thick = "1/2" LENGTH }
nose = { shaft = "3/4", reach = "3", drawable = true }
shoulders = { radius = "3/8", opening = "2-1/2", height = "6" }
"""

HOOK = """shape = ["5","up 60","LEG","down 90","4","down 90","2-1/2"]
order = [3, 2, 1]
[press]
bore = "3-3/4"
[tooling]
nose = { shaft = "3/4" }
shoulders = { radius = "3/8", opening = "2-1/2" HEIGHT }
"""


def planned(text: str, **words: str) -> Plan:
    for word, said in words.items():
        text = text.replace(word, said)
    return plan(read_job(HEAD + text))


def refusals(made: Plan) -> dict[str, str]:
    return {f.code: f.text for f in told(made) if f.severity is Severity.REFUSAL}


def shape(piece: Piece, dy: float) -> shapely.Geometry:
    if piece.centre is not None:
        return Point(piece.centre[0], piece.centre[1] + dy).buffer(piece.radius, quad_segs=64)
    return affinity.translate(Polygon(piece.polygon), 0.0, dy)


def walk(made: Plan, step: Step, daylight: float) -> tuple[float, float]:
    """Least distance of the part from all pieces at full opening, and how deep it gets below the
    bed's face, over the way off once it is clear of what it lies on [mm].

    The bar is the drawn mid-line, half its thickness less 0.3 mm to each side: the drawn arc is the
    solver's own, not the even arc that the way was found for.
    """
    off, tooling = step.coming_off, made.job.tooling
    assert off is not None
    assert tooling is not None
    t = made.job.part.bar.thickness
    half = 0.5 * made.job.part.bar.width
    pose = step.poses.released
    bar = LineString(np.column_stack((pose.x, pose.y - pose.nose_y))).buffer(
        0.5 * t - 0.3, cap_style="flat"
    )
    height = t + tooling.nose.radius + daylight  # of the nose's centre over the shoulder tops
    placed = [(p, shape(p, 0.0 if p.side == "nose" else -height)) for p in made.pieces]
    bed = min(p.bounds[3] for one, p in placed if one.name == "bed")
    least, deepest = math.inf, -math.inf
    first = 1 if off.motion[1][1] < -1.0 and off.motion[1][0] == 0.0 else 0
    for before, after in pairwise(off.motion[first:]):
        far = max(abs(a - b) for a, b in zip(before[:3], after[:3], strict=True))
        for share in np.linspace(0.0, 1.0, max(3, min(120, int(far / 2.0)))):
            x, y, z, turn = (a + share * (b - a) for a, b in zip(before, after, strict=True))
            here = affinity.translate(
                affinity.rotate(bar, turn, origin=(0.0, 0.0), use_radians=True), x, y
            )
            deepest = max(deepest, bed - here.bounds[1])
            for piece, solid in placed:
                a, b = piece.z or (-math.inf, math.inf)
                if a < half + z and b > z - half:
                    overlap = here.intersection(solid).area
                    least = min(least, -overlap if overlap > 0.0 else here.distance(solid))
    return least, deepest


def test_a_ring_does_not_slide_off_through_the_guide_rods() -> None:
    """It stands 5 in wide at least; between the rods there are 4 in, and they reach up and down.

    Between them along the nose there are 3 in, and the nose with its free end at 1 in is 2 in long.
    """
    held = planned(RING, OUT="2-1/2")
    assert "does not come off" in refusals(held)["no-order"]
    # Corner to corner the ring takes 7.1 in less what the corners are round: 7-1/2 in are enough.
    free = planned(RING, OUT="4-1/4")
    assert not refusals(free)
    last = free.steps[-1].coming_off
    assert last is not None
    assert (last.verdict, last.how) == ("free", "slides")
    assert "rides up on the nose" in way_off_words(free.steps[-1])
    assert last.motion[-1][0] != 0.0 or abs(last.motion[-1][2]) > 2.0 * INCH


@pytest.mark.long
def test_a_house_round_the_push_plate_is_not_freed_by_drawing_the_nose() -> None:
    """Its gap lets the ram through, not the plate of 2-1/2 by 1/2 in that stays inside."""
    held = planned(HOUSE, LENGTH="")
    assert "does not come off" in refusals(held)["no-order"]
    assert "draw-the-nose" not in {f.code for f in held.findings}
    free = planned(HOUSE, LENGTH=', length = "3"')
    assert not refusals(free)
    last = free.steps[-1].coming_off
    assert last is not None
    assert (last.verdict, last.how) == ("free", "slides")


def test_a_hook_does_not_hang_through_a_bed_that_nobody_stated() -> None:
    """Laid in for the last bend it hangs 4 in down; without a height nothing says there is room."""
    held = planned(HOOK, LEG="5-1/2", HEIGHT="")
    said = refusals(held)["order-cannot-be-made"]
    assert "hits the bed" in said
    assert "bed is assumed" in said
    assert not refusals(planned(HOOK, LEG="5-1/2", HEIGHT=', height = "6"'))
    # With the shorter leg its end hooks 1 in under the shoulder, and runs into that.
    tight = planned(HOOK, LEG="3-1/2", HEIGHT=', height = "6"')
    assert "hits the right shoulder" in refusals(tight)["order-cannot-be-made"]


@pytest.mark.parametrize(
    ("text", "words", "daylight"),
    [
        pytest.param(RING, {"OUT": "4-1/4"}, 150.0, marks=pytest.mark.long),
        pytest.param(HOUSE, {"LENGTH": ', length = "3"'}, 2.0 * INCH, marks=pytest.mark.long),
        (HOOK, {"LEG": "5-1/2", "HEIGHT": ', height = "6"'}, 150.0),
    ],
)
def test_every_way_off_walked_again_keeps_clear_and_above_the_bed(
    text: str, words: dict[str, str], daylight: float
) -> None:
    made = planned(text, **words)
    for step in made.steps:
        least, deepest = walk(made, step, daylight)
        assert least > -0.5, (step.bend, least)  # mm2 of overlap with what the part lies on
        assert deepest < 0.5


def test_a_bar_that_cannot_be_laid_in_is_refused_before_it_is_bent() -> None:
    """The bar lies clear of all, but endless columns and plate leave no way in."""
    part = PartGeometry(
        straights=(90.0, 90.0, 90.0),
        angles=(math.pi / 2.0,) * 2,
        radii=(10.0,) * 2,
        thickness=6.0,
        z=(-20.0, 20.0),
    )
    assert goes_in(closed_in(columns=True), part, 1, made=(2,)).verdict == "TRAPPED"
    assert goes_in(closed_in(columns=False), part, 1, made=(2,)).verdict == "FREE"


@pytest.mark.long
def test_a_part_does_not_leave_downwards_beside_a_narrow_bed() -> None:
    """Between endless columns, under the plate, it could only fall past the bed."""
    part = PartGeometry(
        straights=(90.0, 90.0),
        angles=(math.pi / 2.0,),
        radii=(10.0,),
        thickness=6.0,
        z=(-20.0, 20.0),
    )
    held, free = closed_in(columns=True, bed=60.0), closed_in(columns=False, bed=60.0)
    assert comes_off(held.pieces, part, 1, 10.0, section=held).verdict == "TRAPPED"
    assert comes_off(free.pieces, part, 1, 10.0, section=free).verdict == "FREE"


def closed_in(*, columns: bool, bed: float = 500.0) -> ToolSection:
    """Shoulders on a bed under a wide plate; columns that go on along the nose close it at the
    sides.
    """

    def piece(name: str, side: Literal["nose", "shoulders"], *box: float) -> Piece:
        x0, y0, x1, y1 = box
        return Piece(name=name, side=side, polygon=((x0, y0), (x1, y0), (x1, y1), (x0, y1)))

    pieces = [
        Piece(
            name="nose",
            side="nose",
            centre=(0.0, 0.0),
            radius=10.0,
            z=(-60.0, 60.0),
            contact=True,
        ),
        piece("push plate", "nose", -400.0, 150.0, 400.0, 170.0),
        piece("left shoulder", "shoulders", -36.0, -90.0, -24.0, -6.0),
        piece("right shoulder", "shoulders", 24.0, -90.0, 36.0, -6.0),
        *(
            Piece(name=name, side="shoulders", centre=(x, -6.0), radius=6.0, contact=True)
            for name, x in (("left shoulder", -30.0), ("right shoulder", 30.0))
        ),
        piece("bed", "shoulders", -bed, -130.0, bed, -90.0),
    ]
    if columns:
        pieces += [
            piece("left column", "shoulders", -460.0, -900.0, -400.0, 900.0),
            piece("right column", "shoulders", 400.0, -900.0, 460.0, 900.0),
        ]
    return ToolSection(
        opening=60.0,
        shoulder_radius=6.0,
        nose_radius=10.0,
        pieces=tuple(pieces),
        daylight=60.0,
        bed=-90.0,
    )
