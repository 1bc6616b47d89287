"""What a machinist would ask who has not seen the project, answered on the sheets."""

from __future__ import annotations

from pathlib import Path

import pytest
from attrs import evolve

from strapwright.drawing.assembly_views.three_views import three_views
from strapwright.drawing.plate_drawing import plate_scene
from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.tooling_making import ToolingMaking, make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.quantities.inside_units import INCH_MM
from strapwright.report.making_text import making_to_text
from strapwright.scene.primitives import Circle, Text
from strapwright.scene.primitives import Path as Outline
from strapwright.shop_files.reading_job import read_job

HOOK = (Path(__file__).parents[2] / "docs/examples/mooring-hook-die.toml").read_text("utf-8")


def made(text: str = HOOK) -> ToolingMaking:
    pieces = pieces_of(read_job(text))
    return make_tooling(pieces, usual_cutters(), name="hook", units="inch")


def test_how_is_the_push_plate_fixed_to_the_ram() -> None:
    push = next(one for one in made().plates if one.plate.name == "push plate")
    (told,) = [one for one in push.plate.notes if one.startswith("Not entered:")]
    assert "Enter the bolts that hold the push plate with their circle or spacing." in told
    assert "keep the broken circle of the ram, 1-3/4 in, clear" in told
    scene = plate_scene(push)
    clear = [one for one in scene.shapes if isinstance(one, Circle) and one.role == "assumed"]
    assert [round(2 * one.radius / INCH_MM, 3) for one in clear] == [1.75]
    # Entered, there is nothing to ask.
    bolted = HOOK.replace('holds = "push plate"\n', 'holds = "push plate"\nspacing = "5"\n')
    push = next(one for one in made(bolted).plates if one.plate.name == "push plate")
    assert push.plate.ram == 0.0
    assert not any("Not entered" in one for one in push.plate.notes)


@pytest.mark.long
def test_which_riser_goes_where_and_do_the_bolts_of_the_bed_reach() -> None:
    # Shoulder tops 5 in up; floor 1 in and cheeks of 2 in leave 2 in.
    hook = made()
    said = " ".join(hook.notes)
    assert "sits on a riser of 2 in, which is not made here" in said
    # 1 in of floor, 2 in of riser and a diameter of 1/2 in.
    assert "Bolts of the bed pass floor and riser: 3-1/2 in long or longer." in said
    assert hook.assembly is not None
    scene = three_views(hook.assembly, "inch", "hook")
    words = [one.text for one in scene.shapes if isinstance(one, Text)]
    assert any(one.startswith("Dashed under the floor: riser of 2") for one in words)

    def dashed(riser: float) -> int:
        assert hook.assembly is not None
        drawn = three_views(evolve(hook.assembly, riser=riser), "inch", "hook")
        return sum(isinstance(one, Outline) and one.role == "assumed" for one in drawn.shapes)

    # Under the floor from the front and from the right.
    assert dashed(hook.assembly.riser) == dashed(0.0) + 2


def test_how_flat_square_and_smooth_and_how_rods_and_nose_are_held() -> None:
    text = making_to_text(made())
    for plate in made().plates:
        assert plate.plate.name in text
    assert text.count("ISO 2768-K: flat within") == len(made().plates)
    assert "Its lower end sits in the H7 bore of floor, base or bed" in text
    assert "Its upper end is free: the push plate slides on it." in text
    # ISO 286 at 25.4 mm: h6 -13 to 0, H7 0 to +21, F8 +20 to +53 um.
    assert "H7/h6: 0.0000 in to 0.0013 in of play" in text
    assert "F8/h6: 0.0008 in to 0.0026 in of play" in text
    both = making_to_text(made(HOOK.replace('diameter = "1", length', 'held = "both ends", diameter = "1", length')))  # fmt: skip  # noqa: E501
    assert "the upper one in the head of the frame" in both
