"""The chain of links asked about the springback of every slice of the finite elements.

``validation/springback_asked.py [--json FILE]``, or ``python3 start.py validate --table
springback``.  The chain is a thin bar with nothing fitted, so what it says of a case's last travel
tells whether the case's truth is of the right size: those below lie from a few per cent under to a
few over.  Bars with a yield plateau are left out, since the chain's metal has none.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from attrs import asdict, frozen

import case_files  # noqa: F401  first: it sees to it that the compiled loops are fresh

sys.path.append(str(Path(__file__).resolve().parent.parent / "tests" / "reference"))

import chain_cases as cases  # no part of the package
from chain import ChainError
from chain_stroke import push

import leave_one_out
from stroke_cases import DOUBTED


@frozen(kw_only=True)
class Asked:
    """Springback of one case at its last travel by finite elements and by the chain [deg]."""

    name: str
    truth: float
    chain: float

    @property
    def apart(self) -> float:
        """The chain's more than the case's [-]."""
        return self.chain / self.truth - 1.0


def asked(case: leave_one_out.Case) -> Asked | None:
    """Ask about one case; ``None`` where no chain follows it."""
    last = case.truth.last_travel
    for count in (80, 87, 93):
        try:
            chain = cases.referee(case.setup, last, count=count, first=0.05)
            row = push(chain, np.array([last]), last / cases.STEPS)[-1]
        except ChainError:
            continue
        back = math.degrees(row.loaded - row.free)
        return Asked(name=case.name, truth=case.truth.springback, chain=back)
    return None


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the table there too")
    options = parser.parse_args(arguments)
    print("case   finite elements   chain   apart")
    rows = []
    for case in leave_one_out.read_cases(leave_one_out.OWN_CASES):
        if case.setup.section != "slice" or case.setup.flow.plateau > 0.0:
            continue
        row = asked(case)
        if row is None:
            print(f"{case.name:<6} {case.truth.springback:15.2f}   no equilibrium of the chain")
            continue
        rows.append(row)
        print(f"{row.name:<6} {row.truth:15.2f} {row.chain:7.2f} {row.apart:+7.1%}", flush=True)
    for name, (truth, other) in DOUBTED.items():
        print(
            f"{name:<6} {truth:15.2f} {other:7.2f} {other / truth - 1.0:+7.1%}   in doubt: by "
            "another code, its file is not kept"
        )
    if options.json is not None:
        text = json.dumps([asdict(row) for row in rows], indent=1)
        options.json.write_text(text + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
