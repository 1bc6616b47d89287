"""What keeps nose and rounds, lines to scribe, bolts beside their holes, order of welding."""

from __future__ import annotations

import re
from typing import Any

import pytest
from attrs import evolve
from test_assembly import INCH, box, together, welded

from strapwright.making.assembly.weld_steps import HARD_WELD, welding
from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.making.machining_steps import shaft_steps
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.tooling_plates import pieces_of
from strapwright.quantities import Units
from strapwright.scene.hidden_lines import FRONT, Picture
from strapwright.shop.job import Job
from strapwright.shop.members import Weld
from strapwright.wording.parts_list_words import list_notes, parts_list


def with_nose(**changes: Any) -> Job:
    made = welded()
    assert made.tooling is not None
    return evolve(
        made, tooling=evolve(made.tooling, nose=evolve(made.tooling.nose, **changes))
    )  # fmt: skip


def plate_of(made: Pieces, name: str) -> PlateDrawing:
    return next(one for one in made.plates if one.name == name)


def shaft_of(made: Pieces, name: str) -> ShaftDrawing:
    return next(one for one in made.shafts if one.name == name)


def test_a_keeper_on_each_carrier_covers_the_end_of_the_nose() -> None:
    made = together(welded())
    numbers = {one.name: one.number for one in made.items}
    keepers = [one.solid for one in made.parts if one.item == numbers["nose keeper"]]
    nose = next(one.solid for one in made.parts if one.item == numbers["nose shaft"])
    # The upper half of an inch round is 0.393 in2; the keeper is wide enough for all of it.
    for keeper in keepers:
        area = Picture([keeper], FRONT).area().intersection(Picture([nose], FRONT).area()).area
        assert area / INCH**2 == pytest.approx(0.393, abs=0.01)
    # They lie on the outer sides of the carriers.
    left, right = box(made, "nose carrier")
    low, high = box(made, "nose keeper")
    assert low[4] == left[1]
    assert high[1] == right[4]


def test_the_screw_of_a_keeper_meets_its_thread_in_the_carrier() -> None:
    made = pieces_of(welded())
    carrier, keeper = plate_of(made, "nose carrier"), plate_of(made, "nose keeper")
    bore = carrier.holes[0]
    thread = next(one for one in carrier.holes if one.kind == "tapped")
    screw = keeper.holes[0]
    assert thread.x == bore.x == carrier.width / 2
    # The keeper's lower edge is at the middle of the nose.
    assert thread.y - bore.y == pytest.approx(screw.y)
    assert thread.depth is not None
    (bolts,) = [one for one in made.assembly.items if one.use == "nose keeper"]  # type: ignore[union-attr]
    assert bolts.count == 2
    into = bolts.sizes[0] - keeper.thickness
    assert 0.25 * INCH <= into + 1e-6 <= thread.depth + 1e-6


def test_a_nose_that_is_drawn_out_has_a_collar_where_it_is_taken_hold_of() -> None:
    made = together(with_nose(drawable=True))
    rows = {row[2]: row for row in parts_list(made, "inch")}
    assert rows["shaft collar"][1] == "1"
    assert rows["shaft collar"][4] == "1 in bore, with a set screw"
    assert rows["nose keeper"][1] == "1"
    (collar,) = box(made, "shaft collar")
    (keeper,) = box(made, "nose keeper")
    (nose,) = box(made, "nose shaft")
    assert keeper[4] < 0 < collar[1]
    assert collar[4] <= nose[4] + 1e-3


def test_a_nose_held_at_one_end_has_a_set_screw_on_a_flat() -> None:
    made = pieces_of(with_nose(held="one end"))
    edge = plate_of(made, "nose carrier, lower edge")
    carrier = plate_of(made, "nose carrier")
    bore = carrier.holes[0]
    (hole,) = edge.holes
    assert hole.depth is not None
    assert hole.depth == pytest.approx(bore.y - bore.diameter / 2)  # into the bore and no farther
    assert "nose keeper" not in [one.name for one in made.plates]
    assert any("flat for the set screw" in one for one in shaft_of(made, "nose shaft").notes)
    assert made.assembly is not None
    (screw,) = [one for one in made.assembly.items if one.name == "set screw"]
    assert screw.sizes[0] <= hole.depth


def test_screws_through_a_cheek_meet_the_threads_of_its_round() -> None:
    made = pieces_of(welded())
    cheek, round_ = plate_of(made, "cheek"), shaft_of(made, "shoulder round")
    holes = [one for one in cheek.holes if one.purpose == "screw of a round"]
    assert [one.place for one in round_.threads] == [one.x for one in holes]
    # At the height of the round's middle: 1-3/4 less 3/8.
    assert [one.y for one in holes] == pytest.approx([1.375 * INCH] * len(holes))
    assert made.assembly is not None
    (screws,) = [one for one in made.assembly.items if one.use == "shoulder round"]
    assert screws.count == 2 * len(holes)
    wall = (0.625 - 0.375) * INCH
    into = screws.sizes[0] - wall
    # A diameter of thread holds, it does not bottom, and the thread does not come out at the bar.
    assert into >= 0.25 * INCH - 1e-6
    assert into < round_.threads[0].depth <= 1.5 * 0.375 * INCH + 1e-6
    said = " ".join(shaft_steps(round_, "inch").steps)
    assert "Tap 1/4-20" in said
    assert not re.search(r"\d mm\b", said)


def test_a_hard_round_is_ground_through_before_it_is_tapped() -> None:
    round_ = evolve(shaft_of(pieces_of(welded()), "shoulder round"), hardened=True)
    steps = shaft_steps(round_, "inch").steps
    ground = next(n for n, one in enumerate(steps) if "hard skin where the screws go" in one)
    tapped = next(n for n, one in enumerate(steps) if one.startswith("Tap"))
    assert ground < tapped


@pytest.mark.parametrize(("radius", "thread"), [(0.25, "#10-24"), (0.2, "#8-32"), (0.11, "")])
def test_a_small_round_has_a_small_screw_or_says_that_it_has_none(
    radius: float, thread: str
) -> None:
    job = welded()
    assert job.tooling is not None
    shoulders = evolve(job.tooling.shoulders, radius=radius * INCH)
    made = pieces_of(evolve(job, tooling=evolve(job.tooling, shoulders=shoulders)))
    round_ = shaft_of(made, "shoulder round")
    assert {one.thread for one in round_.threads} == ({thread} if thread else set())
    unkept = [one for one in made.notes if "keeps the rounds in their seats" in one]
    assert bool(unkept) == (not thread)


def test_carriers_are_scribed_where_they_stand_and_bolts_are_said_beside_their_holes() -> None:
    push = plate_of(pieces_of(welded()), "push plate")
    said = " ".join(push.notes)
    assert "seen from below" in said
    # Plate 11 in long: inner faces half of 1-3/4 from its middle, carriers 3/4 thick and 2 wide.
    middle = push.width / INCH / 2
    assert f"X {middle - 1.625:.3f} to {middle - 0.875:.3f}" in said
    assert f"X {middle + 0.875:.3f} to {middle + 1.625:.3f}" in said
    xs = {round(x / INCH - middle, 3) for line in push.marks for x, _ in line}
    assert xs == {-1.625, -0.875, 0.875, 1.625}
    # 1/2-13 grade 5: 0.75 x 85 ksi x 0.1419 in2 x 0.2 x 0.5 in is 75.4 lbf ft.
    assert "4 of 1/2-13 x 1-3/4 in, grade 5: tighten to 75 lbf ft dry" in said


def test_the_list_names_the_steel_that_is_stated_or_what_is_usual() -> None:
    rows = {row[2]: row for row in parts_list(together(welded()), "inch")}
    assert rows["nose carrier"][3] == "A36"
    assert rows["nose shaft"][3] == "1045 ground shaft"
    assert rows["nose keeper"][3] == "low carbon steel, for example A36 or 1018"
    assert "thread lock" in " ".join(list_notes(together(welded()), "inch"))


def test_welds_come_in_an_order_in_which_bores_stay_in_line() -> None:
    made = pieces_of(welded())
    assert [one.name for one in made.welding] == [
        "each carrier to the push plate", "each cheek to the floor",
    ]  # fmt: skip
    carriers, cheeks = made.welding
    order = [
        next(n for n, step in enumerate(carriers.steps) if words in step)
        for words in ("Bore the carriers first", "block of 1-3/4 in", "Tack", "Weld 2 runs",
                      "Turn the round by hand")
    ]  # fmt: skip
    assert order == sorted(order)
    assert "block of 3 in between" in " ".join(cheeks.steps)
    assert "Measure 2-1/4 in between the rounds" in cheeks.steps[-1]
    assert dict(cheeks.facts)["Runs"] == "2 of 1-1/2 in on each cheek"
    assert dict(cheeks.facts)["Weld metal"] == "70 ksi, low hydrogen"
    # A36 has up to 0.26 % of carbon: the list says 200 to 300 F.
    assert dict(cheeks.facts)["Preheat"] == "200 to 300 °F"


# 1045 has up to 0.50 % of carbon, 500 to 800 F; the lists by carbon equivalent begin at 200 F, and
# the warmer one is taken.  260 C are 500 F, and 426.7 C 800 F, told as no less.
def test_preheat_goes_by_the_harder_steel_and_the_warmer_list() -> None:
    job = welded()
    assert job.tooling is not None
    members = job.tooling.members
    assert members is not None
    assert members.body is not None

    def told(material: str, units: Units) -> tuple[str, str]:
        body = evolve(members.body, material=material)
        tooling = evolve(job.tooling, members=evolve(members, body=body))
        joint = welding(tooling, None, units)[-1]
        return dict(joint.facts)["Preheat"], " ".join(joint.steps)

    assert told("1045 hot rolled", "inch")[0] == "500 to 800 °F"
    assert told("1045 hot rolled", "metric")[0] == "260 to 430 °C"
    # 200 F are 93.3 C, and 90 C would be colder than the list; 300 F are 148.9 C.
    assert told("A36", "metric")[0] == "100 to 150 °C"
    assert "Warm the joint to 100 to 150 °C before the first tack" in told("A36", "metric")[1]
    # S235 has no more than 0.20 % of carbon.
    assert told("S235", "inch")[0] == "none for these steels"
    assert "no colder than 50 °F" in told("S235", "inch")[1]


def test_a_steel_that_is_not_known_is_never_welded_as_mild() -> None:
    job = welded()
    assert job.tooling is not None
    members = job.tooling.members
    assert members is not None
    unknown = evolve(members, body=evolve(members.body, material="scrap"))
    # The ram's steel is stated nowhere.
    ram = evolve(members, weld=(Weld(holds="push plate", size=6.0, length=100.0),))
    for one in (unknown, ram):
        joint = welding(evolve(job.tooling, members=one), None, "inch")[-1]
        assert dict(joint.facts)["Preheat"] == (
            "500 to 800 °F; a steel is not entered and may need more"
        )
        said = " ".join(joint.steps)
        assert "Find out what it is before you weld it" in said
        assert "Warm the joint to 500 to 800 °F" in said
        assert "no colder than" not in said


def test_a_hardened_nose_is_not_to_be_welded() -> None:
    job = welded()
    assert job.tooling is not None
    members = job.tooling.members
    assert members is not None
    assert members.nose is not None
    weld = Weld(holds="nose", size=6.0, length=80.0)
    for steel, hard in (("hardened shaft", True), ("1045 ground shaft", False)):
        changed = evolve(members, nose=evolve(members.nose, material=steel), weld=(weld,))
        (told,) = welding(evolve(job.tooling, members=changed), None, "inch")
        assert (HARD_WELD in told.cautions) is hard
