"""Printing and reading are exact inverses where the printed form holds the value."""

from __future__ import annotations

import math
import unicodedata
from fractions import Fraction

from hypothesis import example, given
from hypothesis import strategies as st

from strapwright.errors import InputError
from strapwright.quantities import (
    read_angle,
    read_force,
    read_length,
    read_pressure,
    round_band,
    round_to_band,
    show_force,
    show_inch_parts,
    show_length,
    show_pressure,
)
from strapwright.quantities.numbers import VULGAR

INCH = Fraction(254, 10)
WHOLE = st.integers(-200_000, 200_000)


@given(WHOLE, st.sampled_from([16, 32, 64]))
def test_fractions_of_an_inch_come_back(steps: int, denominator: int) -> None:
    mm = Fraction(steps, denominator) * INCH
    shown = show_length(mm, f"1/{denominator}")  # type: ignore[arg-type]
    assert read_length(shown, "w") == mm
    # A float of the same length prints the same.
    assert show_length(float(mm), f"1/{denominator}") == shown  # type: ignore[arg-type]


@given(WHOLE)
def test_decimals_come_back(steps: int) -> None:
    assert read_length(show_length(Fraction(steps, 10), "mm"), "w") == Fraction(steps, 10)
    inches = Fraction(steps, 1000) * INCH
    assert read_length(show_length(inches, "decimal"), "w") == inches


@given(st.floats(-1e5, 1e5), st.sampled_from([16, 32, 64]))
def test_the_parts_add_up_and_are_nearest(mm: float, denominator: int) -> None:
    whole, num, den, remainder = show_inch_parts(mm, denominator)
    parts = (whole + Fraction(num, den)) * INCH
    assert math.isclose(float(parts) + remainder, mm, rel_tol=1e-12, abs_tol=1e-12)
    assert abs(remainder) <= 25.4 / denominator / 2 * (1 + 1e-12)
    assert abs(num) < den
    assert math.gcd(num, den) == 1
    assert denominator % den == 0
    assert whole * num >= 0


@given(st.integers(-20_000, 20_000))
def test_psi_is_exact(psi: int) -> None:
    mpa = read_pressure(f"{psi} psi", "w")
    assert mpa * INCH**2 == read_force(f"{psi} lbf", "w")  # a pound-force on a square inch
    assert show_pressure(mpa, "psi") == f"{psi} psi"
    assert read_pressure(show_pressure(mpa, "inch"), "w") == mpa


@given(st.integers(1, 500), st.sampled_from(["tons (US)", "tonnes", "kN", "lbf", "N"]))
def test_forces_come_back(number: int, unit: str) -> None:
    newtons = read_force(f"{number} {unit}", "w")
    assert read_force(show_force(newtons, unit), "w") == newtons  # type: ignore[arg-type]


@given(st.integers(0, 99), st.integers(0, 11), st.integers(0, 63))
def test_feet_and_inches_add_up(feet: int, inches: int, part: int) -> None:
    expected = (12 * feet + inches + Fraction(part, 64)) * INCH
    assert read_length(f"{feet}' {inches}-{part}/64\"", "w") == expected
    assert read_length(f"-{feet} ft {inches} {part}/64 in", "w") == -expected


@given(st.integers(0, 99), st.sampled_from(sorted(VULGAR)))
def test_built_up_fractions_equal_typed_ones(whole: int, sign: str) -> None:
    value = VULGAR[sign]
    typed = f"{whole} {value.numerator}/{value.denominator} in"
    assert read_length(f"{whole}{sign} in", "w") == read_length(typed, "w")

    assert math.isclose(float(value), unicodedata.numeric(sign), rel_tol=1e-9)


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e39, max_value=1e39))
def test_a_float_is_its_shortest_decimal(number: float) -> None:
    assert float(read_length(number, "w", "metric")) == number


@given(st.text(max_size=50))
@example("3' 4 \N{FULLWIDTH DIGIT FIVE}in")
@example("1\n1/2 in")
@example("0' '")
@example("5° 30' 20")
def test_any_text_reads_or_is_refused_in_one_sentence(text: str) -> None:
    for read in (lambda t: read_length(t, "w", "inch"), lambda t: read_angle(t, "w")):
        try:
            value = read(text)
        except InputError as error:
            assert error.problem  # noqa: PT017
            assert error.remedy  # noqa: PT017
        else:
            assert isinstance(value, Fraction)


PIECES = st.sampled_from(
    [
        "1",
        "2",
        "3/8",
        "-",
        "+",
        " ",
        "/",
        ".",
        "'",
        '"',
        "''",
        "ft",
        "in",
        "mm",
        "½",
        "0",
        "deg",
        "°",
    ]
)


@given(st.lists(PIECES, max_size=8).map("".join))
def test_pieces_of_lengths_read_or_are_refused(text: str) -> None:
    for read in (lambda t: read_length(t, "w", "inch"), lambda t: read_angle(t, "w")):
        try:
            value = read(text)
        except InputError as error:
            assert error.value == text  # noqa: PT017
        else:
            assert (value < 0) <= ("-" in text)


@given(
    st.floats(-1e6, 1e6),
    st.floats(1e-6, 1e5),
    st.floats(0, 1),
)
def test_rounding_stays_within_a_quarter_of_the_band(value: float, width: float, at: float) -> None:
    low = value - at * width
    high = low + width
    shown = round_to_band(value, low, high)
    quarter = (Fraction(high) - Fraction(low)) / 4
    assert abs(Fraction(shown) - Fraction(value)) <= quarter or quarter == 0


@given(
    st.floats(-1e5, 1e5),
    st.floats(1e-3, 1e4),
    st.floats(0.0, 1.0),
)
def test_a_band_prints_as_two_ends_about_its_value(value: float, width: float, at: float) -> None:
    low = value - at * width
    high = low + width
    middle = min(max(value, low), high)
    shown, first, last = map(Fraction, round_band(middle, low, high))
    assert first <= shown <= last
    assert first < last
    wide = Fraction(high) - Fraction(low)
    # As documented: each number moves by no more than a tenth of the width.
    for printed, exact in ((shown, middle), (first, low), (last, high)):
        assert abs(printed - Fraction(exact)) <= wide / 10
    places = {len(text.partition(".")[2]) for text in round_band(middle, low, high)}
    assert len(places) == 1
