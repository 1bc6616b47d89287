"""Pieces that cannot stand as stated, and bars that tip off the shoulders."""

from __future__ import annotations

import pytest
from test_plan_order import codes, planned, why

OBSTACLE = '[[tooling.obstacle]]\nname = "post"\nside = "{}"\nbox = [{}]'


def obstacle(side: str, *box: float) -> str:
    return OBSTACLE.format(side, ", ".join(f'"{one:g}"' for one in box))


@pytest.mark.parametrize(
    ("box", "overlaps"),
    [
        # The right shoulder is a block from 22 to 45 mm right of the middle, 90 mm high.
        ((40, -40, 70, -10), True),
        ((46, -40, 70, -10), False),
    ],
)
def test_an_obstacle_inside_a_shoulder_is_refused(
    box: tuple[float, ...], *, overlaps: bool
) -> None:
    made = planned("120", "up 90", "120", reach=200, extra=obstacle("shoulders", *box))
    assert ("pieces-overlap" in codes(made)) == overlaps
    if overlaps:
        said = why(made, "pieces-overlap")
        assert "right shoulder" in said
        assert "post" in said


@pytest.mark.parametrize(
    ("low", "collides"),
    [
        # 10 mm beside the middle of the nose it passes between the shoulders, whose inner faces
        # are 22 mm out; 30 mm beside it stands over the right one.
        (30, True),
        (10, False),
    ],
)
def test_what_hangs_on_the_nose_side_must_pass_the_shoulders(low: float, *, collides: bool) -> None:
    hung = obstacle("nose", low, -8, low + 8, 8)
    made = planned("120", "up 90", "120", reach=200, extra=hung)
    assert ("halves-collide" in codes(made)) == collides


def test_a_web_wider_than_the_opening_is_refused() -> None:
    """Inner faces of the shoulders stand 44 mm apart; the web comes down between them."""
    shape = ("120", "up 120", "120")
    wide = planned(*shape, reach=200, web=60)
    assert "web of the nose" in why(wide, "halves-collide")
    assert "halves-collide" not in codes(planned(*shape, reach=200, web=10))


def test_a_bar_tips_once_its_middle_lies_past_a_shoulder() -> None:
    """A straight bar balances about half its length; shoulders are touched 28 mm out."""
    assert "tips-before-touch" not in codes(planned("100", "up 90", "150", reach=200))
    assert "tips-before-touch" in codes(planned("100", "up 90", "165", reach=200))


def test_a_bar_that_is_not_laid_on_top_of_the_shoulders_does_not_tip() -> None:
    level = planned("100", "up 90", "300", reach=300, axis='axis = "level"')
    assert "tips-before-touch" not in codes(level)


def test_a_bed_as_wide_as_stated_and_past_the_bar_else() -> None:
    """What the job file's page says of the key; columns may stand on a bed wider than their gap."""

    def bed(width: str) -> tuple[float, bool]:
        made = planned("120", "up 90", "120", reach=200, axis=width)
        (piece,) = (one for one in made.pieces if one.name == "bed")
        across = [x for x, _ in piece.polygon]
        return max(across) - min(across), piece.assumed

    assert bed("")[0] > 2.0 * 240.0  # twice the bar, wherever on it the bend lies
    assert bed("")[1]
    assert bed('bed_width = "650"') == (650.0, False)
    columns = 'bed_width = "650"\ncolumns = { apart = "500" }'
    assert "pieces-overlap" not in codes(planned("120", "up 90", "120", reach=200, axis=columns))
