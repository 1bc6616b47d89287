"""The torque of each stated bolt stands with what is made, dry and oiled, and never rounded up."""

from __future__ import annotations

from pathlib import Path

from strapwright.making.bolt_torque import torque_notes
from strapwright.making.tooling_plates import pieces_of
from strapwright.shop.members import Bolt, Members
from strapwright.shop_files.reading_job import read_job

DIE = Path(__file__).parents[2] / "docs" / "examples" / "mooring-hook-die.toml"


def test_the_torque_is_told_in_the_units_of_the_job() -> None:
    members = Members(bolt=(Bolt(holds="push plate", size="1/2-13", grade="5"),))
    # 0.75 x 85 000 x 0.1419 = 9046 lbf; 0.20 x 1/2 in of it is 75.4 lbf ft, 0.15 gives 56.5.
    (inch,) = torque_notes(members, "inch")
    assert "1/2-13 grade 5, to 75 % of proof: 75 lbf ft dry, 56 lbf ft with oiled" in inch
    # 102.2 and 76.7 N m.
    (metric,) = torque_notes(members, "metric")
    assert "100 N m dry, 76 N m with oiled" in metric


def test_without_a_grade_the_lowest_is_taken_and_said() -> None:
    (said,) = torque_notes(Members(bolt=(Bolt(holds="cheeks", size="1/2-13"),)), "inch")
    # 33 ksi: 29.3 and 21.9 lbf ft.
    assert "the lowest, because no grade is entered" in said
    assert "29 lbf ft dry, 21 lbf ft" in said


def test_it_stands_with_the_plates_of_a_die() -> None:
    notes = pieces_of(read_job(DIE.read_text(encoding="utf-8"))).notes
    assert [note for note in notes if "Tighten the bolts of the push plate" in note]
    assert [note for note in notes if "Tighten the bolts of the cheeks" in note]
