"""Bar stock: the section that is bent and the metal it is made of."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.keys import key

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
    plateau
        Strain over which the bar yields before it hardens, the Lueders strain [-].
    upper_yield
        Stress at which it first yields, above ``yield_strength`` [MPa].
    unloading_ratio
        Modulus on letting go, as a share of the elastic modulus [-].
    thickness
        Measured thickness, where it differs from the nominal [mm].
    """

    yield_strength: float | None = key(
        "strength",
        name="yield",
        help="from the certificate or a test",
        inch="44 ksi",
        metric="300 MPa",
        label="Yield strength",
        hint="from the certificate",
        group="lot",
    )
    tensile_strength: float | None = key(
        "strength",
        name="tensile",
        help="from the certificate or a test, above the yield strength",
        follows=True,
        inch="66 ksi",
        metric="450 MPa",
        label="Tensile strength",
        hint="from the certificate",
        group="lot",
    )
    exponent: float | None = key(
        "exponent",
        help="hardening exponent of the flow curve, up to {high}",
        inch="0.18",
        label="Hardening exponent",
        group="lot",
        place=1,
        later=True,
    )
    plateau: float | None = key(
        "share",
        zero=True,
        help="strain over which the bar yields before it hardens, as a share; 0 where it has none",
        inch="0.015",
        label="Yield plateau",
        group="lot",
        place=1,
        later=True,
    )
    upper_yield: float | None = key(
        "strength",
        help="where a test shows the bar first yield higher, above its yield strength",
        inch="50 ksi",
        metric="345 MPa",
        label="Upper yield strength",
        group="lot",
        place=1,
        later=True,
    )
    unloading_ratio: float | None = key(
        "share",
        help="stiffness while springing back, as a share of the elastic modulus, up to {high}",
        inch="0.9",
        label="Stiffness on release",
        group="lot",
        place=1,
        later=True,
    )
    thickness: float | None = key(
        "length",
        help="as measured with calipers",
        inch="0.252 in",
        metric="6.1 mm",
        label="Measured thickness",
        hint="measured with calipers; tightens every figure",
        group="lot",
        place=-1,
    )
