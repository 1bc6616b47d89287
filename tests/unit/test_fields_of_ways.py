"""Every key of a job file has its field, and says there what it says in a file."""

from __future__ import annotations

import math
import re

import pytest

from strapwright.errors import InputError
from strapwright.pages.fields.form_changes import apply_action
from strapwright.pages.fields.form_fields import Page
from strapwright.pages.form import (
    field_at,
    form_text,
    notes_of,
    open_form,
    raw_job,
    sentence_for,
)
from strapwright.shop_files.known_keys import KNOWN
from strapwright.shop_files.reading_job import read_job

PAGES: tuple[Page, ...] = ("part", "bar", "press", "tooling", "strength")
JOB = """\
format = 1
units = "inch"
[part]
name = "hatch keeper"
bar = "flat 3/16 x 1-1/4"
material = "1018 hot rolled"
shape = ["3", "up 90", "3", "down 90", "4", "down 60", "3"]  # drawn by hand
[[part.hole]]
leg = 4
from_end = "1"
diameter = "5/16"
[press]
bore = "3-3/4"
relief = "2200 psi"
[tooling]
nose = { shaft = "3/4", web = { thick = "1/2", height = "4" } }
shoulders = { radius = "3/8", opening = "2-1/4", depth = "2-1/2", height = "4" }
"""
NARROW = JOB.replace(
    "[press]", '[[part.other_tooling]]\nbends = [3]\nnose = { shaft = "1/2" }\n[press]'
)
# Where a page says it in another way -> the field or button that does.
SAID_OTHERWISE = {
    "part.bar": "bar.thickness",
    "part.finish.at": "part.finish.bend[1]",
    "part.finish.by": "part.finish.bend[1].by",
    "part.finish.tooling": "part.finish.bend[1].tooling",
    "part.limit.length": "part.limit.leg[1]",
    "part.limit.angle": "part.limit.bend[1]",
    "part.hole.from_end": "part.hole[1].distance",
    "part.hole.from_bend": "part.hole[1].from",
    "part.other_tooling.nose": "part.other_tooling[1].nose.shaft",
    "part.other_tooling.shoulders": "part.other_tooling[1].shoulders.opening",
    # Asked for where the file states it so.
    "tooling.nose.radius": "tooling.nose.shaft",
    "tooling.shoulders.gap": "tooling.shoulders.opening",
    "tooling.members": "tooling.members.nose.material",
}
# Key -> why no field asks for it.
NO_FIELD = {
    "format": "the program writes it",
    "units": "chosen with the name, where a part is begun",
    "part.order": "moved up and down on the page of the bends",
    "part.hot": "only refuses: hot bending is not covered",
    **dict.fromkeys(
        ("part.weld.leg", "part.weld.from_end", "part.weld.from_bend", "part.weld.distance"),
        "welds across the bar are rare, and no way of making a bend",
    ),
    **dict.fromkeys(
        ("tooling.rod.out", "tooling.rod.along", "tooling.rod.diameter"),
        "comes with tooling from the rack; nothing to do with a part",
    ),
    **dict.fromkeys(
        (f"tooling.obstacle.{key}" for key in ("name", "side", "box", "along")),
        "four sizes in one entry, written in the file",
    ),
}


def names() -> set[str]:
    return {field.name for page in PAGES for field in open_form(NARROW, page).fields}


def filled(text: str, page: Page, said: dict[str, str]) -> str:
    form = open_form(text, page, said)
    assert [one for one in said if one not in form.values] == []
    assert [wrong for _, wrong in notes_of(form).values() if wrong] == []
    return form_text(text, form)


def test_every_key_has_a_field_or_a_reason_for_none() -> None:
    there = names()
    plain = {re.sub(r"\[\d+\]", "", name) for name in there}
    wanted = {
        f"{table}.{key}" if table else key
        for table, keys in KNOWN.items()
        for key in keys
        if (f"{table}.{key}" if table else key) not in KNOWN
    }
    without = {path for path in wanted if path not in plain}
    assert without == {*SAID_OTHERWISE, *NO_FIELD}
    assert [said for said in SAID_OTHERWISE.values() if said not in there] == []


@pytest.mark.parametrize("text", [JOB, NARROW])
@pytest.mark.parametrize("page", PAGES)
def test_a_form_that_nobody_typed_in_changes_nothing(text: str, page: Page) -> None:
    assert form_text(text, open_form(text, page)) == text


FINISH = {
    "part.finish.bend[1]": "45",
    "part.finish.bend[3]": "40",
    "part.finish.bend[3].by": "squeeze",
}
LIMITS = {"part.limit.leg[2]": "1/64", "part.limit.bend[3]": "0.5", "part.tolerance.takes": "2"}
CLOSED = {"part.close.kind": "weld gap", "part.close.size": "1/16", "part.close.absorb": "3"}


def test_a_bend_finished_at_the_bench_is_typed_changed_and_taken_out() -> None:
    text = filled(JOB, "part", FINISH)
    first, second = read_job(text).part.finishes
    assert (first.bend, first.by, second.bend, second.by) == (1, "vise", 3, "squeeze")
    assert first.at == pytest.approx(math.radians(45.0))
    assert second.at == pytest.approx(math.radians(40.0))
    assert form_text(text, open_form(text, "part")) == text
    # One more between them goes behind, and the first is taken out.
    other = filled(text, "part", {"part.finish.bend[1]": "", "part.finish.bend[2]": "60"})
    assert [(one.bend, one.by) for one in read_job(other).part.finishes] == [
        (2, "vise"),
        (3, "squeeze"),
    ]
    emptied = filled(
        text,
        "part",
        {"part.finish.bend[1]": "", "part.finish.bend[3]": "", "part.finish.bend[3].by": "vise"},
    )
    assert read_job(emptied) == read_job(JOB)


def test_a_bend_is_finished_on_tooling_that_is_chosen_by_its_name() -> None:
    named = NARROW.replace("bends = [3]", 'name = "narrow die"')
    at = "part.finish.bend[2]"
    fields = {field.name: field for field in open_form(named, "part").fields}
    on = [one for one, _ in fields[f"{at}.tooling"].choices]
    assert on == ["", "narrow die", "the main tooling"]
    said = {at: "60", f"{at}.by": "tooling", f"{at}.tooling": "narrow die"}
    (finish,) = read_job(filled(named, "part", said)).part.finishes
    assert (finish.bend, finish.by, finish.tooling) == (2, "tooling", "narrow die")
    # The name is missing: told where it is chosen.
    form = open_form(named, "part", {name: to for name, to in said.items() if to != "narrow die"})
    with pytest.raises(InputError) as told:
        read_job(form_text(named, form))
    field = field_at(form, told.value.where)
    assert field is not None
    assert field.name == f"{at}.tooling"


def test_a_finish_that_names_a_tooling_alone_shows_that_it_is_made_there() -> None:
    named = NARROW.replace("bends = [3]", 'name = "narrow die"')
    text = named.replace(
        "[[part.hole]]",
        '[[part.finish]]\nbend = 2\nat = 60\ntooling = "narrow die"\n[[part.hole]]',
    )
    (finish,) = read_job(text).part.finishes
    assert finish.by == "tooling"
    form = open_form(text, "part")
    assert form.values["part.finish.bend[2].by"] == "tooling"
    assert form_text(text, form) == text


def test_limits_of_single_legs_and_bends_are_typed_and_taken_out() -> None:
    text = filled(JOB, "part", LIMITS)
    part = read_job(text).part
    leg, bend = part.limits
    assert (leg.leg, bend.bend) == (2, 3)
    assert leg.length == pytest.approx(25.4 / 64)
    assert bend.angle == pytest.approx(math.radians(0.5))
    assert part.tolerance is not None
    assert part.tolerance.takes == 2
    assert form_text(text, open_form(text, "part")) == text
    assert read_job(filled(text, "part", dict.fromkeys(LIMITS, ""))) == read_job(JOB)


def test_a_file_written_by_hand_keeps_its_words_and_its_order() -> None:
    text = JOB.replace(
        "[[part.hole]]",
        "limit = [{ bend = 3, angle = 0.5 }, { leg = 2, length = '1/64' }]  # from the drawing\n"
        "[[part.finish]]\nbend = 1\nat = 45  # by eye\n[[part.hole]]",
    )
    changed = filled(text, "part", {"part.limit.leg[2]": "1/32"})
    assert changed == text.replace("'1/64'", '"1/32"')
    assert "at = 50  # by eye" in filled(text, "part", {"part.finish.bend[1]": "50"}).replace(
        '"50"', "50"
    )


def test_a_closed_shape_is_typed_and_opened_again() -> None:
    text = filled(JOB, "part", CLOSED)
    close = read_job(text).part.close
    assert close is not None
    assert (close.kind, close.absorb) == ("weld gap", 3)
    # The leg that the page shows at first is the one that is meant.
    first = {name: to for name, to in CLOSED.items() if not name.endswith("absorb")}
    closed = read_job(filled(JOB, "part", first)).part.close
    assert closed is not None
    assert closed.absorb == 1
    assert read_job(filled(text, "part", {"part.close.kind": ""})) == read_job(JOB)


def test_other_tooling_is_added_typed_emptied_and_taken_out() -> None:
    added = apply_action(JOB, "add-other")
    (one,) = read_job(added).part.others
    assert one.bends == (3,)
    at = "part.other_tooling[1]"
    text = filled(
        added,
        "tooling",
        {
            f"{at}.name": "narrow die",
            f"{at}.bends": "2 and 3",
            f"{at}.nose.shaft": "",
            f"{at}.shoulders.radius": "1/4",
            f"{at}.shoulders.opening": "1-1/2",
            f"{at}.rating": "4 tons (US)",
        },
    )
    (one,) = read_job(text).part.others
    assert (one.name, one.bends, one.nose) == ("narrow die", (2, 3), None)
    assert one.shoulders is not None
    assert one.shoulders.opening == pytest.approx(1.5 * 25.4)
    assert one.rating == pytest.approx(4 * 2000 * 4.4482216)
    assert form_text(text, open_form(text, "tooling")) == text
    webbed = filled(
        text, "tooling", {f"{at}.nose.shaft": "1/2", f"{at}.nose.web.thick": "3/8",
                          f"{at}.nose.web.height": "4"},
    )  # fmt: skip
    (one,) = read_job(webbed).part.others
    assert one.nose is not None
    assert one.nose.web_height == pytest.approx(4 * 25.4)
    assert read_job(apply_action(webbed, "drop-other:1")) == read_job(JOB)


@pytest.mark.parametrize(
    ("page", "name", "text", "sentence"),
    [
        ("part", "part.finish.bend[2]", "90", "stop at the whole angle of bend 2 or past it; give"),
        ("part", "part.finish.bend[2]", "soon", "for example"),
        ("part", "part.finish.bend[2].by", "squeeze", "for example 45"),
        ("part", "part.finish.bend[2].by", "tooling", "for example 45"),
        ("part", "part.limit.leg[3]", "a hair", "for example"),
        ("part", "part.limit.bend[1]", "200", "give an angle"),
        ("part", "part.close.size", "1/16", "is missing"),
        ("part", "hits.tolerance", "-1", "give"),
        ("part", "blank.factor", "7", "give"),
        ("part", "handling.turn_over", "quick", "for example"),
        ("part", "part.trim.end_2", "long", "for example"),
        ("tooling", "part.other_tooling[1].bends", "9", "must name bends from 1 to 3"),
        ("tooling", "part.other_tooling[1].bends", "two", "must name bends from 1 to 3"),
        ("tooling", "part.other_tooling[1].nose.shaft", "thin", "for example"),
        ("tooling", "part.other_tooling[1].shoulders.opening", "2", "for example"),
        ("tooling", "part.other_tooling[1].rating", "strong", "for example"),
        ("tooling", "tooling.mark_error", "some", "for example"),
        ("press", "press.efficiency", "2", "give"),
        ("bar", "part.stacked", "9", "whole number"),
        ("bar", "lot.exponent", "3", "give"),
    ],
)
def test_a_wrong_entry_is_told_beneath_a_field_in_one_sentence(
    page: Page, name: str, text: str, sentence: str
) -> None:
    form = open_form(NARROW, page, {name: text})
    wrong = {at: said for at, (_, said) in notes_of(form).items() if said}
    if not wrong:
        with pytest.raises(InputError) as told:
            read_job(form_text(NARROW, form))
        field = field_at(form, told.value.where)
        assert field is not None, told.value.where
        wrong = {field.name: sentence_for(field, told.value, "inch")}
    ((at, said),) = wrong.items()
    # One that lacks its figure, or its other half, is told where that is missing.
    assert at.rpartition(".")[0] == name.rpartition(".")[0] or name.startswith(f"{at}.")
    assert sentence in said
    assert form.values[name] == text


def test_the_finish_that_is_wrong_is_told_beneath_its_own_bend() -> None:
    said = {"part.finish.bend[1]": "45", "part.finish.bend[3]": "60"}
    form = open_form(JOB, "part", said)
    with pytest.raises(InputError) as told:
        read_job(form_text(JOB, form))
    field = field_at(form, told.value.where)
    assert field is not None
    assert field.name == "part.finish.bend[3]"
    # The first is taken out: what was the second entry of the file is the first by then.
    text = filled(JOB, "part", FINISH)
    form = open_form(text, "part", {"part.finish.bend[1]": "", "part.finish.bend[3]": "70"})
    with pytest.raises(InputError) as told:
        read_job(form_text(text, form))
    assert told.value.where == "part.finish[1].at"
    field = field_at(form, told.value.where)
    assert field is not None
    assert field.name == "part.finish.bend[3]"


def test_what_is_said_by_number_goes_with_its_bend_when_another_is_removed() -> None:
    two = NARROW.replace("[press]", '[[part.hole]]\nleg = 2\nfrom_bend = 1\ndistance = "1"\n'
                         'diameter = "1/4"\n[press]')  # fmt: skip
    text = filled(two, "part", {**FINISH, **LIMITS})
    assert len(read_job(text).part.holes) == 2
    dropped = apply_action(text, "drop-leg:2")  # bend 1 and leg 2
    assert raw_job(dropped)["part"]["shape"] == ["3", "down 90", "4", "down 60", "3"]
    after = read_job(dropped).part
    assert [(one.bend, one.by) for one in after.finishes] == [(2, "squeeze")]
    assert [(one.leg, one.bend) for one in after.limits] == [(None, 2)]
    assert after.others[0].bends == (2,)
    assert after.tolerance is None or after.tolerance.takes is None
    assert [hole.leg for hole in after.holes] == [3]
    # The last bend takes its own with it; the tooling that it was made on is at hand yet.
    last = read_job(apply_action(text, "drop-leg:6")).part
    assert [one.bend for one in last.finishes] == [1]
    assert [one.bends for one in last.others] == [()]


def test_joggle_twist_and_roll_are_added_and_removed_by_buttons() -> None:
    plain = apply_action(JOB, "drop-hole:1")  # its leg ends at a bend by then
    joggled = apply_action(plain, "add-joggle")
    assert raw_job(joggled)["part"]["shape"][-2:] == ["joggle up 1/2 in over 2 in", "3"]
    assert len(read_job(joggled).part.bends) == 5
    assert read_job(apply_action(joggled, "drop-leg:8")).part == read_job(plain).part
    twisted = apply_action(plain, "add-twist")
    assert raw_job(twisted)["part"]["shape"][-3:] == ["1-1/2 in", "twist 90", "1-1/2 in"]
    assert len(read_job(twisted).part.twists) == 1
    assert read_job(apply_action(twisted, "drop-twist:8")).part == read_job(plain).part
    square = plain.replace("flat 3/16 x 1-1/4", "square 1/2")
    rolled = apply_action(square, "add-roll")
    part = read_job(rolled).part
    assert part.roll_before(3) == pytest.approx(math.pi / 2)
    assert part.legs[3] == pytest.approx(3 * 25.4)
    assert read_job(apply_action(rolled, "drop-roll:8")).part.legs == part.legs
    one = JOB.replace('"3", "down 90", "4", "down 60", "3"', '"3"').replace("leg = 4", "leg = 2")
    with pytest.raises(InputError, match="at least one bend"):
        apply_action(one, "drop-leg:2")
