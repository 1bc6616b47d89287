"""The part page takes limits and minutes of handling, and leaves a file without them alone."""

from __future__ import annotations

import math

import pytest

from strapwright.pages.form import form_text, notes_of, open_form
from strapwright.shop_files.reading_job import read_job

JOB = """\
format = 1
units = "metric"
[part]
name = "cleat"
bar = "flat 5 x 40"
material = "S235"
shape = ["80", "up 90", "80"]
"""


def test_limits_and_minutes_are_typed_and_taken_out_again() -> None:
    assert form_text(JOB, open_form(JOB, "part")) == JOB
    typed = {
        "part.tolerance.class": "m",
        "part.tolerance.length": "0.4",
        "part.angle_tolerance": "0.5",
        "handling.turn_over": "0.75",
        "handling.move_stop": "2",
    }
    form = open_form(JOB, "part", typed)
    assert not [wrong for _, wrong in notes_of(form).values() if wrong]
    job = read_job(form_text(JOB, form))
    assert job.part.tolerance is not None
    assert (job.part.tolerance.general, job.part.tolerance.length) == ("m", 0.4)
    assert job.part.every_angle == pytest.approx(math.radians(0.5))
    assert (job.handling.turn_over, job.handling.move_stop) == (0.75, 2.0)
    full = form_text(JOB, form)
    assert form_text(full, open_form(full, "part")) == full
    emptied = form_text(full, open_form(full, "part", dict.fromkeys(typed, "")))
    assert read_job(emptied) == read_job(JOB)
