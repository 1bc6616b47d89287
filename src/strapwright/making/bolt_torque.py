"""What each stated bolt is tightened with: 75 % of its proof load, dry and oiled."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.catalog.bolts import find_grade, lowest_grade, tightening
from strapwright.catalog.thread_sizes import find_thread
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM, POUND_N
from strapwright.shop.members import Members

_FOOT_POUND = 12 * INCH_MM * POUND_N  # N mm, exact


def torque_notes(members: Members | None, units: Units) -> Iterator[str]:
    """Say what each group of stated bolts is tightened with.

    Parameters
    ----------
    members
        As stated, or ``None``.
    units
        Of the job.
    """
    for number, bolt in enumerate(() if members is None else members.bolt, start=1):
        where = f"tooling.members.bolt[{number}]"
        thread = find_thread(bolt.size, f"{where}.size")
        name = bolt.grade or lowest_grade(thread)
        grade = find_grade(name, thread, f"{where}.grade")
        dry, oiled = (
            torque_words(tightening(thread, grade, how), units) for how in ("dry", "oiled")
        )
        unmarked = "" if bolt.grade else ", the lowest, because no grade is entered"
        yield (
            f"Tighten the bolts of the {bolt.holds}, {thread.name} grade {name}{unmarked}, to 75 % "
            f"of proof: {dry} dry, {oiled} with oiled threads. A torque wrench is good to about a "
            "quarter."
        )


def torque_words(torque: float, units: Units) -> str:
    """Print a torque [N mm] rounded down to two digits, so that no bolt is torn for a rounding."""
    size, unit = (torque / _FOOT_POUND, "lbf ft") if units == "inch" else (torque / 1e3, "N m")
    step = 10 ** max(len(str(int(size))) - 2, 0)
    return f"{int(size / step) * step} {unit}"
