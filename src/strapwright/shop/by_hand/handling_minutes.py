"""How long it takes in this shop to lay the bar anew between two bends."""

from __future__ import annotations

from attrs import frozen

from strapwright.shop.keys import key

# They stand to each other as 3 to 2 to 1; common practice, no source [min].
TURN_OVER, SWAP_ENDS, MOVE_STOP, TAKE_AGAIN, CHANGE_TOOLING = 0.3, 0.2, 0.1, 0.1, 5.0


@frozen(kw_only=True)
class HandlingMinutes:
    """Minutes that handling takes; the order with the least of them is the best.

    Attributes
    ----------
    turn_over, swap_ends
        Other face up; end for end [min].
    half_turn
        Both in one move, by a half turn in the plane of the profile; ``None`` where the one is done
        and then the other [min].
    move_stop
        The end stop is set anew [min].
    take_again
        A part is taken off the pile and laid in again, where all parts get one bend before the
        next [min].
    change_tooling
        Other tooling is put in, where the bends of a part are made on several [min].
    """

    turn_over: float = key(
        "minutes",
        default=TURN_OVER,
        zero=True,
        help="to turn the bar over",
        hint="",
        inch="0.5",
    )
    swap_ends: float = key(
        "minutes",
        default=SWAP_ENDS,
        zero=True,
        help="to swap its ends",
        hint="",
        inch="0.4",
    )
    half_turn: float | None = key(
        "minutes",
        zero=True,
        help="to do both in one move",
        hint="",
        left_out="the two together",
        inch="0.4",
    )
    move_stop: float = key(
        "minutes",
        default=MOVE_STOP,
        zero=True,
        help="to move the end stop",
        hint="",
        inch="1.5",
    )
    take_again: float = key(
        "minutes",
        default=TAKE_AGAIN,
        zero=True,
        help="to take a part off the pile and place it again, where all get one bend before the "
        "next",
        inch="0.25",
    )
    change_tooling: float = key(
        "minutes",
        default=CHANGE_TOOLING,
        zero=True,
        help="to put other tooling in, where the bends of a part are made on several",
        inch="15",
    )
