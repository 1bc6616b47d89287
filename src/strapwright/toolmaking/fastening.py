"""What welds and bolts of a member see: across, along, and tilting."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from strapwright.shop.members import Bolt, Weld
from strapwright.toolmaking.carriers import carrier_share
from strapwright.toolmaking.values import Bench, Load


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
    if held.holds in {"shoulders", "cheeks"}:
        height = held.height or bench.tooling.shoulders.height or 0.0
        for load in bench.centred:
            yield Held(load=load, across=load.outward, tilt=load.outward * height)
        return
    members = bench.tooling.members
    guided = members is not None and members.guides is not None
    if held.holds == "push plate" and not guided:
        for load in bench.pushes:
            if load.offset > 0.0:
                yield Held(load=load, tilt=load.force * load.offset)
    if bench.retract is not None:
        pull = bench.retract.force
        if held.holds == "carriers":
            pull = carrier_share(bench, bench.retract) or pull
        yield Held(load=bench.retract, along=pull)


def lacks_height(bench: Bench, held: Weld | Bolt) -> bool:
    """Whether the lever of the wedge is stated nowhere."""
    sideways = held.holds in {"shoulders", "cheeks"}
    return sideways and held.height is None and bench.tooling.shoulders.height is None
