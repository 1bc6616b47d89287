"""Boxes that words and lines keep clear, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from strapwright.scene.boxes import BoxRow, room_of, text_box
from strapwright.scene.primitives import Circle, Line, Text

PX = 0.5  # mm


def test_a_slanting_line_has_a_row_of_boxes_and_an_upright_one_a_single() -> None:
    # 3-4-5: 25 mm long; boxes of 2 px are at most 4 half sides apart, so 25 / 2 mm and one more.
    row = room_of(Line(start=(0.0, 0.0), end=(15.0, 20.0), role="leader"), 1.0 / PX)
    assert row == BoxRow((-0.5, -0.5, 1.0, 1.0), (15.0, 20.0), 14)
    assert row is not None
    assert row.rows()[0] == pytest.approx([-0.5, -0.5, 0.5, 0.5])
    assert row.rows()[-1] == pytest.approx([14.5, 19.5, 15.5, 20.5])
    upright = room_of(Line(start=(3.0, 9.0), end=(3.0, 1.0), role="leader"), 1.0 / PX)
    assert upright == BoxRow((2.5, 0.5, 1.0, 9.0))


def test_a_word_keeps_four_pixels_of_air_and_a_circle_nothing() -> None:
    word = Text(at=(1.0, 2.0), text="45", size=16.0, role="value", anchor="start")
    box, row = text_box(word, 1.0 / PX), room_of(word, 1.0 / PX)
    assert row is not None
    assert row.rows() == pytest.approx(
        np.array([[box.left - 2.0, box.bottom - 2.0, box.right + 2.0, box.top + 2.0]])
    )
    assert room_of(Circle(centre=(0.0, 0.0), radius=3.0, role="hole"), 1.0 / PX) is None
