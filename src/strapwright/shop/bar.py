"""Bar stock: the section that is bent and the metal it is made of."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

SectionKind = Literal["flat", "square", "round"]


@frozen(kw_only=True)
class Bar:
    """One bar section, lying as it is bent.

    Attributes
    ----------
    section
        ``flat`` (bent on its flat), ``square`` or ``round``.
    thickness
        Depth in the direction of the ram; side of a square, diameter of a round [mm].
    width
        Extent along the nose; equal to ``thickness`` for square and round [mm].
    """

    section: SectionKind
    thickness: float
    width: float


@frozen(kw_only=True)
class Lot:
    """What is known of this batch of bar beyond the name of its material.

    Every field that is ``None`` is taken from the catalog.

    Attributes
    ----------
    yield_strength, tensile_strength
        From a certificate or a test [MPa].
    exponent
        Hardening exponent n of the flow curve [-].
    unloading_ratio
        Modulus on letting go, as a share of the elastic modulus [-].
    thickness
        Measured thickness, where it differs from the nominal [mm].
    """

    yield_strength: float | None = None
    tensile_strength: float | None = None
    exponent: float | None = None
    unloading_ratio: float | None = None
    thickness: float | None = None
