"""What a shop says of members, rack and crib, and one sentence for each thing that cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from strapwright.catalog.bolts import find_grade
from strapwright.catalog.steels import find_steel, steels
from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.shop.members import GUIDE_FRICTION, MEMBER_KEYS, OFF_CENTRE, UNKNOWN_STEEL
from strapwright.shop_files import reading_crib, reading_rack
from strapwright.shop_files.reading_crib import read_crib
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.reading_rack import read_rack
from strapwright.shop_files.template import new_job_text
from strapwright.shop_files.updating import update_job

DOCS = Path(__file__).parents[2] / "docs"
HEAD = 'format = 1\nunits = "inch"\n'


def members(text: str) -> object:
    job = read_job(new_job_text("inch") + text)
    assert job.tooling is not None
    return job.tooling.members


def test_ten_lines_with_sensible_defaults() -> None:
    text = """
[tooling.members]
nose = { material = "1045", between = "4" }
carriers = { thickness = "3/4", width = "2" }
push_plate = { thickness = "1", width = "4", material = "A36" }
shoulders = {}
body = { cheek = "3/4", floor = "3/4", length = "4" }
weld = [{ holds = "cheeks", size = "1/4", length = "8" }]
bolt = [{ holds = "carriers", size = "1/2-13", count = 2 }]
guides = { diameter = "1", length = "8", bush = "3" }
rod = { free_length = "10" }
"""
    job = read_job(new_job_text("inch") + text)
    assert job.tooling is not None
    made = job.tooling.members
    assert made is not None
    assert made.off_centre == OFF_CENTRE
    assert made.nose is not None
    assert (made.nose.material, made.nose.between) == ("1045 ground shaft", 101.6)
    assert made.shoulders is not None
    assert (made.shoulders.kind, made.shoulders.backed) == ("shaft", True)
    assert made.shoulders.seat_material == UNKNOWN_STEEL
    assert made.guides is not None
    assert (made.guides.count, made.guides.friction) == (2, GUIDE_FRICTION)
    assert made.coupling is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[tooling.members]\nnoze = {}\n", 'did you mean "nose"'),
        ("[tooling.members.nose]\nbetweeen = 4\n", 'did you mean "between"'),
        ("[tooling.members.nose]\nmaterial = 'butter'\n", "no such steel"),
        ("[tooling.members.nose]\nbetween = -4\n", "negative"),
        ("[tooling.members.carriers]\nwidth = '1'\n", "fits no hole in a carrier"),
        ("[tooling.members.carriers]\nwidth = 2\npin = 3\n", "hole for the pin is larger"),
        ("[[tooling.members.bolt]]\nholds = 'nose'\nsize = '1/2'\n", "no unified or metric thread"),
        (
            "[[tooling.members.bolt]]\nholds = 'nose'\nsize = 'M12'\ngrade = '5'\n",
            "ISO 898-1 has no such grade",
        ),
        (
            "[[tooling.members.bolt]]\nholds = 'nose'\nsize = '1/2-13'\nlength = 1\ngrip = 1\n",
            "cannot reach",
        ),
        ("[[tooling.members.bolt]]\nsize = '1/2-13'\n", "holds"),
        ("[[tooling.members.weld]]\nholds = 'nose'\nsize = '1/4'\n", "length"),
        ("[tooling.members.coupling]\nkind = 'loose'\n", '"rigid", "pinned" or "floating"'),
        ("[tooling.members.circuit]\nholds_load = 1\n", "neither true nor false"),
        ("[tooling.members.guides]\ncount = 0\n", "whole number from 1"),
    ],
)
def test_a_member_that_cannot_be_is_one_sentence(text: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        members(text)
    sentence = str(caught.value)
    assert said in sentence
    assert sentence.startswith("tooling.members")
    assert "(line " in sentence


def test_a_change_reaches_a_member() -> None:
    text = new_job_text("inch") + '\n[tooling.members.push_plate]\nthickness = "3/4"  # as found\n'
    changed = update_job(text, {"tooling.members.push_plate.thickness": "1"})
    assert 'thickness = "1"  # as found' in changed
    with pytest.raises(InputError, match="thickness"):
        update_job(text, {"tooling.members.push_plate.thicknes": "1"})


def test_every_key_is_described() -> None:
    page = (DOCS / "tooling.md").read_text(encoding="utf-8")
    for keys in (*MEMBER_KEYS.values(), reading_rack.KEYS, reading_crib.KEYS[:-1]):
        assert [key for key in keys if f"`{key}`" not in page] == []


def test_steels_take_their_low_end() -> None:
    unknown = find_steel(UNKNOWN_STEEL, "w")
    assert all(unknown.yield_strength <= one.yield_strength for one in steels())
    assert all(unknown.tensile_strength <= one.tensile_strength for one in steels())
    shaft = find_steel("Hardened  Shafting", "w")
    assert shaft.hardened
    assert shaft.skin_yield > 3 * shaft.yield_strength
    with pytest.raises(InputError, match="A36"):
        find_steel("A63", "w")


def test_threads_and_grades_by_name() -> None:
    assert find_thread("1-1/4-7", "w").major == pytest.approx(31.75)
    assert find_thread("M12", "w").pitch == 1.75
    assert find_thread("m12".upper() + "x1.25", "w").pitch == 1.25
    for name in ("", "M", "1/0-13", "M12x12", "99-1", "1/2-13x"):
        with pytest.raises(InputError, match="no unified or metric thread"):
            find_thread(name, "w")
    thick = find_thread("1-1/8-7", "w")
    assert find_grade("5", thick, "w").proof < find_grade("5", find_thread("1-8", "w"), "w").proof
    with pytest.raises(InputError, match="not made as thick"):
        find_grade("8.2", thick, "w")


RACK = HEAD + '[[stock]]\nkind = "plate"\nsize = "6 x 3/4"\nlength = 24\nprice = 40\n'


def test_a_rack_and_a_crib_are_read() -> None:
    rack = read_rack(RACK)
    (piece,) = rack.stock
    assert (piece.thickness, piece.width) == pytest.approx((19.05, 152.4))
    assert (piece.origin, piece.price, piece.count) == ("supplier", 40.0, 1)
    crib = read_crib(
        HEAD
        + '[crib]\ndrills = ["fractional 1/16 to 1/2 by 1/64", "letter A to Z"]\ntaps = ["M8"]\n'
        + 'boring_bar = { smallest_bore = "1/2" }\n[[crib.saw]]\nname = "band"\nkerf = "0.035"\n'
    )
    assert len(crib.drills[0].sizes) == 29  # 1/16 to 1/2 by 1/64: 4/64 to 32/64
    assert crib.drills[0].sizes[-1] == pytest.approx(12.7)
    assert crib.drills[1].first == "A"
    assert crib.saws[0].kerf == pytest.approx(0.889)


@pytest.mark.parametrize(
    ("read", "text", "said"),
    [
        (read_rack, HEAD, "nothing lies on the rack"),
        (read_rack, RACK.replace("price = 40", 'origin = "supplier"'), "no price"),
        (read_rack, RACK.replace('"6 x 3/4"', '"6"'), "a thickness and a width"),
        (read_rack, RACK.replace('"plate"', '"sheet"'), '"shaft", "flat" or "plate"'),
        (read_rack, RACK + 'material = "B36"\n', "no such steel"),
        (read_rack, RACK + "cost = 3\n", "unknown key"),
        (read_rack, "", "empty"),
        (read_crib, HEAD + "[crib]\n", "the tool crib is empty"),
        (read_crib, HEAD, "the table [crib] is missing"),
        (read_crib, HEAD + '[crib]\ndrills = ["letter Z to A"]\n', "no such run of drills"),
        (read_crib, HEAD + '[crib]\ndrills = ["metric 5 to 1 by 1"]\n', "does not rise"),
        (read_crib, HEAD + '[crib]\ntaps = ["1/4"]\n', "no unified or metric thread"),
        (read_crib, HEAD + '[crib]\nreamers = "1/4"\n', "not a list"),
    ],
)
def test_a_rack_or_crib_that_cannot_be_is_one_sentence(read: object, text: str, said: str) -> None:
    assert callable(read)
    with pytest.raises(InputError) as caught:
        read(text)
    assert said in str(caught.value)
