"""How long tooling takes to make, against sums by hand.

What each piece of work takes is common practice, no source; the sums are typed in.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from attrs import evolve

from strapwright.making.crib_cutters import cutters_of
from strapwright.making.hole_table import fit_hole, plain_hole
from strapwright.making.making_hours import making_minutes, plate_minutes
from strapwright.making.plate_making import make_plate
from strapwright.making.plate_values import HoleSpec, PlateDrawing, ShaftDrawing
from strapwright.shop.crib import Crib, DrillSet
from strapwright.shop_files.reading_job import read_job

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
DIE = read_job((EXAMPLES / "mooring-hook-die.toml").read_text(encoding="utf-8"))

ONE_DRILL = cutters_of(Crib(drills=(DrillSet(series="single", first="", last="", sizes=(5.0,)),)))


def beyond_cutting(plate: PlateDrawing) -> float:
    """Minutes of a plate beside those of its cuts, with one small drill for all."""
    made = make_plate(plate, ONE_DRILL, units="metric")
    return plate_minutes(made) - made.minutes


def plate(*holes: HoleSpec) -> PlateDrawing:
    return PlateDrawing(
        name="foot", metal="mild steel", width=150.0, height=90.0, thickness=12.0, holes=holes
    )


def test_a_plate_is_sawn_across_its_shorter_side_unless_it_is_there_or_part_of_another() -> None:
    # A cut 5 min, and 12 x 90 = 1080 mm2 at 600 a minute: 1.8 min.
    assert beyond_cutting(plate()) == pytest.approx(6.8)
    assert beyond_cutting(evolve(plate(), exists=True)) == 0.0
    assert beyond_cutting(evolve(plate(), piece="pair of cheeks")) == 0.0
    # Two pieces are clamped together for 10 min.
    assert beyond_cutting(evolve(plate(), piece="pair of cheeks", joint=True)) == 10.0


def test_a_hole_that_the_crib_cannot_make_takes_an_hour_a_kind() -> None:
    one = plain_hole(30.0, 45.0, 11.0, "w")
    assert beyond_cutting(plate(one)) == pytest.approx(66.8)
    assert beyond_cutting(plate(one, evolve(one, x=60.0))) == pytest.approx(66.8)
    other = fit_hole(100.0, 45.0, 25.0, "H7", "w")
    assert beyond_cutting(plate(one, other)) == pytest.approx(126.8)


def test_shafts_welds_and_a_web_by_hand() -> None:
    # To face 15 min, a cut 5 min, and pi/4 x 25.4^2 = 506.71 mm2 at 600 a minute: 0.8445 min.
    shaft = ShaftDrawing(name="nose", metal="1045", diameter=25.4, length=100.0)
    assert making_minutes((), [shaft], None) == pytest.approx(20.8445, abs=1e-4)
    assert making_minutes((), [evolve(shaft, quantity=2)], None) == pytest.approx(41.689, abs=1e-3)
    tooling = DIE.tooling
    assert tooling is not None
    # 8 in of weld on each of two carriers: 406.4 mm at 15 a minute; one carrier half of it.
    assert making_minutes((), (), tooling) == pytest.approx(27.0933, abs=1e-4)
    lone = evolve(tooling, nose=evolve(tooling.nose, held="one end"))
    assert making_minutes((), (), lone) == pytest.approx(13.5467, abs=1e-4)
    # On a web no carrier is welded, and the shaft is bedded on its edge for 20 min.
    webbed = evolve(tooling, nose=evolve(tooling.nose, held="web"))
    assert making_minutes((), (), webbed) == pytest.approx(20.0)


def test_two_carriers_are_clamped_together_once() -> None:
    carrier = evolve(plate(), name="nose carrier")
    made = make_plate(carrier, ONE_DRILL, units="metric")
    alone = making_minutes([made], (), None)
    pair = making_minutes([evolve(made, plate=evolve(carrier, quantity=2))], (), None)
    assert pair == pytest.approx(2 * alone + 10.0)
