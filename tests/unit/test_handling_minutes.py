"""Minutes of handling as a shop states them, and what they do to the order."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from strapwright.errors import InputError
from strapwright.findings import Seconds
from strapwright.ordering.order_values import USUAL_WEIGHTS
from strapwright.planning.handling import costs_of
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.shop.by_hand.handling_minutes import HandlingMinutes
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job
from strapwright.wording.reader import at_command
from strapwright.wording.steps.handling_words import handling_words, minutes
from strapwright.wording.telling import tell

# Two reverse bends: the bar is turned over between them, whatever the order.
STAND_OFF = (Path(__file__).parents[2] / "docs/examples/ladder-stand-off.toml").read_text("utf-8")
OWN = (
    "[handling]\nturn_over = 0.5\nswap_ends = 0.4\nmove_stop = 1.5\n"
    "take_again = 0.25\nchange_tooling = 12\n"
)


@cache
def made(said: str = "") -> Plan:
    return plan(read_job(f"{STAND_OFF}\n{said}"))


def test_usual_minutes_stand_as_three_to_two_to_one() -> None:
    usual = costs_of(HandlingMinutes())
    assert usual is USUAL_WEIGHTS
    each = (usual.flip, usual.swap, usual.stop, usual.pick, usual.tool)
    assert [one * usual.minutes for one in each] == pytest.approx([0.3, 0.2, 0.1, 0.1, 5.0])


def test_stated_minutes_become_hundredths() -> None:
    job = read_job(f"{STAND_OFF}\n{OWN}half_turn = 0.625\n")
    found = costs_of(job.handling)
    assert (found.flip, found.swap, found.stop, found.pick) == (50, 40, 150, 25)
    assert (found.half_turn, found.tool) == (62, 1200)
    assert found.minutes == 0.01
    assert read_job(write_job(job)) == job
    assert "[handling]" not in write_job(read_job(STAND_OFF))


def test_the_plan_tells_minutes_and_both_ways_of_working_a_batch() -> None:
    one = made(OWN)
    handling = one.handling
    assert handling is not None
    assert handling.cost is not None
    moves = [(a.hold.face != b.hold.face, a.hold.end_left != b.hold.end_left)
             for a, b in zip(one.steps, one.steps[1:], strict=False)]  # fmt: skip
    turns = sum(0.5 * flip + 0.4 * swap for flip, swap in moves)
    stops = handling.cost * 0.01 - turns
    # What is left of a part's minutes is whole settings of the end stop.
    assert stops / 1.5 == pytest.approx(round(stops / 1.5))
    data = plan_to_data(one)["handling"]["minutes"]
    parts = one.job.part.quantity
    assert data["per_part"] == pytest.approx(turns + stops)
    assert data["part_by_part"] == pytest.approx(parts * (turns + stops))
    # Each stop once for all, each part turned, and taken in hand again for all bends but the first.
    again = 0.25 * (len(one.steps) - 1)
    assert data["bend_by_bend"] == pytest.approx(stops + parts * (turns + again))
    said = handling_words(handling)
    assert said.startswith(f"Handling: {minutes(data['per_part'])} min per part")
    assert "turning the bar over takes 0.5, swapping ends 0.4, moving the end stop 1.5" in said
    assert "score" not in said
    assert "counts" not in said


def test_a_better_order_is_told_in_minutes() -> None:
    # Up, down, up: made in turn the bar is turned over twice, made 1, 3, 2 once.
    shape = 'shape = ["140", "up 30", "120", "down 30", "120", "up 30", "140"]'
    text = STAND_OFF.replace('shape = ["140", "up 60", "90", "down 60", "140"]', shape)
    assert text != STAND_OFF
    stated = plan(read_job(text.replace(shape, f"{shape}\norder = [1, 2, 3]")))
    (found,) = (one for one in stated.findings if one.code == "better-order")
    best = plan(read_job(text)).handling
    assert best is not None
    assert best.cost is not None
    assert found.one(Seconds, "cost").value == pytest.approx(6.0 * best.cost)
    assert stated.handling is not None
    assert found.one(Seconds, "stated_cost").value == pytest.approx(
        6.0 * (stated.handling.cost or 0)
    )
    text = tell(found, at_command(stated.job)).text
    assert f"less handling: {minutes(0.1 * best.cost)} min per part instead of" in text


def test_an_expensive_stop_changes_what_is_best_of_a_batch() -> None:
    # Setting the stop is free: nothing is saved by making one bend on all parts.
    free = made("[handling]\nmove_stop = 0\ntake_again = 1\n").handling
    dear = made("[handling]\nmove_stop = 20\ntake_again = 0\n").handling
    assert free is not None
    assert dear is not None
    assert (free.part_by_part or 0) < (free.bend_by_bend or 0)
    assert (dear.part_by_part or 0) > (dear.bend_by_bend or 0)


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ("turn_over = -1", "turn_over"),
        ("half_turn = 2", "one move takes longer than turning over and swapping ends, 0.5 min"),
        ("turn = 1", 'unknown key; did you mean "turn_over"'),
    ],
)
def test_minutes_that_cannot_be_are_refused(said: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        read_job(f"{STAND_OFF}\n[handling]\n{said}\n")
    assert sentence in caught.value.sentence


def test_minutes_are_printed_as_they_count() -> None:
    assert [minutes(one) for one in (0.0, 0.3, 0.25, 1.5, 12.4)] == [
        "0",
        "0.3",
        "0.25",
        "1.5",
        "12",
    ]
