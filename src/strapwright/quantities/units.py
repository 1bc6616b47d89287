"""The units people write, as exact factors to the units inside.

Inside: mm, degrees, MPa, N, mm3/s, mm3.  Every factor is a :class:`fractions.Fraction`, so that
what was typed is kept exactly until the core turns it into a float.

Sources: inch 25.4 mm, pound 0.45359237 kg (international yard and pound agreement of 1959),
standard gravity 9.80665 m/s2 (3rd General Conference on Weights and Measures, 1901), US gallon
231 in3 (US customary measure); pound-force is the product of pound and standard gravity.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from attrs import field, frozen

Units = Literal["inch", "metric"]

INCH = Fraction(254, 10)  # mm
FOOT = 12 * INCH
POUND = Fraction(45359237, 10**8)  # kg
POUND_FORCE = POUND * Fraction(980665, 10**5)  # N
KILOGRAM_FORCE = Fraction(980665, 10**5)  # N
TON_US = 2000 * POUND_FORCE
TONNE_FORCE = 1000 * KILOGRAM_FORCE
PSI = POUND_FORCE / INCH**2  # MPa = N/mm2
CUBIC_INCH = INCH**3  # mm3
GALLON_US = 231 * CUBIC_INCH
_CM3 = Fraction(1000)
_LITRE = Fraction(10**6)
_MINUTE = Fraction(60)  # s


@frozen
class Step:
    """One unit of a chain such as feet, inches; ``factor`` to the unit inside.

    ``write`` is the spelling to propose.
    """

    names: tuple[str, ...]
    factor: Fraction
    write: str


@frozen(kw_only=True)
class Kind:
    """One kind of quantity: what it is called and the units it may be written in.

    Attributes
    ----------
    article
        How it is named in a message, e.g. ``a length``.
    factors
        Unit as written -> exact factor to the unit inside.
    bare
        Factor for a number without a unit, by unit system.
    example
        A sound value, for remedies.
    refused
        Unit as written -> (what is wrong with it, what to write instead).
    chain
        Units that may follow each other, large to small: feet then inches; names long to short.
    """

    article: str
    factors: Mapping[str, Fraction]
    bare: Mapping[Units | None, Fraction]
    example: str
    refused: Mapping[str, tuple[str, str]] = field(factory=dict)
    chain: tuple[Step, ...] = ()

    def factor(self, unit: str) -> Fraction | None:
        """Exact factor of a unit as written, or ``None`` where the kind has no such unit."""
        if unit in self.factors:
            return self.factors[unit]
        return {name.lower(): one for name, one in self.factors.items()}.get(unit.lower())

    def refusal(self, unit: str) -> tuple[str, str] | None:
        """Return problem and remedy of a unit that is not taken, or ``None``."""
        return self.refused.get(unit, self.refused.get(unit.lower()))


def _spread(*groups: tuple[str, Fraction]) -> dict[str, Fraction]:
    """Turn ``("in|inch", factor)`` into one entry a spelling."""
    return {name: factor for names, factor in groups for name in names.split("|")}


_FOOT_NAMES = ("feet", "foot", "ft.", "ft", "'")
_INCH_NAMES = ("inches", "inch", "in.", "in", '"', "''")
_DEGREE_NAMES = ("degrees", "degree", "deg.", "deg", "°")

LENGTH = Kind(
    article="a length",
    factors=_spread(
        ("|".join(_FOOT_NAMES), FOOT),
        ("|".join(_INCH_NAMES), INCH),
        ("thou", INCH / 1000),
        ("mm|millimetre|millimetres|millimeter|millimeters", Fraction(1)),
        ("cm", Fraction(10)),
        ("m|metre|metres|meter|meters", Fraction(1000)),
        ("um|µm|μm", Fraction(1, 1000)),
    ),
    bare={"inch": INCH, "metric": Fraction(1)},
    example="1-1/2 in or 38 mm",
    # In one shop a mil is a thousandth of an inch, in the next a millimetre.
    refused=dict.fromkeys(("mil", "mils"), ("is ambiguous (thou or mm?)", "write thou or mm")),
    chain=(Step(_FOOT_NAMES, FOOT, "ft"), Step(_INCH_NAMES, INCH, "in")),
)

ANGLE = Kind(
    article="an angle",
    factors=_spread(("|".join(_DEGREE_NAMES), Fraction(1))),
    bare={None: Fraction(1)},
    example="90",
    refused={
        "rad": ("is not taken", "write the angle in degrees"),
        "'": ("stands without degrees", "write for example 0° 30'"),
        '"': ("stands without degrees", "write for example 0° 0' 30\""),
    },
    chain=(
        Step(_DEGREE_NAMES, Fraction(1), "deg"),
        Step(("min", "'"), Fraction(1, 60), "min"),
        Step(("sec", "''", '"'), Fraction(1, 3600), "sec"),
    ),
)

PRESSURE = Kind(
    article="a pressure",
    factors=_spread(
        ("psi|lbf/in2|lbf/in²", PSI),
        ("ksi", 1000 * PSI),
        ("bar", Fraction(1, 10)),
        ("MPa|N/mm2|N/mm²", Fraction(1)),
        ("kPa", Fraction(1, 1000)),
        ("GPa", Fraction(1000)),
        ("Pa", Fraction(1, 10**6)),
    ),
    bare={"inch": PSI, "metric": Fraction(1, 10)},
    example="2500 psi or 172 bar",
    refused={"mPa": ("is a thousandth of a pascal", "write MPa for megapascals")},
)

_WHICH_TON = (
    "is ambiguous (US ton or tonne?)",
    "write tons (US) for 2000 lbf or tonnes for 1000 kgf",
)

FORCE = Kind(
    article="a force",
    factors=_spread(
        ("lbf|lb|lbs|pounds", POUND_FORCE),
        ("kip|kips", 1000 * POUND_FORCE),
        ("N|newton|newtons", Fraction(1)),
        ("kN", Fraction(1000)),
        ("kgf", KILOGRAM_FORCE),
        ("tons (US)|ton (US)|US tons|US ton|short tons|short ton", TON_US),
        ("tonnes|tonne", TONNE_FORCE),
    ),
    bare={"inch": POUND_FORCE, "metric": Fraction(1)},
    example="12 tons (US) or 100 kN",
    refused=dict.fromkeys(("ton", "tons", "t", "tonf", "tf"), _WHICH_TON)
    | {"kg": ("is a mass, not a force", "write kgf, or N")},
)

FLOW = Kind(
    article="a flow",
    factors=_spread(
        ("gpm|gpm (US)|gal/min|gal (US)/min", GALLON_US / _MINUTE),
        ("L/min|lpm", _LITRE / _MINUTE),
        ("L/s", _LITRE),
        ("cm3/s|cm³/s|cc/s|ml/s", _CM3),
        ("cm3/min|cm³/min|cc/min|ml/min", _CM3 / _MINUTE),
        ("in3/min|in³/min|cu in/min", CUBIC_INCH / _MINUTE),
        ("in3/s|in³/s|cu in/s", CUBIC_INCH),
        ("mm3/s|mm³/s", Fraction(1)),
    ),
    bare={"inch": GALLON_US / _MINUTE, "metric": _LITRE / _MINUTE},
    example="2 gpm or 8 L/min",
)

VOLUME = Kind(
    article="a volume",
    factors=_spread(
        ("in3|in³|cu in", CUBIC_INCH),
        ("cm3|cm³|cc|ml", _CM3),
        ("mm3|mm³", Fraction(1)),
        ("L|litre|litres|liter|liters", _LITRE),
        ("gal (US)", GALLON_US),
    ),
    bare={"inch": CUBIC_INCH, "metric": _CM3},
    example="10 in3 or 160 cm3",
    refused={"gal": ("is ambiguous (US or imperial?)", "write gal (US) or litres")},
)

AREA_RATE = Kind(
    article="an area in a minute",
    factors=_spread(
        ("in2/min|in²/min|sq in/min", INCH**2),
        ("mm2/min|mm²/min", Fraction(1)),
        ("cm2/min|cm²/min", Fraction(100)),
    ),
    bare={},
    example="1 in2/min or 600 mm2/min",
)

RATIO = Kind(
    article="a ratio",
    factors={"%": Fraction(1, 100)},
    bare={None: Fraction(1)},
    example="0.95 or 95 %",
)

KINDS = (LENGTH, ANGLE, PRESSURE, FORCE, FLOW, VOLUME, AREA_RATE, RATIO)
