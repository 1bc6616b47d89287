"""A plan takes what its tooling stands from the members stated, says so, and holds to it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from telling import told

from strapwright.bending.hydraulics import piston_area
from strapwright.findings import Severity
from strapwright.planning.member_loads import assess, bench_of, bench_under
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.shop.job import Job
from strapwright.shop.members import DieBody, Members
from strapwright.shop_files.reading_job import read_job
from strapwright.strength.member_checks import check_members
from strapwright.wording.telling import Told

DATA = Path(__file__).parent / "data"
DIE = read_job((DATA / "thin-cheek-die.toml").read_text(encoding="utf-8"))


EXAMPLE = Path(__file__).parents[2] / "docs" / "examples" / "mooring-hook-die.toml"


def at_relief(path: Path) -> dict[str, float]:
    """Member and check -> share of what it stands at relief."""
    job = read_job(path.read_text(encoding="utf-8"))
    assert job.tooling is not None
    checks, _ = check_members(bench_of([plan(job, search=False)], job.tooling, job.press))
    return {f"{one.member}, {one.what}": one.ratio for one in checks if one.case == "relief"}


def with_body(**sizes: Any) -> Job:
    assert DIE.tooling is not None
    members = DIE.tooling.members
    assert members is not None
    assert members.body is not None
    body = evolve(members.body, **sizes)
    return evolve(DIE, tooling=evolve(DIE.tooling, members=evolve(members, body=body)))


def without_members() -> Job:
    assert DIE.tooling is not None
    return evolve(DIE, tooling=evolve(DIE.tooling, members=None))


def said(made: Plan, code: str) -> list[Told]:
    return [one for one in told(made) if one.code == code]


def test_the_rating_is_what_the_checks_of_the_plan_itself_give() -> None:
    made = plan(DIE)
    assert DIE.tooling is not None
    bench = bench_of([made], DIE.tooling, DIE.press)
    found = assess(bench, "inch")
    # The die holds the plan and not relief; its rating is then what every member stands.
    (note,) = said(made, "die-rating")
    assert note.severity is Severity.NOTE
    assert found.rating is not None
    assert (
        f"entered: {found.rating / 4.4482216152605:.0f} lbf, limited by the die body" in note.text
    )
    (warned,) = said(made, "die-below-relief")
    assert warned.severity is Severity.WARNING
    assert "relief" in warned.remedy
    assert said(made, "die-below-plan") == []


def test_the_gauge_is_held_below_a_weak_member() -> None:
    weak, free = plan(with_body(cheek=12.0)), plan(without_members())
    (note,) = said(weak, "die-rating")
    force = float(note.text.partition("entered: ")[2].split()[0]) * 4.4482216152605
    press = DIE.press
    assert press is not None
    assert press.bore is not None
    for held, loose in zip(weak.steps, free.steps, strict=True):
        assert held.gauge is not None
        assert loose.gauge is not None
        assert held.gauge.ease_off <= force / piston_area(press.bore) * 1.001
        assert held.gauge.ease_off <= loose.gauge.ease_off
    assert weak.steps[0].gauge != free.steps[0].gauge


def test_a_die_that_the_part_itself_overloads_is_refused() -> None:
    made = plan(with_body(cheek=6.0))
    (refused,) = said(made, "die-below-plan")
    assert refused.severity is Severity.REFUSAL
    assert "This part needs up to" in refused.text
    assert said(made, "die-below-relief")


@pytest.mark.parametrize(
    ("cheek", "severity"), [(11.0, Severity.REFUSAL), (11.5, Severity.WARNING)]
)
def test_what_only_the_band_overloads_is_warned_of(cheek: float, severity: Severity) -> None:
    # (F/2)/A + H h/W with H = 0.528 F, h 38.1 mm, 101.6 mm along the nose and 250/1.67 MPa: cheeks
    # of 11 mm carry 149.7/(1/2235 + 0.00982) = 14.6 kN, of 11.5 mm 15.9 kN; 3 mm off the middle one
    # end takes 1 + 6 x 3/101.6 = 1.177, so that they carry 12.4 and 13.5 kN.  The bend is expected
    # to need 13.2 kN, and 16.8 kN at the upper end of its band.
    made = plan(with_body(cheek=cheek), search=False)
    expected = max(step.peak_force for step in made.steps)
    upper = max(float(step.curve_high.max()) for step in made.steps)
    assert 12.4e3 < expected < 13.5e3 < upper
    (one,) = said(made, "die-below-plan")
    assert one.severity is severity


def test_a_die_that_a_rubbing_stack_overloads_is_refused() -> None:
    # Two bars that slide ask 30.1 kN and two that rub 38.3 kN; the plan's own checks carry more
    # than the first and less than the second.
    job = with_body(cheek=25.0)
    made = plan(evolve(job, part=evolve(job.part, stacked=2)), search=False)
    assert max(step.peak_force for step in made.steps) == pytest.approx(30.1e3, rel=0.01)
    (refused,) = said(made, "die-below-plan")
    assert refused.severity is Severity.REFUSAL


def test_the_die_of_the_example_holds_at_relief() -> None:
    asked = at_relief(EXAMPLE)
    assert max(asked.values()) <= 1.0
    # 6080 lbf outwards 1-5/8 in up, 9880 lbf in, on two rows of three 1 in apart: 3293 lbf each,
    # and 0.5 x 1/2 in x pi/2 x 3/8 in x 58 ksi/2 = 4271 lbf strip the thread.
    assert asked["bolts of the cheeks, stripping"] == pytest.approx(3_293 / 4_271, abs=2e-3)


def test_the_same_die_on_smaller_bolts_does_not_hold_at_relief() -> None:
    # 6080 lbf 1-1/2 in up on two rows of two 1 in apart: 4560 lbf each, of 0.75 x 85 ksi x 0.0524
    # in2 = 3341 lbf; 1520 lbf of 0.45 x 120 ksi x 0.0767 in2/2 = 2071 lbf: 1.365 and 0.734.
    asked = at_relief(DATA / "weak-bolts-die.toml")
    assert asked["bolts of the cheeks, tension and shear"] == pytest.approx(1.55, abs=3e-3)


def test_nothing_is_taken_from_members_that_are_not_stated() -> None:
    made = plan(without_members())
    assert not [one for one in told(made) if one.code.startswith("die-")]
    assert DIE.tooling is not None
    alone = evolve(DIE, tooling=evolve(DIE.tooling, members=Members()))
    (warned,) = said(plan(alone), "die-rating")
    assert warned.severity is Severity.WARNING
    assert "none could be checked" in warned.text
    assert [step.gauge for step in plan(alone).steps] == [step.gauge for step in made.steps]


def test_what_was_not_checked_is_named_beside_the_rating() -> None:
    assert DIE.tooling is not None
    body = DieBody(material="A36", cheek=40.0, floor=40.0, length=100.0, height=38.0)
    some = evolve(DIE, tooling=evolve(DIE.tooling, members=Members(body=body)))
    (warned,) = said(plan(some), "die-rating")
    assert warned.severity is Severity.WARNING
    assert "Not checked: nose, carriers" in warned.text


@pytest.mark.parametrize("stated", [5e3, 1e6])
def test_the_lower_of_what_is_stated_and_what_is_checked_holds(stated: float) -> None:
    assert DIE.tooling is not None
    rated = plan(evolve(DIE, tooling=evolve(DIE.tooling, rating=stated)))
    (note,) = said(rated, "die-rating")
    assert "You entered" in note.text
    own = plan(DIE)
    for one, other in zip(rated.steps, own.steps, strict=True):
        assert one.gauge is not None
        assert other.gauge is not None
        if stated > 1e5:
            assert one.gauge == other.gauge
        else:
            assert one.gauge.ease_off < other.gauge.ease_off


def test_of_bars_side_by_side_one_can_be_missing() -> None:
    assert DIE.tooling is not None
    # Two bars 1-1/2 in wide: one alone lies 3/4 in off, and both may lie 3 mm off as well.
    for at_once, offset in ((1, 3.0), (2, 19.05 + 3.0)):
        bars = [evolve(DIE.part, at_once=at_once)]
        pushes = bench_under([], bars, DIE.tooling, DIE.press).pushes
        assert [load.offset for load in pushes] == pytest.approx([0.0, offset])
