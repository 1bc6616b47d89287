"""Read what people type into exact numbers in the units inside."""

from __future__ import annotations

import re
from fractions import Fraction

from attrs import evolve

from strapwright.errors import InputError
from strapwright.quantities.chains import scan_chain
from strapwright.quantities.numbers import VULGAR, Source, scan_number, scan_sign, source
from strapwright.quantities.units import (
    ANGLE,
    AREA_RATE,
    FLOW,
    FORCE,
    KINDS,
    LENGTH,
    PRESSURE,
    RATIO,
    VOLUME,
    Kind,
    Units,
)

_TOKEN = re.compile(r"\s*[+-]?\s*(?P<number>[0-9][0-9.,']*)")
_GROUPED = re.compile(r"[0-9]{1,3}(?P<sign>[.,'])[0-9]{3}(?:(?P=sign)[0-9]{3})*(?:[.,][0-9]*)?")
_DECIMAL_COMMA = re.compile(r"(?:0+,[0-9]+|[0-9]+,(?:[0-9]{1,2}|[0-9]{4,}))")
_FEW_PSI = re.compile(r"\s*[1-9][0-9]?\.[0-9]{3}\s*(?:psi)?\s*", re.IGNORECASE)
_LONGEST = 40  # characters; nobody writes a longer dimension, and a slip can paste a page


def read_length(text: str | float, where: str, units: Units | None = None) -> Fraction:
    """Read a length, e.g. ``1-1/2 in``, ``3' 4-1/2"``, ``38 mm``.

    Parameters
    ----------
    text
        As typed; a number is taken by its shortest decimal form.
    where
        Key path, flag or field, for the message.
    units
        Unit system for a number without a unit (inch: in, metric: mm); ``None`` refuses it.

    Returns
    -------
    Fraction
        Exact [mm]; may be zero or negative.

    Raises
    ------
    InputError
        Where the text is not one length.
    """
    return _read(text, where, LENGTH, units)


def read_angle(text: str | float, where: str, units: Units | None = None) -> Fraction:
    """Read an angle, e.g. ``5 deg``, ``5°``, ``5° 30'``; a number without a unit is degrees.

    Parameters
    ----------
    text, where
        As for :func:`read_length`.
    units
        Metric takes a decimal comma.

    Returns
    -------
    Fraction
        Exact [deg].

    Raises
    ------
    InputError
        Where the text is not one angle.
    """
    return _read(text, where, ANGLE, units)


def read_pressure(text: str | float, where: str, units: Units | None = None) -> Fraction:
    """Read a pressure, e.g. ``2500 psi``, ``172 bar``, ``17.2 MPa``.

    Without a unit: psi (inch), bar (metric).

    Returns
    -------
    Fraction
        Exact [MPa].

    Raises
    ------
    InputError
        Where the text is not one pressure.
    """
    return _read(text, where, PRESSURE, units)


def read_force(text: str | float, where: str, units: Units | None = None) -> Fraction:
    """Read a force, e.g. ``12 tons (US)``, ``100 kN``; a ton that is not named is refused.

    Without a unit: lbf (inch), N (metric).

    Returns
    -------
    Fraction
        Exact [N].

    Raises
    ------
    InputError
        Where the text is not one force.
    """
    return _read(text, where, FORCE, units)


def read_flow(text: str | float, where: str, units: Units | None = None) -> Fraction:
    """Read a flow, e.g. ``2 gpm`` (US), ``8 L/min``, ``130 cc/s``.

    Without a unit: gpm (inch), L/min (metric).

    Returns
    -------
    Fraction
        Exact [mm3/s].

    Raises
    ------
    InputError
        Where the text is not one flow.
    """
    return _read(text, where, FLOW, units)


def read_volume(text: str | float, where: str, units: Units | None = None) -> Fraction:
    """Read a volume, e.g. ``10 in3``, ``160 cm3``.

    Without a unit: in3 (inch), cm3 (metric).

    Returns
    -------
    Fraction
        Exact [mm3].

    Raises
    ------
    InputError
        Where the text is not one volume.
    """
    return _read(text, where, VOLUME, units)


def read_area_rate(text: str | float, where: str, units: Units | None = None) -> Fraction:
    """Read an area sawn in a minute, e.g. ``1 in2/min``, ``600 mm2/min``; its unit is needed.

    Returns
    -------
    Fraction
        Exact [mm2 a minute].

    Raises
    ------
    InputError
        Where the text is not one such rate.
    """
    return _read(text, where, AREA_RATE, units)


def read_ratio(text: str | float, where: str) -> Fraction:
    """Read a ratio, e.g. ``0.95`` or ``95 %``.

    Returns
    -------
    Fraction
        Exact [-].

    Raises
    ------
    InputError
        Where the text is not one ratio.
    """
    return _read(text, where, RATIO, None)


def pointed(text: str, units: Units | None) -> str:
    """Return a plain number with a decimal comma made a point, where it can be nothing else."""
    number = text.strip()
    if units == "metric" and _DECIMAL_COMMA.fullmatch(number):
        return number.replace(",", ".")
    return number


def positive(value: Fraction, where: str, text: str | float, what: str) -> Fraction:
    """Return a value that must be above zero.

    Parameters
    ----------
    value
        As read.
    where, text
        Key path and the text as typed, for the message.
    what
        Its name, e.g. ``thickness``.

    Raises
    ------
    InputError
        Where the value is zero or negative.
    """
    if value <= 0:
        is_what = "0" if value == 0 else "negative"
        raise InputError(where, f"the {what} is {is_what}", "give a value above 0", value=str(text))
    return value


def _read(text: object, where: str, kind: Kind, units: Units | None) -> Fraction:
    if isinstance(text, bool) or not isinstance(text, str | int | float):
        raise InputError(
            where,
            f"this is not {kind.article}",
            f"write for example {kind.example}",
            value=str(text).lower() if isinstance(text, bool) else type(text).__name__,
        )
    if not isinstance(text, str):
        return _plain_number(text, where, kind, units)
    src = source(text, where)
    if not text.strip():
        raise src.refuse("this is empty", f"write for example {kind.example}")
    if len(text) > _LONGEST:
        raise src.refuse(
            f"this has {len(text)} characters, more than {_LONGEST}",
            f"write {kind.article} only, for example {kind.example}",
        )
    src = _separated(src, kind, units)
    if "," in src.text:
        raise _comma(src)
    sign, at = scan_sign(src.text)
    value, end = scan_number(src, at, kind.example)
    chained = scan_chain(src, value, end, kind)
    if chained is None:
        return sign * value * _factor(src, end, kind, units)
    return sign * chained


def _plain_number(number: float, where: str, kind: Kind, units: Units | None) -> Fraction:
    if not abs(number) < 10**_LONGEST:  # also catches what is not a number
        raise InputError(
            where,
            f"this number is not {kind.article}",
            f"write for example {kind.example}",
            # Only a finite number less itself is 0; a huge integer has no short text.
            value=f"over {_LONGEST} digits" if number - number == 0 else str(number),
        )
    # The shortest decimal form is what the person wrote; the binary value is not.
    value = Fraction(repr(number))
    return value * _bare(source(repr(number), where), len(repr(number)), kind, units)


def _separated(src: Source, kind: Kind, units: Units | None) -> Source:
    """Return the text with a decimal comma made a point, where it can be nothing else.

    In a metric text ``1,5`` is one and a half; ``1,500`` may be fifteen hundred, and is refused.
    """
    token = _TOKEN.match(src.text)
    number = "" if token is None else token["number"]
    if units == "metric" and _DECIMAL_COMMA.fullmatch(number):
        return evolve(src, text=src.text.replace(",", ".", 1))
    grouped = _GROUPED.fullmatch(number)
    marks = {one for one in number if not one.isdigit()}
    if grouped is not None and ("'" in marks or len(marks) > 1 or number.count(".") > 1):
        raise _thousands(src, number, grouped["sign"], kind)
    in_psi = units == "inch" or "psi" in src.text.lower()
    if kind is PRESSURE and in_psi and _FEW_PSI.fullmatch(src.text):
        joined, plain = number.replace(".", ""), f"{float(number):g}"
        raise src.refuse(
            f"this reads as {plain} psi, less than a press has",
            f"write {joined} psi, or {plain} psi if you mean so little",
        )
    return src


def _thousands(src: Source, number: str, sign: str, kind: Kind) -> InputError:
    """Refuse a number with a sign for thousands, and name what it reads as."""
    whole = number.replace(sign, "").replace(",", ".")
    reading = whole.rstrip("0").rstrip(".") if "." in whole else whole
    names = {".": "a point", ",": "a comma", "'": "an apostrophe"}
    feet = f", or {number.partition(sign)[0]} ft" if sign == "'" and kind is LENGTH else ""
    return src.refuse(
        f"this reads as {reading}, with {names[sign]} for thousands",
        f"write {reading}{feet or ' without it'}",
    )


def _comma(src: Source) -> InputError:
    at = src.text.index(",")
    if not src.text.isprintable():
        return src.refuse("there is a comma", "write a point there, or leave it out", at)
    pointed = src.text.strip().replace(",", ".", 1)
    joined = src.text.strip().replace(",", "")
    groups = src.text.strip().split(" ")[0].split(",")
    thousands = len(groups[0]) <= 3 and all(len(one) == 3 and one.isdigit() for one in groups[1:])
    remedy = f"write {joined}, or {pointed} if it was a decimal" if thousands else ""
    return src.refuse("there is a comma", remedy or f"write {pointed}", at)


def _bare(src: Source, end: int, kind: Kind, units: Units | None) -> Fraction:
    factor = kind.bare.get(units, kind.bare.get(None))
    if factor is None:
        raise src.refuse(
            f"the unit is missing after character {end}",
            f"write it with its unit, for example {kind.example}",
        )
    return factor


def _factor(src: Source, end: int, kind: Kind, units: Units | None) -> Fraction:
    """Factor of the unit that fills the rest of the text."""
    rest = src.text[end:].strip()
    if not rest:
        return _bare(src, len(src.text.rstrip()), kind, units)
    at = src.text.index(rest, end)
    unit = " ".join(rest.split())
    refusal = kind.refusal(unit)
    if refusal is not None:
        problem, remedy = refusal
        raise src.refuse(f"{unit!r} at character {at + 1} {problem}", remedy)
    factor = kind.factor(unit)
    if factor is None:
        raise _no_unit(src, at, unit, kind)
    return factor


def _no_unit(src: Source, at: int, unit: str, kind: Kind) -> InputError:
    if unit[0] == "/":
        return src.refuse("there is a '/' too many", "write one fraction like 1-1/2", at)
    if unit[0] == ".":
        return src.refuse("there is a point without a digit after it", "write for example 1.5", at)
    if unit[0] in "-+0123456789" or unit[0] in VULGAR:
        return src.refuse(
            "a second number starts", f"write one value, for example {kind.example}", at
        )
    for other in KINDS:
        if other is not kind and (other.factor(unit) or other.refusal(unit)):
            return src.refuse(
                f"{unit!r} at character {at + 1} is a unit of {other.article}, "
                f"but {kind.article} is wanted",
                f"write for example {kind.example}",
            )
    return src.refuse(f"{unit!r} is not a known unit", f"write for example {kind.example}", at)
