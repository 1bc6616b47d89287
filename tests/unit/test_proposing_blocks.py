"""Blocks as shoulders from a rack: offered where no round does or where they cost less."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from attrs import evolve

from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.tooling_making import make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.proposing import candidate_sizes, search_rack
from strapwright.proposing.block_shoulders import bars_for, edges
from strapwright.proposing.candidate_line import Line
from strapwright.proposing.candidate_sizes import Need, layout_of
from strapwright.proposing.found_values import Proposals
from strapwright.proposing.judging_candidates import Candidate, Judge
from strapwright.proposing.proposal_values import Choice
from strapwright.proposing.search_rack import OTHERS, USUAL, propose
from strapwright.service.propose_tooling import proposals_to_data, proposals_to_text
from strapwright.shop.rack import Rack
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.reading_rack import read_rack

sys.path.append(str(Path(__file__).parents[2] / "validation"))

from offers_drawn import wrong  # scripts, not a package

INCH = 25.4
TAB = read_job(
    'format = 1\nunits = "inch"\n[part]\nname = "rail tab"\nquantity = 10\n'
    'bar = "flat 1/4 x 1-1/2"\nmaterial = "A36 hot rolled"\nmeasured = "outside"\n'
    'shape = ["5", "up 60", "5"]\n[press]\nbore = "3-1/2"\nrod = "1-3/4"\nrelief = "800 psi"\n'
    'stroke = "8"\npump = "2 gpm"\n'
)


def rack(*pieces: str) -> Rack:
    """Pieces as ``shaft 1 long 7``, of 1045 for shafts and A36 for the rest."""
    lines = ['format = 1\nunits = "inch"']
    for piece in pieces:
        kind, _, rest = piece.partition(" ")
        size, _, long = rest.partition(" long ")
        steel = "1045 hot rolled" if kind == "shaft" else "A36"
        lines.append(
            f'[[stock]]\nname = "{kind} {size}"\nkind = "{kind}"\nsize = "{size}"\n'
            f'length = "{long or 36}"\nmaterial = "{steel}"'
        )
    return read_rack("\n".join(lines))


# A nose is all that the shaft is long enough for.
SHORT = rack(
    "shaft 1-1/4 long 4-3/4", "flat 1-1/2 x 3", "flat 2 x 2", "plate 1 x 8", "plate 3/4 x 4"
)
LONG = rack("shaft 1-1/4", "flat 1-1/2 x 3", "flat 2 x 2", "plate 1 x 8", "plate 3/4 x 4")


@pytest.fixture(scope="module")
def found() -> Proposals:
    return propose([TAB], SHORT)


def test_where_no_round_is_long_enough_blocks_are_offered_and_stand(found: Proposals) -> None:
    assert found.best
    for one in found.best:
        assert one.choice.edge > 0.0
        assert wrong(one, [TAB]) == []
        assert not any("shoulder" in cut.use or "cheek" in cut.use for cut in one.cuts)


def test_what_is_cut_for_a_block_is_what_is_drawn(found: Proposals) -> None:
    for one in found.best:
        plates = {p.name: p for p in pieces_of(evolve(TAB, tooling=one.tooling)).plates}
        block, base = plates["shoulder block"], plates["die base"]
        assert block.edges_rounded == pytest.approx(one.choice.edge)
        for use, drawn in (("left block", block), ("right block", block), ("base", base)):
            cut = next(each for each in one.cuts if each.use == use)
            assert sorted((cut.length, cut.width)) == pytest.approx(
                sorted((drawn.width, drawn.height))
            )
            assert cut.stock.thickness == pytest.approx(drawn.thickness)


def test_its_hours_are_those_of_its_making_and_it_is_told_with_its_edge(found: Proposals) -> None:
    one = found.best[0]
    pieces = pieces_of(evolve(TAB, tooling=one.tooling))
    made = make_tooling(pieces, usual_cutters(), name="tab", units="inch")
    assert made.minutes / 60 == pytest.approx(one.hours)
    text, data = proposals_to_text(found, "inch"), proposals_to_data(found, "inch")
    across = {0.25 * INCH: "1/4 in", 0.5 * INCH: "1/2 in"}[round(one.choice.edge, 6)]
    assert f"as blocks, edge radius {across}, opening" in text
    assert "welded to a base" in text
    assert data["proposals"][0]["choice"]["edge_radius_mm"] == pytest.approx(one.choice.edge)


def test_blocks_stand_beside_rounds_by_what_they_cost() -> None:
    best = propose([TAB], LONG).best
    assert [one.cost for one in best] == sorted(one.cost for one in best)
    # A rounded edge by file is cheaper than two rounds and the bore of their seats.
    assert best[0].choice.edge > 0.0


def test_pruning_gives_the_same_as_trying_everything(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(candidate_sizes, "MOST_OPENINGS", 2)
    few = rack("shaft 1-1/4 long 4-3/4", "flat 1-1/2 x 3", "plate 1 x 8")
    quick, whole = propose([TAB], few), propose([TAB], few, prune=False)
    assert whole.best
    assert [one.choice for one in quick.best] == [one.choice for one in whole.best]
    assert [one.cost for one in quick.best] == [one.cost for one in whole.best]


def test_no_blocks_take_less_to_make_than_the_search_counts_before_they_are_drawn(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    near: list[float] = []

    def least_and_drawn(line: Line, candidate: Candidate) -> Candidate | None:
        drawn = board_of(line, candidate)
        if drawn is not None and candidate.choice.edge:
            near.append(drawn.cost - candidate.cost)
        return drawn

    board_of = Line._drawn
    monkeypatch.setattr(Line, "_drawn", least_and_drawn)
    monkeypatch.setattr(candidate_sizes, "MOST_OPENINGS", 2)
    monkeypatch.setattr(search_rack, "_SHARES", ((USUAL + OTHERS, 1.0, 1.0),))
    monkeypatch.setattr(Judge, "fails_early", lambda *_: False)
    monkeypatch.setattr(Judge, "has_failed", lambda *_: False)
    monkeypatch.setattr(Judge, "judged", lambda *_: None)
    propose([TAB], SHORT)
    assert near
    assert min(near) >= 0.0
    assert max(near) < 0.05 * 30


def test_edges_are_sixteenths_or_whole_millimetres_and_bars_twice_as_thick() -> None:
    # A bar of 3/16 in: once and twice its thickness.
    thin = evolve(TAB, part=evolve(TAB.part, bar=evolve(TAB.part.bar, thickness=0.1875 * INCH)))
    assert edges([thin]) == pytest.approx((0.1875 * INCH, 0.375 * INCH))
    assert edges([evolve(thin, units="metric")]) == pytest.approx((5.0, 10.0))
    assert [one.name for one in bars_for(SHORT, 0.75 * INCH)] == ["flat 1-1/2 x 3", "flat 2 x 2"]
    assert [one.name for one in bars_for(SHORT, 0.8125 * INCH)] == ["flat 2 x 2"]


@pytest.mark.parametrize("edge", [0.0, 0.25 * INCH])
def test_carriers_between_the_shoulders_stay_off_the_floor_at_full_stroke(edge: float) -> None:
    """A nose of 2 in has 1 in of carrier below it: 1 - 1/4 - 1/4 in deeper than the bar goes."""
    nose, _, bar, *_ = LONG.stock
    plate = LONG.stock[3]
    choice = Choice(
        nose=evolve(nose, thickness=2 * INCH, width=2 * INCH), shoulders=bar if edge else nose,
        carriers=plate, push_plate=plate, body=plate, opening=8 * INCH, edge=edge,
    )  # fmt: skip
    need = Need(depth=2.5 * INCH, reach=5 * INCH, plate_width=4 * INCH, height=6 * INCH)
    assert layout_of(choice, need, [TAB]).tall == pytest.approx(3.0 * INCH)
    # Past the ends of the shoulders they pass the floor as well.
    beside = layout_of(evolve(choice, opening=4.25 * INCH), need, [TAB])
    assert beside.tall == pytest.approx(2.5 * INCH)
