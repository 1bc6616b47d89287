"""The 1:1 template as printed: true scale, strips that register, true angles, nothing cut off."""

from __future__ import annotations

import io
import math
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Literal

import numpy as np
import pytest
from attrs import evolve
from plan_fixture import fender_hanger, long_plan, make_plan
from printed import gauge_angles, laid_together, lines, open_pdf, strips
from pypdf import PdfReader

from strapwright.drawing.bend_sides import nose_side
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.quantities import Units
from strapwright.report.plan_json import plan_to_data
from strapwright.sheets.angle_gauges import numbered
from strapwright.sheets.gauge_shape import Gauge, draw_gauge, outline
from strapwright.sheets.setup_sheet import setup_sheet
from strapwright.sheets.template_sheet import angles_pdf, template_pdf
from strapwright.sheets.true_scale import Words
from strapwright.shop.bar import Bar
from strapwright.shop.part import Hole, Part
from strapwright.shop_files.reading_job import read_job

Paper = Literal["letter", "a4"]
PAGES = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}  # mm; ANSI/ASME Y14.1, ISO 216
ON_PAPER = 0.1  # mm, what the template promises
BARS = {"4 in": 101.6, "100 mm": 100.0}


def with_bar(width: float, **changes: object) -> Part:
    bar = Bar(section="flat", thickness=6.35, width=width)
    return evolve(fender_hanger(), bar=bar, **changes)


def two_metres() -> Part:
    holes = tuple(
        Hole(leg=1, from_bend=None, distance=60.0 + 90.0 * i, diameter=11.0, across=(-1) ** i * 9.0)
        for i in range(8)
    )
    return with_bar(50.0, legs=(900.0, 500.0, 300.0, 350.0), holes=holes)


PLANS: dict[str, Callable[[], Plan]] = {
    "inch job": make_plan,
    "metric job": lambda: make_plan("metric"),
    "two metres": lambda: make_plan("metric", part=two_metres()),
    "20 mm wide": lambda: make_plan("metric", part=with_bar(20.0)),
    "150 mm wide": lambda: make_plan(part=with_bar(150.0)),
    "nine bends": long_plan,
}
CASES = [(name, paper) for name in PLANS for paper in PAGES]


@pytest.fixture(scope="module")
def printed() -> Callable[[str, Paper], tuple[Plan, bytes]]:
    made: dict[tuple[str, str], tuple[Plan, bytes]] = {}

    def one(name: str, paper: Paper) -> tuple[Plan, bytes]:
        if (name, paper) not in made:
            plan = PLANS[name]()
            made[name, paper] = (plan, template_pdf(plan, paper=paper))
        return made[name, paper]

    return one


Printed = Callable[[str, Paper], tuple[Plan, bytes]]


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_every_page_has_both_check_bars_to_a_hundredth(
    name: str, paper: Paper, printed: Printed
) -> None:
    _, pdf = printed(name, paper)
    for page in open_pdf(pdf):
        size = sorted((float(page.width) * 25.4 / 72, float(page.height) * 25.4 / 72))
        assert size == pytest.approx(PAGES[paper], abs=0.01)
        level = [one.length for one in lines(page) if one.kind == "solid" and one.level]
        for length in BARS.values():
            assert sum(abs(one - length) < 0.01 for one in level) == 1
        # Angles need both directions of the page to be true.
        upright = [one.length for one in lines(page) if one.kind == "solid" and one.upright]
        if "gauge edge" in page.extract_text():
            for length in BARS.values():
                assert sum(abs(one - length) < 0.01 for one in upright) == 1
        said = " ".join(page.extract_text().split())
        assert "exactly 4 in" in said
        assert "exactly 100 mm" in said
        assert "Measure these before use: print at 100 %." in said


@pytest.mark.poppler
@pytest.mark.parametrize("paper", PAGES)
def test_check_bars_measure_true_in_the_print(
    paper: Paper, printed: Printed, tmp_path: Path
) -> None:
    command = shutil.which("pdftoppm")
    assert command is not None, "install poppler-utils"
    _, pdf = printed("inch job", paper)
    (tmp_path / "t.pdf").write_bytes(pdf)
    page = open_pdf(pdf)[0]
    ticks = {
        name: next(
            one
            for one in lines(page)
            if one.kind == "solid" and one.level and abs(one.length - length) < 0.5
        )
        for name, length in BARS.items()
    }
    pixel = 25.4 / 600
    for name, bar in ticks.items():
        x, y = min(bar.start[0], bar.end[0]) - 3.0, bar.start[1] + 0.8
        # A band one millimetre high just under the bar meets nothing but the two end ticks.
        box = [round(one / pixel) for one in (x, y, BARS[name] + 6.0, 0.8)]
        where = [f"-{key}={value}" for key, value in zip("xyWH", box, strict=True)]
        argument = [part for one in where for part in one.split("=")]
        done = subprocess.run(
            [command, "-gray", "-r", "600", "-f", "1", "-l", "1", *argument, tmp_path / "t.pdf"],
            check=True,
            capture_output=True,
        )
        head = re.match(rb"P5\s(\d+)\s(\d+)\s255\s", done.stdout)
        assert head is not None
        image = np.frombuffer(done.stdout[head.end() :], dtype=np.uint8)
        ink = 255.0 - image.reshape(int(head[2]), int(head[1])).mean(axis=0)
        half = len(ink) // 2
        middles = [
            float((part * (np.arange(len(part)) + offset)).sum() / part.sum())
            for part, offset in ((ink[:half], 0), (ink[half:], half))
        ]
        assert (middles[1] - middles[0]) * pixel == pytest.approx(BARS[name], abs=ON_PAPER)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_strips_laid_together_give_the_marks_of_the_plan(
    name: str, paper: Paper, printed: Printed
) -> None:
    plan, pdf = printed(name, paper)
    blank = plan_to_data(plan)["blank"]
    found = strips(pdf)
    shifts = laid_together(found)
    placed: dict[str, set[float]] = {"nose": set(), "sight": set(), "tangent": set()}
    for strip, shift in zip(found, shifts, strict=True):
        assert strip.low - strip.high == pytest.approx(plan.job.part.bar.width, abs=0.01)
        for kind, places in strip.marks.items():
            if kind in placed:
                placed[kind] |= {place + shift for place in places}
    wanted = {
        "nose": [mark["nose_mm"] for mark in blank["marks"]],
        "sight": [
            mark["sight_mm"]
            for mark in blank["marks"]
            if 0.0 <= mark["sight_mm"] <= blank["length_mm"]
        ],
        "tangent": [at for mark in blank["marks"] for at in mark["tangent_mm"]],
    }
    for kind, places in wanted.items():
        for place in places:
            assert min(abs(place - one) for one in placed[kind]) < ON_PAPER, (kind, place)
        for one in placed[kind]:
            assert min(abs(place - one) for place in places) < ON_PAPER, (kind, one)
    assert max(found[-1].ends) + shifts[-1] == pytest.approx(blank["length_mm"], abs=ON_PAPER)
    holes = {
        (round(x + shift, 2), round((strip.low + strip.high) / 2 - y, 2), round(r, 2))
        for strip, shift in zip(found, shifts, strict=True)
        for x, y, r in strip.holes
    }
    for hole in blank["holes"]:
        position, across = hole["position_mm"], hole["across_mm"]
        close = [one for one in holes if math.dist(one[:2], (position, across)) < ON_PAPER]
        assert close
        assert close[0][2] == pytest.approx(hole["diameter_mm"] / 2, abs=ON_PAPER)
    assert len({round(x / ON_PAPER) for x, _, _ in holes}) <= 2 * len(blank["holes"])


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_strips_overlap_and_name_their_joins(name: str, paper: Paper, printed: Printed) -> None:
    plan, pdf = printed(name, paper)
    assert plan.blank is not None
    found = strips(pdf)
    shifts = laid_together(found)
    text = " ".join(" ".join(page.extract_text().split()) for page in open_pdf(pdf))
    for number, (strip, shift) in enumerate(zip(found, shifts, strict=True), 1):
        assert f"Strip {number} of {len(found)}" in text
        joins = len(strip.joins)
        assert joins == (number > 1) + (number < len(found))
        if number < len(found):
            after, moved = found[number], shifts[number]
            # Twice 10 mm of strip is drawn twice, the same on both.
            assert strip.reach[1] + shift - (after.reach[0] + moved) == pytest.approx(20, abs=0.1)
            assert max(strip.joins) + shift == pytest.approx(min(after.joins) + moved, abs=1e-3)
            shared = (after.reach[0] + moved + 0.2, strip.reach[1] + shift - 0.2)
            for kind in ("nose", "sight", "tangent"):
                drawn = [
                    sorted(
                        x + by for x in one.marks.get(kind, []) if shared[0] < x + by < shared[1]
                    )
                    for one, by in ((strip, shift), (after, moved))
                ]
                assert drawn[0] == pytest.approx(drawn[1], abs=0.05)
    assert text.count("Join here") == 2 * (len(found) - 1)
    assert "End 1" in text
    assert "End 2" in text
    if name == "two metres":
        assert len(found) >= 2000 / 275


def test_a_bracket_takes_one_page_of_template_and_two_of_sheet() -> None:
    """Strip and gauge on one page: cut short behind the last mark, the strip needs no join."""
    text = (Path(__file__).parents[2] / "docs/examples/shelf-bracket.toml").read_text("utf-8")
    made = plan(read_job(text), search=False)
    assert made.blank is not None
    pdf = template_pdf(made)
    (page,) = open_pdf(pdf)
    said = " ".join(page.extract_text().split())
    for words in ("Strip 1 of 1", "the bar goes on to", "gauge edge", "Check 90° with a square."):
        assert words in said
    (strip,) = strips(pdf)
    (mark,) = made.blank.marks
    (end,) = strip.ends  # end 2 is not on it
    for kind, place in (("nose", mark.nose), ("sight", mark.sight)):
        assert strip.marks[kind] == pytest.approx([end + place], abs=ON_PAPER)
    assert strip.marks["tangent"] == pytest.approx([end + at for at in mark.tangents], abs=ON_PAPER)
    assert strip.reach[1] - end > mark.sight + 4.0
    loaded = round(math.degrees(made.steps[0].loaded_angle), 1)
    assert gauge_angles(pdf) == pytest.approx([180.0 - loaded], abs=0.02)
    # Both directions of the page are measured where a gauge is on it; nothing lies on the bars.
    upright = [one for one in lines(page) if one.kind == "solid" and one.upright]
    tall = [one for one in upright if abs(one.length - BARS["4 in"]) < 0.01]
    assert len(tall) == 1
    assert min(tall[0].start[1], tall[0].end[1]) > strip.low
    assert len(open_pdf(setup_sheet(made))) == 2


def test_a_strip_is_cut_short_only_where_that_saves_its_joins() -> None:
    text = (Path(__file__).parents[2] / "docs/examples/shelf-bracket.toml").read_text("utf-8")
    for legs, stops in (('"6", "up 90", "5"', True), ('"3", "up 90", "3"', False)):
        made = plan(read_job(text.replace('"5", "up 90", "6"', legs)), search=False)
        said = " ".join(
            " ".join(one.extract_text().split()) for one in open_pdf(template_pdf(made))
        )
        assert ("goes on to" in said) is stops
        assert ("End 2" in said) is not stops


def test_a_bar_wider_than_the_paper_is_printed_in_rows() -> None:
    plan = make_plan("metric", part=with_bar(300.0, legs=(80.0, 60.0, 60.0, 80.0)))
    assert plan.blank is not None
    across = set()
    rows: dict[int, float] = {}
    for page in open_pdf(template_pdf(plan)):
        said = " ".join(page.extract_text().split())
        match = re.search(r"row (\d) of (\d)", said)
        if match is None:
            continue
        # Height of the strip from its lines over the whole width it shows.
        upright = [one for one in lines(page) if one.upright and one.kind in {"nose", "outline"}]
        rows[int(match[1])] = max(one.length for one in upright)
        across.add(int(match[2]))
    (count,) = across
    assert sorted(rows) == list(range(1, count + 1))
    # Each seam's 20 mm is drawn twice.
    assert sum(rows.values()) - 20.0 * (count - 1) == pytest.approx(300.0, abs=0.05)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_gauges_have_the_angles_of_the_plan(name: str, paper: Paper, printed: Printed) -> None:
    plan, pdf = printed(name, paper)
    wanted = set()
    for step in plan.steps:
        wanted.add(("under load", round(math.degrees(step.loaded_angle), 1)))
        wanted.add(("released", round(math.degrees(step.free_angle), 1)))
    expected = sorted(180.0 - degrees for _, degrees in wanted)
    assert gauge_angles(pdf) == pytest.approx(expected, abs=0.02)
    text = " ".join(" ".join(page.extract_text().split()) for page in open_pdf(pdf))
    for state, degrees in wanted:
        assert state in text
        assert f"{degrees:g}°" in text


def test_gauges_for_any_angles_are_true() -> None:
    angles = [1.0, 5.0, 30.0, 45.0, 90.0, 92.65, 135.0, 150.0, 175.0]
    for paper in PAGES:
        pdf = angles_pdf(angles, paper=paper)  # type: ignore[arg-type]
        drawn = gauge_angles(pdf)
        assert drawn == pytest.approx(sorted(180.0 - one for one in angles), abs=0.02)


def test_the_trimmed_tip_clears_the_inside_radius() -> None:
    # A circle of radius r in the corner of two legs touches them r tan(a/2) from the corner.
    plan = make_plan()
    for step in plan.steps:
        assert plan.blank is not None
        radius, angle = step.radii.wrap, step.wanted
        low, high = plan.blank.marks[step.bend - 1].tangents
        reach = (high - low) * math.tan(angle / 2) / angle
        assert reach > radius * math.tan(angle / 2)
        gauge = Gauge(degrees=math.degrees(angle), what="", reach=reach, units="inch")
        assert outline(gauge, 170.0).leg > reach + 20.0


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_words_stand_on_the_page_and_clear_of_each_other(
    name: str, paper: Paper, printed: Printed
) -> None:
    _, pdf = printed(name, paper)
    white = 10.0 / 25.4 * 72  # pt left white on every side
    for page in open_pdf(pdf):
        words = page.extract_words(keep_blank_chars=True, x_tolerance=4, extra_attrs=["size"])
        for word in words:
            assert white < word["x0"] < word["x1"] < float(page.width) - white, word["text"]
            assert white < word["top"] < word["bottom"] < float(page.height) - white, word["text"]
        for index, word in enumerate(words):
            for other in words[index + 1 :]:
                across = min(word["x1"], other["x1"]) - max(word["x0"], other["x0"])
                # A line of type is a fifth lower than its box.
                down = min(word["bottom"], other["bottom"]) - max(word["top"], other["top"])
                down -= 0.3 * min(word["size"], other["size"])
                assert across < 0.5 or down < 0.5, (word["text"], other["text"])


def test_names_give_way_where_holes_crowd() -> None:
    holes = tuple(
        Hole(leg=1, from_bend=None, distance=10.0 + 8.0 * i, diameter=5.0) for i in range(60)
    )
    plan = make_plan("metric", part=with_bar(50.0, legs=(700.0, 60.0, 60.0, 80.0), holes=holes))
    pages = open_pdf(template_pdf(plan))
    text = " ".join(" ".join(page.extract_text().split()) for page in pages)
    assert "labels that did not fit here are on the setup sheet" in text
    assert "End 1" in text


def test_a_sight_line_past_the_end_is_said() -> None:
    plan = make_plan()
    assert plan.blank is not None
    marks = list(plan.blank.marks)
    marks[-1] = evolve(marks[-1], sight=plan.blank.length + 5.0)
    moved = evolve(plan, blank=evolve(plan.blank, marks=tuple(marks)))
    text = " ".join(open_pdf(template_pdf(moved))[0].extract_text().split())
    assert "Sight line 3 is past the end of the bar: use its nose line." in text


@pytest.mark.parametrize("paper", PAGES)
def test_only_our_font_is_embedded_and_scaling_is_off(paper: Paper, printed: Printed) -> None:
    for pdf in (printed("inch job", paper)[1], angles_pdf([90.0], paper=paper)):
        reader = PdfReader(io.BytesIO(pdf))
        catalog = reader.trailer["/Root"].get_object()
        assert catalog["/ViewerPreferences"]["/PrintScaling"] == "/None"  # ISO 32000-1, table 150
        names = {char["fontname"] for page in open_pdf(pdf) for char in page.chars}
        assert names
        assert all(re.fullmatch(r"[A-Z]{6}\+SourceSansPro-\w+", name) for name in names), names


def test_the_same_plan_gives_the_same_bytes_and_paper_follows_the_units() -> None:
    for units, width in (("inch", 279.4), ("metric", 297.0)):
        plan = make_plan(units)  # type: ignore[arg-type]
        pdf = template_pdf(plan)
        assert template_pdf(plan) == pdf
        assert float(open_pdf(pdf)[0].width) * 25.4 / 72 == pytest.approx(width, abs=0.01)


def test_without_tooling_the_angles_of_the_part_are_cut() -> None:
    plan = make_plan()
    bare = evolve(plan, steps=(), job=evolve(plan.job, tooling=None))
    pdf = template_pdf(bare)
    assert gauge_angles(pdf) == pytest.approx([90.0, 120.0, 135.0], abs=0.02)
    text = " ".join(page.extract_text() for page in open_pdf(pdf))
    assert "Sight" not in text  # there is no edge to sight along


def test_a_roll_moves_the_nose_to_another_side() -> None:
    # By hand: the top rolled towards the viewer brings the far side up; twice that, the bottom.
    quarter = math.pi / 2
    part = evolve(
        fender_hanger(),
        bar=Bar(section="square", thickness=20.0, width=20.0),
        rolls=(0.0, quarter, quarter),
    )
    plan = make_plan("metric", part=part)
    sides = [bend.side for bend in part.bends]
    assert sides == [1, -1, -1]
    assert [nose_side(plan, bend) for bend in (1, 2, 3)] == ["on top", "on the near side", "on top"]
    eighth = evolve(plan, job=evolve(plan.job, part=evolve(part, rolls=(math.pi / 4, 0.0, 0.0))))
    assert nose_side(eighth, 1) == "45° round from the top, over the far side"


def test_a_row_of_hits_is_marked_hit_by_hit() -> None:
    plan = make_plan()
    assert plan.blank is not None
    first, second, *rest = plan.blank.marks
    low, high = second.tangents
    share = (high - low) / 5
    row = [
        evolve(second, hit=hit, nose=low + (hit - 0.5) * share, sight=second.sight + hit * share)
        for hit in range(1, 6)
    ]
    steps = [
        evolve(step, hits=5, total=step.wanted) if step.bend == 2 else step for step in plan.steps
    ]
    rowed = evolve(plan, blank=evolve(plan.blank, marks=(first, *row, *rest)), steps=tuple(steps))
    pdf = template_pdf(rowed)
    found = strips(pdf)
    shifts = laid_together(found)
    noses = [x + by for one, by in zip(found, shifts, strict=True) for x in one.marks["nose"]]
    for mark in row:
        assert min(abs(mark.nose - one) for one in noses) < ON_PAPER
    text = " ".join(" ".join(page.extract_text().split()) for page in open_pdf(pdf))
    for wanted in ("Nose 2.1", "up 90°", "down 9°", "2.5", "bend 2 under load, each hit"):
        assert wanted in text
    assert text.count("tangent 2") == 2
    assert "bend 2 finished" in text


def test_a_gauge_that_ends_within_its_bend_says_so() -> None:
    plan = make_plan()
    assert plan.blank is not None
    first, *rest = plan.blank.marks
    wide = evolve(first, tangents=(first.nose - 200.0, first.nose + 200.0))
    moved = evolve(plan, blank=evolve(plan.blank, marks=(wide, *rest)))
    text = " ".join(" ".join(page.extract_text().split()) for page in open_pdf(template_pdf(moved)))
    assert "ends within the bend: lay straightedges along its legs" in text
    # tan(85 deg) is 11.43: of 150 mm of edge three quarters come off, less a millimetre.
    narrow = " ".join(open_pdf(angles_pdf([170.0], paper="a4"))[0].extract_text().split())
    assert "170°" in narrow
    # 111.5 / 11.43 is 9.75 mm, or 0.384 in, which is over 6/16.
    assert draw_words(170.0, "metric") == "only radii up to 9 mm"
    assert draw_words(170.0, "inch") == "only radii up to 3/8 in"


def draw_words(degrees: float, units: Units) -> str:
    reach = 12.7 * math.tan(math.radians(degrees) / 2) + 1.0
    gauge = Gauge(degrees=degrees, what="", reach=reach, units=units)
    shapes = draw_gauge(gauge, outline(gauge, 170.0), 0.0, 0.0)
    return next(one.text for one in shapes if isinstance(one, Words) and "radii" in one.text)


def test_numbers_of_bends_are_listed_in_few_words() -> None:
    assert numbered([1]) == "bend 1"
    assert numbered([2, 1]) == "bends 1 and 2"
    assert numbered([1, 3, 4, 5]) == "bends 1 and 3 to 5"
    assert numbered([1, 2, 4, 6, 7, 8]) == "bends 1, 2, 4 and 6 to 8"
