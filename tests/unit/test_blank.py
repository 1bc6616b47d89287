"""What the blank says to wrong input, and its band where a closed form gives it."""

from __future__ import annotations

from math import pi, radians

import pytest
from attrs import evolve

from strapwright.blank.blank_values import Blank
from strapwright.blank.flat_layout import lay_out
from strapwright.blank.length_band import length_band
from strapwright.errors import InputError
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.job import BlankSettings
from strapwright.shop.part import Bend, Hole, Part

CLEAT = Part(
    name="mooring cleat strap",
    quantity=2,
    bar=Bar(section="flat", thickness=6.0, width=50.0),
    material="A36 hot rolled",
    lot=Lot(),
    measured="outside",
    legs=(100.0, 60.0, 80.0),
    bends=(Bend(angle=pi / 2, side=1), Bend(angle=pi / 2, side=-1)),
)
HALF = BlankSettings(method="factor", factor=0.5)


def flat(
    part: Part,
    settings: BlankSettings = HALF,
    radii: tuple[float, ...] = (10.0, 10.0),
    sight_offset: float = 0.0,
) -> Blank:
    return lay_out(part, None, settings, inside_radii=radii, sight_offset=sight_offset)


def test_strain_without_tooling_names_what_is_missing_and_what_works() -> None:
    with pytest.raises(
        InputError,
        match=r"^blank\.method 'strain': .*no tooling is entered; enter the nose and the shoulders"
        r".*: book soft, book medium, book hard, din 6935, factor \(with blank\.factor\)\.$",
    ):
        flat(CLEAT, BlankSettings())


def test_strain_without_tooling_does_not_offer_what_cannot_do_the_bend() -> None:
    eye = evolve(CLEAT, legs=(100.0, 60.0), bends=(Bend(angle=radians(270), side=1),))
    with pytest.raises(InputError, match=r"book soft, book medium, book hard, factor\.$"):
        flat(eye, BlankSettings(factor=0.5), (10.0,))


def test_the_standard_refuses_a_bend_past_180_degrees() -> None:
    eye = evolve(CLEAT, legs=(100.0, 60.0), bends=(Bend(angle=radians(270), side=1),))
    with pytest.raises(InputError, match=r"270° bend is past 180°.*use another method"):
        flat(eye, BlankSettings(method="din 6935"), (10.0,))


def test_a_factor_that_is_missing_or_out_of_range() -> None:
    with pytest.raises(InputError, match=r"^blank\.factor: .*none is given; .* 0\.33 for this"):
        flat(CLEAT, BlankSettings(method="factor"))
    with pytest.raises(InputError, match=r"^blank\.factor '1\.2': .*between 0 .* and 1"):
        flat(CLEAT, BlankSettings(method="factor", factor=1.2))


def test_a_leg_too_short_for_its_bends() -> None:
    # Outside setback at 90 deg is 10 + 6 at each of its two bends.
    with pytest.raises(
        InputError,
        match=r"leg 2 is 31\.90 mm \(1\.256 in\) measured outside.*"
        r"make leg 2 at least 32\.00 mm \(1\.260 in\)",
    ):
        flat(evolve(CLEAT, legs=(100.0, 31.9, 80.0)))
    assert flat(evolve(CLEAT, legs=(100.0, 32.0, 80.0))).marks[1].tangents[0] == pytest.approx(
        flat(CLEAT).marks[0].tangents[1]
    )
    with pytest.raises(InputError, match=r"leg 3 is 15\.00 mm .* at least 16\.00 mm \(0\.630 in\)"):
        flat(evolve(CLEAT, legs=(100.0, 60.0, 15.0)), BlankSettings())


def test_the_measured_thickness_counts() -> None:
    # Two bends, each 2 (10 + s) - (10 + s/2) pi/2.
    thin = evolve(CLEAT, lot=Lot(thickness=5.8))
    assert flat(thin).length - flat(CLEAT).length == pytest.approx(2 * 0.2 * (2 - pi / 4))


def test_a_part_without_a_bend_and_a_negative_radius() -> None:
    with pytest.raises(InputError, match=r"^part\.shape: there is no bend"):
        flat(evolve(CLEAT, legs=(100.0,), bends=()), radii=())
    with pytest.raises(
        InputError, match=r"inside radius of bend 2 is -1\.0 mm .*; give .* 0 or more"
    ):
        flat(CLEAT, radii=(10.0, -1.0))


def test_sequences_that_do_not_fit_and_an_offset_that_points_back() -> None:
    with pytest.raises(ValueError, match=r"2 bends need 3 legs and 2 radii"):
        flat(CLEAT, radii=(10.0,))
    with pytest.raises(ValueError, match=r"sight_offset is -1"):
        flat(CLEAT, sight_offset=-1.0)


@pytest.mark.parametrize(
    ("hole", "says"),
    [
        (Hole(leg=4, from_bend=None, distance=20, diameter=9), r"\.leg '4': .*legs 1 to 3"),
        (
            Hole(leg=2, from_bend=None, distance=20, diameter=9),
            r"leg 2 .* measure from bend 1 or 2",
        ),
        (Hole(leg=1, from_bend=2, distance=20, diameter=9), r"from_bend '2': leg 1 .* bend 1;"),
        (
            Hole(leg=1, from_bend=1, distance=101, diameter=9),
            r"101\.0 mm .* lies off leg 1.*0 and 100\.0 mm",
        ),
        (Hole(leg=2, from_bend=1, distance=-1, diameter=9), r"-1\.0 mm .* lies off leg 2"),
        (
            Hole(leg=1, from_bend=None, distance=4, diameter=9),
            r"past the end .*than 4\.5 mm \(0\.18 in\) from",
        ),
        (Hole(leg=3, from_bend=2, distance=76, diameter=9), r"past the end of the blank"),
        (
            Hole(leg=1, from_bend=None, distance=40, diameter=9, across=-21),
            r"past the side of the bar, which is 50\.0 mm .* wide.*21\.0 mm .* from the middle",
        ),
    ],
)
def test_a_hole_off_the_bar(hole: Hole, says: str) -> None:
    sound = Hole(leg=1, from_bend=None, distance=40, diameter=9)
    with pytest.raises(InputError, match=r"^part\.hole\[2\].*" + says):
        flat(evolve(CLEAT, holes=(sound, hole)))


def test_a_hole_that_reaches_into_the_bend_zone() -> None:
    # Leg 1 is straight for 100 - 16 = 84 mm; the hole's edge comes 1 mm past that.
    hole = Hole(leg=1, from_bend=1, distance=20.0, diameter=10.0)
    placed = flat(evolve(CLEAT, holes=(hole,))).holes[0]
    assert (placed.position, placed.bend) == (80.0, 1)
    assert placed.edge_to_zone == pytest.approx(-1.0)


def test_the_band_by_the_closed_form() -> None:
    # L = sum of legs - 2 [2 (r + s) - (r + s/2) pi/2], so
    # dL/ds = -2 (2 - pi/4) and dL/dr = -2 (2 - pi/2).
    low, high = length_band(
        CLEAT,
        None,
        HALF,
        inside_radii=(10.0, 10.0),
        thickness_tolerance=0.4,
        radius_tolerance=0.5,
    )
    half = 2 * (2 - pi / 4) * 0.4 + 2 * (2 - pi / 2) * 0.5
    middle = flat(CLEAT).length
    assert (low, high) == pytest.approx((middle - half, middle + half))


def test_a_tolerance_that_leaves_no_bar() -> None:
    with pytest.raises(ValueError, match=r"first under the thickness 6"):
        length_band(
            CLEAT,
            None,
            HALF,
            inside_radii=(10.0, 10.0),
            thickness_tolerance=6.0,
            radius_tolerance=0.0,
        )
