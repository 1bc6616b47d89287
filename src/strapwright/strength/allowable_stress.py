"""What a steel may see, and the making of checks from it."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.catalog.materials import Grade
from strapwright.catalog.steels import Steel, find_steel
from strapwright.quantities.inside_units import InsideUnit
from strapwright.shop.member_names import MemberName
from strapwright.strength.check_values import Check, Input, Load

# AISC 360 chapters D, F, G, J: allowable strength design, the factor on first yield, on bearing and
# on breaking.
ON_YIELD = 1.67
SHEAR_SHARE = 0.6
ON_BEARING = 2.0
BEARING_SHARE = 1.8
ON_BREAKING = 2.0


@frozen(kw_only=True)
class Part:
    """A member as its checks name it.

    Attributes
    ----------
    name
        ``push plate``.
    where
        Key path.
    steel
        What it is made of.
    """

    name: MemberName
    where: str
    steel: Steel

    def checked(
        self,
        what: str,
        load: Load,
        *,
        demand: float,
        capacity: float,
        unit: InsideUnit,
        formula: str,
        allowed: str,
        source: str,
        grade: Grade,
        inputs: tuple[Input, ...],
        factors: tuple[tuple[str, float], ...] = (),
        grows: float = 1.0,
        breaks: bool = True,
    ) -> Check:
        """Return a check of this member; arguments as the fields of :class:`Check`."""
        return Check(
            member=self.name,
            what=what,
            case=load.case,
            off_centre=load.offset != 0.0,
            demand=demand,
            capacity=capacity,
            unit=unit,
            factors=factors,
            formula=formula,
            allowed=allowed,
            source=source,
            grade=grade,
            inputs=(("F", load.force, "N"), *inputs),
            where=self.where,
            grows=grows,
            breaks=breaks,
        )

    def bending(
        self, load: Load, stress: float, formula: str, *inputs: Input, what: str = "bending"
    ) -> Check:
        """Hold a bending stress [MPa] to the core's yield over 1.67."""
        source = "AISC 360 F1, first yield"
        return self._on_yield(what, load, stress, formula, inputs, source=source)

    def shear(
        self, load: Load, stress: float, formula: str, *inputs: Input, what: str = "shear"
    ) -> Check:
        """Hold a peak shear stress [MPa] to 0.6 of the core's yield over 1.67."""
        return self._on_yield(
            what, load, stress, formula, inputs, source="AISC 360 G1",
            share=SHEAR_SHARE, allowed="0.6 Re/1.67",
        )  # fmt: skip

    def direct(self, what: str, load: Load, stress: float, formula: str, *inputs: Input) -> Check:
        """Hold a direct stress [MPa], tension or with bending, to the core's yield over 1.67."""
        source = "AISC 360 D2 and H1, first yield"
        return self._on_yield(what, load, stress, formula, inputs, source=source)

    def combined(
        self, what: str, load: Load, stress: float, shear: float, formula: str, *inputs: Input
    ) -> Check:
        """Hold a direct and a shear stress at one place [MPa] to the core's yield over 1.67.

        sqrt(s^2 + 3 t^2), what yields as a bar pulled by as much does (von Mises).
        """
        source = "von Mises, first yield; 1.67 of AISC 360 H3.3"
        both = math.sqrt(stress**2 + 3 * shear**2)
        return self._on_yield(what, load, both, formula, inputs, source=source)

    def _on_yield(
        self,
        what: str,
        load: Load,
        stress: float,
        formula: str,
        inputs: tuple[Input, ...],
        *,
        source: str,
        share: float = 1.0,
        allowed: str = "Re/1.67",
    ) -> Check:
        """Hold a stress [MPa] to a share of the core's yield over 1.67."""
        strength = self.steel.yield_strength
        return self.checked(
            what,
            load,
            demand=stress,
            capacity=share * strength / ON_YIELD,
            unit="MPa",
            formula=formula,
            allowed=allowed,
            source=source,
            grade="standard",
            inputs=(*inputs, ("Re", strength, "MPa")),
            factors=(("safety on yield", ON_YIELD),),
        )

    def bearing(
        self, load: Load, stress: float, formula: str, *inputs: Input, what: str = "bearing"
    ) -> Check:
        """Hold a pressure in a hole [MPa] to 1.8 of the core's yield over 2."""
        strength = self.steel.yield_strength
        return self.checked(
            what,
            load,
            demand=stress,
            capacity=BEARING_SHARE * strength / ON_BEARING,
            unit="MPa",
            formula=formula,
            allowed="1.8 Re/2",
            source="AISC 360 J7",
            grade="standard",
            inputs=(*inputs, ("Re", strength, "MPa")),
            factors=(("safety on bearing", ON_BEARING),),
        )


def part(name: MemberName, key: str, material: str) -> Part:
    """Return a member by name, its key under ``tooling.members`` and its steel."""
    where = f"tooling.members.{key}"
    return Part(name=name, where=where, steel=find_steel(material, f"{where}.material"))
