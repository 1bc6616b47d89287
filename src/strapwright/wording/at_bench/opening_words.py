"""Words for opening a bend that was pushed too far."""

from __future__ import annotations

import math

from strapwright.planning.bench_work.opening_a_bend import Opening
from strapwright.wording.reader import Reader
from strapwright.wording.steps.bench_work_words import lever_words


def opening_words(found: Opening, reader: Reader) -> tuple[str, ...]:
    """Say how a bend is opened, a sentence or a few each.

    Parameters
    ----------
    found
        As worked out.
    reader
        Who reads it.
    """
    show = reader.figures
    least, most = (max(round(math.degrees(one)), 1) for one in (found.least, found.most))
    spring = f"{least}°" if least == most else f"{least} to {most}°"
    over = show.angle(found.stands - found.wanted)
    pipe = "" if found.arm <= found.leg else ", with a pipe over the leg"
    vise = (
        f"In the vise: clamp leg {found.clamped} with the jaws right beside the bend and pull leg "
        f"{found.pulled} back. It takes up to {show.pull(found.force)} at "
        f"{lever_words(found.arm, reader)} from the bend{pipe}, and may begin to move at half of "
        "that."
    )
    steps = (
        f"Stop first at {show.angle(found.first)}, release and measure. It springs back by about "
        f"{spring}, which is not tested: a bend that goes back starts softer. Then go 1° further "
        "at a time."
    )
    said = [f"It is {over} too far, and the ram does not bend back.", vise, steps]
    if found.press is not None:
        gauge = ""
        if found.press.gauge is not None:
            gauge = f", {show.pressure_up(found.press.gauge)} on the pressure gauge"
        said.append(
            "Or on the press: turn the part over, so that it sits on the shoulders like a tent "
            f"with the bend under the nose. Push {show.setting(found.press.travel)} from first "
            f"contact, release and measure. It takes up to {show.force(found.press.force)}{gauge}."
        )
    stretch, elongation = (round(100.0 * one) for one in (found.stretch, found.elongation))
    said.append(
        f"Open a bend once only. Its outside has then been worked by about {stretch} %, and this "
        f"metal stretches {elongation} % in a tensile test: look there for cracks."
    )
    return tuple(said)
