"""Order and coming off as a person gets them: from a job file's text to holds and findings.

For each part one dimension is changed so that the answer flips; the pictures in the head of each
test say why it must.
"""

from __future__ import annotations

import pytest

from strapwright.findings import Severity
from strapwright.planning import Plan, plan
from strapwright.shop.reading import read_job

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
nose = { radius = "9", reach = "REACH", held = "both ends", DRAW span = "80", web = { thick = "WEB", height = "HEIGHT" } }
shoulders = { radius = "6", opening = "56", height = "90", outer_edge = "45" }
EXTRA
"""


def planned(
    *shape: str, order: str = "", reach: int = 140, web: int = 10, draw: bool = False,
    extra: str = "", axis: str = "",
) -> Plan:  # fmt: skip
    text = JOB.replace("SHAPE", ", ".join(f'"{word}"' for word in shape))
    text = text.replace("ORDER", order).replace("REACH", str(reach)).replace("WEB", str(web))
    text = text.replace("HEIGHT", str(reach - 18)).replace("EXTRA", extra).replace("AXIS", axis)
    return plan(read_job(text.replace("DRAW", "drawable = true," if draw else "")))


def codes(made: Plan) -> set[str]:
    return {finding.code for finding in made.findings}


def refused(made: Plan) -> bool:
    return any(finding.severity is Severity.REFUSAL for finding in made.findings)


def test_a_u_needs_room_beside_the_web() -> None:
    """The leg of a U that stands beside the nose rises against the plate above the web."""
    wide = planned("120", "up 90", "150", "up 90", "120")
    assert not refused(wide)
    assert wide.handling is not None
    assert wide.handling.proven
    # The same U with legs longer than the nose reaches: the made leg meets the push plate.
    long = planned("190", "up 90", "60", "up 90", "190")
    assert "no-order" in codes(long)
    assert "push plate" in next(f.text for f in long.findings if f.code == "no-order")


def test_a_longer_nose_lets_the_same_u_through() -> None:
    short = planned("150", "up 90", "110", "up 90", "150", reach=120)
    longer = planned("150", "up 90", "110", "up 90", "150", reach=260)
    assert refused(short)
    assert not refused(longer)


def test_a_box_is_locked_on_a_nose_held_at_both_ends_but_not_on_one_that_is_drawn() -> None:
    """Four bends round the nose and its web; the gap is thinner than the web."""
    box = ("40", "up 90", "110", "up 90", "110", "up 90", "110", "up 90", "55")
    held = planned(*box, reach=260)
    drawn = planned(*box, reach=260, draw=True)
    assert refused(held)
    last = drawn.steps[-1].coming_off if not refused(drawn) else None
    if last is not None:
        assert last.verdict == "locked on"
        assert "draw-the-nose" in codes(drawn)


def test_every_step_of_a_hat_says_clearance_stop_and_how_it_comes_off() -> None:
    hat = planned("60", "up 90", "80", "down 90", "90", "down 90", "80", "up 90", "60", reach=200)
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


def test_a_stated_order_that_hits_is_refused_with_the_bend_and_the_piece() -> None:
    """A post beside the shoulders: the leg of bend 2 stands in it while bend 1 is made."""
    post = (
        '[[tooling.obstacle]]\nname = "post"\nside = "shoulders"\nbox = ["75", "60", "95", "200"]'
    )
    shape = ("90", "up 90", "90", "up 90", "150")
    free = planned(*shape, reach=260)
    assert not refused(free)
    hit = planned(*shape, reach=260, extra=post, order="order = [2, 1]")
    said = [f for f in hit.findings if f.code in ("order-cannot-be-made", "no-order")]
    assert said
    assert "post" in said[0].text


def test_a_press_that_pushes_up_lets_nothing_drop() -> None:
    shape = ("120", "up 90", "120")
    down = planned(*shape, reach=200).steps[0].coming_off
    up = planned(*shape, reach=200, axis='axis = "up"').steps[0].coming_off
    assert down is not None
    assert up is not None
    assert "drops" in down.text
    assert "drops" not in up.text


def test_the_batch_is_compared() -> None:
    made = planned("70", "up 90", "130", "down 60", "90", reach=200)
    handling = made.handling
    assert handling is not None
    assert handling.cost is not None
    assert handling.part_by_part == 10 * handling.cost
    assert handling.bend_by_bend is not None
    assert ("bend by bend" in handling.text) == (handling.bend_by_bend < handling.part_by_part)


def test_without_a_search_nothing_is_said_to_be_proven() -> None:
    text = JOB.replace("SHAPE", '"70", "up 90", "130", "down 60", "90"').replace("ORDER", "")
    for word, value in (("REACH", "200"), ("WEB", "10"), ("HEIGHT", "182"), ("EXTRA", ""),
                        ("AXIS", ""), ("DRAW", "")):  # fmt: skip
        text = text.replace(word, value)
    quick = plan(read_job(text), search=False)
    assert "order-not-searched" in codes(quick)
    assert all(step.coming_off is None for step in quick.steps)


def test_what_was_not_stated_is_said_to_be_assumed() -> None:
    bare = JOB.replace('plate = { width = "100", thick = "20" }\n', "")
    text = bare.replace("SHAPE", '"120", "up 90", "120"').replace("ORDER", "")
    for word, value in (("REACH", "200"), ("WEB", "10"), ("HEIGHT", "182"), ("EXTRA", ""),
                        ("AXIS", ""), ("DRAW", "")):  # fmt: skip
        text = text.replace(word, value)
    made = plan(read_job(text))
    assumed = [f for f in made.findings if f.code == "surroundings-assumed"]
    assert len(assumed) == 1
    assert "push plate" in assumed[0].text


def test_time_that_runs_out_is_said() -> None:
    text = JOB.replace("SHAPE", '"70", "up 90", "130", "down 60", "90"').replace("ORDER", "")
    for word, value in (("REACH", "200"), ("WEB", "10"), ("HEIGHT", "182"), ("EXTRA", ""),
                        ("AXIS", ""), ("DRAW", "")):  # fmt: skip
        text = text.replace(word, value)
    made = plan(read_job(text), keep_going=lambda: False)
    assert made.handling is not None
    assert not made.handling.proven


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
