"""Bars on each other under the nose: every bar bends by itself, all to one loaded angle.

Bar k, counted from the nose, lies round a radius that is k thicknesses larger, and rests on
shoulders that the bars beneath it make larger by their thicknesses, about the same centres.  Nose,
bars and shoulders then add up to the same reach for every bar, so the legs stay parallel and all
bars share the loaded angle.  Each is solved on its own section: they slide on each other, and their
neutral axes lie apart.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bar_shape import half_shape, released_bend
from strapwright.bending.bend_values import BendSetup, Floats, ReleasedBend, StrokeCurve
from strapwright.bending.kernel_curve import FREE
from strapwright.bending.solver import curve_of, state_of
from strapwright.bending.solver_model import build
from strapwright.blank.blank_values import Blank
from strapwright.blank.flat_layout import lay_out
from strapwright.errors import InputError
from strapwright.findings import (
    Angle,
    BendAt,
    Count,
    Finding,
    Length,
    Severity,
    Share,
)
from strapwright.planning.hits_and_stacks.rubbing_bars import rubbing
from strapwright.planning.hits_and_stacks.stack_values import StackBar
from strapwright.planning.made_bend import SHARES, MadeBend
from strapwright.planning.settled_bend import settled
from strapwright.shop.job import BlankSettings
from strapwright.shop.part import Part

_POINTS = 200


@frozen(kw_only=True)
class Outer:
    """What a bar farther from the nose does when the inner one comes right.

    Attributes
    ----------
    bar
        1-based number from the nose.
    radius
        That it is bent round [mm].
    free
        Angle it opens to [rad].
    released
        As its blank needs it.
    """

    bar: int
    radius: float
    free: float
    released: ReleasedBend


@frozen(kw_only=True)
class Stack:
    """A stack of bars for one bend.

    Attributes
    ----------
    inner
        Setup of the bar at the nose.
    share
        Loaded angle -> force of the whole stack over that of the inner bar [-].
    outers
        The other bars at the inner one's setting.
    """

    inner: BendSetup
    share: Callable[[Floats], Floats]
    outers: tuple[Outer, ...]


@lru_cache(maxsize=64)
def stack_of(setup: BendSetup, bars: int, angle: float, where: BendAt) -> Stack | None:
    """Return the stack for a bend to a free angle of the inner bar, ``None`` for a single bar.

    Parameters
    ----------
    setup
        One bar alone on the tooling.
    bars
        How many lie on each other.
    angle
        Free angle of the inner bar [rad].
    where
        What an error is about.

    Raises
    ------
    InputError
        Where the stack does not pass between the shoulders, or jams before the angle.
    """
    if bars == 1:
        return None
    setups = [_bar(setup, number, bars) for number in range(bars)]
    if 2.0 * setups[0].shoulder_radius >= setup.opening:
        raise _too_thick(where, bars)
    model = build(setups[0])
    state = state_of(model, FREE, 0.5 * angle)
    if state is None:
        raise _too_thick(where, bars)
    curves = [curve_of(build(one), _POINTS) for one in setups]
    if any(curve.loaded_angle[-1] < state.loaded_angle for curve in curves):
        raise _too_thick(where, bars)

    def share(loaded: Floats) -> Floats:
        # At touch nothing carries yet; the share there is that of the first position.
        held = np.maximum(loaded, curves[0].loaded_angle[1])
        forces = [np.interp(held, curve.loaded_angle, curve.force) for curve in curves]
        total: Floats = np.sum(forces, axis=0) / forces[0]
        return total

    outers = tuple(
        _outer(
            number + 1,
            setups[number],
            float(np.interp(state.loaded_angle, curve.loaded_angle, curve.free_angle)),
        )
        for number, curve in enumerate(curves)
        if number
    )
    # The machine gives way to the whole force, of which the inner bar's solution sees its own.
    give = setup.give * float(share(np.array([state.loaded_angle]))[0])
    return Stack(inner=evolve(setups[0], give=give), share=share, outers=outers)


def with_stack(made: MadeBend, stack: Stack, give: float) -> MadeBend:
    """Return the inner bar's bend with the force of the whole stack.

    The figure is that of bars that slide freely; the upper half of the band is widened by what
    friction between them can add.

    Parameters
    ----------
    made
        Solved for ``stack.inner``.
    give
        Of the machine [mm/N].
    """
    curve, travel = made.curve, made.state.travel
    along = stack.share(curve.loaded_angle)
    loaded = np.interp(SHARES * travel, curve.travel, curve.loaded_angle)
    at = stack.share(loaded)
    force = made.state.force * float(stack.share(np.array([made.state.loaded_angle]))[0])
    whole: StrokeCurve = evolve(curve, force=curve.force * along)
    pushed = curve.travel <= travel
    bars = len(stack.outers) + 1
    middle = np.interp(SHARES * travel, curve.travel, curve.force)
    rubs = rubbing(stack.inner, bars, curve.loaded_angle)
    sample = made.sample.force * at[None, :]
    rubbed = sample * rubbing(stack.inner, bars, loaded)[None, :]
    return evolve(
        made,
        setup=evolve(made.setup, give=give),
        state=evolve(made.state, force=force),
        curve=whole,
        force_low=made.force_low * along,
        force_high=made.force_high * along * rubs,
        sample=evolve(made.sample, force=np.where(sample > (middle * at)[None, :], rubbed, sample)),
        peak=max(force, float(np.max(whole.force[pushed], initial=0.0))),
        rubbed=float(np.max((whole.force * rubs)[pushed], initial=0.0)),
    )


def stack_findings(made: MadeBend, outers: Sequence[Outer], bend: int) -> list[Finding]:
    """What the outer bars of a stack become in a 1-based bend."""
    if not outers:
        return []
    bars, reached = len(outers) + 1, made.state.loaded_angle
    springs = reached - made.state.free_angle
    return [
        Finding(
            code="stacked-outer-bar",
            severity=Severity.WARNING,
            about=(BendAt(bend),),
            facts={
                "bars": tuple(Count(outer.bar) for outer in outers),
                "radii": tuple(Length(outer.radius) for outer in outers),
                "free": tuple(Angle(outer.free) for outer in outers),
                "less": tuple(Angle(made.state.free_angle - outer.free) for outer in outers),
                "rubbed": Share(float(rubbing(made.setup, bars, np.array([reached]))[0]) - 1.0),
                "springs": Angle(springs),
                # One bar n times as thick: n^2 times the moment on n^3 times the stiffness.
                "stuck": Angle(springs / bars),
            },
        )
    ]


def _bar(setup: BendSetup, number: int, bars: int) -> BendSetup:
    t = setup.thickness
    return evolve(
        setup,
        nose_radius=setup.nose_radius + number * t,
        shoulder_radius=setup.shoulder_radius + (bars - 1 - number) * t,
        give=0.0,
    )


def _outer(bar: int, setup: BendSetup, free: float) -> Outer:
    model = build(setup)
    _, bend = settled(half_shape(model, free=free), released_bend(model, free))
    return Outer(bar=bar, radius=setup.nose_radius, free=free, released=bend)


def stack_blanks(
    part: Part,
    settings: BlankSettings,
    inner: Blank,
    bends: Sequence[tuple[MadeBend, tuple[Outer, ...]]],
    sight_offset: float,
) -> tuple[StackBar, ...]:
    """Lay every bar of a stack flat, each round its own radius to its own angle.

    All bars get the legs that the part states, and their marks come under the middle of the nose
    together.

    Parameters
    ----------
    part
        The finished part.
    settings
        How blanks are worked out.
    inner
        Blank of the bar at the nose.
    bends
        As made, each with the other bars of the stack, shape (bends,).
    sight_offset
        As for :func:`strapwright.blank.flat_layout.lay_out` [mm].

    Returns
    -------
    tuple of StackBar
        From the nose outwards; empty where no bars lie on each other.

    Raises
    ------
    InputError
        Where a leg is too short for the larger radius of a bar.
    """
    if part.stacked == 1:
        return ()
    bars = [
        StackBar(
            bar=1,
            blank=inner,
            free=tuple(made.state.free_angle for made, _ in bends),
            radii=tuple(made.setup.nose_radius for made, _ in bends),
        )
    ]
    for outers in zip(*(outers for _, outers in bends), strict=True):
        released = [one.released for one in outers]
        # It opens to an angle of its own, so its legs meet at that one.
        turned = tuple(
            evolve(bend, angle=one.free) for bend, one in zip(part.bends, outers, strict=True)
        )
        try:
            blank = lay_out(
                evolve(part, bends=turned),
                released,
                settings,
                inside_radii=[one.wrap_radius for one in released],
                sight_offset=sight_offset,
            )
        except InputError as error:
            raise InputError(
                "part.stacked",
                f"bar {outers[0].bar} from the nose cannot be laid flat: {error.marked[0]}",
                "stack fewer bars, or lengthen the leg",
                value=str(part.stacked),
            ) from None
        bars.append(
            StackBar(
                bar=outers[0].bar,
                blank=blank,
                free=tuple(one.free for one in outers),
                radii=tuple(one.radius for one in outers),
            )
        )
    return tuple(bars)


def _too_thick(where: BendAt, bars: int) -> InputError:
    return InputError(
        "part.stacked",
        f"{bars} bars on each other jam between nose and shoulders before {where} is made",
        "stack fewer, or open the shoulders",
        value=str(bars),
    )
