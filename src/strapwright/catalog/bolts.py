"""Bolts: strength by grade and diameter."""

from __future__ import annotations

import functools
from typing import Literal, cast

from attrs import frozen

from strapwright.catalog.steels import table_rows
from strapwright.catalog.thread_sizes import Thread
from strapwright.errors import InputError
from strapwright.quantities.inside_units import INCH_MM, KSI_MPA

Lubrication = Literal["dry", "oiled"]
# Of the proof load, what usual torque tables clamp with; common practice.
CLAMP_SHARE = 0.75
# Torque over clamp and diameter: {torque-guide}, as received and with oiled threads.
_NUT_FACTORS: dict[Lubrication, float] = {"dry": 0.20, "oiled": 0.15}

System = Literal["SAE J429", "ISO 898-1"]


@frozen(kw_only=True)
class BoltGrade:
    """Strength of a grade at one diameter [MPa]."""

    system: System
    name: str
    proof: float
    yield_strength: float
    tensile: float


@functools.cache
def _grades() -> tuple[tuple[float, BoltGrade], ...]:
    """Largest diameter [mm] and strength, the smaller diameters of a grade first."""
    rows = []
    for row in table_rows("bolt_grades.csv"):
        inch = row["system"] == "SAE J429"
        factor = KSI_MPA if row["unit"] == "ksi" else 1.0
        rows.append(
            (
                float(row["up_to"]) * (INCH_MM if inch else 1.0),
                BoltGrade(
                    system=cast("System", row["system"]),
                    name=row["grade"],
                    proof=float(row["proof"]) * factor,
                    yield_strength=float(row["yield"]) * factor,
                    tensile=float(row["tensile"]) * factor,
                ),
            )
        )
    return tuple(rows)


def system_of(thread: Thread) -> System:
    """Return whose grades a thread's bolts carry."""
    return "ISO 898-1" if thread.metric else "SAE J429"


def lowest_grade(thread: Thread) -> str:
    """Return the grade to take where a bolt carries no mark."""
    return "4.6" if thread.metric else "1"


def find_grade(name: str, thread: Thread, where: str) -> BoltGrade:
    """Return the strength of a grade at a thread's diameter.

    Parameters
    ----------
    name
        ``5``, ``8``, ``8.8`` ...
    thread
        The bolt's.
    where
        Key path, for the message.

    Raises
    ------
    InputError
        Where its system has no such grade, or not at this diameter.
    """
    text = name.strip().lower().removeprefix("grade ").removeprefix("class ")
    system = system_of(thread)
    rows = [one for one in _grades() if one[1].system == system]
    known = tuple(dict.fromkeys(grade.name for _, grade in rows))
    if text not in known:
        raise InputError(
            where,
            f"{system} has no such grade for {thread.name}",
            f"write one of {', '.join(known)}",
            value=name,
        )
    for limit, grade in rows:
        if grade.name == text and thread.major <= limit * (1 + 1e-9):
            return grade
    raise InputError(
        where,
        f"this grade is not made as thick as {thread.name}",
        "give another grade or a thinner bolt",
        value=name,
    )


def clamp_load(thread: Thread, grade: BoltGrade) -> float:
    """Return 75 % of proof stress times stress area [N], the clamp of usual torque tables."""
    return CLAMP_SHARE * grade.proof * thread.stress_area


def tightening(thread: Thread, grade: BoltGrade, threads: Lubrication) -> float:
    """Return the torque that clamps with 75 % of proof, T = K D F [N mm].

    Parameters
    ----------
    thread, grade
        The bolt's.
    threads
        ``dry`` as received or ``oiled``.
    """
    return _NUT_FACTORS[threads] * thread.major * clamp_load(thread, grade)
