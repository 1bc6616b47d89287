"""Order and coming off as a person gets them: from a job file's text to holds and findings.

For each part one dimension is changed so that the answer flips; the first line of each test says
why it must.
"""

from __future__ import annotations

from typing import Any

import pytest
from telling import told

from strapwright.findings import Severity
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.sheets.bend_data import bend_data
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.steps.handling_words import handling_words
from strapwright.wording.steps.way_off_words import way_off_words

JOB = """\
format = 1
units = "metric"
[part]
name = "cleat plate"
quantity = 10
bar = "flat 6 x 40"
material = "S235JR"
measured = "outside"
shape = [SHAPE]
ORDER
[press]
bore = "63"
relief = "140 bar"
daylight = "200"
AXIS
[tooling]
plate = { width = "100", thick = "20" }
[tooling.nose]
radius = "9"
reach = "REACH"
DRAW
span = "80"
web = { thick = "WEB", height = "HEIGHT" }
[tooling.shoulders]
radius = "6"
opening = "56"
height = "90"
outer_edge = "45"
EXTRA
"""


def job_text(
    *shape: str, order: str = "", reach: int = 140, web: int = 10, draw: bool = False,
    extra: str = "", axis: str = "",
) -> str:  # fmt: skip
    text = JOB.replace("SHAPE", ", ".join(f'"{word}"' for word in shape))
    text = text.replace("ORDER", order).replace("REACH", str(reach)).replace("WEB", str(web))
    text = text.replace("HEIGHT", str(reach - 18)).replace("EXTRA", extra).replace("AXIS", axis)
    return text.replace("DRAW", "drawable = true" if draw else "")


def planned(*shape: str, **changes: Any) -> Plan:
    return plan(read_job(job_text(*shape, **changes)))


def codes(made: Plan) -> set[str]:
    return {finding.code for finding in told(made)}


def refused(made: Plan) -> bool:
    return any(finding.severity is Severity.REFUSAL for finding in told(made))


def why(made: Plan, code: str) -> str:
    return next(finding.text for finding in told(made) if finding.code == code)


def test_a_u_needs_a_nose_that_reaches_over_its_leg() -> None:
    """The made leg stands up beside the nose; its tip must pass under the push plate."""
    through = planned("120", "up 90", "150", "up 90", "120", reach=200)
    assert not refused(through)
    assert through.handling is not None
    assert through.handling.proven
    short = planned("120", "up 90", "150", "up 90", "120", reach=140)
    assert "push plate" in why(short, "no-order")
    assert "more reach" in next(f.remedy for f in told(short) if f.code == "no-order")


def test_a_u_narrower_than_its_legs_meets_the_web() -> None:
    """At 90 deg the tip of the made leg lies base minus leg from the middle, times cos 45."""
    narrow = planned("120", "up 90", "100", "up 90", "120", reach=200)
    assert "web of the nose" in why(narrow, "no-order")


BOX = ("up 90", "110", "up 90", "110", "up 90")


def test_a_box_open_at_one_corner_drops_off_where_the_nose_passes_the_gap() -> None:
    made = planned("90", *BOX, "90", reach=260, web=3)
    assert not refused(made)
    assert made.steps[-1].bend == 2  # the web must lie in the open corner
    assert made.steps[-1].coming_off is not None
    assert made.steps[-1].coming_off.verdict == "free"


@pytest.mark.long
def test_five_millimetres_more_lock_the_same_box_on() -> None:
    """The web of 3 mm still passes the gap, the nose of 18 mm does not."""
    held = planned("95", *BOX, "95", reach=260, web=3)
    assert "does not come off" in why(held, "no-order")
    drawn = planned("95", *BOX, "95", reach=260, web=3, draw=True)
    assert not refused(drawn)
    assert drawn.steps[-1].coming_off is not None
    assert drawn.steps[-1].coming_off.verdict == "locked on"
    assert "draw-the-nose" in codes(drawn)


def test_a_ring_that_meets_itself_as_drawn_is_refused_before_any_search() -> None:
    assert "runs into itself" in why(planned("109", *BOX, "109", reach=260), "no-order")


def test_every_step_of_a_hat_says_clearance_stop_and_how_it_comes_off() -> None:
    legs = ("60", "up 90", "80", "down 90", "200", "down 90", "80", "up 90", "60")
    hat = planned(*legs, reach=260)
    assert not refused(hat)
    for step in hat.steps:
        assert step.clearance is not None
        assert step.clearance >= 1.25  # the set clearance less its tolerance
        assert step.nearest
        assert step.end_stop is not None
        assert step.end_stop > 0.0
        assert step.coming_off is not None
        assert step.coming_off.verdict == "free"
        assert step.coming_off.motion


def test_a_stated_order_is_checked_and_compared() -> None:
    shape = ("70", "up 90", "130", "down 60", "90")
    best = planned(*shape, reach=200)
    stated = planned(*shape, reach=200, order=f"order = {[s.bend for s in best.steps]}")
    other = planned(*shape, reach=200, order=f"order = {[s.bend for s in best.steps][::-1]}")
    assert stated.handling is not None
    assert best.handling is not None
    assert other.handling is not None
    assert stated.handling.cost == best.handling.cost
    assert "better-order" not in codes(stated)
    assert other.handling.cost is None or (other.handling.cost or 0) >= (best.handling.cost or 0)


def test_guide_rods_in_the_plane_of_the_bar_are_in_the_way_and_beside_it_are_not() -> None:
    rods = '[[tooling.rod]]\nout = "90"\nalong = "{}"\ndiameter = "20"'
    shape = ("90", "up 90", "160", "down 60", "150")
    # A bed so narrow that the leg hangs beside it.
    press = {"order": "order = [2, 1]", "axis": 'bed_width = "400"'}
    beside = planned(*shape, reach=260, extra=rods.format(40), **press)
    assert not refused(beside)
    through = planned(*shape, reach=260, extra=rods.format(0), **press)
    assert "bend 2 first" in why(through, "order-cannot-be-made")
    assert "guide rod" in why(through, "order-cannot-be-made")


def test_a_press_that_pushes_up_lets_nothing_drop() -> None:
    shape = ("120", "up 90", "120")
    down = planned(*shape, reach=200).steps[0]
    up = planned(*shape, reach=200, axis='axis = "up"').steps[0]
    assert "drops" in way_off_words(down)
    assert "drops" not in way_off_words(up)
    assert "It goes down with the nose" in way_off_words(up)


def test_the_batch_is_compared() -> None:
    made = planned("70", "up 90", "130", "down 60", "90", reach=200)
    handling = made.handling
    assert handling is not None
    assert handling.cost is not None
    assert handling.part_by_part == 10 * handling.cost
    assert handling.bend_by_bend is not None
    assert ("make one bend on all" in handling_words(handling)) == (
        handling.bend_by_bend < handling.part_by_part
    )


def test_without_a_search_nothing_is_said_to_be_proven() -> None:
    quick = plan(read_job(job_text("70", "up 90", "130", "down 60", "90", reach=200)), search=False)
    assert "order-not-searched" in codes(quick)
    assert all(step.coming_off is None for step in quick.steps)


COLUMNS = 'columns = { apart = "900", width = "50", length = "150" }'


def test_columns_stand_as_far_along_the_nose_as_stated() -> None:
    text = job_text("120", "up 90", "120", reach=200)
    made = plan(read_job(text.replace('bore = "63"', f'bore = "63"\n{COLUMNS}')))
    columns = [one for one in made.pieces if one.kind == "column"]
    assert [(one.z, one.assumed) for one in columns] == [((-75.0, 75.0), False)] * 2


def test_what_was_not_stated_is_said_to_be_assumed() -> None:
    stated = (
        ('bore = "63"', 'bore = "63"\nrod = "40"\nbed_width = "400"\n' + COLUMNS),
        ('thick = "20" }', 'thick = "20", length = "150" }'),
        ('height = "90"', 'height = "90"\nlength = "150"'),
    )
    text = job_text("120", "up 90", "120", reach=200)
    for short, whole in stated:
        text = text.replace(short, whole)
    assert "surroundings-assumed" not in codes(plan(read_job(text)))
    for left_out, said in (
        ('plate = { width = "100", thick = "20", length = "150" }\n', "Push plate: 112 mm"),
        ('20", length = "150" }', "Push plate: as long as the nose"),
        ('\nlength = "150"', "Shoulders: as long as the nose"),
        ('height = "90"\n', "Shoulders: only 56 mm"),
        ('outer_edge = "45"\n', "Shoulder block: 25 mm"),
        ('bed_width = "400"\n', "Bed: past the ends of the bar"),
        (', width = "50"', "Column: 60 mm"),
        ('50", length = "150" }', "Column: 200 mm"),
        ('\nrod = "40"', "Ram behind the push plate: 25 mm"),
        ('daylight = "200"\n', "Nose to bar with the ram back: 150 mm"),
    ):
        assert left_out in text
        kept = f'{left_out[:2]}" }}' if left_out[-1] == "}" and left_out[0] != "p" else ""
        made = plan(read_job(text.replace(left_out, kept, 1)))
        assert said in why(made, "surroundings-assumed")


@pytest.mark.parametrize(
    ("extra", "sentence"),
    [
        ('[[tooling.obstacle]]\nname = "post"\nbox = ["3", "1", "2", "4"]', "has no size"),
        ('[[tooling.obstacle]]\nname = "post"\nbox = ["3", "1", "2"]', "this is not 4 figures"),
        ('[[tooling.rod]]\nout = "0"\ndiameter = "20"', "the out is 0"),
    ],
)
def test_pieces_that_mean_nothing_are_refused(extra: str, sentence: str) -> None:
    with pytest.raises(Exception, match=sentence):
        planned("120", "up 90", "120", extra=extra)


def test_a_refusal_of_the_whole_job_stands_on_every_page_of_a_bend() -> None:
    narrow = planned("120", "up 90", "100", "up 90", "120", reach=200)
    for place in range(len(narrow.steps)):
        said = [one["text"] for one in bend_data(narrow, place)["findings"]]
        assert any("No order makes this part" in text for text in said)


def test_a_wide_part_does_not_swing_through_the_ram() -> None:
    """Its legs reach over the push plate, where the ram stands that the plate hangs on."""
    box = ("130", "up 90", "320", "up 90", "320", "up 90", "320", "up 90", "130")
    made = plan(read_job(job_text(*box, draw=True)))
    (refused,) = (one for one in told(made) if one.code == "no-order")
    assert refused.severity is Severity.REFUSAL
    assert "hits the ram at" in refused.text
    assert "the legs close below the push plate" in refused.remedy
    # No rod is stated for this press, so how stout its ram is was assumed.
    assert "size of the ram is assumed" in refused.text
