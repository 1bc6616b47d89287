"""Two of the seeded racks: every offer drawn, checked again from its drawings, and planned."""

from __future__ import annotations

import random
import sys
from pathlib import Path

import pytest
from attrs import evolve

sys.path.append(str(Path(__file__).parents[2] / "validation"))

from offers_drawn import family, rack, wrong  # scripts, not a package
from strapwright.proposing.found_values import Proposals
from strapwright.proposing.search_rack import propose
from strapwright.shop.job import Job

# Of one part and of two, by their number among the racks of the whole study.
pytestmark = pytest.mark.long
CHOSEN = (5, 9)


def studied() -> dict[int, tuple[tuple[Job, ...], Proposals]]:
    chance = random.Random(1)  # noqa: S311  a study, no secret
    found = {}
    for number in range(1, max(CHOSEN) + 1):
        stock, jobs = rack(chance), family(chance)
        if number in CHOSEN:
            found[number] = jobs, propose(jobs, stock)
    return found


@pytest.fixture(scope="module")
def study() -> dict[int, tuple[tuple[Job, ...], Proposals]]:
    return studied()


def test_every_offer_is_drawn_holds_as_drawn_and_is_planned(
    study: dict[int, tuple[tuple[Job, ...], Proposals]],
) -> None:
    assert [len(jobs) for jobs, _ in study.values()] == [2, 1]
    for jobs, found in study.values():
        assert found.best
        for one in found.best:
            assert wrong(one, jobs) == []


def test_the_study_sees_an_offer_that_is_too_weak(
    study: dict[int, tuple[tuple[Job, ...], Proposals]],
) -> None:
    jobs, found = study[CHOSEN[1]]
    one = found.best[0]
    press = jobs[0].press
    assert press is not None
    assert press.relief is not None
    harder = tuple(evolve(job, press=evolve(press, relief=4 * press.relief)) for job in jobs)
    assert wrong(one, harder)
