"""What welds and bolts of a member see: across, along, and tilting."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from strapwright.shop.members import Bolt, Weld
from strapwright.shop.tooling import Tooling
from strapwright.strength.carriers import carrier_share, one_end_lever
from strapwright.strength.check_values import Bench, Load
from strapwright.strength.statics.seat_loads import beside_of, end_couple, root_moment


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
    lengthwise
        Whether it tips along the runs of a weld, end to end, and not across them.
    """

    load: Load
    across: float = 0.0
    along: float = 0.0
    tilt: float = 0.0
    lengthwise: bool = False


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
    """What push and wedge ask of what holds the shoulders.

    The push presses the joint shut beside its middle, and the couple is taken whole.
    """
    height = held.height or bench.tooling.shoulders.height or 0.0
    for load in bench.centred:
        if held.holds == "side plates":
            yield Held(load=load, across=side_plate_share(bench.tooling, load, held))
        else:
            beside = beside_of(bench.tooling, held)
            tilt, _, _ = root_moment(bench.tooling, load, height, beside)
            yield Held(load=load, across=load.outward, tilt=tilt)


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
            # A web stands along the nose, and so do its runs; the bar lies off along the nose too.
            yield Held(load=load, tilt=load.force * load.offset, lengthwise=held.holds == "web")


def side_plate_share(tooling: Tooling, load: Load, held: Weld | Bolt) -> float:
    """Force along a side plate on the end of one cheek, as if all its fastenings shared it [N].

    Two plates share the wedge; the couple on the end of the cheek falls to two rows, M/s each,
    which is set against half of the fastenings.  Rows whose distance is not stated are refused by
    :func:`lacks_height`.
    """
    couple = end_couple(tooling, load, beside_of(tooling, held), held.height or 0.0)
    return load.outward / 2 + (2 * couple / held.spacing if held.spacing else 0.0)


def lacks_height(bench: Bench, held: Weld | Bolt) -> bool:
    """Whether the lever of the wedge, or what stands against it at an end, is stated nowhere."""
    if held.holds == "side plates":
        return held.height is None or held.spacing is None
    sideways = held.holds in {"shoulders", "cheeks"}
    return sideways and held.height is None and bench.tooling.shoulders.height is None


def lacking(held: Weld | Bolt, root: str) -> str:
    """What to state where :func:`lacks_height`; ``root`` is what the height is from."""
    if held.holds == "side plates":
        return "state height, from the middle of the rows to where the bar pushes, and spacing"
    return f"state height, from the {root} to where the bar pushes"
