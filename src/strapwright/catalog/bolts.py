"""Bolts: thread by its name, and strength by its grade."""

from __future__ import annotations

import functools
import math
import re
from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Literal, cast

from attrs import frozen

from strapwright.catalog.steels import table_rows
from strapwright.errors import InputError

System = Literal["SAE J429", "ISO 898-1"]

_INCH = 25.4
_KSI = 6.894757293168361  # MPa
# Coarse pitches of ISO 261 [mm], from memory; each agrees with the usual tap drill charts.
_COARSE: Mapping[str, float] = MappingProxyType(
    {
        "4": 0.7,
        "5": 0.8,
        "6": 1.0,
        "8": 1.25,
        "10": 1.5,
        "12": 1.75,
        "14": 2.0,
        "16": 2.0,
        "18": 2.5,
        "20": 2.5,
        "22": 2.5,
        "24": 3.0,
        "27": 3.0,
        "30": 3.5,
        "33": 3.5,
        "36": 4.0,
    }
)
_UNIFIED = re.compile(r"(?P<size>\d+(?:[-\s]\d+/\d+|/\d+)?)\s*-\s*(?P<tpi>\d+)(?:\s*UN[CFR]*)?")
_METRIC = re.compile(r"M\s*(?P<size>\d+(?:\.\d+)?)(?:\s*[xX]\s*(?P<pitch>\d+(?:\.\d+)?))?")


@frozen(kw_only=True)
class Thread:
    """A bolt's thread.

    Attributes
    ----------
    name
        As written.
    system
        Whose grades it carries.
    diameter, pitch
        [mm]
    """

    name: str
    system: System
    diameter: float
    pitch: float

    @property
    def stress_area(self) -> float:
        """Tensile stress area [mm2].

        ASME B1.1 for inch threads, At = pi/4 (D - 0.9743 P)^2; ISO 898-1 clause 9.1.6.1 for metric
        ones, At = pi/4 (D - 0.9382 P)^2.
        """
        share = 0.9743 if self.system == "SAE J429" else 0.9382
        return math.pi / 4 * (self.diameter - share * self.pitch) ** 2

    @property
    def pitch_diameter(self) -> float:
        """D - 0.649519 P [mm]."""
        return self.diameter - 0.649519 * self.pitch


@frozen(kw_only=True)
class BoltGrade:
    """Strength of a grade at one diameter [MPa]."""

    system: System
    name: str
    proof: float
    yield_strength: float
    tensile: float


def read_thread(name: str, where: str) -> Thread:
    """Return the thread of a name such as ``1/2-13``, ``1-1/4-7``, ``M12`` or ``M12x1.25``.

    Parameters
    ----------
    name
        As written.
    where
        Key path, for the message.

    Raises
    ------
    InputError
        Where it is no such name, or a metric size without its pitch that has no coarse one here.
    """
    text = name.strip()
    if inch := _UNIFIED.fullmatch(text):
        size = sum(Fraction(part) for part in re.split(r"[-\s]", inch["size"]) if _sound(part))
        tpi = int(inch["tpi"])
        if 0 < size <= 3 and 4 <= tpi <= 80 and float(size) * tpi > 3:
            return Thread(
                name=text, system="SAE J429", diameter=float(size) * _INCH, pitch=_INCH / tpi
            )
    elif metric := _METRIC.fullmatch(text):
        diameter = float(metric["size"])
        pitch = float(metric["pitch"]) if metric["pitch"] else _COARSE.get(metric["size"], 0.0)
        if 0 < pitch < diameter / 3 and diameter <= 80:
            return Thread(name=text, system="ISO 898-1", diameter=diameter, pitch=pitch)
    raise InputError(
        where,
        "this is not the thread of a bolt",
        'write for example "1/2-13", "1-1/4-7", "M12" or "M12x1.25"',
        value=name,
    )


def _sound(part: str) -> bool:
    """Whether a part of a mixed number has no 0 below its bar."""
    return not re.fullmatch(r"\d+/0+", part)


@functools.cache
def _grades() -> tuple[tuple[float, BoltGrade], ...]:
    """Largest diameter [mm] and strength, the smaller diameters of a grade first."""
    rows = []
    for row in table_rows("bolt_grades.csv"):
        inch = row["system"] == "SAE J429"
        factor = _KSI if row["unit"] == "ksi" else 1.0
        rows.append(
            (
                float(row["up_to"]) * (_INCH if inch else 1.0),
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


def lowest_grade(thread: Thread) -> str:
    """Return the grade to take where a bolt carries no mark."""
    return "1" if thread.system == "SAE J429" else "4.6"


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
    rows = [one for one in _grades() if one[1].system == thread.system]
    known = tuple(dict.fromkeys(grade.name for _, grade in rows))
    if text not in known:
        raise InputError(
            where,
            f"{thread.system} has no such grade for {thread.name}",
            f"write one of {', '.join(known)}",
            value=name,
        )
    for limit, grade in rows:
        if grade.name == text and thread.diameter <= limit * (1 + 1e-9):
            return grade
    raise InputError(
        where,
        f"this grade is not made as thick as {thread.name}",
        "give another grade or a thinner bolt",
        value=name,
    )
