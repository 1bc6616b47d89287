"""General tolerances and places of holes for bolts, against tables and hand calculations.

ISO 2768-1:1989, tables 1 and 3, classes f, m, c and v; ASME Y14.5, appendix B, fixed
fasteners (both from memory).
"""

from __future__ import annotations

import math

import pytest

from strapwright.catalog.general_tolerances import (
    GeneralClass,
    angle_deviation,
    flatness,
    general_tolerance,
    length_deviation,
    squareness,
)
from strapwright.making.hole_table import bolt_hole, fit_hole, tapped_hole
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.tolerances import (
    fit_words,
    form_words,
    general_words,
    place_within,
    place_words,
    shaft_limits,
)

INCH = 25.4


@pytest.mark.parametrize(
    ("size", "out"),
    [(0.5, 0.1), (6, 0.1), (6.01, 0.2), (30, 0.2), (31, 0.3), (120, 0.3), (121, 0.5), (400, 0.5),
     (401, 0.8), (1000, 0.8), (1001, 1.2)],
)  # fmt: skip
def test_medium_class_of_the_standard(size: float, out: float) -> None:
    assert general_tolerance(size) == out


# Table 1 as it is printed: over, up to [mm], then f, m, c, v; a dash is a size left open.
LENGTHS = """
0.5 3 0.05 0.1 0.2 -
3 6 0.05 0.1 0.3 0.5
6 30 0.1 0.2 0.5 1
30 120 0.15 0.3 0.8 1.5
120 400 0.2 0.5 1.2 2.5
400 1000 0.3 0.8 2 4
1000 2000 0.5 1.2 3 6
2000 4000 - 2 4 8
"""
# Table 3: shorter leg up to [mm], then f and m together, c, v, in degrees and minutes.
ANGLES = """
10 1.00 1.30 3.00
50 0.30 1.00 2.00
120 0.20 0.30 1.00
400 0.10 0.15 0.30
9999 0.05 0.10 0.20
"""
CLASSES: tuple[GeneralClass, ...] = ("f", "m", "c", "v")


def test_lengths_of_every_class_inside_each_step_and_on_its_end() -> None:
    for line in LENGTHS.split("\n")[1:-1]:
        low, high, *printed = line.split()
        for general, value in zip(CLASSES, printed, strict=True):
            wanted = None if value == "-" else float(value)
            for size in (1.0001 * float(low), 0.9 * float(high), float(high)):
                assert length_deviation(general, size) == wanted, (general, size)
    for general in CLASSES:
        assert length_deviation(general, 0.4) is None
        assert length_deviation(general, 4000.1) is None
    # 4-3/4 in is 120.65 mm, past the step; 120 mm typed in inches is not.
    assert length_deviation("m", 4.75 * INCH) == 0.5
    assert length_deviation("m", 120 / INCH * INCH) == 0.3


def test_angles_of_every_class_by_the_shorter_leg() -> None:
    low = 0.0
    for line in ANGLES.split("\n")[1:-1]:
        high, fine, coarse, very = line.split()
        printed: dict[GeneralClass, str] = {"f": fine, "m": fine, "c": coarse, "v": very}
        for general, value in printed.items():
            degrees, minutes = value.split(".")
            wanted = int(degrees) + int(minutes) / 60
            for leg in (low + 0.01, float(high)):
                assert math.degrees(angle_deviation(general, leg)) == pytest.approx(wanted)
        low = float(high)


def plate(*holes: object) -> PlateDrawing:
    return PlateDrawing(
        name="foot", metal="low carbon steel", width=150.0, height=90.0, thickness=12.0,
        holes=holes,  # type: ignore[arg-type]
    )  # fmt: skip


def test_a_bolt_hole_may_be_out_by_its_share_of_the_play() -> None:
    # M10 in 11 mm: each of the two places may be off by (11 - 10)/2 = 0.5 mm across a circle, so
    # X and Y by 0.5/(2 x 1.41421) = 0.1768 to either side.
    hole = bolt_hole(20, 20, "M10", "normal", "w")
    assert hole.diameter == 11
    assert place_within(hole, plate(hole)) == pytest.approx(0.17678, abs=1e-4)
    assert place_words(hole, plate(hole), "metric") == "0.17"
    # Its thread has the same place to keep, in whatever plate.
    thread = tapped_hole(20, 20, "M10", "w")
    assert place_within(thread, plate(thread)) == pytest.approx(0.17678, abs=1e-4)
    # 3/8 in 13/32: (0.40625 - 0.375)/2/(2 sqrt 2) = 0.0055 in, rounded down.
    inch = bolt_hole(20, 20, "3/8", "normal", "w")
    assert place_words(inch, plate(inch), "inch") == "0.005"


def test_two_bolts_at_their_worst_still_go_in() -> None:
    # Hole and thread both out by the most, away from each other, in X and in Y.
    hole = bolt_hole(0, 0, "1/2", "normal", "w")
    out = place_within(hole, plate(hole))
    assert out is not None
    assert 2 * out * math.sqrt(2) <= (hole.least - 0.5 * INCH) / 2 + 1e-9


def test_bores_for_one_shaft_are_made_with_their_mate() -> None:
    bore = fit_hole(40, 40, 25.0, "H7", "w", purpose="nose")
    assert place_words(bore, plate(bore), "metric") == "with mate"
    alone = fit_hole(40, 40, 25.0, "H7", "w", purpose="bush")
    assert place_within(alone, plate(alone)) == 0.3


def test_limits_are_said_in_the_unit_of_the_job() -> None:
    said = general_words(11 * INCH, "inch")
    assert said == (
        "Sizes without limits, ISO 2768-m: ±0.004 in up to 0.24 in, ±0.008 in up to 1.18 in, "
        "±0.012 in up to 4.72 in, ±0.020 in above that."
    )
    assert general_words(25.0, "metric") == (
        "Sizes without limits, ISO 2768-m: ±0.1 mm up to 6 mm, ±0.2 mm above that."
    )
    # h6 of 1 in: IT6 from 18 to 30 mm is 13 micrometres, 0.0005 in.
    shaft = ShaftDrawing(name="nose", metal="", diameter=INCH, length=80.0, fit="h6")
    assert shaft_limits(shaft, "inch") == " h6 (0.9995 in to 1.0000 in)"
    assert shaft_limits(shaft, "metric") == " h6 (25.387 mm to 25.400 mm)"


def test_flat_and_square_by_class_k() -> None:
    """ISO 2768-2:1989, tables 1 and 2, class K (from memory)."""
    for length, flat in ((8.0, 0.05), (10.0, 0.05), (25.0, 0.1), (90.0, 0.2), (250.0, 0.4)):
        assert flatness(length) == flat
    for leg, square in ((100.0, 0.4), (101.0, 0.6), (300.0, 0.6), (999.0, 0.8)):
        assert squareness(leg) == square
    plate = PlateDrawing(
        name="floor", metal="mild steel", width=250.0, height=90.0, thickness=20.0, holes=()
    )
    assert form_words(plate, "metric").startswith(
        "ISO 2768-K: flat within 0.40 mm, square within 0.40 mm. Ra 1.6 \N{MICRO SIGN}m in bores"
    )
    # 0.4 mm is 0.01575 in: rounded down.
    assert "flat within 0.015 in, square within 0.015 in" in form_words(plate, "inch")


def test_a_bought_rod_in_its_bores() -> None:
    """ISO 286-2 at 25 mm: h6 -13 to 0, H7 0 to +21, F8 +20 to +53 um."""
    assert fit_words(25.0, "H7/h6", "metric") == "H7/h6: 0.000 mm to 0.034 mm of play"
    assert fit_words(25.0, "F8/h6", "metric") == "F8/h6: 0.020 mm to 0.066 mm of play"
