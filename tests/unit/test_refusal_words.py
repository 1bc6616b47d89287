"""Refusals of the search in words: lengths in the job's units, names as a person gave them."""

from __future__ import annotations

import math

import pytest
from telling import told

from strapwright.drawing.surrounding import others
from strapwright.findings import Severity
from strapwright.ordering.order_values import Piece, PieceKind
from strapwright.ordering.refusal_values import (
    Hits,
    Jams,
    MeetsItself,
    NoWayThere,
    Reason,
    Refusal,
    ShortLeg,
    SmallRadius,
    Stage,
    StaysOn,
    TooNear,
    TooShallow,
)
from strapwright.planning.plan import plan
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.figures import Figures
from strapwright.wording.refusal_words import assumed_sizes, helps_against, refusal_clause

METRIC = Figures(units="metric", reading="mm")
INCH = Figures(units="inch", reading="1/64")
LAST = Stage(bend=2, made=(1,), last=True)

# The obstacle stands 3 in to the right of the middle, in the way of the wing that swings up.
JOB = """\
format = 1
units = "inch"
[part]
name = "cleat plate"
bar = "flat 1/4 x 2"
material = "A36 hot rolled"
measured = "outside"
shape = ["5", "up 90", "5"]
[tooling.nose]
radius = "3/8"
reach = "8"
span = "3"
web = { thick = "3/8", height = "7-1/4" }
[tooling.shoulders]
radius = "1/4"
opening = "2-1/4"
height = "3-1/2"
[[tooling.obstacle]]
name = "NAME"
side = "shoulders"
box = ["3", "2", "4", "10"]
"""


def named(name: str) -> Piece:
    return Piece(name=name, side="shoulders", polygon=((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)))


def piece(kind: PieceKind, name: str, *, assumed: bool = False) -> Piece:
    return Piece(name=name, kind=kind, side="nose", centre=(0.0, 0.0), radius=1.0, assumed=assumed)


def hit(what: Piece) -> Refusal:
    return Refusal(
        stage=LAST, reason=Hits(piece=what, wing="left", phase="stroke", angle=math.radians(72))
    )


@pytest.mark.parametrize("name", ["20 mm bedside pipe", "0.5 mm shim by the push plate"])
def test_an_obstacle_keeps_the_name_it_was_given(name: str) -> None:
    """A length in a name is no length of the plan, and a word in it says nothing of the tooling."""
    made = plan(read_job(JOB.replace("NAME", name)))
    (refused,) = (one for one in told(made) if one.severity is Severity.REFUSAL)
    assert f"hits the {name} at " in refused.text
    # Neither higher shoulders for a bed nor another push plate helps against a pipe.
    assert (
        refused.remedy
        == "Make the last bend part-way and finish it by hand, away from the tooling."
    )
    # Nothing of it was assumed, for its box is stated.
    assert "assumed" not in refused.text


@pytest.mark.parametrize("name", ["floor", "right shoulder"])
def test_an_obstacle_named_like_a_member_of_the_tooling_is_still_in_the_way(name: str) -> None:
    """The nose must not run into it, as it may to the floor of a die, and it is drawn."""
    box = '["-1/4", "-1-1/4", "1/4", "-1/2"]'  # below the middle, where the nose comes down
    made = plan(read_job(JOB.replace('["3", "2", "4", "10"]', box).replace("NAME", name)))
    assert "halves-collide" in {one.code for one in made.findings}
    assert name in {one.name for one in others(made.pieces)}


@pytest.mark.parametrize(
    ("reason", "metric", "inch"),
    [
        (
            SmallRadius(had=9.5, needed=12.7),
            "its radius of 9.5 mm is less than the nose's 12.7 mm",
            "its radius of 0.374 in is less than the nose's 0.5 in",
        ),
        (
            Jams(had=math.radians(136), needed=math.radians(150)),
            "the tooling jams at 136°, before the 150° this bend needs under load",
            "the tooling jams at 136°, before the 150° this bend needs under load",
        ),
        (
            TooShallow(had=25.4, needed=50.8, angle=math.radians(93)),
            (
                "the bend goes 50.8 mm below the shoulder tops at 93°, but there is only 25.4 mm "
                "of depth"
            ),
            "the bend goes 2 in below the shoulder tops at 93°, but there is only 1 in of depth",
        ),
        (
            ShortLeg(towards=2, had=12.7, needed=25.4),
            (
                "only 12.7 mm of straight bar towards end 2, 25.4 mm needed from the centre of the "
                "bend"
            ),
            "only 0.5 in of straight bar towards end 2, 1 in needed from the centre of the bend",
        ),
        (
            Hits(piece=named("3 mm post"), wing="right", phase="rest", angle=0.0),
            "the right leg hits the 3 mm post as it is placed",
            "the right leg hits the 3 mm post as it is placed",
        ),
        (
            TooNear(piece=named("3 mm post"), had=1.0),
            "it passes only 1.0 mm from the 3 mm post",
            "it passes only 0.0394 in from the 3 mm post",
        ),
        (
            MeetsItself(angle=math.radians(91)),
            "the part hits itself at 91°, overbend included",
            "the part hits itself at 91°, overbend included",
        ),
        (StaysOn(), "it does not come off the tooling", "it does not come off the tooling"),
    ],
)
def test_each_reason_is_told_in_the_units_of_the_reader(
    reason: Reason, metric: str, inch: str
) -> None:
    refusal = Refusal(stage=LAST, reason=reason)
    assert " ".join(refusal_clause(refusal, METRIC).split()) == f"bend 2 last: {metric}"
    assert _trimmed(refusal_clause(refusal, INCH)) == f"bend 2 last: {inch}"


def _trimmed(text: str) -> str:
    """Without the zeros that end a figure."""
    words = text.split()
    return " ".join(w.rstrip("0").rstrip(".") if w[:1].isdigit() and "." in w else w for w in words)


def test_an_order_that_leads_nowhere_tells_of_the_furthest_stage_and_what_blocks_it() -> None:
    blocked = hit(piece("push plate", "push plate", assumed=True))
    reason = NoWayThere(furthest=Stage(bend=3, made=(1, 4), last=False), blocked=(blocked,))
    refusal = Refusal(stage=LAST, reason=reason)
    assert refusal_clause(refusal, METRIC) == (
        "bend 2 last could be made, but no order gets there; the first bend that fails is bend 3 "
        "after 1 and 4: bend 2 last: the left leg hits the push plate at 72°"
    )
    assert helps_against([refusal]) == ("a nose with more reach or a narrower push plate",)
    assert assumed_sizes([refusal]) == "The size of the push plate is assumed."


def test_what_helps_and_what_was_assumed_follow_from_the_kinds_in_the_way() -> None:
    refusals = [
        Refusal(stage=LAST, reason=StaysOn()),
        hit(piece("ram", "ram", assumed=True)),
        hit(piece("obstacle", "bed of the push plate's straight column")),
        hit(piece("carrier", "carrier of the nose", assumed=True)),
        hit(piece("ram", "ram", assumed=True)),
    ]
    assert helps_against(refusals) == (
        "a nose so long that the legs close below the push plate",
        "carriers further apart",
        "a nose that slides out endways, or a wider gap between the ends",
    )
    said = "The sizes of the carrier of the nose and the ram are assumed."
    assert assumed_sizes(refusals) == said
