"""The setup sheet as a person holds it: what is printed, where, and in which type."""

import io
import itertools
import math
import re
import subprocess
from functools import cache
from pathlib import Path

import font_source_sans_pro
import pdfplumber
import pytest
from attrs import evolve
from plan_fixture import fender_hanger, long_plan, make_plan
from pypdf import PdfReader

from page_texts import page_texts
from strapwright.drawing import Frame, blank_scene
from strapwright.errors import StrapwrightError
from strapwright.findings import BendAt, Finding, KeyAt, Name, Severity
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.quantities import show_length
from strapwright.scene.primitives import Path as Outline
from strapwright.scene.primitives import Text
from strapwright.sheets import setup_sheet
from strapwright.sheets.bend_data import bends_of, ordinal
from strapwright.sheets.job_code import code_text, job_digest
from strapwright.sheets.paper_figures import Figures
from strapwright.sheets.sheet_pictures import in_pieces
from strapwright.sheets.typeset import _fonts
from strapwright.shop.part import Part
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.caution_words import HANDS
from strapwright.wording.figures import figures_for
from strapwright.wording.reader import on_paper
from strapwright.wording.relief_words import relief_words
from strapwright.wording.steps.gauge_words import ease_off_figure
from strapwright.wording.steps.stop_words import travel_figure
from strapwright.wording.telling import tell

LETTER = (612.0, 792.0)  # pt, ANSI A: 8.5 x 11 in
A4 = (595.28, 841.89)  # pt, ISO 216: 210 x 297 mm
HOSTILE = '#let x = *a* _b_ $c$ @d <e> [f] `g` \\ "h" // i'


@cache
def hanger() -> bytes:
    return setup_sheet(make_plan())


@cache
def pages(pdf: bytes) -> tuple[str, ...]:
    """Text of each page with plain spaces and plain fractions, as one line."""
    return tuple(map(plain, page_texts(pdf)))


def plain(text: str) -> str:
    fraction = re.sub("\\s*\N{FRACTION SLASH}\\s*", "/", text)
    return " ".join(fraction.replace("\N{MINUS SIGN}", "-").split())


def as_read(mm: float, plan: Plan) -> str:
    """Length as the sheet sets it: the fraction after a space instead of a dash."""
    return show_length(mm, Figures(job=plan.job).reading).replace("-", " ")


def page_of(pdf: bytes, order: int) -> str:
    found = [page for page in pages(pdf) if f"{ordinal(order)} Bend" in page]
    assert len(found) == 1
    return found[0]


def sizes(pdf: bytes) -> set[tuple[float, float]]:
    return {
        (round(float(page.mediabox.width), 2), round(float(page.mediabox.height), 2))
        for page in PdfReader(io.BytesIO(pdf)).pages
    }


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert setup_sheet(make_plan()) == hanger()


def test_paper_follows_the_units_unless_told() -> None:
    assert sizes(hanger()) == {LETTER}
    metric = make_plan("metric")
    assert sizes(setup_sheet(metric)) == {A4}
    assert sizes(setup_sheet(metric, paper="letter")) == {LETTER}


def test_only_our_own_type_is_embedded() -> None:
    with pdfplumber.open(io.BytesIO(hanger())) as document:
        used = {char["fontname"] for page in document.pages for char in page.chars}
    assert used
    assert all(re.fullmatch(r"[A-Z]{6}\+SourceSansPro-\w+", name) for name in used), used
    for page in PdfReader(io.BytesIO(hanger())).pages:
        for font in page["/Resources"]["/Font"].values():
            base = font.get_object()["/DescendantFonts"][0].get_object()
            descriptor = base["/FontDescriptor"].get_object()
            assert any(key.startswith("/FontFile") for key in descriptor)


def test_every_face_is_there_once() -> None:
    # Two files for one face would leave it to the order of a folder which is used.
    faces = [(one.style, one.weight, one.stretch) for one in _fonts().fonts()]
    assert len(faces) == len(set(faces))
    assert {("Normal", weight, 1.0) for weight in (400, 600, 700)} <= {
        (style.capitalize(), weight, stretch) for style, weight, stretch in faces
    }


def test_a_missing_font_is_told_and_no_other_is_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for folder in (tmp_path, tmp_path / "not there"):
        monkeypatch.setattr(font_source_sans_pro, "font_directory", str(folder))
        _fonts.cache_clear()
        with pytest.raises(StrapwrightError, match=r"but \[\]; install font-source-sans-pro again"):
            setup_sheet(make_plan())
    monkeypatch.undo()
    _fonts.cache_clear()
    assert setup_sheet(make_plan()).startswith(b"%PDF")


def test_what_is_read_at_the_press_is_14_pt_and_nothing_is_under_9() -> None:
    # LOOK of the paper: 14 pt and up at arm's length.
    with pdfplumber.open(io.BytesIO(hanger())) as document:
        small = [c for page in document.pages for c in page.chars if c["size"] < 8.99]
        sheet = next(p for p in document.pages if "1st Bend" in plain(p.extract_text()))
        press = {
            word["text"]: round(word["size"], 9)
            for word in sheet.extract_words(extra_attrs=["size"], split_at_punctuation=False)
            if word["text"] in {"Place", "Set", "Push", "Stop", "After", "1000"}
        }
    assert not small
    assert set(press) == {"Place", "Set", "Push", "Stop", "After", "1000"}
    assert min(press.values()) >= 14.0


@pytest.mark.parametrize("order", [1, 2, 3])
def test_a_bend_stands_whole_on_one_page_with_its_numbers(order: int) -> None:
    plan = make_plan()
    step = plan.steps[order - 1]
    assert plan.blank is not None
    mark = plan.blank.marks[step.bend - 1]
    text = page_of(hanger(), order)
    setting = step.setting
    assert step.staged is not None
    wanted = [
        f"Bend {step.bend}",
        f"{step.hold.face} face towards the nose, end {step.hold.end_left} on the left",
        as_read(mark.nose, plan),
        as_read(mark.sight, plan),
        # What the ram is set to is in thousandths: 1/64 in of travel can be two degrees.
        show_length(setting.travel, "decimal"),
        show_length(step.staged.first_travel, "decimal"),
        *(show_length(extra, "decimal").removesuffix(" in") for extra in step.staged.extra),
        # 4.3 to 5.6 MPa is 624 to 812 psi (1 psi = 6894.757 Pa), 6.4 MPa 928, 6.9 MPa 1001:
        # limits are rounded down to the 10 psi that a gauge shows.
        "620 to 810 psi",
        "Stop and check above 920 psi",
        "relief valve to 1000 psi",
        "angle after release",  # a box to write in
        "jams at 150° under load",
    ]
    assert [figure for figure in wanted if figure not in text] == []


def test_every_push_is_told_how_to_lay_the_bar_from_the_one_before() -> None:
    # The fixture bends 1 (top up, end 1 left), 2 (bottom, 2), 3 (bottom, 1).
    said = [page_of(hanger(), order) for order in (1, 2, 3)]
    assert "Place the bar: top face towards the nose" in said[0]
    assert "Turn it over and swap the ends: bottom face towards the nose" in said[1]
    assert "Swap the ends, same face: bottom face towards the nose" in said[2]


def test_markup_in_names_is_printed_as_typed() -> None:
    plan = make_plan()
    part = evolve(plan.job.part, name=HOSTILE, material="#text(9pt)[*A36*]")
    first = pages(setup_sheet(evolve(plan, job=evolve(plan.job, part=part))))[0]
    assert HOSTILE in first
    assert "#text(9pt)[*A36*]" in first


def test_without_a_press_the_reason_stands_where_the_gauge_would() -> None:
    text = page_of(setup_sheet(make_plan(gauge=False)), 1)
    assert "work to travel only: add bore and relief" in text
    assert "psi" not in text


def test_without_tooling_the_blank_stands_alone() -> None:
    plan = make_plan()
    bare = evolve(plan, steps=(), job=evolve(plan.job, tooling=None, press=None))
    text = " ".join(pages(setup_sheet(bare)))
    assert plan.blank is not None
    assert as_read(plan.blank.length, plan) in text
    assert "enter the tooling" in text
    assert "Write down" not in text
    assert "Sight line" not in text


def test_findings_stand_with_the_bends_they_name() -> None:
    note = Finding(
        code="brittle-bar",
        severity=Severity.WARNING,
        about=(BendAt(1), BendAt(3)),
        facts={"metal": Name("One metal")},
    )
    other = evolve(note, about=(KeyAt("part.material"),), facts={"metal": Name("Another")})
    pdf = setup_sheet(evolve(make_plan(), findings=(note, other)))
    held = ["One metal may snap" in page_of(pdf, order) for order in (1, 2, 3)]
    assert held == [True, False, True]
    assert "Another may snap" in pages(pdf)[0]
    assert bends_of(tell(note, on_paper(make_plan().job))) == {1, 3}


def test_too_many_findings_follow_the_block_instead_of_splitting_it() -> None:
    many = tuple(
        Finding(
            code="brittle-bar",
            severity=Severity.NOTE,
            about=(BendAt(2),),
            facts={"metal": Name(f"Remark {number}: " + "many words to fill a line " * 12)},
        )
        for number in range(12)
    )
    pdf = setup_sheet(evolve(make_plan(), findings=many))
    block = page_of(pdf, 2)
    assert "2 Turn it over" in block
    assert "Write down" in block
    assert "jams at" in block
    whole = " ".join(pages(pdf))
    assert [n for n in range(12) if f"Remark {n}:" not in whole] == []


def test_a_head_is_never_left_behind_at_the_foot_of_a_page() -> None:
    long = Finding(
        code="brittle-bar",
        severity=Severity.NOTE,
        about=(KeyAt("part.material"),),
        facts={"metal": Name("Bar of which " + "much has to be told " * 120)},
    )
    printed = pages(setup_sheet(evolve(make_plan(), findings=(long,))))
    (head,) = [at for at, page in enumerate(printed) if "Notes and warnings for the" in page]
    (said,) = [at for at, page in enumerate(printed) if "Bar of which" in page]
    assert said > 0  # it does not fit beneath the part
    assert head == said


def test_nothing_leaves_the_margins() -> None:
    # Margins of the sheet: 15 mm at the sides, 12 mm at the top, the footer within 15 mm.
    with pdfplumber.open(io.BytesIO(hanger())) as document:
        for page in document.pages:
            for char in page.chars:
                assert char["x0"] >= 42.0
                assert char["x1"] <= page.width - 42.0
                assert char["top"] >= 33.0
                assert char["bottom"] <= page.height - 10.0


def test_the_code_names_the_job_and_changes_with_it() -> None:
    plan = make_plan()
    other = evolve(plan.job, part=evolve(plan.job.part, quantity=13))
    assert job_digest(plan.job) != job_digest(other)
    assert job_digest(plan.job) == job_digest(make_plan().job)
    assert code_text(plan.job) == f"strapwright {job_digest(plan.job)} fender hanger"
    first = pages(hanger())[0].replace(" ", "")  # set with wide spaces
    assert f"JOB{job_digest(plan.job)}" in first


def test_limits_are_rounded_to_the_safe_side() -> None:
    inch, metric = (Figures(job=make_plan(units).job) for units in ("inch", "metric"))
    psi = 0.006894757  # MPa
    assert inch.plain.pressure_down(999.9 * psi) == "990 psi"
    assert inch.plain.pressure_up(991.0 * psi) == "1000 psi"
    assert metric.plain.pressure_down(9.69) == "96 bar"


@pytest.mark.parametrize(
    ("number", "text"), [(1, "1st"), (2, "2nd"), (3, "3rd"), (11, "11th"), (22, "22nd")]
)
def test_ordinals(number: int, text: str) -> None:
    assert ordinal(number) == text


@pytest.mark.poppler
def test_pictures_and_code_reach_the_paper(tmp_path: Path) -> None:
    pdf = tmp_path / "sheet.pdf"
    pdf.write_bytes(hanger())
    command = ["pdftoppm", "-r", "36", "-gray", str(pdf), str(tmp_path / "page")]
    subprocess.run(command, check=True)
    first = next(iter(sorted(tmp_path.glob("page-*.pgm")))).read_bytes()
    head, size, _, pixels = first.split(b"\n", 3)
    assert head == b"P5"
    wide, high = map(int, size.split())
    assert (wide, high) == (round(8.5 * 36), 11 * 36)
    # The square code: the upper right 25 mm are near half ink; ISO/IEC 18004 masks for balance.
    side, edge = math.floor(25 / 25.4 * 36), math.floor(15 / 25.4 * 36)
    rows = range(edge, edge + side - 8)
    dark = sum(
        255 - pixels[y * wide + x]
        for y in rows
        for x in range(wide - edge - side + 4, wide - edge - 4)
    )
    assert 0.25 < dark / (255 * len(rows) * (side - 8)) < 0.65


def test_the_part_of_the_fixture_is_the_one_printed() -> None:
    part: Part = fender_hanger()
    first = pages(hanger())[0]
    assert part.name in first
    assert part.material in first
    assert f"Quantity {part.quantity}" in first


def test_a_long_blank_is_cut_between_its_lines_and_keeps_all_its_words() -> None:
    scene = blank_scene(long_plan(9), Frame(width=680.0, height=330.0, body=15.0))
    pieces = in_pieces(scene, 400.0)
    assert len(pieces) > 1
    said = [shape for piece in pieces for shape in piece.shapes]
    assert len(said) == len(scene.shapes)
    assert set(said) == set(scene.shapes)
    for piece, after in itertools.pairwise(pieces):
        assert piece.bounds[1] == after.bounds[3]
    for piece in pieces:
        words = [shape.text for shape in piece.shapes if isinstance(shape, Text)]
        # Each place has its figure and its word: none of them is torn apart.
        named = [word for word in words if re.match("nose|sight|tangent|hole", word)]
        figures = [word for word in words if re.fullmatch("[\\d\u2009\u2044]+", word)]
        assert len(figures) == len(named)
    for piece in pieces:
        high = (piece.bounds[3] - piece.bounds[1]) * piece.scale
        rows = sum(isinstance(s, Outline) and s.role == "bar" for s in piece.shapes)
        assert high <= 400.0 or rows == 1


def test_a_row_of_hits_and_a_roll_are_told_where_the_bar_is_laid() -> None:
    plan = make_plan()
    assert plan.blank is not None
    first, *others = plan.blank.marks
    hits = tuple(evolve(first, hit=n, nose=first.nose + 6.35 * n) for n in (1, 2, 3))
    steps = (
        evolve(plan.steps[0], hits=3, wanted=math.radians(30), total=math.radians(90)),
        evolve(plan.steps[1], hold=evolve(plan.steps[1].hold, roll=math.radians(-90))),
        plan.steps[2],
    )
    blank = evolve(plan.blank, marks=(*hits, *others))
    pdf = setup_sheet(evolve(plan, blank=blank, steps=steps))
    row, rolled, after = (page_of(pdf, order) for order in (1, 2, 3))
    assert "Bend 1 up 90°" in row
    assert "in 3 hits of 30°" in row
    assert "Put marks 1.1 to 1.3 under the centre of the nose, one hit at each" in row
    assert f"{as_read(hits[0].nose, plan)} to {as_read(hits[2].nose, plan)}" in row
    assert "top away from you: 90°" in rolled
    assert (
        "Take it out and place it again: bottom face towards the nose, end 2 on the left" in rolled
    )
    assert "Take it out and place it again" in after
    assert "First roll the bar" not in after


def test_bends_that_are_set_alike_are_told_in_full_once() -> None:
    text = (Path(__file__).parents[2] / "docs/examples/shelf-bracket.toml").read_text("utf-8")
    shape = '["4", "up 90", "9", "up 60", "9", "up 90", "5"]'
    job = read_job(text.replace('["5", "up 90", "6"]', shape))
    made = plan(job, search=False)
    order = {step.bend: step.order for step in made.steps}
    first, second = sorted((1, 3), key=order.__getitem__)
    pdf = setup_sheet(made)
    whole, short = (page_of_bend(pdf, bend, order) for bend in (first, second))
    step = made.steps[order[first] - 1]
    travel = travel_figure(step, on_paper(job)).value
    assert step.gauge is not None
    stop = ease_off_figure(step.gauge, on_paper(job)).value
    assert "Look up the angle you measured" in whole
    assert f"as for bend {first}: {travel} of travel in all, in the same stages" in short
    # Told again, for a bend between may have changed the valve.
    relief = relief_words(step.relief, figures_for(job))
    assert relief is not None
    for said in (f"Stop and check above {stop}", HANDS, f"{relief.head} {relief.pressure}"):
        assert plain(said) in short
    assert "Look up the angle you measured" not in short
    for said in ("Under load it should measure", "After release it should measure", "Write down"):
        assert said in whole
        assert said in short
    # A bend of another angle has all of its own.
    assert "Look up the angle you measured" in page_of_bend(pdf, 2, order)


def page_of_bend(pdf: bytes, bend: int, order: dict[int, int]) -> str:
    """Return what stands from the heading of a bend to that of the next."""
    text = " ".join(pages(pdf))
    _, _, rest = text.partition(f"{ordinal(order[bend])} Bend {bend} ")
    return rest.partition(f"{ordinal(order[bend] + 1)} Bend ")[0]
