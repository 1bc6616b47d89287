"""Bends that are made on another nose or other shoulders than the rest."""

from __future__ import annotations

from attrs import evolve, frozen

from strapwright.shop.fastening_members import Holds
from strapwright.shop.keys import Key, key, keys
from strapwright.shop.nose_and_shoulders import Nose, Shoulders
from strapwright.shop.tooling import Tooling

# What holds a nose, and what holds shoulders.
_OF_NOSE: frozenset[Holds] = frozenset({"carriers", "nose", "web"})
_OF_SHOULDERS: frozenset[Holds] = frozenset({"shoulders", "cheeks", "side plates", "base"})


@frozen(kw_only=True)
class OtherTooling:
    """Tooling that differs from the job's own in its nose, its shoulders or both.

    Attributes
    ----------
    name
        What it is called.
    bends
        1-based bends made on it; empty where it is only at hand.
    nose, shoulders
        ``None`` where it is that of the job's own tooling.
    rating
        Weakest member, as a force on the nose [N]; ``None`` where not stated.  The lower of this
        and the rating of the job's own holds.
    """

    name: str = key(
        "text",
        default="other tooling",
        help="what it is called",
        left_out='"other tooling"',
        ask="write what it is called",
        inch="narrow die",
        given=True,
        label="Name",
        hint="",
    )
    bends: tuple[int, ...] = keys(
        Key(
            kind="own",
            name="bends",
            help="which bends are made on it, counted from end 1",
            left_out="none: it is at hand to finish a bend, or to be offered where one is refused",
            inch="[2]",
            given=True,
            label="Bends made on it",
        ),
        default=(),
    )
    nose: Nose | None = keys(
        Key(
            kind="table",
            name="nose",
            help="its nose, with the keys of `tooling.nose`",
            left_out="the nose of `[tooling]`",
            new=('{ shaft = "1/2" }', '{ shaft = "12" }'),
        ),
        default=None,
    )
    shoulders: Shoulders | None = keys(
        Key(
            kind="table",
            name="shoulders",
            help="its shoulders, with the keys of `tooling.shoulders`",
            left_out="the shoulders of `[tooling]`",
            new=(
                '{ radius = "1/4", opening = "1-1/2" }',
                '{ radius = "6", opening = "38" }',
            ),
        ),
        default=None,
    )
    rating: float | None = key(
        "force",
        help="most force its weakest member may carry",
        left_out="the `rating` of `[tooling]`; the lower of both holds",
        inch="4 tons (US)",
        metric="35 kN",
        label="Rating of this tooling",
        hint="most force its weakest member may carry",
    )

    def on(self, own: Tooling) -> Tooling:
        """Return the whole tooling; what it does not state is that of the job's own [mm, N].

        The job's own rating holds too, for it may be that of a plate or carrier that both share.
        """
        stated = [one for one in (self.rating, own.rating) if one is not None]
        return evolve(
            own,
            nose=self.nose or own.nose,
            shoulders=self.shoulders or own.shoulders,
            rating=min(stated, default=None),
            members=None,  # nothing is known of what carries it
        )

    def sharing(self, own: Tooling) -> Tooling:
        """Return the whole tooling with those members of the job's own that carry it too [mm, N].

        What holds a nose or shoulders of its own is not stated.  The other of both stays where it
        is, and so do push plate, guides and what is of the press.
        """
        members, changed = own.members, self.on(own)
        if members is None:
            return changed
        lost: frozenset[Holds] = frozenset()
        if self.nose is not None:
            members, lost = evolve(members, nose=None, carriers=None), _OF_NOSE
        if self.shoulders is not None:
            members, lost = evolve(members, shoulders=None, body=None), lost | _OF_SHOULDERS
        return evolve(
            changed,
            members=evolve(
                members,
                weld=tuple(one for one in members.weld if one.holds not in lost),
                bolt=tuple(one for one in members.bolt if one.holds not in lost),
            ),
        )
