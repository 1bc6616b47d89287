"""What welds and bolts of a member see: across, along, and tilting."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from strapwright.shop.members import Bolt, Weld
from strapwright.strength.carriers import carrier_share, one_end_lever
from strapwright.strength.check_values import Bench, Load


@frozen(kw_only=True)
class Held:
    """Forces on the fastening of one member.

    Attributes
    ----------
    load
        The case.
    across
        Along the joint's face [N].
    along
        Away from it [N].
    tilt
        Moment that would tip the member over [N mm].
    """

    load: Load
    across: float = 0.0
    along: float = 0.0
    tilt: float = 0.0


def held_loads(bench: Bench, held: Weld | Bolt) -> Iterator[Held]:
    """Give what a fastening sees in each load case.

    The push presses carriers, plate and nose on their faces; what presses a joint shut is not set
    against what tips it, which is on the safe side.

    Parameters
    ----------
    bench
        Tooling and loads.
    held
        The welds or bolts.
    """
    if held.holds in {"shoulders", "cheeks", "side plates"}:
        yield from _spread(bench, held)
        return
    yield from _tilted(bench, held)
    if bench.retract is not None:
        pull = bench.retract.force
        if held.holds == "carriers":
            pull = carrier_share(bench, bench.retract) or pull
        tilt = 0.0
        if held.holds == "carriers" and bench.tooling.nose.held == "one end":
            tilt = pull * (one_end_lever(bench, bench.retract) or 0.0)
        yield Held(load=bench.retract, along=pull, tilt=tilt)


def _spread(bench: Bench, held: Weld | Bolt) -> Iterator[Held]:
    """What the wedge asks of what keeps the shoulders from spreading."""
    height = held.height or bench.tooling.shoulders.height or 0.0
    for load in bench.centred:
        if held.holds == "side plates":
            yield Held(load=load, across=side_plate_share(load, held))
        else:
            yield Held(load=load, across=load.outward, tilt=load.outward * height)


def _tilted(bench: Bench, held: Weld | Bolt) -> Iterator[Held]:
    """What a push beside the middle of a joint asks of it."""
    members = bench.tooling.members
    guided = members is not None and members.guides is not None
    for load in bench.pushes:
        if held.holds == "carriers" and bench.tooling.nose.held == "one end":
            yield Held(load=load, tilt=load.force * (one_end_lever(bench, load) or 0.0))
        elif load.offset > 0.0 and (
            held.holds == "web" or (held.holds == "push plate" and not guided)
        ):
            yield Held(load=load, tilt=load.force * load.offset)


def side_plate_share(load: Load, held: Weld | Bolt) -> float:
    """Force along a side plate on the end of one cheek, as if all its fastenings shared it [N].

    Two plates share the wedge; where it pushes above the middle of the rows, the upper row takes
    H/2 (1/2 + e/s), which is set against half of the fastenings.
    """
    above = 0.0 if held.spacing is None else 2 * (held.height or 0.0) / held.spacing
    return load.outward / 2 * (1 + above)


def lacks_height(bench: Bench, held: Weld | Bolt) -> bool:
    """Whether the lever of the wedge is stated nowhere."""
    if held.holds == "side plates":
        return held.height is None or (held.spacing is None and held.height > 0.0)
    sideways = held.holds in {"shoulders", "cheeks"}
    return sideways and held.height is None and bench.tooling.shoulders.height is None
