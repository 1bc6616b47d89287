"""What a job file says, the file to begin with, and changes to one."""

import math
import re

import pytest

from strapwright.errors import InputError
from strapwright.shop.bar import Bar
from strapwright.shop.job import BlankSettings
from strapwright.shop.part import Bend, Hole
from strapwright.shop_files.known_keys import KNOWN
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.template import new_job_text
from strapwright.shop_files.updating import update_job
from strapwright.shop_files.writing import write_job

JOB = """\
format = 1
units = "inch"

[part]
name = "fender hanger"
bar = "flat 1/4 x 2"
material = "A36 hot rolled"
shape = ["6", "up 90", "3-1/2", "down 45", "2"]

[[part.hole]]
leg = 2
from_bend = 1
distance = "1"
diameter = "9/16"

[press]
bore = "3-1/2"
rod = "1-3/4"
relief = "2000 psi"

[tooling]
nose = { shaft = "1" }
shoulders = { radius = "3/8", opening = "2-1/2" }
"""

BAR = 'bar = "flat 1/4 x 2"'
SHAPE = 'shape = ["6", "up 90", "3-1/2", "down 45", "2"]'
NOSE = 'nose = { shaft = "1" }'
SHOULDERS = 'shoulders = { radius = "3/8", opening = "2-1/2" }'
PLACE = 'from_bend = 1\ndistance = "1"'


def changed(old: str, new: str) -> str:
    assert JOB.count(old) == 1
    return JOB.replace(old, new)


def test_what_is_left_out_takes_the_documented_defaults() -> None:
    job = read_job(
        'format = 1\n[part]\nbar = "round 10 mm"\nmaterial = "S235"\n'
        'shape = ["60 mm", "up 60", "60 mm"]\n[press]\n[tooling]\n'
        'nose = { radius = "10 mm" }\nshoulders = { radius = "8 mm", opening = "60 mm" }\n'
    )
    assert (job.units, job.part.name, job.part.quantity) == ("inch", "part", 1)
    assert (job.part.measured, job.part.order, job.part.at_once) == ("outside", None, 1)
    assert job.part.bar == Bar(section="round", thickness=10, width=10)
    assert job.press is not None
    assert (job.press.efficiency, job.press.no_load, job.press.give) == (0.95, 0, 0)
    assert (job.press.bore, job.press.axis) == (None, "down")
    assert job.tooling is not None
    assert (job.tooling.friction, job.tooling.touch_error) == (0.1, 0.3)
    assert (job.tooling.nose.reach, job.tooling.nose.held) == (None, "both ends")
    assert job.blank == BlankSettings(method="strain", factor=None, reading=None)


def test_press_and_tooling_may_be_missing() -> None:
    job = read_job(JOB[: JOB.index("[press]")])
    assert (job.press, job.tooling) == (None, None)


def test_figures_are_read_in_the_units_of_the_job() -> None:
    # 1 in = 25.4 mm and 1 psi = 0.006894757293168 MPa exactly to the digits shown.
    job = read_job(JOB)
    assert job.part.bar == Bar(section="flat", thickness=6.35, width=50.8)
    assert job.part.legs == (152.4, 88.9, 50.8)
    assert job.part.bends == (
        Bend(angle=math.pi / 2, side=1),
        Bend(angle=math.pi / 4, side=-1),
    )
    assert job.part.holes == (
        Hole(leg=2, from_bend=1, distance=25.4, diameter=14.2875, across=0.0),
    )
    assert job.press is not None
    assert job.press.relief == pytest.approx(13.789514586336, rel=1e-12)
    assert job.tooling is not None
    assert (job.tooling.nose.radius, job.tooling.shoulders.opening) == (12.7, 63.5)


def test_plain_numbers_and_text_say_the_same() -> None:
    plain = changed(SHAPE, 'shape = [6, "up 90", 3.5, "down 45", 2]')
    assert read_job(plain.replace('"3-1/2"', "3.5")) == read_job(JOB)
    metric = read_job(JOB.replace('"inch"', '"metric"').replace("1/4 x 2", "6 x 50"))
    assert metric.part.legs == (6, 3.5, 2)


def test_line_ends_and_a_mark_at_the_head_do_not_matter() -> None:
    assert read_job("\ufeff" + JOB.replace("\n", "\r\n")) == read_job(JOB)


def test_other_words_for_the_same_thing() -> None:
    center = read_job(changed("[part]", '[part]\nmeasured = "center"\norder = "best"'))
    assert center == read_job(changed("[part]", '[part]\nmeasured = "centre"'))


@pytest.mark.parametrize(
    "written", ["flat 6 x 40 mm", "Flat 6mm X 40mm", "flat 0.6 cm by 4 cm", "flat 6 \u00d7 40 mm"]
)
def test_a_unit_written_once_at_the_end_counts_for_both_sizes_of_a_flat(written: str) -> None:
    job = read_job(changed(BAR, f'bar = "{written}"').replace('"9/16"', '"1/2"'))
    assert job.part.bar == Bar(section="flat", thickness=6, width=40)


def test_a_gap_is_the_opening_less_both_rounds() -> None:
    by_gap = changed(SHOULDERS, 'shoulders = { radius = "3/8", gap = "1-3/4" }')
    assert read_job(by_gap) == read_job(JOB)


def test_a_web_and_its_shaft_give_the_reach() -> None:
    job = read_job(changed(NOSE, 'nose = { shaft = "1", web = { thick = "1/2", height = "3" } }'))
    assert job.tooling is not None
    assert job.tooling.nose.reach == 4 * 25.4


def test_a_hand_pump_delivers_its_stroke_volume_times_strokes() -> None:
    job = read_job(
        changed("[press]", '[press]\nhand_pump = { volume = "9 cm3", strokes_per_minute = 20 }')
    )
    assert job.press is not None
    assert job.press.flow == 9000 * 20 / 60


def test_give_is_travel_over_force() -> None:
    job = read_job(changed("[press]", '[press]\ngive = { travel = "0.5 mm", at = "50 kN" }'))
    assert job.press is not None
    assert job.press.give == 1e-5


# The job file to begin with


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_the_file_to_begin_with_explains_every_key(units: str) -> None:
    text = new_job_text(units)
    assert read_job(text).units == units
    for table, keys in KNOWN.items():
        for key in keys:
            assert re.search(rf"(?m)^(# )?{key} = |[{{,] {key} = |\[{table}\.?{key}\]", text), key


def _examples(text: str) -> list[tuple[str | None, list[str]]]:
    """Commented keys of a file: alone, or together in place of another."""
    found: list[tuple[str | None, list[str]]] = []
    instead: str | None = None
    group: list[str] = []
    for line in [*text.split("\n"), ""]:
        if re.match(r"# [a-z_]+ = ", line):
            if instead is None:
                found.append((None, [line]))
            else:
                group.append(line)
            continue
        if group:
            found.append((instead, group))
            instead, group = None, []
        if words := re.match(r"# In place of (\w+)", line):
            instead = words[1]
    return found


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_every_example_in_the_file_to_begin_with_can_be_used_as_it_stands(units: str) -> None:
    text = new_job_text(units)
    examples = _examples(text)
    assert {instead for instead, _ in examples if instead} == {
        "from_end",
        "pump",
        "shaft",
        "opening",
        "floor",
        "method",
        "shape",
    }
    for instead, lines in examples:
        used = text
        if instead is not None:
            used, count = re.subn(rf"(?m)^{instead} = .*\n", "", used)
            assert count == 1
        # A bend is finished on tooling that the job names.
        named = [one for one in text.splitlines() if one.startswith("# other_tooling")]
        for line in [*lines, *(named if lines[0].startswith("# finish") else [])]:
            used = used.replace(f"\n{line}\n", f"\n{line.removeprefix('# ')}\n", 1)
        # Half the shaft and the clear gap are other words for what the file says already.
        same = instead in ("shaft", "opening")
        assert (read_job(used) == read_job(text)) is same, lines


# Writing and changing


def test_a_job_is_written_in_fractions_people_read() -> None:
    text = write_job(read_job(JOB))
    assert 'bar = "flat 1/4 in x 2 in"' in text
    assert 'shape = ["6 in", "up 90", "3-1/2 in", "down 45", "2 in"]' in text
    assert 'relief = "2000 psi"' in text


def test_a_change_keeps_comments_and_layout() -> None:
    text = changed(SHAPE, 'shape = [  # from the eye\n  "6", "up 90",  # snug\n  "2",\n]  # end')
    text = text.replace(PLACE, 'from_bend = 1\ndistance = "1/2"  # edge')
    new = update_job(
        text,
        {
            "part.quantity": 40,
            "part.shape[2]": "up 85",
            "part.hole[1].distance": "5/8",
            "press.rod": None,
            "tooling.nose.shaft": "3/4",
            "tooling.nose.web.thick": "1/2",
            "tooling.nose.web.height": "2",
            "lot.yield": "50 ksi",
        },
    )
    assert '"6", "up 85",  # snug\n' in new
    assert 'distance = "5/8"  # edge\n' in new
    assert "rod" not in new
    job = read_job(new)
    assert job.part.quantity == 40
    assert job.tooling is not None
    assert (job.tooling.nose.radius, job.tooling.nose.web_height) == (9.525, 50.8)
    assert job.part.lot.yield_strength == pytest.approx(344.7378646584, rel=1e-12)


def test_a_whole_new_shape_of_as_many_entries_keeps_the_comments_between_them() -> None:
    text = changed(SHAPE, 'shape = [  # from the eye\n  "6", "up 90",  # snug\n  "2",\n]')
    text = text[: text.index("[[part.hole]]")]
    new = update_job(text, {"part.shape": ["5", "down 90", "2"]})
    assert new == text.replace('"6", "up 90"', '"5", "down 90"')


def test_a_change_may_add_a_table_and_a_hole() -> None:
    text = JOB[: JOB.index("[tooling]")]
    new = update_job(
        text,
        {
            "tooling.nose.shaft": "1",
            "tooling.shoulders.radius": "3/8",
            "tooling.shoulders.opening": "2-1/2",
            "part.hole[2].leg": 1,
            "part.hole[2].from_end": "1",
            "part.hole[2].diameter": "1/2",
            "part.order": (2, 1),
        },
    )
    assert len(read_job(new).part.holes) == 2
    assert read_job(new).part.order == (2, 1)
    assert read_job(new).tooling == read_job(JOB).tooling


def test_guide_rods_and_obstacles_are_appended_as_holes_are() -> None:
    text = update_job(
        JOB,
        {
            "tooling.rod[1].out": "4 in",
            "tooling.rod[1].diameter": "1 in",
            "tooling.obstacle[1].box": ["8 in", "0 in", "9 in", "2 in"],
        },
    )
    assert "[[tooling.rod]]" in text
    tooling = read_job(text).tooling
    assert tooling is not None
    assert [(one.out, one.along, one.diameter) for one in tooling.rods] == [(101.6, 0.0, 25.4)]
    assert [(one.name, one.side) for one in tooling.obstacles] == [("obstacle", "shoulders")]


NAMED = 'format = 1\npress = "press.toml"\n'


@pytest.mark.parametrize(
    ("text", "path", "said"),
    [
        (JOB, "part.quantty", 'this is not a key of a job file; did you mean "quantity"?'),
        (JOB, "part.hole[3].leg", "there are only 1; count from 1."),
        (JOB, "part.shape[7]", "there is no such entry to change; count from 1."),
        (JOB, "part.shape[0]", "this is not a key of a job file; "),
        (JOB, "press.bore.x", "this is not a key of a job file; "),
        (JOB, "press[1].bore", "this is not a list of tables; leave the number out."),
        (JOB, "part.name[1]", "there is no such entry to change; count from 1."),
        (NAMED, "press.bore", "the job takes its press from a shop file; change it in press.toml"),
        ("part = 3", "part.name", "part is not a table; correct the job file first."),
    ],
)
def test_a_change_that_fits_nowhere_is_refused(text: str, path: str, said: str) -> None:
    with pytest.raises(InputError, match=rf"^{re.escape(path)}.*: {re.escape(said)}"):
        update_job(text, {path: "1"})


@pytest.mark.parametrize(
    ("written", "bar"),
    [
        ("3/8 x 3", Bar(section="flat", thickness=9.525, width=76.2)),
        ("3/8 x 3 flat", Bar(section="flat", thickness=9.525, width=76.2)),
        ("Flat 6 x 40 mm", Bar(section="flat", thickness=6.0, width=40.0)),
        ("sq 1/2", Bar(section="square", thickness=12.7, width=12.7)),
        ("1/2 square", Bar(section="square", thickness=12.7, width=12.7)),
        ("rd. 5/8", Bar(section="round", thickness=15.875, width=15.875)),
        ("16 mm round", Bar(section="round", thickness=16.0, width=16.0)),
    ],
)
def test_a_bar_is_read_as_people_write_it(written: str, bar: Bar) -> None:
    assert (
        read_job(changed(BAR, f'bar = "{written}"').partition("[[part.hole]]")[0]).part.bar == bar
    )


def test_one_size_alone_is_no_bar() -> None:
    with pytest.raises(InputError, match="'3/8': this is not a bar section; write"):
        read_job(changed(BAR, 'bar = "3/8"'))
