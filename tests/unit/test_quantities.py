"""What reads, what is refused and in which words, and what is printed."""

from __future__ import annotations

import math
import re
from fractions import Fraction

import pytest

from strapwright.errors import InputError
from strapwright.quantities import (
    positive,
    read_angle,
    read_flow,
    read_force,
    read_length,
    read_pressure,
    read_ratio,
    read_volume,
    round_band,
    round_to_band,
    show_angle,
    show_force,
    show_inch_parts,
    show_length,
    show_pressure,
    show_speed,
)

INCH = Fraction(254, 10)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("1-1/2 in", Fraction(3, 2)),
        ('1 1/2"', Fraction(3, 2)),
        ("1½ in", Fraction(3, 2)),
        ("1-½″", Fraction(3, 2)),
        ("\N{MINUS SIGN}1½″", Fraction(-3, 2)),
        ("1\N{NO-BREAK SPACE}1\N{FRACTION SLASH}2 in.", Fraction(3, 2)),
        ("3' 4-1/2\"", Fraction(81, 2)),
        ("3'-4½\"", Fraction(81, 2)),
        ("3\N{PRIME} 4\N{DOUBLE PRIME}", Fraction(40)),
        ("3 ft 4 1/2 in", Fraction(81, 2)),
        ("-3 ft 6 in", Fraction(-42)),
        ("0' 4''", Fraction(4)),
        ("2.5 ft", Fraction(30)),
        ("3/8 INCH", Fraction(3, 8)),
        ("11/8 in", Fraction(11, 8)),
        (".125in", Fraction(1, 8)),
        ("4 thou", Fraction(4, 1000)),
        ("38 mm", 38 / INCH),
        ("3.8 cm", 38 / INCH),
        ("⅞ in", Fraction(7, 8)),
        ("⅓ in", Fraction(1, 3)),
        ("⅒ in", Fraction(1, 10)),
    ],
)
def test_lengths_read_exactly(text: str, inches: Fraction) -> None:
    assert read_length(text, "part.length") == inches * INCH


def test_a_bare_number_takes_the_unit_of_the_job() -> None:
    assert read_length("3/8", "w", "inch") == Fraction(3, 8) * INCH
    assert read_length("3/8", "w", "metric") == Fraction(3, 8)
    assert read_length(0.1, "w", "metric") == Fraction(1, 10)  # not the binary value
    assert read_length(1e-05, "w", "metric") == Fraction(1, 100000)
    assert read_length(-7, "w", "inch") == -7 * INCH
    assert read_pressure("172", "w", "metric") == read_pressure("172 bar", "w")
    assert read_pressure(2500, "w", "inch") == read_pressure("2500 psi", "w")
    assert read_force("5", "w", "inch") == read_force("5 lbf", "w")
    assert read_force("5", "w", "metric") == 5
    assert read_flow("2", "w", "inch") == read_flow("2 gpm", "w")
    assert read_flow("6", "w", "metric") == 100_000
    assert read_volume("2", "w", "inch") == 2 * INCH**3
    assert read_volume("2", "w", "metric") == 2000
    assert read_angle("5", "w") == read_angle(5, "w") == read_angle("5°", "w") == 5
    assert read_ratio("0.95", "w") == read_ratio("95 %", "w") == Fraction(19, 20)


def test_a_number_with_its_unit_does_not_care_for_the_job() -> None:
    assert read_length("1 in", "w", "metric") == INCH
    assert read_pressure("17.2 MPa", "w", "inch") == Fraction(172, 10)


def test_degrees_and_minutes() -> None:
    assert read_angle("5° 30'", "w") == Fraction(11, 2)
    assert read_angle("-5 deg 30 min 36 sec", "w") == -(5 + Fraction(1, 2) + Fraction(1, 100))


def test_volumes_and_flows() -> None:
    assert read_volume("1 cc", "w") == read_volume("1 ml", "w") == read_volume("1 cm³", "w") == 1000
    assert read_flow("60 in3/min", "w") == INCH**3
    assert read_flow("3 cc/s", "w") == read_flow("3 cm3/s", "w") == 3000
    assert read_flow("231 cu in/min", "w") == read_flow("1 gpm", "w")


READERS = {
    "length": read_length,
    "angle": read_angle,
    "pressure": read_pressure,
    "force": read_force,
    "flow": read_flow,
    "volume": read_volume,
    "ratio": read_ratio,
}


@pytest.mark.parametrize("kind", READERS)
@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "this is empty; write for example"),
        (" \t", "this is empty; write for example"),
        ("wide", "there is no number at character 1; write for example"),
        ("inf", "there is no number at character 1"),
        ("nan", "there is no number at character 1"),
        ("--5", "there is no number at character 2"),
        ("5 parsec", "'parsec' is not a known unit at character 3; write for example"),
        ("1e3", "'e3' is not a known unit at character 2"),
        ("3/0", "the fraction is divided by 0 at character 3; write a fraction like 3/8"),
        ("1 1/2/3", "there is a '/' too many at character 6"),
        ("1,5", "there is a comma at character 2; write 1.5."),
        ("1,500", "comma at character 2; write 1500, or 1.500 if it was a decimal."),
        ("1-2", "a second number starts at character 2"),
        ("1-3/2", "the fraction after the whole number is 1 or more at character 3"),
        ("1.5 1/2", "a second number starts at character 5"),
        ("½½", "a second number starts at character 2"),
        ("5.", "there is a point without a digit after it at character 2"),
        ("\N{SUPERSCRIPT TWO}", "there is no number at character 1"),
        ("\N{ARABIC-INDIC DIGIT FIVE}", "there is no number at character 1"),
        ("1" * 41, "this has 41 characters, more than 40"),
        (math.inf, "'inf': this number is not a"),
        (math.nan, "'nan': this number is not a"),
        (10**40, "'over 40 digits': this number is not a"),
        (True, "'true': this is not a"),
        (None, "'NoneType': this is not a"),
        ([1], "'list': this is not a"),
    ],
)
def test_every_reader_refuses_in_words(kind: str, text: object, words: str) -> None:
    with pytest.raises(InputError, match=re.escape(words)) as caught:
        READERS[kind](text, "job.field")  # type: ignore[operator]
    assert str(caught.value).startswith("job.field ")


@pytest.mark.parametrize(
    ("kind", "text", "words"),
    [
        ("length", "3/8", "the unit is missing after character 3; write it with its unit"),
        ("pressure", 5, "the unit is missing after character 1; write it with its unit"),
        ("length", "12 psi", "'psi' at character 4 is a unit of a pressure, but a length is"),
        ("pressure", "12 in", "'in' at character 4 is a unit of a length, but a pressure is"),
        ("length", "5 t", "'t' at character 3 is a unit of a force, but a length is wanted"),
        ("ratio", "5 deg", "'deg' at character 3 is a unit of an angle, but a ratio is wanted"),
        ("length", "5 mil", "'mil' at character 3 is ambiguous (thou or mm?); write thou or mm"),
        ("length", "3' 14\"", "the part in the smaller unit is 12 or more at character 4"),
        ("length", "3.5' 4\"", "a smaller unit follows a number that is not whole at character 6"),
        ("length", "3' 4", "the last unit is missing after character 4; end it with in."),
        ("length", "3' 4 mm", "'mm' does not fit at character 5; write in there"),
        ("angle", "5° 30", "the last unit is missing after character 5; end it with min."),
        ("angle", "1.57 rad", "'rad' at character 6 is not taken; write the angle in degrees"),
        ("angle", "30'", "stands without degrees; write for example 0° 30'"),
        ("force", "5 kg", "'kg' at character 3 is a mass, not a force; write kgf, or N"),
        ("pressure", "17 mPa", "is a thousandth of a pascal; write MPa for megapascals"),
        ("volume", "1 gal", "'gal' at character 3 is ambiguous (US or imperial?)"),
    ],
)
def test_units_that_do_not_fit(kind: str, text: object, words: str) -> None:
    with pytest.raises(InputError, match=re.escape(words)):
        READERS[kind](text, "job.field")  # type: ignore[operator]


def test_an_integer_too_long_to_print_is_refused_all_the_same() -> None:
    with pytest.raises(InputError, match="'over 40 digits': this number is not a length"):
        read_length(-(10**5000), "w", "inch")


@pytest.mark.parametrize("unit", ["ton", "tons", "t", "T", "TONS", "tonf"])
def test_a_ton_must_say_which(unit: str) -> None:
    words = "is ambiguous (US ton or tonne?); write tons (US) for 2000 lbf or tonnes for 1000 kgf."
    with pytest.raises(InputError, match=re.escape(words)):
        read_force(f"12 {unit}", "press.force", "inch")


@pytest.mark.parametrize(("value", "words"), [("0 in", "is 0"), ("-1 in", "is negative")])
def test_positive(value: str, words: str) -> None:
    with pytest.raises(InputError, match=f"the thickness {words}; give a value above 0"):
        positive(read_length(value, "w"), "w", value, "thickness")
    assert positive(Fraction(1), "w", "1", "thickness") == 1


def test_lengths_as_printed() -> None:
    mm = Fraction(6207, 1000) * INCH  # 6-13/64 is 6.203125
    assert show_length(mm, "1/64") == "6-13/64 in"
    assert show_length(mm, "1/64", remainder=True) == "6-13/64 in +0.004"
    assert show_length(mm, "1/16", remainder=True) == "6-3/16 in +0.020"
    assert show_length(mm, "decimal") == "6.207 in"
    assert show_length(mm, "mm") == "157.7 mm"
    assert show_length(6 * INCH, "1/32", remainder=True) == "6 in"
    assert show_length(0.0, "1/64") == "0 in"
    assert show_length(-12.7, "1/16") == "-1/2 in"
    assert show_length(-38.1, "1/16") == "-1-1/2 in"
    assert show_length(Fraction(127, 10) - INCH / 500, "1/16", remainder=True) == "1/2 in -0.002"
    assert show_length(-0.01, "mm") == "0.0 mm"
    assert show_inch_parts(-38.1, 16)[:3] == (-1, -1, 2)
    assert show_inch_parts(25.4 + 0.1, 64) == (1, 0, 1, pytest.approx(0.1))


def test_other_quantities_as_printed() -> None:
    assert show_pressure(read_pressure("2500 psi", "w"), "inch") == "2500 psi"
    assert show_pressure(17.24, "metric") == "172 bar"
    assert show_pressure(17.24, "MPa") == "17.2 MPa"
    assert show_pressure(0.0, "bar") == "0 bar"
    assert show_force(read_force("12 tons (US)", "w"), "tons (US)") == "12 tons (US)"
    assert show_force(106757.3, "N") == "106757 N"
    assert show_force(106757.3, "kN") == "107 kN"
    assert show_force(9806.65, "tonnes") == "1 tonnes"
    assert show_force(1000.0, "lbf") == "225 lbf"
    assert show_angle(math.pi / 2) == "90.0°"
    assert show_angle(-math.pi / 4, 0) == "-45°"
    assert show_speed(25.4, "inch") == "1 in/s"
    assert show_speed(1.25, "metric") == "1.25 mm/s"


def test_only_the_digits_the_band_supports() -> None:
    assert round_to_band(1234.0, 1100.0, 1400.0) == "1230"
    assert round_to_band(91.37, 90.9, 91.9) == "91.4"
    assert round_to_band(91.37, 88.0, 94.0) == "91"
    assert round_to_band(0.0123, 0.0113, 0.0133) == "0.0123"
    assert round_to_band(1.5, 1.5, 1.5) == "1.50"
    assert round_to_band(-0.2, -3.0, 3.0) == "0"


def test_a_band_has_the_digits_of_its_value() -> None:
    assert round_band(0.5243, 0.507, 0.543) == ("0.524", "0.507", "0.543")
    assert round_band(283.0, 240.0, 330.0) == ("280", "240", "330")
    # A single digit says too little: 6000 would stand for anything from 5500 to 6500.
    assert round_band(5630.0, 4180.0, 9310.0) == ("5600", "4200", "9300")
    assert round_band(9.0, 8.94, 9.06) == ("9.00", "8.94", "9.06")
    assert round_band(7.0, 7.0, 7.0) == ("7.00", "7.00", "7.00")


@pytest.mark.parametrize("bad", [(1.0, 2.0, 1.0), (math.nan, 0.0, 1.0), (0.0, -math.inf, 1.0)])
def test_no_band_no_number(bad: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="no band from"):
        round_to_band(*bad)


def test_a_decimal_comma_is_read_in_metric_where_it_can_be_nothing_else() -> None:
    assert read_length("1,5", "w", "metric") == Fraction(3, 2)
    assert read_length("-0,125 mm", "w", "metric") == Fraction(-1, 8)
    with pytest.raises(InputError, match=r"write 1500, or 1\.500 if it was a decimal"):
        read_length("1,500", "w", "metric")
    with pytest.raises(InputError, match=r"there is a comma at character 2; write 1\.5"):
        read_length("1,5", "w", "inch")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1.500,00", "this reads as 1500, with a point for thousands; write 1500 without it."),
        ("1,500.25", "this reads as 1500.25, with a comma for thousands"),
        ("2.500.000 mm", "this reads as 2500000, with a point for thousands"),
        ("1'000", "this reads as 1000, with an apostrophe for thousands; write 1000, or 1 ft."),
        ("1'000'000", "this reads as 1000000"),
    ],
)
def test_a_sign_for_thousands_is_refused_with_what_it_reads_as(text: str, words: str) -> None:
    with pytest.raises(InputError) as refused:
        read_length(text, "w", "metric")
    assert words in str(refused.value)


def test_a_press_of_a_few_psi_is_asked_about() -> None:
    for text, units in (("2.500 psi", None), ("2.500", "inch"), ("12.500 PSI", "metric")):
        with pytest.raises(InputError, match=r"this reads as 1?2\.5 psi, less than a press has"):
            read_pressure(text, "w", units)  # type: ignore[arg-type]
    assert read_pressure("2.5 psi", "w") == read_pressure("2500 psi", "w") / 1000
    assert read_pressure("2.500 MPa", "w") == Fraction(5, 2)
