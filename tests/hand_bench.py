"""The die of the hand calculations, in pounds and inches.

A shallow strap on a 3-3/4 in bore at 2200 psi: pi 3.75^2/4 = 11.045 in2, relief 24 298 lbf.
"""

from __future__ import annotations

from collections.abc import Iterable

from strapwright.shop.members import Members
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.strength.check_values import Bench, Check, Load, Result

INCH, LBF, PSI = 25.4, 4.4482216152605, 6.894757293168361e-3
RELIEF = 24_298.26  # lbf
WEDGE = 1_385.0  # lbf, outwards on each shoulder


def bench(
    members: Members,
    *,
    nose: Nose | None = None,
    shoulders: Shoulders | None = None,
    load: Load | None = None,
    retract: float | None = None,
    width: float = 2.5,
) -> Bench:
    """A bench under one push, of relief in the middle where none is given; width in inches."""
    push = load or Load(case="relief", force=RELIEF * LBF, outward=WEDGE * LBF)
    return Bench(
        tooling=Tooling(
            nose=nose or Nose(radius=0.875 * INCH),
            shoulders=shoulders or Shoulders(radius=0.25 * INCH, opening=4 * INCH),
            friction=0.1,
            members=members,
        ),
        press=Press(bore=3.75 * INCH, rod=2 * INCH, relief=2200 * PSI),
        thickness=0.25 * INCH,
        width=width * INCH,
        widest=width * INCH,
        pushes=(push,),
        retract=None if retract is None else Load(case="retract", force=retract * LBF),
    )


READ: list[Check] = []  # every check that a hand calculation was held against


def found(checks: Iterable[Result], what: str, case: str | None = None) -> Check:
    """The one check of a name, of a load case where one is given."""
    (check,) = (
        one
        for one in checks
        if isinstance(one, Check) and one.what == what and case in (None, one.load_case)
    )
    READ.append(check)
    return check
