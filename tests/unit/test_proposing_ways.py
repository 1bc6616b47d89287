"""Other ways of holding nose and shoulders, where geometry or strength asks for them."""

from __future__ import annotations

from pathlib import Path

import pytest
from attrs import evolve
from test_plan_order import BOX, job_text

from strapwright.catalog.thread_sizes import find_thread
from strapwright.findings import Severity
from strapwright.making.crib_cutters import cutters_of, usual_cutters
from strapwright.making.making_hours import MINUTES_A_BORE, MINUTES_ROUND
from strapwright.making.plate_making import CHANGING, HoleGroup
from strapwright.making.tooling_making import make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.planning.member_loads import assess, bench_of
from strapwright.planning.plan import plan
from strapwright.proposing import candidate_sizes, search_rack
from strapwright.proposing.candidate_sizes import CARRIER_LEAST, SIDE_CLEAR
from strapwright.proposing.miss_values import MemberTooWeak, NotPlanned, PlanForbids
from strapwright.proposing.part_plans import STOPPING
from strapwright.proposing.proposal_values import BoltsReady, Proposed
from strapwright.proposing.search_rack import propose
from strapwright.service.propose_tooling import proposals_to_data, proposals_to_text
from strapwright.shop.crib import BoringBar, Crib, DrillSet
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack, Stock, StockKind
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.reading_rack import read_rack
from strapwright.wording.proposal_words import (
    lack_clause,
    lower_relief_words,
    not_in_crib,
    reason_clause,
)

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
RACK = read_rack((EXAMPLES / "dock-rack.toml").read_text(encoding="utf-8"))
BY_NAME = {one.name: one for one in RACK.stock}
DIE = read_job((EXAMPLES / "mooring-hook-die.toml").read_text(encoding="utf-8"))
PSI = 6.894757293168361e-3


@pytest.fixture(autouse=True)
def few_openings(monkeypatch: pytest.MonkeyPatch) -> None:
    """Enough for every way of holding, and quick."""
    monkeypatch.setattr(candidate_sizes, "MOST_OPENINGS", 4)


def hook(psi: float) -> Job:
    press = DIE.press
    assert press is not None
    return evolve(DIE, press=evolve(press, relief=psi * PSI))


def stopped(psi: float) -> Job:
    """The same with the bar laid against a stop: 1 mm off the ram's axis at most."""
    job = hook(psi)
    assert job.tooling is not None
    assert job.tooling.members is not None
    members = evolve(job.tooling.members, off_centre=1.0)
    return evolve(job, tooling=evolve(job.tooling, members=members))


def rack_of(*names: str) -> Rack:
    return Rack(stock=tuple(BY_NAME[name] for name in names))


def stock(
    name: str, kind: StockKind, thickness: float, width: float, material: str = "A36"
) -> Stock:
    return Stock(
        name=name, kind=kind, thickness=thickness, width=width, length=1000.0, count=4,
        material=material, price=0.0, origin="rack",
    )  # fmt: skip


# Plenty of one shaft and two plates.
FEW = Rack(
    stock=(
        stock("round 25", "shaft", 25.4, 25.4, "1045 ground shaft"),
        stock("plate 19", "plate", 19.05, 300.0),
        stock("plate 38", "plate", 38.1, 300.0),
    )
)


def stands(job: Job, one: Proposed) -> None:
    """Plan and check once more from the tooling alone."""
    made = plan(evolve(job, tooling=one.tooling))
    assert not [f for f in made.findings if f.severity == Severity.REFUSAL]
    again = assess(bench_of([made], one.tooling, job.press), "inch")
    assert again.holds
    made_here = {"nose", "carriers", "push plate", "shoulders", "die body", "weld of the web"}
    assert not made_here & {missing.member for missing in again.unchecked}


# A closed box that two carriers lock on, of a light bar, and stock for the other ways of holding.
BOXED = job_text("95", *BOX, "95", reach=260, web=3)
LOCKED = read_job(
    BOXED.replace("flat 6 x 40", "flat 4 x 15")
    .replace("140 bar", "25 bar")
    .replace('bore = "63"', 'bore = "63"\nrod = "30"')
)
LIGHT = Rack(
    stock=(
        stock("round 18", "shaft", 18.0, 18.0, "4140 annealed"),
        # Too thick for a web under a nose of 18 mm.
        stock("plate 25", "plate", 25.0, 300.0),
        stock("plate 40", "plate", 40.0, 300.0),
    )
)


@pytest.mark.long
def test_a_closed_box_that_two_carriers_lock_on_gets_a_nose_it_slides_off(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Its web passes the gap and its nose does not: it must slide off endways."""
    for held, refused in (("both ends", True), ("one end", False), ("web", False)):
        made = plan(read_job(BOXED.replace("[tooling.nose]", f'[tooling.nose]\nheld = "{held}"')))
        assert any(f.code == "no-order" for f in made.findings) == refused
        if not refused:
            off = made.steps[-1].coming_off
            assert off is not None
            assert (off.verdict, off.how) == ("free", "slides")
    # That two carriers lock it on is shown above, and would be searched for at every opening.
    monkeypatch.setattr(search_rack, "_SHARES", search_rack._SHARES[1:])
    found = propose([LOCKED], LIGHT)
    assert [one.choice.held for one in found.best] == ["one end"]
    (one,) = found.best
    stands(LOCKED, one)
    assert [cut.use for cut in one.cuts].count("carrier") == 1
    # The box stands 110 mm and more above the tip of the nose, all of it below the plate.
    assert (one.tooling.nose.reach or 0.0) > 110.0
    members = one.tooling.members
    assert members is not None
    assert members.weld[0].holds == "carriers"
    assert members.carriers is not None
    assert members.weld[0].spacing == members.carriers.thickness


def test_time_that_goes_during_a_plan_leaves_its_candidate_untried() -> None:
    """The part locks on two carriers, and to see that takes an order far longer than there is."""
    asked = 0

    def spent() -> float:
        nonlocal asked
        asked += 1
        return asked / 300

    found = propose([LOCKED], LIGHT, spent=spent)
    assert found.untried is not None
    assert found.untried.count > 0
    assert not [one for one in found.fell_out if isinstance(one.example, PlanForbids | NotPlanned)]
    assert asked < 400


def test_cheeks_too_weak_on_a_floor_are_tied_by_side_plates() -> None:
    rack = rack_of("shaft 1", "shaft 3/4 off-cut", "plate 3/4", "plate 1 bought")
    job = hook(700)
    found = propose([job], rack)
    assert any("floor" in reason_clause(one.example) for one in found.fell_out)
    (one, *_) = found.best
    assert one.choice.tied
    stands(job, one)
    members = one.tooling.members
    assert members is not None
    (bolt,) = (bolt for bolt in members.bolt if bolt.holds == "side plates")
    assert one.bolts == (BoltsReady(count=8, size=bolt.size, grade=bolt.grade),)
    # It reaches: what it passes, and one diameter of thread at least.
    assert bolt.length is not None
    assert bolt.grip == one.choice.body.thickness
    assert bolt.length - bolt.grip >= find_thread(bolt.size, "w").major
    assert [cut.use for cut in one.cuts if "side plate" in cut.use] == [
        "first side plate",
        "second side plate",
    ]
    assert not [cut for cut in one.cuts if cut.use == "floor"]


@pytest.mark.parametrize(
    ("job", "way"),
    [
        pytest.param(stopped(650), ("both ends", False), marks=pytest.mark.long),
        pytest.param(stopped(700), ("web", False), marks=pytest.mark.long),
        pytest.param(hook(700), ("web", False), marks=pytest.mark.long),
        pytest.param(hook(500), ("web", True), marks=pytest.mark.long),
    ],
)
def test_pruning_gives_the_same_as_trying_everything_and_the_usual_way_is_kept(
    job: Job, way: tuple[str, bool]
) -> None:
    """The more the ram gives, and the farther off the middle, the more is asked of what holds.

    The usual way is kept where it does, though another would cost less.  At 500 psi the opening is
    so wide that the cheeks need side plates.
    """
    quick, whole = propose([job], FEW), propose([job], FEW, prune=False)
    assert [one.choice for one in quick.best] == [one.choice for one in whole.best]
    assert [one.cost for one in quick.best] == [one.cost for one in whole.best]
    (one,) = quick.best
    assert (one.choice.held, one.choice.tied) == way
    assert quick.planned < whole.planned
    stands(job, one)


def test_what_costs_less_at_a_higher_relief_cannot_be_pushed_at_the_lower() -> None:
    """More push may allow a narrower opening; what it costs in strength it never gives back."""
    lower, higher = hook(500), hook(550)
    (wide,), (narrow,) = (propose([job], FEW).best for job in (lower, higher))
    assert narrow.cost < wide.cost
    assert narrow.choice.opening < wide.choice.opening
    made = plan(evolve(lower, tooling=narrow.tooling))
    # The relief opens before a hard bar is bent, and nothing else is wrong.
    assert {one.code for one in made.findings} & STOPPING == {"ease-off-below-band"}
    assert not [one for one in made.findings if one.severity == Severity.REFUSAL]
    assert assess(bench_of([made], narrow.tooling, lower.press), "inch").holds


def test_carriers_come_down_beside_the_shoulders_or_between_them() -> None:
    rack = rack_of("shaft 1", "shaft 3/4 off-cut", "plate 3/4", "plate 1 bought")
    seen = 0
    for job, stocks in ((stopped(650), FEW), (hook(700), rack)):
        for one in propose([job], stocks).best:
            members, shoulders = one.tooling.members, one.tooling.shoulders
            assert members is not None
            if members.carriers is None:
                continue
            seen += 1
            assert members.body is not None
            gap = shoulders.opening - 2 * shoulders.radius
            between = (members.carriers.width or 0.0) + 2 * SIDE_CLEAR <= gap + 1e-9
            beside = (members.body.length or 0.0) + 2 * SIDE_CLEAR <= (one.tooling.nose.span or 0)
            assert between or beside
            assert (members.carriers.width or 0.0) >= CARRIER_LEAST * 2 * one.tooling.nose.radius
    assert seen > 0


def cutting_minutes(group: HoleGroup) -> float:
    """Of holes alike, beside placing them: each cutter put in once, a boring bar set each time."""
    bored = any(one.cut.role == "bore" for one in group.cuts)
    return (
        sum(CHANGING + one.setting.minutes * len(group.rows) for one in group.cuts)
        + MINUTES_A_BORE * len(group.rows) * bored
    )


def test_the_crib_sets_the_hours_and_what_is_missing_is_told() -> None:
    job = stopped(650)
    bare = cutters_of(Crib(drills=(DrillSet(series="single", first="", last="", sizes=(6.0,)),)))
    full = cutters_of(
        Crib(
            drills=(
                DrillSet(
                    series="metric", first="", last="", sizes=tuple(n / 2 for n in range(2, 53))
                ),
                # For the screws that keep nose and rounds in their seats.
                DrillSet(series="single", first="", last="", sizes=(9 / 32 * 25.4,)),
            ),
            boring_bar=BoringBar(smallest_bore=12.0),
            taps=("1/4-20",),
        )
    )
    rich, poor = (propose([job], FEW, cutters=one).best[0] for one in (full, bare))
    assert rich.ways == ()
    assert [one.use for one in poor.ways] == [
        "guide rod", "nose", "thread", "clearance", "shoulder seats",
    ]  # fmt: skip
    said = [not_in_crib(one, "metric") for one in poor.ways]
    assert said[1].startswith("hole of the nose of ")
    assert said[4].startswith("seats of the shoulders of ")
    assert rich.choice == poor.choice
    # By the way round: the guide rods' holes, a bore and a thread in each of two carriers, a hole
    # in each of two keepers and of two cheeks, and the seats.
    ways = 1 + 2 * 2 + 2 + 2 + 1
    pieces = pieces_of(evolve(job, tooling=rich.tooling))
    cutting = sum(
        made.plate.quantity * cutting_minutes(group)
        for made in make_tooling(pieces, full, name="hook", units="inch").plates
        for group in made.groups
    )
    assert 60 * (poor.hours - rich.hours) == pytest.approx(ways * MINUTES_ROUND - cutting)
    assert poor.cost - poor.material == pytest.approx(poor.hours * FEW.hour_rate)


def test_hours_of_a_proposal_are_those_of_its_making() -> None:
    job = stopped(650)
    one = propose([job], FEW).best[0]
    pieces = pieces_of(evolve(job, tooling=one.tooling))
    made = make_tooling(pieces, usual_cutters(), name="hook", units="inch")
    assert not made.lacking
    assert made.minutes / 60 == pytest.approx(one.hours)
    # By hand, but for the holes: six plates of 25 min and three shafts of 15, 5 min a cut of each.
    assert one.hours > (6 * 25 + 3 * 15 + 9 * 5) / 60


def test_where_all_are_too_weak_at_relief_the_highest_relief_that_does_is_named() -> None:
    found = propose([hook(2000)], FEW)
    assert found.best == ()
    lower = found.lower
    assert lower is not None
    # A setting that the gauge shows, below the one that is set.
    step = lower.relief / (50 * PSI)
    assert step == pytest.approx(round(step))
    assert lower.relief < lower.was == pytest.approx(2000 * PSI)
    psi = round(lower.relief / PSI)
    stands(hook(psi), lower.proposed)
    # It is offered there, and nothing is one setting higher.
    assert propose([hook(psi)], FEW).best[0].choice == lower.proposed.choice
    assert propose([hook(psi + 50)], FEW).best == ()
    said = lower_relief_words(lower, "inch")
    assert said.startswith(f"Relief at {psi} psi and a nose 1 in across would do: nose round 25")
    assert "Relief is 2000 psi now" in said
    assert "a smaller nose, 1 in across," in lower_relief_words(evolve(lower, smaller=True), "inch")
    assert said in " ".join(proposals_to_text(found, "inch").split())
    assert proposals_to_data(found, "inch")["lower_relief"]["text"] == said
    # The nearest miss names its member, and what that is cut from.
    assert found.nearest is not None
    assert isinstance(found.nearest.lack, MemberTooWeak)
    near = lack_clause(found.nearest.lack, "inch")
    assert "weld of the nose on plate 19 (3/4 in), strength, relief off centre at " in near
    floor = evolve(found.nearest.lack, check=evolve(found.nearest.lack.check, member="die body"))
    assert ": die body from plate" in lack_clause(floor, "inch")
    assert propose([hook(700)], FEW).lower is None


def test_where_the_time_runs_out_over_lower_settings_it_says_from_where_on() -> None:
    over: list[str] = []
    found = propose(
        [hook(2000)], FEW, lambda word, *_: over.append(word) if word == "lower relief" else None,
        spent=lambda: 1.0 if over else 0.0,
    )  # fmt: skip
    assert (found.best, found.lower, found.untried) == ((), None, None)
    assert found.stopped is not None
    assert found.stopped < 2000 * PSI
    assert found.nearest is not None
    text = " ".join(proposals_to_text(found, "inch").split())
    psi = round(found.stopped / PSI)
    assert f"The time ran out at {psi} psi: from there down nothing is known." in text
    assert text.index("The time ran out") < text.index("earest")
