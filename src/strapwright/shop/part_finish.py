"""A bend that the press makes part of the way, and what finishes it."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.keys import Key, key, keys

FinishedBy = Literal["vise", "squeeze", "tooling"]
MAIN_TOOLING = "the main tooling"  # the job's own, where a finish names it


@frozen(kw_only=True)
class Finish:
    """How a bend is finished off the tooling.

    Attributes
    ----------
    bend
        1-based number of the bend along the bar.
    at
        Angle after release at which the press stops [rad].
    by
        ``vise``: one leg is clamped and the other pulled round; ``squeeze``: the two legs are
        pressed towards each other between two flat faces, in a vise or under the ram; ``tooling``:
        it is pushed on, on other tooling of the job.
    tooling
        What that is called; ``None`` where the bench finishes it.
    """

    bend: int = keys(
        Key(
            kind="own",
            name="bend",
            help="which bend, counted from end 1",
            inch="1",
            needed=True,
            given=True,
        )
    )
    at: float = keys(
        Key(
            kind="angle",
            name="at",
            help="angle after release at which the press stops, in degrees",
            inch="45",
            needed=True,
            given=True,
            label="stop the press at",
            hint="angle after release; the rest is done after it",
        )
    )
    by: FinishedBy = key(
        "choice",
        default="vise",
        help='what finishes it: "vise" (one leg clamped, the other pulled round), "squeeze" '
        '(both legs pressed towards each other) or "tooling" (pushed on, on other tooling)',
        given=True,
        label="then finish it",
        words={
            "vise": "in the vise",
            "squeeze": "by squeezing",
            "tooling": "on other tooling",
        },
    )
    tooling: str | None = key(
        "text",
        help='with "tooling": the `name` of a `[[part.other_tooling]]`, or "the main tooling"',
        left_out="the bench finishes it",
        ask="write what it is called",
        inch="narrow die",
        given=True,
        label="then finish it on",
        hint="name of other tooling, or: the main tooling",
    )
