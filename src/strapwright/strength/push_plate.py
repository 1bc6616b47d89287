"""The push plate: a plate between the carriers, backed by the ram's face."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import key_of
from strapwright.strength.allowable_stress import part
from strapwright.strength.beams import central_moment, flat_section
from strapwright.strength.carriers import one_end_lever
from strapwright.strength.check_values import Bench, Input, Result, Unchecked

_KEY = "tooling.members.push_plate"


def push_plate_checks(bench: Bench) -> Iterator[Result]:
    """Check bending and shear of the push plate, pushing, off centre too, and pulling back.

    Free body of the half beside the ram's axis: the nearer carrier presses up with F (1/2 + x/L) at
    L/2, half of the pad down at a/4.  M = F (2 L - a)/8 + F x/2; the couple F x goes on to the ram
    or the guides (statics).  Two bolts of the ram are taken to lie on the section.
    """
    members, nose = bench.tooling.members, bench.tooling.nose
    stated = None if members is None else members.push_plate
    if stated is None:
        yield _missing(
            f"state {key_of('tooling.members.push_plate')} with its thickness and width", ""
        )
        return
    if stated.thickness is None or stated.width is None:
        key = "thickness" if stated.thickness is None else "width"
        yield _missing(f"state its {key}", f".{key}")
        return
    pad = stated.pad
    if pad is None:
        pad = 0.0 if bench.press is None or bench.press.rod is None else bench.press.rod
    who = part("push plate", "push_plate", stated.material)
    net = stated.width - _holes(bench)
    if net <= 0.0:
        yield _missing("state a plate wider than the holes of the bolts that pass it", ".width")
        return
    section = flat_section(net, stated.thickness)
    size: tuple[Input, ...] = (("a", pad, "mm"), ("W", section.modulus, "mm3"))
    span = None if members is None or members.nose is None else members.nose.between
    spread_out = nose.web_thickness is None and nose.held == "both ends"
    pushes = bench.pushes if spread_out else bench.centred
    loads = pushes if bench.retract is None else (*pushes, bench.retract)
    for load in loads:
        if nose.web_thickness is not None:
            # The web loads the plate over the bar's width; what stands out past the pad is bent.
            out = max(0.0, (bench.width - pad) / 2)
            moment = load.force / bench.width * out**2 / 2
            formula = "F ((b - a)/2)^2/(2 b W)"
            lever: Input = ("b", bench.width, "mm")
            shear = load.force * out / bench.width
        elif nose.held == "one end":
            # From the ram's axis out to the one carrier, which hands its bending on to the plate.
            far = one_end_lever(bench, load)
            if far is None:
                yield _missing(f"state {key_of('tooling.members.nose.between')}", "")
                return
            moment = load.force * far
            formula = "F c/W"
            lever = ("c", far, "mm")
            shear = load.force
        elif span is None:
            yield _missing(f"state {key_of('tooling.members.nose.between')}", "")
            return
        else:
            # Pulling back, the pad does not spread the load.
            spread = min(pad, span) if load is not bench.retract else 0.0
            moment = central_moment(load.force, span, spread) + load.force * load.offset / 2
            formula = "(F (2 L - a)/8 + F x/2)/W" if load.offset else "F (2 L - a)/(8 W)"
            lever = ("L", span, "mm")
            shear = load.force * (0.5 + load.offset / span)
        off: tuple[Input, ...] = (("x", load.offset, "mm"),) if load.offset else ()
        yield who.bending(load, moment / section.modulus, formula, lever, *size, *off)
        yield who.shear(
            load,
            section.shear_peak * shear / section.area,
            "1.5 V/A",
            ("V", shear, "N"),
            ("A", section.area, "mm2"),
            *off,
        )


def _holes(bench: Bench) -> float:
    """What two bolts that hold the plate to the ram take out of its width [mm].

    A clearance hole is 1.15 bolts wide (common practice).
    """
    members = bench.tooling.members
    bolts = () if members is None else members.bolt
    across = [
        find_thread(one.size, "tooling.members.bolt").major
        for one in bolts
        if one.holds == "push plate"
    ]
    return 2 * 1.15 * max(across, default=0.0)


def _missing(state: str, key: str) -> Unchecked:
    return Unchecked(
        member="push plate", what="bending and shear", state=state, where=f"{_KEY}{key}"
    )
