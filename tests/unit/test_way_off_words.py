"""How a part comes off the nose, in words."""

from __future__ import annotations

import pytest
from attrs import evolve

from strapwright.ordering.order_results import FreeingResult
from strapwright.planning.handling import coming_off
from strapwright.shop.press import Axis
from strapwright.wording.way_off_words import way_off_words

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
HELD = "It is locked on the tooling"
DROPS = evolve(LOCKED, verdict="FREE", how="drops", held_by=())


@pytest.mark.parametrize(
    ("found", "axis", "drawable", "sentence"),
    [
        (DROPS, "down", False, "It drops off the nose; mind your fingers."),
        # Nothing falls off a nose that points up or to the side.
        (DROPS, "up", False, "It lifts straight off the nose by hand."),
        (DROPS, "level", False, "It lifts straight off the nose by hand."),
        (evolve(DROPS, how="slides"), "down", False, "It slides off by hand."),
        (
            evolve(DROPS, how="turns"),
            "down",
            False,
            "It comes off by hand when it is turned on the way.",
        ),
        (
            evolve(DROPS, how="slides", rides=True),
            "down",
            False,
            "The part rides up on the nose. It slides off by hand.",
        ),
        (
            evolve(LOCKED, verdict="NO START", parts=False),
            "down",
            False,
            f"{HELD}: nose and shoulders do not open with the part between them.",
        ),
        (
            LOCKED,
            "down",
            True,
            "It is locked on; draw the nose out endways with the pressure let off.",
        ),
        (
            LOCKED,
            "down",
            False,
            f"{HELD}: no way out in the plane or along the nose; tilting was not looked at.",
        ),
        (
            evolve(LOCKED, any_motion=True),
            "down",
            False,
            f"{HELD}: the part closes round a member held at both ends, and the gap is smaller.",
        ),
        (
            evolve(LOCKED, verdict="NO START"),
            "down",
            False,
            f"{HELD}: the part overlaps the tooling on the nose.",
        ),
        (
            evolve(LOCKED, verdict="TOO CLOSE"),
            "down",
            True,
            "Whether it comes off is too close to call: not proven.",
        ),
    ],
)
def test_the_way_off_is_told_as_it_was_found(
    found: FreeingResult, axis: Axis, drawable: bool, sentence: str
) -> None:
    assert way_off_words(coming_off(evolve(found, drawn_frees=drawable), axis)) == sentence
