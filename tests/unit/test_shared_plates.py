"""Two dies on one push plate: its holes on one sheet, and the change from one to the other."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from strapwright.errors import InputError
from strapwright.making.kept.sharing import shared_plate
from strapwright.making.plate_values import PlateDrawing
from strapwright.quantities.inside_units import INCH_MM
from strapwright.report.change_text import change_to_text
from strapwright.service.several_dies.shared_making import Dies, changes_of, load_change, load_dies
from strapwright.wording.reader import in_units
from strapwright.wording.telling import tell

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples" / "shared-plate"
BRACKET, STRAP = EXAMPLES / "cleat-bracket-die.toml", EXAMPLES / "fender-strap-die.toml"


@pytest.fixture(scope="module")
def dies() -> Dies:
    return load_dies([BRACKET, STRAP])


def copied(folder: Path, name: str, *changes: tuple[str, str]) -> Path:
    for one in EXAMPLES.glob("*.toml"):
        shutil.copy(one, folder / one.name)
    text = (folder / name).read_text("utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    (folder / name).write_text(text, "utf-8")
    return folder / name


def test_the_shared_plate_has_the_holes_of_both_and_stands_on_no_other_sheet(dies: Dies) -> None:
    assert [one.name for one in dies.makings] == ["cleat bracket", "fender strap", "harbour plate"]
    for one in dies.makings[:2]:
        assert "push plate" not in [plate.plate.name for plate in one.plates]
        assert not one.lacking
    (plate,) = dies.makings[2].plates
    # The bracket's carriers meet the pattern; the strap's stand 5 in apart and want new holes.
    assert {row.hole.purpose for row in plate.rows} == {"carrier bolt of fender strap"}
    assert sorted({round(row.hole.x / INCH_MM, 3) for row in plate.rows}) == [2.5, 7.5]
    assert len([one for one in plate.plate.holes if one.exists]) == 10


@pytest.mark.parametrize(
    ("dies", "said"),
    [
        (("bracket",), "for bracket."),
        (("bracket", "strap"), "for bracket and strap."),
        (("bracket", "strap", "hook"), "for bracket, strap and hook."),
    ],
)
def test_a_plate_that_stays_names_every_die_that_is_made_on_it(
    dies: tuple[str, ...], said: str
) -> None:
    plate = PlateDrawing(
        name="push plate", metal="low carbon steel", width=200.0, height=100.0, thickness=25.0,
        holes=(),
    )  # fmt: skip
    (note,) = shared_plate(plate, (), dict.fromkeys(dies, ())).notes
    assert note == f"Its lower face, seen from below. It stays on the press {said}"


def test_a_plate_that_is_still_to_be_made_is_drawn_with_every_hole(tmp_path: Path) -> None:
    copied(tmp_path, "harbour-press.toml", ("4 of 13/32 at 1-5/8, 5/8\n", ""),
           ('thickness = "1"\n# The', 'thickness = "1"\nexists = false\n# The'))  # fmt: skip
    made = load_dies([tmp_path / BRACKET.name, tmp_path / STRAP.name])
    (plate,) = made.makings[-1].plates
    assert plate.plate.title == "push plate"
    said = [row.hole.purpose for row in plate.rows]
    assert said.count("carrier bolt of cleat bracket") == 4
    assert said.count("carrier bolt of fender strap") == 4
    assert (said.count("bolt of the ram"), said.count("guide rod")) == (4, 2)


def test_holes_of_two_dies_that_clash_are_found_with_both_names(tmp_path: Path) -> None:
    # 3-1/4 and 3-7/8 in between the carriers: the new rows are 5/16 in apart.
    strap = copied(
        tmp_path,
        STRAP.name,
        ('between = "5"', 'between = "3-7/8"'),
        ("flat 3/16 x 3", "flat 3/16 x 1-1/2"),
        ('length = "4", tall', 'length = "2", tall'),
    )
    press = tmp_path / "harbour-press.toml"
    press.write_text(press.read_text("utf-8").replace("4 of 13/32 at 1-5/8, 5/8\n", ""), "utf-8")
    made = load_dies([tmp_path / BRACKET.name, strap])
    found = [tell(one, in_units("inch")).sentence for one in made.makings[1].findings]
    (said,) = [one for one in found if "cannot be laid out" in one]
    assert said.startswith("Bolts of the carriers cannot be laid out: in the push plate that stays")
    assert "(carrier bolt of cleat bracket)" in said


def test_one_plate_stated_in_two_ways_and_two_jobs_of_one_name_are_refused(tmp_path: Path) -> None:
    press = (EXAMPLES / "harbour-press.toml").read_text("utf-8").replace("9/16", "17/32")
    other = copied(tmp_path, STRAP.name, ('"harbour-press.toml"', '"other-press.toml"'))
    (tmp_path / "other-press.toml").write_text(press, "utf-8")
    with pytest.raises(InputError, match="harbour plate is stated in two ways"):
        load_dies([BRACKET, other])
    with pytest.raises(InputError, match="two of the jobs are called 'cleat bracket'"):
        load_dies([BRACKET, BRACKET])


def test_the_change_card_says_what_stays_and_gives_bolts_order_and_checks(dies: Dies) -> None:
    cards = {words.title: words for _, words in changes_of(dies.dies)}
    card = cards["From cleat bracket to fender strap"]
    assert set(cards) == {card.title, "From fender strap to cleat bracket"}
    assert card.stays == (
        "push plate (harbour plate)", "bed plate (harbour bed plate)", "guide rods",
    )  # fmt: skip
    off, on, check = (" ".join(one) for one in (card.off, card.on, card.check))
    # Nothing is undone under pressure, and the nose lies on a block before its bolts come out.
    assert off.index("Lay a wood block") < off.index("release all pressure")
    assert off.index("release all pressure") < off.index("Remove 4 bolts 3/8-16 x 1-1/2 in")
    assert off.index("Lift the nose out") < off.index("Remove 2 bolts 1/2-13 x 2 in")
    # 75 % of proof of a 3/8-16 of grade 8: 0.75 x 120 ksi x 0.0775 in2 x 0.375 in x 0.2 = 43.6.
    assert "Put in 4 bolts 3/8-16 x 1-1/2 in of the carriers: 43 lbf ft dry" in on
    assert on.index("Set the die on") < on.index("set the nose on it") < on.index("Tighten 2 bolts")
    # Rounds of 3/4 in 3 in apart leave 2-1/4; a nose of 1-1/4 passes 1/2 in from each.
    assert "2-1/4 in between the rounds, which is 3 in centre to centre" in check
    assert "the nose passes 1/2 in from each round" in check
    assert "set the travel to 0" in check
    assert "Set the relief valve to" in check
    assert "push plate" not in off.replace("the push plate", "")


def test_a_push_plate_of_its_own_comes_off_with_its_die(tmp_path: Path) -> None:
    own = copied(
        tmp_path, STRAP.name, ("[tooling.nose]", "[tooling]\nown_plate = true\n\n[tooling.nose]")
    )
    _, card = load_change(BRACKET, own)
    assert not any(one.startswith("push plate") for one in card.stays)
    assert "1 x push plate" in " ".join(card.on)
    text = change_to_text(card)
    assert text.startswith("From cleat bracket to fender strap\n\nStays on the press: bed plate")
    assert "4 bolts 1/2-13 x 2 in" in text
