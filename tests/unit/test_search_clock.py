"""A search that runs out of time says so, ends at once, and never passes for a proof."""

from __future__ import annotations

from pathlib import Path

import pytest
import shapely
from telling import told

from strapwright.ordering.kernel_subsets import NEVER
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, ToolSection
from strapwright.ordering.possible_bends import Steps, TabledSteps
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.service import compiler_cache, search_clock
from strapwright.service.load_job import load_job
from strapwright.service.plan_files import falls_short
from strapwright.service.search_clock import within
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.steps.way_off_words import way_off_words

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
# A ring that slides off through guide rods: many slices are cut before that is known.
RING = """format = 1
units = "inch"
[part]
name = "ring"
bar = "flat 1/4 x 1-1/2"
material = "A36 hot rolled"
measured = "outside"
shape = ["2-3/4","up 90","5","up 90","5","up 90","5","up 90","1-3/4"]
order = [1, 2, 4, 3]
[press]
bore = "3-3/4"
[tooling]
plate = { width = "3", thick = "3/4" }
[[tooling.rod]]
out = "4-1/4"
along = "-2"
diameter = "1"
[[tooling.rod]]
out = "4-1/4"
along = "2"
diameter = "1"
[tooling.nose]
shaft = "3/4"
reach = "9"
held = "one end"
span = "2"
[tooling.shoulders]
radius = "3/8"
opening = "2-1/2"
height = "6"
"""


class Count:
    """A clock that says no from the so-many-th question on."""

    def __init__(self, looks: int) -> None:
        self.looks = looks
        self.asked = 0

    def __call__(self) -> bool:
        self.asked += 1
        return self.asked <= self.looks


def test_the_question_says_no_once_the_time_is_up() -> None:
    assert within(3600.0)()
    assert not within(-1.0)()


def test_the_compiler_is_done_before_the_clock_starts(monkeypatch: pytest.MonkeyPatch) -> None:
    """A minute of compiling leaves a search of a second its second."""
    now = [0.0]
    monkeypatch.setattr(search_clock.time, "monotonic", lambda: now[0])

    def compiling() -> None:
        now[0] += 60.0

    monkeypatch.setattr(search_clock, "load_loops", compiling)
    question = within(1.0)
    assert now[0] == 60.0
    assert question()
    now[0] += 1.1
    assert not question()


def test_all_loops_are_loaded_ahead_once_a_process() -> None:
    compiler_cache.load_loops()
    before = compiler_cache.load_loops.cache_info().hits
    within(1.0)
    assert compiler_cache.load_loops.cache_info().hits == before + 1


def test_a_plan_out_of_time_says_nothing_false() -> None:
    """The box is locked on once its end legs are longer: out of time that is not decided."""
    job = load_job(EXAMPLES / "winch-drum-ring.toml")
    decided = plan(job)
    hurried = plan(job, keep_going=within(-1.0))
    assert decided.steps[-1].coming_off is not None
    assert decided.steps[-1].coming_off.verdict == "locked on"
    assert set(verdicts(hurried)) == {"not decided"}


def test_what_was_not_decided_in_time_is_said_so_and_is_no_plan_to_go_by() -> None:
    """Neither 'too close to call' nor accepted: the exit code is that of a refusal."""
    hurried = plan(read_job(RING), keep_going=Count(40))
    assert "not decided" in verdicts(hurried)
    said = {one.code: one.text for one in told(hurried)}
    assert "not checked: the time ran out" in said["coming-off-no-time"]
    assert "may or may not go in" in said["laying-in-not-proven"]
    assert "coming-off-too-close" not in said
    assert "not checked: the time ran out" in way_off_words(hurried.steps[-1])
    assert falls_short(hurried)


def verdicts(made: Plan) -> list[str]:
    return [one.coming_off.verdict for one in made.steps if one.coming_off is not None]


@pytest.mark.parametrize("looks", [30, 300, 600])
def test_once_the_time_is_up_hardly_anything_is_cut_any_more(
    looks: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between two questions one union of shapes, after the last but the words."""
    clock = Count(looks)
    late, between, longest = 0, 0, 0
    union = shapely.union_all

    def counted(*args: object, **named: object) -> object:
        nonlocal late, between, longest
        late += clock.asked > looks
        between = between + 1 if clock.asked == counted_at[0] else 1
        counted_at[0] = clock.asked
        longest = max(longest, between)
        return union(*args, **named)

    counted_at = [-1]
    monkeypatch.setattr(shapely, "union_all", counted)
    plan(read_job(RING), keep_going=clock)
    assert clock.asked > looks
    assert late == 0
    # The outline of the part and its legs, before the first slice of a step is cut.
    assert longest <= 40


def box(name: str, x0: float, y0: float, x1: float, y1: float) -> Piece:
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return Piece(name=name, side="nose", polygon=corners)


def test_tables_are_filled_a_little_at_a_time_and_are_the_same() -> None:
    """Twelve bends: up to 2,048 sets a wing, which need three questions, and the same answers."""
    part = PartGeometry(
        straights=(70.0,) * 13, angles=(0.7, -0.7, -0.7, 0.7) * 3, radii=(9.5,) * 12, thickness=5.0
    )
    section = ToolSection(
        opening=63.0,
        shoulder_radius=6.0,
        nose_radius=9.5,
        pieces=(box("web", -6.0, 0.0, 6.0, 170.0), box("plate", -38.0, 170.0, 38.0, 195.0)),
    )
    settings = SearchSettings()
    clock = Count(10**9)
    tabled = TabledSteps(section, part, settings, clock)
    # One a wing and one for the costs, and one more at least for each of the two largest wings.
    assert clock.asked >= 2 * 12 + 1 + 2
    plain = Steps(section, part, settings)
    for made in range(0, 1 << 12, 37):
        for bend in range(12):
            if not made >> bend & 1:
                for wing in (0, 1):
                    one = plain.answer(made, bend, 0, wing)
                    assert tabled.answer(made, bend, 0, wing) == pytest.approx(one)
    assert tabled.into((1 << 12) - 2, 0, 0) < NEVER
    late = find_order(section, part, settings, keep_going=Count(3))
    assert not late.proven


@pytest.mark.parametrize(
    ("question", "clock"), [("working", "process_time"), ("first_look", "thread_time")]
)
def test_the_processors_clock_is_looked_at_seldom_and_still_heeded(
    monkeypatch: pytest.MonkeyPatch, question: str, clock: str
) -> None:
    now, looks = [0.0], [0]

    def worked() -> float:
        looks[0] += 1
        return now[0]

    monkeypatch.setattr(search_clock.time, "monotonic", lambda: now[0])
    monkeypatch.setattr(search_clock.time, clock, worked)
    going = getattr(search_clock, question)(1.0)
    steps = 0
    while going():
        steps += 1
        now[0] += 1e-4
    assert 1.0 <= now[0] < 1.006
    assert looks[0] < steps / 40
