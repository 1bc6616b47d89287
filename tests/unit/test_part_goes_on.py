"""Whether a part on the press is pushed on, and what is said where it is not."""

from __future__ import annotations

import math

import pytest

from strapwright.bending.bend_values import Band
from strapwright.service.shop_log.part_goes_on import Aim, onward
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.figures import figures_for
from strapwright.wording.shop_log.log_words import no_push_words

WANTED = math.radians(45.0)
AIM = Aim(travel=11.0, band=Band(low=10.8, high=11.2))


def standing(free: float | None, tolerance: float, aim: Aim | None = AIM) -> str:
    read = None if free is None else math.radians(free)
    return onward(read, WANTED, math.radians(tolerance), 10.0, aim).standing


def test_the_tolerance_of_the_job_says_when_a_bend_is_finished() -> None:
    assert standing(44.2, 2.0) == "finished"
    assert standing(44.2, 0.5) == "further"
    assert standing(46.5, 2.0) == "finished"
    assert standing(46.5, 0.5) == "past"
    # In tolerance as read, but not surely: nine of ten readings are within 0.38 degrees.
    assert standing(44.1, 1.0) == "further"
    assert standing(44.7, 1.0) == "finished"
    # A protractor tells no quarter of a degree, however tight the tolerance.
    assert standing(44.8, 0.1) == "finished"
    assert standing(None, 1.0) == "not read"


def test_a_push_is_only_said_where_a_stop_can_be_set_to_it() -> None:
    short = math.radians(43.0)
    found = onward(short, WANTED, math.radians(1.0), 10.0, AIM)
    assert found.aim is not None
    assert (found.aim.travel, found.aim.band.low) == pytest.approx((1.0, 0.8))
    # 0.0004 in would print as a push of nothing.
    assert onward(short, WANTED, math.radians(1.0), 10.99, AIM).standing == "far enough"
    assert onward(short, WANTED, math.radians(1.0), 12.0, AIM).standing == "far enough"
    assert standing(43.0, 1.0, None) == "jams"


def test_a_short_bend_is_never_called_finished() -> None:
    show = figures_for(
        read_job(
            'format = 1\nunits = "inch"\n[part]\nname = "strap"\nbar = "flat 1/4 x 2"\n'
            'material = "A36 hot rolled"\nshape = ["5", "up 90", "4"]\n'
        )
    )
    for free, aim in ((43.0, None), (43.0, Aim(travel=9.0, band=AIM.band))):
        name = standing(free, 1.0, aim)
        said = no_push_words(name, math.radians(1.0), show)
        assert said.startswith("It is short")
        assert "finished" not in said
    assert "within 1" in no_push_words("finished", math.radians(1.0), show)
