"""How a part comes off the nose, in words, with the nose above, below and beside the bar."""

from __future__ import annotations

import numpy as np
import pytest
from attrs import evolve
from plan_fixture import make_plan

from strapwright.midline.pose_values import DrawnPose
from strapwright.ordering.order_results import FreeingResult
from strapwright.planning.bar_hold import Hold
from strapwright.planning.handling import coming_off
from strapwright.shop.press import Axis
from strapwright.shop.tooling import RamSide, nose_place
from strapwright.wording.steps.way_off_words import way_off_words

LOCKED = FreeingResult(
    verdict="TRAPPED",
    motion=(),
    how="",
    gap=None,
    must_pass=None,
    held_by=("nose",),
    any_motion=False,
    slabs=0,
)
HELD = "It is trapped on the tooling"
DROPS = evolve(LOCKED, verdict="FREE", how="drops", held_by=())
SLIDES, TURNS = evolve(DROPS, how="slides"), evolve(DROPS, how="turns")
HANGS = "It hangs on the nose and drops once it is clear: carry its weight."
DRAWN = "It is trapped on the nose. Release all pressure, then slide the nose out endways."
ONTO = "It stays on the shoulders, or drops off the nose onto them, as the"
LOOSE = "Nothing carries it once the ram goes back: keep a rest under it or hold it."
FINGERS = "keep your fingers out from under it."
NOT_PROVEN = "It may or may not come off; the fit is too close to tell."


@pytest.mark.parametrize(
    ("found", "ram_side", "axis", "drawable", "sentence"),
    [
        (DROPS, "nose", "down", False, f"{ONTO} nose goes up; {FINGERS}"),
        (DROPS, "shoulders", "up", False, f"{ONTO} shoulders go down; {FINGERS}"),
        # Nothing falls off a nose that points up; what lies loose beside one is held.
        (DROPS, "nose", "up", False, "It goes down with the nose. Lift it straight off by hand."),
        (
            DROPS,
            "shoulders",
            "down",
            False,
            "It stays on the nose as the shoulders go up. Lift it straight off by hand.",
        ),
        (
            DROPS,
            "nose",
            "level",
            False,
            f"{LOOSE} Pull it straight off by hand.",
        ),
        (SLIDES, "nose", "down", False, f"{HANGS} Slide it off endways by hand."),
        (TURNS, "nose", "down", False, f"{HANGS} Pull it off by hand, turning it on the way."),
        (
            TURNS,
            "nose",
            "up",
            False,
            "It goes down with the nose. Lift it off by hand, turning it on the way.",
        ),
        (
            evolve(SLIDES, rides=True),
            "nose",
            "down",
            False,
            f"The part rides up on the nose. {HANGS} Slide it off endways by hand.",
        ),
        (
            evolve(LOCKED, verdict="NO START", parts=False),
            "nose",
            "down",
            False,
            f"{HELD}: nose and shoulders do not open with the part between them.",
        ),
        (
            LOCKED,
            "nose",
            "down",
            True,
            f"{DRAWN} Hold the part: it drops as the nose comes out.",
        ),
        (LOCKED, "nose", "up", True, DRAWN),
        (
            LOCKED,
            "nose",
            "down",
            False,
            f"{HELD}: no way out in the plane or along the nose; tilting is not checked.",
        ),
        (
            evolve(LOCKED, any_motion=True),
            "nose",
            "down",
            False,
            f"{HELD}: the part closes round a member held at both ends, and the gap is smaller.",
        ),
        (
            evolve(LOCKED, verdict="NO START"),
            "nose",
            "down",
            False,
            f"{HELD}: the part overlaps the tooling on the nose.",
        ),
        (evolve(LOCKED, verdict="TOO CLOSE"), "nose", "down", True, f"{NOT_PROVEN} {HANGS}"),
    ],
)
def test_the_way_off_is_told_as_it_was_found(
    found: FreeingResult, ram_side: RamSide, axis: Axis, drawable: bool, sentence: str
) -> None:
    """A part whose weight is over the middle of the nose, so that neither end is held."""
    hold = Hold(
        face="top", end_left=1, nose=nose_place(ram_side, axis), ram_side=ram_side, weight=0.0
    )
    even = DrawnPose(x=np.array([-50.0, 50.0]), y=np.array([0.0, 0.0]), nose_y=10.0)
    step = evolve(
        make_plan().steps[0],
        hold=hold,
        coming_off=coming_off(evolve(found, drawn_frees=drawable), hold, even),
    )
    assert way_off_words(step) == sentence
