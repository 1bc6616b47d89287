"""What friction between the bars of a stack can add to its force: the bounds of the band.

Free to slide, n bars ask n times the force of one.  Stuck together they are one bar n times as
thick, which is fully plastic at n^2 times the moment of one: b (n t)^2/4 against n b t^2/4.  In
between, no joint between two bars carries more than friction times what presses it together.
"""

from __future__ import annotations

import numpy as np

from strapwright.bending.bend_values import BendSetup, Floats

# Dry clean steel slides on steel at 0.57 (handbooks of mechanical engineering, from memory).
DRY = 0.6


def rubbing(setup: BendSetup, bars: int, loaded: Floats) -> Floats:
    """Return the most that friction multiplies the force of bars that slide by [-].

    A flank is held by the shoulder's push N at the end of a lever l, so N l = M.  Each of the
    n - 1 joints is pressed together by no more than N, takes no more shear than mu N, and adds no
    more than mu N t to the moment M: N grows by 1/(1 - (n - 1) mu t/l).  It never grows past n,
    where the bars are stuck.  Source: statics of a straight flank, by hand.

    Parameters
    ----------
    setup
        Of the bar at the nose, its shoulders made larger by the bars beneath it.
    bars
        How many lie on each other.
    loaded
        Whole angles under load [rad].
    """
    turned = 0.5 * loaded
    reach = setup.nose_radius + setup.thickness + setup.shoulder_radius
    lever = (0.5 * setup.opening - reach * np.sin(turned)) / np.cos(turned)
    taken = (bars - 1) * DRY * setup.thickness
    # Where friction could carry (n - 1)/n of the moment and more, the bars are stuck.
    most: Floats = np.where(
        bars * taken >= (bars - 1) * lever,
        float(bars),
        lever / np.maximum(lever - taken, 1e-9),
    )
    return most
