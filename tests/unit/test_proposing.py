"""A tooling from a rack: the same as trying everything, and every proposal stands."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest
from attrs import evolve

from strapwright.catalog import smallest_radius
from strapwright.cutting.cut_list import Cut
from strapwright.cutting.saw_allowance import FACING, saw_allowance
from strapwright.cutting.stock_pieces import pieces_needed, price_of
from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.making.crib_cutters import cutters_of
from strapwright.making.tooling_plates import pieces_of
from strapwright.pages.shelves import currency_of, keep
from strapwright.pages.toolings_page import Found, found_by
from strapwright.pages.workshop import Workshop
from strapwright.planning.bend_setups import known_bar
from strapwright.planning.member_loads import assess, bench_of
from strapwright.planning.plan import plan
from strapwright.proposing import candidate_sizes, search_rack
from strapwright.proposing.candidate_line import Line
from strapwright.proposing.candidate_tooling import tooling_of
from strapwright.proposing.cheap_tests import Passed, nose_miss, opening_limits, solve_all
from strapwright.proposing.found_values import Proposals
from strapwright.proposing.judging_candidates import Candidate, Judge
from strapwright.proposing.miss_values import Miss, PressTooWeak
from strapwright.proposing.part_plans import STOPPING
from strapwright.proposing.proposal_values import Shoulder
from strapwright.proposing.search_rack import OTHERS, USUAL, propose
from strapwright.proposing.trade_offs import worst_ratio
from strapwright.report.json_text import to_text
from strapwright.service.propose_tooling import (
    proposals_to_data,
    proposals_to_text,
    warned_of,
)
from strapwright.shop.crib import Crib, DrillSet, Saw
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack, Stock
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.reading_rack import read_rack
from strapwright.store import Search, open_store
from strapwright.wording.proposal_words import given_up, lack_clause, ran_out, reason_clause
from strapwright.wording.search_progress import SearchProgress

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"


def job(name: str) -> Job:
    return read_job((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))


BRACKET, STAY = job("cleat-bracket"), job("rail-stay")
RACK = read_rack((EXAMPLES / "dock-rack.toml").read_text(encoding="utf-8"))
BY_NAME = {one.name: one for one in RACK.stock}


def rounds(shaft: Stock) -> Shoulder:
    return Shoulder(name=shaft.name, radius=shaft.thickness / 2)


def rack_of(*names: str) -> Rack:
    return Rack(stock=tuple(BY_NAME[name] for name in names))


@pytest.fixture(scope="module")
def found() -> Proposals:
    return propose([BRACKET, STAY], RACK)


def test_fifteen_pieces_and_two_parts_give_three_that_stand(found: Proposals) -> None:
    assert len(RACK.stock) == 15
    assert len(found.best) == 3
    assert [one.cost for one in found.best] == sorted(one.cost for one in found.best)
    sizes = {(p.choice.nose.thickness, p.choice.shoulders.thickness) for p in found.best}
    assert len(sizes) == 3
    for one in found.best:
        # Planned and checked once more from the tooling alone.
        plans = [plan(evolve(part, tooling=one.tooling)) for part in (BRACKET, STAY)]
        for made in plans:
            assert made.steps
            assert not [f for f in made.findings if f.severity == Severity.REFUSAL]
            assert not STOPPING & {f.code for f in made.findings}
        again = assess(bench_of(plans, one.tooling, BRACKET.press), "inch")
        assert again.holds
        assert worst_ratio(one) <= 1
        made_members = {"nose", "carriers", "push plate", "shoulders", "die body"}
        assert not made_members & {missing.member for missing in again.unchecked}
        assert one.cost == pytest.approx(one.material + one.hours * RACK.hour_rate)


def test_what_is_cut_is_large_enough_for_what_is_drawn(found: Proposals) -> None:
    """Names in the cut list and in the drawings differ: two carriers are one drawing."""
    drawn_as = {"first carrier": "nose carrier", "push plate": "push plate", "floor": "floor"}
    for one in found.best:
        plates = {p.name: p for p in pieces_of(evolve(BRACKET, tooling=one.tooling)).plates}
        for use, name in drawn_as.items():
            cut = next(c for c in one.cuts if c.use == use)
            drawing = plates[name]
            assert min(cut.length, cut.width) >= min(drawing.width, drawing.height) - 1e-6, use
            assert max(cut.length, cut.width) >= max(drawing.width, drawing.height) - 1e-6, use
            assert drawing.thickness == pytest.approx(cut.stock.thickness)


def test_a_cut_list_fits_what_lies_there_and_is_paid_once(found: Proposals) -> None:
    for one in found.best:
        needed = pieces_needed(one.cuts, saw_allowance())
        assert needed is not None
        assert one.material == pytest.approx(sum(s.price * n for s, n in needed.items()))
        assert all(count <= stock.count for stock, count in needed.items())
        for stock in needed:
            assert sum(c.length for c in one.cuts if c.stock == stock) <= stock.length * stock.count


def test_each_says_what_it_gives_up_and_why_others_fell_out(found: Proposals) -> None:
    cheapest, *dearer = found.best
    assert "new material" not in {one.measure for one in cheapest.gives_up}
    given = [less for one in dearer for less in one.gives_up]
    assert given
    assert all(less.here > less.best for less in given)
    assert any("another" in given_up(less, "inch") for less in given)
    assert sum(one.count for one in found.fell_out) > 100
    reasons = [reason_clause(one.example) for one in found.fell_out]
    assert len(set(reasons)) == len(reasons)
    assert all(lack_clause(one.example, "inch") for one in found.fell_out)
    assert any("too weak" in reason for reason in reasons)
    assert found.nearest is None


@pytest.mark.parametrize(
    "names",
    [
        pytest.param(
            ("shaft 1", "shaft 1-1/2 bought", "plate 3/4", "plate 1-1/4 bought"),
            marks=pytest.mark.long,
        ),
        ("shaft 3/4 off-cut", "shaft 1-1/4", "plate 1/2", "plate 1-1/2 bought"),
    ],
)
def test_pruning_gives_the_same_as_trying_everything(
    names: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(candidate_sizes, "MOST_OPENINGS", 3)
    rack = rack_of(*names)
    quick, whole = propose([BRACKET], rack), propose([BRACKET], rack, prune=False)
    assert whole.best
    assert [one.choice for one in quick.best] == [one.choice for one in whole.best]
    assert [one.cost for one in quick.best] == [one.cost for one in whole.best]
    assert quick.planned < whole.planned


def made_in_full(opening: float, relief: float) -> bool:
    """Whether the plan lets a nose and shoulders do, without any of the cheap tests."""
    press = BRACKET.press
    assert press is not None
    tooling = Tooling(
        nose=Nose(radius=12.7), shoulders=Shoulders(radius=12.7, opening=opening, height=200.0)
    )
    try:
        made = plan(evolve(BRACKET, press=evolve(press, relief=relief), tooling=tooling))
    except InputError:
        return False
    return not any(f.severity == Severity.REFUSAL or f.code in STOPPING for f in made.findings)


@pytest.mark.parametrize("opening", [52.0, 58.0, 66.0, 90.0, 230.0, 330.0])
@pytest.mark.parametrize("relief", [1.0, 5.5])
def test_cheap_tests_refuse_only_what_the_plan_refuses(opening: float, relief: float) -> None:
    shaft = BY_NAME["shaft 1"]
    press = BRACKET.press
    assert press is not None
    part = evolve(BRACKET, press=evolve(press, relief=relief))
    least, most = opening_limits(shaft, rounds(shaft), [part])
    force = 0.95 * relief * 3.141592653589793 / 4 * (press.bore or 0) ** 2
    said = solve_all(shaft, rounds(shaft), opening, [part], force)
    if isinstance(said, Miss) or not least <= opening <= most:
        assert not made_in_full(opening, relief)


def test_something_passes_the_cheap_tests_and_something_does_not() -> None:
    shaft = BY_NAME["shaft 1"]
    assert isinstance(solve_all(shaft, rounds(shaft), 90.0, [BRACKET], 1e6), Passed)
    weak = solve_all(shaft, rounds(shaft), 90.0, [BRACKET], 10.0)
    assert isinstance(weak, Miss)
    assert isinstance(weak.lack, PressTooWeak)
    assert weak.over is not None
    assert weak.over > 1
    assert isinstance(solve_all(shaft, rounds(shaft), 46.0, [BRACKET], 1e6), Miss)


def test_a_nose_under_the_smallest_radius_is_no_nose() -> None:
    thin = evolve(BY_NAME["shaft 1"], thickness=6.0, width=6.0, name="pin")
    bar = known_bar(BRACKET)
    least, _ = smallest_radius(bar.material, bar.thickness)
    miss = nose_miss(thin, [BRACKET], [bar])
    assert miss is not None
    assert miss.over == pytest.approx(least / 3.0)
    assert nose_miss(BY_NAME["shaft 1"], [BRACKET], [bar]) is None
    tight = evolve(BRACKET, part=evolve(BRACKET.part, inside_radius=6.35))
    assert nose_miss(BY_NAME["shaft 1"], [tight], [bar]) is not None


def test_where_nothing_does_it_the_nearest_is_named() -> None:
    found = propose([BRACKET], rack_of("shaft 3/4 off-cut", "plate 3/8 off-cut"))
    assert found.best == ()
    assert found.nearest is not None
    assert lack_clause(found.nearest.lack, "inch")
    assert found.nearest.over is None or found.nearest.over > 1
    assert found.fell_out


def test_when_the_time_runs_short_the_best_so_far_comes_with_its_gap() -> None:
    rack = rack_of(
        "shaft 1", "shaft 3/4 off-cut", "plate 3/4", "plate 1 bought", "plate 1-1/4 bought"
    )
    whole = propose([BRACKET], rack)
    # From the first question on the time of the cheapest is over, and that of the heaviest is not.
    short = propose([BRACKET], rack, spent=lambda: 0.65)
    left = short.untried
    assert left is not None
    assert left.least is not None
    # The cheapest that the whole search finds was left waiting, and costs no less than is said.
    assert left.least <= whole.best[0].cost
    gap = float(ran_out(short, "inch").partition("at most ")[2].split()[0])
    assert gap == pytest.approx(max(short.best[0].cost - left.least, 0.0), abs=0.006)
    assert whole.untried is None
    assert ran_out(whole, "inch") == ""
    over = propose([BRACKET], rack, spent=lambda: 1.0)
    assert not over.best
    assert ran_out(over, "inch") == (
        "The time ran out before every candidate was tried; a cheaper one may be among them."
    )
    # So nobody is told that the whole rack was tried.
    assert shown_of(over).nothing == "Nothing that was tried works, and not everything was tried."
    assert shown_of(whole).nothing == "Nothing on the rack works."


def shown_of(found: Proposals, currency: str = "") -> Found:
    data = proposals_to_data(found, "inch") | {"parts": ["bracket"]}
    for one in data["proposals"]:  # what the page's own search adds
        one |= {"weakest": "nose", "picture": ""}
    result = to_text(data)
    at = datetime(2031, 5, 4, tzinfo=UTC)
    search = Search(
        id="0" * 32, item="1" * 32, state="done", asked="", begun=at, said="", result=result
    )
    return found_by(search, currency)


def test_a_cost_is_in_the_currency_of_the_rates_or_says_whose_money_it_is(
    found: Proposals,
) -> None:
    one, whose = found.best[0], "in the money of the rack: "
    plain, priced = shown_of(found).offers[0], shown_of(found, "CAD").offers[0]
    assert plain.cost == f"cost {one.cost:.0f}"
    assert plain.money.startswith(f"{whose}material to buy {one.material:.0f},")
    assert priced.cost == f"cost CAD {one.cost:.0f}"
    bought = f"material to buy CAD {one.material:.0f}, plus {one.hours:.1f} h"
    assert priced.money.startswith(bought)
    said = " ".join(proposals_to_text(found, "inch").split())
    assert f"cost {one.cost:.2f} {whose}material to buy {one.material:.2f}" in said


def test_the_currency_is_that_of_the_rates_kept(tmp_path: Path) -> None:
    with open_store(tmp_path / "store") as store:
        shop = Workshop(store)
        assert currency_of(shop) == ""
        keep(shop, "rates", 'format = 1\n[money]\ncurrency = "NZD"\nlabour = 60\n', 0)
        assert currency_of(shop) == "NZD"
        keep(shop, "rates", "format = 1\n[money]\nlabour = 'dear'\n", 1)
        assert currency_of(shop) == ""


def in_sixteenths(mm: float) -> bool:
    return abs(mm / 25.4 * 16 - round(mm / 25.4 * 16)) < 1e-6


def test_an_inch_job_is_offered_tooling_in_sixteenths(found: Proposals) -> None:
    for one in found.best:
        pieces = pieces_of(evolve(BRACKET, tooling=one.tooling))
        for plate in pieces.plates:
            if not plate.piece:
                sizes = (plate.width, plate.height, plate.thickness)
                assert all(map(in_sixteenths, sizes)), (plate.name, sizes)
        for shaft in pieces.shafts:
            assert in_sixteenths(shaft.length), shaft.name
        for cut in one.cuts:
            assert in_sixteenths(cut.length), cut.use
            assert in_sixteenths(cut.width), cut.use
        nose, shoulders = one.tooling.nose, one.tooling.shoulders
        assert all(map(in_sixteenths, (nose.reach or 0, nose.span or 0, shoulders.depth or 0)))
        assert in_sixteenths(shoulders.height or 0)
        said = " ".join(proposals_to_text(evolve(found, best=(one,)), "inch").split())
        lines = [line for line in said.split(" - ") if line.startswith("cut ")]
        assert lines
        assert not [line for line in lines if "." in line.partition(" from ")[0]], lines


def test_progress_counts_from_the_first_word_on() -> None:
    progress, said = SearchProgress(), list[tuple[str, float]]()

    def hear(word: str, done: int, whole: int) -> None:
        progress.hear(word, done, whole)
        said.append((progress.text, progress.share))

    found = propose([BRACKET], rack_of("shaft 1", "plate 1-1/4 bought"), hear)
    first, *_ = (text for text, _ in said)
    assert first == "Trying every shaft as a nose: 0 of 1; 0 openings so far"
    texts = [text for text, _ in said]
    assert any("openings so far" in text and "; 0 " not in text for text in texts)
    assert any("Matching plates" in text and "candidates so far" in text for text in texts)
    # The usual ways of holding first, then the others.
    counts = {int(text.split()[-2]) for text in texts if text.endswith("candidates")}
    assert sum(counts) == found.tried
    assert all(0.0 <= share <= 1.0 for _, share in said)


def test_no_candidate_takes_less_to_make_than_the_search_counts_before_it_is_drawn(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Every way of holding, of thin and thick plates, with a full crib and with a poor one."""
    near: list[tuple[str, bool, float]] = []

    def least_and_drawn(line: Line, candidate: Candidate) -> Candidate | None:
        drawn = board_of(line, candidate)
        if drawn is not None:
            over = (drawn.cost - candidate.cost) / RACK.hour_rate
            near.append((candidate.choice.held, candidate.choice.tied, over))
        return drawn

    board_of = Line._drawn
    monkeypatch.setattr(Line, "_drawn", least_and_drawn)
    monkeypatch.setattr(candidate_sizes, "MOST_OPENINGS", 2)
    monkeypatch.setattr(search_rack, "_SHARES", ((USUAL + OTHERS, 1.0, 1.0),))
    monkeypatch.setattr(Judge, "fails_early", lambda *_: False)
    monkeypatch.setattr(Judge, "has_failed", lambda *_: False)
    monkeypatch.setattr(Judge, "judged", lambda *_: None)
    some = rack_of("shaft 1", "plate 1/2", "plate 3/4", "plate 1-1/4 bought")
    rack = evolve(some, stock=tuple(evolve(one, count=4) for one in some.stock))
    poor = cutters_of(Crib(drills=(DrillSet(series="single", first="", last="", sizes=(6.0,)),)))
    for cutters in (None, poor):
        near.clear()
        propose([BRACKET], rack, cutters=cutters)
        assert {(held, tied) for held, tied, _ in near} == {*USUAL, *OTHERS}
        over = [one for _, _, one in near]
        assert min(over) >= 0.0
        assert max(over) < 0.05


def test_a_thinner_plate_bought_dearer_is_never_taken_first() -> None:
    dear = evolve(BY_NAME["plate 1 bought"], name="dear plate", price=500.0)
    rack = Rack(stock=(BY_NAME["shaft 1-1/4"], BY_NAME["plate 1 bought"], dear))
    found = propose([BRACKET], rack)
    assert found.best
    assert "dear plate" not in {cut.stock.name for cut in found.best[0].cuts}


def test_pieces_are_counted_with_kerf_and_no_more_than_there_are() -> None:
    stock = Stock(
        name="bar", kind="shaft", thickness=25.0, width=25.0, length=100.0, count=2,
        material="A36", price=0.0, origin="rack",
    )  # fmt: skip
    cut = Cut(use="x", stock=stock, length=48.0, width=25.0)
    assert pieces_needed([cut, cut], 4.0) == {stock: 1}
    # 49 and 49 leave 2, less than the saw and facing take between them.
    assert pieces_needed([evolve(cut, length=49.0)] * 2, 4.0) == {stock: 2}
    assert pieces_needed([evolve(cut, length=49.0)] * 3, 4.0) is None
    assert pieces_needed([evolve(cut, length=101.0)], 4.0) is None
    assert price_of({stock: 2, evolve(stock, name="other", price=7.5): 3}) == 22.5


def test_a_cut_takes_the_kerf_of_the_shops_widest_saw() -> None:
    assert saw_allowance((Saw(name="band", kerf=0.9), Saw(name="chop", kerf=3.2))) == FACING + 3.2
    # From memory: a horizontal band saw's blade of 0.035 in with 0.010 in set on each side.
    assert saw_allowance() == pytest.approx(FACING + 0.055 * 25.4)


def test_the_kerf_of_the_cribs_saw_is_paid_for() -> None:
    # Both shoulders, 1-15/16 in long, come out of 107 mm with a narrow kerf and facing only.
    shaft = evolve(BY_NAME["shaft 3/4 off-cut"], length=107.0, count=2, price=1.0)
    plates = rack_of("shaft 1", "plate 3/4", "plate 1 bought", "plate 1-1/4 bought").stock
    rack = Rack(stock=(shaft, *plates))
    narrow, wide = (
        propose([BRACKET], rack, saws=(Saw(name="saw", kerf=one),)).best[0] for one in (0.9, 9.0)
    )
    for cut in narrow.cuts:
        assert "shoulder" not in cut.use or cut.length == pytest.approx(31 / 16 * 25.4)
    assert wide.choice == narrow.choice
    assert wide.material == narrow.material + 1.0


@pytest.mark.parametrize(
    ("jobs", "rack", "said"),
    [
        ([], RACK, "no part is named"),
        ([evolve(BRACKET, press=None)], RACK, "bore and relief"),
        ([BRACKET], rack_of("plate 3/4"), "no shaft"),
        ([BRACKET], rack_of("shaft 1"), "no plate"),
    ],
)
def test_what_is_lacking_is_one_sentence(jobs: list[Job], rack: Rack, said: str) -> None:
    with pytest.raises(InputError, match=said):
        propose(jobs, rack)


def test_what_the_press_states_of_itself_is_taken_over(found: Proposals) -> None:
    die = job("mooring-hook-die")
    one = found.best[0]
    passed = solve_all(
        one.choice.nose, rounds(one.choice.shoulders), one.choice.opening, [BRACKET], 1e6
    )
    assert isinstance(passed, Passed)
    tooling = tooling_of(one.choice, passed.need, [evolve(BRACKET, tooling=die.tooling)])
    assert die.tooling is not None
    stated, made = die.tooling.members, tooling.members
    assert stated is not None
    assert made is not None
    assert made.rod == stated.rod
    assert made.circuit == stated.circuit
    assert made.held.count("push plate") == 1


def test_a_proposal_says_which_weld_wants_preheat(found: Proposals) -> None:
    one = found.best[0]
    members = one.tooling.members
    assert members is not None
    assert members.body is not None
    body = evolve(members.body, material="S355")
    bench = bench_of(one.plans, evolve(one.tooling, members=evolve(members, body=body)), None)
    hard = evolve(one, assessment=assess(bench, "inch"))
    said = "guidance, not a welding procedure"
    for units in ("inch", "metric"):
        text = proposals_to_text(evolve(found, best=(hard,)), units)
        assert said in " ".join(text.split())
        assert any(said in each for each in warned_of(hard, units))
        (data,) = proposals_to_data(evolve(found, best=(hard,)), units)["proposals"]
        assert any(said in each for each in data["warnings"])
