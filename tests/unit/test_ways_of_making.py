"""Each way a shop makes a part, on two jobs: one that is planned, and one refused in a sentence."""

from __future__ import annotations

import pytest

from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_text import plan_to_text
from strapwright.shop_files.reading_job import read_job

LIP = '["8", "up 90", "6", "up 90", "1-1/4"]'  # its last leg is too short for an opening of 2-1/4
OTHER = """\
[[part.other_tooling]]
name = "the narrow die"
bends = {bends}
nose = {{ shaft = "1/2", web = {{ thick = "3/8", height = "4" }} }}
shoulders = {{ radius = "1/4", opening = "{opening}", outer_edge = "7/8", depth = "2" }}
rating = "4 tons (US)"
"""
ROD = {"bar": "round 3/8", "shape": '["4", "up 90", "6", "down 75", "5"]'}
FINISH_ON = '[[part.finish]]\nbend = 1\nat = 50\ntooling = "the narrow die"\n'
BRACKET = """\
format = 1
units = "inch"
[part]
name = "{way}"
bar = "{bar}"
material = "{metal}"
measured = "{measured}"
shape = {shape}
{more}
[press]
bore = "3-3/4"
rod = "2"
relief = "2200 psi"
stroke = "10"
{press}
[tooling]
rating = "8 tons (US)"
nose = {{ shaft = "3/4", web = {{ thick = "1/2", height = "4" }} }}
shoulders = {{ radius = "3/8", opening = "2-1/4", depth = "2-1/2", height = "4" }}
"""
PLAIN = {
    "bar": "flat 3/16 x 1-1/2",
    "metal": "1018 HR",
    "measured": "outside",
    "shape": '["4", "up 90", "4"]',
    "more": "",
    "press": "",
}


def hole(**more: str) -> str:
    keys = {"leg": "1", "from_end": '"1"', "diameter": '"3/8"', **more}
    return "[[part.hole]]\n" + "\n".join(f"{key} = {value}" for key, value in keys.items())


# Way, what makes it, what the plan then says; what makes it impossible, and the sentence for it.
WAYS: list[tuple[str, dict[str, str], str, dict[str, str], str]] = [
    (
        "a short lip left long",
        {"shape": LIP, "more": 'trim = { end_2 = "1/2" }'},
        "Saw off 1/2 in",
        {"shape": '["4", "up 90", "3/8"]', "more": 'trim = { end_2 = "1" }'},
        "the saw line would lie in bend 1",
    ),
    (
        "a short lip on a narrower die",
        {"shape": LIP, "more": OTHER.format(bends="[2]", opening="1-1/4")},
        "the narrow die",
        {"shape": LIP, "more": OTHER.format(bends="[3]", opening="1-1/4")},
        "must name bends from 1 to 2",
    ),
    (
        "finished in a vise",
        {"more": "[[part.finish]]\nbend = 1\nat = 50"},
        "Close bend 1 from 50° to 90° in the vise",
        {"shape": '["4", "up 90", "1-1/8"]', "more": "[[part.finish]]\nbend = 1\nat = 95"},
        "the press would stop at the whole angle of bend 1",
    ),
    (
        "finished on a second tooling",
        {"more": FINISH_ON + OTHER.format(bends="[]", opening="1-1/2")},
        "Push bend 1 on from 50° to 90° on the narrow die",
        {"more": FINISH_ON + OTHER.format(bends="[1]", opening="1-1/2")},
        "begun on that tooling",
    ),
    (
        "both ends finished on a second tooling",
        {**ROD, "more": FINISH_ON + FINISH_ON.replace("bend = 1", "bend = 2")
         + OTHER.format(bends="[]", opening="1-1/2")},
        "Push bend 2 on from 50° to 75° on the narrow die",
        {**ROD, "more": FINISH_ON.replace("50", "80")
         + OTHER.format(bends="[]", opening="1-1/2").replace('shaft = "1/2"', 'shaft = "15/16"')},
        "open the bend around itself",
    ),
    (
        "squeezed",
        {"more": '[[part.finish]]\nbend = 1\nat = 60\nby = "squeeze"'},
        "by squeezing",
        {"more": '[[part.finish]]\nbend = 1\nat = 20\nby = "squeeze"'},
        "still too flat there to be squeezed",
    ),
    (
        "held to limits",
        {"more": 'tolerance = { class = "m" }'},
        "ISO 2768",
        {"more": '[[part.limit]]\nleg = 3\nlength = "1/64"'},
        "there is no such leg",
    ),
    (
        "softened spring steel",
        {"metal": "5160 annealed"},
        "5160 annealed",
        {"metal": "5160 hardened"},
        "too hard to bend cold",
    ),
    (
        "a large radius beside straight lengths",
        {"measured": "straight", "shape": '["6", "up 90 radius 6", "6"]'},
        "bend 1.1: nose",
        {"measured": "straight", "shape": '["6", "up 90 radius", "6"]'},
        "nothing says how large the radius is",
    ),
    (
        "legs from the size over all",
        {"shape": '["?", "up 90", "4"]', "more": 'overall = { width = "5" }'},
        "leg 1",
        {"shape": '["?", "up 90", "?"]', "more": 'overall = { width = "5" }'},
        "give one size for each",
    ),
    (
        "a slot after bending",
        {"more": hole(from_end='"2-1/2"', length='"3/4"')},
        "Cut slot 1 now, not in the flat",
        {"more": hole(length='"1/4"')},
        "shorter along the bar than it is wide",
    ),
    (
        "a notch",
        {"more": hole(open='"far edge"', across='"1/2"')},
        "notch 1:",
        {"more": hole(open='"far edge"', across='"-5/8"')},
        "the notch runs off the bar",
    ),
    (
        "a hole after bending",
        {"more": hole(from_end='"3"')},
        "Drill hole 1 now, not in the flat",
        {"more": hole(drilled='"never"')},
        "never",
    ),
    (
        "a quarter twist",
        {"shape": '["4", "up 90", "4", "twist 90", "4", "down 90", "4"]'},
        "Twist leg 2 a quarter turn",
        {"shape": '["4", "up 90", "1-1/2", "twist 90", "1-1/2", "down 90", "4"]'},
        "of flat bar beside it in leg 2",
    ),
    (
        "a bend on edge",
        {"bar": "flat 3/16 x 1-1/2"},
        "bend 1",
        {"bar": "flat 1-1/2 x 3/16"},
        "bending a flat on edge is not covered",
    ),
    (
        "a joggle",
        {"shape": '["4", "joggle up 1/2 over 4", "4"]'},
        "bend 2",
        {"shape": '["4", "joggle up 1/2", "4"]'},
        "how the joggle is made",
    ),
    (
        "a hand pump",
        {"press": 'hand_pump = { volume = "0.5 in3", strokes_per_minute = 30 }'},
        "strokes",
        {"press": 'hand_pump = { volume = "0" }'},
        "press.hand_pump.volume",
    ),
    (
        "handling in minutes",
        {"shape": '["4", "up 90", "4", "down 90", "4"]', "press": "[handling]\nturn_over = 3"},
        "turning the bar over takes 3",
        {"press": '[handling]\nturn_over = "soon"'},
        "turn_over",
    ),
]  # fmt: skip


def told(way: str, **change: str) -> tuple[Plan | None, str]:
    """The plan, if there is one, and all that is said, as one line."""
    try:
        made = plan(read_job(BRACKET.format(**{**PLAIN, **change}, way=way)))
    except InputError as error:
        return None, str(error)
    return made, " ".join(plan_to_text(made, details=True).split())


@pytest.mark.parametrize(("way", "makes", "says", "_", "__"), WAYS, ids=[one[0] for one in WAYS])
def test_the_way_is_planned(
    way: str, makes: dict[str, str], says: str, _: dict[str, str], __: str
) -> None:
    made, text = told(way, **makes)
    assert made is not None, text
    refused = [one.code for one in made.findings if one.severity is Severity.REFUSAL]
    assert refused == []
    assert says in text


@pytest.mark.parametrize(
    ("way", "_", "__", "spoils", "sentence"), WAYS, ids=[one[0] for one in WAYS]
)
def test_what_the_way_cannot_do_is_refused(
    way: str, _: dict[str, str], __: str, spoils: dict[str, str], sentence: str
) -> None:
    made, text = told(way, **spoils)
    assert sentence in text
    if made is not None:
        assert any(one.severity is Severity.REFUSAL for one in made.findings)


def test_lips_and_legs_too_short_for_the_opening_are_made_end_to_end() -> None:
    # Two legs between two bends, shorter than half the opening and its margin: on a narrower die.
    keeper = told(
        "hatch keeper",
        bar="flat 3/16 x 1-1/4",
        measured="inside",
        shape='["1-1/2", "up 90", "1-3/8", "down 90", "2-1/4", '
        '"down 90", "1-3/8", "up 90", "1-1/2"]',
        more=OTHER.format(bends="[2, 3]", opening="1-1/4"),
    )  # fmt: skip
    # A clip whose legs meet the web of any nose: the narrow die, and the last of it in a vise.
    clip = told(
        "railing clip",
        bar="flat 3/16 x 1-1/2",
        metal="304",
        measured="inside",
        shape='["2-3/8", "up 90", "1-11/16", "up 90", "2-3/8"]',
        more="[[part.finish]]\nbend = 2\nat = 45\n" + OTHER.format(bends="[1, 2]", opening="1-3/8"),
    )
    for made, text in (keeper, clip):
        assert made is not None, text
        assert [one.code for one in made.findings if one.severity is Severity.REFUSAL] == []
        assert len(made.steps) == len(made.job.part.bends)
