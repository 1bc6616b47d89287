"""Bends of one part made on more than one tooling, with the fewest changes."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import jsonschema
import pytest
from attrs import evolve
from test_plan_json import SCHEMA

from strapwright.drawing import bend_scene
from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.pages.remedy_offers import offered_text
from strapwright.pages.taking_remedies import taken
from strapwright.planning.checked_tooling import Checked
from strapwright.planning.member_loads import assess, bench_of, shared_benches
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.planning.remedy_values import Remedies
from strapwright.remedies.carrying import with_remedies
from strapwright.remedies.search_figures import find_remedies
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.report.tooling_text import checked_to_data, checked_to_text
from strapwright.service.check_tooling import check_tooling
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job
from strapwright.strength.member_checks import check_members
from strapwright.strength.rating import force_carried

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
INCH = 25.4
# Both legs beside the top lie between bends that turn either way, too short for the opening.
KEEPER = """\
format = 1
units = "inch"
[part]
name = "hatch keeper"
bar = "flat 3/16 x 1-1/4"
material = "1018 hot rolled"
measured = "inside"
shape = ["1-1/2", "up 90", "1-3/8", "down 90", "2-1/4", "down 90", "1-3/8", "up 90", "1-1/2"]
{order}
{other}
[press]
bore = "3-3/4"
relief = "2200 psi"
[tooling]
nose = {{ shaft = "3/4", web = {{ thick = "1/2", height = "4" }} }}
shoulders = {{ radius = "3/8", opening = "2-1/4", depth = "2-1/2", height = "4" }}
"""
NARROW = """
[[part.other_tooling]]
name = "the narrow die"
bends = [2, 3]
nose = { shaft = "1/2", web = { thick = "3/8", height = "4" } }
shoulders = { radius = "1/4", opening = "1-1/4", depth = "2", height = "4", outer_edge = "7/8" }
"""
HUGE = """
[[part.other_tooling]]
name = "the huge die"
shoulders = { radius = "1", opening = "9", depth = "4", height = "6" }
"""
HALF_INCH = 'bends = [2]\nnose = { shaft = "1/2" }'
NARROWER = 'shoulders = { radius = "1/4", opening = "1-1/4", depth = "2", height = "4" }'
# Four bends far apart: any order does, so that only handling and changes speak.
STAIR = """\
format = 1
units = "metric"
[part]
name = "dock step"
bar = "flat 5 x 40"
material = "S235"
shape = ["150", "up 90", "150", "down 90", "150", "up 90", "150", "down 90", "150"]
[[part.other_tooling]]
bends = [1, 4]
nose = { shaft = "24" }
[press]
bore = "100"
relief = "170 bar"
[tooling]
nose = { shaft = "30" }
shoulders = { radius = "10", opening = "70", height = "250", outer_edge = "46" }
"""


def made(order: str = "", other: str = "") -> Plan:
    return plan(read_job(KEEPER.format(order=order, other=other)))


def refusals(plan: Plan) -> set[str]:
    return {one.code for one in plan.findings if one.severity is Severity.REFUSAL}


@pytest.fixture(scope="module")
def keeper() -> Plan:
    return made(other=NARROW)


def test_two_bends_on_a_narrow_die_make_what_neither_nose_makes_alone(keeper: Plan) -> None:
    assert refusals(made()) == {"no-order"}
    assert refusals(keeper) == set()
    tools = [keeper.job.part.tool_of(step.bend) for step in keeper.steps]
    assert tools == [0, 0, 1, 1]
    text = " ".join(plan_to_text(keeper).split())
    assert "Bend 2, down 90°, after a change to the narrow die" in text or (
        "Bend 3, down 90°, after a change to the narrow die" in text
    )
    assert "on the main tooling" in text
    assert "changing the tooling 5)" in text
    assert "Put in the main tooling: nose radius 3/8 in, opening 2-1/4 in" in text
    change = "Change the tooling to the narrow die: nose radius 1/4 in, opening 1-1/4 in"
    assert text.count(change) == 1
    assert "other-tooling-unchecked" in text


def test_each_bend_has_figures_of_its_own_tooling(keeper: Plan) -> None:
    wide, narrow = (next(step for step in keeper.steps if step.bend == bend) for bend in (1, 2))
    # The inside radius follows the nose, and the mark its own outer edge.
    assert wide.radii.wrap > 3 / 8 * INCH > 1.2 * narrow.radii.wrap > 1 / 4 * INCH
    assert narrow.setting.travel < wide.setting.travel
    assert keeper.blank is not None
    sights = {mark.bend: mark.sight - mark.nose for mark in keeper.blank.marks}
    assert sights[2] == pytest.approx(7 / 8 * INCH)
    assert sights[1] == pytest.approx((9 / 8 + 3 / 8) * INCH)
    on_it = keeper.on_tooling_of(2)
    assert on_it.job.tooling is not None
    assert on_it.job.tooling.nose.radius == pytest.approx(1 / 4 * INCH)
    assert keeper.on_tooling_of(1) is keeper
    assert bend_scene(keeper, narrow, "stroke") == bend_scene(on_it, narrow, "stroke")
    data = plan_to_data(keeper)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    named = {step["bend"]: step["tooling"] for step in data["steps"]}
    assert named[1] == "the main tooling"
    assert named[2] == "the narrow die"


def test_the_tooling_is_changed_once_though_turning_over_less_would_change_it_more() -> None:
    stair = plan(read_job(STAIR))
    assert refusals(stair) == set()
    tools = [stair.job.part.tool_of(step.bend) for step in stair.steps]
    assert sum(a != b for a, b in pairwise(tools)) == 1
    # Each pair turns both ways, so the bar is turned over at least twice with one change; by faces
    # (1 and 3 up, 2 and 4 down) once would do, and cost three changes.
    faces = [step.hold.face for step in stair.steps]
    assert sum(a != b for a, b in pairwise(faces)) >= 2


def test_a_stated_order_is_held_against_each_tooling() -> None:
    assert refusals(made("order = [2, 3, 1, 4]", NARROW)) == {"order-cannot-be-made"}


def test_what_is_written_reads_back(keeper: Plan) -> None:
    assert read_job(write_job(keeper.job)).part.others == keeper.job.part.others


@pytest.mark.parametrize(
    ("other", "sentence"),
    [
        ('bends = [5]\nnose = { shaft = "1/2" }', "must name bends from 1 to 4"),
        ('bends = [2, 2]\nnose = { shaft = "1/2" }', "each once"),
        ("bends = [2]", "neither a nose nor shoulders"),
        ('bends = [2]\nnose = { shaft = "3" }', "does not pass between them"),
        (
            'bends = [2]\nnose = { shaft = "1/2", offset = "1/4" }',
            "off centre by more than a tenth",
        ),
        (
            f"{HALF_INCH}\n[[part.other_tooling]]\n{HALF_INCH}",
            "is named twice",
        ),
    ],
)
def test_what_cannot_be_meant_is_refused(other: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        made(other=f"[[part.other_tooling]]\n{other}")


def test_the_nose_of_the_job_too_far_off_a_narrower_opening_is_refused() -> None:
    offset = KEEPER.format(order="", other=f"[[part.other_tooling]]\nbends = [2]\n{NARROWER}")
    off = offset.replace('shaft = "3/4",', 'shaft = "3/4", offset = "{}",')
    # A tenth of 1-1/4 in is 1/8 in, and of 2-1/4 in more than 3/16.
    read_job(off.replace("{}", "1/8"))
    with pytest.raises(InputError, match=r"shoulders.*off centre by more than a tenth"):
        read_job(off.replace("{}", "3/16"))


@pytest.mark.parametrize(
    ("own", "other", "holds"), [(20, None, 20), (20, 15, 15), (20, 30, 20), (None, 30, 30)]
)
def test_the_lower_rating_holds_for_plate_and_carriers_may_be_shared(
    own: int | None, other: int | None, holds: int
) -> None:
    text = STAIR
    if own is not None:
        text = text.replace("[tooling]", f'[tooling]\nrating = "{own} kN"')
    if other is not None:
        text = text.replace("bends = [1, 4]", f'bends = [1, 4]\nrating = "{other} kN"')
    rating = read_job(text).toolings()[1].rating
    assert rating == pytest.approx(1000.0 * holds)


def test_what_limits_the_force_on_unchecked_tooling_is_said() -> None:
    rated = STAIR.replace("[tooling]", '[tooling]\nrating = "60 kN"')
    text = " ".join(plan_to_text(plan(read_job(rated), search=False)).split())
    assert "only the relief valve and the main tooling's rating of 60 kN limit the force" in text


def test_a_part_with_a_series_of_hits_stays_on_one_tooling() -> None:
    # The row is another bend than those on other tooling.
    row = STAIR.replace('"down 90", "150", "up 90"', '"down 90 radius 120", "150", "up 90"')
    assert row != STAIR
    with pytest.raises(
        InputError, match=r"bend 2 is made in a series of hits.* stays on one tooling"
    ):
        read_job(row)


def looked(job: Job, refused: Plan, plans: int) -> Remedies:
    """What is found with so many plans; what keeps the part as it is comes first."""
    made: list[int] = []
    found = find_remedies(job, refused, keep_going=lambda: len(made) < plans, progress=made.append)
    assert found is not None
    return found


AT_HAND = NARROW.replace("bends = [2, 3]\n", "").replace('shaft = "1/2"', 'shaft = "5/8"')


def test_tooling_that_makes_no_bend_changes_nothing_of_the_plan() -> None:
    begin, end = STAIR.index("[[part.other_tooling]]"), STAIR.index("[press]")
    alone = read_job(STAIR[:begin] + STAIR[end:])
    ready = read_job(STAIR.replace("bends = [1, 4]", 'rating = "5 kN"'))
    assert not ready.part.several_toolings
    assert read_job(write_job(ready)).part.others == ready.part.others
    one, other = plan(alone), plan(ready)
    assert refusals(one) == set()
    assert plan_to_text(one) == plan_to_text(other)
    assert plan_to_data(one) == plan_to_data(other)


@pytest.mark.long
def test_a_refused_part_is_offered_the_tooling_at_hand_and_the_button_takes_it() -> None:
    text = KEEPER.format(order="", other=AT_HAND + HUGE)
    job = read_job(text)
    refused = plan(job)
    assert refusals(refused) == {"no-order"}
    remedies = looked(job, refused, plans=12)
    remedy = remedies.found[0]
    (change,) = remedy.changes
    assert change.what == "tooling"
    said = offered_text(refused, remedy)
    assert said.endswith("on the narrow die (nose radius 5/16 in, opening 1-1/4 in).")
    after = read_job(taken(text, job, remedy))
    assert after.part.others[0].bends == change.numbers
    assert after.part.others[1].bends == ()
    assert refusals(plan(after)) == set()
    # Nothing that is offered is made on the die that no leg of the part spans.
    assert all("huge" not in offered_text(refused, one) for one in remedies.found)
    data = plan_to_data(with_remedies(refused, remedies))
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    said_again = data["remedies"]["found"][0]["changes"][0]
    assert (said_again["tooling"], said_again["new"]) == ("the narrow die", 1)


@pytest.mark.parametrize(
    ("shape", "bar", "why", "offered"),
    [
        # The opening of the main die is too wide for the lip.
        ('["150", "up 90", "45"]', "5 x 40", "no-order", "the small die"),
        # Too much for the press on the small die: back on the main one.
        ('["150", "up 90", "150"]', "8 x 80", "press-too-weak", "the main tooling"),
    ],
)
def test_what_is_in_the_way_sends_a_bend_to_other_tooling(
    shape: str, bar: str, why: str, offered: str
) -> None:
    bends = "[1]" if offered == "the main tooling" else "[]"
    text = f"""\
format = 1
units = "metric"
[part]
name = "cleat bracket"
bar = "flat {bar}"
material = "S235"
measured = "outside"
shape = {shape}
[[part.other_tooling]]
name = "the small die"
bends = {bends}
nose = {{ shaft = "16", web = {{ thick = "12", height = "120" }} }}
shoulders = {{ radius = "6", opening = "40", depth = "80", height = "110" }}
[press]
bore = "63"
relief = "200 bar"
[tooling]
nose = {{ shaft = "30", web = {{ thick = "16", height = "120" }} }}
shoulders = {{ radius = "12", opening = "100", depth = "90", height = "120" }}
"""
    job = read_job(text)
    refused = plan(job)
    assert why in refusals(refused)
    remedies = looked(job, refused, plans=4)
    ways = [one for one in remedies.found if one.changes[0].what == "tooling"]
    assert ways
    assert f"Make bend 1 on {offered}" in offered_text(refused, ways[0])
    assert refusals(plan(read_job(taken(text, job, ways[0])))) == set()


NOSE_ALONE = """
[[part.other_tooling]]
name = "the blunt nose"
bends = [2]
nose = { shaft = "1-1/8", reach = "4-1/2" }
"""
DIES_OF_ITS_OWN = NOSE_ALONE.replace(
    "nose =", 'shoulders = { radius = "3/8", opening = "3-1/4", height = "5" }\nnose ='
)


def die_with(other: str, *, length: str = "4") -> Plan:
    """The hook's die, whose second bend, to 115 degrees, wedges harder than its first, to 45."""
    text = (EXAMPLES / "mooring-hook-die.toml").read_text(encoding="utf-8")
    text = text.replace('length = "4", height', f'length = "{length}", height')
    return plan(read_job(text.replace("[press]\n", f"{other}\n[press]\n", 1)), search=False)


def test_a_member_that_other_tooling_stands_on_is_held_to_its_bends_too() -> None:
    made = die_with(NOSE_ALONE)
    tooling, press = made.job.tooling, made.job.press
    assert tooling is not None
    peaks = {step.bend: max(step.peak_force, float(step.curve_high.max())) for step in made.steps}
    own = bench_of([made], tooling, press)
    (shared,) = shared_benches(made, tooling, press)
    assert own.pushes[0].force == pytest.approx(peaks[1])
    assert shared.pushes[0].force == pytest.approx(peaks[2])
    # To 45 degrees a leg leans by 22-1/2, to 115 by 57-1/2, and under load by a little more.
    assert shared.pushes[0].outward > 2 * own.pushes[0].outward
    # Its cheeks are the job's own, what carries its nose is not stated.
    held = {one.member for one in check_members(shared)[0] if one.case == "plan"}
    assert {"die body", "bolts of the cheeks", "shoulders"} <= held
    assert not held & {"nose", "carriers", "weld of the carriers", "push plate"}
    body = [one for one in assess(own, "inch").checks if one.member == "die body"]
    assert body[0].on == "the blunt nose"
    # The wedge alone shears a cheek: as much more as it wedges harder.
    worst, alone = (
        max(one.ratio for one in body if (one.what, one.case, one.on) == ("shear", "plan", on))
        for on in ("the blunt nose", "")
    )
    wedges = shared.pushes[0].outward / own.pushes[0].outward
    assert worst / alone == pytest.approx(wedges, rel=1e-6)


def on_plate(tooling: Tooling, inches: float) -> Tooling:
    """The same with a push plate of a length [in]."""
    members = tooling.members
    assert members is not None
    assert members.push_plate is not None
    plate = evolve(members.push_plate, length=inches * INCH)
    return evolve(tooling, members=evolve(members, push_plate=plate))


def test_a_shared_push_plate_is_rated_under_the_nose_of_other_tooling_too() -> None:
    """By hand: its carriers at the ends of the plate, a strip as wide as the plate over the pad."""
    made = die_with(NOSE_ALONE)
    tooling, press = made.job.tooling, made.job.press
    assert tooling is not None
    held = {}
    for inches in (6.0, 10.0):
        own = on_plate(tooling, inches)
        whole = assess(bench_of([made], own, press), "inch")
        assert whole.unchecked == ()
        assert whole.rating is not None
        (shared,) = shared_benches(made, own, press)
        checks = [one for one in check_members(shared)[0] if one.member == "push plate"]
        (bent,) = (one for one in checks if (one.what, one.load_case) == ("bending", "plan"))
        given = {name: value for name, value, _ in bent.inputs}
        # F (2 L - a)/8 on W, L the plate's own length.
        assert given["L"] == pytest.approx(inches * INCH)
        force = shared.pushes[0].force
        assert bent.demand == pytest.approx(
            force * (2 * inches * INCH - given["a"]) / 8 / given["W"], rel=1e-9
        )
        (cut,) = (
            one for one in checks if (one.what, one.load_case) == ("shear", "plan off centre")
        )
        sheared = {name: value for name, value, _ in cut.inputs}
        assert sheared["V"] == pytest.approx(force)
        # Across it the carriers are as wide as the plate, 4 in: (F/2) (4 - a)/4.
        (across,) = (one for one in checks
                     if (one.what, one.load_case) == ("bending across", "plan"))  # fmt: skip
        w = {name: value for name, value, _ in across.inputs}
        assert across.demand == pytest.approx(
            force / 2 * (4 * INCH - w["a"]) / 4 / w["W"], rel=1e-9
        )
        held[inches] = whole.rating
    assert held[10.0] <= held[6.0]


def test_a_nose_out_of_one_carrier_of_other_tooling_may_hang_at_the_end_of_the_plate() -> None:
    made = die_with(NOSE_ALONE.replace('reach = "4-1/2"', 'reach = "4-1/2", held = "one end"'))
    tooling, press = made.job.tooling, made.job.press
    assert tooling is not None
    (shared,) = shared_benches(made, on_plate(tooling, 10.0), press)
    checks = [one for one in check_members(shared)[0] if one.member == "push plate"]
    (bent,) = (one for one in checks if (one.what, one.load_case) == ("bending", "plan"))
    given = {name: value for name, value, _ in bent.inputs}
    assert given["c"] == pytest.approx(5 * INCH)
    assert bent.demand == pytest.approx(shared.pushes[0].force * 5 * INCH / given["W"])


def test_a_shared_member_that_other_tooling_leaves_open_takes_the_rating_with_it() -> None:
    made = die_with(NOSE_ALONE)
    tooling, press = made.job.tooling, made.job.press
    assert tooling is not None
    own = bench_of([made], tooling, press)
    alone = assess(evolve(own, shared=()), "inch")
    assert (alone.unchecked, alone.rating is None) == ((), False)
    own_long = on_plate(tooling, 10.0)
    long = bench_of([made], own_long, press)
    # The push plate is the job's own, and how far apart another nose is carried is not known: no
    # farther than the plate is long.
    whole = assess(evolve(own, shared=shared_benches(made, tooling, press)), "inch")
    assert {one.member for one in whole.unchecked if one.carries} == {"push plate"}
    assert whole.rating is None
    assert "member-unchecked" in {one.code for one in whole.findings}
    (said,) = (one.sentence for one in whole.unchecked)
    assert "under other tooling: not checked; enter tooling.members.push_plate.length" in said
    # Without its reach that is asked for, of the other nose and not of the one that states it.
    bare = die_with(NOSE_ALONE.replace(', reach = "4-1/2"', ""))
    held = assess(evolve(long, shared=shared_benches(bare, own_long, press)), "inch")
    assert held.unchecked
    assert all("enter the reach of its nose" in one.sentence for one in held.unchecked)
    # Of shoulders of its own nothing hangs on the job's own but what carries the nose.
    dies = DIES_OF_ITS_OWN[: DIES_OF_ITS_OWN.index("nose =")]
    other = die_with(dies)
    stays = assess(evolve(own, shared=shared_benches(other, tooling, press)), "inch")
    assert stays.unchecked == ()
    assert stays.rating is not None


def test_other_tooling_is_rated_by_the_members_that_it_shares() -> None:
    # Cheeks of 2-1/4 in stand the first bend, and not the second on the same shoulders.
    codes = {one.code for one in die_with(NOSE_ALONE, length="2-1/4").findings}
    assert "die-below-plan" in codes
    # On shoulders of its own nothing of them is known, and the first bend alone they stand.
    codes = {one.code for one in die_with(DIES_OF_ITS_OWN, length="2-1/4").findings}
    assert "die-below-plan" not in codes
    assert "other-tooling-unchecked" in codes


# Bend 1 on the die itself asks little; bend 2 on narrow shoulders asks several times its force.
BRACE = """\
format = 1
units = "metric"
[part]
name = "fender brace"
bar = "flat 6 x 40"
material = "A36 hot rolled"
measured = "outside"
shape = ["120", "up 30", "150", "up 90", "120"]
[[part.other_tooling]]
name = "narrow die"
bends = [2]
shoulders = { radius = "8", opening = "50" }
[press]
bore = "90"
rod = "45"
stroke = "200"
[tooling.nose]
shaft = "25"
reach = "115"
[tooling.shoulders]
radius = "8"
opening = "95"
height = "100"
[tooling.members]
nose = { material = "1045 ground shaft", between = "60" }
carriers = { material = "A36", thickness = "20", width = "50", height = "90" }
push_plate = { material = "A36", thickness = "5", width = "100" }
shoulders = { kind = "block", material = "A36" }
body = { material = "A36", cheek = "40", floor = "20", length = "60", height = "52" }
"""


@pytest.fixture(scope="module")
def brace(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    path = tmp_path_factory.mktemp("brace") / "brace.toml"
    path.write_text(BRACE, encoding="utf-8")
    return check_tooling(path)


def test_loads_of_other_tooling_are_listed_under_its_name(brace: Checked) -> None:
    peaks = {
        step.bend: max(step.peak_force, float(step.curve_high.max())) for step in brace.plan.steps
    }
    assert peaks[2] > 3 * peaks[1]
    forces = {one["case"]: one["force_N"] for one in checked_to_data(brace)["loads"]}
    assert forces == pytest.approx(
        {
            "plan": peaks[1],
            "plan off centre": peaks[1],
            "plan on narrow die": peaks[2],
            "plan off centre on narrow die": peaks[2],
        }
    )
    text = checked_to_text(brace)
    assert f"plan on narrow die: {peaks[2] / 1000:.1f} kN" in text
    # Every load case that a line of the members names is one of the list.
    named = {one.load_case for one in brace.assessment.checks if one.case == "plan"}
    assert named <= forces.keys()
    assert brace.assessment.checks[0].load_case.endswith("on narrow die")


def test_what_other_tooling_only_repeats_is_said_once(brace: Checked) -> None:
    rows = [(one.member, one.what, one.case, one.off_centre, one.ratio)
            for one in brace.assessment.checks]  # fmt: skip
    assert len(rows) == len(set(rows))


def test_the_force_that_a_shared_member_carries_is_one_force(brace: Checked) -> None:
    # The plate bends in proportion to the force, so both benches find the same at its limit.
    plate = [
        one
        for one in brace.assessment.checks
        if (one.member, one.what, one.off_centre) == ("push plate", "bending", True)
    ]
    assert [one.on for one in plate] == ["narrow die", ""]
    hard, easy = (force_carried(brace.bench, one) for one in plate)
    assert hard == pytest.approx(easy)


def test_a_size_that_fixes_a_member_does_so_under_other_tooling_too(brace: Checked) -> None:
    plate = next(one for one in brace.assessment.checks if one.member == "push plate")
    fix = next(one for one in brace.assessment.fixes if one.member == "push plate")
    members = fix.tooling.members
    assert members is not None
    assert members.push_plate is not None
    assert members.push_plate.thickness is not None
    # Its section modulus grows with the square of its thickness, 5 mm as stated.
    thicker = members.push_plate.thickness / 5.0
    assert fix.ratio == pytest.approx(plate.ratio / thicker**2, rel=1e-6)
    assert fix.ratio <= 1.0


def test_no_tooling_holds_that_other_tooling_overloads(brace: Checked) -> None:
    # With its plate mended, the nose stands the job's own bend and not that on narrow shoulders.
    fix = next(one for one in brace.assessment.fixes if one.member == "push plate")
    bench = bench_of([brace.plan], fix.tooling, brace.plan.job.press)
    assert not assess(bench, "metric").holds
    assert assess(evolve(bench, shared=()), "metric").holds
