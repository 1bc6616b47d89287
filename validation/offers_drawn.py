"""Seeded racks and families: every offer drawn, checked again from its drawings, and planned.

``python validation/offers_drawn.py [--seed 1] [--racks 10] [--flats 12]`` makes racks and families
of parts by a seed, then racks of flat and square bars with one short shaft for the nose.  It asks
for toolings, lays out every offer, reads its members back from the drawings and holds them again to
the plans of every part.  Prints one line a rack, with processor time, and the sum; exit code 1
where an offer cannot be drawn, does not hold as drawn or cannot be planned.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections.abc import Sequence

from attrs import evolve

from strapwright.findings import Severity
from strapwright.making.tooling_plates import pieces_of
from strapwright.planning.member_loads import bench_of
from strapwright.planning.plan import plan
from strapwright.proposing.proposal_values import Proposed
from strapwright.proposing.search_rack import propose
from strapwright.service.search_clock import spent_of
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.reading_rack import read_rack
from strapwright.strength.member_checks import check_members

_SHAFTS = ("3/4", "1", "1-1/4", "1-1/2", "2")
_PLATES = ("1/2 x 6", "3/4 x 6", "1 x 8", "1-1/4 x 8", "1-1/2 x 8", "2 x 8")
_FLATS = (
    "1/2 x 3",
    "3/4 x 4",
    "3/4 x 6",
    "1 x 4",
    "1-1/4 x 3",
    "1-1/2 x 3",
    "1-1/2 x 1-1/2",
    "2 x 2",
)
_STEELS = ("A36", "1018 hot rolled", "1045 hot rolled", "unknown steel")
_BARS = ("3/16 x 1", "1/4 x 1-1/4", "1/4 x 1-1/2", "1/4 x 2", "3/8 x 1-1/2")


def family(chance: random.Random) -> tuple[Job, ...]:
    """Return one to three parts with one or two bends on one press.

    Parameters
    ----------
    chance
        Seeded.
    """
    jobs = []
    press = chance.choice(("600 psi", "1000 psi", "1500 psi"))
    for number in range(chance.randint(1, 3)):
        turns = chance.randint(1, 2)
        shape = [f'"{chance.randint(4, 8)}"']
        for _ in range(turns):
            shape += [f'"up {chance.choice((20, 30, 45, 60, 90))}"', f'"{chance.randint(4, 8)}"']
        jobs.append(
            read_job(
                'format = 1\nunits = "inch"\n[part]\n'
                f'name = "part {number + 1}"\nquantity = 10\nbar = "flat {chance.choice(_BARS)}"\n'
                f'material = "A36 hot rolled"\nmeasured = "outside"\nshape = [{", ".join(shape)}]\n'
                f'[press]\nbore = "3-1/2"\nrod = "1-3/4"\nrelief = "{press}"\nstroke = "8"\n'
                'pump = "2 gpm"\n'
            )
        )
    return tuple(jobs)


def rack(chance: random.Random) -> Rack:
    """Return a rack of some shafts and plates.

    Parameters
    ----------
    chance
        Seeded.
    """
    stock = [("shaft", one) for one in chance.sample(_SHAFTS, chance.randint(2, 4))]
    stock += [("plate", one) for one in chance.sample(_PLATES, chance.randint(2, 4))]
    return _rack_of(stock, chance)


def flat_rack(chance: random.Random) -> Rack:
    """Return a rack of flat and square bars, with one shaft too short for more than a nose.

    Parameters
    ----------
    chance
        Seeded.
    """
    return _rack_of(
        [
            ("shaft", chance.choice(_SHAFTS)),
            *(("flat", one) for one in chance.sample(_FLATS, chance.randint(3, 5))),
        ],
        chance,
        shaft="7",
    )


def _rack_of(stock: Sequence[tuple[str, str]], chance: random.Random, shaft: str = "36") -> Rack:
    lines = ['format = 1\nunits = "inch"\nhour_rate = 30']
    for kind, size in stock:
        price = 0 if chance.random() < 0.5 else chance.randint(10, 90)
        lines.append(
            f'[[stock]]\nname = "{kind} {size}"\nkind = "{kind}"\nsize = "{size}"\n'
            f'length = "{shaft if kind == "shaft" else "36"}"\n'
            f'material = "{chance.choice(_STEELS)}"\nprice = {price}\n'
            f"count = {chance.randint(1, 2 if shaft == '36' or kind == 'flat' else 1)}\n"
            f'origin = "{"rack" if price == 0 else "supplier"}"'
        )
    return read_rack("\n".join(lines))


def wrong(one: Proposed, jobs: Sequence[Job]) -> list[str]:
    """Return what is wrong with an offer.

    Parameters
    ----------
    one
        As offered.
    jobs
        The parts.
    """
    said: list[str] = []
    plans = []
    for job in jobs:
        made = evolve(job, press=jobs[0].press, tooling=one.tooling)
        pieces = pieces_of(made)
        said += [each.code for each in pieces.findings if each.severity is Severity.REFUSAL]
        said += [each.code for each in pieces.findings if each.code == "drawn-otherwise"]
        planned = plan(made, rate=False)
        said += [each.code for each in planned.findings if each.severity is Severity.REFUSAL]
        plans.append(planned)
        bench = bench_of(plans, pieces.tooling or one.tooling, jobs[0].press)
        checks, _ = check_members(bench)
        said += [f"{each.member}, {each.what}" for each in checks if not each.holds]
    return said


def main(argv: Sequence[str] | None = None) -> int:
    """Run the study.

    Parameters
    ----------
    argv
        Words of the command.

    Returns
    -------
    int
        Exit code, 1 where an offer is wrong.
    """
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--racks", type=int, default=10)
    parser.add_argument("--flats", type=int, default=12)
    asked = parser.parse_args(argv)
    chance = random.Random(asked.seed)  # noqa: S311  a study, no secret
    flat = random.Random(asked.seed)  # noqa: S311  likewise; so that more of one change no other
    offers = bad = blocks = 0
    for number in range(1, asked.racks + asked.flats + 1):
        usual = number <= asked.racks
        stock = rack(chance) if usual else flat_rack(flat)
        jobs = family(chance if usual else flat)
        begun = time.process_time()
        found = propose(jobs, stock, spent=spent_of())
        took = time.process_time() - begun
        told = [each for one in found.best for each in wrong(one, jobs)]
        offers += len(found.best)
        blocks += sum(one.choice.edge > 0.0 for one in found.best)
        bad += bool(told)
        fine = "all drawn, held and planned" if found.best else "none offered"
        said = ", ".join(told) or fine
        short = ", time ran out" if found.untried is not None else ""
        print(
            f"{'rack' if usual else 'flats'} {number}: {len(jobs)} parts, "
            f"{len(found.best)} offers of {found.tried}, {took:.1f} s{short}; {said}",
            flush=True,
        )
    print(
        f"{offers} offers on {asked.racks + asked.flats} racks, {blocks} of them blocks; "
        f"{bad} racks with an offer that is wrong"
    )
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
