"""A tooling proposed for a press whose push plate stays."""

from __future__ import annotations

from pathlib import Path

import pytest
from attrs import evolve

from strapwright.making.tooling_plates import pieces_of
from strapwright.proposing.found_values import Proposals
from strapwright.proposing.miss_values import NotDrawn, WeldsToKept
from strapwright.proposing.search_rack import propose
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.reading_rack import read_rack
from strapwright.wording.proposal_words import held_words, lack_clause, reason_clause

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
BRACKET = (EXAMPLES / "cleat-bracket.toml").read_text(encoding="utf-8")
NAMES = ("shaft 1-1/4", "shaft 3/4 off-cut", "plate 3/4", "plate 1 bought")
RACK = Rack(
    stock=tuple(
        one
        for one in read_rack((EXAMPLES / "dock-rack.toml").read_text(encoding="utf-8")).stock
        if one.name in NAMES
    )
)


def on_plate(length: str) -> Job:
    return read_job(
        f'{BRACKET}\n[press.push_plate]\nname = "harbour plate"\nmaterial = "A36"\n'
        f'length = "{length}"\nwidth = "4"\nthickness = "1"\nholes = "4 of 13/32 at 1-5/8, 5/8"\n'
    )


@pytest.fixture(scope="module")
def found() -> Proposals:
    return propose([on_plate("9")], RACK)


def test_a_proposal_bolts_its_carriers_to_the_plate_that_stays_and_counts_no_metal_for_it(
    found: Proposals,
) -> None:
    best = found.best[0]
    assert "push plate" not in [cut.use for cut in best.cuts]
    assert held_words(best.choice, "inch").startswith(
        "nose in two carriers bolted to harbour plate"
    )
    pieces = pieces_of(evolve(on_plate("9"), tooling=best.tooling))
    push = next(one for one in pieces.plates if one.name == "push plate")
    taken = [one for one in push.holes if one.purpose == "carrier bolt"]
    assert [one.exists for one in taken] == [True] * 4
    # No new holes, and so no hours for it.
    assert all(one.exists for one in push.holes)
    assert not [one for one in best.assessment.unchecked if one.member == "bolts of the carriers"]
    assert [one for one in best.assessment.checks if one.member == "bolts of the carriers"]


def test_what_cannot_mate_with_the_plate_falls_out_with_the_reason() -> None:
    small = propose([on_plate("3-7/8")], RACK)
    assert small.best == ()
    reasons = {type(one.example): one.example for one in small.fell_out}
    assert reason_clause(reasons[NotDrawn]) == "bolts of the carriers: no drawing can be made"
    clause = lack_clause(reasons[NotDrawn], "inch")
    assert "along the nose, and the push plate that stays is 3-7/8 in" in clause
    welded = reasons[WeldsToKept]
    assert "would be welded to the push plate that stays" in reason_clause(welded)
    assert lack_clause(welded, "inch").endswith("only two bolted carriers go on harbour plate")
