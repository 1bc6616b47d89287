# ruff: noqa: E501  (a row a refusal: the sentence stands as it is read)
"""Sentences about rolls, rows of hits, closed shapes, stacks, welds and limits."""

import math
import re

import pytest

from strapwright.errors import InputError
from strapwright.shop.job import HITS_TOLERANCE
from strapwright.shop.part import Bend, Closing, Weld
from strapwright.shop_files.reading_job import read_job

JOB = """\
format = 1
units = "inch"
[part]
bar = "square 1/2"
material = "A36 hot rolled"
shape = ["6", "up 90", "4", "roll 90", "2", "up 90", "3"]
# more
[tooling]
nose = { shaft = "1" }
shoulders = { radius = "3/8", opening = "3" }
# end
"""
BAR = 'bar = "square 1/2"'
SHAPE = 'shape = ["6", "up 90", "4", "roll 90", "2", "up 90", "3"]'
NOSE = 'nose = { shaft = "1" }'


def changed(old: str, new: str) -> str:
    assert JOB.count(old) == 1
    return JOB.replace(old, new)


REFUSED = [
    # rolls
    (BAR, 'bar = "flat 1/4 x 2"', "part.shape[4] (line 6) 'roll 90': a flat bar bends on its flat only and cannot be rolled; leave the roll out"),
    ("roll 90", "roll 45", "part.shape[4] (line 6) '45': a square bar lies on one of its sides, and this roll leaves it on a corner; give a roll of 90"),
    ("roll 90", "roll 0", "part.shape[4] (line 6) '0': the roll is 0; give an angle from -180 to 180 degrees"),
    ("roll 90", "roll -190", "part.shape[4] (line 6) '-190': the roll is out of range; give an angle from -180 to 180 degrees"),
    ("roll 90", "roll", "part.shape[4] (line 6) 'roll': the roll has no angle; write how far"),
    ("roll 90", "roll twice", "part.shape[4] (line 6) 'twice': "),
    ("roll 90", "rol 90", "part.shape[4] (line 6) 'rol 90': there is no bend 'rol' here; a bend is \"up\" or \"down\" and an angle, for example up 90; did you mean \"roll\"?"),
    (SHAPE, 'shape = ["roll 90", "6", "up 90", "6"]', "part.shape[1] (line 6) 'roll 90': the shape starts with a roll; write the first leg"),
    (SHAPE, 'shape = ["6", "roll 90", "up 90", "6"]', "part.shape[2] (line 6) 'roll 90': nothing is bent before this roll, so it changes nothing; leave it out"),
    (SHAPE, 'shape = ["6", "up 90", "6", "roll 90", "6"]', "part.shape[4] (line 6) 'roll 90': nothing is bent after this roll, so it changes nothing; leave it out"),
    (SHAPE, 'shape = ["6", "up 90", "6", "roll 90"]', "part.shape (line 6): the shape ends with a roll; write the last leg"),
    (SHAPE, 'shape = ["6", "up 90", "roll 90", "6", "up 90", "6"]', "part.shape[3] (line 6) 'roll 90': a roll stands right behind a bend; write the leg"),
    (SHAPE, 'shape = ["6", "up 90", "6", "roll 90", "roll 90", "up 90", "6"]', "part.shape[5] (line 6) 'roll 90': there are two rolls in a row; add them up."),
    (SHAPE, 'shape = ["6", "up 90", "6", "roll 90", "6", "roll 90", "up 90", "6"]', "part.shape[6] (line 6): this leg is rolled twice; add the two rolls up."),
    # rows of hits
    (SHAPE, 'shape = ["6", "up 90 radius", "4"]', "part.shape[2] (line 6) 'up 90 radius': nothing says how large the radius is; write the inside radius"),
    (SHAPE, 'shape = ["6", "up 90 radius 0", "4"]', "part.shape[2] (line 6) '0': the inside radius is 0; give a value from"),
    (SHAPE, 'shape = ["6", "up 90 radius 6 psi", "4"]', "part.shape[2] (line 6) '6 psi': "),
    (SHAPE, 'shape = ["6", "up radius 6", "4"]', "part.shape[2] (line 6) 'up radius 6': the bend has no angle; write how far"),
    ("# end", "[hits]\ntolerance = 0", "hits.tolerance (line 12) '0': the tolerance is 0; give a value from"),
    ("# end", "[hits]\ntolerence = 1", 'hits.tolerence (line 12): unknown key; did you mean "tolerance"?'),
    # closed shapes
    ("# more", 'close = { size = "1/16", absorb = 1 }', 'part.close.kind (line 7): this is missing; write kind = "gap"'),
    ("# more", 'close = { kind = "gape", size = "1/16", absorb = 1 }', 'part.close.kind (line 7) \'gape\': this word is not recognised; write "gap", "overlap" or "weld gap"; did you mean "gap"?'),
    ("# more", 'close = { kind = "gap", absorb = 1 }', "part.close.size (line 7): this is missing; write for example size ="),
    ("# more", 'close = { kind = "overlap", size = 0, absorb = 1 }', "part.close.size (line 7) '0': the size is 0; give a value from"),
    ("# more", 'close = { kind = "gap", size = -1, absorb = 1 }', "part.close.size (line 7) '-1': the size is negative; give 0, or a value from"),
    ("# more", 'close = { kind = "gap", size = 1 }', "part.close.absorb (line 7): this is missing; write the leg that takes up what is missing, 1 to 3."),
    ("# more", 'close = { kind = "gap", size = 1, absorb = 4 }', "part.close.absorb (line 7) '4': there is no such leg; give a leg from 1 to 3."),
    ("# more", "close = true", "part.close (line 7) 'true': this is a single value where a table is wanted; write [part.close]"),
    # stacks, welds, limits
    ("# more", "stacked = 6", "part.stacked (line 7) '6': this is not a whole number from 1 to 5; write for example stacked = 1."),
    ("# more", 'grain = "with"', 'part.grain (line 7) \'with\': this word is not recognised; write "across", "along" or "unknown".'),
    ("# more", 'edges = "sawn"', 'part.edges (line 7) \'sawn\': this word is not recognised; write "mill", "sheared" or "flame cut".'),
    ("# more", '[part.tolerance]\nclass = "x"', 'part.tolerance.class (line 8) \'x\': this word is not recognised; write "f", "m", "c" or "v".'),
    ("# more", '[part.tolerance]\nclass = "m"\ntakes = 4', "part.tolerance.takes (line 9) '4': there is no such leg; give a leg from 1 to 3."),
    ("# more", '[[part.limit]]\nleg = 4\nlength = "1/32"', "part.limit[1].leg (line 8) '4': there is no such leg; give a leg from 1 to 3."),
    ("# more", "[[part.limit]]\nbend = 1\nlength = 1", "part.limit[1].length (line 9) '1': a bend is limited by its angle; write angle in place of length."),
    ("# more", "[[part.limit]]\nleg = 1", 'part.limit[1].length (line 7): this is missing; write for example length = "1/64 in"'),
    ("# more", "[[part.limit]]\nbend = 1\nangle = 1\n[[part.limit]]\nbend = 1\nangle = 2", "part.limit[2].bend (line 11): bend 1 has a limit already; leave one of the two out."),
    (SHAPE, 'shape = ["90", "up 90", "4"]\n[part.tolerance]\nclass = "f"', "part.tolerance.class (line 8) 'f': ISO 2768-f has no figure for leg 1, 90.000 in; write the job's own limit for all legs, for example length = \"1/32 in\", or a limit of that leg alone."),
    ("# more", "hot = true", "part.hot (line 7) 'true': hot bending is not covered: strength and springback here are those of cold bar; leave it out and bend cold"),
    ("# more", "hot = 1", "part.hot (line 7) '1': this is neither true nor false; write hot = true."),
    ("# more", "[[part.weld]]\nfrom_end = 1", "part.weld[1].leg (line 7): this is missing; write the number of its leg, 1 to 3."),
    ("# more", "[[part.weld]]\nleg = 2", "part.weld[1].from_bend (line 7): nothing says where along the leg the weld is; write from_bend = 1 or 2"),
    ("# more", "[[part.weld]]\nleg = 1\nfrom_end = 7", "part.weld[1].from_end (line 9) '7': this is beyond the leg, which is 6 in long; give"),
    ("# more", "weld = 3", "part.weld (line 7): this is not a list of tables; begin each one with a line [[part.weld]]."),
    (BAR, 'bar = "flat 1/4 x 2 on edge"', "part.bar (line 4) 'flat 1/4 x 2 on edge': bending a flat bar on edge is not supported; the figures only hold for bending on the flat; lay it on its flat, saw the curve from plate, or mitre and weld the corner"),
    (NOSE, 'nose = { shaft = "1", groove = "vee" }', 'tooling.nose.groove (line 9) \'vee\': this word is not recognised; write "none" or "fitted".'),
    (NOSE, 'nose = { shaft = "1", span = 0 }', "tooling.nose.span (line 9) '0': the span is 0; give a value from"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), REFUSED, ids=[said[:60] for *_, said in REFUSED])
def test_what_cannot_be_used_is_refused_with_its_place_and_remedy(
    old: str, new: str, said: str
) -> None:
    with pytest.raises(InputError) as caught:
        read_job(changed(old, new))
    text = str(caught.value)
    assert text.startswith(said)
    assert re.fullmatch(r".+: .+; .+[.?]", text)


def test_a_roll_joins_the_lengths_on_both_sides_and_turns_before_the_next_bend() -> None:
    part = read_job(JOB).part
    assert part.legs == (152.4, 152.4, 76.2)
    assert part.rolls == (0.0, math.pi / 2)
    behind = read_job(changed('"roll 90", "2", "up 90"', '"roll -90", "up 90"'))
    assert behind.part.legs == (152.4, 101.6, 76.2)
    assert behind.part.rolls == (0.0, -math.pi / 2)
    assert read_job(changed('"4", "roll 90", "2"', '"6"')).part.rolls == ()


def test_what_is_said_of_hits_ends_stacks_and_limits_is_read() -> None:
    text = changed(SHAPE, 'shape = ["6", "up90 Radius 6", "4"]').replace(
        "# more",
        'stacked = 2\ngrain = "along"\nedges = "flame cut"\nhot = false\n'
        'close = { kind = "weld gap", size = 0, absorb = 2 }\n'
        "[[part.weld]]\nleg = 2\nfrom_bend = 1\ndistance = 1",
    )
    job = read_job(text)
    part = job.part
    assert part.bends == (Bend(angle=math.pi / 2, side=1, radius=152.4),)
    assert part.close == Closing(kind="weld gap", size=0.0, absorb=2)
    assert part.welds == (Weld(leg=2, from_bend=1, distance=25.4),)
    assert (part.stacked, part.grain, part.edges) == (2, "along", "flame cut")
    assert job.hits.tolerance == HITS_TOLERANCE == 25.4 / 32
