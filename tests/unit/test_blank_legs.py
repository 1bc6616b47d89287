"""Finished legs that were measured correct the next blank of that lot and tooling."""

from __future__ import annotations

import math
from datetime import UTC, datetime
from pathlib import Path

import pytest

from strapwright.learning.blank_legs import LearnedBlank, MeasuredPart, learn_blank
from strapwright.learning.learn import learn
from strapwright.learning.log_readings import Places
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.plan import plan
from strapwright.service.shop_log.learned_jobs import learned_from
from strapwright.service.shop_log.log_commands import Known
from strapwright.service.shop_log.log_text import known_to_text
from strapwright.service.shop_log.logged_push import JobText, log_push
from strapwright.shop_files.reading_job import read_job
from strapwright.store import open_store

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
JOB = """format = 1
units = "metric"
[part]
name = "cleat strap"
bar = "flat 6 x 40"
material = "S235"
shape = ["120", "up 90", "110", "down 45", "90"]
[tooling]
nose = { radius = "12 mm" }
shoulders = { radius = "10 mm", opening = "64 mm", floor = "open" }
"""


def test_a_part_with_long_legs_had_too_long_a_blank_by_hand() -> None:
    # Prior 0.05 x 6 = 0.3 mm/rad; three legs to 0.3 mm each over 2.36 rad: 0.2205 mm/rad.
    turned = math.radians(135.0)
    found = learn_blank([MeasuredPart(extra=0.9, legs=3, turned=turned)], 6.0)
    assert found is not None
    read = 0.3 * math.sqrt(3.0) / turned
    weight = 1.0 / read**2 / (1.0 / read**2 + 1.0 / 0.3**2)
    assert found.per_rad == pytest.approx(-0.9 / turned * weight)
    assert found.spread == pytest.approx(1.0 / math.sqrt(1.0 / read**2 + 1.0 / 0.3**2))
    many = learn_blank([MeasuredPart(extra=0.9, legs=3, turned=turned)] * 20, 6.0)
    assert many is not None
    assert many.per_rad == pytest.approx(-0.9 / turned, rel=0.05)
    assert learn_blank([], 6.0) is None


def test_the_next_blank_is_shorter_where_the_legs_came_out_long(tmp_path: Path) -> None:
    job = read_job(JOB)
    planned = plan(job, search=False).blank
    assert planned is not None
    with open_store(tmp_path) as store:
        item = store.create("job", "strap", JOB, AT)
        opened = JobText(item=item.id, version=1, text=JOB)

        def log(part: int, legs: str) -> None:
            log_push(store, opened, {"angle": "45", "legs": legs}, bend=2, at=AT, part=part)

        log(1, "120.3, 110.4, 90.3")
        first = plan(job, search=False, learned=learned_from(store, JOB, job))
        assert first.blank is not None
        shorter = planned.length - first.blank.length
        assert 0.4 < shorter < 1.0
        (note,) = [one for one in first.findings if one.code == "blank-from-measured-parts"]
        assert note.severity == "note"
        # The next one is cut to that and comes out right: the correction stays what it is.
        log(
            2,
            f"{120 + (1.0 - shorter) / 3}, {110 + (1.0 - shorter) / 3}, {90 + (1.0 - shorter) / 3}",
        )
        second = plan(job, search=False, learned=learned_from(store, JOB, job))
        assert second.blank is not None
        assert planned.length - second.blank.length == pytest.approx(1.0, abs=0.25)
        # A leg that nobody measured says nothing of the sum.
        log(3, "125, 115, ")
        third = plan(job, search=False, learned=learned_from(store, JOB, job))
        assert third.blank is not None
        assert third.blank.length == pytest.approx(second.blank.length, abs=0.15)


def test_legs_logged_alone_teach_the_blank_and_nothing_else(tmp_path: Path) -> None:
    job = read_job(JOB)
    with open_store(tmp_path) as store:
        item = store.create("job", "strap", JOB, AT)
        opened = JobText(item=item.id, version=1, text=JOB)
        kept = log_push(store, opened, {"legs": "120.3; 110.4; 90.3"}, bend=2, at=AT).entry
        assert kept is not None
        assert kept.counted
        known = learned_from(store, JOB, job)
    assert known.says_anything
    assert known.learned.entries == ()
    made, blind = plan(job, search=False, learned=known), plan(job, search=False)
    assert made.blank is not None
    assert blind.blank is not None
    assert made.blank.length < blind.blank.length - 0.4
    assert [one.setting.travel for one in made.steps] == [one.setting.travel for one in blind.steps]
    assert [one.bands.free_angle for one in made.steps] == [
        one.bands.free_angle for one in blind.steps
    ]
    said = known_to_text(Known(job=job, learned=known, left_out=(), settings=()))
    assert "The blank\n  By 1 measured part of this bar lot and tooling" in said
    assert "nothing yet" not in said


@pytest.mark.parametrize(
    "text",
    [
        JOB.replace('"S235"', '"S235"\nstacked = 2').replace("64 mm", "90 mm"),
        JOB + '[blank]\nmethod = "book medium"\n',
        JOB.replace('"up 90"', '"up 90 radius 150"')
        .replace('"down 45"', '"down 45 radius 150"')
        .replace('["120"', '["300"')
        .replace('"110"', '"400"')
        .replace('"90"]', '"300"]'),
    ],
)
def test_a_blank_that_measured_parts_do_not_correct_says_nothing_of_them(text: str) -> None:
    blank = LearnedBlank(per_rad=-0.3, spread=0.1, parts=2)
    known = LearnedJob(
        learned=learn([]),
        places=Places(lot="l", press="p", tooling="t", mounting="1", part="next"),
        blank=blank,
    )
    job = read_job(text)
    made, blind = plan(job, search=False, learned=known), plan(job, search=False)
    assert made.blank is not None
    assert blind.blank is not None
    assert made.blank.length == blind.blank.length
    assert "blank-from-measured-parts" not in {one.code for one in made.findings}
